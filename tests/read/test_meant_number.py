"""Numbers written the wrong way, and what the reader takes them for."""

from __future__ import annotations

import pytest

from boltside.read.meant_number import UNITS_MM, Bounds, asked_unit, mend_of_number, mend_of_text

LENGTH = Bounds(low=0, high=200, in_mm=True)
BODY = Bounds(low=1, high=3_000, in_mm=True, whole=True)
COUNT = Bounds(low=1, high=5, whole=True)
TIMES = Bounds(low=-100, high=100)


@pytest.mark.parametrize(
    ("text", "bounds", "mend"),
    [
        ("10,5", LENGTH, "write 10.5 with a point"),
        ("10,5 mm", LENGTH, "write 10.5 with a point and without the unit"),
        ("10mm", LENGTH, "leave the unit out: 10"),
        ("1,5 cm", LENGTH, "lengths are in mm: write 15"),
        ('1/2"', LENGTH, None),
        ('1"', LENGTH, "lengths are in mm: write 25.4"),
        ("1 m", LENGTH, "lengths are in mm: write a number from 0 to 200"),
        ("1,400", LENGTH, "write 1.4 with a point"),
        ("1,400", BODY, "write 1400 without the comma"),
        (
            "1,400",
            Bounds(low=0, high=10_000, low_is_in=False, in_mm=True),
            "write 1400 without the comma, or 1.4 with a point",
        ),
        ("2,5", COUNT, None),
        ("2,5", TIMES, "write 2.5 with a point"),
        ("2 mm", TIMES, None),
        ("an hour", COUNT, None),
        ("", LENGTH, None),
    ],
)
def test_text_that_is_nearly_a_number(text: str, bounds: Bounds, mend: str | None) -> None:
    assert mend_of_text(text, bounds) == mend


def test_number_out_of_bounds() -> None:
    assert mend_of_number(6, COUNT, "difficulty") == "write a whole number from 1 to 5 for `difficulty`"
    assert mend_of_number(-3, COUNT, "count") == "did you mean 3, without the minus?"


def test_unit_is_asked_only_where_it_would_fit() -> None:
    assert asked_unit(52.5, BODY) == "was it meant in centimetres (then write 525) or in inches (then write 1334)?"
    assert asked_unit(200.5, BODY) == "was it meant in centimetres (then write 2005)?"
    assert asked_unit(800.5, BODY) is None


@pytest.mark.outside
def test_inch() -> None:
    """The international yard and pound agreement of 1959: one inch is 25.4 mm exactly."""
    assert UNITS_MM["in"] == 25.4
