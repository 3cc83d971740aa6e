"""Where a name fits in a piece, held against shapely and against rectangles on paper."""

from __future__ import annotations

import pytest
from shapely import LineString, Polygon, box

from boltside.calculators.labels import arrow_run, room, rooms, runs

PIECES = {
    "rectangle": [[0, 0], [300, 0], [300, 200], [0, 200]],
    "trapezoid": [[0, 0], [400, 0], [300, 300], [100, 300]],
    "hexagon": [[100, 0], [300, 0], [400, 170], [300, 340], [100, 340], [0, 170]],
    "L": [[0, 0], [400, 0], [400, 120], [150, 120], [150, 400], [0, 400]],
    "sleeve": [[0, 300], [60, 60], [200, 0], [340, 60], [400, 300], [330, 420], [70, 420]],
    "two legs": [[0, 0], [400, 0], [400, 400], [260, 400], [200, 150], [140, 400], [0, 400]],
}


@pytest.mark.outside  # shapely, as a second library for geometry
@pytest.mark.parametrize("name", PIECES)
def test_stretches_inside_a_piece_are_those_of_shapely(name: str) -> None:
    piece = Polygon(PIECES[name])
    for y in range(0, int(piece.bounds[3]), 7):
        met = LineString([(-10, y + 0.5), (1000, y + 0.5)]).intersection(piece)
        theirs = sorted(part.bounds[::2] for part in getattr(met, "geoms", [met]) if not part.is_empty)
        ours = runs(PIECES[name], y)
        assert len(ours) == len(theirs)
        for mine, other in zip(ours, theirs, strict=True):
            assert mine == pytest.approx(other, abs=1.001)  # whole millimetres


@pytest.mark.outside  # shapely, as a second library for geometry
@pytest.mark.parametrize("name", PIECES)
@pytest.mark.parametrize("lines", [1, 3])
def test_a_label_lies_inside_its_piece(name: str, lines: int) -> None:
    size = 24
    places = rooms(PIECES[name], size, lines, free=1)
    assert places
    for place in places:
        half = place.width / 2
        label = box(place.middle - half, place.top, place.middle + half, place.top + lines * size)
        assert Polygon(PIECES[name]).buffer(1).contains(label), place  # whole millimetres


@pytest.mark.outside  # geometry, on paper
def test_the_place_nearest_to_the_middle_is_taken() -> None:
    # A trapezoid 400 wide below and 200 above, 300 high: at a height y it is 400 - 2 y / 3 wide. A line of 24 with 6
    # free above and below is 36 high; in the middle it reaches up to 168, where 288 are left. What is 320 wide must
    # end where y is 120 or less; what is wider than 400 has no place.
    places = rooms(PIECES["trapezoid"], 24, 1, free=1)
    wide = room(places, 280)
    assert wide is not None and abs(wide.top + 12 - 150) <= 3
    lower = room(places, 320)
    assert lower is not None and lower.top + 24 + 6 <= 120 + 3
    assert room(places, 401) is None


@pytest.mark.outside  # shapely, as a second library for geometry
@pytest.mark.parametrize("name", PIECES)
def test_an_arrow_lies_inside_its_piece_and_beside_the_label(name: str) -> None:
    (place, *_) = rooms(PIECES[name], 24, 1, free=1)
    taken = (place.middle - 30, place.top, place.middle + 30, place.top + 24)
    run = arrow_run(PIECES[name], 24, taken)
    assert run is not None
    at, low, high = run
    arrow = LineString([(at, low), (at, high)])
    assert Polygon(PIECES[name]).buffer(1).contains(arrow) and not arrow.intersects(box(*taken))
