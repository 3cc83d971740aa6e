"""Do elastic, thread and gathers say what belongs to them, and nothing that belongs to something else?"""

from __future__ import annotations

from boltside.read.book import Book
from boltside.read.collect import quoted
from boltside.read.yaml_tree import Path

ELASTIC, THREAD = "elastic", "thread"


def check_made_with(book: Book) -> None:
    """Note keys of elastic, thread and gathers that stand elsewhere, and channels that can't be measured."""
    it = book.document
    for at, notion in enumerate(it.notions):
        path: Path = ("notions", at)
        for key, given, kind in (
            ("passes", bool(notion.passes), ELASTIC),
            ("channel", notion.channel is not None, ELASTIC),
            ("reel_m", notion.reel_m is not None, THREAD),
        ):
            if given and kind not in notion.kind:
                _too_much(book, (*path, key), key, f"with the kind `{kind}`")
        if notion.channel is not None:
            here: Path = (*path, "channel")
            if bool(notion.channel.sum) == (notion.channel.hem is not None):
                book.note(
                    "missing-key" if notion.channel.hem is None else "wrong-value",
                    here,
                    seen="neither `sum` nor `hem`" if notion.channel.hem is None else "`sum` and `hem` together",
                    expected="exactly one of them",
                    mend="add the parts of its height, or the edge that is hemmed"
                    if notion.channel.hem is None
                    else "keep one of them",
                    key=True,
                )
            if notion.width_mm is None and book.checked.whole(*path, "width_mm"):
                book.note(
                    "missing-key",
                    path,
                    seen="no `width_mm`",
                    expected="the key `width_mm`, for which the channel has to be high enough",
                    mend="add `width_mm:`",
                    key=True,
                )
    for at, seam in enumerate(it.seams):
        if seam.marks is not None and seam.gather_ratio is None:
            _too_much(book, ("seams", at, "marks"), "marks", "with `gather_ratio`")


def _too_much(book: Book, path: Path, key: str, why: str) -> None:
    book.note(
        "unknown-key", path, seen=f"the key {quoted(key)}", expected=f"it only {why}", mend="delete it", key=True
    )
