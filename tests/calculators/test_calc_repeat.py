"""Repeats: what they add. Rows are counted in `lay/rows.py`."""

from __future__ import annotations

import pytest

from boltside.calculators.repeat import repeat_extra_mm


@pytest.mark.outside  # source: a published worked example: 4 1/4 in x 2 = 8 1/2 in
def test_the_worked_example() -> None:
    assert repeat_extra_mm(4.25 * 25.4, 2) == pytest.approx(8.5 * 25.4)


def test_where_nothing_moves_nothing_is_added() -> None:
    assert repeat_extra_mm(108, 0) == repeat_extra_mm(0, 3) == 0


def test_nothing_below_nothing() -> None:
    for repeat_mm, rows in ((-1, 2), (100, -1)):
        with pytest.raises(ValueError, match="below nothing"):
            repeat_extra_mm(repeat_mm, rows)
