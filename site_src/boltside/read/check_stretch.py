"""Does a knit stretch the way the pattern says, for the way in which the piece lies on it?"""

from __future__ import annotations

from typing import Final

from boltside.read.book import Book
from boltside.read.collect import quoted

KNIT: Final = "knit"

RUNS: Final = {
    "lengthwise": ("across", "across the grain line"),
    "crosswise": ("along", "along the grain line, which lies across the cloth"),
    "bias": ("", "slanting to the grain line"),
}
"""Where the greatest stretch runs, for each grain: it runs across the cloth, between the selvedges."""


def check_stretch(book: Book) -> None:
    """Note pieces that may be cut from a knit and say that it has to stretch another way than it does there."""
    for name, piece in book.pieces.items():
        if piece.stretch in (None, "none") or not book.checked.whole("pieces", name, "grain"):
            continue
        word, where = RUNS[piece.grain or "lengthwise"]
        cloths = [entry.cloth for _, part in book.sources(name) for entry in part.cut]
        knit = next((cloth for cloth in cloths if _may_be_knit(book, cloth)), None)
        if knit is None or piece.stretch == word:
            continue
        mend = f"write `stretch: {word}`, or change `grain`" if word else "write `stretch: none`, or change `grain`"
        book.note(
            "stretch-off-grain",
            ("pieces", name, "stretch"),
            seen=f"`stretch: {piece.stretch}` of {quoted(name)} with the grain {piece.grain or 'lengthwise'}",
            expected=f"the greatest stretch {where}, as it runs on {quoted(knit)}",
            mend=mend,
        )


def _may_be_knit(book: Book, cloth: str) -> bool:
    found = book.document.cloths.get(cloth)
    return found is not None and any(KNIT in case.kinds for case in found.kinds)
