"""Both lines of a piece: what the allowances do to straight edges, corners, folds, curves and points."""

from __future__ import annotations

from math import cos, hypot, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from boltside.measure.corners import MITRE_LIMIT
from boltside.measure.drawn import DrawnEdge, DrawnPiece, split_outline
from boltside.measure.lines import both_lines
from boltside.measure.model import MeasureError, PieceLines
from boltside.measure.polyline import area_mm2, ring_of
from boltside.pattern import DrawnLine, Point

from .handmade import arc, edge, outline


def lines_of(
    *edges: tuple[str, list[Point], float],
    drawn: DrawnLine = "stitching",
    fold: str | None = None,
    points: dict[str, Point] | None = None,
) -> PieceLines:
    """Both lines of a piece given by its edges."""
    made = tuple(DrawnEdge(name=name, line_mm=tuple(line), allowance_mm=mm) for name, line, mm in edges)
    return both_lines(DrawnPiece(edges=made, points_mm=points or {}, lines_mm={}, areas_mm={}), drawn, fold)


def box(bottom: float, right: float, top: float, left: float) -> list[tuple[str, list[Point], float]]:
    """A rectangle of 200 by 400 mm, anticlockwise."""
    a, b, c, d = (0.0, 0.0), (200.0, 0.0), (200.0, 400.0), (0.0, 400.0)
    return [("bottom", [a, b], bottom), ("right", [b, c], right), ("top", [c, d], top), ("left", [d, a], left)]


def backwards(edges: list[tuple[str, list[Point], float]]) -> list[tuple[str, list[Point], float]]:
    """The same outline the other way round."""
    return [(name, line[::-1], mm) for name, line, mm in reversed(edges)]


def test_each_edge_moves_by_its_own_allowance() -> None:
    lines = lines_of(*box(30, 10, 8, 20))
    assert lines.cutting_mm == ((-20.0, -30.0), (210.0, -30.0), (210.0, 408.0), (-20.0, 408.0))
    assert {e.name: (e.length_mm, e.cutting_length_mm) for e in lines.edges} == {
        "bottom": (200, 230),
        "right": (400, 438),
        "top": (200, 230),
        "left": (400, 438),
    }


def test_the_stitching_line_lies_inside_a_drawn_cutting_line() -> None:
    lines = lines_of(*box(30, 10, 8, 20), drawn="cutting")
    assert lines.stitching_mm == ((20.0, 30.0), (190.0, 30.0), (190.0, 392.0), (20.0, 392.0))
    assert {e.name: (e.length_mm, e.cutting_length_mm) for e in lines.edges} == {
        "bottom": (170, 200),
        "right": (362, 400),
        "top": (170, 200),
        "left": (362, 400),
    }


@pytest.mark.parametrize("drawn", ["stitching", "cutting"])
def test_the_way_round_does_not_matter(drawn: DrawnLine) -> None:
    one = lines_of(*box(30, 10, 8, 20), drawn=drawn)
    other = lines_of(*backwards(box(30, 10, 8, 20)), drawn=drawn)
    assert Polygon(one.cutting_mm).symmetric_difference(Polygon(other.cutting_mm)).area < 1e-9
    assert Polygon(one.stitching_mm).symmetric_difference(Polygon(other.stitching_mm)).area < 1e-9


def test_an_edge_without_allowance_stays_and_its_neighbours_run_out_to_it() -> None:
    lines = lines_of(*box(30, 0, 8, 20))
    assert lines.cutting_mm == ((-20.0, -30.0), (200.0, -30.0), (200.0, 408.0), (-20.0, 408.0))
    right = lines.edges[1]
    assert right.stitching_mm == ((200, 0), (200, 400))
    assert right.cutting_mm == ((200, -30), (200, 408))


def test_the_fold_has_no_allowance_and_its_neighbours_end_exactly_on_it() -> None:
    """A neck that meets the fold square, a hem that meets it at an angle."""
    neck = arc((0.0, 400.0), 60.0, 0.0, -pi / 2)
    edges = [
        ("neck", neck, 8.0),
        ("fold", [(0.0, 340.0), (0.0, 0.0)], 25.0),
        ("hem", [(0.0, 0.0), (150.0, 30.0)], 30.0),
        ("side", [(150.0, 30.0), (60.0, 400.0)], 10.0),
    ]
    lines = lines_of(*edges, fold="fold")
    fold = lines.edges[1]
    assert fold.allowance_mm == 0
    assert fold.stitching_mm == ((0, 340), (0, 0))
    assert [x for x, _ in fold.cutting_mm] == pytest.approx([0, 0], abs=1e-9)
    assert min(x for x, _ in lines.cutting_mm) == pytest.approx(0, abs=1e-9)
    # The hem's cutting line is 30 mm from its stitching line, so it meets the fold 30 ÷ cos(angle) below.
    assert fold.cutting_mm[-1][1] == pytest.approx(-30 * hypot(150, 30) / 150)
    # The hollow neck moves inwards into its own hollow, so the fold grows there too.
    assert fold.cutting_mm[0][1] == pytest.approx(348, abs=0.2)


def test_a_sharp_point_is_blunted() -> None:
    """The mitre of a corner of 20 degrees would reach 5.8 allowances; 40 degrees reach 2.9 and stay pointed."""
    for degrees, pointed in ((20, False), (40, True)):
        half = degrees / 2 * pi / 180
        tip, a, b = (0.0, 0.0), (300 * cos(half), 300 * sin(half)), (300 * cos(half), -300 * sin(half))
        lines = lines_of(("one", [tip, b], 10), ("two", [b, a], 10), ("three", [a, tip], 10))
        reach = max(hypot(x, y) for x, y in lines.cutting_mm if x < 0)
        assert reach == pytest.approx(10 / sin(half)) if pointed else reach < MITRE_LIMIT * 10
        assert ShapelyPoint(tip).distance(Polygon(lines.cutting_mm).exterior) >= 10 - 1e-9
        # The blunt end belongs to no edge: lengths are those of the edges alone.
        assert lines.edges[0].length_mm == pytest.approx(300)


def test_two_allowances_on_a_straight_line_meet_in_a_step() -> None:
    edges = [
        ("bottom", [(0.0, 0.0), (200.0, 0.0)], 10.0),
        ("vent", [(200.0, 0.0), (200.0, 100.0)], 30.0),
        ("right", [(200.0, 100.0), (200.0, 400.0)], 10.0),
        ("top", [(200.0, 400.0), (0.0, 400.0)], 10.0),
        ("left", [(0.0, 400.0), (0.0, 0.0)], 10.0),
    ]
    lines = lines_of(*edges)
    assert (230.0, 100.0) in lines.cutting_mm
    assert (210.0, 100.0) in lines.cutting_mm
    assert area_mm2(lines.cutting_mm) == 220 * 420 + 20 * 110
    assert lines.edges[1].cutting_length_mm == 110
    inward = lines_of(*edges, drawn="cutting")
    assert inward.edges[1].length_mm == 90
    assert inward.edges[2].length_mm == 290


def test_a_hollow_corner_is_trimmed_not_crossed() -> None:
    """An L: at its inner corner both cutting lines are shorter than the stitching lines."""
    points = [(0.0, 0.0), (300.0, 0.0), (300.0, 100.0), (100.0, 100.0), (100.0, 300.0), (0.0, 300.0)]
    edges = [(str(i), [points[i], points[(i + 1) % 6]], 10.0) for i in range(6)]
    lines = lines_of(*edges)
    assert area_mm2(lines.cutting_mm) == 320 * 120 + 200 * 120
    assert lines.edges[2].cutting_length_mm == 200
    assert lines.edges[2].length_mm == 200


def test_a_curve_tighter_than_its_allowance_closes_up() -> None:
    """A slot with a round end of radius 5 mm cannot keep 8 mm of allowance apart: the cutting lines meet."""
    hollow = arc((100.0, 60.0), 30.0, pi, 2 * pi)
    edges = [
        ("slot", [(70.0, 200.0), *hollow, (130.0, 200.0)], 20.0),
        ("top-right", [(130.0, 200.0), (200.0, 200.0)], 10.0),
        ("right", [(200.0, 200.0), (200.0, 0.0)], 10.0),
        ("bottom", [(200.0, 0.0), (0.0, 0.0)], 10.0),
        ("left", [(0.0, 0.0), (0.0, 200.0)], 10.0),
        ("top-left", [(0.0, 200.0), (70.0, 200.0)], 10.0),
    ]
    open_slot = lines_of(*edges)
    slot = open_slot.edges[0].cutting_mm
    assert min(y for _, y in slot) == pytest.approx(50, abs=0.2)
    assert LineString(slot).distance(LineString(hollow)) == pytest.approx(20, abs=0.1)
    with pytest.raises(MeasureError, match="the cutting line crosses itself: the allowances"):
        lines_of(("slot", edges[0][1], 40.0), *edges[1:])


def test_a_hollow_with_a_small_curve_stays_simple() -> None:
    """A corner rounded by 4 mm and moved 10 mm into its hollow side is a plain corner again."""
    bend = arc((104.0, 104.0), 4.0, 1.5 * pi, pi)
    edges = [
        ("outer", [(0.0, 300.0), (0.0, 0.0), (300.0, 0.0)], 10.0),
        ("end", [(300.0, 0.0), (300.0, 100.0)], 10.0),
        ("inner", [(300.0, 100.0), *bend, (100.0, 300.0)], 10.0),
        ("top", [(100.0, 300.0), (0.0, 300.0)], 10.0),
    ]
    inner = lines_of(*edges).edges[2].cutting_mm
    assert len(inner) == 3
    assert inner[1] == pytest.approx((110, 110), abs=0.05)


def test_an_edge_that_its_neighbours_leave_no_room_for_shrinks_to_a_point() -> None:
    """A corner cut off by 2 mm, inside a cutting line with 20 mm of allowance."""
    edges = [
        ("bottom", [(0.0, 0.0), (198.0, 0.0)], 20.0),
        ("nick", [(198.0, 0.0), (200.0, 2.0)], 5.0),
        ("right", [(200.0, 2.0), (200.0, 300.0)], 20.0),
        ("rest", [(200.0, 300.0), (0.0, 300.0), (0.0, 0.0)], 20.0),
    ]
    lines = lines_of(*edges, drawn="cutting")
    assert lines.edges[1].length_mm == 0
    assert area_mm2(lines.stitching_mm) == pytest.approx(160 * 260)


def test_points_on_a_cutting_line_move_to_the_stitching_line() -> None:
    lines = lines_of(
        *box(30, 10, 8, 20),
        drawn="cutting",
        points={"corner": (200.0, 0.0), "notch": (70.0, 0.0), "inside": (50.0, 50.0)},
    )
    assert lines.points_mm == {"corner": (190, 30), "notch": (70, 30), "inside": (50, 50)}


def test_points_on_a_curve_move_along_the_normal() -> None:
    quarter = arc((0.0, 0.0), 100.0, 0.0, pi / 2)
    edges = [
        ("arc", quarter, 10.0),
        ("left", [(0.0, 100.0), (0.0, 0.0)], 0.0),
        ("low", [(0.0, 0.0), (100.0, 0.0)], 0.0),
    ]
    mid = quarter[len(quarter) // 2]
    lines = lines_of(*edges, drawn="cutting", points={"mid": mid})
    assert lines.points_mm["mid"] == pytest.approx((mid[0] * 0.9, mid[1] * 0.9), abs=0.1)


def test_points_on_a_stitching_line_stay() -> None:
    lines = lines_of(*box(30, 10, 8, 20), points={"corner": (200.0, 0.0), "notch": (70.0, 0.0)})
    assert lines.points_mm == {"corner": (200, 0), "notch": (70, 0)}


def test_the_outline_is_split_at_the_edges_starts() -> None:
    shape = outline(
        [(0, 0), (50, 0), (100, 0), (100, 80), (0, 80)], {"a": (0, 0), "b": (100, 0), "c": (0, 80), "mid": (50, 0)}
    )
    edges = (edge("low", "a", 10.0), edge("bent", "b", 10.0), edge("left", "c", 10.0))
    drawn = split_outline(shape, edges, {"low": 10, "bent": 10, "left": 10})
    assert [e.line_mm for e in drawn.edges] == [
        ((0, 0), (50, 0), (100, 0)),
        ((100, 0), (100, 80), (0, 80)),
        ((0, 80), (0, 0)),
    ]
    with pytest.raises(MeasureError, match="not in order round the outline"):
        split_outline(shape, (edges[0], edges[2], edges[1]), {"low": 10, "bent": 10, "left": 10})
    with pytest.raises(MeasureError, match="begins at the point 'x', which is not drawn"):
        split_outline(shape, (edge("low", "x", 10.0),), {"low": 10})


@st.composite
def star_edges(draw: st.DrawFn) -> list[tuple[str, list[Point], float]]:
    """A star-shaped outline with an allowance for each edge."""
    count = draw(st.integers(3, 8))
    ring = [
        (r * cos(2 * pi * (i + j) / count), r * sin(2 * pi * (i + j) / count))
        for i in range(count)
        for r, j in [(draw(st.integers(120, 300)), draw(st.floats(-0.3, 0.3)))]
    ]
    allowances = [draw(st.sampled_from([0, 6, 8, 10, 15, 30])) for _ in ring]
    return [(str(i), [ring[i], ring[(i + 1) % count]], float(allowances[i])) for i in range(count)]


@settings(max_examples=150, deadline=None)
@given(edges=star_edges(), turned_round=st.booleans())
def test_law_the_cutting_line_encloses_the_stitching_line(
    edges: list[tuple[str, list[Point], float]], turned_round: bool
) -> None:
    edges = backwards(edges) if turned_round else edges
    drawn_ring = Polygon(ring_of([line for _, line, _ in edges]))
    out = lines_of(*edges)
    assert Polygon(out.cutting_mm).buffer(1e-4).contains(drawn_ring)
    inside = lines_of(*edges, drawn="cutting")
    assert drawn_ring.buffer(1e-4).contains(Polygon(inside.stitching_mm))
    for lines in (out, inside):
        for made in lines.edges:
            a, b = LineString(made.stitching_mm), LineString(made.cutting_mm)
            if a.length and b.length:
                assert a.distance(b) >= made.allowance_mm - 1e-6


@settings(max_examples=60, deadline=None)
@given(edges=star_edges())
def test_law_neighbouring_edges_share_their_corner_or_leave_a_straight_link(
    edges: list[tuple[str, list[Point], float]],
) -> None:
    lines = lines_of(*edges)
    assert ring_of([made.cutting_mm for made in lines.edges]) == lines.cutting_mm
    assert ring_of([made.stitching_mm for made in lines.edges]) == lines.stitching_mm
