"""Which lays come next: with two ways as it ever was, with four by their order, and each served as its way lies."""

import itertools
import random
from dataclasses import replace

import numpy as np
import pytest
from pieces_for_lays import jacket
from test_lay_brackets import ALL_WAYS, WIDTHS, Shop, made, strip

from boltside.lay import covering
from boltside.lay.brackets import CoverSearch
from boltside.lay.lattice import SERVED_BY_WAY, WAYS_SERVED, AskedSet, Lattice, Node
from boltside.lay.model import TooWide
from boltside.lay.solve import solve
from boltside.lay.spread_middle import check_middle_widths
from boltside.lay.spread_part import fold_overs, narrowest_part_folded_mm


class InARow(covering.Covering):
    """The rule for two ways as it was before there were more: each way serves those behind it."""

    def lay(self, index, length_mm):
        way, nap, item_set, width = index
        length = covering.tenths_up(length_mm)
        self.laid[index] = length
        self._see(index, length)
        served = self._served_by(index)
        self.length[served] = np.minimum(self.length[served], length)
        holding = np.flatnonzero(self.lattice.contains[:, item_set])
        serving = np.ix_(range(way + 1), range(nap + 1), holding, range(width + 1))
        self.least[serving] = np.maximum(self.least[serving], length)

    def _served_by(self, index):
        way, nap, item_set, width = index
        ways, naps, _, widths = self.lattice.shape
        held = np.flatnonzero(self.lattice.contains[item_set])
        return np.ix_(range(way, ways), range(nap, naps), held, range(width, widths))

    def next_index(self):
        if self._serving is None:
            way, nap, item_set, width = (axis.ravel() for axis in np.indices(self.lattice.shape))
            self._serving = (
                (way[:, None] <= way)
                & (nap[:, None] <= nap)
                & (width[:, None] <= width)
                & self.lattice.contains[item_set[:, None], item_set]
            )
        return super().next_index()


@pytest.mark.parametrize("seed", range(30))
def test_two_ways_are_covered_by_the_same_lays_in_the_same_order_as_before(seed):
    chance = random.Random(seed)
    items = {name: strip(name, chance.uniform(60, 400), chance.uniform(40, 240)) for name in "abcdef"[: 3 + seed % 4]}
    asked = [
        AskedSet(item_ids=frozenset({"a", *extra}), naps=frozenset({True, False}))
        for size in range(len(items))
        for extra in itertools.combinations(sorted(items)[1:], size)
    ]
    lattice = Lattice(items, asked, WIDTHS, ("folded", "flat"))
    now, before = covering.Covering(lattice, limit_mm=45.0), InARow(lattice, limit_mm=45.0)
    steps = 0
    while (index := now.next_index()) is not None:
        assert before.next_index() == index
        length_mm = int(lattice.bound[index]) / 10 * chance.uniform(1.0, 1.4)
        now.lay(index, length_mm)
        before.lay(index, length_mm)
        steps += 1
        for name in ("length", "least", "fill"):
            assert np.array_equal(getattr(now, name), getattr(before, name))
        assert np.array_equal(now.cost(), before.cost())
    assert before.next_index() is None
    assert now.servers() == before.servers()
    assert steps > 1


def test_each_way_stands_before_those_it_serves_and_what_is_served_serves_no_more():
    assert set(SERVED_BY_WAY) == set(WAYS_SERVED) == set(ALL_WAYS)
    for way, served in SERVED_BY_WAY.items():
        assert way in served
        for other in served:
            assert WAYS_SERVED.index(way) <= WAYS_SERVED.index(other)
            assert SERVED_BY_WAY[other] <= served


def test_middle_and_folded_serve_flat_cloth_but_not_each_other():
    search = CoverSearch(
        {"a": strip("a", 300)},
        [AskedSet(item_ids=frozenset("a"), naps=frozenset({False}))],
        widths_mm=[1030],
        ways=ALL_WAYS,
        limit_mm=0.0,
    )
    one = Node(way="middle", nap=False, item_ids=frozenset("a"), width_mm=1030)
    search.take(one, made(one, 400.0))
    assert {node.way for node in search.result().covers} == {"middle", "flat"}
    other = replace(one, way="folded")
    search.take(other, made(other, 350.0))
    found = {node.way: cover.node.way for node, cover in search.result().covers.items()}
    assert found == {"middle": "middle", "folded": "folded", "part-folded": "folded", "flat": "folded"}


def test_a_part_folded_lay_starts_from_the_folded_one_of_the_same_pieces_and_cloth_only():
    items = {item.item_id: item for item in jacket()}
    asked = [AskedSet(item_ids=frozenset(items), naps=frozenset({False}))]
    search = CoverSearch(items, asked, widths_mm=[730, 1030], ways=ALL_WAYS)
    wanted = Node(way="part-folded", nap=False, item_ids=frozenset(items), width_mm=1030)
    assert search.like(wanted) == ()
    for width_mm in (730, 1030):
        node = replace(wanted, way="folded", width_mm=width_mm)
        search.take(node, solve(search.request(node), "draft"))
    like = search.like(wanted)
    assert [(lay.way, lay.bolt_width_mm) for lay in like] == [("folded", 1030)]
    lay = solve(search.request(wanted), "draft", like=like)
    assert lay.length_mm <= like[0].length_mm
    assert search.like(replace(wanted, way="middle")) == ()


@pytest.mark.parametrize("seed", range(12))
def test_a_node_fits_where_the_solver_takes_it(seed):
    """To the middle: a quarter of the cloth; part-folded: in half or over by less, as the solver's own lists say."""
    shop = Shop(seed)
    lattice = Lattice(shop.items, shop.asked, (330.0, 430.0, 530.0, 730.0, 1030.0), ALL_WAYS)
    for index in itertools.product(*(range(length) for length in lattice.shape)):
        request = lattice.request(lattice.node(index))
        if request.way == "middle":
            try:
                check_middle_widths(request)
                takes = True
            except TooWide:
                takes = False
        elif request.way == "part-folded":
            widest = max(max(y for _, y in item.outline_mm) for item in request.items)
            takes = bool(fold_overs(request)) or request.bolt_width_mm >= 2 * (widest + 15)
            assert takes == (request.bolt_width_mm >= narrowest_part_folded_mm(request.items))
        else:
            continue
        assert lattice.fits[index] == takes
