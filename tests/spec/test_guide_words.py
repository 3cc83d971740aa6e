"""Words in braces of the fixture garment's guide against lengths worked out on paper, in every combination."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from boltside.calculators.choices import all_allowed
from boltside.calculators.conditions import holds
from boltside.calculators.guide import value_in
from boltside.measure.word_cases import word_cases
from boltside.pages.guide import guide_of, plain_text
from boltside.pattern import Pattern, StepWord
from boltside.spec.guide_words import GuideWords
from boltside.spec.json_form import condition_json


def combinations(sheet: dict[str, Any]) -> Iterator[tuple[str, dict[str, str]]]:
    for size in sheet["sizes"]:
        for chosen in all_allowed(sheet["choices"], sheet["rules"], size):
            yield size, chosen


def value(pattern: Pattern, word: StepWord, size: str, chosen: dict[str, str]) -> Any:
    cases = [{"when": condition_json(when), "of": of} for when, of in word_cases(pattern, word)]
    return value_in({"cases": cases}, chosen, size)


def test_lengths_are_those_worked_out_on_paper(oblong: Pattern, sheet: dict[str, Any]) -> None:
    """The hem of the front is 159 mm in size 92, its allowance 30 mm (tests/garment/by_hand.py)."""
    hem = [value(oblong, StepWord("length", ("front.hem",)), size, chosen)
           for size, chosen in combinations(sheet) if size == "92" and chosen["length"] == "hip"]  # fmt: skip
    assert set(hem) == {159.0}
    allowance = StepWord("allowance", ("as:opened.centre",))
    assert {value(oblong, allowance, size, chosen) for size, chosen in combinations(sheet)} == {20.0}


def test_a_cut_off_edge_stands_for_nothing(oblong: Pattern, sheet: dict[str, Any]) -> None:
    word = StepWord("length", ("front.waist",))
    for size, chosen in combinations(sheet):
        assert (value(oblong, word, size, chosen) is not None) == (chosen["length"] == "waist")


def test_front_and_back_swap_with_the_opening(oblong: Pattern, sheet: dict[str, Any]) -> None:
    for size, chosen in combinations(sheet):
        opened = chosen["opening"]
        other = {"front": "back", "back": "front"}[opened]
        assert value(oblong, StepWord("name", ("as:opened",)), size, chosen) == opened
        assert value(oblong, StepWord("name", ("as:whole",)), size, chosen) == other


def test_sides_are_the_wearers_and_seen_mirrored_in_front(oblong: Pattern, sheet: dict[str, Any]) -> None:
    """A garment's front faces the onlooker, so the wearer's left is on the onlooker's right; from behind it is not."""
    holes = ("as:opened", "buttonholes")
    told = {
        (chosen["opening"], *(value(oblong, StepWord(kind, holes), size, chosen) for kind in ("side", "other", "seen")))
        for size, chosen in combinations(sheet)
    }
    assert told == {
        ("front", "wearer's left", "wearer's right", "on your right as it faces you"),
        ("back", "wearer's right", "wearer's left", "on your right as its back faces you"),
    }


def test_a_seams_ratio_is_the_quotient_of_its_lengths(oblong: Pattern) -> None:
    for when, of in word_cases(oblong, StepWord("ratio", ("frill-gathered",))):
        assert when, "the frill is there only with the waist length"
        assert all(1 < float(ratio) < 3 for ratio in of.values())


def test_marks_stand_for_the_length_of_their_edge(oblong: Pattern, sheet: dict[str, Any]) -> None:
    """Of the frill 318 mm are gathered to the waist of 159 mm in size 92, the first 20 mm of each plain (README)."""
    for kind, mm in (("marks", 318.0), ("meets", 159.0)):
        told = {value(oblong, StepWord(kind, ("frill-gathered",)), "92", chosen) for _, chosen in combinations(sheet)}
        assert told == {None, mm}
    (step,) = [one for one in guide_of(sheet, "92", {"length": "waist"}).steps if one.title == "Gather the frill"]
    # 20 + k/4 · 298 and 20 + k/4 · 139.
    assert "at 2, 9.5, 16.9 and 24.4 cm and the other one at 2, 5.5, 9 and 12.4 cm" in plain_text(step.html)


def test_quarters_and_tail_of_an_elastic(sheet: dict[str, Any]) -> None:
    (step,) = [one for one in guide_of(sheet, "92", {"length": "hip"}).steps if one.title == "Mark the hem elastic"]
    row = sheet["body"]["rows"]["92"]["hip"] - 40
    quarters = " and ".join(f"{(10 + k * row / 4) / 10:.1f}".rstrip("0").rstrip(".") for k in (2, 3))
    assert f"{quarters} cm and leave 10 mm at either end" in plain_text(step.html)


def test_what_never_changes_is_written_out_at_once(oblong: Pattern, sheet: dict[str, Any]) -> None:
    words = GuideWords(oblong)
    assert words.listed == sheet["words"]
    elastic = next(step for step in sheet["steps"] if step["title"] == "Draw in the waist elastic")
    assert '<span class="in-cm">20 mm</span><span class="in-inch">13/16 in</span> wide' in elastic["html"]
    assert "written &#123;." in elastic["html"]
    assert elastic["up"].startswith("wrong side of the {")


@pytest.mark.parametrize("units", ["cm", "inch", "both"])
def test_the_guide_of_every_combination_has_all_its_words(sheet: dict[str, Any], units: Any) -> None:
    for size, chosen in combinations(sheet):
        made = guide_of(sheet, size, chosen, units)
        assert [step.place for step in made.steps] == [
            at for at, step in enumerate(sheet["steps"]) if holds(step["when"], chosen)
        ]
        assert [step.number for step in made.steps] == list(range(1, len(made.steps) + 1))
        for step in made.steps:
            told = f"{step.title} {step.up} {step.html}"
            assert "{" not in told
            assert "in-inch" not in told or units != "cm"
            assert "in-cm" not in told or units != "inch"
            assert all(ord(sign) < 0xE000 or ord(sign) > 0xF8FF for sign in told)


def test_the_same_step_says_the_side_of_the_choice(sheet: dict[str, Any]) -> None:
    said = {}
    for opening in ("front", "back"):
        said[opening] = plain_text(guide_of(sheet, "92", {"opening": opening}).steps[-1].html).partition(";")[0]
    assert said == {
        "front": "Front: the holes lie on the wearer's left half, on your right as it faces you",
        "back": "Back: the holes lie on the wearer's right half, on your right as its back faces you",
    }
