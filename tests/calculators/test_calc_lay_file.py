"""Where a piece lies, held against shapely and against points worked out on paper."""

from __future__ import annotations

import pytest
from cases.paper_sheet import lay_files
from shapely import Polygon, union_all
from shapely.affinity import rotate, scale, translate

from boltside.calculators.lay_file import lying, placed

OUTLINE = [[0, 0], [300, 0], [300, 40], [120, 90], [0, 200]]
"""Like no mirrored or turned picture of itself."""


@pytest.mark.outside  # shapely, as a second library for geometry
@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("mirrored", [False, True])
def test_a_piece_lies_where_shapely_puts_it(turned: bool, mirrored: bool) -> None:
    # Turned over about the line along the cloth, then by half a circle, then moved.
    theirs = scale(Polygon(OUTLINE), yfact=-1, origin=(0, 0)) if mirrored else Polygon(OUTLINE)
    theirs = rotate(theirs, 180, origin=(0, 0)) if turned else theirs
    theirs = translate(theirs, 610, 433)
    ours = placed(OUTLINE, x=610, y=433, turned=turned, mirrored=mirrored)
    assert Polygon(ours).symmetric_difference(theirs).area < 1e-6
    # What is turned over runs round the other way; what is only turned does not.
    assert Polygon(ours).exterior.is_ccw != mirrored


@pytest.mark.outside  # geometry, on paper: (30, 10) turned over is (30, -10), turned (-30, 10), moved by (100, 50)
@pytest.mark.parametrize(
    ("turned", "mirrored", "expected"),
    [(False, False, [130, 60]), (False, True, [130, 40]), (True, False, [70, 40]), (True, True, [70, 60])],
)
def test_a_point_lies_where_it_does_on_paper(turned: bool, mirrored: bool, expected: list[int]) -> None:
    assert placed([[30, 10]], x=100, y=50, turned=turned, mirrored=mirrored) == [expected]


@pytest.mark.outside  # geometry, on paper: six rectangles of 450 x 700, three beside each other, are 1350 x 1400
def test_a_file_of_rectangles_makes_one_rectangle() -> None:
    laid = lying(lay_files()["outer.flat.92"], 3, ["panel.outer", "sleeve.outer"])
    assert [one.line_id for one in laid].count("sleeve.outer") == 2 and len(laid) == 6
    whole = union_all([Polygon(one.points) for one in laid])
    assert whole.bounds == (0, 0, 1400, 1350) and whole.area == 1400 * 1350
    assert len(lying(lay_files()["outer.flat.92"], 3, ["panel.outer"])) == 4
