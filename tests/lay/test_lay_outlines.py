"""Laws of the outlines that solvers see, checked with shapely."""

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pieces_for_lays import half_back, jacket, sleeve
from shapely import Polygon, affinity

from boltside.lay.model import LayItem, Outline
from boltside.lay.outlines import (
    SIMPLIFY_MM,
    laid_outline,
    posed,
    signed_area,
    simplified_inwards,
    solver_outline,
    symmetric_across,
    unfold,
)

RECTANGLE: Outline = ((0.0, 0.0), (200.0, 0.0), (200.0, 80.0), (0.0, 80.0))
ROUNDING_MM2 = 0.5
"""Corners that a clamp to the bounding box cuts off, at most."""


def blob(seed: int) -> Outline:
    """A random star-shaped outline of 5 to 60 points, some 100 mm across, on the grid."""
    chance = random.Random(seed)
    count = chance.randint(5, 60)
    rough = chance.choice((0.02, 0.2, 0.5))
    points = []
    for step in range(count):
        radius = 100 * (1 - rough * chance.random())
        angle = 2 * math.pi * step / count
        points.append((round(radius * math.cos(angle), 2), round(radius * math.sin(angle) * 0.7, 2)))
    return tuple(points)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6), st.booleans())
def test_a_simplified_outline_contains_the_true_one_and_bulges_little(seed, move_all_edges):
    true = Polygon(blob(seed))
    simple = Polygon(solver_outline(blob(seed), move_all_edges=move_all_edges))
    assert simple.is_valid
    assert true.difference(simple).area <= ROUNDING_MM2
    assert simple.within(true.buffer(SIMPLIFY_MM + 0.3, join_style="mitre"))


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6))
def test_an_outline_simplified_inwards_lies_inside_the_true_one(seed):
    true = Polygon(blob(seed))
    simple = Polygon(simplified_inwards(blob(seed)))
    assert simple.difference(true).area <= 1e-6 * true.area


@pytest.mark.parametrize("outline", [half_back(), sleeve(), RECTANGLE])
def test_a_simplified_outline_keeps_the_bounding_box(outline):
    """Pieces that fit exactly between the selvedges still do."""
    true, simple = Polygon(outline), Polygon(solver_outline(outline, move_all_edges=False))
    assert simple.bounds == pytest.approx(true.bounds, abs=1e-9)


def test_straight_edges_along_an_axis_stay_where_they_are():
    assert set(solver_outline(RECTANGLE, move_all_edges=False)) == set(RECTANGLE)


def test_curves_lose_points():
    assert len(solver_outline(half_back(), move_all_edges=False)) < len(half_back())


def test_an_unfolded_half_is_the_half_and_its_mirror_image():
    half = Polygon(half_back())
    whole = Polygon(unfold(half_back()))
    assert whole.is_valid
    assert whole.area == pytest.approx(2 * half.area)
    mirrored = affinity.scale(half, yfact=-1, origin=(0, 0))
    assert whole.symmetric_difference(half.union(mirrored)).area == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("start", range(0, 20, 3))
def test_unfolding_does_not_depend_on_where_the_outline_begins_or_which_way_it_runs(start):
    half = half_back()
    turned_about = half[start:] + half[:start]
    assert Polygon(unfold(turned_about)).equals(Polygon(unfold(half)))
    assert Polygon(unfold(turned_about[::-1])).equals(Polygon(unfold(half)))


def test_a_half_with_a_point_within_its_fold_edge_unfolds_to_the_same_whole():
    with_point = (half_back()[0], (140.0, 0.0), *half_back()[1:])
    assert Polygon(unfold(with_point)).equals(Polygon(unfold(half_back())))


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("mirrored", [False, True])
def test_posing_is_turning_over_then_turning_round(turned, mirrored):
    shape = Polygon(sleeve())
    if mirrored:
        shape = affinity.scale(shape, yfact=-1, origin=(0, 0))
    if turned:
        shape = affinity.rotate(shape, 180, origin=(0, 0))
    assert Polygon(posed(sleeve(), turned=turned, mirrored=mirrored)).symmetric_difference(shape).area < 1e-6


def test_area_agrees_with_shapely():
    assert abs(signed_area(half_back())) == pytest.approx(Polygon(half_back()).area)


def test_symmetry_across_the_cloth():
    assert symmetric_across(RECTANGLE)
    assert symmetric_across((*RECTANGLE, (0.0, 30.0)))  # a point on a straight edge is no corner
    assert symmetric_across(unfold(half_back()))
    assert not symmetric_across(sleeve())
    # Symmetric end to end, not across: turned over, it points the other way.
    assert not symmetric_across(((0.0, 0.0), (100.0, 0.0), (50.0, 40.0)))


@pytest.mark.parametrize("item", jacket(), ids=lambda item: item.item_id)
def test_only_fold_pieces_are_laid_whole_and_only_on_flat_cloth(item):
    assert laid_outline(item, "folded") == item.outline_mm
    assert (laid_outline(item, "flat") == item.outline_mm) == (item.mode != "fold")


@pytest.mark.parametrize(
    ("outline", "mode", "count", "said"),
    [
        (((0, 0), (1, 0)), "single", 1, "at least three points"),
        (((0, 0), (0.001, 0), (1, 1), (1, 1.001)), "single", 1, "at least three points"),
        (RECTANGLE, "single", 0, "count is 0, expected 1 or more"),
        (RECTANGLE, "pair", 3, "a mirrored pair needs an even count, not 3"),
        (tuple((x, y + 1) for x, y in RECTANGLE), "fold", 1, "must lie on y = 0"),
        (tuple((x, y - 1) for x, y in RECTANGLE), "fold", 1, "must lie on y = 0"),
    ],
)
def test_items_that_can_not_be_right_are_refused(outline, mode, count, said):
    with pytest.raises(ValueError, match=said):
        LayItem(item_id="a", outline_mm=outline, mode=mode, count=count)
