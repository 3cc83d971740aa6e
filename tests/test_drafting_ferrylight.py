"""Ferrylight's collars and armhole facings, read back from the drawn `pieces.svg`."""

from __future__ import annotations

import cmath
import math
from itertools import pairwise

import pytest
import shapely
import shapely.affinity
from drawn_pieces import (
    FERRYLIGHT_SIZES,
    Piece,
    bends,
    bodies,
    directions,
    drawn,
    edge_mm,
    end_of,
    length_mm,
    points_of,
    polygon,
    start_of,
)

COLLARS = ["flat-collar", "flat-under-collar", "stand-collar", "stand-collar-inside"]
FLAT = ["flat-collar", "flat-under-collar"]
TRUE_MM = 0.1


def piece(name: str, size: str) -> Piece:
    """A piece of Ferrylight in one size."""
    return drawn("ferrylight")[name, size]


def ring(one: Piece, start: str, stop: str) -> shapely.LineString:
    """A stretch of the outline as short chords."""
    return shapely.LineString([(p.real, p.imag) for s in one.stretch(start, stop) for p in points_of(s, 40)])


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
@pytest.mark.parametrize("collar", COLLARS)
def test_collar_fits_the_neck_up_to_centre_front_and_shoulder_meets_shoulder(collar: str, size: str) -> None:
    """At the stitching line, half the back's neck and one front's, without the overlap."""
    back_mm = edge_mm("ferrylight", "back.neck", size)
    front_mm = edge_mm("ferrylight", "front.neck-shoulder>neck-centre", size)
    one = piece(collar, size)
    assert length_mm(one.stretch("neck-centre", "neck-shoulder")) == pytest.approx(back_mm, abs=TRUE_MM)
    assert length_mm(one.stretch("neck-shoulder", "neck-front")) == pytest.approx(front_mm, abs=TRUE_MM)


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
@pytest.mark.parametrize("collar", COLLARS)
def test_collar_stands_square_to_the_neck_at_both_ends(collar: str, size: str) -> None:
    """So both halves make one smooth line at the neck, and it lies square on centre front."""
    one = piece(collar, size)
    assert one.angle_deg("neck-centre") == pytest.approx(90, abs=1)
    assert one.angle_deg("neck-front") == pytest.approx(90, abs=1)


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
@pytest.mark.parametrize("collar", FLAT)
def test_flat_collar_is_equally_wide_between_its_round_ends(collar: str, size: str) -> None:
    one = piece(collar, size)
    neck, outer = ring(one, "neck-centre", "neck-front"), ring(one, "neck-front", "neck-centre")
    width_mm = abs(one.points["outer-shoulder"] - one.points["neck-shoulder"])
    for part in (0.25, 0.4, 0.55, 0.75):
        spot = outer.interpolate(part, normalized=True)
        # A quarter and three quarters of the outer edge lie where the corners have not begun to turn.
        assert neck.distance(spot) == pytest.approx(width_mm, abs=0.3), part


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_flat_collar_bends_one_way_and_has_no_kinks(size: str) -> None:
    for collar in FLAT:
        one = piece(collar, size)
        assert bends(one.stretch("neck-centre", "neck-front")) == 0
        assert bends(one.stretch("neck-front", "neck-centre")) == 0
    for collar in COLLARS:
        stretch = piece(collar, size).stretch("neck-front", "top-centre" if "stand" in collar else "neck-centre")
        for before, after in pairwise(stretch):
            turn_deg = math.degrees(cmath.phase(directions(after)[0] / directions(before)[1]))
            assert abs(turn_deg) <= 1, (collar, end_of(before), turn_deg)


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_shoulders_overlap_shortens_the_flat_collars_outer_edge(size: str) -> None:
    """Common practice: the shoulder tips of back and front overlap by 1 to 2 cm (here 8 mm to 2 cm).

    The neck's turning shows by how much: laid edge to edge the collar would turn by the angle between the neck at
    centre back and at centre front, 180 degrees less both shoulders' slopes and nothing more.
    """
    one = piece("flat-collar", size)
    back, front = piece("back", size), piece("front", size)
    neck = one.stretch("neck-centre", "neck-front")
    turned = cmath.phase(directions(neck[-1])[1] / directions(neck[0])[0])
    shoulders = [
        body.points["shoulder-tip"] - body.points["neck-shoulder"] for body in (back, front)
    ]
    # Edge to edge the front is turned until its shoulder lies on the back's; its neck then ends like this.
    to_back = shoulders[0] / shoulders[1]
    front_end = directions(front.stretch("neck-shoulder", "neck-centre")[-1])[1] * to_back / abs(to_back)
    edge_to_edge = cmath.phase(front_end / directions(neck[0])[0])
    overlap_mm = abs(shoulders[0]) * 2 * math.sin(abs(_angle(turned - edge_to_edge)) / 2)
    assert 8 <= overlap_mm <= 20, overlap_mm
    assert _angle(turned - edge_to_edge) > 0, "overlapping, not gaping: the collar's outer edge becomes shorter"


def _angle(angle_rad: float) -> float:
    """The angle between -π and π."""
    return math.remainder(angle_rad, 2 * math.pi)


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_under_collar_lies_within_the_upper_one(size: str) -> None:
    upper, under = (polygon(piece(name, size).segments) for name in FLAT)
    by = [piece(name, size).points["neck-centre"] for name in FLAT]
    under = shapely.affinity.translate(under, (by[0] - by[1]).real, (by[0] - by[1]).imag)
    assert upper.buffer(TRUE_MM).contains(under)
    outer = ring(piece("flat-collar", size), "neck-front", "neck-centre")
    for part in (0.25, 0.5, 0.75):
        assert under.distance(outer.interpolate(part, normalized=True)) == pytest.approx(1.5, abs=0.2), part


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_flat_collar_leaves_the_armhole_free(size: str) -> None:
    """It ends at least 15 mm inside the shoulder tip, so that the sleeve seam stays clear."""
    one = piece("flat-collar", size)
    width_mm = abs(one.points["outer-shoulder"] - one.points["neck-shoulder"])
    assert width_mm <= edge_mm("ferrylight", "back.shoulder", size) - 15


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_stand_collar_rises_slightly_and_leans_to_the_neck(size: str) -> None:
    one = piece("stand-collar", size)
    points = one.points
    rise_mm = points["neck-centre"].imag - points["neck-front"].imag
    neck_mm = length_mm(one.stretch("neck-centre", "neck-front"))
    assert 0.05 * neck_mm <= rise_mm <= 0.12 * neck_mm, "a slight curve"
    upper_mm = length_mm(one.lines["half-height"])
    assert 1 <= neck_mm - upper_mm <= 5, "shorter above than at the neck"
    assert bends(one.stretch("neck-centre", "neck-front")) == 0
    assert 2 * upper_mm - int(bodies()[size]["neck_mm"]) >= 20, "room for the neck, our aim"
    # The same height all along, to the corner.
    neck, top = ring(one, "neck-centre", "neck-front"), ring(one, "top-front", "top-centre")
    height_mm = abs(points["top-centre"] - points["neck-centre"])
    for part in (0, 0.5, 1):
        assert neck.distance(top.interpolate(part, normalized=True)) == pytest.approx(height_mm, abs=TRUE_MM)
    assert 20 <= height_mm <= 30


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_both_layers_of_the_stand_collar_are_alike(size: str) -> None:
    layers = [piece(name, size) for name in ("stand-collar", "stand-collar-inside")]
    shapes = [
        shapely.affinity.translate(
            polygon(one.segments), -one.points["neck-centre"].real, -one.points["neck-centre"].imag
        )
        for one in layers
    ]
    assert shapes[0].symmetric_difference(shapes[1]).area < 1


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
@pytest.mark.parametrize("side", ["front", "back"])
def test_armhole_facing_is_a_strip_of_the_body(side: str, size: str) -> None:
    """It lies within the body on the same armhole; its inner edge runs beside it, clear of the neck facing."""
    facing, body = piece(f"{side}-armhole-facing", size), piece(side, size)
    by = body.points["shoulder-tip"] - facing.points["shoulder-tip"]
    laid = shapely.affinity.translate(polygon(facing.segments), by.real, by.imag)
    assert polygon(body.segments).buffer(TRUE_MM).contains(laid)
    names = ("shoulder-tip", "underarm") if side == "back" else ("underarm", "shoulder-tip")
    armhole_mm = edge_mm("ferrylight", f"{side}.armhole", size)
    assert length_mm(facing.stretch(*names)) == pytest.approx(armhole_mm, abs=TRUE_MM)
    inner = ("side-inner", "shoulder-inner") if side == "back" else ("shoulder-inner", "side-inner")
    armhole = ring(facing, *names)
    edge = ring(facing, *inner)
    width_mm = abs(facing.points["shoulder-inner"] - facing.points["shoulder-tip"])
    for part in (0, 0.25, 0.5, 0.75, 1):
        spot = edge.interpolate(part, normalized=True)
        assert 0.95 * width_mm <= armhole.distance(spot) <= 1.1 * width_mm, part
    neck_facing = edge_mm("ferrylight", "front-facing.shoulder", size)
    seam_mm = 10  # the neck facing keeps its allowance there
    assert width_mm + neck_facing + seam_mm <= edge_mm("ferrylight", "front.shoulder", size)


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_armhole_facings_meet_smoothly(size: str) -> None:
    front, back = piece("front-armhole-facing", size), piece("back-armhole-facing", size)
    for point in ("shoulder-inner", "shoulder-tip", "underarm", "side-inner"):
        assert front.angle_deg(point) + back.angle_deg(point) == pytest.approx(180, abs=3), point
    pairs = (("shoulder-tip", "shoulder-inner"), ("underarm", "side-inner"))
    for one, other in pairs:
        lengths = [abs(part.points[one] - part.points[other]) for part in (front, back)]
        assert lengths[0] == pytest.approx(lengths[1], abs=TRUE_MM)


NEW = [*COLLARS, "front-armhole-facing", "back-armhole-facing"]


@pytest.mark.parametrize("name", NEW)
def test_law_areas_grow_smoothly_with_the_size(name: str) -> None:
    areas = [polygon(piece(name, size).segments).area for size in FERRYLIGHT_SIZES]
    steps = [large / small for small, large in pairwise(areas)]
    assert all(1.0 < step < 1.12 for step in steps), steps
    assert all(abs(a - b) < 0.02 for a, b in pairwise(steps)), steps


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
@pytest.mark.parametrize("name", NEW)
def test_grain_and_marks_lie_on_the_piece(name: str, size: str) -> None:
    one = piece(name, size)
    shape = polygon(one.segments).buffer(0.05)
    for label in one.lines:
        for segment in one.lines[label]:
            for at in (start_of(segment), end_of(segment)):
                assert shape.contains(shapely.Point(at.real, at.imag)), (label, at)
    grain = one.lines["grain"]
    assert end_of(grain[-1]).real == pytest.approx(start_of(grain[0]).real, abs=0.01), "straight up the drawing"
