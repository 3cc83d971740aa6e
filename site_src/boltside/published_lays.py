"""Which length of each cloth is published? Whole millimetres, with the laws that a buyer may rely on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any, Final

from boltside.lay.brackets import CoverPlan
from boltside.lay.lattice import SERVED_BY_WAY, WAYS_SERVED, ItemSet, Node
from boltside.lay.model import Lay, LayItem, Way
from boltside.lay.rows import rows_in_turn

WHOLE_MM_SLACK: Final = 1e-6
"""Lengths are rounded up to whole millimetres; so much above a whole one is still that one."""

NAP_WORDS: Final = {True: "with", False: "without"}

Steps = list[list[int]]
"""Width, length (mm), number of the lay, rows of pieces; widths growing, lengths falling, rows not growing."""


@dataclass(frozen=True, kw_only=True)
class Published:
    """What is published of one cloth: `sets` and `lengths` as the spec sheet takes them, and by way and size the lays
    that the lengths name, in the order of their numbers."""

    sets: list[list[str]]
    lengths: dict[str, dict[str, dict[str, list[Steps]]]]
    lays: Mapping[tuple[Way, str], Sequence[tuple[Node, Lay]]]

    def as_json(self) -> dict[str, Any]:
        """For the spec sheet."""
        return {"sets": self.sets, "lengths": self.lengths}


def published_cloth(
    plans: Mapping[str, CoverPlan],
    ways: Sequence[Way],
    widths_mm: Iterable[float],
    items: Mapping[str, Mapping[str, LayItem]],
) -> Published:
    """The published lengths of one cloth.

    A length never grows with the width (a lay serves every wider cloth). It is raised where a smaller size, a smaller
    set, the same without nap, or a way that it serves (flat in place of folded) would otherwise need more: that is
    always enough. The rows of pieces are raised in the same way: so length + repeat x rows keeps the laws too, whatever
    the repeat.

    Arguments: by size, smallest first, what was found; the ways; the widths of the bolts in mm; the pieces by size and
    name.
    """
    covers = {size: plan.covers for size, plan in plans.items()}
    sets = sorted({node.item_ids for found in covers.values() for node in found}, key=sorted)
    naps = [nap for nap in (True, False) if any(node.nap == nap for found in covers.values() for node in found)]
    lengths: dict[str, dict[str, dict[str, list[Steps]]]] = {
        way: {NAP_WORDS[nap]: {} for nap in naps} for way in ways
    }
    raised: dict[tuple[Way, bool, ItemSet, float], tuple[int, int]] = {}
    lays: dict[tuple[Way, str], list[tuple[Node, Lay]]] = {}
    numbers: dict[tuple[Way, str], dict[Node, int]] = {}
    widths = sorted(widths_mm)
    smaller = {ids: [one for one in sets if one < ids] for ids in sets}
    for size, found in covers.items():
        now: dict[tuple[Way, bool, ItemSet, float], tuple[int, int]] = {}
        rows = {id(lay): rows_in_turn(lay, items[size]) for lay in {id(c.lay): c.lay for c in found.values()}.values()}
        for way in sorted(ways, key=WAYS_SERVED.index, reverse=True):
            for nap in reversed(naps):
                for ids in sorted(sets, key=lambda ids: (len(ids), sorted(ids))):
                    wider = (0, 0)
                    for width_mm in reversed(widths):
                        cover = found.get(Node(way=way, nap=nap, item_ids=ids, width_mm=width_mm))
                        if cover is None:
                            continue
                        own = (ceil(cover.lay.length_mm - WHOLE_MM_SLACK), rows[id(cover.lay)])
                        never_less = [(way, nap, one, width_mm) for one in smaller[ids]]
                        never_less += [(way, False, ids, width_mm)] if nap else []
                        never_less += [(one, nap, ids, width_mm) for one in SERVED_BY_WAY[way] if one != way]
                        floor = [own, wider, raised.get((way, nap, ids, width_mm), own)]
                        floor += [now[one] for one in never_less if one in now]
                        wider = now[way, nap, ids, width_mm] = (max(f[0] for f in floor), max(f[1] for f in floor))
                    told: tuple[int, int] | None = None
                    for at in ((way, nap, ids, width_mm) for width_mm in widths):
                        # Wider cloth that saves nothing is answered by the narrower, rows and all.
                        if at in now:
                            told = now[at] = now[at] if told is None or now[at][0] < told[0] else told
        raised |= now
        for way in ways:
            lays[way, size], numbers[way, size] = [], {}
            for nap in naps:
                of_size: list[Steps] = []
                for ids in sets:
                    steps: Steps = []
                    for width_mm in widths:
                        answer = now.get((way, nap, ids, width_mm))
                        if answer is None or (steps and answer[0] >= steps[-1][1]):
                            continue
                        cover = found[Node(way=way, nap=nap, item_ids=ids, width_mm=width_mm)]
                        number = numbers[way, size].setdefault(cover.node, len(numbers[way, size]))
                        if number == len(lays[way, size]):
                            lays[way, size].append((cover.node, cover.lay))
                        steps.append([round(width_mm), answer[0], number, answer[1]])
                    of_size.append(steps)
                lengths[way][NAP_WORDS[nap]][size] = of_size
    return Published(sets=[sorted(ids) for ids in sets], lengths=lengths, lays=lays)
