"""Words of the guide: filled in for size and choices, and silent where they have nothing to say."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pint
import pytest
from cases.real_sheets import real_sheet

from boltside.calculators.guide import one_word, said_as, value_in
from boltside.calculators.request import read_request


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


@pytest.mark.outside  # geometry: a quarter of each edge, from a named seam on
def test_marks_of_a_gather_stand_on_both_edges() -> None:
    """With a free zone z an edge of length L is marked at z and at z + k/4 · (L − z)."""
    sheet = real_sheet("ferrylight")
    case = {"when": [{"sleeve-end": ["gathered"]}], "join_mm": {"92": 260}, "to_mm": {"92": 180}}
    gather = {"name": "made-up", "free_mm": 20, "from": None, "join": "", "to": "", "cases": [case]}
    words = [{"show": "text", "take": take, "gather": "made-up"} for take in ("join_mm", "to_mm")]
    made = {**sheet, "gathers": [gather], "words": words}
    request = read_request(made, {"size": "92", "choices": {"sleeve-end": "gathered"}})
    assert one_word(request, 0).said.text == "2, 8, 14 and 20 cm"
    assert one_word(request, 1).said.text == "2, 6, 10 and 14 cm"
    assert {"size", "sleeve-end"} <= set(one_word(request, 0).depends_on)
    plain = read_request(made, {"size": "92", "choices": {"sleeve-end": "hemmed"}})
    assert one_word(plain, 0).said.html == "" and one_word(read_request(made, {"size": "98"}), 0).said.html == ""


def test_an_elastic_is_marked_in_quarters_of_its_ring() -> None:
    sheet = real_sheet("millrace")
    elastic: dict[str, Any] = next(one for one in sheet["notions"] if "elastic" in one["kinds"])
    word = {"show": "text", "take": "quarters", "notion": elastic["name"]}

    def said(**rule: Any) -> str:
        own = {**elastic, "tabled_mm": {}, "rule": {**elastic["rule"], "minus_mm": 74, **rule}}
        made = {**sheet, "notions": [own], "words": [word]}
        return one_word(read_request(made, {"size": "92"}), 0).said.text

    # The waist of 92 is 474 mm, so the ring 400; it begins in the middle of the lap of 20, or behind the tail of 15.
    assert said() == "11, 21 and 31 cm"
    assert said(overlap_mm=0, tail_mm=15) == "11.5, 21.5 and 31.5 cm"


@pytest.mark.outside  # unit tables of pint
@pytest.mark.parametrize(("inches", "words"), [("1/4", "1/4 in"), ("3/8", "3/8 in"), ("5/8", "5/8 in"), ("1", "1 in")])
def test_allowances_in_the_guide_are_those_of_the_unit_tables(inches: str, words: str) -> None:
    mm = pint.UnitRegistry().Quantity(float(Fraction(inches)), "inch").to("mm").magnitude
    assert said_as("mm", round(mm, 1)).text_inch == words
