"""Millrace against the closed formulas of a circle skirt, and the curves of the drafts against geometry."""

from __future__ import annotations

import math
import sys

import pytest
import svgelements  # type: ignore[import-untyped]
from drawn_pieces import DATA, MILLRACE_SIZES, Piece, bodies, drawn, points_of, polygon

sys.path.insert(0, str(DATA / "drafting"))

from thistle_quay import curves, millrace


@pytest.mark.outside
@pytest.mark.parametrize(("turns", "radius_in"), [(1, 4.14), (1 / 2, 8.28), (1 / 4, 16.55)])
def test_radius_of_a_circle_skirt_as_in_the_worked_example(turns: float, radius_in: float) -> None:
    """Waist of 26 in: full 4.14, half 8.28, quarter 16.55 in (geometry, and a published worked example)."""
    assert millrace.radius_mm(26 * 25.4, turns * 2 * math.pi) / 25.4 == pytest.approx(radius_in, abs=0.005)


@pytest.mark.outside
@pytest.mark.parametrize("size", MILLRACE_SIZES)
@pytest.mark.parametrize(("piece", "turns"), [("panel-full", 1), ("panel-half", 1 / 2)])
def test_panels_equal_the_closed_formula(piece: str, turns: float, size: str) -> None:
    """Geometry: a ring's sector between the cutting radii, and the strip of side allowance beside its radius.

    Stitching radius r = girth ÷ angle; waist and hem allowance 8, side 10. With
    A(q) = (q² asin(a/q) + a √(q² − a²)) / 2
    the strip between a radius and its parallel at a, within radius q, has the area A(q).
    """
    one, body = drawn("millrace")[piece, size], bodies()[size]
    centre = one.points["waist-fold"] - 1j * abs(one.points["waist-fold"] - _circle_centre(one))
    waist_cut_mm, hem_cut_mm = (abs(one.points[name] - centre) for name in ("waist-fold", "hem-fold"))
    for segment in one.segments:
        if isinstance(segment, svgelements.CubicBezier):
            radii = [abs(point - centre) for point in points_of(segment, 20)]
            assert max(radii) - min(radii) < 0.05
    girth_mm = (waist_cut_mm + 8) * turns * 2 * math.pi
    assert girth_mm == pytest.approx(int(body["hip_mm"]) + 30, abs=0.2)
    assert girth_mm >= int(body["hip_mm"]) + 20, "a woven pull-on passes the hip with 20 mm to spare"
    angle_rad = turns * math.pi / 2
    allowance_mm = 10

    def strip_mm2(radius_mm: float) -> float:
        root = math.sqrt(radius_mm**2 - allowance_mm**2)
        return (radius_mm**2 * math.asin(allowance_mm / radius_mm) + allowance_mm * root) / 2

    expected_mm2 = angle_rad / 2 * (hem_cut_mm**2 - waist_cut_mm**2) + strip_mm2(hem_cut_mm) - strip_mm2(waist_cut_mm)
    assert polygon(one.segments).area == pytest.approx(expected_mm2, rel=1e-3)


def _circle_centre(one: Piece) -> complex:
    """Centre of the panel's circles: on the fold, where the waist arc is equally far from both its ends."""
    a, b = one.points["waist-fold"], one.points["waist-side"]
    half_chord = (b - a) / 2
    up = -1j
    distance = abs(half_chord) ** 2 / (half_chord.real * up.real + half_chord.imag * up.imag)
    return a + up * distance


@pytest.mark.parametrize("size", MILLRACE_SIZES)
def test_panels_fit_the_narrowest_cloth_folded_once(size: str) -> None:
    """110 cm less 15 mm of selvedge a side, folded: no piece may be wider, across the grain, than half of that."""
    for piece in ("panel-full", "panel-half", "band"):
        box = polygon(drawn("millrace")[piece, size].segments).bounds
        assert box[2] - box[0] <= (1100 - 2 * 15) / 2


@pytest.mark.outside  # a casing is the elastic and 6 mm more: sewing guideline 12.150
@pytest.mark.parametrize("size", MILLRACE_SIZES)
def test_band_fits_the_waist_and_the_elastic(size: str) -> None:
    """On the stitching lines: band half = half the girth; folded height = elastic 20 + 6 (casing rule, 12.150)."""
    points = drawn("millrace")["band", size].points
    girth_mm = int(bodies()[size]["hip_mm"]) + 30
    assert abs(points["outer-end"] - points["outer-fold"]) - 8 == pytest.approx(girth_mm / 2, abs=0.02)
    assert (abs(points["inner-fold"] - points["outer-fold"]) - 2 * 8) / 2 == pytest.approx(26, abs=0.02)


@pytest.mark.outside
def test_lengths_and_arcs_agree_with_geometry() -> None:
    """A full circle of radius 100 is 200 π long; a straight cubic is as long as the line; splitting loses nothing."""
    circle = curves.arc(0j, 100, 0, 2 * math.pi, 8)
    assert curves.chain_length_mm(circle) == pytest.approx(200 * math.pi, rel=1e-5)
    assert curves.chain_length_mm(curves.line(0j, 3 + 4j)) == pytest.approx(5)
    before, after = curves.split_at_length(circle, 123.0)
    assert curves.chain_length_mm(before) == pytest.approx(123)
    assert curves.chain_length_mm(before) + curves.chain_length_mm(after) == pytest.approx(
        curves.chain_length_mm(circle)
    )
    assert abs(before[-1].end) == pytest.approx(100, abs=0.001)


def test_a_bow_whose_tangents_do_not_meet_is_refused() -> None:
    with pytest.raises(ValueError, match="do not meet"):
        curves.bow(0j, 1 + 0j, 0.5, 10 + 10j, 1 + 0j, 0.5)
