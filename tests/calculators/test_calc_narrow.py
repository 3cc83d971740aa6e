"""Cloth narrower than any bolt: answered by flat lays where there are some, and told why not where there are none."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from typing import Any

import pytest

from boltside.calculators.door import answer

SIZE = "92"
NARROW = [[450, 1100, 0], [600, 800, 0]]
"""Width, length and number of the lay: what the outer cloth is made to take flat, whatever is chosen."""


@pytest.fixture
def narrow(sheet: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """The example sheet with lays on two widths of remnants; opened, and the true one opened again afterwards."""
    made = copy.deepcopy(sheet)
    outer = next(cloth for cloth in made["cloths"] if cloth["name"] == "outer")
    outer["remnant_widths_mm"] = [450, 600, 750]
    for by_size in made["lays"]["outer"]["flat"].values():
        for steps in by_size[SIZE]:
            if steps:
                more = [0] * (len(steps[0]) - 3)  # whatever else a step tells
                steps[:0] = [[*one, *more] for one in NARROW]
    assert json.loads(answer("open", json.dumps(made))) == {"opened": "example-jacket"}
    yield made
    answer("open", json.dumps(sheet))


def outer(width: str, way: str, wash: str = "washed") -> dict[str, dict[str, Any]]:
    request = {"pattern": "example-jacket", "size": SIZE, "choices": {"length": "waist", "sleeves": "none"},
               "cloths": {"outer": {"width": width, "way": way, "wash": wash}}}  # fmt: skip
    return {one["id"]: one for one in json.loads(answer("cloth", json.dumps(request)))["fragments"]}


@pytest.mark.parametrize(
    ("width", "needed_mm", "reckoned_mm"), [("45", 1100, 450), ("59", 1100, 450), ("60", 800, 600), ("80", 800, 750)]
)
def test_flat_narrow_cloth_is_answered_by_the_next_narrower_width(
    narrow: dict[str, Any], width: str, needed_mm: int, reckoned_mm: int
) -> None:
    said = outer(width, "flat")
    assert said["cloth.outer"]["data"]["needed_mm"] == needed_mm
    assert said["cloth.outer"]["data"]["reckoned_width_mm"] == reckoned_mm
    assert f"Reckoned for {reckoned_mm / 10:g} cm" in said["cloth.outer.how"]["text"]


def test_folded_narrow_cloth_says_why_not_and_that_flat_would_do(narrow: dict[str, Any]) -> None:
    said = outer("60", "folded")["cloth.outer"]
    assert said["kind"] == "problem" and "Laid flat it is wide enough." in said["text"]
    assert said["data"]["code"] in ("too-narrow", "narrower-than-laid")


def test_narrower_still_says_from_which_width_on_amounts_are_reckoned(narrow: dict[str, Any]) -> None:
    said = outer("44", "flat")["cloth.outer"]
    assert said["kind"] == "problem" and said["data"]["reckoned_from_mm"] == 450
    assert "amounts are reckoned from 45 cm on" in said["text"]
