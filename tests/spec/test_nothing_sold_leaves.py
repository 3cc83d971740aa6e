"""The shop's own sheets hold no stitching line, notch, named point or exact outline: the sold pattern stays at home."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from cases.real_sheets import pattern, pattern_names, real_sheet
from shapely import LinearRing

from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import cutting_outline_mm
from boltside.spec.simplify import GRID_MM, coarse

SEWABLE_MM = 1.0
"""Seams of the true pattern agree within this."""


def texts(value: Any) -> Iterator[str]:
    """All keys and texts in a sheet."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield key
            yield from texts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from texts(inner)
    elif isinstance(value, str):
        yield value


def points(value: Any) -> Iterator[list[float]]:
    """All pairs of numbers in a sheet, wherever they stand."""
    if isinstance(value, dict):
        for inner in value.values():
            yield from points(inner)
    elif isinstance(value, list):
        if len(value) == 2 and all(isinstance(one, int | float) for one in value):
            yield value
        else:
            for inner in value:
                yield from points(inner)


def traces(sheet: dict[str, Any]) -> list[Any]:
    """The marks in the drawing that show where a length was measured."""
    cases = [case for told in sheet["finished"] for case in told["cases"]]
    cases += [case for told in sheet["notions"] for case in told["edge_cases"]]
    return [part["trace"]["line"] for case in cases for part in case["parts"] if part["trace"]]


@pytest.mark.parametrize("name", pattern_names())
def test_no_named_point_or_interior_line_is_in_the_sheet(name: str) -> None:
    said = set(texts(real_sheet(name)))
    drawn = [one for piece in pattern(name).pieces for one in piece.outlines.values()]
    # A choice or a piece may bear the name of a line, such as waist; other names of two words are points and lines.
    known = {one for piece in drawn for part in (piece.points_mm, piece.lines_mm) for one in part if "-" in one}
    known -= {piece.name for piece in pattern(name).pieces}
    known -= {one.name for choice in pattern(name).choices for one in choice.alternatives}
    assert len(known) >= 5
    assert not known & said


@pytest.mark.parametrize("name", pattern_names())
def test_every_pair_of_numbers_is_on_the_grid_a_bound_of_ease_or_a_lay(name: str) -> None:
    sheet = real_sheet(name)
    assert set(sheet["drawing"]) == {"size", "front", "back"}
    for view in ("front", "back"):
        assert all(set(part) == {"piece", "when", "both_sides", "outline"} for part in sheet["drawing"][view])
    drawn = [*points(sheet["drawing"]), *points(traces(sheet))]
    assert len(drawn) > 50
    assert all(x % GRID_MM == 0 and y % GRID_MM == 0 for x, y in drawn)
    pressed = [point for one in sheet["pressed"].values() for point in (*one["piece"], *one["area"])]
    assert all(x % GRID_MM == 0 and y % GRID_MM == 0 for x, y in pressed)
    rest = {key: value for key, value in sheet.items() if key not in ("drawing", "lays", "pressed")}
    rest["finished"] = [{**one, "ease_mm": None, "wearing_mm": None, "cases": None} for one in sheet["finished"]]
    # Where closures sit is for the buyer: distances along one line, which say nothing of an outline.
    rest["notions"] = [{**one, "edge_cases": None, "placed": None} for one in sheet["notions"]]
    assert list(points(rest)) == []


@pytest.mark.parametrize("name", pattern_names())
def test_published_outlines_are_too_far_from_the_cutting_line_to_sew_from(name: str) -> None:
    own = pattern(name)
    for line in cut_lines(own):
        far = []
        for size in line.sizes:
            true = LinearRing(cutting_outline_mm(own, line, size))
            shown = LinearRing(coarse(cutting_outline_mm(own, line, size), GRID_MM))
            far.append(true.hausdorff_distance(shown))
        assert max(far) > SEWABLE_MM, (line.line_id, far)
