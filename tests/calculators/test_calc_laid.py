"""Which lay answers: covering, next narrower width, nap."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.laid import Laid, lay_rows, shortest

Ask = Callable[..., dict[str, dict[str, Any]]]
SETS = [["back", "front", "pocket"], ["back", "front"]]
ROWS = [[[1100, 812, 0, 4], [1400, 705, 1, 2]], [[1100, 700, 2, 3], [1400, 640, 3, 2]]]


def test_the_set_that_is_exactly_the_pieces_answers() -> None:
    assert shortest(SETS, ROWS, {"front", "back"}, 1400) == Laid(1400, 640, 1, 3, 2)
    assert shortest(SETS, ROWS, {"front", "back", "pocket"}, 1400) == Laid(1400, 705, 0, 1, 2)


def test_a_set_that_was_never_laid_is_answered_by_the_shortest_that_contains_it() -> None:
    assert shortest(SETS, ROWS, {"pocket"}, 1400) == Laid(1400, 705, 0, 1, 2)
    assert shortest(SETS, ROWS, {"front"}, 1400) == Laid(1400, 640, 1, 3, 2)
    assert shortest(SETS, ROWS, {"front", "collar"}, 1400) is None


def test_the_next_narrower_width_answers() -> None:
    assert shortest(SETS, ROWS, {"front"}, 1399) == Laid(1100, 700, 1, 2, 3)
    assert shortest(SETS, ROWS, {"front"}, 9000) == Laid(1400, 640, 1, 3, 2)
    assert shortest(SETS, ROWS, {"front"}, 1099) is None


def test_of_equal_lengths_the_widest_lay_is_named() -> None:
    rows = [[[1100, 700, 0, 2]], [[1400, 700, 1, 2]]]
    assert shortest([["front", "back"], ["front", "pocket"]], rows, {"front"}, 1500) == Laid(1400, 700, 1, 1, 2)


PIECES = ["back", "front", "pocket", "sleeve"]
SETS_OF = st.lists(st.lists(st.sampled_from(PIECES), unique=True, min_size=1), min_size=1, max_size=4)


@st.composite
def published(draw: st.DrawFn, sets: list[list[str]]) -> list[list[list[int]]]:
    """Steps for each set, as the build publishes them: width growing, length falling, a part never longer."""
    lengths = {}
    for at in sorted(range(len(sets)), key=lambda at: -len(set(sets[at]))):
        own = draw(st.lists(st.integers(1, 3000), min_size=3, max_size=3))
        wholes = [lengths[other] for other in lengths if set(sets[at]) <= set(sets[other])]
        row = [min([own[step], *(whole[step] for whole in wholes)]) for step in range(3)]
        lengths[at] = [min(row[: step + 1]) for step in range(3)]
    rows = []
    for at in range(len(sets)):
        steps: list[list[int]] = []
        for width, length in zip((900, 1100, 1400), lengths[at], strict=True):
            if not steps or length < steps[-1][1]:
                steps.append([width, length, 0, 2])
        rows.append(steps)
    return rows


@given(SETS_OF, st.data())
def test_law_more_pieces_and_narrower_cloth_never_need_less(sets: list[list[str]], data: st.DataObject) -> None:
    rows = data.draw(published(sets))
    some = data.draw(st.sets(st.sampled_from(PIECES)))
    more = some | data.draw(st.sets(st.sampled_from(PIECES)))
    width = data.draw(st.integers(500, 2000))
    few, many = shortest(sets, rows, some, width), shortest(sets, rows, more, width)
    if many is not None:
        assert few is not None and few.length_mm <= many.length_mm
    wider = shortest(sets, rows, some, width + 300)
    if few is not None:
        assert wider is not None and wider.length_mm <= few.length_mm


def test_where_only_lays_with_nap_were_made_they_serve(sheet: dict[str, Any]) -> None:
    only = {"lays": {"outer": {"flat": {"with": {"92": [[[1100, 5, 0, 0]]]}}}}}
    assert lay_rows(only, "outer", "flat", "without", "92") == [[[1100, 5, 0, 0]]]
    other = {"lays": {"outer": {"flat": {"without": {"92": [[[1100, 5, 0, 0]]]}}}}}
    assert lay_rows(other, "outer", "flat", "with", "92") == []
