"""Plans of samples: everything is shown, nothing is claimed that trying everything does not bear out."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from boltside.calculators.choices import all_allowed, allowed
from boltside.calculators.conditions import SIZE, holds
from boltside.read.folder import read_patterns
from boltside.samples import shown
from boltside.samples.plan import SamplePlan, sample_plan
from boltside.samples.shown import Guide, Option, Pair, Step, guide_of, sewables

DATA = Path(__file__).parents[2] / "data"


def choice(name: str, *words: str, asked_when: list[Any] | None = None) -> dict[str, Any]:
    alternatives = [{"name": word, "title": word} for word in words]
    return {"name": name, "title": name, "default": words[0], "steps_only": False, "asked_when": asked_when or [],
            "alternatives": alternatives}  # fmt: skip


def rule(when: list[Any], **forbids: Any) -> dict[str, Any]:
    return {"when": when, "needs": None, "excludes": None, "only_sizes": None, "advice": None, "because": ""} | forbids


def guide(choices: list[Any], rules: list[Any] | None = None, steps: list[Any] | None = None,
          sizes: tuple[str, ...] = ("86", "92", "98")) -> Guide:  # fmt: skip
    every = [{"title": title, "when": when} for title, when in steps or []]
    named = {"name": "tryout", "title": "Tryout", "edition": "1"}
    return Guide(**named, sizes=sizes, choices=choices, rules=rules or [], steps=every)


SMALL = {
    "one choice": guide([choice("a", "x", "y", "z")]),
    "no choice": guide([], steps=[("Sew", [])]),
    "two by three": guide([choice("a", "x", "y"), choice("b", "p", "q", "r")]),
    "three": guide([choice("a", "x", "y"), choice("b", "p", "q"), choice("c", "m", "n")]),
    "asked": guide([choice("a", "x", "y"), choice("b", "p", "q", asked_when=[{"a": ["x"]}]), choice("c", "m", "n")]),
    "forbidden": guide(
        [choice("a", "x", "y"), choice("b", "p", "q"), choice("c", "m", "n")],
        [rule([{"a": ["x"]}], excludes=[{"b": ["p"]}])],
    ),
    "sizes": guide(
        [choice("a", "x", "y"), choice("b", "p", "q")],
        [rule([{"a": ["x"]}], only_sizes=["98"])],
        [("For all", []), ("Small only", [{"size": ["86"]}]), ("With x", [{"a": ["x"]}])],
    ),
    "steps decide": guide(
        [choice("a", "x", "y"), choice("b", "p", "q")],
        steps=[("1", [{"a": ["x"], "b": ["p"], "size": ["86"]}]), ("2", [{"a": ["x"], "b": ["p"], "size": ["98"]}])],
    ),
}


def everything(one: Guide) -> set[Any]:
    """What can be shown, from the definition."""
    found: set[Any] = set()
    for size in one.sizes:
        for chosen in all_allowed(one.choices, one.rules, size):
            words = [(name, word) for name, word in chosen.items() if name != SIZE]
            found |= {Option(word) for word in words} | {Pair(*two) for two in combinations(words, 2)}
            steps = [Step(at, step["title"]) for at, step in enumerate(one.steps) if holds(step["when"], chosen)]
            found |= set(steps)
    return found


def check(plan: SamplePlan, one: Guide) -> None:
    """What holds for every plan."""
    seen: set[Any] = set()
    for sample in plan.samples:
        garment = sample.garment
        chosen = {**garment.choices, SIZE: garment.size}
        assert allowed(one.choices, one.rules, chosen) and garment.size in one.sizes
        assert all(holds(one.steps[step.at]["when"], chosen) for step in sample.takes)
        new = [*sample.takes, *sample.options, *sample.pairs]
        assert set(new) == set(garment.shows) - seen and len(new) == len(set(new))
        assert new, "this garment shows nothing that an earlier one does not"
        seen |= set(garment.shows)
    assert seen == everything(one)
    assert plan.at_least <= len(plan.samples)
    shown_steps = {thing.at for thing in seen if isinstance(thing, Step)}
    assert {step.at for step in plan.never} == set(range(len(one.steps))) - shown_steps


@pytest.mark.parametrize("one", SMALL.values(), ids=SMALL)
def test_small_patterns_get_the_fewest_by_trying_everything(one: Guide) -> None:
    plan = sample_plan(one)
    check(plan, one)
    wanted = everything(one)
    every = [set(garment.shows) for garment in sewables(one)[0]]
    for count in range(len(every) + 1):
        if any(set().union(*some) == wanted for some in combinations(every, count)):
            break
    assert len(plan.samples) == plan.at_least == count


PATTERNS = {pattern.folder: pattern for pattern in read_patterns(DATA)}


@pytest.mark.parametrize("name", PATTERNS)
def test_the_demo_patterns_are_shown_whole(name: str) -> None:
    one = guide_of(PATTERNS[name])
    plan = sample_plan(one, looks=400_000)
    check(plan, one)
    assert plan.whole and not plan.never
    assert len(plan.samples) <= plan.at_least + 3
    assert plan == sample_plan(one, looks=400_000)


def test_of_too_many_sets_nothing_is_claimed_but_what_is_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shown, "MOST_SETS", 7)
    one = guide([choice(name, "x", "y") for name in "abcd"])
    plan = sample_plan(one)
    assert not plan.whole
    assert plan.at_least <= 4


def test_steps_that_nobody_has_are_told() -> None:
    one = guide([choice("a", "x", "y")], steps=[("Sew", []), ("Never", [{"a": ["z"]}])])
    assert sample_plan(one).never == (Step(1, "Never"),)
