"""Does a piece get smaller from one size to the next? It may be meant; mostly two outlines were swapped."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from shapely.geometry import Polygon

from boltside.pattern import Outline
from boltside.read.book import Book
from boltside.read.collect import quoted

SMALLER_MM: Final = 1.0
"""Widths and lengths that shrink by less are drawing slips. Our choice."""

SMALLER_SHARE: Final = 0.005
"""Areas that shrink by a smaller share are. Our choice."""


def check_grading(book: Book) -> None:
    """Warn of each piece whose width, height or area falls from one size to the next; the first fall is told."""
    drawing = book.drawing
    if drawing is None or not book.checked.whole("sizes"):
        return
    for piece, outlines in book.outlines.items():
        sizes = [size for size in book.document.sizes if size in outlines]
        for smaller, larger in pairwise(sizes):
            fall = _fall(outlines[smaller], outlines[larger])
            if fall is None:
                continue
            what, before, after = fall
            wanted = f"{piece}.{larger}.outline"
            book.problems.add(
                "shrinking-grading",
                book.svg_name,
                drawing.ids.get(wanted, drawing.place),
                seen=f"{quoted(piece)} {before} {what} in size {smaller} but {after} in size {larger}",
                expected="a larger size that is nowhere smaller",
                mend=f"look whether `{piece}.{smaller}` and `{piece}.{larger}` have been taken for each other; "
                "if it is meant, leave it",
                severity="warning",
            )
            break


def _fall(smaller: Outline, larger: Outline) -> tuple[str, str, str] | None:
    """What falls, from what to what; None when nothing does."""
    shapes = [Polygon(one.outline_mm) for one in (smaller, larger)]
    boxes = [shape.bounds for shape in shapes]
    for what, low, high in (("wide", 0, 2), ("high", 1, 3)):
        before, after = (box[high] - box[low] for box in boxes)
        if after < before - SMALLER_MM:
            return what, f"{before:.1f} mm", f"{after:.1f} mm"
    before, after = (shape.area / 100 for shape in shapes)
    if after < before * (1 - SMALLER_SHARE):
        return "large", f"{before:.1f} cm²", f"{after:.1f} cm²"
    return None
