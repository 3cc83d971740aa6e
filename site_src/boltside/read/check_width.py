"""Is there a cloth wide enough for every piece?"""

from __future__ import annotations

import math
from typing import Final

from boltside.pattern import Outline
from boltside.read.book import Book
from boltside.read.check_shapes import GRAIN_TURN_DEG, grain_deg
from boltside.read.meant_number import Bounds, asked_unit
from boltside.read.yaml_tree import Path

TOLD_APART_MM: Final = 0.01
"""Widths nearer than this are the same; the smaller size is told."""

SELVEDGE_MM: Final = 15.0
"""Lost at each selvedge of a bolt. Common practice."""

BOLT_MM: Final = Bounds(low=300, high=3_200, in_mm=True, whole=True)
"""From the narrowest interfacing to sheeting: a width below is a slip of units. Common practice."""


def check_width(book: Book) -> None:
    """Note pieces wider, as drawn, than every width of a cloth they are cut from, in every way of laying."""
    for source, path, entry in book.cut_entries():
        cloth = book.document.cloths.get(entry.cloth)
        if cloth is None or not book.checked.whole("cloths", entry.cloth):
            continue
        widest_mm = max(cloth.widths_mm)
        flat_mm = widest_mm - 2 * SELVEDGE_MM if "flat" in cloth.ways else 0.0
        folded_mm = widest_mm / 2 - SELVEDGE_MM if "folded" in cloth.ways else 0.0
        widest: tuple[float, str, str] | None = None
        for piece in book.players(source):
            grain = book.pieces[piece].grain or "lengthwise"
            for size, outline in book.outlines.get(piece, {}).items():
                across_mm = across_grain_mm(outline, grain)
                opened_mm = 2 * across_mm if entry.mode == "fold" else across_mm
                if (
                    across_mm > folded_mm
                    and opened_mm > flat_mm
                    and (widest is None or opened_mm > widest[0] + TOLD_APART_MM)
                ):
                    widest = (opened_mm, piece, size)
        if widest is not None:
            _note(book, path, *widest, max(flat_mm, folded_mm), widest_mm)


def across_grain_mm(outline: Outline, grain: str) -> float:
    """How wide the outline lies across the cloth, in mm."""
    across = math.radians(grain_deg(outline) - GRAIN_TURN_DEG[grain] + 90)
    reach = [x * math.cos(across) + y * math.sin(across) for x, y in outline.outline_mm]
    return max(reach) - min(reach)


def _note(book: Book, path: Path, opened_mm: float, piece: str, size: str, usable_mm: float, widest_mm: float) -> None:
    asked = asked_unit(widest_mm, BOLT_MM) if widest_mm < BOLT_MM.low else None
    book.note(
        "too-wide",
        (*path, "cloth"),
        seen=f"`{piece}` in size {size}, {opened_mm:.0f} mm across the grain",
        expected=f"at most {usable_mm:.0f} mm, what a cloth of {widest_mm:.0f} mm has between its selvedges",
        mend=f"look at {widest_mm:g} in `widths_mm`: {asked}"
        if asked
        else "add a wider cloth to `widths_mm` or the way `flat`, change the grain, or part the piece with a seam",
    )
