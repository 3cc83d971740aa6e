"""Words of the guide: filled in for size and choices, and silent where they have nothing to say."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pint
import pytest

from boltside.calculators.guide import said_as, value_in


def test_a_length_to_cut_is_that_of_the_notion(ask: Any) -> None:
    waist = ask("panel", size="92", choices={"length": "waist"})
    assert waist["guide.1"]["text"] and waist["notion.waist-elastic.cut"]["text"].startswith(
        f"Cut {waist['guide.1']['text']}"
    )
    assert ask("panel", size="92", choices={"length": "hip"})["guide.1"]["text"] == ""


def test_a_length_by_choice_and_size(ask: Any) -> None:
    # 92 * 4 - 38 = 330 mm; 13 in is the nearest eighth (12.99).
    hip = ask("panel", size="92", choices={"length": "hip"})["guide.2"]
    assert (hip["text"], hip["text_inch"]) == ("33 cm", "13 in")
    assert ask("panel", size="92", choices={"length": "waist"})["guide.2"]["text"] == "21.1 cm"


def test_two_garments_are_told_by_size_where_they_differ(ask: Any) -> None:
    both = ask("panel", size="98", second="92", choices={"length": "hip"})
    assert both["guide.2"]["text"] == "33 cm (size 92), 35.4 cm (size 98)"
    assert both["guide.0"]["text"] == "sleeve"


def test_a_word_by_choice_depends_on_no_size() -> None:
    word = {"show": "text", "cases": [{"when": [{"opening": ["front"]}], "all": "front"}]}
    assert value_in(word, {"opening": "front"}, "92") == "front"
    assert value_in(word, {"opening": "back"}, "92") is None


def test_how_values_are_shown() -> None:
    assert said_as("count", 5).text == "5"
    assert said_as("times", 1.25).text == "1.2 times"  # to even, as Python rounds
    assert said_as("Text", "wearer's left").text == "Wearer's left"
    # 15 mm is 0.59 in: nine sixteenths.
    assert (said_as("mm", 15).text, said_as("mm", 15).text_inch) == ("15 mm", "9/16 in")


@pytest.mark.outside  # a published worked example: 15 in gathered at 2.5 take 37.5 in
def test_a_ratio_and_its_lengths_are_said_as_in_the_worked_example() -> None:
    assert said_as("times", 37.5 / 15).text == "2.5 times"
    assert said_as("cm", 15 * 25.4).text_inch == "15 in" and said_as("cm", 37.5 * 25.4).text_inch == "37 1/2 in"


@pytest.mark.outside  # unit tables of pint
@pytest.mark.parametrize(("inches", "words"), [("1/4", "1/4 in"), ("3/8", "3/8 in"), ("5/8", "5/8 in"), ("1", "1 in")])
def test_allowances_in_the_guide_are_those_of_the_unit_tables(inches: str, words: str) -> None:
    mm = pint.UnitRegistry().Quantity(float(Fraction(inches)), "inch").to("mm").magnitude
    assert said_as("mm", round(mm, 1)).text_inch == words
