"""Which combinations occur, and short conditions that pick some of them out."""

from __future__ import annotations

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from boltside.calculators.conditions import holds
from boltside.measure.combinations import combinations, condition_for, same_in_all_sizes
from boltside.pattern import Rule

from .handmade import choice, pattern, when

SLEEVES = choice("sleeves", "none", "long")
END = choice("end", "hemmed", "gathered", asked_when=when(sleeves="long"))
LENGTH = choice("length", "waist", "hip")
POCKETS = choice("pockets", "none", "two")
CHOICES = (SLEEVES, END, LENGTH, POCKETS)


def test_only_the_named_choices_and_those_they_hang_on() -> None:
    made = pattern(choices=CHOICES)
    assert combinations(made, [], "92") == [{}]
    assert combinations(made, ["length"], "92") == [{"length": "waist"}, {"length": "hip"}]
    assert combinations(made, ["end", "size"], "92") == [
        {"sleeves": "none"},
        {"sleeves": "long", "end": "hemmed"},
        {"sleeves": "long", "end": "gathered"},
    ]


def test_hard_rules_leave_combinations_out() -> None:
    rule = Rule(when=when(pockets="two"), needs=when(length="hip"), because="x")
    made = pattern(choices=CHOICES, rules=(rule,))
    assert {"length": "waist", "pockets": "two"} not in combinations(made, ["length", "pockets"], "92")
    assert len(combinations(made, ["length", "pockets"], "92")) == 3
    # Alone, each alternative can occur.
    assert len(combinations(made, ["pockets"], "92")) == 2


def test_rules_between_other_choices_count_too() -> None:
    """Long sleeves need two pockets, and two pockets need the hip length."""
    rules = (
        Rule(when=when(sleeves="long"), needs=when(pockets="two"), because="x"),
        Rule(when=when(pockets="two"), needs=when(length="hip"), because="x"),
    )
    found = combinations(pattern(choices=CHOICES, rules=rules), ["sleeves", "length"], "92")
    assert {"sleeves": "long", "length": "waist"} not in found
    assert len(found) == 3


def test_sizes_may_differ() -> None:
    rule = Rule(when=when(end="gathered"), only_sizes=("98",), because="x")
    made = pattern(choices=CHOICES, rules=(rule,), sizes=("92", "98"))
    assert not same_in_all_sizes(made)
    assert [len(combinations(made, ["end"], size)) for size in ("92", "98")] == [2, 3]
    advice = Rule(when=when(end="gathered", size="92"), advice="x")
    assert same_in_all_sizes(pattern(choices=CHOICES, rules=(advice,), sizes=("92", "98")))


UNIVERSE = [
    {"sleeves": sleeves, **({"end": end} if end else {}), "length": length}
    for (sleeves, end), length in product([("none", ""), ("long", "hemmed"), ("long", "gathered")], ["waist", "hip"])
]


@settings(max_examples=64, deadline=None)
@given(bits=st.integers(1, 2 ** len(UNIVERSE) - 1))
def test_law_the_condition_picks_just_the_picked(bits: int) -> None:
    picked = [one for index, one in enumerate(UNIVERSE) if bits >> index & 1]
    condition = condition_for(pattern(choices=CHOICES), UNIVERSE, picked)
    assert [one for one in UNIVERSE if holds(condition, one)] == picked


def test_conditions_are_short() -> None:
    made = pattern(choices=CHOICES)

    def of(**words: str) -> object:
        return condition_for(made, UNIVERSE, [one for one in UNIVERSE if holds(when(**words), one)])

    assert of(length="hip") == when(length="hip")
    assert of(sleeves="long") == when(sleeves="long")
    assert of(end="gathered") == when(end="gathered")
    assert of(end="gathered", length="hip") == when(end="gathered", length="hip")
    assert condition_for(made, UNIVERSE, UNIVERSE) == ()
