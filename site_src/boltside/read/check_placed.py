"""Does a notion that is placed along a line say all that is needed to work out the places, and nothing twice?"""

from __future__ import annotations

from collections.abc import Iterator

from boltside.read import document as doc
from boltside.read.book import Book
from boltside.read.collect import quoted
from boltside.read.yaml_tree import Path

PLACED = ("button", "snap")
"""Kinds of notions that are placed along a line."""

ENDS = ("below", "from")
"""Either says what the upper end of the line is."""


def check_placed(book: Book) -> None:
    """Note what is missing or too much where buttons and snaps are placed."""
    for at, notion in enumerate(book.document.notions):
        if notion.placed is not None:
            _placed(book, ("notions", at), notion, notion.placed)


def _placed(book: Book, path: Path, notion: doc.NotionDoc, placed: doc.PlacedDoc) -> None:
    here: Path = (*path, "placed")
    if not set(notion.kind) <= set(PLACED):
        _too_much(book, here, "placed", "with the kinds `button` and `snap`")
        return
    wanted = ["diameter_mm", *(["thickness_mm"] if "button" in notion.kind else [])]
    for key in wanted:
        if getattr(notion, key) is None and book.checked.whole(*path, key):
            book.note(
                "missing-key",
                path,
                seen=f"no {quoted(key)}",
                expected=f"the key {quoted(key)}, by which the places keep clear of seams",
                mend=f"add `{key}:`",
                key=True,
            )
    if placed.holes is not None and "button" not in notion.kind:
        _too_much(book, (*here, "holes"), "holes", "with the kind `button`")
    if placed.spacing_mm is not None and (notion.count is not None or notion.tabled_count):
        _too_much(book, (*here, "spacing_mm"), "spacing_mm", "without `count` and `tabled_count`")
    whole = book.checked.whole(*path, "count") and book.checked.whole(*path, "tabled_count")
    if placed.spacing_mm is None and notion.count is None and not notion.tabled_count and whole:
        book.note(
            "missing-key",
            here,
            seen="neither a number nor a distance",
            expected="`count` or `tabled_count` beside `placed`, or `spacing_mm` in it",
            mend="add one of them",
            key=True,
        )
    _ends(book, here, notion, placed)
    counts: list[tuple[Path, int | None]] = [(("count",), notion.count)]
    counts += [(("tabled_count", size), one) for size, one in notion.tabled_count.items()]
    for where, count in counts:
        if count is not None and count % placed.rows:
            book.note(
                "wrong-value",
                (*path, *where),
                seen=f"{count} in {placed.rows} rows",
                expected="as many in each row",
                mend=f"write {count + placed.rows - count % placed.rows}, or look at `rows`",
            )
    for key, number, part in lines_of(placed):
        place: Path = (*here, key, number)
        if (part.line is None) == (part.edge is None):
            book.note(
                "missing-key" if part.line is None else "wrong-value",
                place,
                seen="neither `line` nor `edge`" if part.line is None else "`line` and `edge` together",
                expected="exactly one of them",
                mend="add an interior line or an edge" if part.line is None else "keep one of them",
            )
        for end, value in (("from", part.start), ("to", part.stop)):
            if value is not None and part.edge is None:
                _too_much(book, (*place, end), end, "with `edge`")


def lines_of(placed: doc.PlacedDoc) -> Iterator[tuple[str, int, doc.PlacedAlongDoc]]:
    """Every part of every line, with the key that it stands under and its number there."""
    for key, parts in (("along", placed.along), ("backing", placed.backing), ("onto", placed.onto)):
        for number, part in enumerate(parts or ()):
            yield key, number, part


def _ends(book: Book, here: Path, notion: doc.NotionDoc, placed: doc.PlacedDoc) -> None:
    """Exactly one word for the upper end; a last place wherever a row may have two."""
    if (placed.below is None) == (placed.start is None) and all(book.checked.whole(*here, key) for key in ENDS):
        book.note(
            "missing-key" if placed.below is None else "wrong-value",
            here,
            seen="neither `below` nor `from`" if placed.below is None else "`below` and `from` together",
            expected="exactly one of them, with the words for the upper end of the line",
            mend="add one, such as `below: the neck seam`" if placed.below is None else "keep one of them",
            key=placed.below is None,
        )
    most = max([notion.count or 0, *notion.tabled_count.values()])
    single = placed.spacing_mm is None and most == placed.rows
    if placed.last_mm is None and not single and book.checked.whole(*here, "last_mm"):
        book.note(
            "missing-key",
            here,
            seen="no `last_mm`",
            expected="how far the last one sits from the lower end, wherever a row has more than one",
            mend="add `last_mm:`",
            key=True,
        )
    if placed.each is not None and placed.rows == 1:
        _too_much(book, (*here, "each"), "each", "with several `rows`")


def _too_much(book: Book, path: Path, key: str, why: str) -> None:
    book.note(
        "unknown-key", path, seen=f"the key {quoted(key)}", expected=f"it only {why}", mend="delete it", key=True
    )
