"""The construction lines of Windlass that several pieces share: necks, raglan seams, sides, hems.

The back is drawn with centre back at x = 0 and the side to the right, the front with centre front at x = 0 and the side
to the left: the wearer's right half of both, right side of the cloth up. The nape is at y = 0. Neck and shoulder are
first drawn as if the body had a shoulder seam; the raglan seam then gives the piece beside it to the sleeve.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from functools import cache

from .curves import Chain, bow, chain_length_mm, curve, solve, split_at_length
from .windlass_measures import AXIS_RAD, SHOULDER_SLOPE_RAD, Measures

# Shapes of the curves: how long their handles are as parts of the way to the meeting of the tangents at their ends.
# Chosen by eye on the drawn pieces; 0.55 is a quarter of an ellipse.
FRONT_NECK_HANDLE, BACK_NECK_HANDLE = 0.67, 0.50
NECK_KEPT_FRONT, NECK_KEPT_BACK = 0.66, 0.68
"""The raglan seam meets the neck at this part of its way from the centre; the rest of the neck is the sleeve's."""
RAGLAN_LEAVING_RAD = math.radians(9)
"""At the neck the raglan seam runs steeper than straight to the underarm by this much."""
RAGLAN_NECK_HANDLE, RAGLAN_UNDERARM_HANDLE = 0.62, 0.62
NOTCH_PART = 0.16
"""The first notch lies at this part of the raglan seam, from the underarm."""
SECOND_NOTCH_MM = 10.0
"""The back has a second notch, this far above the first."""


@dataclass(frozen=True, kw_only=True)
class Half:
    """Construction of one half body. `outward` is +1 where the side lies to the right (back), −1 for the front.

    `neck` runs from the centre to the raglan seam and is the body's, `sleeve_neck` from there to the shoulder and is
    the sleeve's; `raglan` runs from the neck to the underarm.
    """

    outward: int
    neck_centre: complex
    neck_raglan: complex
    neck_shoulder: complex
    axis: complex
    neck: Chain
    sleeve_neck: Chain
    raglan: Chain
    raglan_leaving: complex
    underarm: complex
    down_side: complex

    def side_at(self, depth_mm: float) -> complex:
        """Return the point of the side seam at a depth below the nape."""
        return self.underarm + self.down_side * (depth_mm - self.underarm.imag) / self.down_side.imag

    def level(self, depth_mm: float) -> Chain:
        """Return a hem-like line from the centre, at a depth, to the side: square to both, alike front and back."""
        inner = complex(0, depth_mm)
        rise_mm = abs(self.side_at(depth_mm).real) * math.tan(cmath.phase(self.down_side / 1j) / 2)
        end = self.side_at(depth_mm - abs(rise_mm))
        square = self.down_side * (-1j if self.outward > 0 else 1j)
        third = abs(end - inner) / 3
        return curve(inner, complex(self.outward * third, 0), -third * square, end)


def whole_neck(m: Measures, width_mm: float, *, front: bool) -> Chain:
    """Return the neck's stitching line from the centre to the shoulder, for half a neck width (mm)."""
    outward = -1 if front else 1
    axis = axis_of(outward)
    shoulder = complex(
        outward * width_mm, (width_mm - m.neck_width) * math.tan(SHOULDER_SLOPE_RAD) - m.neck_rise
    )
    centre = complex(0, m.front_neck if front else m.back_neck)
    arriving = -axis * 1j * outward
    handle = FRONT_NECK_HANDLE if front else BACK_NECK_HANDLE
    return bow(centre, complex(outward, 0), handle, shoulder, arriving, handle)


def axis_of(outward: int) -> complex:
    """Return the direction of the sleeve's middle, from the neck outward and down."""
    return complex(outward * math.cos(AXIS_RAD), math.sin(AXIS_RAD))


@cache
def neck_width_mm(m: Measures) -> float:
    """Return half the neck's width for which its stitching line is as long as it has to be (mm)."""

    def missing_mm(width_mm: float) -> float:
        """Return how much the neck is too long for a width."""
        return 2 * sum(chain_length_mm(whole_neck(m, width_mm, front=side)) for side in (True, False)) - m.ring

    return solve(missing_mm, m.neck_width * 1.35, m.neck_width * 2.2)


@cache
def half_of(m: Measures, *, front: bool) -> Half:
    """Construct the back or the front half of a size."""
    outward = -1 if front else 1
    whole = whole_neck(m, neck_width_mm(m), front=front)
    kept = NECK_KEPT_FRONT if front else NECK_KEPT_BACK
    neck, sleeve_neck = split_at_length(whole, chain_length_mm(whole) * kept)
    at = neck[-1].end
    underarm = complex(outward * m.quarter_chest, m.underarm)
    lean = math.atan2(m.quarter_hip - m.quarter_chest, m.hem - m.underarm)
    down_side = 1j * cmath.exp(-1j * outward * lean)
    square = down_side * (-1j if outward > 0 else 1j)
    along = (underarm - at) / abs(underarm - at)
    leaving = along * cmath.exp(1j * outward * RAGLAN_LEAVING_RAD)
    raglan = bow(at, leaving, RAGLAN_NECK_HANDLE, underarm, square, RAGLAN_UNDERARM_HANDLE)
    return Half(
        outward=outward,
        neck_centre=whole[0].start,
        neck_raglan=at,
        neck_shoulder=whole[-1].end,
        axis=axis_of(outward),
        neck=neck,
        sleeve_neck=sleeve_neck,
        raglan=raglan,
        raglan_leaving=leaving,
        underarm=underarm,
        down_side=down_side,
    )


def marks_mm(half: Half, m: Measures) -> dict[str, float]:
    """Return the marks of a raglan seam: name to distance from the neck (mm), in this order."""
    length_mm = chain_length_mm(half.raglan)
    first = length_mm * (1 - NOTCH_PART)
    if half.outward < 0:
        return {"opening-end": m.opening, "notch": first}
    return {"second-notch": first - SECOND_NOTCH_MM, "notch": first}


def marked(raglan: Chain, half: Half, m: Measures) -> list[tuple[str, Chain]]:
    """Return a raglan seam split at its marks, from the neck: the name of each part's start (empty at the neck)."""
    parts: list[tuple[str, Chain]] = []
    name, rest, gone_mm = "", raglan, 0.0
    for mark, distance_mm in marks_mm(half, m).items():
        before, rest = split_at_length(rest, distance_mm - gone_mm)
        parts.append((name, before))
        name, gone_mm = mark, distance_mm
    return [*parts, (name, rest)]
