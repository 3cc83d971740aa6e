"""The drawing of a lay, true to scale: held against SVG 2 as svgelements reads it, inches, and rectangles on paper."""

from __future__ import annotations

import re
from collections.abc import Callable
from io import StringIO
from typing import Any

import pytest
from shapely import Polygon
from svgelements import SVG, Path

from boltside.calculators.lay_svg import PHONE_PX, TYPE_PX

Ask = Callable[..., dict[str, dict[str, Any]]]
PX_PER_MM = 96 / 25.4
"""SVG 2 and CSS: an inch is 96 px."""


def drawn(on_paper: Ask) -> dict[str, Any]:
    """The layout of six rectangles of 450 x 700 mm, two beside each other, on 1000 mm."""
    return on_paper("lay", cloth="outer", choices={"sleeves": "long"})["lay.outer"]


@pytest.mark.outside  # SVG 2 (units, viewBox, paths), read by svgelements
def test_the_drawing_has_the_scale_that_it_states(on_paper: Ask) -> None:
    said = drawn(on_paper)
    assert said["data"]["scale"] == 10
    pieces = []
    for element in SVG.parse(StringIO(said["html"]), ppi=96).elements():
        if isinstance(element, Path) and element.values.get("class") is None:  # rulers, edges and arrows have one
            pieces.append(Polygon([(point.x / PX_PER_MM, point.y / PX_PER_MM) for point in element.as_points()]))
    # On paper, 1 to 10: 45 mm across, 70 along the length, which runs downwards; the second column 45 mm further on.
    assert len(pieces) == 6
    for piece in pieces:
        left, top, right, bottom = piece.bounds
        assert (right - left, bottom - top) == pytest.approx((45, 70), abs=0.01)
        assert piece.area == pytest.approx(45 * 70, abs=1)
    assert len({round(piece.bounds[0], 1) for piece in pieces}) == 2
    lefts = sorted(piece.bounds[0] for piece in pieces)
    assert lefts[-1] - lefts[0] == pytest.approx(45, abs=0.01)


@pytest.mark.outside  # the international yard and pound agreement of 1959: an inch is 25.4 mm
def test_inches_stand_where_they_are(on_paper: Ask) -> None:
    html = drawn(on_paper)["html"]
    top = int(re.findall(r'class="bs-cloth" x="\d+" y="(\d+)"', html)[0])
    (inch,) = re.findall(r'<g class="in-inch"><path class="bs-ruler"[^>]* d="([^"]+)"', html)
    ticks = [float(y) - top for y in re.findall(r"M\d+ ([\d.]+)h", inch)]
    # Every two inches of 2100 mm: 50.8, 101.6 and so on, up to 82 in = 2082.8.
    assert ticks == pytest.approx([25.4 * inches for inches in range(0, 83, 2)], abs=0.06)


@pytest.mark.outside  # geometry, on paper: a drawing of so many units on 320 px makes each of them 320 / units px
@pytest.mark.parametrize(("choices", "width"), [({}, "100"), ({"sleeves": "long"}, "140")])
@pytest.mark.parametrize("nap", ["with", "without"])
def test_type_is_as_large_on_a_phone_as_it_should_be(on_paper: Ask, choices: Any, width: str, nap: str) -> None:
    cloths = {"outer": {"width": width, "nap": nap}}
    html = on_paper("lay", cloth="outer", choices=choices, cloths=cloths)["lay.outer"]["html"]
    units, size = (int(re.findall(pattern, html)[0]) for pattern in (r'viewBox="0 0 (\d+) ', r'font-size="(\d+)"'))
    assert TYPE_PX <= size * PHONE_PX / units < TYPE_PX + 1
