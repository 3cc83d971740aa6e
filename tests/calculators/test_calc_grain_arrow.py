"""Grain lines across the cloth and on the bias are drawn as they lie, inside their piece."""

from __future__ import annotations

import re

import pytest
from shapely import LineString, Polygon, box

from boltside.calculators.grain_arrow import forwards, off_grain_arrow
from boltside.calculators.lay_file import Lying

SIZE = 30
SQUARE = [[0, 0], [400, 0], [400, 400], [0, 400]]


def lying(*, turned: bool = False, mirrored: bool = False) -> Lying:
    return Lying(line_id="p", copy=0, points=SQUARE, turned=turned, mirrored=mirrored)


def line_of(path: str) -> list[tuple[int, int]]:
    """Both ends of the arrow's line, from its foot to its tip."""
    found = re.search(r'd="M(-?\d+) (-?\d+)L(-?\d+) (-?\d+)', path)
    assert found is not None, path
    x0, y0, x1, y1 = map(int, found.groups())
    return [(x0, y0), (x1, y1)]


@pytest.mark.outside  # geometry, on paper
@pytest.mark.parametrize(
    ("grain", "turned", "mirrored", "expected"),
    # From geometry: x of the drawing runs across the cloth, y along. A grain line a quarter turn from the cloth's runs
    # across; turning the paper over reverses across, turning it round both.
    [
        ("crosswise", False, False, (1, 0)), ("crosswise", False, True, (-1, 0)), ("crosswise", True, False, (-1, 0)),
        ("crosswise", True, True, (1, 0)), ("bias", False, False, (1, 1)), ("bias", False, True, (-1, 1)),
        ("bias", True, False, (-1, -1)), ("bias", True, True, (1, -1)),
    ],
)  # fmt: skip
def test_the_arrow_points_as_the_printed_line_does(
    grain: str, turned: bool, mirrored: bool, expected: tuple[int, int]
) -> None:
    assert forwards(grain, mirrored=mirrored, turned=turned) == expected
    path = off_grain_arrow(SQUARE, grain, lying(turned=turned, mirrored=mirrored), SIZE, None, nap=True)
    (x0, y0), (x1, y1) = line_of(path)
    long = max(abs(x1 - x0), abs(y1 - y0))
    assert long > 3 * SIZE
    for got, step in ((x1 - x0, expected[0]), (y1 - y0, expected[1])):
        assert abs(got - step * long) <= 1  # whole millimetres


@pytest.mark.parametrize("grain", ["crosswise", "bias"])
@pytest.mark.parametrize("mirrored", [False, True])
def test_it_lies_inside_and_beside_the_label(grain: str, mirrored: bool) -> None:
    label = (150, 160, 250, 240)
    path = off_grain_arrow(SQUARE, grain, lying(mirrored=mirrored), SIZE, label, nap=False)
    line = LineString(line_of(path))
    assert Polygon(SQUARE).buffer(1).contains(line)
    assert not line.intersects(box(*label))


def test_one_head_with_nap_and_two_without() -> None:
    with_nap = off_grain_arrow(SQUARE, "bias", lying(), SIZE, None, nap=True)
    without = off_grain_arrow(SQUARE, "bias", lying(), SIZE, None, nap=False)
    assert (with_nap.count("M"), without.count("M")) == (2, 3)


def test_a_piece_without_room_has_none() -> None:
    small = [[0, 0], [8, 0], [8, 8], [0, 8]]
    assert off_grain_arrow(small, "bias", lying(), SIZE, None, nap=True) == ""
