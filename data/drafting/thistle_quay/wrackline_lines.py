"""The construction lines of Wrackline that several pieces share: straps, necks, armholes, sides, hems.

The back is drawn with centre back at x = 0 and the side to the right, the front with centre front at x = 0 and the side
to the left: the wearer's right half of both, right side of the cloth up. The nape is at y = 0. The shoulder is only a
line of construction: the back's strap, the tab, runs on over it and is buttoned to the front's.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

from .curves import Chain, arc, bow, curve, joined, line
from .wrackline_measures import BACK_SLOPE_RAD, FRONT_SLOPE_RAD, SIDE_SLOPE_RAD, TAB_POINT_PART, Measures

# Shapes of the curves: where a curve's middle lies, and how long its handles are as parts of the way to the meeting of
# the tangents at its ends. Chosen by eye on the drawn pieces; 0.55 is a quarter of an ellipse.
ELLIPSE = 0.55
NECK_CENTRE_HANDLE, NECK_STRAP_HANDLE = 0.62, 0.62
ARMHOLE_MIDDLE_PART = 0.50
"""The armhole stands upright at this part of its height, from the strap."""
ARMHOLE_TURNS_PART = 0.55
"""Above that it leaves the strap's direction at this part of the way."""
ARMHOLE_UPPER_HANDLE, ARMHOLE_LOWER_HANDLE, ARMHOLE_UNDER_HANDLE = 0.60, 0.60, 0.72
HALF_TURN_PARTS = 4


@dataclass(frozen=True, kw_only=True)
class Half:
    """Construction of one half body. `outward` is +1 where the side lies to the right (back), −1 for the front.

    `armhole` runs from the end of the strap (or tab) to the underarm, `neck` from the end to the centre, `end` round
    the end from armhole to neck: a half circle about `button` in front, a point beyond it at the back.
    """

    outward: int
    neck_centre: complex
    along_shoulder: complex
    down_strap: complex
    shoulder_inner: complex
    shoulder_outer: complex
    button: complex
    end: Chain
    underarm: complex
    down_side: complex
    neck: Chain
    armhole: Chain

    @property
    def tab_middle(self) -> tuple[complex, complex]:
        """Both ends of the line along the middle of the tab: its point, and the shoulder."""
        return self.end[0].end, (self.shoulder_inner + self.shoulder_outer) / 2

    def side_at(self, depth_mm: float) -> complex:
        """Return the point of the side seam at a depth below the nape."""
        return self.underarm + self.down_side * (depth_mm - self.underarm.imag) / self.down_side.imag

    def rise_mm(self, half_width_mm: float) -> float:
        """Return how far a line that is square to centre and side rises from the one to the other: as an arc does."""
        return half_width_mm * math.tan(SIDE_SLOPE_RAD / 2)

    def level(self, depth_mm: float) -> Chain:
        """Return a hem-like line from the centre, at a depth, to the side: square to both, alike front and back."""
        end = self.side_at(depth_mm - self.rise_mm(abs(self.side_at(depth_mm).real)))
        return self.level_to(complex(0, depth_mm), end)

    def level_up_from(self, end: complex) -> Chain:
        """Return a hem-like line from the centre to a given point of the side."""
        return self.level_to(complex(0, end.imag + self.rise_mm(abs(end.real))), end)

    def level_to(self, inner: complex, end: complex) -> Chain:
        """Return a line that leaves the centre level and meets the side at a right angle."""
        square = self.down_side * (-1j if self.outward > 0 else 1j)
        third = abs(end - inner) / 3
        return curve(inner, complex(self.outward * third, 0), -third * square, end)


def half_of(m: Measures, *, front: bool) -> Half:
    """Construct the back or the front half of a size."""
    outward = -1 if front else 1
    slope = FRONT_SLOPE_RAD if front else BACK_SLOPE_RAD
    along = cmath.rect(1, slope) if not front else -cmath.rect(1, -slope)
    down_strap = along * 1j * outward
    neck_shoulder = complex(outward * m.neck_width, -m.neck_rise)
    inner = neck_shoulder + along * m.strap_from
    outer = inner + along * m.strap
    to_button = down_strap * (m.button if front else -m.button)
    button = (inner + outer) / 2 + to_button
    underarm = complex(outward * m.quarter_chest, m.underarm)
    down_side = 1j * cmath.exp(-1j * outward * SIDE_SLOPE_RAD)
    # The front's armhole and neck leave its round end at once, the back's first run straight, back over the shoulder.
    armhole_top, neck_top = (outer + to_button, inner + to_button) if front else (outer, inner)
    height_mm = (m.underarm - armhole_top.imag) * ARMHOLE_MIDDLE_PART
    inward_mm = height_mm * ARMHOLE_TURNS_PART * abs(down_strap.real) / down_strap.imag
    middle = armhole_top + complex(-outward * inward_mm, height_mm)
    square = down_side * (-1j if outward > 0 else 1j)
    armhole = joined(
        bow(armhole_top, down_strap, ARMHOLE_UPPER_HANDLE, middle, 1j, ARMHOLE_UPPER_HANDLE),
        bow(middle, 1j, ARMHOLE_LOWER_HANDLE, underarm, square, ARMHOLE_UNDER_HANDLE),
    )
    neck_centre = complex(0, m.front_neck if front else m.back_neck)
    neck = bow(neck_top, down_strap, NECK_STRAP_HANDLE, neck_centre, complex(-outward, 0), NECK_CENTRE_HANDLE)
    if not front:
        armhole = joined(line(outer + to_button, outer), armhole)
        neck = joined(line(inner + to_button, inner), neck)
    from_rad = cmath.phase(along)
    round_end = arc(button, m.strap / 2, from_rad, from_rad - outward * math.pi, HALF_TURN_PARTS)
    pointed = line(armhole[0].start, button - down_strap * m.strap * TAB_POINT_PART, neck[0].start)
    return Half(
        outward=outward,
        neck_centre=neck_centre,
        along_shoulder=along,
        down_strap=down_strap,
        shoulder_inner=inner,
        shoulder_outer=outer,
        button=button,
        end=round_end if front else pointed,
        underarm=underarm,
        down_side=down_side,
        neck=neck,
        armhole=armhole,
    )
