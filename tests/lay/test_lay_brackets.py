"""Laws of the brackets: every demand gets a lay that serves it, and covering costs no more than the limit."""

import itertools
import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pieces_for_lays import jacket

from boltside.lay.bounds import shortest_possible_mm
from boltside.lay.brackets import EVERYDAY_COST_MM, LARGEST_COST_MM, PURCHASE_STEP_MM, CoverPlan, CoverSearch
from boltside.lay.lattice import AskedSet, Lattice, Node
from boltside.lay.model import Lay, LayItem, LayRequest, TooWide, check_widths
from boltside.lay.spread_bounds import shortest_spread_mm

WIDTHS = (530.0, 730.0, 1030.0)
ALL_WAYS = ("flat", "folded", "middle", "part-folded")
ORDERED = {("folded", "part-folded"), ("folded", "flat"), ("part-folded", "flat"), ("middle", "flat")}


def strip(item_id: str, along_mm: float, across_mm: float = 150.0) -> LayItem:
    outline = ((0.0, 0.0), (along_mm, 0.0), (along_mm, across_mm), (0.0, across_mm))
    return LayItem(item_id=item_id, outline_mm=outline, mode="pair", count=2)


def made(node: Node, length_mm: float) -> Lay:
    return Lay(
        length_mm=round(length_mm, 1), placements=(), way=node.way, bolt_width_mm=node.width_mm, one_way=node.nap
    )


def bound_mm(request: LayRequest) -> float:
    if request.way in ("flat", "folded"):
        return shortest_possible_mm(request)
    return shortest_spread_mm(request.items, request.bolt_width_mm, request.way, one_way=request.one_way)


class Shop:
    """Up to three choices of up to three alternatives with up to two pieces each, and a length for every node.

    Lengths are at least the bound and never fall from a node to one that it serves; more is not known of them.
    """

    def __init__(self, seed: int) -> None:
        chance = random.Random(seed)
        self.items = {"body": strip("body", chance.uniform(200, 400))}
        alternatives: list[list[frozenset[str]]] = []
        for choice in range(chance.randint(0, 3)):
            sets = []
            for alternative in range(chance.randint(1, 3)):
                ids = [f"c{choice}a{alternative}p{piece}" for piece in range(chance.randint(0, 2))]
                self.items |= {one: strip(one, chance.choice((20.0, 60.0, 150.0, 250.0))) for one in ids}
                sets.append(frozenset(ids))
            alternatives.append(sets)
        naps = chance.choice([{True, False}, {False}, {True}])
        self.asked = [
            AskedSet(item_ids=frozenset({"body"}).union(*chosen), naps=frozenset(naps))
            for chosen in itertools.product(*alternatives)
        ]
        self.ways = chance.choice([("folded", "flat"), ("flat",), ("folded",), ("part-folded", "middle"), ALL_WAYS])
        self.lattice = Lattice(self.items, self.asked, WIDTHS, self.ways)
        self.slack = {node: chance.uniform(1.0, 1.4) for node in self.nodes()}
        self.lengths = {
            node: max(
                self.bound_mm(below) * self.slack[below]
                for below in self.nodes()
                if below == node or serves(node, below)
            )
            for node in self.nodes()
        }

    def nodes(self) -> list[Node]:
        places = itertools.product(*(range(length) for length in self.lattice.shape))
        return [self.lattice.node(index) for index in places if self.lattice.asked[index]]

    def bound_mm(self, node: Node) -> float:
        return bound_mm(self.lattice.request(node))

    def search(self, **options) -> tuple[CoverSearch, CoverPlan]:
        search = CoverSearch(self.items, self.asked, widths_mm=WIDTHS, ways=self.ways, **options)
        while (node := search.next_node()) is not None:
            search.take(node, made(node, self.lengths[node]))
        return search, search.result()


def serves(one: Node, other: Node) -> bool:
    """The rule in words, beside the arrays: more pieces, narrower cloth, nap or none asked, a way that asks less."""
    return (
        one.item_ids >= other.item_ids
        and one.width_mm <= other.width_mm
        and (one.nap or not other.nap)
        and (one.way == other.way or (one.way, other.way) in ORDERED)
    )


shops = st.integers(0, 10**6).map(Shop)


@settings(max_examples=60, deadline=None)
@given(shops)
def test_every_demand_is_served_by_the_shortest_lay_that_serves_it(shop):
    _, found = shop.search()
    assert set(found.covers) == set(shop.nodes())
    assert found.unserved == ()
    for node, cover in found.covers.items():
        assert serves(cover.node, node)
        assert found.laid[cover.node] is cover.lay
        assert cover.length_mm == min(lay.length_mm for other, lay in found.laid.items() if serves(other, node))


@settings(max_examples=60, deadline=None)
@given(shops)
def test_lengths_found_keep_the_orders(shop):
    _, found = shop.search()
    for one, other in itertools.permutations(found.covers, 2):
        if serves(one, other):
            assert found.covers[one].length_mm >= found.covers[other].length_mm


@settings(max_examples=60, deadline=None)
@given(shops)
def test_the_reported_cost_is_within_the_limit_and_no_demand_is_wanting(shop):
    _, found = shop.search()
    assert found.largest_cost_mm <= LARGEST_COST_MM
    assert found.wanting == 0


@settings(max_examples=60, deadline=None)
@given(shops)
def test_the_order_in_which_lays_come_does_not_matter(shop):
    """All lays of a search, given to a new one in any order, lead to the same end and to no more lays."""
    search, found = shop.search()
    again = CoverSearch(shop.items, shop.asked, widths_mm=WIDTHS, ways=shop.ways)
    laid = list(found.laid.items())
    random.Random(1).shuffle(laid)
    for node, lay in laid:
        again.take(node, lay)
    assert again.next_node() is None
    assert again.result() == found
    assert search.next_node() is None


@settings(max_examples=60, deadline=None)
@given(shops)
def test_the_quick_bounds_are_the_bounds_of_the_requests(shop):
    for node in shop.nodes():
        index = shop.lattice.index(node)
        assert index is not None
        assert shop.lattice.bound[index] / 10 == pytest.approx(shop.bound_mm(node), abs=0.11)


@pytest.mark.parametrize("nap", [True, False])
def test_the_quick_bounds_of_curved_pieces_too(nap):
    items = {item.item_id: item for item in jacket()}
    asked = [
        AskedSet(item_ids=frozenset(ids), naps=frozenset({nap}))
        for ids in (items, {"back", "band"}, {"sleeve", "flap"})
    ]
    lattice = Lattice(items, asked, (430.0, 730.0, 1030.0), ALL_WAYS)
    for index in itertools.product(*(range(length) for length in lattice.shape)):
        if lattice.fits[index]:
            least_mm = bound_mm(lattice.request(lattice.node(index)))
            assert lattice.bound[index] / 10 == pytest.approx(least_mm, abs=0.11)


@settings(max_examples=30, deadline=None)
@given(shops)
def test_a_quick_start_serves_every_demand_within_two_purchase_steps(shop):
    _, quick = shop.search(limit_mm=EVERYDAY_COST_MM)
    _, full = shop.search()
    assert set(quick.covers) == set(full.covers)
    assert quick.largest_cost_mm <= EVERYDAY_COST_MM
    if quick.largest_cost_mm > LARGEST_COST_MM:
        assert quick.wanting > 0
    else:
        assert quick.wanting == 0


@settings(max_examples=60, deadline=None)
@given(shops, st.integers(0, len(WIDTHS) - 1))
def test_a_quick_start_minds_only_some_widths_and_serves_all(shop, at):
    """Of the widths between, and without nap where nap can be asked, nobody cares what covering costs."""
    minded_mm = WIDTHS[at]
    _, quick = shop.search(limit_mm=EVERYDAY_COST_MM, minded_widths_mm=[minded_mm])
    assert set(quick.covers) == set(shop.nodes())
    assert quick.unserved == ()
    assert quick.largest_cost_mm <= EVERYDAY_COST_MM
    narrowest = {}
    for node in sorted(shop.nodes(), key=lambda node: node.width_mm):
        narrowest.setdefault((node.way, node.item_ids), node.width_mm)
    with_nap = any(node.nap for node in shop.nodes())
    for node in quick.laid:
        assert node.width_mm in (minded_mm, narrowest[node.way, node.item_ids])
        assert node.nap == with_nap


@settings(max_examples=30, deadline=None)
@given(shops)
def test_a_quick_start_that_knows_more_lays_asks_for_none_that_is_served_well(shop):
    """Given all lays of a full search, it has nothing to lay; given none but the greatest, only what costs too much."""
    _, full = shop.search()
    quick = CoverSearch(shop.items, shop.asked, widths_mm=WIDTHS, ways=shop.ways, limit_mm=EVERYDAY_COST_MM)
    for node, lay in full.laid.items():
        quick.take(node, lay)
    assert quick.next_node() is None


@settings(max_examples=30, deadline=None)
@given(shops)
def test_no_lay_need_be_shorter_than_one_that_it_would_serve(shop):
    _, found = shop.search()
    search = CoverSearch(shop.items, shop.asked, widths_mm=WIDTHS, ways=shop.ways)
    for node, lay in found.laid.items():
        search.take(node, lay)
    for node in shop.nodes():
        below = [lay.length_mm for other, lay in found.laid.items() if serves(node, other)]
        assert search.enough_mm(node) == pytest.approx(max([shop.bound_mm(node), *below]), abs=0.2)


def test_nodes_that_fit_no_cloth_are_counted_and_the_others_are_laid():
    board = strip("board", 10, across_mm=600)
    items = {"a": strip("a", 100), "board": board}
    asked = [
        AskedSet(item_ids=frozenset({"a"}), naps=frozenset({False})),
        AskedSet(item_ids=frozenset({"a", "board"}), naps=frozenset({False})),
    ]
    search = CoverSearch(items, asked, widths_mm=[530, 630], ways=["flat"])
    while (node := search.next_node()) is not None:
        search.take(node, made(node, 300))
    found = search.result()
    assert found.too_wide == 1
    assert {(len(node.item_ids), node.width_mm) for node in found.covers} == {(1, 530), (1, 630), (2, 630)}
    with pytest.raises(TooWide):
        check_widths(search.request(Node(way="flat", nap=False, item_ids=frozenset(items), width_mm=530)))


def test_a_combination_without_pieces_needs_no_lay():
    asked = [AskedSet(item_ids=frozenset(), naps=frozenset({True, False}))]
    search = CoverSearch({"a": strip("a", 100)}, asked, widths_mm=WIDTHS, ways=["flat"])
    assert search.next_node() is None
    assert (search.result().covers, search.result().unserved) == ({}, ())


def test_small_pieces_are_covered_by_one_lay():
    """A strip of 30 more or less, on cloth that holds one strip across: eight sets within 30 mm, one lay."""
    items = {name: strip(name, along, across_mm=100) for name, along in {"body": 300, "x": 5, "y": 5, "z": 5}.items()}
    asked = [
        AskedSet(item_ids=frozenset({"body", *extra}), naps=frozenset({False}))
        for length in range(4)
        for extra in itertools.combinations("xyz", length)
    ]
    search = CoverSearch(items, asked, widths_mm=[250], ways=["folded"])
    while (node := search.next_node()) is not None:
        search.take(node, made(node, sum(max(x for x, _ in items[one].outline_mm) for one in node.item_ids)))
    found = search.result()
    assert [len(node.item_ids) for node in found.laid] == [4]
    assert {cover.length_mm for cover in found.covers.values()} == {315}
    assert found.largest_cost_mm == pytest.approx(15)
    assert "1 lays for 8 that can be asked for, 7 of them covered" in found.summary()


def test_a_lay_that_could_not_be_made_is_not_asked_for_again():
    shop = Shop(3)
    search = CoverSearch(shop.items, shop.asked, widths_mm=WIDTHS, ways=shop.ways)
    seen = set()
    while (node := search.next_node()) is not None:
        assert node not in seen
        seen.add(node)
        search.give_up(node)
    assert search.result().unserved


def test_a_lay_of_another_lattice_is_refused():
    shop = Shop(3)
    search = CoverSearch(shop.items, shop.asked, widths_mm=WIDTHS, ways=shop.ways)
    node = replace(shop.nodes()[0], width_mm=777.0)
    assert not search.knows(node)
    with pytest.raises(KeyError):
        search.take(node, made(node, 100))


def test_the_purchase_step_is_five_centimetres_and_covering_costs_no_more():
    assert pytest.approx(50) == PURCHASE_STEP_MM
    assert LARGEST_COST_MM <= PURCHASE_STEP_MM
    assert EVERYDAY_COST_MM <= 2 * PURCHASE_STEP_MM
