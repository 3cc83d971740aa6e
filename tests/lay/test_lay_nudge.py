"""Pieces of a lay on folded cloth, moved across by a few millimetres."""

from dataclasses import replace

import pytest
from pieces_for_lays import jacket_request

from boltside.lay import folded
from boltside.lay.folded import solve_by_filling, stop_rule
from boltside.lay.model import LayItem, LayRequest, Outline, Placement, usable_width_mm
from boltside.lay.nofit import NoFitTable
from boltside.lay.nudge import Nudger
from boltside.lay.settle import settled
from boltside.lay.slots import slots_of
from boltside.lay.verify import faults


def rectangle(item_id: str, along: float, across: float, mode: str, count: int) -> LayItem:
    outline = ((0.0, 0.0), (along, 0.0), (along, across), (0.0, across))
    return LayItem(item_id=item_id, outline_mm=outline, mode=mode, count=count)


def request_of(*items: LayItem, bolt_mm: float = 900.0) -> LayRequest:
    return LayRequest(items=items, bolt_width_mm=bolt_mm, way="folded", one_way=True)


def nudged_length(request: LayRequest, at: dict[str, tuple[float, float]], *, moves: int = 300, seed: int = 1) -> float:
    """Length in mm after nudging, from these places."""
    slots = slots_of(request)
    usable_mm = usable_width_mm(request.bolt_width_mm, "folded")
    places = [
        Placement(item_id=slot.item_id, copy=slot.copy, x_mm=at[slot.item_id][0], y_mm=at[slot.item_id][1],
                  turned=False, mirrored=False)
        for slot in slots
    ]  # fmt: skip
    moved = Nudger(slots, usable_mm, NoFitTable()).nudged(places, moves=moves, seed=seed, enough_mm=0.0)
    return settled(slots, moved, usable_mm)[0]


@pytest.mark.outside  # worked out on paper
def test_a_piece_that_a_nudge_brings_past_the_half_lies_beside_it():
    """Cloth 435 deep. A pair of 234 lies a millimetre too low to pass the half of 200: 600; pushed up, 300."""
    request = request_of(rectangle("half", 300, 200, "fold", 1), rectangle("pair", 300, 234, "pair", 2))
    assert nudged_length(request, {"half": (0, 0), "pair": (300, 199)}, moves=0) == pytest.approx(600, abs=0.1)
    assert nudged_length(request, {"half": (0, 0), "pair": (300, 199)}) == pytest.approx(300, abs=0.1)


@pytest.mark.outside  # worked out on paper
def test_a_half_is_not_moved_from_the_fold():
    """Two halves of 200 on 435 would lie above each other."""
    request = request_of(rectangle("one", 300, 200, "fold", 1), rectangle("two", 300, 200, "fold", 1))
    assert nudged_length(request, {"one": (0, 0), "two": (300, 0)}) == pytest.approx(600, abs=0.1)


WEDGE: Outline = ((0.0, 0.0), (400.0, 0.0), (0.0, 200.0))


@pytest.mark.outside  # worked out on paper
def test_two_wedges_slide_along_each_other_only_as_far_apart_across_as_they_are():
    """A half and a pair, triangles of 400 by 200 that look the same way, 235 mm across at most: moved up by 235 the
    pair's long edge is 35 above the half's; at the height 235 the half ends at 200, so both begin at the cut end."""
    request = request_of(
        LayItem(item_id="half", outline_mm=WEDGE, mode="fold", count=1),
        LayItem(item_id="pair", outline_mm=WEDGE, mode="pair", count=2),
    )
    assert nudged_length(request, {"half": (0, 0), "pair": (400, 190)}, moves=0) > 405
    assert nudged_length(request, {"half": (0, 0), "pair": (400, 190)}) == pytest.approx(400, abs=0.5)


def test_nothing_moves_where_all_lies_on_the_fold_or_no_move_is_asked_for():
    request = request_of(rectangle("one", 300, 200, "fold", 1))
    slots = slots_of(request)
    place = Placement(item_id="one", copy=0, x_mm=0.0, y_mm=0.0, turned=False, mirrored=False)
    nudger = Nudger(slots, 435.0, NoFitTable())
    assert nudger.nudged((place,), moves=50, seed=1, enough_mm=0.0) == (place,)


@pytest.mark.parametrize("nap", [True, False])
@pytest.mark.parametrize("bolt_mm", [1100.0, 1200.0, 1350.0])
def test_a_nudged_lay_is_sound_repeats_exactly_and_is_never_longer(monkeypatch, nap, bolt_mm):
    request = replace(jacket_request("folded"), bolt_width_mm=bolt_mm, one_way=nap)
    lay = solve_by_filling(request, trials=400)
    assert lay == solve_by_filling(request, trials=400)
    assert faults(request, lay) == []
    monkeypatch.setitem(folded.NUDGES_OF, "full", 0)
    assert lay.length_mm <= solve_by_filling(request, trials=400).length_mm


def test_the_stop_rule_says_how_many_moves():
    assert stop_rule("full") == "seed 1; trials 48000; nudges 2000"
    assert stop_rule("everyday") == "seed 1; trials 12000; nudges 500"
    assert stop_rule("draft") == "seed 1; trials 10"
