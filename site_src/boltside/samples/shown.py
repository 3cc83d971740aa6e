"""What can be shown of a pattern, and by which garments? Steps and pairs of alternatives; sizes with sets of choices.

Two alternatives *meet* where an allowed set of some size has both. A pattern with a single choice has no pairs, so each
alternative counts by itself as well.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, islice
from typing import Any, Final

from boltside.calculators.choices import all_allowed
from boltside.calculators.conditions import SIZE, holds
from boltside.pattern import Pattern
from boltside.spec.json_form import choice_json, condition_json, rule_json

MOST_SETS: Final = 20_000
"""Of more sets than this in one size only so many are looked at; then nothing is called the fewest."""

Word = tuple[str, str]
"""A choice and one of its alternatives."""


@dataclass(frozen=True)
class Step:
    """A step of the guide, by its place (from 0) and its title."""

    at: int
    title: str


@dataclass(frozen=True)
class Option:
    """An alternative by itself."""

    word: Word


@dataclass(frozen=True)
class Pair:
    """Two alternatives that meet, in the order of the pattern's choices."""

    first: Word
    second: Word


Thing = Step | Option | Pair


@dataclass(frozen=True, kw_only=True)
class Sewable:
    """A garment that can be sewn: a size, its choices, and all that it shows, steps first, in the pattern's order."""

    size: str
    choices: Mapping[str, str]
    shows: tuple[Thing, ...]


@dataclass(frozen=True, kw_only=True)
class Guide:
    """What of a pattern matters here, as the spec sheet has it, so that no lay has to be known."""

    name: str
    title: str
    edition: str
    sizes: Sequence[str]
    choices: Sequence[Mapping[str, Any]]
    rules: Sequence[Mapping[str, Any]]
    steps: Sequence[Mapping[str, Any]]


def guide_of(pattern: Pattern) -> Guide:
    """The guide of a pattern."""
    return Guide(
        name=pattern.folder,
        title=pattern.name,
        edition=str(pattern.edition),
        sizes=pattern.sizes,
        choices=[choice_json(choice) for choice in pattern.choices],
        rules=[rule_json(rule) for rule in pattern.rules],
        steps=[{"title": step.plain_title, "when": condition_json(step.when)} for step in pattern.steps],
    )


def sewables(guide: Guide) -> tuple[list[Sewable], bool]:
    """Every garment that can be sewn and shows what no earlier size of the same choices shows; and whether these are
    all, or the pattern has too many.

    Sizes from the middle of the run come first: they are the ones to sew unless something is shown in another only.
    """
    found: list[Sewable] = []
    seen: dict[tuple[tuple[str, str], ...], list[frozenset[Thing]]] = {}
    whole = True
    middle = len(guide.sizes) // 2
    for size in sorted(guide.sizes, key=lambda one: abs(guide.sizes.index(one) - middle)):
        every = list(islice(all_allowed(guide.choices, guide.rules, size), MOST_SETS + 1))
        whole = whole and len(every) <= MOST_SETS
        for chosen in every[:MOST_SETS]:
            choices = {name: word for name, word in chosen.items() if name != SIZE}
            shows = tuple(_shown(guide, chosen, choices))
            before = seen.setdefault(tuple(choices.items()), [])
            if not any(frozenset(shows) <= one for one in before):
                before.append(frozenset(shows))
                found.append(Sewable(size=size, choices=choices, shows=shows))
    return found, whole


def _shown(guide: Guide, chosen: Mapping[str, str], choices: Mapping[str, str]) -> Iterator[Thing]:
    for at, step in enumerate(guide.steps):
        if holds(step["when"], chosen):
            yield Step(at, step["title"])
    words = list(choices.items())
    yield from (Option(word) for word in words)
    yield from (Pair(first, second) for first, second in combinations(words, 2))


def never_shown(guide: Guide, all_garments: Sequence[Sewable]) -> list[Step]:
    """The steps that no garment has."""
    seen = {thing for garment in all_garments for thing in garment.shows}
    every = [Step(at, step["title"]) for at, step in enumerate(guide.steps)]
    return [step for step in every if step not in seen]
