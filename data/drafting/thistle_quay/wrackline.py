"""Drafts Wrackline: a pinafore for woven cloth that buttons on the shoulders. Outlines are *stitching lines*."""

from __future__ import annotations

from collections.abc import Callable

from .bodies import bodies_between
from .drawing import Drawn
from .wrackline_body import (
    draw_back,
    draw_back_facing,
    draw_back_lining,
    draw_front,
    draw_front_facing,
    draw_front_lining,
)
from .wrackline_measures import Measures, measures_of
from .wrackline_small_pieces import draw_belt, draw_binding, draw_pouch

SMALLEST, LARGEST = 86, 116
DRAFTS: dict[str, Callable[[Measures], Drawn]] = {
    "front": draw_front,
    "back": draw_back,
    "front-lining": draw_front_lining,
    "back-lining": draw_back_lining,
    "front-facing": draw_front_facing,
    "back-facing": draw_back_facing,
    "pouch": draw_pouch,
    "binding": draw_binding,
    "belt": draw_belt,
}


def draw_wrackline() -> dict[str, dict[str, Drawn]]:
    """Draw all pieces in all sizes: piece to size to drawing."""
    bodies = bodies_between(SMALLEST, LARGEST)
    return {
        piece: {size: draw(measures_of(body)) for size, body in bodies.items()} for piece, draw in DRAFTS.items()
    }
