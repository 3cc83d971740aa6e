"""Does a notion that is placed along a line say all that is needed to work out the places, and nothing twice?"""

from __future__ import annotations

from boltside.read import document as doc
from boltside.read.book import Book
from boltside.read.collect import quoted
from boltside.read.yaml_tree import Path

PLACED = ("button", "snap")
"""Kinds of notions that are placed along a line."""


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
    for number, part in enumerate(placed.along):
        place: Path = (*here, "along", number)
        if (part.line is None) == (part.edge is None):
            book.note(
                "missing-key" if part.line is None else "wrong-value",
                place,
                seen="neither `line` nor `edge`" if part.line is None else "`line` and `edge` together",
                expected="exactly one of them",
                mend="add an interior line or an edge" if part.line is None else "keep one of them",
            )
        for key, value in (("from", part.start), ("to", part.stop)):
            if value is not None and part.edge is None:
                _too_much(book, (*place, key), key, "with `edge`")


def _too_much(book: Book, path: Path, key: str, why: str) -> None:
    book.note(
        "unknown-key", path, seen=f"the key {quoted(key)}", expected=f"it only {why}", mend="delete it", key=True
    )
