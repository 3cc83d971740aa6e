"""Which combinations of choices exist, and which of them the designer allows.

Works on the spec sheet's plain lists (``sheet["choices"]``, ``sheet["rules"]``). A *set of choices* maps choice
names to alternative names; choices that are not asked are absent, and ``size`` may be among them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from .conditions import SIZE, ConditionJson, holds, names_in, names_in_all

ChoiceJson = Mapping[str, Any]
RuleJson = Mapping[str, Any]

HARD = ("needs", "excludes", "only_sizes")
"""The parts of a rule that forbid; the fourth kind, ``advice``, only speaks."""


def asked_order(choices: Sequence[ChoiceJson]) -> list[ChoiceJson]:
    """The choices in an order in which each comes after those its ``asked_when`` asks about.

    Choices that depend on each other in a circle (the reader refuses them) come last, as listed.
    """
    known = {choice["name"] for choice in choices}
    done: set[str] = set()
    order: list[ChoiceJson] = []
    left = list(choices)
    while left:
        ready = [c for c in left if all(n in done or n not in known for n in names_in(c["asked_when"]))]
        ready = ready or left
        order += ready
        done |= {choice["name"] for choice in ready}
        left = [choice for choice in left if choice["name"] not in done]
    return order


def _in_order(choices: Sequence[ChoiceJson]) -> bool:
    """Whether each choice is listed after those that its ``asked_when`` asks about, as most designers list them."""
    later = {choice["name"] for choice in choices}
    for choice in choices:
        if choice["asked_when"] and any(name in later for mapping in choice["asked_when"] for name in mapping):
            return False
        later.discard(choice["name"])
    return True


def completed(choices: Sequence[ChoiceJson], chosen: Mapping[str, str]) -> dict[str, str]:
    """What was chosen, with defaults filled in and choices that are not asked dropped.

    Arguments: the sheet's choices; what was chosen, perhaps with ``size``, which is kept. A word that is no
    alternative of its choice counts as not chosen; names that are no choice are dropped.
    Returns: a set of choices in the order in which the sheet lists them, ``size`` first.

    >>> sleeves = {"name": "sleeves", "default": "long", "asked_when": [],
    ...            "alternatives": [{"name": "long"}, {"name": "none"}]}
    >>> end = {"name": "end", "default": "hemmed", "asked_when": [{"sleeves": ["long"]}],
    ...        "alternatives": [{"name": "hemmed"}, {"name": "band"}]}
    >>> completed([sleeves, end], {}), completed([sleeves, end], {"sleeves": "none", "end": "band"})
    ({'sleeves': 'long', 'end': 'hemmed'}, {'sleeves': 'none'})
    """
    found: dict[str, str] = {}
    if SIZE in chosen:
        found[SIZE] = chosen[SIZE]
    for choice in choices if _in_order(choices) else asked_order(choices):
        if holds(choice["asked_when"], found):
            word = chosen.get(choice["name"])
            offered = any(alternative["name"] == word for alternative in choice["alternatives"])
            found[choice["name"]] = word if offered and word is not None else choice["default"]
    listed = [SIZE, *(choice["name"] for choice in choices)]
    return {name: found[name] for name in listed if name in found}


def decisive(choices: Sequence[ChoiceJson], conditions: Iterable[ConditionJson]) -> tuple[str, ...]:
    """The names on which the conditions depend, sorted: those they ask about, and whatever decides if these are asked.

    >>> decisive([{"name": "end", "asked_when": [{"sleeves": ["long"]}]}], [[{"end": ["band"]}]])
    ('end', 'sleeves')
    """
    asked_when = {choice["name"]: choice["asked_when"] for choice in choices}
    found: set[str] = set()
    new = set(names_in_all(conditions))
    while new:
        found |= new
        new = set(names_in_all(asked_when.get(name, []) for name in new)) - found
    return tuple(sorted(found))


def breaks(rule: RuleJson, chosen: Mapping[str, str]) -> bool:
    """True when this hard rule forbids the set of choices. Advice never does.

    Arguments: a rule of the sheet; a completed set of choices. Without a ``size`` among them, whatever the rule
    says about sizes is not judged.
    """
    if SIZE not in chosen and _about_size(rule):
        return False
    if not holds(rule["when"], chosen):
        return False
    if rule.get("needs") is not None:
        return not holds(rule["needs"], chosen)
    if rule.get("excludes") is not None:
        return holds(rule["excludes"], chosen)
    if rule.get("only_sizes") is not None:
        return chosen[SIZE] not in rule["only_sizes"]
    return False


def broken(rules: Sequence[RuleJson], chosen: Mapping[str, str]) -> list[RuleJson]:
    """The hard rules that forbid this completed set of choices, in the sheet's order."""
    return [rule for rule in rules if breaks(rule, chosen)]


def allowed(choices: Sequence[ChoiceJson], rules: Sequence[RuleJson], chosen: Mapping[str, str]) -> bool:
    """True when no hard rule forbids the set of choices, defaults filled in.

    Arguments: the sheet's choices and rules; what was chosen, with ``size`` if rules about sizes shall count.
    """
    filled = completed(choices, chosen)
    return not any(breaks(rule, filled) for rule in rules)


def all_allowed(
    choices: Sequence[ChoiceJson], rules: Sequence[RuleJson], size: str, *, steps_too: bool = True
) -> Iterator[dict[str, str]]:
    """Every allowed set of choices in this size, each once, in a fixed order; ``size`` is among the choices.

    Arguments: the sheet's choices and rules; the size; ``steps_too=False`` leaves out choices that only change
    steps (a set is then allowed if some choice of steps makes it so), which is what cloth and pieces need.
    """
    order = asked_order(choices)
    position = {SIZE: 0} | {choice["name"]: at + 1 for at, choice in enumerate(order)}
    due: list[list[RuleJson]] = [[] for _ in range(len(order) + 1)]
    for rule in rules:
        if any(rule.get(kind) is not None for kind in HARD):
            names = names_in_all([rule["when"], rule.get("needs") or [], rule.get("excludes") or []])
            due[max((position.get(name, 0) for name in names), default=0)].append(rule)
    listed = [SIZE, *(c["name"] for c in choices if steps_too or not c["steps_only"])]
    seen: set[tuple[tuple[str, str], ...]] = set()

    def grow(depth: int, found: dict[str, str]) -> Iterator[dict[str, str]]:
        # A rule is judged as soon as the last choice it asks about is made, so hopeless branches end early.
        if any(breaks(rule, found) for rule in due[depth]):
            return
        if depth == len(order):
            kept = {name: found[name] for name in listed if name in found}
            key = tuple(kept.items())
            if steps_too:
                yield kept
            elif key not in seen:
                seen.add(key)
                yield kept
            return
        choice = order[depth]
        if not holds(choice["asked_when"], found):
            yield from grow(depth + 1, found)
            return
        for alternative in choice["alternatives"]:
            yield from grow(depth + 1, {**found, choice["name"]: alternative["name"]})

    return grow(0, {SIZE: size})


def _about_size(rule: RuleJson) -> bool:
    if rule.get("only_sizes") is not None:
        return True
    return SIZE in names_in_all([rule["when"], rule.get("needs") or [], rule.get("excludes") or []])
