"""Which length of striped or checked cloth is published? Beside those with and without nap, with the same laws."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil
from typing import Final

from boltside.lay.brackets import CoverPlan
from boltside.lay.lattice import SERVED_BY_WAY, WAYS_SERVED, ItemSet, Node
from boltside.lay.model import Lay, LayItem, Way
from boltside.lay.rows import rows_in_turn
from boltside.published_lays import WHOLE_MM_SLACK, Published, Steps

REPEAT: Final = "repeat:"
"""What stands before the name of a repeat, where otherwise `with` or `without` nap stands."""

_Answer = tuple[int, int]
"""Length in mm, rows."""


def add_repeat(
    published: Published,
    repeat: str,
    plans: Mapping[str, CoverPlan],
    ways: Sequence[Way],
    items: Mapping[str, Mapping[str, LayItem]],
    *,
    folds_alike: bool,
) -> Published:
    """The published lengths with those in step with a repeat, as `lengths[way]["repeat:" + name][size]`.

    Lays are numbered on from those that are there. A length never grows with the width and is raised where a smaller
    size, a smaller set or (``folds_alike``: nothing repeats across the cloth) a way that it serves would need more; and
    it is never less than what the same set takes without the repeat, with nap if that is known. A way in which no set
    can be in step is left out.

    Arguments: what is published of the cloth; the repeat's name; by size, smallest first, what was found; the ways in
    which it is laid; the pieces by size and name.
    """
    sets = [frozenset(ids) for ids in published.sets]
    lengths = {way: dict(by_nap) for way, by_nap in published.lengths.items()}
    lays: dict[tuple[Way, str], Sequence[tuple[Node, Lay]]] = dict(published.lays)
    raised: dict[tuple[Way, ItemSet, float], _Answer] = {}
    for size, plan in plans.items():
        now = _answers(plan, ways, sets, items[size], raised, published, size, folds_alike=folds_alike)
        raised |= now
        for way in ways:
            steps_of: list[Steps] = []
            made = list(lays.get((way, size), ()))
            numbers: dict[int, int] = {}
            for ids in sets:
                steps: Steps = []
                for width_mm in sorted(width for at, one, width in now if (at, one) == (way, ids)):
                    answer = now[way, ids, width_mm]
                    if steps and answer[0] >= steps[-1][1]:
                        continue
                    cover = plan.covers[Node(way=way, nap=True, item_ids=ids, width_mm=width_mm)]
                    if id(cover.lay) not in numbers:
                        numbers[id(cover.lay)] = len(made)
                        made.append((cover.node, cover.lay))
                    steps.append([round(width_mm), answer[0], numbers[id(cover.lay)], answer[1]])
                steps_of.append(steps)
            if any(steps_of):
                lengths[way].setdefault(REPEAT + repeat, {})[size] = steps_of
                lays[way, size] = made
    return Published(sets=published.sets, lengths=lengths, lays=lays)


def _answers(
    plan: CoverPlan,
    ways: Sequence[Way],
    sets: Sequence[ItemSet],
    items: Mapping[str, LayItem],
    raised: Mapping[tuple[Way, ItemSet, float], _Answer],
    published: Published,
    size: str,
    *,
    folds_alike: bool,
) -> dict[tuple[Way, ItemSet, float], _Answer]:
    """Length and rows of one size, by way, set and width."""
    now: dict[tuple[Way, ItemSet, float], _Answer] = {}
    rows: dict[int, int] = {}
    for way in sorted(ways, key=WAYS_SERVED.index, reverse=True):
        for at, ids in sorted(enumerate(sets), key=lambda one: (len(one[1]), sorted(one[1]))):
            widths = sorted(n.width_mm for n in plan.covers if (n.way, n.item_ids) == (way, ids))
            wider: _Answer = (0, 0)
            for width_mm in reversed(widths):
                lay = plan.covers[Node(way=way, nap=True, item_ids=ids, width_mm=width_mm)].lay
                if id(lay) not in rows:
                    rows[id(lay)] = rows_in_turn(lay, items)
                floor = [wider, (ceil(lay.length_mm - WHOLE_MM_SLACK), rows[id(lay)])]
                floor += [raised[way, ids, width_mm]] if (way, ids, width_mm) in raised else []
                floor += [now[way, one, width_mm] for one in sets if one < ids and (way, one, width_mm) in now]
                if folds_alike:
                    served = (one for one in SERVED_BY_WAY[way] if one != way)
                    floor += [now[one, ids, width_mm] for one in served if (one, ids, width_mm) in now]
                floor.append((_without_repeat_mm(published, way, size, at, width_mm), 0))
                wider = now[way, ids, width_mm] = (max(f[0] for f in floor), max(f[1] for f in floor))
            told: _Answer | None = None
            for width_mm in widths:
                # Wider cloth that saves nothing is answered by the narrower, rows and all.
                answer = now[way, ids, width_mm]
                told = now[way, ids, width_mm] = answer if told is None or answer[0] < told[0] else told
    return now


def _without_repeat_mm(published: Published, way: Way, size: str, at: int, width_mm: float) -> int:
    """What the same set takes without the repeat, one way if that is known; 0 where it is not told."""
    by_nap = published.lengths.get(way, {})
    steps = (by_nap.get("with") or by_nap.get("without") or {}).get(size, [])
    return min((step[1] for step in steps[at] if step[0] <= width_mm), default=0) if at < len(steps) else 0
