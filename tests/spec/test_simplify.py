"""Published outlines are too coarse to sew from, and still a picture of the piece."""

from __future__ import annotations

from math import cos, pi, sin, tau

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LinearRing, Point, Polygon

from boltside.spec.simplify import COARSE_MM, GRID_MM, coarse

SEAM_MM = 1.0
"""Seams of the true pattern agree within this; an outline that is further off can't be sewn from."""


def circle(radius_mm: float, count: int = 240) -> list[tuple[float, float]]:
    return [(radius_mm * cos(tau * at / count), radius_mm * sin(tau * at / count)) for at in range(count)]


def deviation_mm(true: list[tuple[float, float]], shown: list[list[int]]) -> tuple[float, float]:
    """Mean and greatest distance of the true line from the one shown, in mm, measured along the true line."""
    line, other = LinearRing(true), LinearRing(shown)
    off = [other.distance(line.interpolate(at / 500, normalized=True)) for at in range(500)]
    return sum(off) / len(off), max(off)


def test_at_least_five_millimetres() -> None:
    assert COARSE_MM >= 5 and GRID_MM >= 5


@pytest.mark.parametrize("radius_mm", [60, 150, 400])
def test_a_curve_comes_out_millimetres_off(radius_mm: float) -> None:
    mean, greatest = deviation_mm(circle(radius_mm), coarse(circle(radius_mm), GRID_MM))
    assert mean > SEAM_MM and greatest > 4 * SEAM_MM
    # As a picture it will do: nowhere further than the chord and the grid allow.
    assert greatest <= COARSE_MM + GRID_MM


@pytest.mark.parametrize("radius_mm", [60, 150, 400])
def test_curves_are_chords_of_about_the_allowed_height(radius_mm: float) -> None:
    shown = coarse(circle(radius_mm))
    # A chord of height h spans an angle of 2·acos(1 − h/r); with the fewest chords h lies between a quarter and all
    # of what is allowed (halving a chord quarters its height).
    heights = [radius_mm * (1 - cos(pi / len(shown)))]
    assert COARSE_MM / 4 <= heights[0] <= COARSE_MM + 1


@given(st.integers(5, 600), st.integers(5, 600))
def test_law_straight_pieces_are_told_to_the_grid_only(width: int, height: int) -> None:
    ring = [(0.0, 0.0), (float(width), 0.0), (float(width), float(height)), (0.0, float(height))]
    shown = coarse(ring, GRID_MM)
    assert all(x % GRID_MM == 0 and y % GRID_MM == 0 for x, y in shown)
    assert all(isinstance(number, int) for point in shown for number in point)
    left, low, right, high = Polygon(shown).bounds
    assert (left, low) == (0, 0) and abs(right - width) <= GRID_MM / 2 and abs(high - height) <= GRID_MM / 2


POLAR = st.lists(st.floats(40, 300), min_size=5, max_size=40)


@given(POLAR)
def test_law_what_is_shown_is_a_simple_outline_near_the_true_one(radii: list[float]) -> None:
    n = len(radii)
    ring = [(r * cos(tau * at / n), r * sin(tau * at / n)) for at, r in enumerate(radii)]
    shown = coarse(ring)
    assert Polygon(shown).is_valid and 3 <= len(shown) <= n
    edge = LinearRing(shown)
    assert max(edge.distance(Point(point)) for point in ring) <= COARSE_MM + 1.5


def test_a_sliver_keeps_its_shape() -> None:
    assert len(coarse([(0, 0), (100, 0), (100, 2), (0, 2)], GRID_MM)) >= 3


def test_the_same_outline_from_another_start_shows_the_same() -> None:
    ring = circle(150)
    turned = ring[77:] + ring[:77]
    assert sorted(coarse(ring)) == sorted(coarse(turned))
