"""The outline begins at the first edge and runs in the order of the edges, whichever way it was drawn."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.pattern import Outline
from boltside.read.collect import Problems
from boltside.read.outline import EdgeStart, make_outline
from boltside.read.svg_file import read_drawing

CORNERS = {"a": (10, 10), "b": (60, 10), "c": (60, 40), "d": (10, 40)}
EDGES = [EdgeStart(name, name, None) for name in CORNERS]
AS_RUN = ((10, -10), (60, -10), (60, -40), (10, -40))


def made(
    path: str, points: Mapping[str, tuple[float, float]], edges: list[EdgeStart]
) -> tuple[Outline | None, list[str]]:
    """The outline of piece p in size 80, and the codes of what was noted."""
    circles = "".join(f'<circle id="p.80.point.{name}" cx="{x}" cy="{y}" r="1"/>' for name, (x, y) in points.items())
    text = (
        f'<svg width="100mm" height="100mm" viewBox="0 0 100 100"><path id="p.80.outline" d="{path}"/>{circles}</svg>'
    )
    problems = Problems()
    drawing = read_drawing(text, "pieces.svg", problems)
    assert drawing is not None
    outline = make_outline("p", "80", drawing.pieces["p", "80"], edges, "pieces.svg", problems)
    return outline, [problem.code for problem in problems.found]


@given(st.integers(0, 3), st.booleans())
def test_law_start_and_direction_of_the_drawn_path_do_not_matter(begin: int, backwards: bool) -> None:
    corners = list(CORNERS.values())
    corners = corners[begin:] + corners[:begin]
    path = "M " + " L ".join(f"{x},{y}" for x, y in (corners[::-1] if backwards else corners)) + " Z"
    outline, codes = made(path, CORNERS, EDGES)
    assert codes == []
    assert outline is not None
    assert outline.outline_mm == AS_RUN


def test_edges_decide_the_direction() -> None:
    outline, _ = made("M 10,10 H 60 V 40 H 10 Z", CORNERS, [EDGES[0], EDGES[3], EDGES[2], EDGES[1]])
    assert outline is not None
    assert outline.outline_mm == (AS_RUN[0], AS_RUN[3], AS_RUN[2], AS_RUN[1])


def test_via_decides_between_two_edges() -> None:
    for via, second in (("b", 1), ("d", 3)):
        edges = [EdgeStart("one", "a", via), EdgeStart("other", "c", None)]
        outline, codes = made("M 10,10 H 60 V 40 H 10 Z", CORNERS, edges)
        assert codes == []
        assert outline is not None
        assert outline.outline_mm[:2] == (AS_RUN[0], AS_RUN[second])


def test_points_on_the_outline_become_vertices_of_it() -> None:
    outline, _ = made("M 10,10 H 60 V 40 H 10 Z", {**CORNERS, "mark": (30, 10.4), "inside": (30, 11)}, EDGES)
    assert outline is not None
    assert outline.points_mm["mark"] == (30, -10)
    assert outline.points_mm["inside"] == (30, -11)
    assert outline.outline_mm == (AS_RUN[0], (30, -10), *AS_RUN[1:])


def test_points_beside_a_corner_snap_to_the_corner() -> None:
    outline, codes = made("M 10,10 H 60 V 40 H 10 Z", {**CORNERS, "b": (59.7, 10.3)}, EDGES)
    assert codes == []
    assert outline is not None
    assert outline.points_mm["b"] == (60, -10)
    assert outline.outline_mm == AS_RUN


def test_points_on_a_curve_stay_where_they_are() -> None:
    # A half circle of radius 25; the point at 45° is no node of the path and must not jump to a flattened vertex.
    at = (35 + 25 * 2**-0.5, 10 + 25 * 2**-0.5)
    outline, _ = made("M 10,10 A 25 25 0 0 0 60,10 Z", {"a": (10, 10), "b": (60, 10), "low": at}, [])
    assert outline is not None
    assert outline.points_mm["low"] == pytest.approx((at[0], -at[1]), abs=0.03)
    assert outline.points_mm["low"] in outline.outline_mm


def test_closed_without_z() -> None:
    outline, codes = made("M 10,10 H 60 V 40 H 10 V 10", CORNERS, EDGES)
    assert codes == []
    assert outline is not None
    assert outline.outline_mm == AS_RUN


@pytest.mark.parametrize(
    ("path", "code"),
    [
        ("M 10,10 H 60 V 40 H 10 V 11", "not-closed"),
        ("M 10,10 L 60,40 L 60,10 L 10,40 Z", "self-crossing"),
        ("M 10,10 H 60 V 40 H 10 V 10 L 60,40 Z", "self-crossing"),
        ("M 10,10 H 60 H 10 Z", "self-crossing"),
        ("M 10,10 H 60 V 40 H 10 Z M 12,12 h 4 v 4 h -4 Z", "several-outlines"),
    ],
)
def test_outlines_that_are_none(path: str, code: str) -> None:
    outline, codes = made(path, {"a": (10, 10)}, [])
    assert outline is None
    assert codes == [code]
