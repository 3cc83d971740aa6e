"""Draws Ferrylight's stand collar, and says how the little drawings show it. Outlines are stitching lines.

The stand collar is a strip that bends upward towards centre front, part of a ring: its upper edge is a little shorter
than the neck and leans towards it. It ends at centre front. Centre back is at x = 0, the wearer's right half lies to
the right, right side up.
"""

from __future__ import annotations

import math

from .curves import Chain, arc, backwards, chain_length_mm, joined, line, moved, split_at, split_at_length
from .drawing import Drawn, straight_grain
from .ferrylight_collar import corner, meeting, neck_lengths_mm
from .ferrylight_lines import Half
from .ferrylight_measures import Measures

STAND_HEIGHT_PART, STAND_HEIGHT_PLUS_MM = 0.40, 6.0
"""Height of the stand collar from half the neck's width: 24 to 28 mm."""
STAND_RISE_PART = 0.09
"""Centre front of the stand collar lies higher than centre back by this part of its neck edge."""
STAND_CORNER_MM = 12.0
STAND_ARC_PARTS = 2
GRAIN_END_MM = 6.0
QUARTER_TURN_RAD = math.pi / 2
SHOWN_BELOW_TIP_MM, SHOWN_BESIDE_NECK_MM, SHOWN_BELOW_NECK_MM = 10.0, 2.0, 6.0
"""In the little drawings the stand collar begins this far below the neck point, goes this far outside it, and ends this
far below the neck, hidden by front and back."""
SHOWN_POINT = complex(8, 2)


def stand_height_mm(m: Measures) -> float:
    """Return the finished height of the stand collar (mm)."""
    return m.neck_width * STAND_HEIGHT_PART + STAND_HEIGHT_PLUS_MM


def draw_stand_collar(m: Measures) -> Drawn:
    """Draw half of the stand collar: fold at centre back, upper front corner rounded."""
    back_mm, front_mm = neck_lengths_mm(m)
    length_mm, height_mm = back_mm + front_mm, stand_height_mm(m)
    # The rise of an arc over its tangent is length · angle / 2 for a small angle.
    angle_rad = 2 * STAND_RISE_PART
    radius_mm = length_mm / angle_rad
    centre = complex(0, -radius_mm)

    def ring(beside_mm: float) -> Chain:
        """Return the arc from centre back to centre front, this much above the neck edge."""
        bottom = QUARTER_TURN_RAD
        return arc(centre, radius_mm - beside_mm, bottom, bottom - angle_rad, STAND_ARC_PARTS)

    neck, top = ring(0), ring(height_mm)
    neck_front, top_front = neck[-1].end, top[-1].end
    upper, _ = split_at_length(top, chain_length_mm(top) - STAND_CORNER_MM)
    up = (top_front - neck_front) / height_mm
    round_start = top_front - up * STAND_CORNER_MM
    met = meeting(neck_front, up, upper[-1].end, upper[-1].slope_at(1))
    to_shoulder, from_shoulder = split_at_length(neck, back_mm)
    return Drawn(
        outline={
            "neck-centre": to_shoulder,
            "neck-shoulder": from_shoulder,
            "neck-front": joined(line(neck_front, round_start), corner(met, round_start, upper[-1].end)),
            "top-front": backwards(upper),
            "top-centre": line(top[0].start, neck[0].start),
        },
        lines={
            "grain": straight_grain(12, -height_mm + GRAIN_END_MM, -GRAIN_END_MM),
            "half-height": ring(height_mm / 2),
        },
    )


def stand_shown(half: Half, m: Measures) -> Chain:
    """Return the line on a neck facing that bounds what stands for the stand collar in the little drawings.

    A stand collar stands up from the neck: seen from the front or the back it is the neck facing, moved up by the
    collar's height, down to this line; of the short back neck facing only the side is cut off. So is the tip at the
    shoulder, which in truth goes round to the other side.
    """
    below = complex(0, stand_height_mm(m) + SHOWN_BELOW_NECK_MM)
    from_shoulder = backwards(half.neck)
    tip = split_at(from_shoulder, lambda p: p.imag - half.neck_shoulder.imag - SHOWN_BELOW_TIP_MM)[1][0].start
    beside = complex(half.neck_shoulder.real + half.outward * SHOWN_BESIDE_NECK_MM, tip.imag)
    side = line(tip, beside, half.neck_shoulder + below)
    return side if half.outward > 0 else joined(side, moved(from_shoulder, below))
