"""Whatever is asked, a lay passes the verifier; and the same question gives the same bytes."""

import random

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from test_lay_outlines import blob

from boltside.lay.codec import lay_to_json, one_line
from boltside.lay.folded import solve_by_filling
from boltside.lay.model import LayItem, LayRequest, Outline
from boltside.lay.pool import Order, Pool
from boltside.lay.slots import places, slots_of
from boltside.lay.verify import faults


def half(outline: Outline) -> Outline:
    """The part of a star-shaped outline above y = 0, with a fold edge; not always a pretty half."""
    upper = [(x, y) for x, y in outline if y > 0]
    return ((round(upper[0][0], 2), 0.0), *upper, (round(upper[-1][0], 2), 0.0))


def random_request(seed: int, way: str | None = None) -> LayRequest:
    """Two to six pieces of random outlines, modes and counts on a random cloth that is wide enough."""
    chance = random.Random(seed)
    items = []
    for number in range(chance.randint(2, 6)):
        mode = chance.choice(("single", "pair", "fold"))
        outline = blob(chance.randrange(10**6))
        items.append(
            LayItem(
                item_id=f"p{number}",
                outline_mm=half(outline) if mode == "fold" else outline,
                mode=mode,  # type: ignore[arg-type]
                count=2 if mode == "pair" else chance.randint(1, 2),
                face=chance.choice(("up", "down")),  # type: ignore[arg-type]
            )
        )
    chosen = way or chance.choice(("flat", "folded"))
    usable = chance.uniform(145, 600)
    return LayRequest(
        items=tuple(items),
        bolt_width_mm=round(usable * (2 if chosen == "folded" else 1) + 30, 2),
        way=chosen,  # type: ignore[arg-type]
        one_way=chance.random() < 0.5,
    )


@settings(max_examples=30, deadline=None)
@example(207)  # a stack that fills the cloth to a hundredth of a millimetre
@given(st.integers(0, 10**6))
def test_a_filled_lay_is_always_right(seed):
    request = random_request(seed)
    assert faults(request, solve_by_filling(request, trials=3)) == []


@pytest.mark.slow
def test_a_lay_of_the_packing_library_is_always_right():
    with Pool(workers=1, time_out_s=120) as pool:
        for seed in range(6):
            request = random_request(seed, "flat")
            pool.submit(Order(name=str(seed), request=request))
        for outcome in pool.outcomes():
            assert outcome.error is None
            assert outcome.lay is not None
            assert faults(outcome.order.request, outcome.lay) == []


@pytest.mark.parametrize("seed", range(5))
def test_the_same_request_gives_the_same_bytes(seed):
    request = random_request(seed, "folded")
    texts = {one_line(lay_to_json(solve_by_filling(request, trials=50))) for _ in range(2)}
    assert len(texts) == 1


def test_more_trials_never_make_a_lay_longer():
    for seed in range(6):
        request = random_request(seed, "folded")
        few, many = (solve_by_filling(request, trials=trials).length_mm for trials in (0, 200))
        # Settling on the true outlines may differ by the slack of the simplified ones.
        assert many <= few + 2 * 0.3


def test_places_on_the_cloth():
    """Pairs take one place each on doubled cloth; so do two symmetric singles, and a third takes another."""
    rectangle = ((0.0, 0.0), (10.0, 0.0), (10.0, 5.0), (0.0, 5.0))
    hand = ((0.0, 0.0), (10.0, 0.0), (10.0, 5.0))
    cases = [
        (rectangle, "single", 3, 3, 2),
        (hand, "single", 3, 3, 3),
        (hand, "pair", 4, 4, 2),
        (rectangle, "fold", 3, 3, 3),
    ]
    for outline, mode, count, flat, folded in cases:
        item = LayItem(item_id="a", outline_mm=outline, mode=mode, count=count)  # type: ignore[arg-type]
        assert (places(item, "flat"), places(item, "folded")) == (flat, folded)


@pytest.mark.parametrize("way", ["flat", "folded"])
def test_one_way_cloth_leaves_no_pose_that_is_turned_round(way):
    for seed in range(5):
        request = random_request(seed, way)
        turned = [pose for slot in slots_of(request) for pose in slot.poses if pose.turned]
        assert bool(turned) != request.one_way


@pytest.mark.parametrize("way", ["flat", "folded"])
def test_a_lay_that_is_short_enough_is_taken(way):
    """With a length that the search reaches at once the lay is no longer than that (flat: but for the nearness that is
    always allowed), is right, and repeats."""
    request = random_request(11, way)
    quick_mm = solve_by_filling(request, trials=1).length_mm + 100.0
    with Pool(workers=1) as pool:
        for name in ("one", "two"):
            pool.submit(Order(name=name, request=request, enough_mm=quick_mm))
        lays = [outcome.lay for outcome in pool.outcomes()]
    assert lays[0] is not None
    assert lays[0] == lays[1]
    assert faults(request, lays[0]) == []
    assert lays[0].length_mm <= quick_mm * 1.003
    if way == "folded":
        patient = solve_by_filling(request, trials=2000)
        assert patient.length_mm <= lays[0].length_mm <= quick_mm + 0.3
