"""Which combinations of a few choices can occur? And which condition picks out some of them?

Only the named choices are run through, and those that decide whether they are asked; never all combinations.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from boltside.calculators.choices import all_allowed, asked_order
from boltside.calculators.conditions import SIZE, holds, names_in, names_in_all
from boltside.pattern import Choice, Condition, Pattern, Rule

Combination = dict[str, str]


def combinations(pattern: Pattern, names: Iterable[str], size: str) -> list[Combination]:
    """Every way in which the named choices (and those they hang on) can stand in an allowed set of choices.

    Arguments: the pattern, the choices of interest (``size`` among them is ignored), and the size. Choices that are
    not asked in a combination are absent from it. The order is that of the pattern's choices and alternatives.
    """
    choices = [_choice_json(choice) for choice in pattern.choices]
    rules = [_rule_json(rule) for rule in pattern.rules if rule.advice is None]
    wanted = _hang_on(choices, names)
    ruled = names_in_all(condition for rule in rules for condition in _conditions_of(rule))
    # What no rule mentions can't make a combination impossible, so it is left out of the search.
    relevant = _hang_on(choices, [*wanted, *ruled])
    searched = [choice for choice in choices if choice["name"] in relevant]
    found: list[Combination] = [{}]
    for choice in (choice for choice in asked_order(choices) if choice["name"] in wanted):
        grown: list[Combination] = []
        for combination in found:
            if not holds(choice["asked_when"], {**combination, SIZE: size}):
                grown.append(combination)
            else:
                grown += [{**combination, choice["name"]: word["name"]} for word in choice["alternatives"]]
        found = grown
    return [combination for combination in found if _can_occur(searched, rules, combination, size)]


def same_in_all_sizes(pattern: Pattern) -> bool:
    """True when neither rules nor questions depend on the size, so that one size's combinations are every size's."""
    rules = [rule for rule in pattern.rules if rule.advice is None]
    return not any(rule.only_sizes is not None for rule in rules) and SIZE not in names_in_all(
        [
            *(condition for rule in rules for condition in (rule.when, rule.needs or (), rule.excludes or ())),
            *(choice.asked_when for choice in pattern.choices),
        ]
    )


def condition_for(
    pattern: Pattern, universe: Sequence[Mapping[str, str]], picked: Sequence[Mapping[str, str]]
) -> Condition:
    """A short condition that holds for the picked combinations and for no other of the universe.

    Arguments: all combinations that can occur (of the same names), and those to pick out. Returns the empty
    condition when all are picked.
    """
    chosen = [index for index, one in enumerate(universe) if one in picked]
    rest = [one for index, one in enumerate(universe) if index not in set(chosen)]
    if not rest:
        return ()
    words = {choice.name: [word.name for word in choice.alternatives] for choice in pattern.choices}
    words[SIZE] = list(pattern.sizes)
    mappings: list[dict[str, tuple[str, ...]]] = []
    for index in chosen:
        one = universe[index]
        if mappings and holds(mappings, one):
            continue
        mappings.append(_widened({name: (word,) for name, word in one.items()}, picked, rest, words))
    return tuple(mappings)


def _widened(
    mapping: dict[str, tuple[str, ...]],
    picked: Sequence[Mapping[str, str]],
    rest: Sequence[Mapping[str, str]],
    words: Mapping[str, Sequence[str]],
) -> dict[str, tuple[str, ...]]:
    """The mapping with as few names, and then as many words of use, as never hold for any of the rest."""
    order = [name for name in words if name in mapping]
    for name in reversed(order):
        without = {other: mapping[other] for other in order if other in mapping and other != name}
        if without and not any(holds([without], one) for one in rest):
            mapping = without
    for name in [name for name in order if name in mapping]:
        for word in words[name]:
            if word not in mapping[name]:
                wider = {**mapping, name: tuple(w for w in words[name] if w in (*mapping[name], word))}
                of_use = any(holds([wider], one) and not holds([mapping], one) for one in picked)
                if of_use and not any(holds([wider], one) for one in rest):
                    mapping = wider
    return {name: mapping[name] for name in order if name in mapping}


def _hang_on(choices: Sequence[Mapping[str, Any]], names: Iterable[str]) -> set[str]:
    """The names and, all the way, the choices that decide whether they are asked."""
    by_name = {choice["name"]: choice for choice in choices}
    todo, found = [name for name in names if name in by_name], set()
    while todo:
        name = todo.pop()
        if name not in found:
            found.add(name)
            todo += [other for other in names_in(by_name[name]["asked_when"]) if other in by_name]
    return found


def _can_occur(
    choices: Sequence[Mapping[str, Any]], rules: Sequence[Mapping[str, Any]], combination: Combination, size: str
) -> bool:
    if not rules:
        return True
    narrowed = [
        {**choice, "alternatives": [{"name": combination[choice["name"]]}]} if choice["name"] in combination else choice
        for choice in choices
    ]
    return next(all_allowed(narrowed, rules, size), None) is not None


def _choice_json(choice: Choice) -> dict[str, Any]:
    return {
        "name": choice.name,
        "default": choice.default,
        "steps_only": choice.steps_only,
        "asked_when": choice.asked_when,
        "alternatives": [{"name": word.name} for word in choice.alternatives],
    }


def _rule_json(rule: Rule) -> dict[str, Any]:
    return {"when": rule.when, "needs": rule.needs, "excludes": rule.excludes, "only_sizes": rule.only_sizes}


def _conditions_of(rule: Mapping[str, Any]) -> list[Condition]:
    return [rule["when"], rule["needs"] or (), rule["excludes"] or ()]
