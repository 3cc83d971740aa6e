"""What has to be drawn for an answer: one lay, one of two garments, or two lays one behind the other?

>>> whose(0, ("92", "98")), whose(1, ("92", "92")), whose(None, ("92",))
('size 92', 'second one', '')
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .laid import Laid
from .lay_file import LayFile, Lying, laid_in, lying_in
from .spread import Spread

ORDER = ("First", "Behind it")
"""Two lays one behind the other; the smaller size is drawn first."""


@dataclass(frozen=True, kw_only=True)
class Part:
    """One lay to be drawn: how its cloth is spread out, the file it stands in, the lay, and the width it is drawn on.

    ``heading`` says which of two lays it is; empty for a lay alone.
    """

    spread: Spread
    file: LayFile
    lay: Mapping[str, Any]
    width_mm: int
    heading: str = ""

    def pieces(self) -> list[Lying]:
        """The pieces that were asked for, each as it lies."""
        alone = self.spread.alone or (self.spread,)
        each = [set(one.demand) for one in alone]
        return [
            one
            for one in lying_in(self.file, self.lay, self.spread.demand)
            if one.line_id in each[one.garment if one.garment is not None and len(each) > 1 else 0]
        ]

    def lines(self, items: Sequence[Mapping[str, Any]]) -> list[tuple[int | None, Mapping[str, Any]]]:
        """The lines of the cutting list that lie there, in the order of their numbers, with the garment they are of.

        Argument: the sheet's lines. The garment is None in a lay of one.
        """
        if len(self.spread.alone) < 2:
            return [(None, item) for item in items if item["id"] in self.spread.demand]
        return [
            (garment, item)
            for garment, one in enumerate(self.spread.alone)
            for item in items
            if item["id"] in one.demand
        ]


def whose(garment: int | None, sizes: Sequence[str]) -> str:
    """Of which of two garments a piece is; empty in a lay of one."""
    if garment is None or len(sizes) < 2:
        return ""
    return f"size {sizes[garment]}" if sizes[0] != sizes[1] else ("first one", "second one")[garment]


def parts_of(spread: Spread, answer: Laid, found: Mapping[str, Any], opened: Mapping[str, LayFile]) -> list[Part]:
    """The lays to be drawn for an answer, in the order in which they lie.

    Arguments: the cloth and its answer; where it is found (:mod:`.lay_named`); the open lay files, these among them.
    """
    behind = found.get("behind")
    file = opened[found["key"]]
    rows = laid_in(file, found["number"])
    if behind is None and len(rows) == 1:
        wanted = [one for one in spread.alone if one.demand]
        lies = wanted[0] if len(wanted) == 1 else spread
        return [Part(spread=lies, file=file, lay=rows[0], width_mm=answer.width_mm)]
    if behind is None:
        each = [(file, row, row["width_mm"]) for row in rows]
    else:
        other = opened[behind["key"]]
        each = [
            (file, rows[0], found["width_mm"]),
            (other, laid_in(other, behind["number"])[0], behind["width_mm"]),
        ]
    return [
        Part(spread=one, file=of, lay=row, width_mm=width_mm, heading=f"{order}: size {one.sizes[0]}")
        for order, one, (of, row, width_mm) in zip(ORDER, spread.alone, each, strict=True)
    ]
