"""Conditions, choices and rules as plain JSON."""

from __future__ import annotations

import json

from boltside.pattern import Alternative, Choice, Rule
from boltside.spec.json_form import choice_json, condition_json, rule_json, tidy


def test_conditions_become_lists() -> None:
    assert condition_json(()) == []
    assert condition_json(({"a": ("x", "y")},)) == [{"a": ["x", "y"]}]


def test_choice_and_rule_survive_json() -> None:
    word = Alternative(name="hip", title="To the hip", about="Long.", difficulty=1, minutes=5)
    made = choice_json(Choice(name="length", title="Length", default="hip", alternatives=(word,)))
    assert json.loads(json.dumps(made)) == made
    assert made["alternatives"] == [
        {"name": "hip", "title": "To the hip", "about": "Long.", "difficulty": 1, "minutes": 5}
    ]
    rule = rule_json(Rule(when=({"a": ("x",)},), only_sizes=("92",), because="So."))
    assert rule == {
        "when": [{"a": ["x"]}],
        "needs": None,
        "excludes": None,
        "only_sizes": ["92"],
        "advice": None,
        "because": "So.",
    }


def test_whole_lengths_are_whole() -> None:
    assert json.dumps([tidy(12.0), tidy(12.04), tidy(12.06)]) == "[12, 12, 12.1]"
