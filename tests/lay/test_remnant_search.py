"""Lays for narrow cloth: few, flat, quick, only of what a remnant may hold; the ordinary search never notices them."""

import sys
from dataclasses import replace

from pieces_for_lays import jacket

from boltside.calculators.remnant_index import NARROW_UP_TO_CM
from boltside.lay.brackets import CoverPlan, CoverSearch
from boltside.lay.lattice import AskedSet, Node
from boltside.lay.model import Lay, LayItem
from boltside.lay.pool import Pool
from boltside.lay.remnant_search import LONGEST_REMNANT_MM, REMNANT_COST_MM, RemnantSearch
from boltside.lay.run import run_plans
from boltside.lay.solve import lay_key, likeness, solve
from boltside.lay.store import LayStore, Receipts

NOBODY = (sys.executable, "-c", "import os, sys; sys.stdin.readline(); os._exit(1)")
"""A worker that makes no lay: a run with it succeeds only where nothing is to be made."""

NARROW = "jacket, outer, size 92, remnants"


def strip(item_id: str, along_mm: float, across_mm: float) -> LayItem:
    outline = ((0.0, 0.0), (along_mm, 0.0), (along_mm, across_mm), (0.0, across_mm))
    return LayItem(item_id=item_id, outline_mm=outline, mode="single", count=1)


def asked(*sets: str) -> list[AskedSet]:
    return [AskedSet(item_ids=frozenset(one), naps=frozenset({True, False})) for one in sets]


def length_mm(search: CoverSearch, node: Node) -> float:
    """What a lay of this node is made to take here: its pieces fill three quarters of the cloth."""
    index = search.lattice.index(node)
    return float(max(search.lattice.bound[index], search.lattice.area[index] / 0.75)) / 10


def solved(search: CoverSearch) -> CoverPlan:
    while (node := search.next_node()) is not None:
        lay = Lay(length_mm=length_mm(search, node), placements=(), way=node.way, bolt_width_mm=node.width_mm,
                  one_way=node.nap, quality="everyday")  # fmt: skip
        search.take(node, lay)
    return search.result()


ITEMS = {"a": strip("a", 500, 250), "b": strip("b", 700, 250), "c": strip("c", 800, 380), "d": strip("d", 1250, 100)}


def test_only_what_may_lie_within_a_remnant_is_asked_for_and_the_rest_is_no_fault() -> None:
    """By hand, where four fifths of the cloth are filled: `a` and `b`, 300,000 mm2, take 1389 mm of the 270 mm between
    the selvedges at 300, and 893 mm of 420; with `c` 604,000 mm2 take 1325 mm of 570; `d` is too long by itself."""
    search = RemnantSearch(ITEMS, asked("a", "ab", "abc", "d"), widths_mm=[300, 450, 600])
    found = solved(search)
    served = {("".join(sorted(node.item_ids)), node.width_mm, node.nap) for node in found.covers}
    assert {one[:2] for one in served} == {(ids, width) for ids in ("a",) for width in (300, 450, 600)} | {
        ("ab", width) for width in (450, 600)
    }
    assert found.unserved == () and found.wanting == 0
    assert {node.way for node in found.laid} == {"flat"}


def test_a_set_that_just_fits_the_longest_remnant_is_asked_for_and_a_longer_one_is_not() -> None:
    items = {"a": strip("a", LONGEST_REMNANT_MM, 250), "b": strip("b", LONGEST_REMNANT_MM + 1, 250)}
    found = solved(RemnantSearch(items, asked("a", "b"), widths_mm=[450]))
    assert {node.item_ids for node in found.covers} == {frozenset("a")}


def test_covering_costs_no_more_than_it_may() -> None:
    items = {name: strip(name, 90.0 + 30 * at, 200.0) for at, name in enumerate("abcdefgh")}
    sets = ["".join("abcdefgh"[:at]) for at in range(1, 9)]
    search = RemnantSearch(items, asked(*sets), widths_mm=[300, 400, 500, 600, 700, 800])
    found = solved(search)
    assert len(found.laid) < len(found.covers) / 2
    for node, cover in found.covers.items():
        assert cover.length_mm - search.lattice.bound[search.lattice.index(node)] / 10 >= -0.1
        assert cover.length_mm - length_mm(search, node) <= REMNANT_COST_MM + 0.1


def test_a_full_run_takes_the_stored_lays_that_were_quickly_made_and_a_build_does_without_any(tmp_path) -> None:
    items = {item.item_id: item for item in jacket()}
    every = [AskedSet(item_ids=frozenset(items), naps=frozenset({False}))]

    def search() -> RemnantSearch:
        return RemnantSearch(items, every, widths_mm=[800])

    store = LayStore(tmp_path / "lays.json")
    empty = run_plans({NARROW: search()}, store=store, receipts=Receipts(None), quality="draft", only_stored=True)
    assert empty[NARROW].covers == {} and empty[NARROW].unserved == ()
    node = search().next_node()
    assert node is not None and node.way == "flat"
    request = search().request(node)
    lay = solve(request, "everyday")
    store.put(lay_key(request, "everyday"), NARROW, replace(lay, quality="everyday"), likeness(request, "everyday"))
    with Pool(workers=1, command=NOBODY) as pool:
        full = run_plans({NARROW: search()}, store=store, receipts=Receipts(None), pool=pool)
    assert [cover.lay.quality for cover in full[NARROW].covers.values()] == ["everyday"]
    kept = run_plans({NARROW: search()}, store=LayStore(store.path), receipts=Receipts(None), only_stored=True,
                     quality="draft", verify_all=True)  # fmt: skip
    assert kept[NARROW].covers.keys() == full[NARROW].covers.keys()


def test_it_waits_for_what_costs_more_at_the_ordinary_widths() -> None:
    ordinary = CoverSearch(ITEMS, asked("a", "ab"), widths_mm=[900], ways=["flat"])
    narrow = RemnantSearch(ITEMS, asked("a", "ab"), widths_mm=[450])
    assert narrow.urgency == REMNANT_COST_MM * 10 < ordinary.urgency


def test_the_answer_about_remnants_names_the_longest_that_is_laid() -> None:
    assert NARROW_UP_TO_CM * 10 == LONGEST_REMNANT_MM
