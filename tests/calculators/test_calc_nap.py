"""Nap, held against two triangles on paper."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from cases.paper_sheet import lay_files
from shapely import Polygon, box
from shapely.affinity import rotate, translate

from boltside.calculators.lay_file import lying
from boltside.calculators.nap import nap_said, nap_used

Ask = Callable[..., dict[str, dict[str, Any]]]
TRIANGLE = Polygon([(0, 0), (700, 0), (0, 450)])
"""Along the cloth, and across."""


@pytest.mark.outside  # geometry, on paper
@pytest.mark.parametrize(
    ("asked", "takes_mm", "buy"),
    # 70 cm and 3 for the ends, bought 75; or 140 and 3, bought 145: see the next test.
    [("", 700, "0.75 m"), ("without", 700, "0.75 m"), ("with", 1400, "1.45 m")],
)
def test_triangles_interlock_without_nap_and_not_with_it(
    on_paper: Ask, asked: str, takes_mm: int, buy: str
) -> None:
    said = on_paper("cloth", cloths={"lining": {"nap": asked}})["cloth.lining"]
    assert said["text"].endswith(f": {buy}") and said["data"]["needed_mm"] == takes_mm


@pytest.mark.outside  # shapely, as a second library for geometry
def test_why_the_triangles_do_that() -> None:
    # Turned by half a circle about the middle of the rectangle, the second triangle fills what the first one leaves.
    other = rotate(TRIANGLE, 180, origin=(350, 225))
    assert TRIANGLE.intersection(other).area < 1e-6
    assert TRIANGLE.union(other).symmetric_difference(box(0, 0, 700, 450)).area < 1e-6
    # All one way, both along the same selvedge: as soon as the second begins before the first ends, they overlap.
    assert TRIANGLE.intersection(translate(TRIANGLE, 690, 0)).area > 0
    assert TRIANGLE.intersection(translate(TRIANGLE, 700, 0)).area == 0
    # And the layouts that the buyer sees are these.
    (file,) = (made for key, made in lay_files().items() if key == "lining.flat.92")
    lengths = []
    for number in (7, 8):
        laid = [Polygon(one.points) for one in lying(file, number, ["half.lining"])]
        assert laid[0].intersection(laid[1]).area < 1e-6
        lengths.append(laid[0].union(laid[1]).bounds[2])
    assert lengths == [1400, 700]


@pytest.mark.outside  # common practice: pile and one-way prints always have one way, lining and interfacing have none
def test_what_the_cloth_is_comes_before_what_is_asked() -> None:
    pile, plain = [{"when": [], "nap": "always"}], [{"when": [], "nap": "never"}]
    assert nap_used(nap_said(pile, {}), "without") == "with"
    assert nap_used(nap_said(plain, {}), "with") == "without"
