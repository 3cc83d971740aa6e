"""Measuring against closed forms and against a second library: nothing here comes from the program's own output."""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, radians, sin, tan
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from measure.handmade import arc
from shapely import Polygon

from boltside.measure.drawn import DrawnEdge, DrawnPiece
from boltside.measure.garment import make_garment
from boltside.measure.lines import both_lines
from boltside.measure.model import PieceLines
from boltside.measure.polyline import area_mm2, length_mm, signed_area_mm2
from boltside.pattern import DrawnLine, Pattern, Point
from boltside.read.folder import read_pattern

pytestmark = pytest.mark.outside

DATA = Path(__file__).parents[1] / "data"
INCH_MM = 25.4
"""Source: the international inch, exact."""

FLATTENED = 0.0006
"""A curve flattened to 0.1 mm is shorter by at most this share down to a radius of 60 mm: (chord angle)²/24,
chord angle = √(8 · 0.1/60). Source: series of the sine."""


def lines_of(*edges: tuple[str, list[Point], float], drawn: DrawnLine, fold: str | None = None) -> PieceLines:
    """Both lines of a piece given by its edges."""
    made = tuple(DrawnEdge(name=name, line_mm=tuple(line), allowance_mm=mm) for name, line, mm in edges)
    return both_lines(DrawnPiece(edges=made, points_mm={}, lines_mm={}, areas_mm={}), drawn, fold)


def sector(inner_mm: float, outer_mm: float, turn_rad: float, waist_mm: float, hem_mm: float) -> list[Any]:
    """A piece of a circle skirt: waist, side, hem, centre; straight edges without allowance."""
    waist = arc((0.0, 0.0), inner_mm, 0.0, turn_rad)
    hem = arc((0.0, 0.0), outer_mm, turn_rad, 0.0)
    return [
        ("waist", waist, waist_mm),
        ("side", [waist[-1], hem[0]], 0.0),
        ("hem", hem, hem_mm),
        ("centre", [hem[-1], waist[0]], 0.0),
    ]


@pytest.mark.parametrize(
    ("pieces", "turn_rad", "radius_in"),
    # r = girth ÷ angle, girth 26 in: full 4.14, half 8.28, quarter 16.55 in. Source: geometry; also published tables.
    [(4, pi / 2, 4.14), (2, pi / 2, 8.28), (1, pi / 2, 16.55)],
    ids=["full", "half", "quarter"],
)
def test_circle_skirt_of_26_inches(pieces: int, turn_rad: float, radius_in: float) -> None:
    radius_mm = radius_in * INCH_MM
    made = lines_of(*sector(radius_mm, radius_mm + 300, turn_rad, 10, 8), drawn="stitching")
    waist, side, hem, _ = made.edges
    # The radius is rounded to 0.005 in, so the girth to that times the angle.
    assert pieces * waist.length_mm == pytest.approx(26 * INCH_MM, abs=0.005 * INCH_MM * 2 * pi + 0.2)
    assert side.length_mm == pytest.approx(300)
    # The waist's allowance is subtracted from the radius that is cut, the hem's added.
    assert waist.cutting_length_mm == pytest.approx((radius_mm - 10) * turn_rad, rel=FLATTENED)
    assert hem.cutting_length_mm == pytest.approx((radius_mm + 308) * turn_rad, rel=FLATTENED)
    ring_mm2 = turn_rad / 2 * ((radius_mm + 308) ** 2 - (radius_mm - 10) ** 2)
    assert area_mm2(made.cutting_mm) == pytest.approx(ring_mm2, rel=2 * FLATTENED)


@pytest.mark.parametrize("drawn", ["stitching", "cutting"])
def test_a_neck_cut_with_8_mm_is_50_mm_shorter_than_its_seam(drawn: DrawnLine) -> None:
    """2π · 8 = 50.3 mm all round, whatever the radius. Source: geometry."""
    for radius_mm in (60.0, 75.0):
        half = sector(radius_mm, 200, pi, 8, 0)
        made = lines_of(*half, drawn=drawn)
        all_round_mm = 2 * (made.edges[0].length_mm - made.edges[0].cutting_length_mm)
        assert all_round_mm == pytest.approx(2 * pi * 8, abs=0.3)


@pytest.mark.parametrize("drawn", ["stitching", "cutting"])
@pytest.mark.parametrize("hollow", [True, False], ids=["hollow", "round"])
@pytest.mark.parametrize("backwards", [True, False])
@settings(max_examples=25, deadline=None)
@given(
    radius_mm=st.floats(60, 800), allowance_mm=st.sampled_from([6.0, 8.0, 10.0, 15.0]), turn_deg=st.integers(20, 180)
)
def test_law_an_arc_stays_an_arc(
    drawn: DrawnLine, hollow: bool, backwards: bool, radius_mm: float, allowance_mm: float, turn_deg: int
) -> None:
    """The other line of an arc of radius r is one of r ± a over the same angle.

    Tolerance: an arc drawn with chords that leave it by 0.1 mm is too short by 0.1/3 · angle; the mitres of the moved
    chords add at most 2a/r of that. Source: series of sine and tangent.
    """
    turn = radians(turn_deg)
    inner, outer = (radius_mm, radius_mm + 200) if hollow else (radius_mm - 40, radius_mm)
    edges = sector(inner, outer, turn, allowance_mm if hollow else 0, 0 if hollow else allowance_mm)
    if backwards:
        edges = [(name, line[::-1], mm) for name, line, mm in reversed(edges)]
    made = next(e for e in lines_of(*edges, drawn=drawn).edges if e.name == ("waist" if hollow else "hem"))
    outwards = (-1 if hollow else 1) * (1 if drawn == "stitching" else -1)
    derived = made.cutting_length_mm if drawn == "stitching" else made.length_mm
    given_mm = made.length_mm if drawn == "stitching" else made.cutting_length_mm
    flat_mm = 0.1 / 3 * turn * (1 + 2 * allowance_mm / radius_mm) + 1e-3
    assert given_mm == pytest.approx(radius_mm * turn, abs=flat_mm)
    assert derived == pytest.approx((radius_mm + outwards * allowance_mm) * turn, abs=flat_mm)


@st.composite
def convex_corners(draw: st.DrawFn) -> list[Point]:
    """A convex outline: points on a circle, none of its corners sharper than 40 degrees."""
    count = draw(st.integers(3, 9))
    angles = sorted(draw(st.lists(st.integers(0, 359), min_size=count, max_size=count, unique=True)))
    gaps = [(b - a) % 360 for a, b in pairwise([*angles, angles[0] + 360])]
    # A corner on the circle sees the other gaps under half their sum.
    assume(all(4 <= gap <= 280 for gap in gaps))
    assume(all((360 - a - b) / 2 >= 40 for a, b in pairwise([*gaps, gaps[0]])))
    return [(300 * cos(radians(a)), 300 * sin(radians(a))) for a in angles]


def one_edge_each(ring: list[Point], allowance_mm: float) -> list[tuple[str, list[Point], float]]:
    return [(str(i), [a, b], allowance_mm) for i, (a, b) in enumerate(pairwise([*ring, ring[0]]))]


@settings(max_examples=120, deadline=None)
@given(ring=convex_corners(), allowance_mm=st.integers(1, 30))
def test_law_area_and_length_of_a_convex_outline_with_allowance(ring: list[Point], allowance_mm: int) -> None:
    """Area + length · a + a² · Σ tan(turn ÷ 2), and length + 2a · Σ tan(turn ÷ 2). Source: geometry of mitres."""
    made = lines_of(*one_edge_each(ring, allowance_mm), drawn="stitching")
    turns = 0.0
    for (x0, y0), (x1, y1), (x2, y2) in zip([ring[-1], *ring[:-1]], ring, [*ring[1:], ring[0]], strict=True):
        ax, ay, bx, by = x1 - x0, y1 - y0, x2 - x1, y2 - y1
        cosine = (ax * bx + ay * by) / ((ax * ax + ay * ay) * (bx * bx + by * by)) ** 0.5
        turns += ((1 - cosine) / (1 + cosine)) ** 0.5  # tan of half the turn
    around = length_mm([*ring, ring[0]])
    assert length_mm([*made.cutting_mm, made.cutting_mm[0]]) == pytest.approx(around + 2 * allowance_mm * turns)
    assert area_mm2(made.cutting_mm) == pytest.approx(
        signed_area_mm2(ring) + around * allowance_mm + allowance_mm**2 * turns
    )


@settings(max_examples=120, deadline=None)
@given(
    radii=st.lists(st.integers(150, 300), min_size=4, max_size=10),
    allowance_mm=st.sampled_from([6, 10, 15]),
    drawn=st.sampled_from(["stitching", "cutting"]),
)
def test_law_one_allowance_all_round_is_what_shapely_makes(
    radii: list[int], allowance_mm: int, drawn: DrawnLine
) -> None:
    """Star-shaped outlines, hollow and pointed corners; shapely's mitred buffer is the second library."""
    ring = [(r * cos(2 * pi * i / len(radii)), r * sin(2 * pi * i / len(radii))) for i, r in enumerate(radii)]
    other = Polygon(ring).buffer(
        allowance_mm if drawn == "stitching" else -allowance_mm, join_style="mitre", mitre_limit=100
    )
    made = lines_of(*one_edge_each(ring, allowance_mm), drawn=drawn)
    own = Polygon(made.cutting_mm if drawn == "stitching" else made.stitching_mm)
    assert own.symmetric_difference(other).area < 0.5


@settings(max_examples=60, deadline=None)
@given(
    width=st.integers(60, 600),
    height=st.integers(60, 600),
    allowances=st.tuples(*[st.sampled_from([0, 6, 8, 10, 25, 30])] * 4),
)
def test_law_a_rectangle_grows_by_its_own_allowances(
    width: int, height: int, allowances: tuple[int, int, int, int]
) -> None:
    bottom, right, top, left = allowances
    ring = [(0.0, 0.0), (float(width), 0.0), (float(width), float(height)), (0.0, float(height))]
    edges = [(name, line, float(a)) for (name, line, _), a in zip(one_edge_each(ring, 0), allowances, strict=True)]
    made = lines_of(*edges, drawn="stitching")
    assert area_mm2(made.cutting_mm) == pytest.approx((width + left + right) * (height + top + bottom))


def test_tangent_of_half_a_turn() -> None:
    """The formula used above for tan(turn ÷ 2), against the tangent itself."""
    for turn in (0.1, 0.7, 1.5, 2.2):
        assert ((1 - cos(turn)) / (1 + cos(turn))) ** 0.5 == pytest.approx(tan(turn / 2))


def demo(name: str) -> Pattern:
    return read_pattern(DATA / "patterns" / name, DATA / "body_charts")


def test_millrace_is_the_circle_it_says() -> None:
    """Half and full circle: waist = hip + ease, radius = waist ÷ angle, hem and area by the same radius.

    `panel-half` is a quarter of the half circle, `panel-full` one of the full circle; both are cut twice on the fold.
    """
    pattern = demo("millrace")
    for size in pattern.sizes:
        for fullness, all_round in (("half", pi), ("full", 2 * pi)):
            panel = make_garment(pattern, size, {"fullness": fullness}).pieces[f"panel-{fullness}"]
            turn = all_round / 4
            waist, hem = panel.edge("waist"), panel.edge("hem")
            radius_mm = waist.length_mm / turn
            hip_mm = pattern.body_chart.rows[size]["hip"]
            # A waist that is pulled on passes the hip with 20 mm to spare. Source: geometry / common practice.
            assert 4 * waist.length_mm >= hip_mm + 20 - 0.5
            # The side is straight: from the waist's to the hem's radius on the stitching line.
            length = panel.edge("centre").length_mm
            assert hem.length_mm == pytest.approx((radius_mm + length) * turn, rel=FLATTENED)
            # The waist's allowance is subtracted from the radius that is cut, the hem's added to it; both run on to the
            # side's cutting line.
            cut_waist_mm, cut_hem_mm = radius_mm - waist.allowance_mm, radius_mm + length + hem.allowance_mm
            side_mm = panel.edge("side").allowance_mm
            assert waist.cutting_length_mm == pytest.approx(cut_waist_mm * turn + side_mm, abs=0.5)
            assert hem.cutting_length_mm == pytest.approx(cut_hem_mm * turn + side_mm, abs=0.5)
            ring_mm2 = turn / 2 * (cut_hem_mm**2 - cut_waist_mm**2)
            # The side's allowance is a strip along the radius.
            strip_mm2 = side_mm * (cut_hem_mm - cut_waist_mm)
            assert area_mm2(panel.cutting_mm) == pytest.approx(ring_mm2 + strip_mm2, rel=0.001)
