"""Which combinations the rules allow, as far as a check asks about them: never all combinations blindly."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, Final

from boltside.calculators.choices import HARD, asked_order, breaks, broken, completed
from boltside.calculators.conditions import SIZE, holds, names_in, names_in_all
from boltside.errors import BoltsideError
from boltside.pattern import ALWAYS, Condition
from boltside.read.document import PatternDoc

COMBINATIONS_MAX: Final = 20_000
"""A check that asks about more combinations than this looks at the first ones only. Our choice."""

STEPS_MAX: Final = 200_000
"""So many branches of one pattern's choices are looked at before the reader gives up. Our choice: the
demo shop needs some thousands; this takes a second or two."""


class TooManyCombinations(BoltsideError):
    """The choices and rules of one document can't be looked through."""


def condition(any_of: Sequence[Mapping[str, Sequence[str]]] | None) -> Condition:
    """The document's condition as the models have it."""
    if any_of is None:
        return ALWAYS
    return tuple({name: tuple(words) for name, words in mapping.items()} for mapping in any_of)


class Combinations:
    """The choices and rules of one document, in the form the calculators know."""

    def __init__(self, document: PatternDoc) -> None:
        self.choices: list[dict[str, Any]] = [
            {
                "name": name,
                "default": choice.default,
                "asked_when": condition(choice.asked_when),
                "alternatives": [{"name": one} for one in choice.alternatives],
                "steps_only": choice.steps_only,
            }
            for name, choice in document.choices.items()
        ]
        self.steps = 0
        self.rules: list[dict[str, Any]] = [
            {
                "when": condition(rule.when),
                "needs": condition(rule.needs) if rule.needs is not None else None,
                "excludes": condition(rule.excludes) if rule.excludes is not None else None,
                "only_sizes": rule.only_sizes,
            }
            for rule in document.rules
        ]

    def broken_by_default(self, size: str) -> list[int]:
        """The positions of the rules that forbid the defaults in this size."""
        forbidding = broken(self.rules, completed(self.choices, {SIZE: size}))
        return [at for at, rule in enumerate(self.rules) if any(rule is one for one in forbidding)]

    def over(self, names: Iterable[str], size: str) -> Iterator[dict[str, str]]:
        """What may be chosen for these choices in this size, each combination once, `size` among them.

        A combination is given when some allowed set of all choices contains it. Choices that decide whether one of
        these is asked are given too. Raises: `TooManyCombinations`.
        """
        order = asked_order(self.choices)
        wanted = self._with_questions(set(names))
        order = [one for one in order if one["name"] in wanted] + [one for one in order if one["name"] not in wanted]
        position = {one["name"]: at + 1 for at, one in enumerate(order)}
        due: list[list[dict[str, Any]]] = [[] for _ in range(len(order) + 1)]
        for rule in self.rules:
            if any(rule[kind] is not None for kind in HARD):
                asked = names_in_all([rule["when"], rule["needs"] or (), rule["excludes"] or ()])
                due[max((position.get(name, 0) for name in asked), default=0)].append(rule)

        def grow(depth: int, found: dict[str, str], stop: int) -> Iterator[dict[str, str]]:
            self.steps += 1
            if self.steps > STEPS_MAX:
                raise TooManyCombinations
            if any(breaks(rule, found) for rule in due[depth]):
                return
            if depth == stop:
                yield found
                return
            choice = order[depth]
            if not holds(choice["asked_when"], found):
                yield from grow(depth + 1, found, stop)
                return
            for alternative in choice["alternatives"]:
                yield from grow(depth + 1, {**found, choice["name"]: alternative["name"]}, stop)

        count = sum(one["name"] in wanted for one in order)
        given = 0
        for found in grow(0, {SIZE: size}, count):
            if next(grow(count, found, len(order)), None) is not None:
                yield found
                given += 1
                if given >= COMBINATIONS_MAX:
                    return

    def _with_questions(self, names: set[str]) -> set[str]:
        asked = {one["name"]: names_in(one["asked_when"]) for one in self.choices}
        wanted: set[str] = set()
        while names:
            name = names.pop()
            if name in asked and name not in wanted:
                wanted.add(name)
                names |= set(asked[name])
        return wanted


def told(chosen: Mapping[str, str], *, names: Iterable[str] | None = None) -> str:
    """A combination as messages tell it: the choices asked about, and the size."""
    kept = {name: word for name, word in chosen.items() if names is None or name in set(names) or name == SIZE}
    words = [f"{name} {word}" for name, word in kept.items() if name != SIZE]
    size = f"size {kept[SIZE]}" if SIZE in kept else ""
    return ", ".join([*words, size] if size else words)
