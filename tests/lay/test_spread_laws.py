"""Whatever is asked on spread cloth: a lay passes both verifiers, beats no bound, and unfolds to the same length."""

import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pieces_for_lays import half_back, jacket, sleeve

from boltside.lay.folded import solve_by_filling
from boltside.lay.model import Lay, LayItem, LayRequest, Outline, TooWide
from boltside.lay.spread_bounds import shortest_spread_mm
from boltside.lay.spread_middle import solve_middle
from boltside.lay.spread_model import SpreadLay, folded_over, plain, to_the_middle
from boltside.lay.spread_part import solve_part_folded
from boltside.lay.spread_search import Search
from boltside.lay.spread_unfold import unfolded_spread
from boltside.lay.spread_verify import spread_faults
from boltside.lay.unfold import unfolded
from boltside.lay.verify import faults

SLACK_MM = 0.7
"""Searches see outlines that bulge by up to 0.3 mm; two lays may differ by so much though neither search was better."""


def outline(chance: random.Random, *, rectangles: bool) -> Outline:
    along, across = float(chance.randint(40, 200)), float(chance.randint(40, 140))
    if rectangles:
        return ((0.0, 0.0), (along, 0.0), (along, across), (0.0, across))
    if chance.random() < 0.3:
        return ((0.0, 0.0), (along, 10.0), (along, across - 10.0), (0.0, across))
    return ((0.0, 0.0), (along, 0.0), (along * chance.uniform(0.3, 1.0), across), (chance.uniform(0, 20), across))


def request(seed: int, *, rectangles: bool) -> LayRequest:
    """One to five pieces on cloth whose quarter takes each of them."""
    chance = random.Random(seed)
    items = []
    for number in range(chance.randint(1, 5)):
        mode = chance.choice(["single", "pair", "fold"])
        drawn = outline(chance, rectangles=rectangles or mode == "fold")
        if not rectangles and mode != "fold":
            drawn = chance.choice([sleeve(), drawn])
        items.append(
            LayItem(
                item_id=f"piece {number}",
                outline_mm=half_back() if mode == "fold" and not rectangles else drawn,
                mode=mode,  # type: ignore[arg-type]
                count=2 * chance.randint(1, 2) if mode == "pair" else chance.randint(1, 3),
                face=chance.choice(["up", "down"]) if mode == "single" else "up",  # type: ignore[arg-type]
            )
        )
    width_mm = chance.choice([804.0, 900.0, 1001.5, 1127.77])
    return LayRequest(items=tuple(items), bolt_width_mm=width_mm, way="folded", one_way=chance.random() < 0.5)


def flat_faults(wanted: LayRequest, lay: SpreadLay) -> list[str]:
    flat = unfolded_spread(lay, {item.item_id: item for item in wanted.items})
    assert (flat.way, flat.length_mm, flat.bolt_width_mm) == ("flat", lay.length_mm, wanted.bolt_width_mm)
    return faults(replace(wanted, way="flat"), flat)


def holds_for(wanted: LayRequest) -> None:
    folded = solve_by_filling(wanted, trials=20)
    middle = solve_middle(wanted, trials=20)
    part = solve_part_folded(wanted, folded=folded, trials=20, short_trials=4)
    for lay, way in ((middle, "middle"), (part, "part-folded")):
        assert spread_faults(wanted, lay) == []
        assert flat_faults(wanted, lay) == []
        bound_mm = shortest_spread_mm(wanted.items, wanted.bolt_width_mm, way, one_way=wanted.one_way)  # type: ignore[arg-type]
        assert lay.length_mm >= bound_mm - 0.02
    assert part.length_mm <= folded.length_mm


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 10**6))
def test_rectangles(seed):
    holds_for(request(seed, rectangles=True))


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6))
def test_slanting_and_curved_pieces(seed):
    holds_for(request(seed, rectangles=False))


@pytest.mark.parametrize("one_way", [True, False])
def test_the_jacket(one_way):
    holds_for(LayRequest(items=jacket(), bolt_width_mm=900.0, way="folded", one_way=one_way))


def test_the_same_request_gives_the_same_lay():
    wanted = request(3, rectangles=False)
    assert solve_middle(wanted, trials=50) == solve_middle(wanted, trials=50)
    assert solve_part_folded(wanted, trials=50) == solve_part_folded(wanted, trials=50)


@pytest.mark.parametrize("seed", range(8))
def test_cloth_folded_in_half_is_a_special_case(seed):
    """One double zone: the search in zones and the folded one agree on the rules, and so nearly on the length."""
    wanted = request(seed, rectangles=True)
    search = Search(wanted, plain(wanted.bolt_width_mm, "folded"))
    search.go_on(150)
    lay = search.lay()
    assert spread_faults(wanted, lay) == []
    flat = unfolded_spread(lay, {item.item_id: item for item in wanted.items})
    assert faults(replace(wanted, way="flat"), flat) == []
    assert lay.length_mm >= shortest_spread_mm(
        wanted.items, wanted.bolt_width_mm, "part-folded", one_way=wanted.one_way
    )


@pytest.mark.parametrize("seed", range(8))
def test_flat_cloth_is_a_special_case(seed):
    """One single zone: halves are laid whole, both copies of a pair have a place of their own."""
    wanted = request(seed, rectangles=False)
    search = Search(wanted, plain(wanted.bolt_width_mm, "flat"))
    search.go_on(20)
    lay = search.lay()
    assert spread_faults(wanted, lay) == []
    assert flat_faults(wanted, lay) == []


def test_a_folded_lay_taken_over_unfolds_as_it_did():
    """`unfold` and `spread_unfold` give the same flat lay of the same folded one."""
    for seed in range(12):
        wanted = request(seed, rectangles=True)
        folded = solve_by_filling(wanted, trials=5)
        taken = solve_part_folded(wanted, folded=replace(folded, length_mm=0.0), trials=1, short_trials=1)
        items = {item.item_id: item for item in wanted.items}
        again, before = unfolded_spread(taken, items), unfolded(folded, items)
        assert _places(again) == _places(before)


def _places(lay: Lay) -> list[tuple[str, int, float, float, bool, bool]]:
    return sorted((p.item_id, p.copy, p.x_mm, round(p.y_mm, 1), p.turned, p.mirrored) for p in lay.placements)


def test_zones_of_a_bolt():
    """900: to the middle 900/4 - 15; folded over 32 cm: 305 double, and single from 320 to 900 - 320 - 15."""
    left, right = to_the_middle(900.0).zones
    assert (left.from_mm, left.to_mm, right.from_mm, right.to_mm) == (0.0, 210.0, 240.0, 450.0)
    double, single = folded_over(900.0, 320.0).zones
    assert (double.from_mm, double.to_mm, single.from_mm, single.to_mm) == (0.0, 305.0, 320.0, 565.0)
    assert [zone.to_mm for zone in folded_over(900.0, 450.0).zones] == [435.0]


def test_cloth_too_narrow_to_fold_is_refused():
    with pytest.raises(TooWide, match="offers 0 mm"):
        solve_middle(LayRequest(items=jacket(), bolt_width_mm=50.0, way="folded", one_way=False))
