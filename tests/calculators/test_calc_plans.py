"""Cloth plans: which one it is, what each would take, and that the present one takes what the panel says."""

from __future__ import annotations

import json
from collections.abc import Callable
from itertools import product
from typing import Any

import pytest
from cases.make_sheet_example import rule as new_rule
from cases.plan_sheet import CONTRAST_MM, OUTER_MM, PATTERN, make_plans

from boltside.calculators.door import answer
from boltside.calculators.plan_choices import is_had, taken
from boltside.calculators.units import buy_mm

Fragments = dict[str, dict[str, Any]]
Ask = Callable[..., Fragments]

SQUARING_MM = 30
"""For squared ends, as the panel says of each amount."""
BOTH = {"pockets": "two", "sleeve-end": "gathered"}
"""With these the cloth of the pockets and that of the bands is asked."""


@pytest.fixture(scope="module")
def sheet() -> dict[str, Any]:
    made = make_plans()
    assert json.loads(answer("open", json.dumps(made))) == {"opened": PATTERN}
    return made


def ask(sheet: dict[str, Any], choices: dict[str, str], name: str = "plans", **request: Any) -> Fragments:
    said = json.loads(answer(name, json.dumps({"pattern": sheet["pattern"], "choices": choices, **request})))
    return {fragment["id"]: fragment for fragment in said["fragments"]}


def takes(said: Fragments, plan: str) -> Fragments:
    """What a plan takes, by cloth."""
    prefix = f"plan-takes.{plan}."
    return {name.removeprefix(prefix): one for name, one in said.items() if name.startswith(prefix)}


def bought(length_mm: int) -> int:
    """What is bought of a lay so long: squared ends, and up to 5 cm."""
    return -(-(length_mm + SQUARING_MM) // 50) * 50


def bought_of(figure: dict[str, Any]) -> int | None:
    """What the panel says is bought of a cloth: nothing where none is needed, None where it says why not."""
    amount: int | None = figure["data"].get("buy_mm", None if figure["kind"] == "problem" else 0)
    return amount


def test_the_plan_that_is_chosen_is_named(sheet: dict[str, Any]) -> None:
    said = ask(sheet, BOTH)
    assert said["plan"]["text"] == "Now: All from one cloth."
    assert said["plan"]["data"] == {"present": "one", "offered": ["one", "pockets", "both"]}
    assert [said[f"plan.{name}"]["data"]["present"] for name in ("one", "pockets", "both")] == [True, False, False]
    contrast = ask(sheet, BOTH | {"pocket-cloth": "contrast", "band-cloth": "contrast"})
    assert contrast["plan"]["text"] == "Now: Contrast pockets and bands."


def test_choices_that_no_plan_names_are_the_buyers_own_mix(sheet: dict[str, Any]) -> None:
    said = ask(sheet, BOTH | {"band-cloth": "contrast"})
    assert said["plan"]["text"] == "Now: your own mix."
    assert said["plan"]["data"]["present"] == ""
    assert not any(said[f"plan.{name}"]["data"]["present"] for name in ("one", "pockets", "both"))


def test_parts_amounts_and_differences_are_told(sheet: dict[str, Any]) -> None:
    # 940 + 30: 1.00 m now. Contrast pockets and bands: outer 806 + 30: 0.85 m, contrast 366 + 30: 0.40 m.
    # In eighths of a yard (114.3 mm): 970 is 9 of them, 836 is 8, 396 is 4.
    said = ask(sheet, BOTH)
    assert said["plan.both"]["text"] == "Patch pocket, sleeve band: contrast cloth; all else: outer cloth and lining."
    outer, contrast = takes(said, "both")["outer"], takes(said, "both")["contrast"]
    assert outer["text"] == "Outer cloth 0.85 m (0.15 m less)."
    assert outer["text_inch"] == "Outer cloth 1 yd (1/8 yd less)."
    assert contrast["text"] == "Contrast cloth 0.40 m (none now)."
    assert contrast["text_inch"] == "Contrast cloth 1/2 yd (none now)."
    assert {one["text"] for one in takes(said, "one").values()} == {""}, "what is chosen now stands in the note"
    back = takes(ask(sheet, BOTH | {"pocket-cloth": "contrast", "band-cloth": "contrast"}), "one")
    assert back["outer"]["text"] == "Outer cloth 1.00 m (0.15 m more)."
    assert back["contrast"]["text"] == "No contrast cloth (0.40 m less)."


@pytest.mark.parametrize(
    ("name", "outer", "contrast"), [("one", "with both", None), ("pockets", "with bands", "pocket"),
                                    ("both", "with neither", "both")]
)  # fmt: skip
def test_each_plan_takes_the_lay_of_its_own_pieces(
    sheet: dict[str, Any], name: str, outer: str, contrast: str | None
) -> None:
    for present in ({}, {"band-cloth": "contrast"}, {"pocket-cloth": "contrast"}):
        said = takes(ask(sheet, BOTH | present), name)
        amounts = {cloth: one["data"]["buy_mm"] for cloth, one in said.items() if one["data"]}
        assert amounts["outer"] == bought(OUTER_MM[outer])
        assert amounts.get("contrast", 0) == (bought(CONTRAST_MM[contrast]) if contrast else 0)


def test_plans_that_come_to_the_same_are_offered_once(sheet: dict[str, Any]) -> None:
    # Without bands, contrast pockets and bands are contrast pockets.
    said = ask(sheet, {"pockets": "two"})
    assert said["plan"]["data"]["offered"] == ["one", "pockets"]
    assert said["plan.both"]["html"] == "" and said["plan.both"]["data"]["offered"] is False
    assert said["plan.pockets"]["data"]["checks"] == [["choice.pocket-cloth", ["contrast"]]]


def test_where_nothing_is_asked_nothing_is_said(sheet: dict[str, Any]) -> None:
    said = ask(sheet, {})
    assert {fragment["html"] for fragment in said.values()} == {""}
    assert said["plan"]["data"] == {"present": "", "offered": []}


def test_a_pattern_without_plans_has_nothing_to_say_of_them() -> None:
    made = make_plans() | {"pattern": "no-plans", "cloth_plans": []}
    answer("open", json.dumps(made))
    said = ask(made, BOTH)
    assert {name: fragment["html"] for name, fragment in said.items()} == {"plan": ""}
    assert said["plan"]["depends_on"] == []


def test_a_plan_that_the_rules_forbid_says_why(sheet: dict[str, Any]) -> None:
    made = make_plans()
    hem = next(choice for choice in made["choices"] if choice["name"] == "hem")
    other = next(one["name"] for one in hem["alternatives"] if one["name"] != hem["default"])
    because = "A contrast pocket is too thick to stitch through."
    rule = new_rule([{"pocket-cloth": ["contrast"]}], needs=[{"hem": [hem["default"]]}], because=because)
    made |= {"pattern": "forbidding-plans", "rules": [*made["rules"], rule]}
    answer("open", json.dumps(made))
    said = ask(made, {"pockets": "two", "hem": other})["plan.pockets"]
    assert (said["kind"], said["data"]["code"]) == ("problem", "forbidden-choices")
    assert said["text"] == "Not with your other options. A contrast pocket is too thick to stitch through."
    silent = takes(ask(made, {"pockets": "two", "hem": other}), "pockets")
    assert not any(one["html"] or one["data"] for one in silent.values())


def test_the_buyers_width_counts_and_cloth_too_narrow_is_said(sheet: dict[str, Any]) -> None:
    # No lay of contrast cloth is narrower than 110 cm.
    said = takes(ask(sheet, BOTH, cloths={"contrast": {"width": "100"}}), "both")["contrast"]
    assert said["text"] == "Contrast cloth: no amount on 100 cm."
    assert said["data"]["buy_mm"] is None


def test_the_table_holds_parts_cloths_and_amounts(sheet: dict[str, Any]) -> None:
    said = ask(sheet, BOTH | {"pocket-cloth": "contrast"})
    rows = {name: one["text"] for name, one in said.items() if name.startswith("plan-parts.")}
    assert rows["plan-parts.outer"] == "Outer cloth, 0.95 m: Front, back, sleeve, sleeve band, front facing."
    assert rows["plan-parts.contrast"] == "Contrast cloth, 0.20 m: Patch pocket."
    assert [name for name, text in rows.items() if not text] == ["plan-parts.interfacing"], "it goes along"
    assert said["plan-parts.outer"]["html"].startswith('<th scope="row">Outer cloth</th><td class="bs-amount">')


def test_law_the_plan_shown_as_present_takes_what_the_panel_says(sheet: dict[str, Any]) -> None:
    words = ("same", "contrast")
    seen = set()
    for size, pocket, band, width, cut in product(("74", "92"), words, words, ("", "150"), ("fine", "coarse")):
        choices = BOTH | {"pocket-cloth": pocket, "band-cloth": band}
        striped = {"pattern": "own", "every": "12"}
        cloths = {"outer": {"width": width, "wash": "usual", **striped}, "contrast": {"nap": "with"}}
        said = ask(sheet, choices, "panel", size=size, cut=cut, cloths=cloths)
        for name in said["plan"]["data"]["offered"]:
            data = said[f"plan.{name}"]["data"]
            # Taking a plan leads to the panel that it told of.
            there = ask(sheet, choices | data["chosen"], "panel", size=size, cut=cut, cloths=cloths)
            assert there["plan"]["data"]["present"] == name
            seen.add((name, data["present"]))
            for one in (had["data"] for had in takes(said, name).values() if had["data"]):
                figure = there[f"cloth.{one['cloth']}"]
                assert one["buy_mm"] == bought_of(figure)
                assert one["now_mm"] == bought_of(said[f"cloth.{one['cloth']}"])
                if data["present"]:
                    assert one["buy_mm"] == one["now_mm"]
    assert seen == {(name, here) for name in ("one", "pockets", "both") for here in (True, False)}


def test_law_taking_a_plan_gives_it_and_leaves_all_else(sheet: dict[str, Any]) -> None:
    for pocket, band in product(("same", "contrast"), repeat=2):
        chosen = {"size": "92", **BOTH, "pocket-cloth": pocket, "band-cloth": band, "length": "hip", "sleeves": "long"}
        for plan in sheet["cloth_plans"]:
            there = taken(sheet["choices"], plan["choices"], chosen)
            assert is_had(plan["choices"], there)
            kept = [name for name in chosen if name not in plan["choices"]]
            assert {name: there[name] for name in kept} == {name: chosen[name] for name in kept}


def test_amounts_are_rounded_by_the_shops_own_cuts() -> None:
    assert bought(940) == buy_mm(970) == 1000


@pytest.mark.outside  # geometry, on paper
def test_sleeves_of_contrast_cloth_are_a_row_of_rectangles(on_paper: Ask) -> None:
    # Six rectangles of outer cloth, two beside each other: 3 rows of 70 cm and 3 for the ends, bought 215 cm. Two of
    # them from another cloth: a row of it, 73, bought 75; of the outer cloth two rows are left, 143, bought 145.
    said = on_paper("plans", choices={"sleeves": "long"})
    assert said["plan-parts.outer"]["text"] == "Outer cloth, 2.15 m: Panel, sleeve."
    assert said["plan-takes.contrast.outer"]["text"] == "Outer cloth 1.45 m (0.70 m less)."
    assert said["plan-takes.contrast.contrast"]["text"] == "Contrast cloth 0.75 m (none now)."
    back = on_paper("plans", choices={"sleeves": "long", "sleeve-cloth": "contrast"})
    assert back["plan-takes.one.outer"]["text"] == "Outer cloth 2.15 m (0.70 m more)."
    assert back["plan-takes.one.contrast"]["text"] == "No contrast cloth (0.75 m less)."
