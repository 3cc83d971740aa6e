"""How a line of the cutting list lies on the cloth: grain along +x, fold on y = 0, the true outline covered."""

from __future__ import annotations

from math import cos, pi, sin
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from boltside.lay.model import LayItem, LayRequest
from boltside.lay.slots import slots_of
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import cutting_outline_mm, lay_item
from boltside.measure.model import MeasureError
from boltside.measure.polyline import area_mm2
from boltside.pattern import CutEntry, Interfacing, Outline, Pattern, Point

from .handmade import arc, edge, four_edges, outline, pattern, piece, rectangle


def item_of(shape: Outline, entry: CutEntry | None = None, **more: Any) -> LayItem:
    """The lay item of a piece with 10 mm round a rectangle."""
    cut = (entry or CutEntry(cloth="outer", mode="single", count=1),)
    made = pattern(piece("front", four_edges(), shape, cut=cut, **more))
    return lay_item(made, cut_lines(made)[0], "92")


def spans(item: LayItem) -> tuple[float, float]:
    """Length along the grain and width across it, mm."""
    xs, ys = [x for x, _ in item.outline_mm], [y for _, y in item.outline_mm]
    assert min(xs) == min(ys) == 0
    return max(xs), max(ys)


def test_without_a_grain_line_the_drawing_stands_upright() -> None:
    item = item_of(rectangle(200, 400))
    assert spans(item) == (420, 220)
    assert (item.item_id, item.mode, item.count, item.face) == ("front.outer", "single", 1, "up")


@pytest.mark.parametrize(
    ("grain", "line", "expected"),
    [
        ("lengthwise", ((50, 50), (50, 300)), (420, 220)),
        ("lengthwise", ((50, 50), (150, 50)), (220, 420)),
        ("crosswise", ((50, 50), (50, 300)), (220, 420)),
        ("crosswise", ((50, 50), (150, 50)), (420, 220)),
        ("bias", ((50, 50), (50, 300)), (640 / 2**0.5, 640 / 2**0.5)),
        ("lengthwise", ((50, 50), (150, 150)), (640 / 2**0.5, 640 / 2**0.5)),
    ],
)
def test_the_grain_runs_along_the_cloth(grain: str, line: tuple[Point, Point], expected: tuple[float, float]) -> None:
    item = item_of(rectangle(200, 400, lines={"grain": line}), grain=grain)
    assert spans(item) == pytest.approx(expected, abs=0.01)


def test_the_grain_line_points_forwards() -> None:
    """A triangle with its tip up: the tip lies ahead, or behind when the grain line points down."""
    tip = outline([(0, 0), (200, 0), (100, 300)], {"a": (0, 0), "b": (200, 0), "c": (100, 300)})
    edges = (edge("low", "a", 0.0), edge("right", "b", 0.0), edge("left", "c", 0.0))
    up = pattern(piece("p", edges, tip))
    down = pattern(piece("p", edges, outline(tip.outline_mm, tip.points_mm, {"grain": ((9, 99), (9, 9))})))
    ahead = lay_item(up, cut_lines(up)[0], "92").outline_mm
    behind = lay_item(down, cut_lines(down)[0], "92").outline_mm
    assert sorted(ahead) == [(0, 0), (0, 200), (300, 100)]
    assert sorted(behind) == [(0, 100), (300, 0), (300, 200)]


def test_nothing_is_turned_over() -> None:
    """A corner cut off at the top right stays, seen along the grain, on the right."""
    ring = [(0.0, 0.0), (200.0, 0.0), (200.0, 300.0), (100.0, 400.0), (0.0, 400.0)]
    shape = outline(ring, {"a": ring[0], "b": ring[1], "c": ring[3], "d": ring[4]})
    made = pattern(piece("p", four_edges(0, 0, 0, 0), shape))
    item = lay_item(made, cut_lines(made)[0], "92")
    # Up the drawing is +x; right in the drawing is then −y, so the cut corner lies at the far end, low.
    assert sorted(item.outline_mm) == [(0, 0), (0, 200), (300, 0), (400, 100), (400, 200)]


def test_on_the_bias_a_piece_lies_an_eighth_of_a_turn_over() -> None:
    """Worked out on paper: a right-angled triangle with legs of 100 mm, its grain line straight up.

    An eighth of a turn lays the right angle behind and the long side, 141.4 mm, straight across the cloth.
    """
    ring = [(0.0, 0.0), (100.0, 0.0), (0.0, 100.0)]
    edges = (edge("low", "a", 0.0), edge("long", "b", 0.0), edge("left", "c", 0.0))
    made = pattern(piece("p", edges, outline(ring, dict(zip("abc", ring, strict=True))), grain="bias"))
    item = lay_item(made, cut_lines(made)[0], "92")
    side = 100 / 2**0.5
    wanted = [(0, side), (side, 0), (side, 2 * side)]
    assert [one for point in sorted(item.outline_mm) for one in point] == pytest.approx(
        [one for point in wanted for one in point], abs=0.01
    )


@pytest.mark.parametrize("mode", ["pair", "single"])
@pytest.mark.parametrize("grain", ["crosswise", "bias"])
def test_off_the_grain_nap_bans_turning_and_only_a_pair_is_mirrored(mode: str, grain: str) -> None:
    """Common practice (trade.md): with nap no piece is turned; no piece is turned over but a pair's mirrored copy."""
    ring = [(0.0, 0.0), (200.0, 0.0), (0.0, 100.0)]
    edges = (edge("low", "a", 0.0), edge("long", "b", 0.0), edge("left", "c", 0.0))
    cut = (CutEntry(cloth="outer", mode=mode, count=2),)  # type: ignore[arg-type]
    made = pattern(piece("p", edges, outline(ring, dict(zip("abc", ring, strict=True))), grain=grain, cut=cut))
    item = lay_item(made, cut_lines(made)[0], "92")
    for way in ("flat", "folded"):
        for one_way in (True, False):
            slots = slots_of(LayRequest(items=(item,), bolt_width_mm=1400, way=way, one_way=one_way))  # type: ignore[arg-type]
            turned = {pose.turned for slot in slots for pose in slot.poses}
            assert turned == ({False} if one_way else {False, True})
            mirrored = {pose.mirrored for slot in slots for pose in slot.poses}
            assert mirrored == ({False} if mode == "single" else {False, True})
            # From folded cloth a pair comes at once; two equal copies that are not their own mirror image do not.
            assert len(slots) == (1 if (mode, way) == ("pair", "folded") else 2)


@pytest.mark.parametrize("fold_edge", ["left", "right"])
def test_a_half_has_its_fold_on_the_axis(fold_edge: str) -> None:
    item = item_of(rectangle(200, 400), CutEntry(cloth="outer", mode="fold", count=1, fold_edge=fold_edge))
    assert item.mode == "fold"
    assert spans(item) == (420, 210)
    assert sum(1 for _, y in item.outline_mm if y == 0.0) == 2


def test_a_half_keeps_the_way_its_grain_points() -> None:
    """Whichever edge is folded, the wide hem (at the drawing's foot) stays behind."""
    ring = [(0.0, 0.0), (200.0, 0.0), (150.0, 400.0), (0.0, 400.0)]
    left = outline(ring, dict(zip("abcd", ring, strict=True)))
    mirrored = [(-x, y) for x, y in (ring[1], ring[0], ring[3], ring[2])]
    right = outline(mirrored, dict(zip("abcd", mirrored, strict=True)))
    for shape, fold_edge in ((left, "left"), (right, "right")):
        made = pattern(
            piece(
                "p",
                four_edges(0, 0, 0, 0),
                shape,
                cut=(CutEntry(cloth="outer", mode="fold", count=1, fold_edge=fold_edge),),
            )
        )
        assert sorted(lay_item(made, cut_lines(made)[0], "92").outline_mm) == [(0, 0), (0, 200), (400, 0), (400, 150)]


def test_a_fold_across_the_grain_is_unfolded() -> None:
    item = item_of(rectangle(200, 400), CutEntry(cloth="outer", mode="fold", count=3, fold_edge="bottom"))
    assert (item.mode, item.count) == ("single", 3)
    assert spans(item) == pytest.approx((2 * 410, 220), abs=0.01)
    bias = item_of(rectangle(200, 400), CutEntry(cloth="outer", mode="fold", count=1, fold_edge="left"), grain="bias")
    assert bias.mode == "single"
    assert area_mm2(bias.outline_mm) == pytest.approx(420 * 420, abs=1)


def test_interfacing_lies_like_its_piece() -> None:
    fold = CutEntry(cloth="outer", mode="fold", count=1, fold_edge="left")
    made = pattern(
        piece(
            "front",
            four_edges(),
            rectangle(200, 400, areas={"top": ((-50, 350), (300, 350), (300, 500), (-50, 500))}),
            cut=(fold,),
            interfacing=(Interfacing(cloth="interfacing", area="top", to="cutting"),),
        )
    )
    _, line = cut_lines(made)
    item = lay_item(made, line, "92")
    assert (item.mode, item.count) == ("fold", 1)
    assert spans(item) == pytest.approx((60, 210))


def test_a_size_without_the_line_is_said() -> None:
    made = pattern(piece("front", four_edges(), rectangle(200, 400)))
    with pytest.raises(MeasureError, match=r"size 98 has no 'front.outer'"):
        lay_item(made, cut_lines(made)[0], "98")


def round_piece(radius_mm: float, fold: bool) -> Pattern:
    """A quarter circle with 8 mm at its rim."""
    rim = arc((0.0, 0.0), radius_mm, 0.0, pi / 2)
    shape = outline([*rim, (0.0, 0.0)], {"rim": rim[0], "top": rim[-1], "centre": (0.0, 0.0)})
    entry = CutEntry(cloth="outer", mode="fold", count=1, fold_edge="left") if fold else None
    return pattern(
        piece(
            "quarter",
            (edge("arc", "rim", 8.0), edge("left", "top", 0.0), edge("low", "centre", 10.0)),
            shape,
            cut=(entry or CutEntry(cloth="outer", mode="pair", count=2),),
        )
    )


@settings(max_examples=40, deadline=None)
@given(radius_mm=st.floats(60, 900), fold=st.booleans())
def test_law_the_laid_outline_covers_the_cutting_outline_and_little_more(radius_mm: float, fold: bool) -> None:
    made = round_piece(radius_mm, fold)
    (line,) = cut_lines(made)
    true = Polygon(cutting_outline_mm(made, line, "92"))
    item = lay_item(made, line, "92")
    laid = Polygon(item.outline_mm)
    # Upright drawings are turned by −90°: (x, y) goes to (y, −x); a half is then turned over into y > 0.
    turned = Polygon([(y, x if fold else -x) for x, y in true.exterior.coords])
    x0, y0 = turned.bounds[:2]
    turned = Polygon([(x - x0, y - y0) for x, y in turned.exterior.coords])
    x0, y0 = laid.bounds[0] - turned.bounds[0], laid.bounds[1] - turned.bounds[1]
    assert laid.buffer(0.05).contains(turned)
    assert turned.buffer(0.1).contains(laid)
    assert laid.area >= true.area - 0.002 * true.length
    assert laid.area <= true.area + 0.05 * true.length
    assert len(item.outline_mm) <= len(true.exterior.coords)


def test_a_whole_turn_comes_back() -> None:
    """Grain lines all round the clock give the same shape, turned."""
    for step in range(12):
        way = (cos(step * pi / 6), sin(step * pi / 6))
        item = item_of(rectangle(200, 400, lines={"grain": ((0.0, 0.0), way)}))
        assert area_mm2(item.outline_mm) == pytest.approx(220 * 420, abs=2)
