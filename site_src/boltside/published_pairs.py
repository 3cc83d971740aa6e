"""Which length is published for two garments from one length of cloth? Whole millimetres, with laws to rely on.

Two lays one behind the other are a lay of both garments. So a joint length is never more than the sum of the two
single ones; where no joint lay is shorter, the sum is published, and the two single lays stand for it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

from boltside.lay.brackets import CoverPlan
from boltside.lay.lattice import SERVED_BY_WAY, WAYS_SERVED, ItemSet, Node
from boltside.lay.model import Lay, Way
from boltside.lay.rows import rows_in_turn
from boltside.pairs import Pair, PairDemand, pair_key
from boltside.published_lays import NAP_WORDS, WHOLE_MM_SLACK, Published, Steps

ONE: Final = 1
"""Lays that answer as one; two stand one behind the other."""

PairLay = tuple[tuple[Node, Lay], ...]
"""What answers for two garments: one joint lay, or the first garment's lay and behind it the second's."""

Place = tuple[Way, bool, ItemSet, float]
"""Way, nap, lines of the cutting list, width."""

Need = tuple[int, int]
"""Length in whole mm, and rows of pieces that stripes would push on (:mod:`boltside.lay.rows`)."""


@dataclass(frozen=True, kw_only=True)
class PublishedPairs:
    """What is published of one cloth for two garments: lengths by way, nap and pair, the steps in the order of the
    cloth's sets; and by way and pair the lays that they name, in the order of their numbers."""

    lengths: dict[str, dict[str, dict[str, list[Steps]]]]
    lays: Mapping[tuple[Way, Pair], Sequence[PairLay]]


def published_pairs(
    singles: Published,
    plans: Mapping[Pair, tuple[PairDemand, CoverPlan]],
    *,
    sizes: Sequence[str],
    ways: Sequence[Way],
    widths_mm: Sequence[float],
) -> PublishedPairs:
    """The published lengths of two garments from one cloth.

    A length is that of the shortest joint lay, or of the two single lays together where that is less. It is raised
    where either garment alone, wider cloth, fewer pieces, no nap, a way that is folded less or a pair of smaller sizes
    would otherwise need more; all of these are at most the sum of the two single lengths, and so it stays. Rows are
    raised in the same way; the page compares joint lay and sum again where a repeat counts.

    Arguments: what is published for single garments; for each listed pair what can be asked for and what was found;
    the pattern's sizes, smallest first; the ways; the widths of the bolts in mm.
    """
    sets = [frozenset(ids) for ids in singles.sets]
    widths = sorted(widths_mm)
    naps = [nap for nap in (True, False) if any(NAP_WORDS[nap] in of_way for of_way in singles.lengths.values())]
    lengths: dict[str, dict[str, dict[str, list[Steps]]]] = {
        way: {NAP_WORDS[nap]: {} for nap in naps} for way in ways
    }
    lays: dict[tuple[Way, Pair], list[PairLay]] = {}
    found: dict[Pair, dict[Place, Need]] = {}
    order = {size: at for at, size in enumerate(sizes)}
    told = _by_set(singles)
    for pair in sorted(plans, key=lambda one: (order[one[0]], order[one[1]])):
        demand, plan = plans[pair]
        smaller = [one for one in found if all(order[a] <= order[b] for a, b in zip(one, pair, strict=True))]
        now: dict[Place, Need] = {}
        answers: dict[Place, PairLay] = {}
        rows = {key: rows_in_turn(lay, demand.items) for key, lay in _lays(plan).items()}
        for way in sorted(ways, key=WAYS_SERVED.index, reverse=True):
            for nap in reversed(naps):
                for ids in sorted(demand.naps, key=lambda ids: (len(ids), sorted(ids))):
                    wider: Need = (0, 0)
                    for width_mm in reversed(widths):
                        cover = plan.covers.get(
                            Node(way=way, nap=nap, item_ids=demand.joint(ids), width_mm=width_mm)
                        )
                        if cover is None:
                            continue
                        place = (way, nap, ids, width_mm)
                        alone = [
                            _step_at(told.get((way, nap, size, demand.alone(ids, garment)), ()), width_mm)
                            for garment, size in enumerate(pair)
                        ]
                        steps = [step for step in alone if step is not None]
                        if len(steps) < len(pair):
                            continue  # the pieces of one of them are not asked for so; the page adds what is
                        behind = tuple(
                            singles.lays[way, size][step[2]] for size, step in zip(pair, steps, strict=True)
                        )
                        answer: PairLay = min(((cover.node, cover.lay),), behind, key=length_mm)
                        own_rows = rows[id(cover.lay)] if len(answer) == ONE else sum(step[3] for step in steps)
                        never_less = [(way, nap, one, width_mm) for one in demand.naps if one < ids]
                        never_less += [(way, False, ids, width_mm)] if nap else []
                        never_less += [(one, nap, ids, width_mm) for one in SERVED_BY_WAY[way] if one != way]
                        floor = [wider, (length_mm(answer), own_rows), *((step[1], step[3]) for step in steps)]
                        floor += [now[one] for one in never_less if one in now]
                        floor += [found[one][place] for one in smaller if place in found[one]]
                        wider = now[place] = (max(need[0] for need in floor), max(need[1] for need in floor))
                        answers[place] = answer
                    last: Need | None = None
                    for at in ((way, nap, ids, width_mm) for width_mm in widths):
                        # Wider cloth that saves nothing is answered by the narrower, rows and all.
                        if at in now:
                            last = now[at] = now[at] if last is None or now[at][0] < last[0] else last
        found[pair] = now
        for way in ways:
            numbers: dict[tuple[Node, ...], int] = {}
            lays[way, pair] = []
            for nap in naps:
                of_pair: list[Steps] = []
                for ids in sets:
                    steps_of_set: Steps = []
                    for width_mm in widths:
                        need = now.get((way, nap, ids, width_mm))
                        if need is None or (steps_of_set and need[0] >= steps_of_set[-1][1]):
                            continue
                        answer = answers[way, nap, ids, width_mm]
                        number = numbers.setdefault(tuple(node for node, _ in answer), len(numbers))
                        if number == len(lays[way, pair]):
                            lays[way, pair].append(answer)
                        steps_of_set.append([round(width_mm), need[0], number, need[1]])
                    of_pair.append(steps_of_set)
                lengths[way][NAP_WORDS[nap]][pair_key(pair)] = of_pair
    return PublishedPairs(lengths=lengths, lays=lays)


def _lays(plan: CoverPlan) -> dict[int, Lay]:
    """The lays that serve something, each once."""
    return {id(cover.lay): cover.lay for cover in plan.covers.values()}


def length_mm(answer: PairLay) -> int:
    """How much cloth the lays take one behind the other, in whole mm, each rounded up."""
    return sum(ceil(lay.length_mm - WHOLE_MM_SLACK) for _, lay in answer)


def _by_set(singles: Published) -> dict[tuple[str, bool, str, ItemSet], Steps]:
    """The steps that are published for one garment, by way, nap, size and lines."""
    return {
        (way, nap, size, frozenset(ids)): steps
        for way, by_nap in singles.lengths.items()
        for nap, word in NAP_WORDS.items()
        for size, of_size in by_nap.get(word, {}).items()
        for ids, steps in zip(singles.sets, of_size, strict=True)
    }


def _step_at(steps: Sequence[list[int]], width_mm: float) -> list[int] | None:
    """The last step that is not wider than the cloth."""
    return next((step for step in reversed(steps) if step[0] <= width_mm), None)
