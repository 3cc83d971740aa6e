"""Stripes: what was said of them, in every manner of typing it."""

from __future__ import annotations

from typing import Any

import pytest

from boltside.calculators.stripes import LISTED, OWN, PLAIN, read_stripes

LISTED_ONES: list[dict[str, Any]] = [
    {"name": "stripes-40", "title": "Stripes, 4 cm", "along_mm": 40, "across_mm": None, "even": True},
    {"name": "uneven-70", "title": "Uneven, 7 cm", "along_mm": 70, "across_mm": 70, "even": False},
]
SUCH_AS = "Type a number such as 12, or with its unit: 12 cm, 4 3/4 in."


@pytest.mark.parametrize("asked", ["", PLAIN])
def test_cloth_is_plain_unless_the_buyer_says_otherwise(asked: str) -> None:
    found = read_stripes(["woven"], LISTED_ONES, asked, "12", "yes", "cm")
    assert (found.how, found.each_row_mm, found.one_layer, found.code) == (PLAIN, 0, False, "")


def test_interfacing_has_no_stripes() -> None:
    assert read_stripes(["interfacing"], [], OWN, "12", "", "cm").how == PLAIN
    assert read_stripes(["knit", "interfacing"], [], OWN, "12", "", "cm").how == OWN


def test_a_listed_repeat_brings_its_figures_and_takes_no_rule_of_thumb() -> None:
    even = read_stripes(["woven"], LISTED_ONES, f"{LISTED}stripes-40", "", "", "cm")
    assert (even.listed, even.along_mm, even.across_mm, even.one_layer, even.each_row_mm) == (True, 40, None, False, 0)
    # What was typed or ticked for another repeat before does not matter to a listed one.
    uneven = read_stripes(["woven"], LISTED_ONES, f"{LISTED}uneven-70", "12", "", "cm")
    assert (uneven.along_mm, uneven.across_mm, uneven.one_layer) == (70, 70, True)


@pytest.mark.parametrize(
    ("typed", "unit", "mm"),
    [("12", "cm", 120), ("4 1/4", "in", 107.95), ("40 mm", "in", 40), ('2"', "cm", 50.8), ("0,5", "cm", 5),
     ("1 m", "cm", 1000)],
)  # fmt: skip
def test_a_typed_repeat(typed: str, unit: Any, mm: float) -> None:
    found = read_stripes(["woven"], [], OWN, typed, "", unit)
    assert (found.each_row_mm, found.missing, found.code, found.one_layer) == (mm, False, "", False)
    assert read_stripes(["woven"], [], OWN, typed, "yes", unit).one_layer


def test_an_own_repeat_that_is_not_typed_yet_counts_nothing() -> None:
    found = read_stripes(["woven"], [], OWN, " ", "yes", "cm")
    assert (found.missing, found.each_row_mm, found.one_layer, found.code) == (True, 0, False, "")


@pytest.mark.parametrize(
    ("typed", "code", "said"),
    [
        ("0", "not-a-repeat", "0 cm is no repeat to lay for: those are from 0.5 cm to 1 m (1/4 in to 39 in). "
                              f"What is smaller counts as plain. {SUCH_AS}"),
        ("-3", "negative", f"A repeat can't be less than nothing: “-3”. {SUCH_AS}"),
        ("9999", "not-a-repeat", "9999 cm is no repeat to lay for: those are from 0.5 cm to 1 m (1/4 in to 39 in). "
                                 f"What is smaller counts as plain. {SUCH_AS}"),
        ("120", "not-a-repeat", "120 cm is no repeat to lay for: those are from 0.5 cm to 1 m (1/4 in to 39 in). "
                                "What is smaller counts as plain. If you mean millimetres, type 120 mm."),
        ("wide", "not-a-length", f"“wide” is not a repeat. {SUCH_AS}"),
    ],
)  # fmt: skip
def test_what_can_not_be_a_repeat_gets_a_sentence(typed: str, code: str, said: str) -> None:
    found = read_stripes(["woven"], [], OWN, typed, "", "cm")
    assert (found.code, found.said.text, found.each_row_mm) == (code, said, 0)


@pytest.mark.parametrize("asked", ["repeat:velvet", "tartan", "<b>"])
def test_a_pattern_that_nobody_listed_is_refused(asked: str) -> None:
    found = read_stripes(["woven"], LISTED_ONES, asked, "", "", "cm")
    assert (found.code, found.said.text) == ("unknown-repeat", f"“{asked}” is no pattern of cloth that is known here.")
