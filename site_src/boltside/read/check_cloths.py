"""Do the cases of a cloth's nap and kinds leave nothing open, and do copies and notions say enough about themselves?"""

from __future__ import annotations

from collections.abc import Sequence

from boltside.calculators.conditions import SIZE, holds, names_in_all
from boltside.read import document as doc
from boltside.read.book import Book
from boltside.read.collect import listed, quoted
from boltside.read.combinations import condition, told
from boltside.read.yaml_tree import Path

BUTTON = "button"
SIZED = ("button", "snap")
"""Kinds of notions that have a thickness of their own."""


def check_cloths(book: Book) -> None:
    """Note cases never reached, kinds that no cloth has, copies of a pair that are not half and half, and such."""
    it = book.document
    for name, cloth in it.cloths.items():
        _last_only(book, ("cloths", name, "kinds"), cloth.kinds)
        _last_only(book, ("cloths", name, "nap"), cloth.nap or ())
    known = {word for cloth in it.cloths.values() for case in cloth.kinds for word in case.kinds}
    for at, measurement in enumerate(it.measurements):
        for key, kind in (*(("ease_mm", one) for one in measurement.ease_mm),
                          *(("wearing_mm", one) for one in measurement.wearing_mm)):  # fmt: skip
            if kind not in known and book.checked.whole("cloths"):
                book.note(
                    "wrong-value",
                    ("measurements", at, key, kind),
                    seen=f"ease for {quoted(kind)}, which no cloth is",
                    expected=f"one of {listed(sorted(known))}, what stands under `kinds`",
                    mend=f"delete it, or add {quoted(kind)} to the kinds of a cloth",
                    key=True,
                )
    told_of: set[Path] = set()
    for piece in book.pieces:
        _drawn_copies(book, piece, told_of)
    for at, notion in enumerate(it.notions):
        _notion(book, ("notions", at), notion)


def check_kind_cases(book: Book) -> None:
    """Note allowed combinations in which no case says what kind of cloth is meant."""
    for name, cloth in book.document.cloths.items():
        whens = [condition(one.when) for one in cloth.kinds]
        if () in whens or not book.checked.whole("cloths", name):
            continue
        for size in book.document.sizes:
            open_ = next(
                (
                    chosen
                    for chosen in book.combinations.over(names_in_all(whens), size)
                    if not any(holds(when, chosen) for when in whens)
                ),
                None,
            )
            if open_ is not None:
                without = told({key: word for key, word in open_.items() if key != SIZE}) or told(open_)
                book.note(
                    "wrong-value",
                    ("cloths", name, "kinds"),
                    seen=f"no case that holds with {without}",
                    expected="a case for every allowed combination",
                    mend="leave `when` out of the last case",
                    key=True,
                )
                break


def _last_only(book: Book, path: Path, cases: Sequence[doc.NapCaseDoc | doc.KindCaseDoc]) -> None:
    """Note a case without `when` that stands before others; a list of bare words is no list of cases."""
    always = [at for at, one in enumerate(cases) if one.when is None]
    if not always or always[0] == len(cases) - 1 or (len(always) == len(cases) and path[-1] == "kinds"):
        return
    book.note(
        "wrong-value",
        (*path, always[0]),
        seen="a case that always holds before others",
        expected="it as the last case, for the first that holds is taken",
        mend="add `when:` to it, or move it to the end",
    )


def _drawn_copies(book: Book, piece: str, told_of: set[Path]) -> None:
    """Note where a piece's copies that are as drawn are not as many as those that are mirrored."""
    names: dict[str, None] = {}
    said: list[tuple[Path, bool, str]] = []
    for source, part in book.sources(piece):
        if not book.checked.whole("pieces", source, "copies") or any(one.when for one in part.copies.values()):
            return
        names |= dict.fromkeys(part.copies)
        said += [
            (("pieces", source, "copies", name, "drawn"), source == piece, name)
            for name, one in part.copies.items()
            if one.drawn
        ]
    own = [one for one in said if one[1]]
    for role in book.roles_of(piece) if not own else [""]:
        marked = own or [one for one in said if one[0][1] == f"as:{role}"]
        half = (len(names) + 1) // 2
        if marked and len(marked) != half and marked[-1][0] not in told_of:
            told_of.add(marked[-1][0])
            book.note(
                "wrong-value",
                marked[-1][0],
                seen=f"{len(marked)} of {len(names)} copies of {quoted(piece)} as drawn",
                expected=f"{half} of them, for half of a pair is mirrored",
                mend="leave `drawn` at the copies that come out as the outline is drawn, face up",
            )
            return


def _notion(book: Book, path: Path, notion: doc.NotionDoc) -> None:
    if notion.thickness_mm is not None and not set(notion.kind) & set(SIZED):
        book.note(
            "unknown-key",
            (*path, "thickness_mm"),
            seen="the key `thickness_mm`",
            expected=f"it only with a kind of {listed(SIZED)}",
            mend="delete it",
            key=True,
        )
    spacing_mm = notion.placed.spacing_mm if notion.placed is not None else None
    amounts = (notion.rule, notion.count, notion.tabled_mm or None, notion.tabled_count or None, spacing_mm)
    keys = ("rule", "count", "tabled_mm", "tabled_count")
    if all(one is None for one in amounts) and all(book.checked.whole(*path, key) for key in (*keys, "placed")):
        book.note(
            "missing-key",
            path,
            seen=f"no amount of {quoted(notion.name)}",
            expected=f"one of {listed(keys)}",
            mend="add `count:` for what is bought by the piece, or a `rule:` for what is bought by length",
            key=True,
        )
