"""The lengths from which Wrackline is drafted: body measurements with this garment's ease (mm).

Ordinary flat drafting: a quarter of the chest across, the nape as the origin, depths measured down from it. All
factors and additions are our own choice for a pinafore worn over a shirt; none is a standard.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from .bodies import Body

CHEST_EASE_PART = 0.17
"""Ease at the chest as part of the chest: 82 mm in size 86 to 98 mm in size 116."""
NECK_WIDTH_PART, NECK_WIDTH_PLUS_MM = 1 / 5, 3.0
"""Half the width of a neck that lies close, from the neck's girth: where the body's shoulder begins."""
NECK_RISE_PART = 1 / 3
"""How far the shoulder stands above the nape, as part of the neck width."""
BACK_NECK_PART, FRONT_NECK_PART = 0.12, 0.27
"""Depths of the neck edge at centre back and centre front below the nape, as parts of the neck's girth."""
BACK_SLOPE_RAD, FRONT_SLOPE_RAD = math.radians(18), math.radians(20)
STRAP_FROM_PART, STRAP_WIDTH_PART = 0.30, 0.56
"""Where the strap begins on the shoulder, and how wide it is, as parts of the shoulder: it ends well inside the tip."""
STRAP_STOPS_MM = 6.0
"""The front's strap ends this far before the shoulder, so that nothing thick lies on top of it."""
TAB_POINT_PART = 0.5
"""The tab's point reaches beyond the button by this part of the strap's width: a right angle."""
ARMHOLE_DEPTH_PART, ARMHOLE_DEPTH_PLUS_MM = 1 / 4, 22.0
"""Underarm line below the nape, from the chest's girth."""
SIDE_SLOPE_RAD = math.radians(8)
"""The side seam leans outward by this much: the garment grows wider towards the hem."""
LENGTH_PER_HEIGHT = 0.52
"""Length from the nape as part of body height: to a hand above the knee."""
LINING_SHORTER_MM = 15.0
"""The lining ends this far above the hem."""
FACING_DOWN_SIDE_MM = 32.0
"""The facings reach this far down the side seams."""
BELT_MM = 32.0
"""Finished height of the half-belt."""
BELT_REACH_PART = 0.60
"""The half-belt's buttons sit at this part of the back's half width at the waist, from the centre."""
BELT_STRAIGHT_MM, BELT_POINT_MM = 8.0, 10.0
"""Beyond its buttons the half-belt runs straight for a while and then ends in a blunt point."""
BELT_SHORTER_MM = 24.0
"""Between its buttonholes the half-belt is this much shorter than the back below it, which it draws in."""
POUCH_HIGH_PART, POUCH_LOW_PART, POUCH_BASE_PART = 0.34, 0.50, 0.83
"""Upper and lower end of the pouch's edge, and its base, as parts of the side seam from the underarm."""
BINDING_MM = 10.0
"""Finished height of the binding, the allowance that it takes in."""
BINDING_PARTS = 4
"""A binding is folded in four: both its edges are turned in, and the edge it binds lies in the middle."""


@dataclass(frozen=True, kw_only=True)
class Measures:
    """Lengths of one size, mm; depths below the nape."""

    quarter_chest: float
    neck_width: float
    neck_rise: float
    back_neck: float
    front_neck: float
    shoulder: float
    strap_from: float
    strap: float
    underarm: float
    waist: float
    hem: float

    @property
    def button(self) -> float:
        """How far in front of the shoulder the button sits: where strap and tab are widest."""
        return STRAP_STOPS_MM + self.strap / 2


def measures_of(body: Body) -> Measures:
    """Return the drafting lengths of a body (all mm)."""
    neck_width = body["neck"] * NECK_WIDTH_PART + NECK_WIDTH_PLUS_MM
    return Measures(
        quarter_chest=body["chest"] * (1 + CHEST_EASE_PART) / 4,
        neck_width=neck_width,
        neck_rise=neck_width * NECK_RISE_PART,
        back_neck=body["neck"] * BACK_NECK_PART,
        front_neck=body["neck"] * FRONT_NECK_PART,
        shoulder=body["shoulder"],
        strap_from=body["shoulder"] * STRAP_FROM_PART,
        strap=body["shoulder"] * STRAP_WIDTH_PART,
        underarm=body["chest"] * ARMHOLE_DEPTH_PART + ARMHOLE_DEPTH_PLUS_MM,
        waist=body["back_length"],
        hem=body["height"] * LENGTH_PER_HEIGHT,
    )
