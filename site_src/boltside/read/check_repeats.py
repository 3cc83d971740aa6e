"""Can the listed stripes and checks be kept to, and does any piece say which point of it meets them?"""

from __future__ import annotations

from typing import Final

from boltside.read import document as doc
from boltside.read.book import Book
from boltside.read.yaml_tree import Path

LEAST_MM: Final = 5.0
"""A smaller repeat can't be matched by hand, and no eye sees that it is not. Our choice."""

ONE_LAYER: Final = "flat"


def check_repeats(book: Book) -> None:
    """Note repeats that are too small, that need a way of laying the cloth does not have, or that nothing meets."""
    for name, cloth in book.document.cloths.items():
        path: Path = ("cloths", name, "repeats")
        told: dict[tuple[float, float | None], str] = {}
        for word, repeat in cloth.repeats.items():
            same = told.setdefault((repeat.along_mm, repeat.across_mm), word)
            if same != word:
                book.note(
                    "wrong-value",
                    (*path, word),
                    seen=f"`{word}` with the same repeat as `{same}`",
                    expected="each repeat once",
                    mend="delete one of them, and name both in its title",
                    key=True,
                )
            for key in ("along_mm", "across_mm"):
                length_mm = getattr(repeat, key)
                if length_mm is not None and length_mm < LEAST_MM:
                    book.note(
                        "wrong-value",
                        (*path, word, key),
                        seen=f"a repeat of {length_mm:g} mm",
                        expected=f"at least {LEAST_MM:g} mm",
                        mend="leave it out: what is so small need not be matched",
                    )
            if not repeat.even and ONE_LAYER not in cloth.ways and book.checked.whole("cloths", name, "ways"):
                book.note(
                    "wrong-value",
                    (*path, word, "even"),
                    seen="an uneven repeat on cloth that is always folded",
                    expected="`flat` among the ways of this cloth, for a fold turns the pattern over",
                    mend=f"add `{ONE_LAYER}` to `ways`",
                )
        if cloth.repeats and book.checked.whole("pieces") and not _met(book, name):
            book.note(
                "missing-key",
                path,
                seen=f"repeats of `{name}`, and no piece cut from it that is kept in step",
                expected="`in_step:` and a point at each piece whose stripes are to meet",
                mend="add it, for example at the underarm of front and back",
                key=True,
            )


def _met(book: Book, cloth: str) -> bool:
    """Whether a piece that is cut from the cloth says which point is in step."""
    return any(
        piece.in_step is not None and any(_cut_from(part, cloth) for _, part in book.sources(name))
        for name, piece in book.pieces.items()
    )


def _cut_from(part: doc.PieceDoc, cloth: str) -> bool:
    return any(entry.cloth == cloth for entry in part.cut)
