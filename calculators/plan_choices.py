"""Which cloth plan is this, and what is chosen once a plan is taken?

A plan names choices, each with the words that will do. Of these choices only those count that are asked.

>>> contrast = {"collar-cloth": ["contrast"], "pocket-cloth": ["contrast"]}
>>> is_had(contrast, {"collar-cloth": "contrast"}), is_had(contrast, {"pockets": "none"})
(True, False)
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .choices import ChoiceJson, completed

PlanChoices = Mapping[str, Sequence[str]]


def is_had(plan: PlanChoices, chosen: Mapping[str, str]) -> bool:
    """Whether a completed set of choices is this plan: every choice that is asked says so, and one is asked."""
    asked = [name for name in plan if name in chosen]
    return bool(asked) and all(chosen[name] in plan[name] for name in asked)


def taken(choices: Sequence[ChoiceJson], plan: PlanChoices, chosen: Mapping[str, str]) -> dict[str, str]:
    """What is chosen once the plan is taken: of each choice the word that stands if it will do, else the plan's first.

    Arguments: the sheet's choices; the plan's choices; a completed set of choices.

    >>> hem = {"name": "hem", "default": "plain", "asked_when": [],
    ...        "alternatives": [{"name": "plain"}, {"name": "turn-up"}, {"name": "cuff"}]}
    >>> [taken([hem], {"hem": ["plain", "turn-up"]}, {"hem": word}) for word in ("turn-up", "cuff")]
    [{'hem': 'turn-up'}, {'hem': 'plain'}]
    """
    words = {name: chosen[name] if chosen.get(name) in will_do else will_do[0] for name, will_do in plan.items()}
    return completed(choices, {**chosen, **words})


def present(plans: Sequence[Mapping[str, Any]], chosen: Mapping[str, str]) -> str:
    """The name of the first plan that a completed set of choices is; empty where it is none."""
    return next((str(plan["name"]) for plan in plans if is_had(plan["choices"], chosen)), "")
