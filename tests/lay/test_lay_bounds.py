"""No-fit polygons, sliding and bounds: against shapely, and against rows worked out on paper."""

import math
import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pieces_for_lays import half_back, jacket_request, sleeve
from shapely import Polygon, affinity

from boltside.lay.bounds import area_mm2, fold_chain_mm, longest_piece_mm, shortest_possible_mm
from boltside.lay.folded import solve_by_filling
from boltside.lay.model import LayItem, LayRequest, Outline
from boltside.lay.nofit import FINE_PER_MM, NoFitTable, shape_of
from boltside.lay.slide import edges_facing, slide_room
from boltside.lay.slots import slots_of

TABLE = NoFitTable()


@settings(max_examples=100, deadline=None)
@given(st.floats(-500, 500), st.floats(-300, 300))
def test_an_offset_lies_in_the_no_fit_polygon_exactly_when_the_pieces_overlap(x_mm, y_mm):
    shapes = [shape_of(outline)[0] for outline in (half_back(), sleeve())]
    still, moving = (Polygon([(x / FINE_PER_MM, y / FINE_PER_MM) for x, y in shape]) for shape in shapes)
    shared_mm2 = still.intersection(affinity.translate(moving, x_mm, y_mm)).area
    paths = [Polygon([(x / FINE_PER_MM, y / FINE_PER_MM) for x, y in path]) for path in TABLE.paths(*shapes)]
    inside = any(path.contains(Polygon.from_bounds(x_mm, y_mm, x_mm + 1e-6, y_mm + 1e-6)) for path in paths)
    if shared_mm2 > 1e-3:
        assert inside
    if shared_mm2 == 0.0:
        assert not inside


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6))
def test_a_piece_slid_as_far_as_it_goes_touches_and_does_not_overlap(seed):
    chance = random.Random(seed)
    across_mm = chance.uniform(-120, 120)
    still, moving = np.array(half_back()) * 100, np.array(sleeve()) * 100
    room = slide_room(
        edges_facing(moving, axis=0, forward=False),
        edges_facing(still, axis=0, forward=True),
        100_000,
        across_mm * 100,
    )
    start = affinity.translate(Polygon(sleeve()), 1000, across_mm)
    if math.isinf(room):
        assert across_mm - 90 > 150 - 1e-6 or across_mm + 95 < 1e-6
        return
    touching = affinity.translate(start, -room / 100, 0)
    assert touching.intersection(Polygon(half_back())).area < 0.05
    assert affinity.translate(touching, -0.2, 0).intersection(Polygon(half_back())).area > 0


def halves(*outlines: Outline, one_way: bool = False) -> LayRequest:
    items = tuple(
        LayItem(item_id=str(number), outline_mm=outline, mode="fold", count=1)
        for number, outline in enumerate(outlines)
    )
    return LayRequest(items=items, bolt_width_mm=1030, way="folded", one_way=one_way)


# A trapezium on its long side of 300, top 100 and 300 high; and the same on its short side: both slope by 100.
ON_LONG_SIDE = ((0.0, 0.0), (300.0, 0.0), (200.0, 300.0), (100.0, 300.0))
ON_SHORT_SIDE = ((100.0, 0.0), (200.0, 0.0), (300.0, 300.0), (0.0, 300.0))
# An arrow whose head (300 long at the fold, 100 high) leans over: its point at the top reaches 50 beyond.
LEANING = ((0.0, 0.0), (100.0, 0.0), (150.0, 200.0), (50.0, 200.0))


@pytest.mark.outside
@pytest.mark.parametrize(
    ("request_", "chain_mm"),
    [
        # Two on their long sides touch at the fold only: 300 + 300.
        (halves(ON_LONG_SIDE, ON_LONG_SIDE), 600),
        # Two on their short sides touch at the top: 300 + 300.
        (halves(ON_SHORT_SIDE, ON_SHORT_SIDE), 600),
        # One of each: slope lies against slope, 300 + 100 at the fold and 100 of overhang at the end.
        (halves(ON_LONG_SIDE, ON_SHORT_SIDE), 500),
        # short, long, short: fold edges 100 + 300 + 100, and an overhang of 100 at each end.
        (halves(ON_SHORT_SIDE, ON_LONG_SIDE, ON_SHORT_SIDE), 700),
        # Leaning the same way they lie close: fold edges 100 + 100, and 50 of overhang.
        (halves(LEANING, LEANING), 250),
        (halves(LEANING, LEANING, one_way=True), 250),
        # A leaning one and its flip, which one-way cloth bans: for two different outlines, each leaning its way,
        # the best row is back to back: they touch at the fold (100 + 100), overhangs of 50 at both ends: 300.
        # With flipping allowed both lean the same way: 250.
        (halves(LEANING, tuple((150.0 - x, y) for x, y in LEANING), one_way=True), 300),
        (halves(LEANING, tuple((150.0 - x, y) for x, y in LEANING)), 250),
    ],
)
def test_the_fold_chain_is_the_shortest_row_worked_out_on_paper(request_, chain_mm):
    assert fold_chain_mm(slots_of(request_)) == pytest.approx(chain_mm, abs=0.01)


def test_halves_that_hook_into_each_other_are_bounded_by_their_no_fit_polygon():
    """A hook holds a bar: sliding the bar up from afar would stop 100 early, but lifted in, it lies closer."""
    # The hook: foot 200 on the fold, a wall at its far end up to 200, open between x = 50 and 150 above y = 100.
    hook = (
        (0.0, 0.0),
        (200.0, 0.0),
        (200.0, 200.0),
        (150.0, 200.0),
        (150.0, 100.0),
        (50.0, 100.0),
        (50.0, 200.0),
        (0.0, 200.0),
    )
    # The bar: foot of 50 on the fold, and at the top an arm that reaches back 140 and down to y = 120.
    bar = (
        (150.0, 0.0),
        (200.0, 0.0),
        (200.0, 300.0),
        (0.0, 300.0),
        (0.0, 120.0),
        (80.0, 120.0),
        (80.0, 220.0),
        (150.0, 220.0),
    )
    # Hook at 0: the arm (80 wide) fits into the opening (100 wide) from x = 50 to 130; the bar's foot then stands
    # at x = 200, right behind the hook. Both together: 250 long; slid, it would be 200 + 200.
    assert fold_chain_mm(slots_of(halves(hook, bar))) == pytest.approx(250, abs=1)


def test_longest_piece_and_area_count_what_lies_on_the_table():
    """A half of 100 x 50 and a pair of 80 x 40. Flat: 2 x 5000 + 2 x 3200; folded: half of that."""
    items = (
        LayItem(item_id="a", outline_mm=((0, 0), (100, 0), (100, 50), (0, 50)), mode="fold", count=1),
        LayItem(item_id="b", outline_mm=((0, 0), (80, 0), (80, 40), (0, 40)), mode="pair", count=2),
    )
    for way, area in (("flat", 16_400), ("folded", 8_200)):
        slots = slots_of(LayRequest(items=items, bolt_width_mm=500, way=way, one_way=False))
        assert area_mm2(slots) == pytest.approx(area)
        assert longest_piece_mm(slots) == 100


@pytest.mark.parametrize("way", ["flat", "folded"])
@pytest.mark.parametrize("one_way", [False, True])
@pytest.mark.parametrize("bolt_width_mm", [430.0, 520.0, 730.0, 1130.0])
def test_no_lay_is_shorter_than_the_bound(way, one_way, bolt_width_mm):
    request = jacket_request(way, one_way=one_way, bolt_width_mm=bolt_width_mm)
    assert solve_by_filling(request, trials=60).length_mm >= shortest_possible_mm(request) - 0.02
