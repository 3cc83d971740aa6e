"""What was typed of the child."""

from __future__ import annotations

from typing import Any

import pint
import pytest

from boltside.calculators.child import read_age, read_child


@pytest.mark.parametrize(
    ("typed", "months"),
    [("2", 24), ("2,5", 30), ("2 1/2", 30), ("18 months", 18), ("18m", 18), ("1y 6m", 18), ("1 year, 6 months", 18),
     ("12 weeks", 2.8), ("1/2", 6), ("１８ months", 18), ("14", 168)],
)  # fmt: skip
def test_ages_as_people_type_them(typed: str, months: float) -> None:
    assert read_age(typed).months == months


@pytest.mark.parametrize("typed", ["x", "6/0", "3 years 2 years", "6 months 1 year", "-2", "1 2", "2 cm", "9" * 60])
def test_what_is_no_age_gets_a_sentence(typed: str) -> None:
    age = read_age(typed)
    assert age.months is None and age.code == "not-an-age" and age.said.text


def test_too_old_is_perhaps_months() -> None:
    said = read_age("18").said.text
    assert said == "An age of 18 years is too old for these sizes. If you mean months, type 18 months."
    assert read_age("200 months").said.text == "An age of “200 months” is too old for these sizes."


def test_nothing_typed_is_nothing() -> None:
    assert read_age("  ").months is None and read_age("").code is None


def test_the_trunk_is_asked_for_only_where_it_decides(sheet: dict[str, Any]) -> None:
    columns = [*sheet["body"]["columns"], "trunk"]
    asked = {"trunk": "95", "height": "90"}
    body = {**sheet["body"], "columns": columns}
    assert "trunk" not in read_child({**sheet, "body": body}, asked).mm
    by_trunk = {**sheet, "body": body, "size_by": ["trunk"]}
    assert read_child(by_trunk, asked).mm == {"height": 900.0, "trunk": 950.0}


@pytest.mark.outside  # the unit tables of pint: a week of 7 days, a year of 365.25 days in 12 months
@pytest.mark.parametrize("weeks", [3, 6, 13, 26, 40, 52, 70, 104])
def test_weeks_are_as_many_months_as_pint_says(weeks: int) -> None:
    months = pint.UnitRegistry().Quantity(weeks, "week").to("month").magnitude
    assert read_age(f"{weeks} weeks").months == pytest.approx(months, abs=0.0501)  # told in tenths


@pytest.mark.outside  # Snyder et al. 1977, P5 and P95 at 86 and 128 cm of height; WHO, P3 and P97 at 3 and 96 months
@pytest.mark.parametrize(
    ("column", "low_cm", "high_cm"),
    [("height", "55.8", "137.9"), ("chest", "45.0", "68.4"), ("waist", "42.3", "65.7"), ("hip", "44.3", "72.0")],
)
def test_every_measured_child_can_be_typed(sheet: dict[str, Any], column: str, low_cm: str, high_cm: str) -> None:
    for typed in (low_cm, high_cm):
        assert read_child(sheet, {column: typed}).mm == {column: pytest.approx(10 * float(typed))}
