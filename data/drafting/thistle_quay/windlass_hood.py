"""Draws the hood of Windlass: one half, seen from the wearer's right, its face edge to the right. Stitching lines."""

from __future__ import annotations

import cmath
import math

from .curves import Chain, backwards, bow, chain_length_mm, joined, line, moved, solve, split_at_length
from .drawing import Drawn, straight_grain
from .windlass_lines import half_of
from .windlass_measures import STRIP_MM, Measures
from .windlass_shown import INSIDE_MM, face_shape, hood_shape

HEIGHT_PART, BULGE_PART = 0.58, 0.045
"""Height above the back neck, and how far the back of the head stands out behind it, as parts of the head's girth."""
BULGE_HEIGHT_PART = 0.50
"""The back of the head lies at this part of the height."""
FRONT_LOWER_PART = 0.05
"""Centre front lies lower than centre back, as part of the head's girth."""
BACK_LEAN_RAD, FRONT_FALL_RAD = math.radians(14), math.radians(18)
"""The centre seam leaves the neck leaning backward, and the neck edge arrives at the front falling, by these."""
ELLIPSE, NECK_HANDLE = 0.55, 0.55
BACK_FOOT_PART = 0.06
"""What the back view shows stands this much higher on the face edge (part of the head's girth): a back neck is flat."""
GRAIN_END_MM = 40.0


def neck_parts_mm(m: Measures) -> tuple[float, float, float]:
    """Return the lengths of the neck's half ring: back, sleeve, front (mm)."""
    front, back = (half_of(m, front=side) for side in (True, False))
    sleeve_mm = chain_length_mm(front.sleeve_neck) + chain_length_mm(back.sleeve_neck)
    return chain_length_mm(back.neck), sleeve_mm, chain_length_mm(front.neck)


def draw_hood(m: Measures) -> Drawn:
    """Draw half of the hood. Its neck edge reaches beyond centre front by half a strip, where the face edges cross."""
    back_mm, sleeve_mm, front_mm = neck_parts_mm(m)
    length_mm = back_mm + sleeve_mm + front_mm + STRIP_MM / 2
    leaving = cmath.rect(1, -BACK_LEAN_RAD)
    arriving = cmath.rect(1, FRONT_FALL_RAD)

    def neck_to(x_mm: float) -> Chain:
        """Return the neck edge from centre back to a face edge at this distance."""
        return bow(0j, leaving, NECK_HANDLE, complex(x_mm, m.head * FRONT_LOWER_PART), arriving, NECK_HANDLE)

    x_mm = solve(lambda x: chain_length_mm(neck_to(x)) - length_mm, length_mm * 0.7, length_mm)
    neck = neck_to(x_mm)
    face_low, face_top = neck[-1].end, complex(x_mm, -m.head * HEIGHT_PART)
    nape = complex(-m.head * BULGE_PART, -m.head * HEIGHT_PART * BULGE_HEIGHT_PART)
    seam = joined(
        bow(0j, leaving * -1j, ELLIPSE, nape, -1j, ELLIPSE), bow(nape, -1j, ELLIPSE, face_top, 1 + 0j, ELLIPSE)
    )
    to_sleeve, rest = split_at_length(neck, back_mm)
    over_sleeve, rest = split_at_length(rest, sleeve_mm)
    to_centre, beyond = split_at_length(rest, front_mm)
    # What the little drawings show stands on the face edge as on their centre line.
    foot = complex(x_mm, face_low.imag - INSIDE_MM)
    front_by = foot - complex(0, m.front_neck)
    back_foot = foot - 1j * m.head * BACK_FOOT_PART
    back_by = back_foot - complex(0, m.back_neck)
    return Drawn(
        outline={
            "neck-back": to_sleeve,
            "neck-raglan-back": over_sleeve,
            "neck-raglan-front": to_centre,
            "neck-centre": beyond,
            "neck-front": line(face_low, face_top),
            "top": backwards(seam),
        },
        points={
            "foot": foot,
            "back-foot": back_foot,
            "shown": back_foot + complex(-INSIDE_MM, -INSIDE_MM * 2),
            "face-shown": complex(x_mm - INSIDE_MM, front_by.imag),
        },
        lines={
            "grain": straight_grain(x_mm / 2, face_top.imag + GRAIN_END_MM, -GRAIN_END_MM),
            "front-view": moved(hood_shape(m, front=True), front_by),
            "face-view": moved(face_shape(m), front_by),
            "back-view": moved(hood_shape(m, front=False), back_by),
        },
    )
