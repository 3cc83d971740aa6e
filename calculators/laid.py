"""Which published lay answers, in the width the shop has?

Every lay was solved beforehand. For each set of pieces that may be asked for, the sheet holds steps: from this width
on, this length, this lay. A width between two steps is answered with the narrower one, because a lay for narrower
cloth also lies on wider cloth. A set that was never laid is answered by the shortest one that contains it.

>>> rows = [[[1100, 812, 0, 3], [1400, 705, 1, 2]], [[1100, 790, 2, 3], [1350, 640, 3, 2]]]
>>> shortest([["back", "front", "pocket"], ["back", "front"]], rows, {"back", "front"}, width_mm=1390)
Laid(width_mm=1350, length_mm=640, members=1, number=3, rows=2)
>>> shortest([["back", "front", "pocket"], ["back", "front"]], rows, {"pocket"}, width_mm=1390)
Laid(width_mm=1100, length_mm=812, members=0, number=0, rows=3)
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .conditions import holds
from .nap import WITH, WITHOUT
from .repeat import repeat_extra_mm
from .request import Sheet

Steps = Sequence[Sequence[int]]
"""Width from which it holds (mm), length (mm), number of the lay, its rows (:mod:`.repeat`); width growing, length
falling, rows not growing."""


@dataclass(frozen=True)
class Laid:
    """The lay that answers: cloth width it was made for, its length (mm), the index of its set, its number, its rows
    (:mod:`.repeat`)."""

    width_mm: int
    length_mm: int
    members: int
    number: int
    rows: int


def shortest(
    sets: Sequence[Sequence[str]],
    rows: Sequence[Steps],
    demand: Collection[str],
    width_mm: float,
    each_row_mm: float = 0,
) -> Laid | None:
    """The published lay on cloth of this width that holds all the pieces.

    Arguments: the sets of pieces; the steps of each set (of one cloth, way, nap and size); the pieces that are needed;
    the cloth's width in mm; what each row of pieces takes more, in mm. The set that is exactly these pieces answers;
    where it was never laid, the shortest of those that contain it, of equal lengths the widest. None: no lay does.
    """
    found = [
        Laid(width_mm=step[0], length_mm=step[1], members=index, number=step[2], rows=step[3])
        for index in answering(sets, demand)
        if index < len(rows)
        for step in [_step_at(rows[index], width_mm)]
        if step is not None
    ]
    return min(
        found,
        key=lambda lay: (lay.length_mm + repeat_extra_mm(each_row_mm, lay.rows), -lay.width_mm, lay.members),
        default=None,
    )


def answering(sets: Sequence[Sequence[str]], demand: Collection[str]) -> list[int]:
    """The sets that may answer: the one that is exactly the pieces asked for, else all that contain them."""
    wanted = set(demand)
    covering = [index for index, members in enumerate(sets) if wanted <= set(members)]
    exact = [index for index in covering if len(set(sets[index])) == len(wanted)]
    return exact[:1] or covering


def _step_at(steps: Steps, width_mm: float) -> Sequence[int] | None:
    """The last step that is not wider than the cloth."""
    found = None
    for step in steps:
        if step[0] > width_mm:
            break
        found = step
    return found


def lay_rows(sheet: Sheet, cloth: str, way: str, nap: str, size: str) -> Sequence[Steps]:
    """The steps of every set, of one cloth, way, nap and size; where none is without nap, those with nap serve."""
    by_nap = sheet["lays"].get(cloth, {}).get(way, {})
    known = by_nap.get(nap) or (by_nap.get(WITH) if nap == WITHOUT else None) or {}
    rows: Sequence[Steps] = known.get(size, [])
    return rows


def demanded(sheet: Sheet, cloth: str, chosen: Mapping[str, str]) -> list[str]:
    """Ids of the cutting list's lines that are cut from this cloth for what was chosen."""
    return [item["id"] for item in sheet["items"] if item["cloth"] == cloth and holds(item["when"], chosen)]


def cut_in(sheet: Sheet, demand: Collection[str], size: str) -> bool:
    """Whether every piece is cut in this size; options that the designer forbids in it may ask for one that is not."""
    return all(size in item["narrowest_mm"] for item in sheet["items"] if item["id"] in demand)


def reckoned_width_mm(cloth: Mapping[str, Any], width_mm: float, answer: Laid) -> int:
    """The widest width that was reckoned and is no wider than the cloth as it is laid, in mm.

    The lay itself may have been made for narrower cloth still, where wider cloth saves nothing.
    """
    listed = (*cloth.get("remnant_widths_mm", ()), *cloth["widths_mm"])
    return max([answer.width_mm, *(int(one) for one in listed if one <= width_mm)])
