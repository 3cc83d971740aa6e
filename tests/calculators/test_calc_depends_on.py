"""Fragments say truly what they depend on: requests that agree on it get the same fragment."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltside.calculators.door import answer

WIDTHS = st.sampled_from(["", "110", "137", "54", "150 cm", "20", "abc", "0.9 m"])
WAYS = st.sampled_from(["", "folded", "flat", "rolled"])
NAPS = st.sampled_from(["", "with", "without", "fuzzy"])
WASHES = st.sampled_from(["", "", "washed", "usual", "own", "boiled"])
LOSSES = st.sampled_from(["", "3", "4,5 %", "40", "abc"])
PRICES = st.sampled_from(["", "12.90", "9,5 EUR", "14 per yd", "cheap"])
PATTERNS = st.sampled_from(["", "plain", "own", "own", "repeat:stripes-40", "repeat:uneven-70", "tartan"])
EVERY = st.sampled_from(["", "12", "4 1/4", "30 mm", "0", "-2", "wide"])
UNEVEN = st.sampled_from(["", "yes"])
CUTS = st.sampled_from(["", "fine", "coarse", "odd"])
CLOTH_PARTS = ("width", "way", "nap", "wash", "along", "across", "price", "pattern", "every", "uneven")
IN_A_UNIT = ("width", "price", "every")
AGES = st.sampled_from(["", "", "2", "18 months", "4 1/2", "18", "old"])
TYPED = st.sampled_from(["", "92", "50", "36", "1 m", "-3", "tall"])


def sheet_names() -> list[str]:
    """The example sheet and the shop's own patterns."""
    from cases.real_sheets import pattern_names

    return ["example-jacket", "example-plans", *pattern_names()]


@pytest.fixture
def opened(request: pytest.FixtureRequest) -> dict[str, Any]:
    """The sheet of that name, opened."""
    from cases.make_sheet_example import lays_beside, make
    from cases.plan_sheet import make_plans
    from cases.real_sheets import real_sheet

    made_by_hand = {"example-jacket": make, "example-plans": make_plans}
    made = made_by_hand[request.param]() if request.param in made_by_hand else real_sheet(request.param)
    answer("open", json.dumps(made))
    for file in lays_beside().values() if request.param == "example-jacket" else ():
        answer("open-lays", json.dumps(file))
    return made


@st.composite
def requests(draw: st.DrawFn, sheet: dict[str, Any]) -> dict[str, Any]:
    """A request about the sheet, good or bad, but for sizes, of which only the pattern's own are asked."""
    choices = {}
    for choice in sheet["choices"]:
        words = [one["name"] for one in choice["alternatives"]]
        choices[choice["name"]] = draw(st.sampled_from([*words, "", "odd"]))
    words_of = (WIDTHS, WAYS, NAPS, WASHES, LOSSES, LOSSES, PRICES, PATTERNS, EVERY, UNEVEN)
    parts = dict(zip(CLOTH_PARTS, words_of, strict=True))
    cloths = {one["name"]: {part: draw(words) for part, words in parts.items()} for one in sheet["cloths"]}
    typed = {name: draw(TYPED) for name in ("height", "chest", "waist", "hip", "trunk")}
    typed["age"] = draw(AGES)
    size = draw(st.sampled_from([*sheet["sizes"], ""]))
    unit = draw(st.sampled_from(["cm", "in"]))
    request = {"pattern": sheet["pattern"], "size": size, "choices": choices, "cloths": cloths, "unit": unit, **typed}
    # What a calculator is asked *about* is no choice: both requests ask about the same.
    about = {"cloth": sheet["cloths"][0]["name"], "choice": sheet["choices"][0]["name"]}
    second = draw(st.sampled_from(["", *sheet["sizes"]]))
    return request | about | {"cut": draw(CUTS), "second": second}


def mixed(one: dict[str, Any], other: dict[str, Any], depends_on: list[str]) -> dict[str, Any]:
    """`other`, made to agree with `one` on what is named; typed widths are taken over as lengths with their unit."""
    made: dict[str, Any] = json.loads(json.dumps(other))
    for name in depends_on:
        if name in one["choices"]:
            made["choices"][name] = one["choices"][name]
        elif name.startswith(tuple(f"{part}." for part in CLOTH_PARTS)):
            part, cloth = name.split(".")
            made["cloths"][cloth][part] = one["cloths"][cloth][part]
            if part in IN_A_UNIT and one["cloths"][cloth][part]:
                made["unit"] = one["unit"]
        else:
            made[name] = one[name]
    return made


def fragments(name: str, request: dict[str, Any]) -> dict[str, Any]:
    said = json.loads(answer(name, json.dumps(request)))
    return {fragment["id"]: fragment for fragment in said["fragments"]}


@pytest.mark.parametrize("opened", sheet_names(), indirect=True)
@pytest.mark.parametrize("name", ["panel", "size", "lay", "effects", "closures", "cost", "wider", "plans"])
def test_law_only_what_is_declared_matters(opened: dict[str, Any], name: str) -> None:
    sheet = opened

    @settings(max_examples=40, deadline=None)
    @given(requests(sheet), requests(sheet))
    def law(one: dict[str, Any], other: dict[str, Any]) -> None:
        said = fragments(name, one)
        seen: dict[tuple[str, ...], dict[str, Any]] = {}
        for key, fragment in said.items():
            depends_on = tuple(fragment["depends_on"])
            if depends_on not in seen:
                seen[depends_on] = fragments(name, mixed(one, other, list(depends_on)))
            assert seen[depends_on].get(key) == fragment

    law()


@pytest.mark.parametrize("opened", sheet_names(), indirect=True)
def test_what_is_declared_exists(opened: dict[str, Any]) -> None:
    sheet = opened
    known = {"size", "second", "unit", "cut", "height", "chest", "waist", "hip", "trunk", "age"}
    known |= {one["name"] for one in sheet["choices"]}
    known |= {f"{part}.{one['name']}" for part in CLOTH_PARTS for one in sheet["cloths"]}
    for name in ("panel", "size", "lay", "effects"):
        for fragment in fragments(name, {"pattern": sheet["pattern"], "cloth": "outer"}).values():
            assert set(fragment["depends_on"]) <= known
