"""Drafts Windlass: a raglan top in knit. Outlines are *stitching lines*."""

from __future__ import annotations

from collections.abc import Callable

from .bodies import bodies_between
from .drawing import Drawn
from .windlass_body import draw_back, draw_front
from .windlass_hood import draw_hood
from .windlass_measures import Measures, measures_of
from .windlass_sleeve import draw_sleeve
from .windlass_small_pieces import draw_cuff, draw_hem_band, draw_neckband, draw_short_cuff, draw_strip

SMALLEST, LARGEST = 62, 128
DRAFTS: dict[str, Callable[[Measures], Drawn]] = {
    "front": draw_front,
    "back": draw_back,
    "sleeve": draw_sleeve,
    "neckband": draw_neckband,
    "hood": draw_hood,
    "cuff": draw_cuff,
    "short-cuff": draw_short_cuff,
    "hem-band": draw_hem_band,
    "strip": draw_strip,
}


def draw_windlass() -> dict[str, dict[str, Drawn]]:
    """Draw all pieces in all sizes: piece to size to drawing."""
    bodies = bodies_between(SMALLEST, LARGEST)
    return {
        piece: {size: draw(measures_of(body)) for size, body in bodies.items()} for piece, draw in DRAFTS.items()
    }
