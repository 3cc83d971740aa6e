"""The lengths from which Breakwater is drafted: body measurements with this garment's ease (mm).

Ordinary flat drafting of trousers: centre front as the origin, depths measured down from the finished top edge at the
side. Factors and additions are our own choice for roomy pull-on trousers; none is a standard.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from .bodies import Body

NAPPY_FULL_UNTIL_MM, NAPPY_GONE_FROM_MM = 800.0, 1160.0
"""Body heights: nappies by day up to size 80; from then the room falls evenly and is gone in size 116, when nearly all
children are dry at night too (from memory)."""
NAPPY_GIRTH_MM = 40.0
"""A full nappy adds about this much to the hip's girth (from memory, weak; brands differ)."""
NAPPY_DEPTH_MM = 15.0
"""A nappy sets the crotch of the trousers lower by this much (common practice is 10 to 20, no source)."""
HIP_EASE_MM = 95.0
"""Ease at the hip without the nappy's share: a child squats and climbs in these."""
WAIST_OVER_HIP_MM = 40.0
"""Waist stitching line beyond the hip, without the nappy's share; a woven pull-on needs 20 (common practice)."""
CROTCH_EASE_MM = 22.0
"""The crotch hangs this far below the body's without a nappy (common practice is 10 to 25 in roomy trousers)."""
ELASTIC_MM, CASING_ROOM_MM = 20.0, 6.0
"""A casing is the elastic and 6 more (sewing guideline 12.150)."""
BAND_MM = ELASTIC_MM + CASING_ROOM_MM
"""Finished height of the waist band, which is the casing."""
HIP_LINE_PART = 0.4
"""The hip line lies this part of the rise above the crotch line."""
BACK_WIDER_MM = 6.0
"""At the hip a back quarter is this much wider, a front quarter narrower, than a quarter of the girth."""
FRONT_FORK_PART, BACK_FORK_PART = 0.06, 0.127
"""How far the front and the back reach under the body, as parts of the finished hip. Together 0.19: about the depth
of a child's body from front to back, 0.21 of the body's hip (from memory)."""
CENTRE_BACK_TILT_RAD = math.radians(11.0)
"""Centre back leans this far, which lengthens the seat for bending; adults' trousers lean more."""
SIDE_STEP_RAD = math.radians(4.0)
"""At the side the waist line climbs towards the back by this much: front lower, back higher, smooth across the seam."""
LEG_OPENING_PER_ANKLE, LEG_OPENING_PLUS_MM = 1.2, 76.0
"""Finished leg opening from the ankle's girth. It passes the heel, which is some 1.4 ankles round (from memory)."""
HEM_BACK_WIDER_MM = 8.0
"""At the hem the back half is this much wider, and the front half narrower, than half of the opening."""
SIDE_TAPER_PART = 0.5
"""Share of a leg's narrowing that the side seam takes; the rest is the inseam's. Half each: the leg hangs straight."""
ABOVE_FLOOR_MM = 14.0
"""The hem hangs this far above the floor without shoes."""
SHORT_INSEAM_PART = 0.34
"""Inseam of the short version as part of the long one: a hand above the knee."""
CUFF_PER_HEIGHT = 0.05
"""Finished height of the rib cuff as part of body height."""
CUFF_BLOUSE_MM = 12.0
"""With cuffs the leg is this much longer in all, so that it falls over the cuff a little."""
CUFF_PER_EDGE = 0.82
"""The cuff's ring as part of the edge: 80 to 90 % (from memory)."""
TURN_UP_MM = 25.0
"""Finished depth of the turn-up. Its hem allowance is twice this and 15 more."""
STRAIGHT_MM = TURN_UP_MM + 3.0
"""So much of the leg above the hem is straight, so that what is folded up there lies flat."""


@dataclass(frozen=True, kw_only=True)
class Measures:
    """Lengths of one size, mm; depths below the finished top edge at the side."""

    hip: float
    waist: float
    front_hip: float
    back_hip: float
    quarter_waist: float
    waist_seam: float
    hip_line: float
    crotch_line: float
    hem: float
    front_fork: float
    back_fork: float
    front_hem: float
    back_hem: float
    cuff: float
    cuff_cut: float

    @property
    def leg_opening(self) -> float:
        """Girth of the finished leg opening."""
        return self.front_hem + self.back_hem


def nappy_part(body: Body) -> float:
    """Return how much of the nappy's room a size has: 1 up to size 80, falling evenly to 0 in size 116."""
    gone = (body["height"] - NAPPY_FULL_UNTIL_MM) / (NAPPY_GONE_FROM_MM - NAPPY_FULL_UNTIL_MM)
    return min(1.0, max(0.0, 1.0 - gone))


def measures_of(body: Body) -> Measures:
    """Return the drafting lengths of a body (all mm)."""
    nappy = nappy_part(body)
    hip = body["hip"] + HIP_EASE_MM + NAPPY_GIRTH_MM * nappy
    waist = body["hip"] + WAIST_OVER_HIP_MM + NAPPY_GIRTH_MM * nappy
    crotch_line = body["crotch_depth"] + CROTCH_EASE_MM + NAPPY_DEPTH_MM * nappy
    opening = body["ankle"] * LEG_OPENING_PER_ANKLE + LEG_OPENING_PLUS_MM
    cuff = body["height"] * CUFF_PER_HEIGHT
    return Measures(
        hip=hip,
        waist=waist,
        front_hip=hip / 4 - BACK_WIDER_MM,
        back_hip=hip / 4 + BACK_WIDER_MM,
        quarter_waist=waist / 4,
        waist_seam=BAND_MM,
        hip_line=crotch_line * (1 - HIP_LINE_PART),
        crotch_line=crotch_line,
        hem=body["crotch_depth"] + body["inside_leg"] - ABOVE_FLOOR_MM,
        front_fork=hip * FRONT_FORK_PART,
        back_fork=hip * BACK_FORK_PART,
        front_hem=opening / 2 - HEM_BACK_WIDER_MM,
        back_hem=opening / 2 + HEM_BACK_WIDER_MM,
        cuff=cuff,
        cuff_cut=cuff - CUFF_BLOUSE_MM,
    )
