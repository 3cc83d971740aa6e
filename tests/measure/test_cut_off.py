"""What is left of a drawn piece after a cut along an interior line."""

from __future__ import annotations

import pytest
from shapely import Polygon

from boltside.measure.cut_off import clipped_area, clipped_line, cut_off
from boltside.measure.drawn import DrawnPiece, split_outline
from boltside.measure.model import MeasureError
from boltside.measure.polyline import area_mm2, ring_of
from boltside.pattern import Case, CutOff, Point, Polyline

from .handmade import four_edges, rectangle


def drawn(line: Polyline, **points: Point) -> DrawnPiece:
    """A rectangle 200 by 400 mm with the line `waist`, an area along the left edge, and a line up the middle."""
    shape = rectangle(
        200,
        400,
        points=points,
        lines={"waist": line, "middle": ((100.0, 0.0), (100.0, 400.0)), "low": ((10.0, 50.0), (190.0, 50.0))},
        areas={"strip": ((0, 0), (30, 0), (30, 400), (0, 400)), "patch": ((50, 20), (90, 20), (90, 60), (50, 60))},
    )
    return split_outline(shape, four_edges(), {"bottom": 30, "right": 10, "top": 8, "left": 0})


def how(keep: str = "c", line: str = "waist", edge: str = "waist") -> CutOff:
    return CutOff(line=line, keep=keep, edge=edge, allowance_mm=(Case(mm=12),))


def test_the_kept_side_keeps_its_edges_and_gets_a_new_one() -> None:
    left = cut_off(drawn(((0.0, 150.0), (200.0, 150.0)), notch=(200.0, 300.0), gone=(200.0, 40.0)), how(), 12)
    assert [(e.name, e.allowance_mm, e.line_mm) for e in left.edges] == [
        ("right", 10, ((200, 150), (200, 400))),
        ("top", 8, ((200, 400), (0, 400))),
        ("left", 0, ((0, 400), (0, 150))),
        ("waist", 12, ((0, 150), (200, 150))),
    ]
    assert set(left.points_mm) == {"c", "d", "notch"}
    assert left.lines_mm == {"middle": ((100, 150), (100, 400))}
    # Areas end at the line to be found later; only those wholly cut away are gone.
    assert set(left.areas_mm) == {"strip"}


def test_the_other_side_is_kept_when_its_point_is_named() -> None:
    left = cut_off(drawn(((0.0, 150.0), (200.0, 150.0))), how(keep="a"), 12)
    assert [e.name for e in left.edges] == ["bottom", "right", "waist", "left"]
    assert area_mm2(ring_of([e.line_mm for e in left.edges])) == 200 * 150
    assert set(left.areas_mm) == {"strip", "patch"}


@pytest.mark.parametrize("inset", [-5.0, -1.0, 0.0, 1.5, 1.99])
def test_a_line_that_ends_near_the_outline_is_run_on_to_it(inset: float) -> None:
    left = cut_off(drawn(((inset, 150.0), (100.0, 150.0), (200.0 - inset, 150.0))), how(), 12)
    ring = ring_of([e.line_mm for e in left.edges])
    assert [p for p in ring if p[0] in (0, 200)] == [(200, 150), (200, 400), (0, 400), (0, 150)]
    assert area_mm2(ring) == 200 * 250


def test_a_line_that_ends_too_far_inside_is_refused() -> None:
    with pytest.raises(MeasureError, match="each end must come within 2 mm"):
        cut_off(drawn(((10.0, 150.0), (200.0, 150.0))), how(), 12)


def test_a_slanting_line_may_end_on_a_corner() -> None:
    left = cut_off(drawn(((0.0, 0.0), (200.0, 150.0))), how(), 12)
    assert [e.name for e in left.edges] == ["right", "top", "left", "waist"]
    assert area_mm2(ring_of([e.line_mm for e in left.edges])) == pytest.approx(200 * 400 - 200 * 150 / 2)


def test_a_line_that_is_already_gone_cuts_nothing() -> None:
    once = cut_off(drawn(((0.0, 150.0), (200.0, 150.0))), how(), 12)
    assert cut_off(once, how(line="low", edge="lower"), 5) is once


def test_two_cuts_one_after_the_other() -> None:
    once = cut_off(drawn(((0.0, 150.0), (200.0, 150.0))), how(), 12)
    twice = cut_off(once, how(line="middle", keep="c", edge="split"), 5)
    assert {e.name for e in twice.edges} == {"right", "top", "split", "waist"}
    assert area_mm2(ring_of([e.line_mm for e in twice.edges])) == 100 * 250


def test_an_edge_left_in_two_parts_is_refused() -> None:
    """A notch cut out of the right edge would leave it above and below."""
    notch: Polyline = ((200.0, 100.0), (150.0, 150.0), (200.0, 200.0))
    with pytest.raises(MeasureError, match="would leave the edge 'right' in two parts"):
        cut_off(drawn(notch), how(keep="d"), 12)
    corner = cut_off(drawn(notch, tip=(199.0, 150.0)), how(keep="tip"), 12)
    assert [e.name for e in corner.edges] == ["right", "waist"]


def test_an_area_may_fall_into_parts() -> None:
    roof = Polygon([(0, 40), (150, 90), (300, 40), (300, 100), (0, 100)])
    parts = clipped_area(((0, 50), (300, 50), (300, 80), (0, 80)), roof)
    # Either side: 30 mm of the full height of 30 mm, then a triangle of 90 by 30 mm.
    assert [area_mm2(part) for part in parts] == pytest.approx([2250, 2250])


def test_a_clipped_line_keeps_its_direction() -> None:
    inside = Polygon([(0, 0), (10, 0), (10, 10), (0, 10)])
    assert clipped_line(((5, 20), (5, -20)), inside) == ((5, 10), (5, 0))
    assert clipped_line(((5, -20), (5, 20)), inside) == ((5, 0), (5, 10))
    assert clipped_line(((50, 0), (60, 0)), inside) is None
