"""How do conditions, choices and rules stand in the spec sheet? As plain lists and mappings."""

from __future__ import annotations

from typing import Any

from boltside.pattern import Choice, ClothPlan, Condition, Rule

Json = dict[str, Any]


def condition_json(condition: Condition) -> list[dict[str, list[str]]]:
    """A condition as the sheet holds it; the empty list means *always*."""
    return [{name: list(words) for name, words in mapping.items()} for mapping in condition]


def choice_json(choice: Choice) -> Json:
    """A choice with its alternatives; difficulty in steps, time in minutes."""
    return {
        "name": choice.name,
        "title": choice.title,
        "about": choice.about,
        "default": choice.default,
        "steps_only": choice.steps_only,
        "asked_when": condition_json(choice.asked_when),
        "alternatives": [
            {
                "name": word.name,
                "title": word.title,
                "about": word.about,
                "difficulty": word.difficulty,
                "minutes": word.minutes,
            }
            for word in choice.alternatives
        ],
    }


def rule_json(rule: Rule) -> Json:
    """A rule; what it does not say is None."""
    return {
        "when": condition_json(rule.when),
        "needs": None if rule.needs is None else condition_json(rule.needs),
        "excludes": None if rule.excludes is None else condition_json(rule.excludes),
        "only_sizes": None if rule.only_sizes is None else list(rule.only_sizes),
        "advice": rule.advice,
        "because": rule.because,
    }


def plan_json(plan: ClothPlan) -> Json:
    """A cloth plan; of each choice's words the first is what is chosen, unless another of them is chosen already."""
    choices = {name: list(words) for name, words in plan.choices.items()}
    return {"name": plan.name, "title": plan.title, "choices": choices}


def tidy(mm: float, digits: int = 1) -> float | int:
    """A length for the sheet: rounded, and whole where it is whole, so that the file reads the same everywhere."""
    rounded = round(mm, digits)
    return int(rounded) if rounded == int(rounded) else rounded
