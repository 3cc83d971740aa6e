"""Laws of what is published for two garments, and the golden cases that are solved on paper."""

from __future__ import annotations

import itertools
import random
from math import ceil
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon
from shapely.affinity import scale, translate

from boltside.lay.brackets import Cover, CoverPlan, CoverSearch
from boltside.lay.folded import solve_by_filling
from boltside.lay.lattice import AskedSet, Node
from boltside.lay.model import Lay, LayItem
from boltside.pair_lay_files import pair_lay_file
from boltside.pairs import Pair, PairDemand, pair_demand, pair_key, search_for_pair
from boltside.published_lays import published_cloth
from boltside.published_pairs import PublishedPairs, published_pairs

WIDTHS = (900.0, 1100.0, 1400.0)
SIZES = ("68", "74", "80")
PAIRS: tuple[Pair, ...] = (("68", "74"), ("68", "80"), ("74", "74"), ("74", "80"), ("80", "80"))
SETS = tuple(frozenset(ids) for ids in (["a"], ["a", "b"], ["a", "c"], ["a", "b", "c"]))
WAYS = ("folded", "flat", "middle", "part-folded")
PIECES: dict[str, LayItem] = {}
"""Lays without places need no pieces."""
SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))


def lay(node: Node, length_mm: float) -> Lay:
    return Lay(length_mm=length_mm, placements=(), way=node.way, bolt_width_mm=node.width_mm, one_way=node.nap)


def covers(chance: random.Random, sets: list[frozenset[str]], naps: tuple[bool, ...], longest: float) -> CoverPlan:
    """Lengths without any order, but never growing with the width."""
    found: dict[Node, Cover] = {}
    for ids, way, nap in itertools.product(sets, WAYS, naps):
        least = longest
        for width_mm in WIDTHS[chance.randint(0, 1) :]:
            node = Node(way=way, nap=nap, item_ids=ids, width_mm=width_mm)
            least = min(least, chance.uniform(100, longest))
            found[node] = Cover(node=node, lay=lay(node, least))
    return CoverPlan(covers=found)


def random_cloth(seed: int) -> tuple[Any, dict[Pair, tuple[PairDemand, CoverPlan]]]:
    """Published singles and plans of pairs, all of them at random."""
    chance = random.Random(seed)
    naps = chance.choice([(True, False), (False,), (True,)])
    singles = published_cloth(
        {size: covers(chance, list(SETS), naps, 2000) for size in SIZES}, WAYS, WIDTHS, dict.fromkeys(SIZES, PIECES)
    )
    plans = {}
    for pair in chance.sample(PAIRS, chance.randint(1, len(PAIRS))):
        items = [
            {name: LayItem(item_id=name, outline_mm=SQUARE, mode="single", count=1) for name in "abc"} for _ in pair
        ]
        reached = [[({"set": str(at)}, ids, frozenset(naps)) for at, ids in enumerate(SETS)] for _ in pair]
        demand = pair_demand(pair, items, reached, SETS)
        plans[pair] = (demand, covers(chance, [demand.joint(ids) for ids in SETS], naps, 4000))
    return singles, plans


def told(lengths: dict[str, Any], key: str, sets: list[list[str]]) -> dict[tuple[str, str, frozenset[str], float], int]:
    """What a buyer is told at each width."""
    found = {}
    for way, by_nap in lengths.items():
        for nap, by_size in by_nap.items():
            for ids, steps in zip(sets, by_size.get(key, []), strict=False):
                for width_mm in WIDTHS:
                    reached = [step[1] for step in steps if step[0] <= width_mm]
                    if reached:
                        found[way, nap, frozenset(ids), width_mm] = reached[-1]
    return found


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6))
def test_law_between_either_garment_alone_and_both_behind_each_other(seed: int) -> None:
    singles, plans = random_cloth(seed)
    pairs = published_pairs(singles, plans, sizes=SIZES, ways=WAYS, widths_mm=WIDTHS)
    for pair in plans:
        one, other = (told(singles.lengths, size, singles.sets) for size in pair)
        both = told(pairs.lengths, pair_key(pair), singles.sets)
        for place, length in both.items():
            assert max(one[place], other[place]) <= length <= one[place] + other[place]


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6))
def test_law_wider_never_more_and_more_pieces_nap_folding_larger_pairs_never_less(seed: int) -> None:
    singles, plans = random_cloth(seed)
    pairs = published_pairs(singles, plans, sizes=SIZES, ways=WAYS, widths_mm=WIDTHS)
    found = {pair: told(pairs.lengths, pair_key(pair), singles.sets) for pair in plans}
    for by_nap in pairs.lengths.values():
        for by_pair in by_nap.values():
            for steps in itertools.chain(*by_pair.values()):
                for narrow, wide in itertools.pairwise(steps):
                    assert narrow[0] < wide[0] and narrow[1] > wide[1]
    for pair, lengths in found.items():
        for (way, nap, ids, width_mm), length in lengths.items():
            for more in SETS:
                if more > ids:
                    assert lengths.get((way, nap, more, width_mm), length) >= length
            assert lengths.get((way, "with", ids, width_mm), length) >= length or nap == "with"
            if way == "folded":
                assert lengths.get(("part-folded", nap, ids, width_mm), length) <= length
            if way != "flat":
                assert lengths.get(("flat", nap, ids, width_mm), length) <= length
            for larger, of_larger in found.items():
                if all(SIZES.index(a) <= SIZES.index(b) for a, b in zip(pair, larger, strict=True)):
                    assert of_larger.get((way, nap, ids, width_mm), length) >= length


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6))
def test_law_the_lay_that_is_named_is_never_longer_than_what_is_told(seed: int) -> None:
    singles, plans = random_cloth(seed)
    pairs = published_pairs(singles, plans, sizes=SIZES, ways=WAYS, widths_mm=WIDTHS)
    behind = 0
    for way, by_nap in pairs.lengths.items():
        for by_pair in by_nap.values():
            for pair in plans:
                for steps in by_pair[pair_key(pair)]:
                    for width, length, number, *_ in steps:
                        answer = pairs.lays[way, pair][number]
                        assert sum(ceil(one.length_mm - 1e-6) for _, one in answer) <= length
                        assert all(one.bolt_width_mm <= width for _, one in answer)
                        behind += len(answer) == 2
    assert behind or not any(len(one) == 2 for lays in pairs.lays.values() for one in lays)


# ---- on paper: garments of rectangles ----


def box(line: str, long: float, wide: float) -> LayItem:
    return LayItem(item_id=line, outline_mm=((0, 0), (long, 0), (long, wide), (0, wide)), mode="single", count=1)


def laid(pair: Pair, garments: list[dict[str, LayItem]], width_mm: float) -> tuple[Any, PublishedPairs, PairDemand]:
    """One set, one width, flat without nap: solved, published for each garment and for both."""
    ids = frozenset(garments[0])
    plans = {}
    for size, items in zip(pair, garments, strict=True):
        asked = [AskedSet(item_ids=ids, naps=frozenset({False}))]
        plans[size] = solved(CoverSearch(items, asked, widths_mm=(width_mm,), ways=("flat",)))
    singles = published_cloth(plans, ("flat",), (width_mm,), dict(zip(pair, garments, strict=True)))
    demand = pair_demand(pair, garments, [[({}, ids, frozenset({False}))]] * 2, [ids])
    plan = solved(search_for_pair(demand, widths_mm=(width_mm,), ways=("flat",), full=True))
    return singles, published_pairs(
        singles, {pair: (demand, plan)}, sizes=sorted(set(pair)), ways=("flat",), widths_mm=(width_mm,)
    ), demand


def solved(search: CoverSearch) -> CoverPlan:
    while (node := search.next_node()) is not None:
        search.take(node, solve_by_filling(search.request(node), trials=200))
    return search.result()


# Usable width is the bolt's less 2 × 15 mm. Lengths worked out on paper:
GOLDEN = {
    # One piece of 300 × 400 each: alone 400 long; 600 usable takes both side by side.
    "twins side by side": (("92", "92"), [{"a": (400, 300)}, {"a": (400, 300)}], 630, 400, 400, 400),
    # The larger one rules: 400 and 500 side by side take 500.
    "two sizes side by side": (("86", "92"), [{"a": (400, 280)}, {"a": (500, 320)}], 630, 400, 500, 500),
    # As wide as the cloth: nothing to be gained, one behind the other.
    "nothing to gain": (("86", "92"), [{"a": (400, 600)}, {"a": (500, 600)}], 630, 400, 500, 900),
    # Each is a body 400 × 400 and a strip 400 × 100; on 600 either alone takes 400 with 100 of the width left empty.
    # Both: the bodies end to end take 800 beside 200 of width, in which the strips lie end to end: 800, as the area of
    # 2 × (160,000 + 40,000) over 600, 667, can't be reached: two bodies never lie side by side (800 > 600).
    "strips in the gap": (("92", "92"), [{"a": (400, 400), "b": (400, 100)}] * 2, 630, 400, 400, 800),
    # A body 300 × 400 and a sleeve 300 × 250: alone the sleeve lies behind the body, 600 (400 + 250 > 600). Both: the
    # two sleeves share a row (250 + 250), so three rows of 300: 900, not 1200.
    "sleeves share a row": (("92", "92"), [{"a": (300, 400), "b": (300, 250)}] * 2, 630, 600, 600, 900),
}


@pytest.mark.parametrize("name", GOLDEN)
def test_golden_on_paper(name: str) -> None:
    pair, sizes_mm, width_mm, one_mm, other_mm, both_mm = GOLDEN[name]
    garments = [{line: box(line, *size) for line, size in of_one.items()} for of_one in sizes_mm]
    singles, pairs, demand = laid(pair, garments, width_mm)
    alone = [singles.lengths["flat"]["without"][size][0][0][1] for size in pair]
    steps = pairs.lengths["flat"]["without"][pair_key(pair)][0]
    assert (alone, [step[:2] for step in steps]) == ([one_mm, other_mm], [[width_mm, both_mm]])
    file = pair_lay_file("boxes", "outer", "flat", demand, garments, pairs.lays["flat", pair])
    look_at(file, garments, steps[0][2], width_mm - 30, both_mm)


def look_at(file: dict[str, Any], garments: list[dict[str, LayItem]], number: int, usable: float, both_mm: int) -> None:
    """Every piece of both garments once, inside, apart; two lays one behind the other are as long as both."""
    row = file["lays"][str(number)]
    assert row["length_mm"] == both_mm and file["size"] == "+".join(file["sizes"])
    seen, shapes, start = [], [], 0
    for part in row.get("behind", [row]):
        for item, _, x, y, turned, mirrored in part["at"]:
            line, garment = file["items"][item], file["garments"][item]
            seen.append((line, garment))
            shape = Polygon(garments[garment][line].outline_mm)
            shape = scale(shape, yfact=-1, origin=(0, 0)) if mirrored else shape
            shape = scale(shape, xfact=-1, yfact=-1, origin=(0, 0)) if turned else shape
            shapes.append(translate(shape, x + start, y))
        start += part["length_mm"]
    assert sorted(seen) == sorted((line, garment) for garment, items in enumerate(garments) for line in items)
    for shape in shapes:
        x0, y0, x1, y1 = shape.bounds
        assert x0 >= -1 and y0 >= -1 and x1 <= both_mm + 1 and y1 <= usable + 1
    for one, other in itertools.combinations(shapes, 2):
        assert one.buffer(-0.71).intersection(other.buffer(-0.71)).area < 1.0
