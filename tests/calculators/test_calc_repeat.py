"""Repeats: rows of pieces along the length, and what they add."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.repeat import TOUCHING_MM, repeat_extra_mm, rows_along

EXTENTS = st.lists(st.tuples(st.integers(0, 1500), st.integers(3, 800)).map(lambda at: (at[0], at[0] + at[1])))


@pytest.mark.outside  # source: a published worked example: 4 1/4 in x 2 = 8 1/2 in; pieces side by side take none
def test_the_worked_example() -> None:
    repeat_mm = 4.25 * 25.4
    assert repeat_extra_mm(repeat_mm, 2) == pytest.approx(8.5 * 25.4)
    assert repeat_extra_mm(repeat_mm, 1) == repeat_extra_mm(repeat_mm, 0) == 0


def test_pieces_one_after_another_make_rows_and_side_by_side_ones_do_not() -> None:
    assert rows_along([]) == 0
    assert rows_along([(0, 300), (300, 600), (600, 900)]) == 1
    assert rows_along([(0, 300), (301, 600), (0, 600)]) == 2
    assert rows_along([(0, 900), (100, 200), (150, 400), (390, 800)]) == 3
    assert rows_along([(0, 300), (299, 600)]) == 1  # they share less than what whole millimetres tell


@given(EXTENTS)
@pytest.mark.outside  # source: counted line by line
def test_law_some_line_meets_as_many_and_none_more(extents: list[tuple[int, int]]) -> None:
    lines = {low + 0.5 for low, _ in extents}
    met = [sum(low < line < high - TOUCHING_MM for low, high in extents) for line in lines]
    assert rows_along(extents) == max(met, default=0)


@given(EXTENTS, st.tuples(st.integers(0, 1500), st.integers(3, 800)))
def test_law_another_piece_adds_one_row_at_most(extents: list[tuple[int, int]], one: tuple[int, int]) -> None:
    more = rows_along([*extents, (one[0], one[0] + one[1])])
    assert rows_along(extents) <= more <= rows_along(extents) + 1


def test_nothing_below_nothing() -> None:
    for repeat_mm, rows in ((-1, 2), (100, -1)):
        with pytest.raises(ValueError, match="below nothing"):
            repeat_extra_mm(repeat_mm, rows)
