"""Lengths, areas and places on lines."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon

from boltside.measure.polyline import (
    angle_deg,
    area_mm2,
    between_mm,
    length_mm,
    nearest_on,
    ring_of,
    signed_area_mm2,
    turned,
)

POINT = st.tuples(st.integers(-500, 500).map(float), st.integers(-500, 500).map(float))
LINE = st.lists(POINT, min_size=2, max_size=8, unique=True)

pytestmark = pytest.mark.outside  # shapely as a second library


@given(line=LINE)
def test_law_lengths_agree_with_shapely(line: list[tuple[float, float]]) -> None:
    assert length_mm(line) == pytest.approx(LineString(line).length)


@given(size=st.tuples(st.integers(1, 500), st.integers(1, 500)), by=st.integers(-500, 500))
def test_law_areas_agree_with_shapely_either_way_round(size: tuple[int, int], by: int) -> None:
    ring = [(0.0, 0.0), (float(size[0]), float(by)), (float(size[0] + by), float(size[1] + 501))]
    assert area_mm2(ring) == pytest.approx(Polygon(ring).area)
    assert signed_area_mm2(ring[::-1]) == -signed_area_mm2(ring)


@given(line=LINE, point=POINT)
def test_law_the_nearest_place_agrees_with_shapely(line: list[tuple[float, float]], point: tuple[float, float]) -> None:
    from shapely import Point

    along, place, away = nearest_on(line, point)
    other = LineString(line)
    assert away == pytest.approx(other.distance(Point(point)), abs=1e-9)
    assert other.distance(Point(place)) < 1e-9
    assert 0 <= along <= other.length + 1e-9


@given(line=LINE, shares=st.tuples(st.floats(0, 1), st.floats(0, 1)))
def test_law_a_stretch_is_as_long_as_it_says(line: list[tuple[float, float]], shares: tuple[float, float]) -> None:
    whole = length_mm(line)
    start, stop = (whole * share for share in sorted(shares))
    assert length_mm(between_mm(line, start, stop)) == pytest.approx(stop - start, abs=1e-5)


def test_an_uncut_stretch_is_the_line_itself() -> None:
    line = [(0.1, 0.2), (10.3, 0.7), (11.9, 33.3)]
    assert between_mm(line, 0.0, length_mm(line)) == line


def test_a_ring_has_no_repeated_points() -> None:
    assert ring_of([[(0, 0), (1, 0)], [(1, 0), (1, 1)], [(1, 1), (0, 0)]]) == ((0, 0), (1, 0), (1, 1))


def test_turning_and_angles() -> None:
    assert angle_deg([(1, 1), (1, 5)]) == pytest.approx(90)
    assert turned([(1.0, 0.0)], 90)[0] == pytest.approx((0, 1))
    assert turned([(2.0, 0.0)], 180 / pi)[0] == pytest.approx((1.0806046, 1.682942))
