"""The second method for folded cloth (`other_zones.py`), on lays that are right on paper."""

from __future__ import annotations

import pytest
from other_zones import (
    Strip,
    Unit,
    overs_to_try,
    own_mirror_image,
    part_folded_mm,
    strips_of,
    units,
    zones_mm,
)
from shapely import Polygon, box

pytestmark = pytest.mark.outside  # worked out on paper, beside each

TRIANGLE = Polygon([(0, 0), (400, 0), (0, 300)])
QUARTERS = strips_of("middle", 900.0)
"""Two double strips of 900 / 4 - 15 = 210."""
WIDER = strips_of("middle", 1260.0)
"""Two double strips of 300."""
BESIDE = strips_of("part-folded", 900.0, 215.0)
"""A double strip of 200, and 900 - 2 x 215 - 15 = 455 single."""
NARROW = strips_of("part-folded", 545.0, 215.0)
"""A double strip of 200, and 100 single."""


def cut(*lines: tuple[Polygon, str, int], on: tuple[Strip, ...], nap: bool = False) -> list[Unit]:
    return [unit for outline, mode, count in lines for unit in units(outline, mode, count, on, nap=nap)]


def test_strips_are_those_of_the_trade() -> None:
    assert [(one.depth_mm, one.double, one.over) for one in QUARTERS] == [(210, True, False), (210, True, True)]
    assert [(one.depth_mm, one.double, one.over) for one in BESIDE] == [(200, True, False), (455, False, False)]
    assert [one.depth_mm for one in strips_of("folded", 900.0)] == [435]
    assert [one.depth_mm for one in strips_of("part-folded", 900.0, 450.0)] == [435], "nothing is left single"


@pytest.mark.parametrize(
    ("what", "on", "paper_mm"),
    [
        # A half on each fold: the longer one's length.
        (cut((box(0, 0, 300, 200), "fold", 1), (box(0, 0, 250, 200), "fold", 1), on=QUARTERS), QUARTERS, 300),
        # 300 and 2 x 200 of fold edges on two folds: 300 + 200 beside 200, or 2 x 200 beside 300.
        (cut((box(0, 0, 300, 210), "fold", 1), (box(0, 0, 200, 210), "fold", 2), on=QUARTERS), QUARTERS, 400),
        # Three places of 130: 130 + 130 is more than 210, and nothing crosses to the other strip.
        (cut((box(0, 0, 200, 130), "pair", 6), on=QUARTERS), QUARTERS, 400),
        # 104.9 + 105.1 fill a strip to the last tenth.
        (
            cut((box(0, 0, 200, 104.9), "pair", 4), (box(0, 0, 200, 105.1), "pair", 4), on=QUARTERS),
            QUARTERS,
            200,
        ),
        # Four places that nest head to foot, two in each strip; with nap they all stand alike, in two rows.
        (cut((TRIANGLE, "pair", 8), on=WIDER), WIDER, 400),
        (cut((TRIANGLE, "pair", 8), on=WIDER, nap=True), WIDER, 800),
        # Three singles that are not their own mirror image take a place each, and their second layers are waste.
        (cut((TRIANGLE, "single", 3), on=WIDER), WIDER, 400),
        (cut((TRIANGLE, "single", 3), on=WIDER, nap=True), WIDER, 800),
        # Four rectangles are their own mirror images: two places.
        (cut((box(0, 0, 200, 210), "single", 4), on=QUARTERS), QUARTERS, 200),
        # A single as wide as what is left beside the fold.
        (cut((box(0, 0, 300, 200), "fold", 1), (box(0, 0, 300, 455), "single", 1), on=BESIDE), BESIDE, 300),
        # The pair is cut apart, one behind the other in the single strip; from one place it would need 400 + 200.
        (cut((box(0, 0, 400, 200), "fold", 1), (box(0, 0, 200, 100), "pair", 2), on=NARROW), NARROW, 400),
        # Two of one kind as well.
        (cut((box(0, 0, 400, 200), "fold", 1), (box(0, 0, 200, 100), "single", 2), on=NARROW), NARROW, 400),
        # Two halves, though the single strip is free: a half needs a fold.
        (cut((box(0, 0, 200, 100), "fold", 2), on=NARROW), NARROW, 400),
        # Folded once: two halves would lie above each other, but both must touch the fold.
        (cut((box(0, 0, 200, 200), "fold", 2), on=strips_of("folded", 900.0)), strips_of("folded", 900.0), 400),
    ],
)
def test_search_on_paper_lays(what: list[Unit], on: tuple[Strip, ...], paper_mm: float) -> None:
    found_mm = zones_mm(what, on, seed=1, budget_s=0.2)
    if found_mm > paper_mm + 0.3:  # a slow machine tries little in that time
        found_mm = zones_mm(what, on, seed=2, budget_s=6.0)
    assert found_mm == pytest.approx(paper_mm, abs=0.3)


def test_folded_over_by_whole_half_centimetres_from_what_the_halves_need() -> None:
    pieces = [(box(0, 0, 300, 182), "fold", 1, "up"), (box(0, 0, 300, 400), "single", 1, "up")]
    # At least 182 + 15, up to half of 900; what is stored comes first.
    overs = overs_to_try(pieces, 900.0, 250.0)
    assert overs[:3] == [250.0, 200.0, 450.0]
    assert all(over % 5 == 0 and 200 <= over <= 450 for over in overs)
    assert len(set(overs)) == len(overs) == 5
    # 20 cm folded over leave 485 single: both side by side. In half they would lie in a row.
    assert part_folded_mm(pieces, 900.0, 450.0, nap=True, seed=1, budget_s=1.0) == pytest.approx(300, abs=0.3)


def test_what_fits_on_no_strip_is_refused() -> None:
    with pytest.raises(ValueError, match="fits on no strip"):
        cut((box(0, 0, 300, 456), "single", 1), on=BESIDE)
    with pytest.raises(ValueError, match="fits on no strip"):
        cut((box(0, 0, 300, 201), "fold", 1), on=BESIDE)


def test_nothing_is_turned_over_but_the_second_of_a_pair() -> None:
    """Measured from a fold at the far edge, what lies as drawn is turned over."""
    (single,) = cut((TRIANGLE, "single", 1), on=WIDER, nap=True)
    assert [[one.bounds[1] for one in shapes] for shapes in single.whole.shapes] == [[0], [-300]]
    (down,) = units(TRIANGLE, "single", 1, WIDER, nap=True, face="down")
    assert [[one.bounds[1] for one in shapes] for shapes in down.whole.shapes] == [[-300], [0]]
    (pair,) = cut((TRIANGLE, "pair", 2), on=strips_of("part-folded", 1200.0, 315.0), nap=True)
    assert [len(shapes) for shapes in pair.whole.shapes] == [2, 0], "either way over where cloth is double"
    assert [part.shapes[1][0].bounds[1] for part in pair.apart] == [0, -300]
    assert [len(shapes) for shapes in cut((TRIANGLE, "fold", 1), on=WIDER)[0].whole.shapes] == [2, 2]
    assert [len(shapes) for shapes in cut((TRIANGLE, "fold", 1), on=WIDER, nap=True)[0].whole.shapes] == [1, 1]


def test_own_mirror_images() -> None:
    assert own_mirror_image(box(0, 5, 300, 205))
    assert own_mirror_image(Polygon([(0, 0), (100, 50), (0, 100)]))
    assert not own_mirror_image(TRIANGLE)
