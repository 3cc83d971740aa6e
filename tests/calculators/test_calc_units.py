"""Units and rounding, against pint and against fractions done by hand."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators import units

TENTHS = st.integers(0, 60_000).map(lambda tenths: tenths / 10)


@pytest.mark.outside  # source: the pint library's unit tables
def test_units_are_those_of_pint() -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    for mm, name in [
        (units.MM_PER_CM, "centimeter"),
        (units.MM_PER_M, "meter"),
        (units.MM_PER_IN, "inch"),
        (units.MM_PER_FT, "foot"),
        (units.MM_PER_YD, "yard"),
    ]:
        assert float(registry(name).to("millimeter").magnitude) == pytest.approx(mm, rel=1e-12)
    eighth = (registry("yard") / 8).to("centimeter").magnitude
    assert pytest.approx(eighth, rel=1e-12) == units.EIGHTH_YARD_MM / 10


@pytest.mark.outside  # source: trade handbook, "1/8 yd (11.43 cm); 1 yd = 0.9144 m"
def test_an_eighth_of_a_yard() -> None:
    assert pytest.approx(11.43) == units.EIGHTH_YARD_MM / 10
    assert pytest.approx(0.9144) == units.MM_PER_YD / 1000


@pytest.mark.outside  # source: unit tables, 40 ligne = 25.4 mm; sizes 14-20 ligne for 9-13 mm are common practice
@pytest.mark.parametrize(("mm", "ligne"), [(25.4, 40), (9, 14), (12.7, 20), (13, 20)])
def test_lignes(mm: float, ligne: int) -> None:
    assert units.lignes(mm) == ligne


@given(TENTHS)
@pytest.mark.outside  # source: exact arithmetic with Python's fractions
def test_law_amounts_to_buy_round_up_to_the_next_step(mm: float) -> None:
    exact = Fraction(round(mm * 10), 10)
    buy = Fraction(units.buy_mm(mm))
    assert buy % 50 == 0 and exact <= buy < exact + 50
    yards = units.eighth_yards(mm) * Fraction(1143, 10)
    assert exact <= yards < exact + Fraction(1143, 10)


@given(TENTHS)
def test_law_what_is_needed_is_never_shown_too_short(mm: float) -> None:
    shown = units.needed(mm)
    assert Fraction(shown.cm.removesuffix(" m")) * 1000 >= Fraction(round(mm * 10), 10)
    assert _inches(shown.inch) * Fraction(254, 10) >= Fraction(round(mm * 10), 10)
    least = units.width_up(mm)
    assert Fraction(least.cm.removesuffix(" cm")) * 10 >= Fraction(round(mm * 10), 10)
    assert _inches(least.inch) * Fraction(254, 10) >= Fraction(round(mm * 10), 10)


@given(TENTHS)
def test_law_measurements_are_shown_to_the_nearest_step(mm: float) -> None:
    shown = units.measured(mm)
    assert abs(Fraction(shown.cm.removesuffix(" cm")) * 10 - Fraction(round(mm * 10), 10)) <= Fraction(1, 2)
    assert abs(_inches(shown.inch) * Fraction(254, 10) - Fraction(round(mm * 10), 10)) <= Fraction(254, 160)


@given(st.integers(0, 400), st.sampled_from([2, 4, 8, 16]))
def test_law_mixed_numbers_are_in_lowest_terms(parts: int, whole: int) -> None:
    text = units.mixed(parts, whole)
    assert _inches(f"{text} in") == Fraction(parts, whole)
    if "/" in text:
        above, below = text.split()[-1].split("/")
        assert Fraction(int(above), int(below)).denominator == int(below)


def _inches(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.removesuffix(" in").split()), Fraction(0))


@pytest.mark.parametrize(
    ("mm", "cm", "inch"),
    [
        (1370, "137 cm", "54 in"),
        (1371.6, "137.2 cm", "54 in"),
        (900, "90 cm", "35 1/2 in"),
        (1100, "110 cm", "43 1/4 in"),
    ],
)
def test_widths(mm: float, cm: str, inch: str) -> None:
    assert units.width(mm) == units.Shown(cm, inch)


def test_negative_measurements_keep_their_sign() -> None:
    assert units.measured(-20).cm == "−2 cm"
    assert units.measured(-0.4).cm == "0 cm"
