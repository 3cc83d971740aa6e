"""Drafts Ferrylight: a little lined jacket for woven cloth. Outlines are *stitching lines*."""

from __future__ import annotations

from collections.abc import Callable

from .bodies import bodies_between
from .drawing import Drawn
from .ferrylight_armhole_facing import draw_back_armhole_facing, draw_front_armhole_facing
from .ferrylight_body import (
    draw_back,
    draw_back_lining,
    draw_back_neck_facing,
    draw_front,
    draw_front_facing,
    draw_front_lining,
    waist_seam_parts_mm,
)
from .ferrylight_collar import draw_flat_collar, draw_flat_under_collar
from .ferrylight_measures import Measures, measures_of
from .ferrylight_sleeve import draw_sleeve, draw_sleeve_gathered, draw_sleeve_lining
from .ferrylight_small_pieces import draw_pocket, draw_pocket_lining, draw_sleeve_band, draw_waist_band
from .ferrylight_stand_collar import draw_stand_collar

SMALLEST, LARGEST = 68, 116
DRAFTS: dict[str, Callable[[Measures], Drawn]] = {
    "back": draw_back,
    "front": draw_front,
    "front-facing": draw_front_facing,
    "back-neck-facing": draw_back_neck_facing,
    "sleeve": draw_sleeve,
    "sleeve-gathered": draw_sleeve_gathered,
    "sleeve-band": draw_sleeve_band,
    "waist-band": lambda m: draw_waist_band(*waist_seam_parts_mm(m)),
    "pocket": draw_pocket,
    "pocket-lining": draw_pocket_lining,
    "back-lining": draw_back_lining,
    "front-lining": draw_front_lining,
    "sleeve-lining": draw_sleeve_lining,
    "flat-collar": draw_flat_collar,
    "flat-under-collar": draw_flat_under_collar,
    "stand-collar": draw_stand_collar,
    "stand-collar-inside": draw_stand_collar,
    "front-armhole-facing": draw_front_armhole_facing,
    "back-armhole-facing": draw_back_armhole_facing,
}


def draw_ferrylight() -> dict[str, dict[str, Drawn]]:
    """Draw all pieces in all sizes: piece to size to drawing."""
    bodies = bodies_between(SMALLEST, LARGEST)
    return {
        piece: {size: draw(measures_of(body)) for size, body in bodies.items()} for piece, draw in DRAFTS.items()
    }
