"""Lays on spread cloth that are right on paper. Each optimum is worked out in a comment beside it.

A bolt of 900 mm with its selvedges (15 mm each) folded to the middle has two double zones of 900/4 - 15 = 210 mm.
Folded over by D it has a double zone of D - 15 and, beyond the flap's selvedge, a single one of width - 2 D - 15.
"""

from dataclasses import replace

import pytest

from boltside.lay.folded import solve_by_filling
from boltside.lay.model import LayItem, LayRequest, TooWide
from boltside.lay.spread_middle import solve_middle
from boltside.lay.spread_model import SpreadLay
from boltside.lay.spread_part import solve_part_folded
from boltside.lay.spread_unfold import unfolded_spread
from boltside.lay.spread_verify import spread_faults
from boltside.lay.verify import faults

pytestmark = pytest.mark.outside

NEAR_MM = 0.1
"""A ruler shows no more."""

TRIALS = 400

TRIANGLE = ((0.0, 0.0), (400.0, 0.0), (0.0, 300.0))
"""A right triangle, 400 along the grain and 300 across."""


def rectangle(along: float, across: float) -> tuple[tuple[float, float], ...]:
    return ((0.0, 0.0), (along, 0.0), (along, across), (0.0, across))


def item(item_id: str, outline: tuple[tuple[float, float], ...], mode: str, count: int) -> LayItem:
    return LayItem(item_id=item_id, outline_mm=outline, mode=mode, count=count)  # type: ignore[arg-type]


def request(bolt_mm: float, *items: LayItem, one_way: bool = False) -> LayRequest:
    return LayRequest(items=items, bolt_width_mm=bolt_mm, way="folded", one_way=one_way)


def is_right(wanted: LayRequest, lay: SpreadLay) -> None:
    """No fault on the spread cloth, and none on the flat cloth that it becomes, which the other verifier looks at."""
    assert spread_faults(wanted, lay) == []
    flat = unfolded_spread(lay, {one.item_id: one for one in wanted.items})
    assert (flat.way, flat.length_mm) == ("flat", lay.length_mm)
    assert faults(replace(wanted, way="flat"), flat) == []


MIDDLE = {
    # Two halves 20 cm deep, one on each fold, lie side by side: the longer one's length. On one fold: 300 + 250.
    "a half on each fold": (
        request(900, item("a", rectangle(300, 200), "fold", 1), item("b", rectangle(250, 200), "fold", 1)),
        300,
    ),
    # 800 of fold edges on two folds: 300 + 100 and 200 + 200.
    "halves shared out over two folds": (
        request(
            900,
            item("a", rectangle(300, 210), "fold", 1),
            item("b", rectangle(200, 210), "fold", 2),
            item("c", rectangle(100, 210), "fold", 1),
        ),
        400,
    ),
    # 700 of fold edges, but 300 + 200 leaves 200, and 200 + 200 leaves 300: 400.
    "three halves can't be shared out evenly": (
        request(900, item("a", rectangle(300, 210), "fold", 1), item("b", rectangle(200, 210), "fold", 2)),
        400,
    ),
    # The half on one fold, the pair from one place in the other zone.
    "a pair beside a half": (
        request(900, item("a", rectangle(300, 210), "fold", 1), item("b", rectangle(250, 210), "pair", 2)),
        300,
    ),
    # Four rectangles are two places (their own mirror images), one in each zone.
    "four symmetric singles from two places": (request(900, item("a", rectangle(200, 210), "single", 4)), 200),
    # Three of 130 would lie side by side on 390 of cloth folded in half, but 130 + 130 is more than 210: one in each
    # zone, the third behind them.
    "nothing reaches across the meeting line": (request(900, item("a", rectangle(200, 130), "pair", 6)), 400),
    # Zones of 1260/4 - 15 = 300. Each takes two pairs turned head to foot: four pairs on 400.
    "four pairs nest two by two": (request(1260, item("a", TRIANGLE, "pair", 8)), 400),
    # One-way: two in a zone stand alike, so the second starts where the first one ends (see the one-fold case).
    "four pairs on one-way cloth": (request(1260, item("a", TRIANGLE, "pair", 8), one_way=True), 800),
    # Two single triangles are not each other's mirror images: a place each, one in each zone, second layers wasted.
    "two asymmetric singles take both zones": (request(1260, item("a", TRIANGLE, "single", 2), one_way=True), 400),
    # Three of them: two share a zone. One-way they can't nest.
    "three asymmetric singles": (request(1260, item("a", TRIANGLE, "single", 3)), 400),
    "three asymmetric singles on one-way cloth": (
        request(1260, item("a", TRIANGLE, "single", 3), one_way=True),
        800,
    ),
    # Halves with their right angle at the start of the fold. One-way, each on its own fold: 400.
    "halves on both folds of one-way cloth": (request(1260, item("a", TRIANGLE, "fold", 2), one_way=True), 400),
}


@pytest.mark.parametrize("name", MIDDLE)
def test_selvedges_to_the_middle(name):
    wanted, optimum_mm = MIDDLE[name]
    lay = solve_middle(wanted, trials=TRIALS)
    is_right(wanted, lay)
    assert lay.length_mm == pytest.approx(optimum_mm, abs=NEAR_MM)


def test_two_folds_beat_one():
    wanted = MIDDLE["a half on each fold"][0]
    assert solve_by_filling(wanted, trials=TRIALS).length_mm == pytest.approx(550, abs=NEAR_MM)
    assert solve_middle(wanted, trials=TRIALS).length_mm == pytest.approx(300, abs=NEAR_MM)


def test_a_half_on_the_far_fold_unfolds_about_it():
    """900 wide: folds at 225 and 675 of the bolt, so at 210 and 660 from the first selvedge."""
    wanted = MIDDLE["a half on each fold"][0]
    flat = unfolded_spread(solve_middle(wanted, trials=TRIALS), {one.item_id: one for one in wanted.items})
    assert sorted(placement.y_mm for placement in flat.placements) == [210.0, 660.0]


PART = {
    # The half lies 200 deep, so 21.5 cm are folded over; beside it 900 - 430 - 15 = 455 are single. Folded in half
    # there are 435, less than 200 + 400, and the two would lie in a row.
    "a half and a wide single": (
        request(900, item("a", rectangle(300, 200), "fold", 1), item("b", rectangle(300, 400), "single", 1)),
        300,
        215,
    ),
    "a single that fills what is left": (
        request(900, item("a", rectangle(300, 200), "fold", 1), item("b", rectangle(300, 455), "single", 1)),
        300,
        215,
    ),
    # No half at all: the pair is cut double (16.5 cm folded over), the wide single beside it.
    "a pair and a wide single": (
        request(745, item("a", rectangle(300, 150), "pair", 2), item("b", rectangle(300, 400), "single", 1)),
        300,
        165,
    ),
    # Folded over 21.5 cm, 100 are left single: the two copies of the pair lie there one behind the other. Together
    # they would need 300 of double cloth, more than half of 545, or 400 + 200 of the fold zone's length.
    "a pair cut apart": (
        request(545, item("a", rectangle(400, 200), "fold", 1), item("b", rectangle(200, 100), "pair", 2)),
        400,
        215,
    ),
    # 830 folded in half: 400 deep, the half and the pair side by side. Folded over 21.5 cm the pair cut apart would
    # need 400 beside it, there are 385.
    "in half where that is best": (
        request(830, item("a", rectangle(300, 200), "fold", 1), item("b", rectangle(300, 200), "pair", 2)),
        300,
        415,
    ),
    # Two equal asymmetric singles in 745 - 430 - 15 = 300 of single cloth: head to foot they fill 400 x 300.
    "two asymmetric singles nest beside the half": (
        request(745, item("a", rectangle(400, 200), "fold", 1), item("b", TRIANGLE, "single", 2)),
        400,
        215,
    ),
    # One-way they stand alike, one behind the other.
    "two asymmetric singles on one-way cloth": (
        request(745, item("a", rectangle(400, 200), "fold", 1), item("b", TRIANGLE, "single", 2), one_way=True),
        800,
        215,
    ),
    # Two halves, 100 deep, take 300 + 300 of the fold; six rectangles of 300 x 105 lie beside them three and three in
    # 560 - 230 - 15 = 315 of single cloth: the fold's row is the length.
    "rows beside the fold": (
        request(560, item("a", rectangle(300, 100), "fold", 2), item("b", rectangle(300, 105), "single", 6)),
        600,
        115,
    ),
}


@pytest.mark.parametrize("name", PART)
def test_folded_over_in_part(name):
    wanted, optimum_mm, over_mm = PART[name]
    lay = solve_part_folded(wanted, trials=TRIALS, short_trials=100)
    is_right(wanted, lay)
    assert lay.length_mm == pytest.approx(optimum_mm, abs=NEAR_MM)
    assert lay.spread.fold_over_mm == over_mm


def test_a_piece_too_wide_for_its_zone_is_refused():
    """To the middle: 4 x (211 + 15) = 904, though 420 of the table are free. Folded over: 2 x 215 + 15 + 456 = 901."""
    broad = item("broad", rectangle(100, 211), "pair", 2)
    with pytest.raises(TooWide) as refused:
        solve_middle(request(900, broad))
    assert (refused.value.item_id, refused.value.narrowest_bolt_mm) == ("broad", 904.0)
    assert str(refused.value) == (
        "piece 'broad' is 211 mm wide, with both selvedges folded to the middle the cloth offers 210 mm; "
        "the narrowest cloth that works is 904 mm wide"
    )
    solve_middle(request(904, broad), trials=1)

    pieces = (item("a", rectangle(300, 200), "fold", 1), item("wide", rectangle(300, 456), "single", 1))
    with pytest.raises(TooWide) as refused:
        solve_part_folded(request(900, *pieces))
    assert (refused.value.item_id, refused.value.narrowest_bolt_mm) == ("wide", 901.0)
    assert solve_part_folded(request(901, *pieces), trials=1).length_mm == pytest.approx(300, abs=NEAR_MM)
