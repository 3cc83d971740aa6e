"""Where is a garment made longer or shorter, by how much, and what does that take of each cloth?

The designer names lines across the pieces (`lengthen`) and the finished measurement that grows there from size to
size; the width of one size with the length of another needs the difference of the two. Pieces that grow by as much push
those behind them on: of cloth, as many times that as there are rows of pieces along the length, the same count as for
a repeat (:mod:`.repeat`). What gets shorter saves nothing that could be promised.

>>> changes_said([Change(title="Body", where="at the waist line", pieces=["front"], by_mm=18.0)]).text
'Body: lengthen by 1.8 cm, at the waist line.'
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from .conditions import holds
from .fragments import Said, joined, say
from .repeat import repeat_extra_mm
from .request import Request
from .spread import spread_out
from .units import buy_mm, eighth_yards, measured, metres, tenths


@dataclass(frozen=True, kw_only=True)
class Change:
    """One line (with the others that go with it) at which the garment gets longer by so many mm, or shorter."""

    title: str
    where: str
    pieces: Sequence[str]
    by_mm: float


def changes(request: Request, length_of: str) -> list[Change]:
    """What has to be changed for the length of another size. Arguments: a request in the size of the width; the size
    of the length."""
    size = request.size or ""
    found = []
    finished = {one["name"]: one for one in request.sheet["finished"]}
    for entry in request.sheet.get("lengthen", ()):
        if not holds(entry["when"], request.chosen):
            continue
        case = next((case for case in finished[entry["by"]]["cases"] if holds(case["when"], request.chosen)), None)
        mm = {} if case is None else case["mm"]
        if size in mm and length_of in mm and mm[size] != mm[length_of]:
            by_mm = round((mm[length_of] - mm[size]) * 10) / 10
            found.append(Change(title=entry["title"], where=entry["where"], pieces=entry["pieces"], by_mm=by_mm))
    return found


def changes_said(found: Sequence[Change]) -> Said:
    """The changes in words."""
    return joined(
        say(f"{one.title}: ", "lengthen" if one.by_mm > 0 else "shorten", " by ", measured(abs(one.by_mm)),
            f", {one.where}.")
        for one in found
    )  # fmt: skip


def cloths_said(request: Request, found: Sequence[Change]) -> tuple[Said, list[dict[str, Any]]]:
    """What the changes take of each cloth, in words and as data. Arguments: a request in the size of the width."""
    words, data = [], []
    for cloth in request.sheet["cloths"]:
        by_mm = max((one.by_mm for one in found if _cut_from(request, cloth["name"], one.pieces)), default=0.0)
        spread = spread_out(request, cloth)
        laid = spread.answer
        if by_mm <= 0 or laid is None or spread.refused:
            continue
        # In whole mm like the lay itself, and before the ends are squared and the wash is counted.
        grown = replace(laid, length_mm=laid.length_mm + whole_up(repeat_extra_mm(by_mm, laid.rows)))
        after_mm = spread.length_mm(grown)
        more_mm = round((after_mm - spread.length_mm(laid)) * 10) / 10
        data.append({
            "cloth": cloth["name"], "rows": laid.rows, "more_mm": more_mm,
            "buy_mm": buy_mm(after_mm, spread.cuts), "buy_eighth_yards": eighth_yards(after_mm, spread.cuts),
        })  # fmt: skip
        words.append(
            say(f"{cloth['title']}: at most ", measured(more_mm), " more, so buy ", metres(after_mm, spread.cuts), ".")
        )
    return joined(words), data


def whole_up(mm: float) -> int:
    """A length in whole mm, rounded up; tenths of a tenth are rounding.

    >>> whole_up(36.4), whole_up(36.0), whole_up(36.00001)
    (37, 36, 36)
    """
    return -(-tenths(mm) // 10)


def _cut_from(request: Request, cloth: str, pieces: Sequence[str]) -> bool:
    return any(
        item["cloth"] == cloth and item["piece"] in pieces and holds(item["when"], request.chosen)
        for item in request.sheet["items"]
    )


def conditions_of(sheet: Mapping[str, Any]) -> list[Any]:
    """What the lines and their measurements depend on."""
    named = {entry["by"] for entry in sheet.get("lengthen", ())}
    return [
        *(entry["when"] for entry in sheet.get("lengthen", ())),
        *(case["when"] for one in sheet["finished"] if one["name"] in named for case in one["cases"]),
    ]
