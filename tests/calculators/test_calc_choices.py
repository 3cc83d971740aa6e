"""Which combinations exist and which are allowed, against plain enumeration."""

from __future__ import annotations

from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.choices import all_allowed, allowed, broken, completed, decisive
from boltside.calculators.conditions import holds


def brute_force(sheet: dict[str, Any], size: str) -> list[dict[str, str]]:
    """All allowed sets of choices the slow way: every product, unasked choices dropped, rules judged one by one."""
    names = [choice["name"] for choice in sheet["choices"]]
    words = [[word["name"] for word in choice["alternatives"]] for choice in sheet["choices"]]
    found: list[dict[str, str]] = []
    for picked in product(*words):
        chosen = {"size": size, **dict(zip(names, picked, strict=True))}
        while True:
            dropped = [
                c["name"] for c in sheet["choices"] if c["name"] in chosen and not holds(c["asked_when"], chosen)
            ]
            if not dropped:
                break
            del chosen[dropped[0]]
        forbidden = False
        for rule in sheet["rules"]:
            if holds(rule["when"], chosen):
                forbidden |= rule["needs"] is not None and not holds(rule["needs"], chosen)
                forbidden |= rule["excludes"] is not None and holds(rule["excludes"], chosen)
                forbidden |= rule["only_sizes"] is not None and size not in rule["only_sizes"]
        if not forbidden and chosen not in found:
            found.append(chosen)
    return found


@pytest.mark.parametrize("size", ["68", "74", "116"])
def test_all_allowed_is_what_enumeration_finds(sheet: dict[str, Any], size: str) -> None:
    found = list(all_allowed(sheet["choices"], sheet["rules"], size))
    expected = brute_force(sheet, size)
    assert sorted(map(sorted, (one.items() for one in found))) == sorted(map(sorted, (e.items() for e in expected)))
    assert 0 < len(found) < 2**7


def test_all_allowed_without_steps_drops_them_once(sheet: dict[str, Any]) -> None:
    with_steps = list(all_allowed(sheet["choices"], sheet["rules"], "92"))
    without = list(all_allowed(sheet["choices"], sheet["rules"], "92", steps_too=False))
    expected = {tuple((n, w) for n, w in one.items() if n not in ("hem", "overlap")) for one in with_steps}
    assert {tuple(one.items()) for one in without} == expected
    assert len(without) == len(expected)


def test_defaults_are_filled_in_and_unasked_choices_dropped(sheet: dict[str, Any]) -> None:
    assert completed(sheet["choices"], {"sleeves": "none", "sleeve-end": "gathered", "colour": "red"}) == {
        "length": "hip",
        "sleeves": "none",
        "pockets": "none",
        "hem": "plain",
        "cloth": "woven",
        "overlap": "left-over-right",
    }


def test_a_word_that_is_not_offered_counts_as_not_chosen(sheet: dict[str, Any]) -> None:
    assert completed(sheet["choices"], {"length": "knee"})["length"] == "hip"


def test_choices_may_be_listed_before_what_asks_for_them() -> None:
    end = {"name": "end", "default": "plain", "asked_when": [{"arm": ["long"]}], "alternatives": [{"name": "plain"}]}
    arm = {"name": "arm", "default": "long", "asked_when": [], "alternatives": [{"name": "long"}, {"name": "none"}]}
    assert completed([end, arm], {}) == {"end": "plain", "arm": "long"}
    assert completed([end, arm], {"arm": "none"}) == {"arm": "none"}


def test_each_kind_of_rule_forbids(sheet: dict[str, Any]) -> None:
    def reasons(**chosen: str) -> list[str]:
        filled = completed(sheet["choices"], chosen)
        return [rule["because"] for rule in broken(sheet["rules"], filled)]

    assert reasons(size="92", pockets="two", length="hip") == []
    assert reasons(size="92", pockets="two", length="waist") == ["Patch pockets need the hip length."]
    end = {"hem": "stitched", "length": "waist"}
    assert reasons(size="92", **end, **{"sleeve-end": "gathered"}) == ["Two bands leave no edge to stitch along."]
    assert reasons(size="68", **{"sleeve-end": "gathered"}) == ["In size 68 the band would be too short to sew."]


def test_without_a_size_what_rules_say_of_sizes_is_not_judged(sheet: dict[str, Any]) -> None:
    gathered = {"sleeve-end": "gathered"}
    assert allowed(sheet["choices"], sheet["rules"], gathered)
    assert not allowed(sheet["choices"], sheet["rules"], {**gathered, "size": "68"})


def test_advice_forbids_nothing(sheet: dict[str, Any]) -> None:
    assert allowed(sheet["choices"], sheet["rules"], {"sleeves": "none", "size": "68"})


WORDS = st.sampled_from(["waist", "hip", "none", "long", "hemmed", "gathered", "two", "plain", "stitched", "odd", ""])
NAMES = st.sampled_from(["length", "sleeves", "sleeve-end", "pockets", "hem", "size", "other"])


@given(st.dictionaries(NAMES, WORDS))
def test_law_completing_twice_changes_nothing(sheet: dict[str, Any], chosen: dict[str, str]) -> None:
    once = completed(sheet["choices"], chosen)
    assert completed(sheet["choices"], once) == once


@given(st.dictionaries(NAMES, WORDS), st.dictionaries(NAMES, WORDS), st.lists(NAMES, max_size=2))
def test_law_decisive_names_decide(
    sheet: dict[str, Any], chosen: dict[str, str], other: dict[str, str], names: list[str]
) -> None:
    condition = [{name: ["hip", "long", "gathered", "two"]} for name in names]
    deciding = decisive(sheet["choices"], [condition])
    mixed = {name: word for name, word in other.items() if name not in deciding}
    mixed |= {name: word for name, word in chosen.items() if name in deciding}
    before, after = completed(sheet["choices"], chosen), completed(sheet["choices"], mixed)
    assert holds(condition, before) == holds(condition, after)


@pytest.mark.outside  # the chromatic polynomial of a cycle, as in Lee and Shin 2019: (k - 1)^n + (-1)^n (k - 1)
@pytest.mark.parametrize(
    ("colours", "around", "count"), [(3, 3, 6), (3, 4, 18), (3, 5, 30), (4, 4, 84), (2, 6, 2), (2, 5, 0)]
)
def test_allowed_sets_are_as_many_as_a_cycle_has_colourings(colours: int, around: int, count: int) -> None:
    # Choices in a ring, each excluding the same word of the next one: what is allowed are the colourings of a cycle.
    assert (colours - 1) ** around + (-1) ** around * (colours - 1) == count
    words = [{"name": f"w{at}"} for at in range(colours)]
    ring = [
        {"name": f"c{at}", "default": "w0", "asked_when": [], "alternatives": words, "steps_only": False}
        for at in range(around)
    ]
    rules = [
        {"when": [{f"c{at}": [word["name"]]}], "excludes": [{f"c{(at + 1) % around}": [word["name"]]}]}
        for at in range(around)
        for word in words
    ]
    found = list(all_allowed(ring, rules, "92"))
    assert len(found) == len({tuple(one.items()) for one in found}) == count
    assert all(allowed(ring, rules, one) for one in found)


@pytest.mark.outside  # counted on paper
def test_a_choice_that_is_asked_now_and_then_is_counted_as_on_paper() -> None:
    # Sleeves none, short, long; an end (3 words) is asked for short and long only: 1 + 2 x 3 = 7 sets. Each with 2
    # pockets or none: 14. Long sleeves with one of the ends go with no pockets: 1 set less. In size 62 long sleeves
    # are not offered: of the 14 there are 2 x 3 = 6 less, 8.
    def made(name: str, *words: str, asked_when: Any = ()) -> dict[str, Any]:
        each = [{"name": word} for word in words]
        return {"name": name, "default": words[0], "asked_when": asked_when, "alternatives": each, "steps_only": False}

    three = [
        made("end", "hem", "band", "cuff", asked_when=[{"sleeves": ["short", "long"]}]),
        made("sleeves", "none", "short", "long"), made("pockets", "none", "two"),
    ]  # fmt: skip
    rules = [
        {"when": [{"end": ["cuff"], "sleeves": ["long"]}], "excludes": [{"pockets": ["two"]}]},
        {"when": [{"sleeves": ["long"]}], "only_sizes": ["68", "74"]},
    ]
    counts = [len(list(all_allowed(three, rules[:many], size))) for many, size in ((0, "68"), (2, "68"), (2, "62"))]
    assert counts == [14, 13, 8]
