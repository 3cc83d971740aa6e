"""Lays in step as they are ordered, keyed, stored and looked at again: right on paper, and refused when tampered with.

Rectangles with notches. A repeat of 100 mm: marks of any two pieces are whole hundreds apart.
"""

import json
from dataclasses import replace

import pytest

from boltside.lay.codec import lay_from_json, lay_to_json, request_from_json, request_to_json
from boltside.lay.lattice import AskedSet
from boltside.lay.model import Lay, LayItem, LayRequest, Repeat, Way
from boltside.lay.receipts import Receipts
from boltside.lay.repeat_search import RepeatSearch, can_be_in_step
from boltside.lay.run import LaysFailed, run_plans
from boltside.lay.solve import KeyMaker, alike, lay_key, likeness, solve
from boltside.lay.store import LayStore
from boltside.lay.unfold import unfolded
from boltside.lay.verify import faults

HALF = LayItem(item_id="half", outline_mm=((0, 0), (250, 0), (250, 120), (0, 120)), mode="fold", count=1)
PAIR = LayItem(item_id="pair", outline_mm=((0, 0), (200, 0), (200, 100), (0, 100)), mode="pair", count=2)
WIDE = LayItem(item_id="pair", outline_mm=((0, 0), (200, 0), (200, 140), (0, 140)), mode="pair", count=2)
CHECKS = Repeat(marks={"half": (0, 0), "pair": (0, 30)}, along_mm=100, across_mm=100)
STRIPES = Repeat(marks={"half": (50, 0), "pair": (0, 30)}, along_mm=100)


def asked(way: Way, width_mm: float, *items: LayItem, repeat: Repeat = CHECKS) -> LayRequest:
    return LayRequest(items=items, bolt_width_mm=width_mm, way=way, one_way=True, repeat=repeat)


CASES = {
    # 300 from the fold to the selvedges. The pair's mark at 200 (170 + 30) across: it ends at 270.
    "beside the half": (asked("folded", 630, HALF, PAIR), 250),
    # 140 wide it would end at 310: so behind one another, the half from 200 or the pair from 300.
    "behind the half": (asked("folded", 630, HALF, WIDE), 450),
    # Folded over by less than half the same holds: the one fold is where it was.
    "folded over in part": (asked("part-folded", 630, HALF, PAIR), 250),
    # Flat, 500 usable: the whole half at 0 to 240, its mark at 120; the turned copy at 250 to 350, its mark (70 up) at
    # 320; the other at 390 to 490, its mark (30 up) at 420.
    "flat, all beside one another": (asked("flat", 530, HALF, PAIR), 250),
    # Stripes: the half's mark at 50 and those of the pair at 0: one of them begins 50 later. 200 + 50 = 250.
    "marks that differ": (asked("folded", 630, HALF, PAIR, repeat=STRIPES), 250),
}


@pytest.mark.outside  # source: worked out on paper
@pytest.mark.parametrize("name", CASES)
def test_length_is_the_optimum_worked_out_on_paper(name: str) -> None:
    request, optimum_mm = CASES[name]
    lay = solve(request, "full")
    assert faults(request, lay) == []
    assert lay.length_mm == pytest.approx(optimum_mm, abs=0.1)
    assert lay.repeat_mm == request.repeat.lengths_mm  # type: ignore[union-attr]
    flat = replace(unfolded(lay, {item.item_id: item for item in request.items}), repeat_mm=None)
    assert faults(replace(request, way="flat", repeat=None), flat) == []


@pytest.mark.outside  # source: geometry; folds 450 apart lie alike in checks of 90 (900 = 10 x 90), not of 80
def test_both_folds_meet_the_checks_or_nobody_can_ask_for_it() -> None:
    for across_mm, works in ((90, True), (80, False), (100, False)):
        repeat = replace(CHECKS, across_mm=across_mm)
        assert can_be_in_step([HALF], "middle", 900, repeat) is works
        assert can_be_in_step([HALF], "folded", 900, repeat)
    # Two halves whose marks lie 20 and 50 from the one fold.
    other = replace(HALF, item_id="other")
    two = Repeat(marks={"half": (0, 20), "other": (0, 50)}, across_mm=100)
    assert not can_be_in_step([HALF, other], "folded", 900, two)
    assert can_be_in_step([HALF, other], "folded", 900, replace(two, across_mm=30))
    assert can_be_in_step([HALF, other], "flat", 900, two)


@pytest.mark.outside  # source: geometry, worked out beside the cases
def test_a_piece_that_is_nearly_as_wide_as_the_cloth_needs_a_place_in_step() -> None:
    """Cloth of 900 folded once leaves 435 from the fold on. A single piece 400 wide has its mark in its middle, at 200
    to 235 from the fold; the half's mark is on the fold, so checks of 60 want 240, those of 55 want 220."""
    single = LayItem(item_id="single", outline_mm=((0, 0), (200, 0), (200, 400), (0, 400)), mode="single", count=1)
    for across_mm, works in ((60, False), (55, True)):
        repeat = Repeat(marks={"half": (0, 0), "single": (0, 200)}, along_mm=60, across_mm=across_mm)
        assert can_be_in_step([HALF, single], "folded", 900, repeat) is works
        assert can_be_in_step([HALF, single], "folded", 1000, repeat)
        assert can_be_in_step([single], "folded", 900, repeat), "nothing on the fold, so the pattern may begin anywhere"


def test_requests_and_lays_come_back_as_they_were() -> None:
    for request, _ in CASES.values():
        assert request_from_json(json.loads(json.dumps(request_to_json(request)))) == request
        lay = solve(request, "draft")
        assert lay_from_json(json.loads(json.dumps(lay_to_json(lay)))) == lay
    plain = replace(CASES["beside the half"][0], repeat=None)
    assert "repeat" not in request_to_json(plain)


def test_the_key_holds_the_repeat_and_the_marks() -> None:
    request = CASES["beside the half"][0]
    others = [
        None,
        replace(CHECKS, along_mm=101),
        replace(CHECKS, across_mm=None),
        replace(CHECKS, marks={"half": (0, 0), "pair": (0, 30.01)}),
        replace(CHECKS, marks={"half": (0, 0)}),
    ]
    requests = [request, *(replace(request, repeat=one) for one in others)]
    keys = [lay_key(one, "full") for one in requests]
    assert len(set(keys)) == len(keys)
    assert [KeyMaker().key(one, "full") for one in requests] == keys
    like = likeness(request, "full")
    assert alike(like, likeness(requests[4], "full"))
    assert not alike(like, likeness(requests[5], "full"))
    assert not alike(like, likeness(requests[1], "full"))


def test_one_way_only() -> None:
    with pytest.raises(ValueError, match="one way"):
        LayRequest(items=(PAIR,), bolt_width_mm=630, way="flat", one_way=False, repeat=CHECKS)


def tampered() -> dict[str, tuple[LayRequest, Lay, str]]:
    request = CASES["behind the half"][0]
    lay = solve(request, "full")
    off = replace(lay.placements[0], x_mm=lay.placements[0].x_mm + 0.5)
    high = [replace(one, y_mm=one.y_mm + 3) if one.item_id == "pair" else one for one in lay.placements]
    return {
        "another repeat": (request, replace(lay, repeat_mm=(100.0, 50.0)), "made for another repeat"),
        "no repeat": (request, replace(lay, repeat_mm=None), "made for another repeat"),
        "a repeat nobody asked for": (replace(request, repeat=None), lay, "made for another repeat"),
        "a piece moved along": (
            request, replace(lay, placements=(off, *lay.placements[1:])), "0.50 mm out of step along the cloth",
        ),
        "a piece moved across": (
            request, replace(lay, placements=tuple(high)), "3.00 mm out of step across the cloth",
        ),
        "a mark moved": (
            replace(request, repeat=replace(CHECKS, marks={"half": (0, 0), "pair": (0, 31)})), lay,
            "1.00 mm out of step across the cloth",
        ),
        "a mark beside its piece": (
            replace(request, repeat=replace(CHECKS, marks={"half": (0, 0), "pair": (0, -70)})), lay,
            "the mark of 'pair' lies outside of it",
        ),
    }  # fmt: skip


def test_what_is_not_in_step_is_told_by_name() -> None:
    for name, (request, lay, said) in tampered().items():
        assert any(said in one for one in faults(request, lay)), (name, faults(request, lay))


def search() -> RepeatSearch:
    sets = [AskedSet(item_ids=frozenset(ids), naps=frozenset({True, False})) for ids in (["half"], ["half", "pair"])]
    return RepeatSearch(
        {"half": HALF, "pair": PAIR}, sets, widths_mm=[630.0, 800.0], ways=["folded", "flat"], repeat=CHECKS
    )


def test_lays_in_step_are_kept_found_again_and_refused_when_tampered_with(tmp_path) -> None:
    name, path = "quay, outer, size 92, checks-100", tmp_path / "lays.json"
    made = run_plans({name: search()}, store=LayStore(path), receipts=Receipts(None), quality="draft", workers=1)
    text = path.read_text(encoding="utf-8")
    assert '"repeat":[10000,10000]' in text and '["pair",20000,10000,20000,0,3000]' in text
    again = run_plans(
        {name: search()}, store=LayStore(path), receipts=Receipts(None), quality="draft", only_stored=True
    )
    assert again[name].covers == made[name].covers
    for old, new, said in (
        ('"repeat":[10000,10000]', '"repeat":[10000,9000]', "made for another repeat of the cloth's pattern"),
        ('"repeat":[10000,10000],', "", "made for another repeat of the cloth's pattern"),
        ('"repeat":[10000,10000]', '"repeat":[10000,-1]', "a lay makes no sense"),
    ):
        assert old in text
        path.write_text(text.replace(old, new, 1), encoding="utf-8")
        with pytest.raises(Exception, match=said) as raised:
            run_plans(
                {name: search()}, store=LayStore(path), receipts=Receipts(None), quality="draft", only_stored=True
            )
        assert "lays.json:" in str(raised.value)
        assert isinstance(raised.value, LaysFailed) or "makes no sense" in str(raised.value)


def test_ways_of_their_own_with_a_repeat_across() -> None:
    """Unfolded, the marks of a pair mirror each other about the fold: not in step with a repeat across."""
    for across_mm, serves in ((100.0, False), (None, True)):
        one = RepeatSearch(
            {"half": HALF, "pair": PAIR},
            [AskedSet(item_ids=frozenset({"half", "pair"}), naps=frozenset({True}))],
            widths_mm=[630.0],
            ways=["folded", "flat"],
            repeat=replace(CHECKS, across_mm=across_mm),
        )
        folded, flat = one.lattice.ways.index("folded"), one.lattice.ways.index("flat")
        assert bool(one.lattice.way_serves[folded, flat]) is serves
