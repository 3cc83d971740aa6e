"""The construction lines of Ferrylight's body that several pieces share: necks, shoulders, armholes, sides, hems.

The back is drawn with centre back at x = 0 and the side to the right, the front with centre front at x = 0 and the side
to the left: the wearer's right half of both, right side of the cloth up. The nape is at y = 0.
"""

from __future__ import annotations

import cmath
from dataclasses import dataclass

from .curves import Chain, bow, chain_length_mm, curve, joined, line, split_at_length
from .ferrylight_measures import (
    BACK_INSET_PART,
    BACK_SLOPE_RAD,
    FACING_BEHIND_CENTRE_MM,
    FRONT_INSET_PART,
    FRONT_SLOPE_RAD,
    OVERLAP_MM,
    SIDE_SLOPE_RAD,
    Measures,
)

# Shapes of the curves: where a curve's middle lies, and how long its handles are as parts of the way to the meeting of
# the tangents at its ends. Chosen by eye on the drawn pieces; 0.55 is a quarter of an ellipse.
ELLIPSE = 0.55
BACK_NECK_FLAT = 0.62
ARMHOLE_MIDDLE_BACK, ARMHOLE_MIDDLE_FRONT = 0.50, 0.58
ARMHOLE_UPPER_TIP, ARMHOLE_UPPER_MIDDLE = 0.70, 0.60
ARMHOLE_LOWER_MIDDLE, ARMHOLE_LOWER_UNDER = 0.62, 0.80
FACING_LOW_HANDLE, FACING_SHOULDER_HANDLE = 0.55, 0.45
FACING_STRAIGHT_BELOW_NECK_PART = 0.85
"""The facing's inner edge runs straight from this part of the neck's depth below the neck."""
NOTCH_PART_BACK, NOTCH_PART_FRONT = 0.45, 0.40
"""Armhole notches lie at this part of the armhole's length, from the underarm."""


@dataclass(frozen=True, kw_only=True)
class Half:
    """Construction of one half body. `outward` is +1 where the side lies to the right (back), −1 for the front."""

    outward: int
    neck_centre: complex
    neck_shoulder: complex
    along_shoulder: complex
    shoulder_tip: complex
    underarm: complex
    down_side: complex
    neck: Chain
    armhole: Chain

    def side_at(self, depth_mm: float) -> complex:
        """Return the point of the side seam at a depth below the nape."""
        return self.underarm + self.down_side * (depth_mm - self.underarm.imag) / self.down_side.imag

    def level(self, depth_mm: float, inner_x_mm: float) -> Chain:
        """Return a hem-like line at a depth, square to the centre and to the side seam, from inner x to the side.

        The line is level at its inner end and meets the side seam at a right angle, so it rises a little; by the same
        amount in front and back, so that the side seams are equally long.
        """
        inner = complex(inner_x_mm, depth_mm)
        square = self.down_side * (-1j if self.outward > 0 else 1j)
        rise_mm = abs(self.underarm.real) * abs(square.imag) / 2
        end = self.side_at(depth_mm - rise_mm)
        third = abs(end - inner) / 3
        return curve(inner, complex(self.outward * third, 0), -third * square, end)


def curve_of_armhole(tip: complex, leaving: complex, middle: complex, underarm: complex, arriving: complex) -> Chain:
    """Return the armhole from shoulder tip to underarm: two cubics that meet upright at the middle.

    Args:
        tip, middle, underarm: points it passes.
        leaving: unit vector in which it leaves the tip.
        arriving: unit vector in which it arrives at the underarm.
    """
    return joined(
        bow(tip, leaving, ARMHOLE_UPPER_TIP, middle, 1j, ARMHOLE_UPPER_MIDDLE),
        bow(middle, 1j, ARMHOLE_LOWER_MIDDLE, underarm, arriving, ARMHOLE_LOWER_UNDER),
    )


def half_of(m: Measures, *, front: bool) -> Half:
    """Construct the back or the front half of a size."""
    outward = -1 if front else 1
    slope = FRONT_SLOPE_RAD if front else BACK_SLOPE_RAD
    along = cmath.rect(1, slope) if not front else -cmath.rect(1, -slope)
    into_body = along * 1j * outward
    neck_shoulder = complex(outward * m.neck_width, -m.neck_rise)
    neck_centre = complex(0, m.front_neck_depth - m.neck_rise) if front else 0j
    tip = neck_shoulder + along * m.shoulder
    underarm = complex(outward * m.quarter_chest, m.armhole_depth)
    down_side = 1j * cmath.exp(-1j * outward * SIDE_SLOPE_RAD)
    arriving = down_side * (-1j if outward > 0 else 1j)
    inset_mm = m.shoulder * (FRONT_INSET_PART if front else BACK_INSET_PART)
    part = ARMHOLE_MIDDLE_FRONT if front else ARMHOLE_MIDDLE_BACK
    middle = complex(tip.real - outward * inset_mm, tip.imag + part * (underarm.imag - tip.imag))
    flat = ELLIPSE if front else BACK_NECK_FLAT
    neck = bow(neck_centre, complex(outward, 0), flat, neck_shoulder, -into_body, ELLIPSE)
    return Half(
        outward=outward,
        neck_centre=neck_centre,
        neck_shoulder=neck_shoulder,
        along_shoulder=along,
        shoulder_tip=tip,
        underarm=underarm,
        down_side=down_side,
        neck=neck,
        armhole=curve_of_armhole(tip, into_body, middle, underarm, arriving),
    )


def notched_armhole(half: Half) -> tuple[Chain, Chain, float]:
    """Return the armhole from shoulder tip to notch, from notch to underarm, and the latter's length (mm)."""
    length_mm = chain_length_mm(half.armhole)
    below_mm = length_mm * (NOTCH_PART_FRONT if half.outward < 0 else NOTCH_PART_BACK)
    upper, lower = split_at_length(half.armhole, length_mm - below_mm)
    return upper, lower, below_mm


def facing_shoulder_point(half: Half, m: Measures) -> complex:
    """Return where the facings end on the shoulder seam."""
    return half.neck_shoulder + half.along_shoulder * m.facing_shoulder


def back_facing_curve(half: Half, m: Measures) -> Chain:
    """Return the outer edge of the back neck facing from centre back to the shoulder, square to both."""
    centre, shoulder = complex(0, m.facing_centre_back), facing_shoulder_point(half, m)
    into_body = half.along_shoulder * 1j
    return bow(centre, 1 + 0j, BACK_NECK_FLAT, shoulder, -into_body, ELLIPSE)


def front_facing_curve(half: Half, m: Measures) -> Chain:
    """Return the inner edge of the front facing from the shoulder down to where it runs straight."""
    shoulder = facing_shoulder_point(half, m)
    into_body = -half.along_shoulder * 1j
    low_mm = half.neck_centre.imag + FACING_STRAIGHT_BELOW_NECK_PART * m.front_neck_depth
    low = complex(-FACING_BEHIND_CENTRE_MM, low_mm)
    drop = low.imag - shoulder.imag
    return curve(shoulder, into_body * drop * FACING_SHOULDER_HANDLE, complex(0, -drop * FACING_LOW_HANDLE), low)


def front_level(half: Half, depth_mm: float) -> tuple[Chain, Chain]:
    """Return a hem-like line of the front: straight from the front edge to the facing, then on to the side."""
    facing = complex(-FACING_BEHIND_CENTRE_MM, depth_mm)
    return line(complex(OVERLAP_MM, depth_mm), facing), half.level(depth_mm, facing.real)

