"""Do the sizes, and the body measurements that are named, stand in the body chart?"""

from __future__ import annotations

from boltside.read.book import Book
from boltside.read.collect import quoted
from boltside.read.yaml_tree import Path

HEAD = "head"
"""Known for every child by its height (see :mod:`boltside.measure.heads`), so no column is needed."""


def check_sizes(book: Book) -> None:
    """Note unknown sizes and body measurements, and sizes out of order."""
    it = book.document
    for at, size in enumerate(it.sizes):
        if size in it.sizes[:at]:
            book.note(
                "wrong-value",
                ("sizes", at),
                seen=f"the size {quoted(size)} a second time",
                expected="each size once",
                mend="delete one of the two",
            )
    for at, rule in enumerate(it.rules):
        for place, size in enumerate(rule.only_sizes or ()):
            _known_size(book, ("rules", at, "only_sizes", place), size)
    for at, notion in enumerate(it.notions):
        for size in notion.tabled_mm:
            _known_size(book, ("notions", at, "tabled_mm", size), size)
        for size in notion.tabled_count:
            _known_size(book, ("notions", at, "tabled_count", size), size)
    if book.chart is None:
        return
    rows = list(book.chart.rows)
    for at, size in enumerate(it.sizes):
        if size not in rows:
            book.note_unknown("unknown-size", ("sizes", at), size, rows, "size", f"the body chart `{book.chart.name}`")
    positions = [rows.index(size) for size in it.sizes if size in rows]
    if positions != sorted(positions) and len(set(it.sizes)) == len(it.sizes):
        book.note(
            "wrong-value",
            ("sizes",),
            seen="sizes out of order",
            expected="the order of the body chart, smallest first",
            mend="put them in order",
            key=True,
        )
    columns = list(next(iter(book.chart.rows.values()), {}))
    named: list[tuple[Path, str]] = [(("size_by", at), one) for at, one in enumerate(it.size_by)]
    named += [(("measurements", at, "body"), one.body) for at, one in enumerate(it.measurements) if one.body]
    named += [
        (("notions", at, "rule", "body"), one.rule.body)
        for at, one in enumerate(it.notions)
        if one.rule and one.rule.body
    ]
    named += [(("notions", at, "passes", place), body) for at, one in enumerate(it.notions)
              for place, body in enumerate(one.passes)]  # fmt: skip
    named += [(("pull_on", at, "over"), one.over) for at, one in enumerate(it.pull_on) if one.over != HEAD]
    for path, column in named:
        if column not in columns:
            book.note_unknown("unknown-body-column", path, column, columns, "body measurement")


def _known_size(book: Book, path: Path, size: str) -> None:
    if size not in book.document.sizes and book.checked.whole("sizes"):
        book.note_unknown("unknown-size", path, size, book.document.sizes, "size", key=True)
