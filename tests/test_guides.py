"""The guides of the shop's own patterns, in every allowed combination and size: whole, and without contradiction.

Gone through in full, from the sheets alone; the engine's own check goes another way.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from typing import Any

import pytest
from cases.real_sheets import pattern, pattern_names, real_sheet

from boltside.calculators.choices import all_allowed
from boltside.calculators.conditions import holds
from boltside.pages.guide import Guide, guide_of, plain_text

THREAD = "thread"
"""Bought, and used by every step."""

SIDES = {"left-over-right": ("left", "right"), "right-over-left": ("right", "left")}
"""Whose front lies on top, and whose below, as the wearer's. Source: the words' meaning."""


def combinations(sheet: dict[str, Any], size: str) -> list[dict[str, str]]:
    return list(all_allowed(sheet["choices"], sheet["rules"], size))


@cache
def guides(name: str) -> list[tuple[str, dict[str, str], Guide]]:
    """Every guide of a pattern."""
    sheet = real_sheet(name)
    return [
        (size, chosen, guide_of(sheet, size, chosen))
        for size in sheet["sizes"]
        for chosen in combinations(sheet, size)
    ]


def cut_pieces(sheet: dict[str, Any], chosen: dict[str, str]) -> set[str]:
    return {item["piece"] for item in sheet["items"] if item["kind"] == "cut" and holds(item["when"], chosen)}


def players(name: str, named: Iterable[str], chosen: dict[str, str]) -> set[str]:
    """The pieces that are named, or that play the role."""
    roles = {f"as:{role.role}": role.plays for role in pattern(name).roles}
    return {play.piece for one in named for play in roles.get(one, ()) if holds(play.when, chosen)} | {
        one for one in named if one not in roles
    }


@pytest.mark.parametrize("name", pattern_names())
def test_each_piece_cut_is_sewn_and_each_piece_sewn_is_cut(name: str) -> None:
    sheet = real_sheet(name)
    for size, chosen, guide in guides(name):
        cut = cut_pieces(sheet, chosen)
        sewn = {piece for step in guide.steps for one in step.sews for piece in players(name, one, chosen)}
        assert cut - sewn == set(), (size, chosen)
        for step in guide.steps:
            for one in step.sews:
                assert players(name, one, chosen) & cut, (step.title, one, size, chosen)


@pytest.mark.parametrize("name", pattern_names())
def test_each_notion_bought_is_used(name: str) -> None:
    sheet = real_sheet(name)
    for size, chosen, guide in guides(name):
        bought = {one["name"] for one in sheet["notions"] if THREAD not in one["kinds"] and holds(one["when"], chosen)}
        used = {notion for step in guide.steps for one in step.uses for notion in one}
        assert bought - used == set(), (size, chosen)
        for step in guide.steps:
            for one in step.uses:
                assert set(one) & bought, (step.title, one, size, chosen)


@pytest.mark.parametrize("name", pattern_names())
def test_each_step_says_what_is_up_and_has_all_its_words(name: str) -> None:
    for size, chosen, guide in guides(name):
        assert [step.number for step in guide.steps] == list(range(1, len(guide.steps) + 1))
        for step in guide.steps:
            assert step.up, (step.title, size, chosen)
            told = f"{step.title} {step.up} {plain_text(step.html)}"
            assert not re.search("[{}\ue000-\uf8ff…]", told), (told, size, chosen)


@pytest.mark.parametrize("name", pattern_names())
def test_no_step_says_the_same_twice(name: str) -> None:
    for size, chosen, guide in guides(name):
        titles = [step.title for step in guide.steps]
        assert sorted(set(titles)) == sorted(titles), (size, chosen)


def test_holes_and_buttons_are_where_the_overlap_puts_them() -> None:
    """Left over right, the wearer's left front lies on top and has the holes; seen from in front it is on the right."""
    seen = set()
    for size, chosen, guide in guides("ferrylight"):
        over, below = SIDES[chosen["overlap"]]
        seen_on = {"left": "right", "right": "left"}
        told = {step.title: plain_text(step.html) for step in guide.steps}
        if chosen["closure"] == "buttons":
            text = told["Make the buttonholes"]
            assert f"the wearer's {over}, on your {seen_on[over]} as it faces you" in text, (size, chosen)
            assert f"the wearer's {below}" in told["Sew the buttons on"]
        else:
            text = told["Set the snaps"]
            caps, _, lower = text.partition("the lower halves")
            assert f"the wearer's {over}, on your {seen_on[over]} as it faces you" in caps, (size, chosen)
            assert f"the wearer's {below}" in lower
        seen.add((chosen["closure"], chosen["overlap"]))
    assert len(seen) == 4


def test_swapping_the_overlap_swaps_the_sides_and_nothing_else() -> None:
    def swapped(text: str) -> str:
        return re.sub(r"\b(left|right)\b(?! side)", lambda one: {"left": "right", "right": "left"}[one[1]], text)

    by_choice = {
        (size, *sorted((name, word) for name, word in chosen.items() if name not in ("overlap", "size"))): {}
        for size, chosen, _ in guides("ferrylight")
    }
    for size, chosen, guide in guides("ferrylight"):
        key = (size, *sorted((name, word) for name, word in chosen.items() if name not in ("overlap", "size")))
        by_choice[key][chosen["overlap"]] = guide
    for both in by_choice.values():
        one, other = both["left-over-right"], both["right-over-left"]
        for first, second in zip(one.steps, other.steps, strict=True):
            if first.html != second.html:
                assert swapped(plain_text(first.html)) == plain_text(second.html)
