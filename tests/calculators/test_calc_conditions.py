"""Conditions: any of the mappings, all of a mapping, the empty list always."""

from __future__ import annotations

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
