"""Lays on cloth that is double in some strips only: solved, kept, read, verified and unfolded like all others."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from pieces_for_lays import jacket_request

from boltside.lay.brackets import CoverSearch
from boltside.lay.codec import lay_from_json, lay_to_json, one_line, request_to_json
from boltside.lay.lattice import AskedSet
from boltside.lay.model import QUALITIES, Lay, LayRequest, Placement
from boltside.lay.run import LaysFailed, run_plans
from boltside.lay.solve import lay_key, likeness, makers, solve, solver_stamp
from boltside.lay.store import LayStore, Receipts, StoreDamaged
from boltside.lay.unfold import unfolded
from boltside.lay.verify import faults
from boltside.lay.worker import answer

WAYS = ("middle", "part-folded")
PLAN = "quay, outer, size 92"


def request(way: str, *, one_way: bool = False) -> LayRequest:
    return jacket_request(way, one_way=one_way, bolt_width_mm=1030.0)  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def lays() -> dict[str, Lay]:
    return {way: solve(request(way), "draft") for way in WAYS}


@pytest.mark.parametrize("way", WAYS)
def test_a_lay_is_right_and_unfolds_to_a_flat_one_of_the_same_length(way, lays):
    lay, wanted = lays[way], request(way)
    assert (lay.way, lay.bolt_width_mm, lay.quality) == (way, 1030.0, "draft")
    assert (lay.fold_over_mm is not None) == (way == "part-folded")
    assert faults(wanted, lay) == []
    flat = unfolded(lay, {item.item_id: item for item in wanted.items})
    assert (flat.way, flat.length_mm) == ("flat", lay.length_mm)
    assert faults(replace(wanted, way="flat"), flat) == []


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize(
    "change", ["way", "width", "nap", "moved", "twice", "missing", "long", "turned over", "unknown"]
)
def test_a_changed_lay_is_not_right(way, change, lays):
    lay = lays[way]
    first, *others = lay.placements
    wrong = {
        "way": replace(lay, way=WAYS[1 - WAYS.index(way)], fold_over_mm=300.0),
        "width": replace(lay, bolt_width_mm=1130.0),
        "nap": replace(lay, one_way=True),
        "moved": replace(lay, placements=(replace(first, y_mm=first.y_mm + 3.0), *others)),
        "twice": replace(lay, placements=(first, *lay.placements)),
        "missing": replace(lay, placements=tuple(others)),
        "long": replace(lay, length_mm=lay.length_mm + 1.0),
        "turned over": replace(lay, placements=tuple(_over(one, "flap") for one in lay.placements)),
        "unknown": replace(lay, placements=(replace(first, item_id="cuff"), *others)),
    }[change]
    assert faults(request(way), wrong) != []


def _over(placement: Placement, item_id: str) -> Placement:
    return replace(placement, mirrored=not placement.mirrored) if placement.item_id == item_id else placement


def test_a_lay_that_does_not_say_how_far_it_is_folded_over_is_not_right(lays):
    assert faults(request("part-folded"), replace(lays["part-folded"], fold_over_mm=None)) == [
        "a lay on cloth folded over in part does not say how far it is folded over"
    ]
    found = faults(request("part-folded"), replace(lays["part-folded"], fold_over_mm=20.0))
    assert found


@pytest.mark.parametrize("way", WAYS)
def test_a_lay_comes_back_from_json_and_only_part_folded_cloth_says_how_far(way, lays):
    data = json.loads(one_line(lay_to_json(lays[way])))
    again = lay_from_json(data)
    assert faults(request(way), again) == []
    assert lay_to_json(again) == data
    assert ("fold_over" in data) == (way == "part-folded")


def test_how_far_is_said_by_part_folded_lays_and_by_no_others(lays):
    with pytest.raises(KeyError, match="fold_over"):
        lay_from_json({name: value for name, value in lay_to_json(lays["part-folded"]).items() if name != "fold_over"})
    with pytest.raises(ValueError, match="a middle lay can't be folded over in part"):
        lay_from_json({**lay_to_json(lays["middle"]), "fold_over": 3000})


def test_stored_lays_of_all_ways_serve_a_run_and_a_changed_flap_is_named(tmp_path: Path, lays):
    path = tmp_path / "lays.json"
    store = LayStore(path)
    for way in WAYS:
        store.put(lay_key(request(way), "draft"), PLAN, lays[way], likeness(request(way), "draft"))
    store.compact(makers=makers())
    text = path.read_text(encoding="utf-8")
    assert text.count('"fold_over":') == 1
    found = _run(path)
    assert {cover.node.way for cover in found.covers.values()} <= {"middle", "part-folded"}
    assert {node.way for node in found.covers} == {"middle", "part-folded"}
    LayStore(path).compact(makers=makers())
    assert path.read_text(encoding="utf-8") == text

    at = f'"fold_over":{round((lays["part-folded"].fold_over_mm or 0) * 100)}'
    path.write_text(text.replace(at, '"fold_over":2000'), encoding="utf-8")
    with pytest.raises(LaysFailed, match=r"the stored lay is wrong: .*lies in no zone|reaches beyond its zone"):
        _run(path)
    path.write_text(text.replace(at, '"fold_over":20.5'), encoding="utf-8")
    with pytest.raises(StoreDamaged):
        LayStore(path)


def _run(path: Path):
    items = {item.item_id: item for item in request("middle").items}
    asked = [AskedSet(item_ids=frozenset(items), naps=frozenset({False}))]
    search = CoverSearch(items, asked, widths_mm=[1030.0], ways=["middle", "part-folded"])
    runs = run_plans({PLAN: search}, store=LayStore(path), receipts=Receipts(None), quality="draft", only_stored=True)
    return runs[PLAN]


@pytest.mark.parametrize("way", WAYS)
def test_a_worker_makes_such_lays_and_stays(way, lays):
    order = {"name": "one", "request": request_to_json(request(way)), "quality": "draft"}
    reply = answer(one_line(order))
    assert lay_from_json(reply["lay"]) == lay_from_json(lay_to_json(lays[way]))
    assert "spent" not in reply


def test_each_quality_of_each_way_has_a_key_of_its_own():
    keys = {lay_key(request(way), quality) for way in WAYS for quality in QUALITIES}
    assert len(keys) == len(WAYS) * len(QUALITIES)


def test_stop_rules_stay_as_they_are():
    """Lays that were solved before must be found. Only a changed solver or stop rule may change this."""
    assert solver_stamp("middle", "full") == {
        "solver": "bottom-left between two folds",
        "version": "1",
        "stop": "seed 1; runs 2; trials 12000",
    }
    assert solver_stamp("part-folded", "full") == {
        "solver": "bottom-left beside a fold",
        "version": "1",
        "stop": "seed 1; runs 2; trials 12000; depths 10 of 300, 2",
    }
    assert solver_stamp("part-folded", "everyday")["stop"] == "seed 1; runs 2; trials 3000; depths 10 of 75, 2"
