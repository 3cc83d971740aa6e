"""Everyday lays: true lays that were quickly made. A full run is not content with them, a build is."""

import sys
from dataclasses import replace
from importlib.metadata import version

import pytest
from pieces_for_lays import jacket, jacket_request

from boltside.lay.bounds import shortest_possible_mm
from boltside.lay.brackets import EVERYDAY_COST_MM, QUICK_SHARE, CoverPlan, CoverSearch
from boltside.lay.codec import digest
from boltside.lay.lattice import AskedSet, Node
from boltside.lay.model import QUALITIES, Lay, LayRequest, Quality
from boltside.lay.pool import Order, Pool
from boltside.lay.run import LaysFailed, run_plans
from boltside.lay.solve import alike, kept_as, lay_key, likeness, makers, solve, solver_stamp
from boltside.lay.store import LayStore, Receipts
from boltside.lay.verify import faults

NOBODY = (sys.executable, "-c", "import os, sys; sys.stdin.readline(); os._exit(1)")
"""A worker that makes no lay: a run with it succeeds only where nothing is to be made."""

NAME = "jacket, outer, size 92"


def search() -> CoverSearch:
    items = {item.item_id: item for item in jacket()}
    asked = [
        AskedSet(item_ids=frozenset(items), naps=frozenset({False})),
        AskedSet(item_ids=frozenset(items) - {"flap"}, naps=frozenset({False})),
    ]
    return CoverSearch(items, asked, widths_mm=[730], ways=["folded"], limit_mm=EVERYDAY_COST_MM)


def top() -> Node:
    return Node(way="folded", nap=False, item_ids=frozenset(item.item_id for item in jacket()), width_mm=730)


@pytest.fixture(scope="module")
def everyday_lay() -> Lay:
    return solve(search().request(top()), "everyday")


def keep(store: LayStore, lay: Lay, quality: Quality) -> str:
    """Put the lay into the store as one of that quality."""
    request = search().request(top())
    key = lay_key(request, quality)
    store.put(key, NAME, replace(lay, quality=quality), likeness(request, quality))
    return key


def run(store: LayStore, quality: Quality, **options) -> CoverPlan:
    with Pool(workers=1, command=NOBODY) as pool:
        plans = run_plans({NAME: search()}, store=store, receipts=Receipts(None), quality=quality, pool=pool, **options)
    return plans[NAME]


def test_an_everyday_lay_is_a_true_lay_and_marked(everyday_lay):
    assert faults(search().request(top()), everyday_lay) == []
    assert everyday_lay.quality == "everyday"


def test_it_serves_every_demand_of_its_run_and_of_a_build(tmp_path, everyday_lay):
    store = LayStore(tmp_path / "lays.json")
    keep(store, everyday_lay, "everyday")
    made = run(store, "everyday")
    built = run(LayStore(tmp_path / "lays.json"), "draft", only_stored=True)
    for found in (made, built):
        assert found.unserved == ()
        assert {cover.lay.quality for cover in found.covers.values()} == {"everyday"}
        assert len(found.covers) == 2


def test_a_full_run_is_not_content_with_it(tmp_path, everyday_lay):
    store = LayStore(tmp_path / "lays.json")
    key = keep(store, everyday_lay, "everyday")
    with pytest.raises(LaysFailed, match="the solver's process broke off"):
        run(store, "full")
    assert key in LayStore(tmp_path / "lays.json")  # a run that failed, or was broken off, drops nothing


def test_a_full_lay_takes_its_place_and_a_full_run_drops_it(tmp_path, everyday_lay):
    store = LayStore(tmp_path / "lays.json")
    keep(store, everyday_lay, "everyday")
    full = keep(store, replace(everyday_lay, length_mm=everyday_lay.length_mm), "full")
    built = run(store, "draft", only_stored=True)
    assert {lay.quality for lay in built.laid.values()} == {"full"}
    run(store, "full")
    assert LayStore(tmp_path / "lays.json").keys_of(NAME) == (full,)


def test_an_everyday_run_takes_full_lays_but_no_drafts(tmp_path, everyday_lay):
    full = LayStore(tmp_path / "full" / "lays.json")
    keep(full, everyday_lay, "full")
    assert {lay.quality for lay in run(full, "everyday").laid.values()} == {"full"}
    drafts = LayStore(tmp_path / "drafts" / "lays.json")
    keep(drafts, everyday_lay, "draft")
    with pytest.raises(LaysFailed, match="the solver's process broke off"):
        run(drafts, "everyday")


def fussy_search() -> CoverSearch:
    """A search that is content with no covering at all, and calls nothing long."""
    items = {item.item_id: item for item in jacket()}
    asked = [AskedSet(item_ids=frozenset(items) - left_out, naps=frozenset({False})) for left_out in (set(), {"flap"})]
    return CoverSearch(items, asked, widths_mm=[730, 760], ways=["folded"], limit_mm=0.1)


def test_a_full_run_lays_quickly_what_little_can_be_gained_by(tmp_path):
    store = LayStore(tmp_path / "lays.json")
    (made,) = run_plans({NAME: fussy_search()}, store=store, receipts=Receipts(None), workers=1).values()
    assert made.laid[top()].quality == "full", "what nothing serves is laid thoroughly"
    quick = [node for node, lay in made.laid.items() if lay.quality == "everyday"]
    assert quick and made.unserved == ()
    again = LayStore(tmp_path / "lays.json")
    assert set(again.keys_of(NAME)) == {lay_key(fussy_search().request(n), lay.quality) for n, lay in made.laid.items()}
    with Pool(workers=1, command=NOBODY) as pool:
        plans = run_plans({NAME: fussy_search()}, store=again, receipts=Receipts(None), pool=pool)
    assert plans[NAME].laid == made.laid, "the next run takes them and makes nothing"


def test_a_quick_lay_leaves_room_for_a_shorter_one(everyday_lay):
    """What covering costs is reckoned from the shortest there may be, so a lay quickly made proves less."""
    items = {item.item_id: item for item in jacket()}
    costs = {}
    for quality in QUALITIES:
        one = CoverSearch(
            items, [AskedSet(item_ids=frozenset(items), naps=frozenset({False}))], widths_mm=[730], ways=["folded"]
        )
        one.take(top(), replace(everyday_lay, quality=quality))
        costs[quality] = one.result().largest_cost_mm
    length_mm, least_mm = everyday_lay.length_mm, shortest_possible_mm(search().request(top()))
    assert costs["full"] == pytest.approx(0, abs=0.1)
    assert costs["everyday"] == pytest.approx(length_mm - max(least_mm, QUICK_SHARE * length_mm), abs=0.2)
    assert costs["draft"] == pytest.approx(0, abs=0.1), "drafts are measured among themselves"


@pytest.mark.parametrize("way", ["flat", "folded"])
def test_each_quality_has_a_key_of_its_own(way):
    assert len({lay_key(jacket_request(way), quality) for quality in QUALITIES}) == len(QUALITIES)


def test_keys_and_stop_rules_of_full_lays_and_drafts_stay_as_they_were():
    """Lays that were solved before must be found. Only a changed solver may change this."""
    filled = {"solver": "bottom-left", "version": "2"}
    assert kept_as("folded", "full") == {**filled, "stop": "seed 1; trials 48000"}
    assert kept_as("folded", "everyday") == {**filled, "stop": "seed 1; trials 12000"}
    assert kept_as("folded", "draft") == solver_stamp("folded", "draft") == solver_stamp("flat", "draft")
    assert solver_stamp("flat", "draft") == {**filled, "stop": "seed 1; trials 10"}
    assert kept_as("flat", "full") == {
        "solver": "spyrrow",
        "version": version("spyrrow"),
        "stop": "seeds 1; failures 2, 1 within 1.003 of the bound; early termination",
    }
    band = LayRequest(items=(jacket()[2],), bolt_width_mm=730.0, way="folded", one_way=False)
    assert lay_key(band, "full") == "a79853fe507ad9211a75d59271be0b67"
    assert lay_key(band, "draft") == "e709b5428ea9817ef2cb2f88cd291ad0"
    assert lay_key(jacket_request("flat"), "full") == "2d8b7349602fe25a5a9ab17701f08f0e"
    assert lay_key(jacket_request("flat"), "everyday") == "32fce10dcb36db88109288dc35cf0024"


@pytest.mark.parametrize("way", ["flat", "folded"])
def test_a_full_lay_of_the_rule_before_is_as_good_as_one_of_today(way):
    """Who made it is told apart; where it is kept, and whether it is alike, is not."""
    request = jacket_request(way)
    today = likeness(request, "full")
    before = {**today, "made": digest(kept_as(way, "full"))}
    assert today["made"] == digest(solver_stamp(way, "full")) != before["made"]
    assert alike(today, before) and alike(before, today)
    assert not alike(likeness(request, "everyday"), before)
    assert {today["made"], before["made"]} <= makers().keys()


def test_a_flat_everyday_lay_repeats_exactly_in_the_same_process():
    request = jacket_request("flat")
    lays = []
    with Pool(workers=1) as pool:
        for name in ("one", "two"):
            pool.submit(Order(name=name, request=request, quality="everyday"))
            lays.append(pool.next_outcome().lay)
    assert lays[0] is not None
    assert lays[0] == lays[1]
    assert lays[0].quality == "everyday"
    assert faults(request, lays[0]) == []
