"""Forbidden combinations: why, and the smallest change that is allowed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.choices import allowed, completed
from boltside.calculators.mending import MOST_CHANGES, smallest_changes, two_changes

Ask = Callable[..., dict[str, dict[str, Any]]]


def test_an_allowed_combination_is_silent(ask: Ask) -> None:
    said = ask("panel", choices={"pockets": "two"})["choices"]
    assert said["text"] == "" and said["data"]["allowed"] is True


def test_what_would_not_go_with_the_rest_is_named_beforehand(ask: Ask) -> None:
    assert ask("panel", choices={"pockets": "two"})["choices"]["data"]["blocked"] == [
        {"choice": "length", "alternative": "waist", "because": ["Patch pockets need the hip length."]}
    ]
    assert ask("panel")["choices"]["data"]["blocked"] == []


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


def test_where_two_things_are_wrong_two_changes_are_offered_together(ask: Ask) -> None:
    said = ask("panel", size="68", choices={"sleeve-end": "gathered", "pockets": "two", "length": "waist"})["choices"]
    assert said["text"] == (
        "Patch pockets need the hip length. In size 68 the band would be too short to sew. "
        "Choose “Hemmed” under Sleeve end and “None” under Patch pockets."
    )
    assert said["data"]["together"] is True


def test_where_nothing_small_helps_that_is_said(sheet: dict[str, Any]) -> None:
    from boltside.calculators.mending import choices_fragment
    from boltside.calculators.request import read_request

    never = {**sheet["rules"][0], "when": [], "needs": [{"length": ["knee"]}]}
    said = choices_fragment(read_request({**sheet, "rules": [never]}, {}))
    assert said.said.text.endswith("No small change mends it: start again from the usual choices.")


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


def many_choices(count: int, words: int) -> dict[str, Any]:
    """A sheet's choices and rules, so many of each: every choice forbids something of the next."""
    alternatives = [{"name": f"w{at}", "title": f"W{at}", "difficulty": 0, "minutes": at} for at in range(words)]
    choices = [
        {"name": f"c{at}", "title": f"C{at}", "default": "w0", "asked_when": [], "steps_only": False,
         "alternatives": alternatives}
        for at in range(count)
    ]  # fmt: skip
    rules = [
        {"when": [{f"c{at}": ["w1"]}], "needs": [{f"c{(at + 1) % count}": ["w1", "w2"]}], "excludes": None,
         "only_sizes": None, "advice": None, "because": f"Rule {at}."}
        for at in range(count)
    ]  # fmt: skip
    return {"choices": choices, "rules": rules, "sizes": ["92"]}


@given(st.data())
def test_law_with_many_choices_every_change_offered_is_allowed_and_blocked_ones_are_not(data: st.DataObject) -> None:
    from boltside.calculators.choices import broken
    from boltside.calculators.mending import blocked

    made = many_choices(12, 4)
    names = [choice["name"] for choice in made["choices"]]
    chosen = {"size": "92"} | {name: data.draw(st.sampled_from(["w0", "w0", "w1", "w2", "w3"])) for name in names}
    against = broken(made["rules"], chosen)
    for name, word in smallest_changes(made, chosen, tuple(names)):
        assert allowed(made["choices"], made["rules"], {**chosen, name: word})
    both = dict(two_changes(made, chosen, tuple(names)))
    assert not both or allowed(made["choices"], made["rules"], {**chosen, **both})
    if not against:
        stopped = {(one["choice"], one["alternative"]) for one in blocked(made, made["rules"], chosen)}
        for choice in made["choices"]:
            for one in choice["alternatives"]:
                changed = {**chosen, choice["name"]: one["name"]}
                fine = allowed(made["choices"], made["rules"], changed)
                assert fine == ((choice["name"], one["name"]) not in stopped)


def around(edges: list[str]) -> dict[str, Any]:
    """A sheet whose choices are the corners of a graph: those at the ends of an edge can't both stay as they are."""
    corners = sorted({corner for edge in edges for corner in edge})
    words = [{"name": word, "title": word, "minutes": 0} for word in ("stays", "goes")]
    choices = [
        {"name": one, "title": one, "default": "stays", "asked_when": [], "alternatives": words} for one in corners
    ]
    rules = [{"when": [{edge[0]: ["stays"]}], "excludes": [{edge[1]: ["stays"]}], "because": ""} for edge in edges]
    return {"choices": choices, "rules": rules, "sizes": ["92"]}


@pytest.mark.outside  # Kőnig 1931: in a graph without odd circles as many corners as edges that don't touch cover all
@pytest.mark.parametrize(
    ("edges", "fewest", "cover"),
    # Edges that don't touch: of a star one, so its middle will do; of a path of four edges the first and third, so two
    # corners, which can only be its second and fourth; of a square two; of three edges apart three.
    [
        (["ab"], 1, [{"a"}, {"b"}]), (["ma", "mb", "mc"], 1, [{"m"}]), (["ab", "bc", "cd", "de"], 2, [{"b", "d"}]),
        (["ab", "bc", "cd", "da"], 2, [{"a", "c"}, {"b", "d"}]), (["ab", "cd", "ef"], 3, []),
    ],
)  # fmt: skip
def test_as_few_changes_as_the_theorem_says(edges: list[str], fewest: int, cover: list[set[str]]) -> None:
    sheet = around(edges)
    chosen = {one["name"]: "stays" for one in sheet["choices"]}
    single = smallest_changes(sheet, chosen, tuple(chosen))
    assert [{name} for name, _ in single] == (cover if fewest == 1 else [])
    if fewest > 1:
        pair = {name for name, _ in two_changes(sheet, chosen, tuple(chosen))}
        assert pair in cover if fewest == 2 else not pair


@pytest.mark.outside  # on paper: a triangle needs two of its corners, a circle of five three
def test_odd_circles_need_one_more() -> None:
    for edges, pairs in ((["ab", "bc", "ca"], True), (["ab", "bc", "cd", "de", "ea"], False)):
        sheet = around(edges)
        chosen = {one["name"]: "stays" for one in sheet["choices"]}
        assert smallest_changes(sheet, chosen, tuple(chosen)) == []
        assert bool(two_changes(sheet, chosen, tuple(chosen))) == pairs
