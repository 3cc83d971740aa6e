"""Forbidden combinations: why, and the smallest change that is allowed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.choices import allowed, completed
from boltside.calculators.mending import MOST_CHANGES, smallest_changes

Ask = Callable[..., dict[str, dict[str, Any]]]


def test_an_allowed_combination_is_silent(ask: Ask) -> None:
    said = ask("panel", choices={"pockets": "two"})["choices"]
    assert said["text"] == "" and said["data"] == {"allowed": True}


def test_why_not_and_what_to_change(ask: Ask) -> None:
    said = ask("panel", choices={"pockets": "two", "length": "waist"})["choices"]
    assert said["kind"] == "problem" and said["data"]["code"] == "forbidden-choices"
    assert said["text"] == (
        "Patch pockets need the hip length. Choose “None” under Patch pockets, or “To the hip” under Length."
    )
    assert said["data"]["changes"] == [
        {"choice": "pockets", "alternative": "none"},
        {"choice": "length", "alternative": "hip"},
    ]


def test_the_smaller_change_of_time_comes_first(sheet: dict[str, Any]) -> None:
    chosen = completed(sheet["choices"], {"size": "92", "pockets": "two", "length": "waist"})
    # Pockets take 30 minutes, the waist length 40.
    assert [name for name, _ in smallest_changes(sheet, chosen, tuple(chosen))] == ["pockets", "length"]


def test_the_size_is_changed_only_where_no_choice_helps(ask: Ask, sheet: dict[str, Any]) -> None:
    said = ask("panel", size="68", choices={"sleeve-end": "gathered"})["choices"]
    assert said["data"]["changes"][0] == {"choice": "sleeve-end", "alternative": "hemmed"}
    only = {**sheet, "rules": [{**sheet["rules"][0], "when": [], "needs": None, "only_sizes": ["80", "98"]}]}
    chosen = completed(sheet["choices"], {"size": "86"})
    assert smallest_changes(only, chosen, tuple(chosen)) == [("size", "80")]


def test_where_two_things_are_wrong_no_single_change_helps(ask: Ask) -> None:
    said = ask("panel", size="68", choices={"sleeve-end": "gathered", "pockets": "two", "length": "waist"})["choices"]
    assert said["text"] == (
        "Patch pockets need the hip length. In size 68 the band would be too short to sew. "
        "No single change mends it: start again from the usual choices."
    )


def test_a_word_that_is_not_offered_is_said_at_its_choice(ask: Ask) -> None:
    said = ask("panel", choices={"length": "<knee>"})["choice.length"]
    assert said["text"] == "Length: “<knee>” is not offered here; reckoned with “To the hip”."
    assert "&lt;knee&gt;" in said["html"] and said["data"]["code"] == "unknown-alternative"


def test_a_choice_that_is_not_asked_is_silent(ask: Ask) -> None:
    said = ask("panel", choices={"sleeves": "none", "sleeve-end": "gathered"})["choice.sleeve-end"]
    assert said["text"] == "" and said["data"] == {"asked": False, "chosen": None}


@given(st.data())
def test_law_every_change_offered_is_allowed(sheet: dict[str, Any], data: st.DataObject) -> None:
    chosen = {c["name"]: data.draw(st.sampled_from([a["name"] for a in c["alternatives"]])) for c in sheet["choices"]}
    filled = completed(sheet["choices"], {"size": data.draw(st.sampled_from(sheet["sizes"])), **chosen})
    if not allowed(sheet["choices"], sheet["rules"], filled):
        changes = smallest_changes(sheet, filled, tuple(filled))
        assert len(changes) <= MOST_CHANGES
        for name, word in changes:
            assert allowed(sheet["choices"], sheet["rules"], {**filled, name: word})
