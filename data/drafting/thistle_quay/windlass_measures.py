"""The lengths from which Windlass is drafted: body measurements with this garment's ease (mm).

Ordinary flat drafting: a quarter of the chest across, the nape as the origin, depths measured down from it. All
factors and additions are our own choice for a close knit top; none is a standard.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from .bodies import Body

CHEST_EASE_PART, HIP_EASE_PART = 0.04, 0.04
"""Ease at chest and hem as parts of chest and hip: 16 to 25 mm and 17 to 26 mm."""
UPPER_ARM_EASE_PART = 0.18
"""Ease of the sleeve at the underarm as part of the upper arm: 24 to 34 mm."""
RING_PER_HEAD = 0.82
"""Length of the neck's stitching line, all round, as part of the head's girth. A knit that stretches by half, and the
neckband cut from it, then pass the head; see the tests."""
NECK_WIDTH_PART, NECK_RISE_PART = 1 / 5, 1 / 3
"""Half the width of a neck that lies close, from the neck's girth, and how far the shoulder stands above the nape
there, as part of that width."""
BACK_NECK_PART, FRONT_NECK_PART = 0.06, 0.27
"""Depths of the neck's stitching line at centre back and centre front below the nape, as parts of the neck's girth."""
SHOULDER_SLOPE_RAD = math.radians(20)
AXIS_RAD = math.radians(26)
"""The sleeve's middle falls this steeply: a compromise between the shoulder and a hanging arm."""
UNDERARM_PART, UNDERARM_PLUS_MM = 1 / 4, 16.0
"""Underarm line below the nape, from the chest's girth."""
LENGTH_PER_BACK = 1.6
"""Length from the nape as part of nape to waist: to the hip."""
END_PART = 1.34
"""Width of the long sleeve's end from the wrist: the hand passes."""
SHORT_PART = 0.17
"""Length of the short sleeve along the underarm seam, as part of the arm's length."""
BAND_PLUS_MM, BAND_PART = 20.0, 0.025
"""Finished height of cuffs and hem band: this and a part of the body's height, 36 to 52 mm."""
SHORT_CUFF_MM = 20.0
"""Finished height of the short sleeve's cuff."""
NECKBAND_MM = 20.0
"""Finished height of the neckband, which is folded along its middle."""
NECKBAND_RATIO, CUFF_RATIO, HEM_BAND_RATIO = 0.88, 0.84, 0.88
"""Lengths of neckband, cuffs and hem band as parts of the edges they are sewn to."""
STRIP_MM = 16.0
"""Finished width of the strips at the opening."""
OPENING_PER_HEAD = 0.165
"""Length of the opening as part of the head's girth: 68 to 86 mm."""
STITCHED_ACROSS_MM = 10.0
"""At its end the opening is stitched across up to this height, so that much of it does not open."""


@dataclass(frozen=True, kw_only=True)
class Measures:
    """Lengths of one size, mm; depths below the nape."""

    quarter_chest: float
    quarter_hip: float
    neck_width: float
    back_neck: float
    front_neck: float
    ring: float
    underarm: float
    waist: float
    hem: float
    upper_sleeve: float
    sleeve_end: float
    shoulder: float
    arm_length: float
    band: float
    opening: float
    head: float

    @property
    def neck_rise(self) -> float:
        """How far the body's shoulder stands above the nape at the neck."""
        return self.neck_width * NECK_RISE_PART


def measures_of(body: Body) -> Measures:
    """Return the drafting lengths of a body (all mm)."""
    return Measures(
        quarter_chest=body["chest"] * (1 + CHEST_EASE_PART) / 4,
        quarter_hip=body["hip"] * (1 + HIP_EASE_PART) / 4,
        neck_width=body["neck"] * NECK_WIDTH_PART,
        back_neck=body["neck"] * BACK_NECK_PART,
        front_neck=body["neck"] * FRONT_NECK_PART,
        ring=body["head"] * RING_PER_HEAD,
        underarm=body["chest"] * UNDERARM_PART + UNDERARM_PLUS_MM,
        waist=body["back_length"],
        hem=body["back_length"] * LENGTH_PER_BACK,
        upper_sleeve=body["upper_arm"] * (1 + UPPER_ARM_EASE_PART),
        sleeve_end=body["wrist"] * END_PART,
        shoulder=body["shoulder"],
        arm_length=body["arm_length"],
        band=BAND_PLUS_MM + body["height"] * BAND_PART,
        opening=body["head"] * OPENING_PER_HEAD,
        head=body["head"],
    )
