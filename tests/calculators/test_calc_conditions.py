"""Conditions: any of the mappings, all of a mapping, the empty list always."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.conditions import holds, names_in, names_in_all

NAMES = st.sampled_from(["length", "sleeves", "size"])
WORDS = st.sampled_from(["a", "b", "c"])
MAPPINGS = st.dictionaries(NAMES, st.lists(WORDS, min_size=1, max_size=3), min_size=1)
CONDITIONS = st.lists(MAPPINGS, max_size=3)
CHOSEN = st.dictionaries(NAMES, WORDS)


def test_empty_condition_always_holds() -> None:
    assert holds([], {}) and holds((), {"length": "hip"})


def test_every_key_of_a_mapping_must_hold() -> None:
    both = [{"length": ["hip"], "sleeves": ["long"]}]
    assert holds(both, {"length": "hip", "sleeves": "long"})
    assert not holds(both, {"length": "hip", "sleeves": "none"})


def test_one_mapping_of_a_list_is_enough() -> None:
    either = [{"length": ["hip"]}, {"sleeves": ["long"]}]
    assert holds(either, {"length": "waist", "sleeves": "long"})
    assert not holds(either, {"length": "waist", "sleeves": "none"})


@given(CONDITIONS, CHOSEN)
def test_law_absent_name_never_holds(condition: list[dict[str, list[str]]], chosen: dict[str, str]) -> None:
    asked = [mapping for mapping in condition if set(mapping) <= set(chosen)]
    assert holds(condition, chosen) == (not condition or (bool(asked) and holds(asked, chosen)))


@given(CONDITIONS, CHOSEN, CHOSEN)
def test_law_only_the_names_asked_about_matter(
    condition: list[dict[str, list[str]]], chosen: dict[str, str], other: dict[str, str]
) -> None:
    kept = {name: word for name, word in chosen.items() if name in names_in(condition)}
    others = {name: word for name, word in other.items() if name not in names_in(condition)}
    assert holds(condition, {**others, **kept}) == holds(condition, chosen)


@given(st.lists(CONDITIONS, max_size=3))
def test_law_names_in_all_is_the_union(conditions: list[list[dict[str, list[str]]]]) -> None:
    assert set(names_in_all(conditions)) == {name for one in conditions for name in names_in(one)}


@pytest.mark.outside  # counted on paper, by inclusion and exclusion
@pytest.mark.parametrize(
    ("condition", "count"),
    # a has 3 words, b 4, c 2: 24 sets. One word of a: 4 x 2 = 8. Two words of b: 3 x 2 x 2 = 12. Both at once: 2 x 2 =
    # 4. Either: 8 + 12 - 4 = 16. One of a, or one of b, or one of c: 24 less those with none of them, 2 x 3 x 1 = 18.
    [
        ([], 24), ([{"a": ["a0"]}], 8), ([{"b": ["b0", "b1"]}], 12), ([{"a": ["a0"], "b": ["b0", "b1"]}], 4),
        ([{"a": ["a0"]}, {"b": ["b0", "b1"]}], 16), ([{"a": ["a0"]}, {"b": ["b0"]}, {"c": ["c0"]}], 18),
        ([{"a": []}], 0), ([{"d": ["d0"]}], 0),
    ],
)  # fmt: skip
def test_a_condition_holds_as_often_as_on_paper(condition: list[dict[str, list[str]]], count: int) -> None:
    sets = product(*([(name, f"{name}{at}") for at in range(many)] for name, many in (("a", 3), ("b", 4), ("c", 2))))
    assert sum(holds(condition, dict(one)) for one in sets) == count
