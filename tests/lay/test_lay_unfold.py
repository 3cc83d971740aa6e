"""A folded lay, unfolded, is a flat lay: the verifier, which knows nothing of folding, must find no fault with it."""

import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pieces_for_lays import half_back, jacket, sleeve

from boltside.lay.folded import solve_by_filling
from boltside.lay.model import LayItem, LayRequest
from boltside.lay.unfold import unfolded
from boltside.lay.verify import faults


def flat_faults(request: LayRequest) -> list[str]:
    lay = solve_by_filling(request, trials=8)
    assert faults(request, lay) == []
    flat = unfolded(lay, {item.item_id: item for item in request.items})
    assert (flat.way, flat.length_mm, flat.bolt_width_mm) == ("flat", lay.length_mm, lay.bolt_width_mm)
    return faults(replace(request, way="flat"), flat)


def shape(chance: random.Random) -> tuple[tuple[float, float], ...]:
    """A piece with a slanting side, its own mirror image or not."""
    along, across = chance.uniform(40, 200), chance.uniform(40, 120)
    if chance.random() < 0.4:
        return ((0.0, 0.0), (along, 10.0), (along, across - 10.0), (0.0, across))
    return ((0.0, 0.0), (along, 0.0), (along * chance.uniform(0.3, 1.0), across), (chance.uniform(0, 20), across))


def request(seed: int) -> LayRequest:
    chance = random.Random(seed)
    items = []
    for number in range(chance.randint(1, 5)):
        mode = chance.choice(["single", "pair", "fold"])
        outline = half_back() if mode == "fold" else chance.choice([sleeve(), shape(chance), shape(chance)])
        items.append(
            LayItem(
                item_id=f"piece {number}",
                outline_mm=outline,
                mode=mode,
                count=2 * chance.randint(1, 2) if mode == "pair" else chance.randint(1, 3),
                face=chance.choice(["up", "down"]) if mode == "single" else "up",
            )
        )
    width_mm = chance.choice([430.0, 520.0, 727.77, 901.5])
    return LayRequest(items=tuple(items), bolt_width_mm=width_mm, way="folded", one_way=chance.random() < 0.5)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6))
def test_an_unfolded_lay_passes_the_verifier(seed):
    assert flat_faults(request(seed)) == []


@pytest.mark.parametrize("one_way", [True, False])
@pytest.mark.parametrize("width_mm", [430.0, 527.0, 730.0])
def test_the_jacket_unfolds(one_way, width_mm):
    assert flat_faults(LayRequest(items=jacket(), bolt_width_mm=width_mm, way="folded", one_way=one_way)) == []


def test_a_flat_lay_stays_as_it_is():
    made = LayRequest(items=jacket(), bolt_width_mm=730.0, way="flat", one_way=False)
    lay = solve_by_filling(made, trials=3)
    assert unfolded(lay, {item.item_id: item for item in jacket()}) is lay


def test_both_copies_of_a_pair_lie_at_the_same_distance_from_the_centre_line():
    made = LayRequest(items=jacket()[1:2], bolt_width_mm=430.0, way="folded", one_way=True)
    flat = unfolded(solve_by_filling(made, trials=3), {"sleeve": jacket()[1]})
    one, other = flat.placements
    assert one.y_mm + other.y_mm == pytest.approx(400.0)
    assert {one.mirrored, other.mirrored} == {True, False}
