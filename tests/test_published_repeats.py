"""Laws of what is published in step with a repeat, of lengths without any order."""

import itertools
import random
from math import ceil

from hypothesis import given, settings
from hypothesis import strategies as st
from test_published_lays import PIECES, SETS, SIZES, WIDTHS, lay, random_plans

from boltside.lay.brackets import Cover, CoverPlan
from boltside.lay.lattice import Node
from boltside.published_lays import published_cloth
from boltside.published_repeats import add_repeat

WAYS = ("folded", "flat")


def in_step(seed: int) -> dict[str, CoverPlan]:
    """Lengths by chance, never growing with the width; some sets can't be in step in some ways."""
    chance = random.Random(seed)
    plans = {}
    for size in SIZES:
        covers: dict[Node, Cover] = {}
        for ids, way in itertools.product(chance.sample(SETS, chance.randint(0, len(SETS))), WAYS):
            best: Cover | None = None
            for width_mm in WIDTHS[chance.randint(0, 3) :]:
                node = Node(way=way, nap=True, item_ids=ids, width_mm=width_mm)  # type: ignore[arg-type]
                own = Cover(node=node, lay=lay(node, chance.uniform(100, 2000), chance.randint(1, 9)))
                best = own if best is None or own.length_mm < best.length_mm else best
                covers[node] = best
        plans[size] = CoverPlan(covers=covers)
    return plans


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6), st.booleans())
def test_in_step_the_laws_hold_and_nothing_is_less_than_without(seed, folds_alike):
    plain = published_cloth(random_plans(seed), WAYS, WIDTHS, PIECES)
    plans = in_step(seed)
    both = add_repeat(plain, "checks", plans, WAYS, PIECES, folds_alike=folds_alike)
    for (way, size), made in plain.lays.items():
        assert list(both.lays[way, size])[: len(made)] == list(made)
    told = {}
    for way, by_nap in both.lengths.items():
        assert {nap: by_size for nap, by_size in by_nap.items() if nap != "repeat:checks"} == plain.lengths[way]
        for size, of_sets in by_nap.get("repeat:checks", {}).items():
            assert any(of_sets) and len(of_sets) == len(both.sets)
            for at, steps in enumerate(of_sets):
                without = (plain.lengths[way].get("with") or plain.lengths[way]["without"]).get(size, [])
                for width, length, number, rows in steps:
                    node, made = both.lays[way, size][number]  # type: ignore[index]
                    assert (node.nap, node.item_ids) == (True, frozenset(both.sets[at])) and node.width_mm <= width
                    assert made.length_mm <= length + 1e-6
                    assert rows >= (len(made.placements) if len(made.placements) > 1 else 0)
                    assert all(length >= step[1] for step in without[at] if step[0] == width)
                for one, other in itertools.pairwise(steps):
                    assert one[0] < other[0] and one[1] > other[1] and one[3] >= other[3]
                for width_mm in WIDTHS:
                    reached = [(step[1], step[3]) for step in steps if step[0] <= width_mm]
                    if reached:
                        told[way, size, frozenset(both.sets[at]), width_mm] = reached[-1]
    for (way, size, ids, width_mm), (length, rows) in told.items():
        never_less = [(way, larger, ids, width_mm) for larger in SIZES[SIZES.index(size) + 1 :]]
        never_less += [(way, size, more, width_mm) for more in SETS if more > ids]
        never_less += [("folded", size, ids, width_mm)] if folds_alike and way == "flat" else []
        for other in never_less:
            if other in told:
                assert told[other][0] >= length and told[other][1] >= rows
    for size, plan in plans.items():
        for node, cover in plan.covers.items():
            if node.item_ids in map(frozenset, both.sets):
                assert told[node.way, size, node.item_ids, node.width_mm][0] >= ceil(cover.length_mm - 1e-6)
