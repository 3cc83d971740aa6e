"""Which pieces are drawn in which layout, held against areas and rows on paper."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from cases.paper_sheet import lay_files, make_paper
from shapely import Polygon, union_all

from boltside.calculators.lay_named import lay_of
from boltside.calculators.lay_parts import Part, parts_of, whose
from boltside.calculators.request import read_request
from boltside.calculators.spread import spread_out

Ask = Callable[..., dict[str, dict[str, Any]]]


def parts(**asked: Any) -> list[Part]:
    """The layouts of the outer cloth."""
    request = read_request(make_paper(), asked)
    cloth = next(one for one in request.sheet["cloths"] if one["name"] == "outer")
    spread = spread_out(request, cloth)
    assert spread.answer is not None
    return parts_of(spread, spread.answer, lay_of(spread, "outer", spread.answer), lay_files())


@pytest.mark.outside  # geometry, on paper, and shapely: rectangles that cover what they should do not overlap
@pytest.mark.parametrize(
    ("asked", "areas_mm2", "headings"),
    # Each rectangle is 450 x 700 = 315 000 mm2 in 92 and 450 x 720 = 324 000 in 98; four panels, two sleeves.
    [
        ({}, [4 * 315_000], [""]),
        ({"choices": {"sleeves": "long"}}, [6 * 315_000], [""]),
        ({"choices": {"sleeves": "long", "sleeve-cloth": "contrast"}}, [4 * 315_000], [""]),
        ({"size": "98", "second": "92"}, [4 * 315_000, 4 * 324_000], ["First: size 92", "Behind it: size 98"]),
        ({"size": "92", "second": "92", "cloths": {"outer": {"width": "140"}}}, [8 * 315_000], [""]),
    ],
)
def test_what_lies_there_covers_the_area_of_its_pieces(
    asked: dict[str, Any], areas_mm2: list[int], headings: list[str]
) -> None:
    found = parts(**asked)
    assert [union_all([Polygon(one.points) for one in part.pieces()]).area for part in found] == areas_mm2
    assert [part.heading for part in found] == headings


@pytest.mark.outside  # geometry, on paper: the fifth of eight, three beside each other, lies in the second row
def test_each_of_two_garments_has_its_own_four(on_paper: Ask) -> None:
    (part,) = parts(size="92", second="92", cloths={"outer": {"width": "140"}})
    second = [one for one in part.pieces() if one.garment == 1]
    assert sorted((min(x for x, _ in one.points), min(y for _, y in one.points)) for one in second) == [
        (700, 450), (700, 900), (1400, 0), (1400, 450),
    ]  # fmt: skip
    assert whose(1, ("92", "92")) == "second one" and whose(1, ("92", "98")) == "size 98"
    html = on_paper("lay", cloth="outer", size="92", second="92", cloths={"outer": {"width": "140"}})["lay.outer"]
    assert len(re.findall(r'class="bs-laid bs-second"', html["html"])) == 4
