"""The lengths from which Ferrylight is drafted: body measurements with this garment's ease (mm).

Ordinary flat drafting: a quarter of the chest across, the nape as the origin, depths measured down from it. All
factors and additions are our own choice for a boxy lined jacket worn over a shirt; none is a standard.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from .bodies import Body

CHEST_EASE_PART = 0.20
"""Ease at the chest as part of the chest: 86 mm in size 68 to 115 mm in size 116."""
NECK_WIDTH_PART, NECK_WIDTH_PLUS_MM = 1 / 5, 3.0
"""Half the width of the neck opening from the neck's girth."""
NECK_RISE_PART = 1 / 3
"""How far the shoulder stands above the nape, as part of the neck width."""
FRONT_NECK_PLUS_MM = 6.0
"""The front neck is this much deeper than it is wide."""
BACK_SLOPE_RAD, FRONT_SLOPE_RAD = math.radians(18), math.radians(20)
SHOULDER_PLUS_MM = 8.0
"""A jacket's shoulder reaches a little beyond the shoulder tip."""
ARMHOLE_DEPTH_PART, ARMHOLE_DEPTH_PLUS_MM = 1 / 4, 20.0
"""Underarm line below the nape, from the chest's girth."""
BACK_INSET_PART, FRONT_INSET_PART = 0.09, 0.16
"""How far the armhole lies inside the shoulder tip, as part of the shoulder."""
SIDE_SLOPE_RAD = math.radians(1.5)
"""The side seam leans outward by this much, so that the hem is a little wider than the chest."""
HIP_LENGTH_PART = 1.5
"""Length at centre back of the long version, as part of nape to waist."""
WAIST_DROP_MM = 10.0
"""The seam of the waist band lies this far below the body's waist."""
OVERLAP_MM = 15.0
"""Front edge beyond the centre line: at least 3/4 of a 13 mm button (textbook)."""
FACING_BEHIND_CENTRE_MM = 28.0
FACING_SHOULDER_PART = 0.38
"""Width of the facings at the shoulder, as part of the shoulder seam."""
FACING_CENTRE_BACK_PLUS_MM = 4.0
PLEAT_MM = 12.0
"""Half of the ease pleat at the centre back of the lining."""
LINING_SHORTER_MM = 5.0
"""Lining seam line above the finished hem. Hem allowance 25, seam 10: the cloth's edge is met 15 above the fold, so
the lining has 10 to spare, which falls into a soft fold."""
BAND_LINING_PLUS_MM = 5.0
"""The lining is caught in the waist band this much longer than the outer cloth."""


@dataclass(frozen=True, kw_only=True)
class Measures:
    """Lengths of one size, mm."""

    quarter_chest: float
    neck_width: float
    neck_rise: float
    front_neck_depth: float
    shoulder: float
    armhole_depth: float
    waist: float
    hip_hem: float
    facing_shoulder: float
    facing_centre_back: float
    upper_arm: float
    wrist: float
    arm_length: float

    @property
    def waist_seam(self) -> float:
        """Depth of the waist band's seam below the nape."""
        return self.waist + WAIST_DROP_MM


def measures_of(body: Body) -> Measures:
    """Return the drafting lengths of a body (all mm)."""
    neck_width = body["neck"] * NECK_WIDTH_PART + NECK_WIDTH_PLUS_MM
    shoulder = body["shoulder"] + SHOULDER_PLUS_MM
    facing_shoulder = shoulder * FACING_SHOULDER_PART
    return Measures(
        quarter_chest=body["chest"] * (1 + CHEST_EASE_PART) / 4,
        neck_width=neck_width,
        neck_rise=neck_width * NECK_RISE_PART,
        front_neck_depth=neck_width + FRONT_NECK_PLUS_MM,
        shoulder=shoulder,
        armhole_depth=body["chest"] * ARMHOLE_DEPTH_PART + ARMHOLE_DEPTH_PLUS_MM,
        waist=body["back_length"],
        hip_hem=body["back_length"] * HIP_LENGTH_PART,
        facing_shoulder=facing_shoulder,
        facing_centre_back=facing_shoulder + FACING_CENTRE_BACK_PLUS_MM,
        upper_arm=body["upper_arm"],
        wrist=body["wrist"],
        arm_length=body["arm_length"],
    )
