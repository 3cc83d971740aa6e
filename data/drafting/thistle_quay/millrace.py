"""Drafts Millrace: a circle skirt, half or full, on a straight band that holds elastic.

Outlines are *cutting lines*. With a waist stitching line of girth G, the stitching radius is r = G ÷ angle (radians);
the seam allowance of the waist is taken off that radius, because the cut edge lies inside the circle.
"""

from __future__ import annotations

import cmath
import math

from .bodies import Body, bodies_between
from .curves import arc, backwards, line
from .drawing import Drawn, straight_grain

SMALLEST, LARGEST = 86, 128
FULL_CIRCLE_RAD, HALF_CIRCLE_RAD = 2 * math.pi, math.pi
HIP_ROOM_MM = 30
"""Waist stitching line beyond the hip. A woven pull-on needs 20 at least (common practice); 30 lets a nappy pass."""
LENGTH_PER_HEIGHT = 0.27
"""Skirt from waist seam to hem as part of body height: a hand above the knee (our custom)."""
WAIST_ALLOWANCE_MM, SIDE_ALLOWANCE_MM, HEM_ALLOWANCE_MM, BAND_ALLOWANCE_MM = 8.0, 10.0, 8.0, 8.0
"""A hem of 8: a curved hem takes 6 to 10 (common practice)."""
ELASTIC_MM, CASING_ROOM_MM = 20.0, 6.0
"""A casing is the elastic and 6 more (sewing guideline 12.150)."""
SHOWN_PER_WAIST = 0.125
"""Half width of the waist in the line drawing as part of the body's waist: the elastic draws the skirt in."""
ARC_PART_RAD = math.pi / 8


def radius_mm(girth_mm: float, angle_rad: float) -> float:
    """Return the radius of the waist's circle: girth ÷ angle."""
    return girth_mm / angle_rad


def waist_girth_mm(body: Body) -> float:
    """Return the girth of the waist stitching line (mm)."""
    return body["hip"] + HIP_ROOM_MM


def skirt_length_mm(body: Body) -> float:
    """Return the finished length from waist seam to hem (mm), in steps of 5 mm."""
    return 5 * round(LENGTH_PER_HEIGHT * body["height"] / 5)


def draw_panel(body: Body, circle_rad: float) -> Drawn:
    """Draw half of a front or back panel: a quarter of the skirt, its fold straight down the drawing.

    Args:
        body: measurements of the size, mm.
        circle_rad: the angle of the whole skirt, 2π for a full circle and π for a half.
    """
    waist_mm = radius_mm(waist_girth_mm(body), circle_rad)
    hem_mm = waist_mm + skirt_length_mm(body)
    waist_cut_mm, hem_cut_mm = waist_mm - WAIST_ALLOWANCE_MM, hem_mm + HEM_ALLOWANCE_MM
    fold_rad = math.pi / 2
    side_rad = fold_rad - circle_rad / 4
    parts = round(circle_rad / 4 / ARC_PART_RAD)

    def side_end_rad(cut_mm: float) -> float:
        """Return the angle at which a circle meets the side's cutting line, which is parallel to the radius."""
        return side_rad - math.asin(SIDE_ALLOWANCE_MM / cut_mm)

    waist = arc(0j, waist_cut_mm, fold_rad, side_end_rad(waist_cut_mm), parts)
    hem = backwards(arc(0j, hem_cut_mm, fold_rad, side_end_rad(hem_cut_mm), parts))
    shown_rad = fold_rad - math.asin(SHOWN_PER_WAIST * body["waist"] / waist_mm)
    return Drawn(
        outline={
            "waist-fold": waist,
            "waist-side": line(waist[-1].end, hem[0].start),
            "hem-side": hem,
            "hem-fold": line(hem[-1].end, waist[0].start),
        },
        lines={
            "grain": straight_grain(20, waist_cut_mm + 40, hem_cut_mm - 40),
            "shown": line(waist_cut_mm * cmath.exp(1j * shown_rad), hem_cut_mm * cmath.exp(1j * shown_rad)),
        },
    )


def draw_band(body: Body) -> Drawn:
    """Draw half of the band: on the fold at centre front, seam at centre back; folded along its middle."""
    length_mm = waist_girth_mm(body) / 2 + BAND_ALLOWANCE_MM
    height_mm = 2 * (ELASTIC_MM + CASING_ROOM_MM) + 2 * BAND_ALLOWANCE_MM
    top_left, top_right = 0j, complex(length_mm, 0)
    bottom_left, bottom_right = complex(0, height_mm), complex(length_mm, height_mm)
    middle_mm, shown_mm = height_mm / 2, SHOWN_PER_WAIST * body["waist"]
    return Drawn(
        outline={
            "inner-fold": line(top_left, top_right),
            "inner-end": line(top_right, bottom_right),
            "outer-end": line(bottom_right, bottom_left),
            "outer-fold": line(bottom_left, top_left),
        },
        points={"side": complex(waist_girth_mm(body) / 4, height_mm)},
        lines={
            "grain": straight_grain(20, 10, height_mm - 10),
            "top-edge": line(complex(0, middle_mm), complex(length_mm, middle_mm)),
            "shown": line(
                complex(0, middle_mm), complex(shown_mm, middle_mm), complex(shown_mm, height_mm)
            ),
        },
    )


def draw_millrace() -> dict[str, dict[str, Drawn]]:
    """Draw all pieces in all sizes: piece to size to drawing."""
    bodies = bodies_between(SMALLEST, LARGEST)
    return {
        "panel-full": {size: draw_panel(body, FULL_CIRCLE_RAD) for size, body in bodies.items()},
        "panel-half": {size: draw_panel(body, HALF_CIRCLE_RAD) for size, body in bodies.items()},
        "band": {size: draw_band(body) for size, body in bodies.items()},
    }
