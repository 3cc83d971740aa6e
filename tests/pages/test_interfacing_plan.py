"""The plan of the interfacing on a page: a drawing for each line, its hatching inside, words for where it ends."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser
from typing import Any

import pytest
from cases.real_sheets import pattern_names, real_sheet
from shapely import LineString, Polygon

from boltside.pages.interfacing_plan import drawing, interfacing_plan

SQUARE = {"size": "92", "piece": [[0, 0], [100, 0], [100, 60], [0, 60]], "shown": None}
NUMBERS = re.compile(r"-?\d+ -?\d+")


def paths(html: str) -> list[list[list[tuple[int, int]]]]:
    """The paths of a drawing, each as lines of points."""
    found = []
    for d in re.findall(r' d="([^"]*)"', html):
        lines = [[tuple(map(int, pair.split())) for pair in NUMBERS.findall(line)] for line in d.split("M")[1:]]
        found.append(lines)
    return found  # type: ignore[return-value]


def test_it_is_upright_and_the_hatching_lies_inside() -> None:
    """y grows upwards in a sheet and downwards in a drawing: a strip along the lower edge stays below."""
    picture = {**SQUARE, "area": [[0, 0], [100, 0], [100, 20], [0, 20]], "to": "cutting"}
    _, ((area,), hatching) = paths(drawing(picture, "Band"))[0], paths(drawing(picture, "Band"))[1:]
    assert {y for _, y in area} == {40, 60}
    assert len(hatching) > 10
    shape = Polygon(area).buffer(1)
    assert all(len(line) == 2 and shape.covers(LineString(line)) for line in hatching)


def test_what_ends_at_the_stitching_line_is_drawn_within_the_edge() -> None:
    whole = {**SQUARE, "area": SQUARE["piece"]}
    _, (to_edge,), _ = paths(drawing({**whole, "to": "cutting"}, "Band"))
    _, (within,), _ = paths(drawing({**whole, "to": "stitching"}, "Band"))
    assert Polygon(to_edge).bounds == (0, 0, 100, 60)
    left, low, right, high = Polygon(within).bounds
    assert (left, low) > (2, 2) and (right, high) < (98, 58)


class Figures(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.fits: list[Any] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "figure":
            self.fits.append(dict(attrs)["data-fits"])


@pytest.mark.parametrize("name", pattern_names())
def test_every_line_of_interfacing_stands_there_with_its_condition(name: str) -> None:
    sheet = real_sheet(name)
    lines = [item for item in sheet["items"] if item["kind"] == "interfacing"]
    figures = Figures()
    figures.feed(str(interfacing_plan(sheet)))
    assert [json.loads(one or "[]") for one in figures.fits] == [item["when"] for item in lines]


def test_the_copy_that_alone_gets_it_is_named() -> None:
    item = {"id": "front.strip", "title": "Front, strip", "mode": "single", "count": 1, "face": "up", "when": []}
    picture = {**SQUARE, "area": [[0, 0], [100, 0], [100, 20], [0, 20]], "to": "stitching", "shown": "wearers-left"}
    said = str(interfacing_plan({"items": [item], "pressed": {"front.strip": picture}, "choices": []}))
    assert "1. Wearer&#x27;s left alone. Up to the stitching line." in said
