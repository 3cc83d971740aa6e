"""The fewest sets: against trying everything, and against numbers that mathematicians have proven."""

from __future__ import annotations

from functools import reduce
from itertools import combinations, product
from operator import or_

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.samples import cover
from boltside.samples.cover import Cover, apart, fewest

FAMILIES = st.lists(st.integers(min_value=0, max_value=2**9 - 1), min_size=0, max_size=9)


def by_trying(sets: list[int]) -> int:
    """The least number of sets that contain everything, by trying all selections."""
    everything = reduce(or_, sets, 0)
    for count in range(len(sets) + 1):
        if any(reduce(or_, some, 0) == everything for some in combinations(sets, count)):
            return count
    raise AssertionError("all sets together contain everything")


@given(FAMILIES)
def test_it_is_the_fewest_and_proven(sets: list[int]) -> None:
    found = fewest(sets)
    assert reduce(or_, (sets[at] for at in found.chosen), 0) == reduce(or_, sets, 0)
    assert len(found.chosen) == found.at_least == by_trying(sets)
    assert found == fewest(sets)


@given(FAMILIES, st.integers(min_value=1, max_value=40))
def test_with_little_allowance_it_claims_no_more_than_is_so(sets: list[int], looks: int) -> None:
    found = fewest(sets, looks=looks)
    assert reduce(or_, (sets[at] for at in found.chosen), 0) == reduce(or_, sets, 0)
    assert found.at_least <= by_trying(sets) <= len(found.chosen)


@given(FAMILIES, st.lists(st.integers(min_value=0, max_value=2**9 - 1), max_size=3))
def test_bounds_from_parts_are_never_too_high(sets: list[int], parts: list[int]) -> None:
    found = fewest(sets, parts, looks=20)
    assert found.at_least <= by_trying(sets) <= len(found.chosen)
    assert apart(sets) <= by_trying(sets)


def test_nothing_takes_nothing() -> None:
    assert fewest([]) == fewest([0, 0]) == Cover(chosen=(), at_least=0)


def test_many_sets_are_not_compared_with_each_other(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cover, "_MANY", 2)
    assert fewest([0b1, 0b11, 0b11, 0b110, 0b1000]) == Cover(chosen=(1, 3, 4), at_least=3)


def every_row(columns: int, signs: int) -> tuple[list[int], list[int]]:
    """The rows of an array as sets of what they show in two columns each; and, as parts, the first three to six
    columns."""
    places: dict[tuple[int, int, int, int], int] = {}
    rows = []
    for row in product(range(signs), repeat=columns):
        pairs = [(one, row[one], other, row[other]) for one, other in combinations(range(columns), 2)]
        rows.append(sum(1 << places.setdefault(pair, len(places)) for pair in pairs))
    parts = [sum(1 << place for pair, place in places.items() if pair[2] < count) for count in range(3, 7)]
    return rows, parts


# Kleitman and Spencer 1973, Theorem 1, and Katona 1973: two signs, strength two, k columns take the least number N of
# rows with C(N - 1, ceil(N / 2)) >= k. Seen in the public tables of bounds of covering arrays (ca-tools,
# lower_bounds.csv), which list it for k to 3, 4, 10, 15: 4, 5, 6, 7 rows.
BINARY = {2: 4, 3: 4, 4: 5, 5: 6, 6: 6, 7: 6, 8: 6, 9: 6, 10: 6}


@pytest.mark.outside
@pytest.mark.parametrize(("columns", "rows"), BINARY.items())
def test_known_numbers_of_binary_covering_arrays(columns: int, rows: int) -> None:
    sets, parts = every_row(columns, 2)
    found = fewest(sets, parts)
    assert len(found.chosen) == found.at_least == rows


@pytest.mark.outside
def test_eleven_columns_take_seven_rows_and_six_are_proven() -> None:
    """The same theorem: 7. The search finds 7 and can prove no more than 6, and so it says."""
    sets, parts = every_row(11, 2)
    found = fewest(sets, parts)
    assert len(found.chosen) == 7
    assert found.at_least in (6, 7)


@pytest.mark.outside
@pytest.mark.parametrize(("columns", "signs"), [(3, 3), (4, 3), (3, 4)])
def test_orthogonal_arrays_take_the_square_of_their_signs(columns: int, signs: int) -> None:
    """From memory: orthogonal arrays OA(9, 4, 3, 2) and OA(16, 5, 4, 2) exist; their rows show each pair once."""
    sets, parts = every_row(columns, signs)
    found = fewest(sets, parts)
    assert len(found.chosen) == found.at_least == signs**2
