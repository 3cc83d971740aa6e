"""What has changed since a garment was put on the list, held against lengths on paper."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from math import ceil
from typing import Any

import pint
import pytest

from boltside.calculators.door import answer
from boltside.calculators.shopping_changes import then_and_now

Ask = Callable[..., dict[str, dict[str, Any]]]


def changes(was: dict[str, list[int]], **more: Any) -> dict[str, Any]:
    """What is said of one garment of rectangles on the list. Argument: the amounts that were kept."""
    item = {"id": "a", "pattern": "paper-rectangles", "edition": "1", "size": "92", "choices": {"sleeves": "long"},
            "cloths": {}, "was": {"cloths": was}, **more}  # fmt: skip
    said = json.loads(answer("shopping", json.dumps({"items": [item]})))
    return next(one for one in said["fragments"] if one["id"] == "item.a.changes")


@pytest.mark.outside  # geometry, on paper; eighths of a yard with the unit tables of pint
def test_amounts_now_are_those_on_paper(on_paper: Ask) -> None:
    # Six rectangles two by two: 210 and 3 cm; the lining 70 and 3. By the metre up to 5 cm, by the yard to eighths.
    on_paper("cloth")
    eighth = pint.UnitRegistry()("yard").to("mm").magnitude / 8
    now = {"outer": [2150, ceil(2130 / eighth)], "lining": [750, ceil(730 / eighth)]}
    assert now == {"outer": [2150, 19], "lining": [750, 7]}
    assert changes(now)["text"] == ""
    assert changes(now)["data"]["now"]["cloths"] == now


@pytest.mark.outside  # geometry, on paper
def test_a_row_that_was_not_there_then_is_told(on_paper: Ask) -> None:
    # Then two rows, 145 cm (143 cm are 12.5 eighths of a yard: 13); now three, 215 (18.6: 19 = 2 3/8 yd).
    on_paper("cloth")
    said = changes({"outer": [1450, 13], "lining": [750, 7]})
    assert said["text"] == "Outer cloth: 1.45 m then, 2.15 m now."
    assert said["text_inch"] == "Outer cloth: 1 5/8 yd then, 2 3/8 yd now."
    assert Fraction(13, 8) == 1 + Fraction(5, 8) and Fraction(19, 8) == 2 + Fraction(3, 8)


@pytest.mark.outside  # arithmetic on paper: 2 1/2 yd are 20 eighths; 5 + 6 buttons are 11
def test_then_and_now_in_yards_and_in_numbers() -> None:
    assert then_and_now("Cloth", (2250, 20), (2150, 19)).text_inch == "Cloth: 2 1/2 yd then, 2 3/8 yd now."
    assert then_and_now("Buttons", (5,), (11,)).text == "Buttons: 5 then, 11 now."
