"""Units, transforms and curves of pieces.svg, against closed forms."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltside.read.collect import Problems
from boltside.read.drawn import Drawing, Stroke
from boltside.read.svg_file import FLATTEN_MM, read_drawing

PROMISED_MM = 0.1
"""The format promises that flattened curves leave the true ones by no more."""


def drawing(inside: str, root: str = 'width="200mm" height="100mm" viewBox="0 0 200 100"') -> Drawing:
    """A drawing that must be read without a problem."""
    problems = Problems()
    found = read_drawing(f'<svg xmlns="http://www.w3.org/2000/svg" {root}>{inside}</svg>', "pieces.svg", problems)
    assert [str(one) for one in problems.found] == []
    assert found is not None
    return found


def outline(inside: str, root: str = 'width="200mm" height="100mm" viewBox="0 0 200 100"') -> Stroke:
    """The one stroke of the outline of the piece `a` in size 80."""
    return drawing(inside, root).pieces["a", "80"].outlines[0].strokes[0]


def near(points: Sequence[tuple[float, float]]) -> list[object]:
    """The points, each to be met within rounding."""
    return [pytest.approx(point) for point in points]


def length_mm(vertices: tuple[tuple[float, float], ...], *, closed: bool) -> float:
    """Length of a polyline."""
    following = (*vertices[1:], vertices[0]) if closed else vertices[1:]
    return sum(math.dist(a, b) for a, b in zip(vertices, following, strict=False))


@pytest.mark.outside
@pytest.mark.parametrize(
    ("root", "mm"),
    [
        # 1 in = 25.4 mm exactly (international yard and pound agreement, 1959); SI prefixes for cm.
        ('width="200mm" height="100mm" viewBox="0 0 200 100"', 10),
        ('width="20cm" height="10cm" viewBox="0 0 200 100"', 10),
        ('width="20cm" height="10cm" viewBox="0 0 2000 1000"', 1),
        ('width="2in" height="1in" viewBox="0 0 200 100"', 2.54),
        ('width="2in" height="1in" viewBox="0 0 2 1"', 254),
    ],
)
def test_units(root: str, mm: float) -> None:
    stroke = outline('<path id="a.80.outline" d="M 0,0 H 10 V 5 Z"/>', root)
    assert list(stroke.vertices) == near([(0, 0), (mm, 0), (mm, -mm / 2)])
    assert stroke.closed


def test_corner_of_the_viewbox_is_the_origin_and_y_points_up() -> None:
    root = 'width="200mm" height="100mm" viewBox="-50 30 200 100"'
    point = drawing('<circle id="a.80.point.p" cx="-40" cy="50" r="1"/>', root).pieces["a", "80"].points["p"]
    assert point.strokes[0].vertices == ((10, -20),)


def test_transforms_are_followed_from_the_outermost_in() -> None:
    # By hand: (1, 0) scaled by 10 is (10, 0), turned by 90° (clockwise on screen) is (0, 10), moved is (50, 10).
    inside = (
        '<g transform="translate(50 0)"><g transform="rotate(90)">'
        '<circle id="a.80.point.p" transform="scale(10)" cx="1" cy="0" r="1"/></g></g>'
    )
    (at,) = drawing(inside).pieces["a", "80"].points["p"].strokes[0].vertices
    assert at == pytest.approx((50, -10))


@pytest.mark.outside
def test_circle_has_its_circumference() -> None:
    # Circumference 2πr. A chord polygon is shorter by about a part of sagitta/radius · 2/3.
    stroke = outline('<circle id="a.80.outline" cx="50" cy="50" r="40"/>')
    assert length_mm(stroke.vertices, closed=True) == pytest.approx(2 * math.pi * 40, rel=FLATTEN_MM / 40)
    for a, b in zip(stroke.vertices, (*stroke.vertices[1:], stroke.vertices[0]), strict=True):
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        assert 40 - math.dist(middle, (50, -50)) <= PROMISED_MM


@pytest.mark.outside
def test_turned_and_stretched_arc_stays_on_its_ellipse() -> None:
    # The ellipse x²/40² + y²/10² = 1, turned by 30°, then stretched by 3 across: its equation, put back, must hold.
    inside = (
        '<g transform="translate(100 50) scale(0.8 0.4)"><g transform="rotate(30)">'
        '<path id="a.80.outline" d="M -40,0 A 40 10 0 0 1 40,0 A 40 10 0 0 1 -40,0 Z"/></g></g>'
    )
    turn = math.radians(30)
    for x_mm, y_mm in outline(inside).vertices:
        x, y = (x_mm - 100) / 0.8, (-y_mm - 50) / 0.4
        across, down = x * math.cos(turn) + y * math.sin(turn), -x * math.sin(turn) + y * math.cos(turn)
        assert (across / 40) ** 2 + (down / 10) ** 2 == pytest.approx(1, abs=1e-6)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.lists(st.integers(0, 100), min_size=8, max_size=8), st.sampled_from([0.2, 1.0, 5.0]))
def test_law_flattened_curves_stay_within_a_tenth_of_a_millimetre(numbers: list[int], scale: float) -> None:
    x0, y0, x1, y1, x2, y2, x3, y3 = (float(one) for one in numbers)
    inside = (
        f'<path id="a.80.line.l" transform="scale({scale})" d="M {x0},{y0} C {x1},{y1} {x2},{y2} {x3},{y3} L 500,500"/>'
    )
    vertices = drawing(inside).pieces["a", "80"].lines["l"].strokes[0].vertices
    for step in range(101):
        # The curve by its own definition (Bernstein polynomials), independent of the library.
        t = step / 100
        weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3)
        x = scale * sum(w * one for w, one in zip(weights, (x0, x1, x2, x3), strict=True))
        y = -scale * sum(w * one for w, one in zip(weights, (y0, y1, y2, y3), strict=True))
        distance = min(distance_mm((x, y), a, b) for a, b in pairwise(vertices))
        assert distance <= PROMISED_MM


def distance_mm(at: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    """Distance of a point from a stretch."""
    across, up = b[0] - a[0], b[1] - a[1]
    squared = across**2 + up**2
    part = min(max(((at[0] - a[0]) * across + (at[1] - a[1]) * up) / squared, 0), 1) if squared else 0
    return math.dist(at, (a[0] + part * across, a[1] + part * up))


def test_all_shapes_of_an_outline() -> None:
    square = [(10, -10), (30, -10), (30, -30), (10, -30)]
    for element in (
        '<rect id="a.80.outline" x="10" y="10" width="20" height="20"/>',
        '<polygon id="a.80.outline" points="10,10 30,10 30,30 10,30"/>',
        '<path id="a.80.outline" d="m10 10h20v20h-20z"/>',
        '<path id="a.80.outline" d="M10,10L30,10 30,30 10,30Z"/>',
    ):
        stroke = outline(element)
        assert list(stroke.vertices) == near(square)
        assert stroke.closed
        assert stroke.nodes == {0, 1, 2, 3}


def test_doubled_nodes_are_merged() -> None:
    stroke = outline('<path id="a.80.outline" d="M 0,0 L 0,0 L 10,0 L 10,0.0001 L 10,10 L 0,0 Z"/>')
    assert list(stroke.vertices) == near([(0, 0), (10, 0), (10, -10)])


def test_other_elements_are_ignored() -> None:
    found = drawing('<text id="title">Front</text><path id="a.80.outlines" d="rubbish"/><path d="rubbish"/>')
    assert found.pieces == {}
    assert set(found.ids) == {"title", "a.80.outlines"}
