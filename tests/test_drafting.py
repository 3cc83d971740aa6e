"""Trueing of the drafted garments, read back from the drawn `pieces.svg`.

Stitching lines are compared seam by seam, angles where edges meet, curves for kinks and stray bends, and grading from
size to size.
"""

from __future__ import annotations

import cmath
import math
import re
import sys
from itertools import pairwise

import pytest
import shapely
from drawn_pieces import (
    DATA,
    EVERYTHING,
    FERRYLIGHT_SIZES,
    GARMENTS,
    ROUNDING_MM,
    bends,
    bodies,
    described,
    directions,
    drawn,
    edge_mm,
    end_of,
    length_mm,
    points_of,
    polygon,
    start_of,
)

sys.path.insert(0, str(DATA / "drafting"))

import draft

FILE_BYTES_MAX = 300_000


def test_committed_drawings_are_what_the_drafts_draw() -> None:
    """Also: drawing twice gives the same bytes."""
    for garment, text in draft.draft_texts().items():
        file = DATA / "patterns" / garment / "pieces.svg"
        assert file.read_bytes() == text.encode(), f"{garment}: run python data/drafting/draft.py"
        assert len(text) <= FILE_BYTES_MAX


@pytest.mark.parametrize("garment", GARMENTS)
def test_drawing_is_true_to_scale_and_its_names_are_unique(garment: str) -> None:
    text = (DATA / "patterns" / garment / "pieces.svg").read_text(encoding="utf-8")
    width, height, *box = re.search(r'width="(\S+)mm" height="(\S+)mm" viewBox="0 0 (\S+) (\S+)"', text).groups()  # type: ignore[union-attr]
    assert [width, height] == box
    names = re.findall(r' id="([^"]+)"', text)
    assert len(names) == len(set(names))
    assert all(re.fullmatch(r"[a-z-]+\.\d+(\.outline|\.(point|line|area)\.[a-z-]+)?", name) for name in names)
    assert {(piece, size) for g, piece, size in EVERYTHING if g == garment} == set(drawn(garment))


@pytest.mark.parametrize(("garment", "piece", "size"), EVERYTHING)
def test_outline_is_simple_and_edges_begin_at_joints(garment: str, piece: str, size: str) -> None:
    one = drawn(garment)[piece, size]
    assert polygon(one.segments).is_valid
    total_mm = sum(length_mm(one.stretch(start, stop)) for _, start, stop in described(garment)[piece])
    assert total_mm == pytest.approx(length_mm(one.segments), abs=0.001)


@pytest.mark.parametrize(("garment", "piece", "size"), EVERYTHING)
def test_law_edges_have_no_kinks(garment: str, piece: str, size: str) -> None:
    """Between the corners, which are ends of edges, the outline changes direction nowhere abruptly."""
    one = drawn(garment)[piece, size]
    corners = [one.points[start] for _, start, _ in described(garment)[piece]]
    for before, after in zip(one.segments, one.segments[1:] + one.segments[:1], strict=True):
        if min(abs(end_of(before) - corner) for corner in corners) < ROUNDING_MM:
            continue
        turn_deg = math.degrees(cmath.phase(directions(after)[0] / directions(before)[1]))
        assert abs(turn_deg) <= 1, (end_of(before), turn_deg)


SEAMS = [
    # join, to, ease from, ease to (mm)
    ("back.shoulder", "front.shoulder", -0.1, 0.1),
    ("back.side", "front.side", -0.1, 0.1),
    ("back.underarm>waist-side", "front.waist-side>underarm", -0.1, 0.1),
    ("front-facing.front-edge", "front.front-edge", -0.1, 0.1),
    ("front-facing.neck", "front.neck", -0.1, 0.1),
    ("back-neck-facing.neck", "back.neck", -0.1, 0.1),
    ("front-facing.shoulder", "back-neck-facing.shoulder", -0.1, 0.1),
    ("front-facing.hem", "front.hem-front>hem-facing", -0.1, 0.1),
    ("front-armhole-facing.armhole", "front.armhole", -0.1, 0.1),
    ("back-armhole-facing.armhole", "back.armhole", -0.1, 0.1),
    ("flat-collar.outer", "flat-under-collar.outer", 5, 8),
    ("stand-collar-inside.outer", "stand-collar.outer", -0.1, 0.1),
    ("back-lining.top", "back-neck-facing.outer", -0.1, 0.1),
    ("front-lining.inner", "front-facing.lining-stop>shoulder-inner", -0.1, 0.1),
    ("back-lining.shoulder", "front-lining.shoulder", -0.1, 0.1),
    ("back-lining.side", "front-lining.side", -0.1, 0.1),
    ("back-lining.armhole", "back.armhole", -0.1, 0.1),
    ("front-lining.armhole", "front.armhole", -0.1, 0.1),
    ("back-lining.hem-side>hem-centre", "back.hem", -0.5, 0.5),
    ("front-lining.hem", "front.hem-facing>hem-side", -0.5, 0.5),
    ("sleeve.side-front", "sleeve.side-back", -0.5, 0.5),
    ("sleeve-gathered.side-front", "sleeve-gathered.side-back", -0.5, 0.5),
    ("sleeve-lining.side-front", "sleeve-lining.side-back", -0.5, 0.5),
    ("sleeve-lining.end", "sleeve.end", -1, 1),
    ("sleeve-band.end-left", "sleeve-band.end-right", -0.1, 0.1),
    ("pocket-lining.top", "pocket.top", -0.1, 0.1),
    ("pocket-lining.round", "pocket.facing-right>facing-left", -0.1, 0.1),
    # Below the notches the sleeve has no ease.
    ("sleeve.notch-front>underarm-front", "front.underarm>notch", -0.2, 0.2),
    ("sleeve.underarm-back>notch-back", "back.notch>underarm", -0.2, 0.2),
]


@pytest.mark.parametrize(("join", "to", "least_mm", "most_mm"), SEAMS)
def test_seams_fit(join: str, to: str, least_mm: float, most_mm: float) -> None:
    for size in FERRYLIGHT_SIZES:
        ease_mm = edge_mm("ferrylight", join, size) - edge_mm("ferrylight", to, size)
        assert least_mm <= ease_mm <= most_mm, (size, ease_mm)


@pytest.mark.parametrize("sleeve", ["sleeve", "sleeve-gathered", "sleeve-lining"])
@pytest.mark.parametrize(("half", "body"), [("head-front", "front"), ("head-back", "back")])
def test_sleeve_head_has_nought_to_five_percent_of_ease(sleeve: str, half: str, body: str) -> None:
    """0 to 5 % over the armhole on the stitching lines, woven children's wear (from memory)."""
    for size in FERRYLIGHT_SIZES:
        ratio = edge_mm("ferrylight", f"{sleeve}.{half}", size) / edge_mm("ferrylight", f"{body}.armhole", size)
        assert 1.0 <= ratio <= 1.05, (size, ratio)


MEETINGS = [
    # where edges meet across a seam: the two angles make this together (degrees)
    ("back.neck-shoulder", "front.neck-shoulder", 180),
    ("back.shoulder-tip", "front.shoulder-tip", 180),
    ("back.underarm", "front.underarm", 180),
    ("back.hem-side", "front.hem-side", 180),
    ("back-neck-facing.neck-shoulder", "front-facing.neck-shoulder", 180),
    ("back-neck-facing.shoulder-outer", "front-facing.shoulder-inner", 180),
    ("back-lining.shoulder-inner", "front-lining.shoulder-inner", 180),
    ("back-lining.hem-side", "front-lining.hem-side", 180),
    ("sleeve.underarm-front", "sleeve.underarm-back", 180),
    ("sleeve-gathered.underarm-front", "sleeve-gathered.underarm-back", 180),
    ("sleeve-lining.underarm-front", "sleeve-lining.underarm-back", 180),
    ("sleeve.end-front", "sleeve.end-back", 180),
    ("sleeve-gathered.end-front", "sleeve-gathered.end-back", 180),
    # on a fold or a centre line the piece meets its own mirror image
    ("back.neck-centre", "back.neck-centre", 180),
    ("back.hem-centre", "back.hem-centre", 180),
    ("back-neck-facing.neck-centre", "back-neck-facing.neck-centre", 180),
    ("back-neck-facing.outer-centre", "back-neck-facing.outer-centre", 180),
    ("back-lining.top-fold", "back-lining.top-fold", 180),
    ("waist-band.outer-centre", "waist-band.outer-centre", 180),
    ("front.neck-front", "front.hem-front", 180),
]


@pytest.mark.parametrize(("one", "other", "sum_deg"), MEETINGS)
def test_edges_run_smoothly_over_seams(one: str, other: str, sum_deg: float) -> None:
    for size in FERRYLIGHT_SIZES:
        angles = [drawn("ferrylight")[name.split(".")[0], size].angle_deg(name.split(".")[1]) for name in (one, other)]
        assert sum(angles) == pytest.approx(sum_deg, abs=3), (size, angles)


@pytest.mark.parametrize("corner", ["back.hem-side", "front.hem-side", "sleeve.end-front", "sleeve.end-back"])
def test_hems_stand_square_to_the_seams(corner: str) -> None:
    piece, point = corner.split(".")
    for size in FERRYLIGHT_SIZES:
        assert drawn("ferrylight")[piece, size].angle_deg(point) == pytest.approx(90, abs=2), size


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_law_curves_bend_as_they_should(size: str) -> None:
    """Necks and armholes bend one way; half a sleeve head changes once, from round to hollow."""
    pieces = drawn("ferrylight")
    assert bends(pieces["back", size].stretch("neck-centre", "neck-shoulder")) == 0
    assert bends(pieces["front", size].stretch("neck-shoulder", "neck-centre")) == 0
    assert bends(pieces["back", size].stretch("shoulder-tip", "underarm")) == 0
    assert bends(pieces["front", size].stretch("underarm", "shoulder-tip")) == 0
    for sleeve in ("sleeve", "sleeve-gathered", "sleeve-lining"):
        assert bends(pieces[sleeve, size].stretch("crown", "underarm-front")) == 1
        assert bends(pieces[sleeve, size].stretch("underarm-back", "crown")) == 1
        assert bends(pieces[sleeve, size].stretch("underarm-back", "underarm-front")) == 2


@pytest.mark.parametrize("garment", GARMENTS)
def test_law_grading_is_smooth(garment: str) -> None:
    """No edge shrinks from a size to the next larger one, and its growth changes gradually.

    Five millimetres: Millrace's length goes in steps of five.
    """
    for piece, edges in described(garment).items():
        for name, _, _ in edges:
            lengths = [edge_mm(garment, f"{piece}.{name}", str(size)) for size in GARMENTS[garment]]
            steps = [large - small for small, large in pairwise(lengths)]
            assert min(steps) >= -ROUNDING_MM, (piece, name, lengths)
            changes = [abs(after - before) for before, after in pairwise(steps)]
            limit_mm = max(3.0, 0.02 * max(lengths)) if garment == "ferrylight" else 12.0
            assert max(changes) <= limit_mm, (piece, name, changes)


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_jacket_has_room_where_it_needs_it(size: str) -> None:
    pieces, body = drawn("ferrylight"), bodies()[size]
    back, front = pieces["back", size].points, pieces["front", size].points
    chest_mm = 2 * abs(back["underarm"] - back["chest-centre"]) + 2 * abs(front["underarm"] - front["chest-centre"])
    assert 80 <= chest_mm - int(body["chest_mm"]) <= 120, "8 to 12 cm of ease for a lined jacket, our aim"
    hem_mm = 2 * edge_mm("ferrylight", "back.hem", size) + 2 * edge_mm("ferrylight", "front.hem-centre>hem-side", size)
    assert hem_mm - int(body["hip_mm"]) >= 60
    assert edge_mm("ferrylight", "sleeve-band.outer", size) >= int(body["wrist_mm"]) + 40
    sleeve = pieces["sleeve", size].points
    assert abs(sleeve["underarm-front"] - sleeve["underarm-back"]) >= int(body["upper_arm_mm"]) + 70


@pytest.mark.outside  # at least 3/4 of the button's diameter beyond the centre line: sewing textbook
@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_the_overlap_carries_the_button(size: str) -> None:
    front, button_mm = drawn("ferrylight")["front", size].points, 13
    assert abs(front["neck-front"] - front["neck-centre"]) >= 0.75 * button_mm


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_cut_off_lines_end_on_the_outline_and_pockets_lie_within(size: str) -> None:
    pieces = drawn("ferrylight")
    for piece, line in (
        *((name, "waist") for name in ("back", "front", "front-facing", "back-lining", "front-lining")),
        ("sleeve-lining", "band"),
    ):
        one = pieces[piece, size]
        ring = polygon(one.segments).exterior
        for end in (start_of(one.lines[line][0]), end_of(one.lines[line][-1])):
            assert ring.distance(shapely.Point(end.real, end.imag)) <= 0.05, piece
    front = pieces["front", size]
    hem_allowance_mm, side_clearance_mm = 25, 15
    hem_y = front.points["hem-side"].imag
    pocket = [point for s in front.lines["pocket"] for point in points_of(s, 10)]
    assert max(p.imag for p in pocket) <= hem_y - hem_allowance_mm + ROUNDING_MM
    side_x = front.points["underarm"].real
    assert min(p.real for p in pocket) >= side_x + side_clearance_mm
    assert length_mm(front.lines["pocket"]) == pytest.approx(edge_mm("ferrylight", "pocket.round", size), abs=0.1)
