"""Is there a cloth wide enough for every piece?"""

from __future__ import annotations

import math
from collections.abc import Sequence
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

FOLD_STEP_MM: Final = 5.0
"""Cloth is folded over by whole half centimetres, as the lay engine does it."""

FLAT_WHERE: Final = "between its selvedges"
MIDDLE_WHERE: Final = "between a fold and a selvedge, both selvedges to the middle"
BESIDE_WHERE: Final = "beside what is folded over"

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
        folded_mm, where = _double(cloth.ways, widest_mm)
        beside_mm = _beside(book, entry.cloth, widest_mm) if entry.mode != "fold" else {}
        widest: tuple[float, str, str] | None = None
        for piece in book.players(source):
            grain = book.pieces[piece].grain or "lengthwise"
            for size, outline in book.outlines.get(piece, {}).items():
                across_mm = across_grain_mm(outline, grain)
                opened_mm = 2 * across_mm if entry.mode == "fold" else across_mm
                if (
                    across_mm > max(folded_mm, beside_mm.get(size, 0.0))
                    and opened_mm > flat_mm
                    and (widest is None or opened_mm > widest[0] + TOLD_APART_MM)
                ):
                    widest = (opened_mm, piece, size)
        if widest is None:
            continue
        room_mm = max((flat_mm, FLAT_WHERE), (folded_mm, where), (beside_mm.get(widest[2], 0.0), BESIDE_WHERE))
        _note(book, path, *widest, *room_mm, widest_mm)


def _double(ways: Sequence[str], widest_mm: float) -> tuple[float, str]:
    """How wide a piece may be to lie double, in mm, and between what."""
    if "folded" in ways or "part-folded" in ways:
        return widest_mm / 2 - SELVEDGE_MM, FLAT_WHERE
    if "middle" in ways:
        return max(0.0, widest_mm / 4 - SELVEDGE_MM), MIDDLE_WHERE
    return 0.0, FLAT_WHERE


def _beside(book: Book, cloth: str, widest_mm: float) -> dict[str, float]:
    """How wide a piece may be to lie in single cloth beside what is folded over, in mm, by size.

    Folded over is no more than the narrowest piece needs of which two come from one place; options are not looked at,
    so nothing is refused that some option may allow.
    """
    depths_mm: dict[str, float] = {}
    if "part-folded" not in book.document.cloths[cloth].ways:
        return depths_mm
    for source, _, entry in book.cut_entries():
        if entry.cloth != cloth or (entry.mode != "fold" and entry.count < 2):
            continue
        for piece in book.players(source):
            grain = book.pieces[piece].grain or "lengthwise"
            for size, outline in book.outlines.get(piece, {}).items():
                across_mm = across_grain_mm(outline, grain)
                depths_mm[size] = min(depths_mm.get(size, across_mm), across_mm)
    folded_over_mm = {
        size: math.ceil((mm + SELVEDGE_MM) / FOLD_STEP_MM) * FOLD_STEP_MM for size, mm in depths_mm.items()
    }
    return {size: widest_mm - 2 * over_mm - SELVEDGE_MM for size, over_mm in folded_over_mm.items()}


def across_grain_mm(outline: Outline, grain: str) -> float:
    """How wide the outline lies across the cloth, in mm."""
    across = math.radians(grain_deg(outline) - GRAIN_TURN_DEG[grain] + 90)
    reach = [x * math.cos(across) + y * math.sin(across) for x, y in outline.outline_mm]
    return max(reach) - min(reach)


def _note(
    book: Book, path: Path, opened_mm: float, piece: str, size: str, usable_mm: float, where: str, widest_mm: float
) -> None:
    asked = asked_unit(widest_mm, BOLT_MM) if widest_mm < BOLT_MM.low else None
    book.note(
        "too-wide",
        (*path, "cloth"),
        seen=f"`{piece}` in size {size}, {opened_mm:.0f} mm across the grain",
        expected=f"at most {usable_mm:.0f} mm, what a cloth of {widest_mm:.0f} mm has {where}",
        mend=f"look at {widest_mm:g} in `widths_mm`: {asked}"
        if asked
        else "add a wider cloth to `widths_mm` or the way `flat`, change the grain, or part the piece with a seam",
    )
