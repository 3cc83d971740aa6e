"""The plan switch as the build makes it: which plans are there, what each button chooses, what stands beside it."""

from __future__ import annotations

import json
from typing import Any

import pytest
from cases.make_sheet_example import rule
from cases.plan_sheet import make_plans

from boltside.calculators.door import answer
from boltside.pages.options_page import plans_with
from boltside.pages.plan_switch import plan_switch
from boltside.pages.slots import Slots

from .reading import Element, read


@pytest.fixture
def sheet() -> dict[str, Any]:
    made = make_plans()
    answer("open", json.dumps(made))
    return made


def switch(sheet: dict[str, Any], choices: dict[str, str]) -> Element:
    said = json.loads(answer("plans", json.dumps({"pattern": sheet["pattern"], "choices": choices})))
    return read(plan_switch(sheet, Slots(said)))


BOTH = {"pockets": "two", "sleeve-end": "gathered"}


def test_each_plan_has_a_button_that_names_what_it_chooses(sheet: dict[str, Any]) -> None:
    made = switch(sheet, BOTH)
    (box,) = made.all("div", data_plans=None)
    assert "hidden" not in box.attributes
    buttons = made.all("button")
    assert [button.text for button in buttons] == [plan["title"] for plan in sheet["cloth_plans"]]
    assert [button.attributes["aria-pressed"] for button in buttons] == ["true", "false", "false"]
    assert json.loads(buttons[2].attributes["data-checks"] or "") == [
        ["choice.pocket-cloth", ["contrast"]],
        ["choice.band-cloth", ["contrast"]],
    ]
    named = {option.attributes.get("id") for option in made.all()}
    assert {button.attributes["aria-describedby"] for button in buttons} <= named
    assert made.all("table", class_="bs-parts")


def test_plans_that_are_not_offered_are_hidden(sheet: dict[str, Any]) -> None:
    rows = {row.attributes["data-plan"]: row for row in switch(sheet, {"pockets": "two"}).all("div", data_plan=None)}
    assert [name for name, row in rows.items() if "hidden" not in row.attributes] == ["one", "pockets"]
    (box,) = switch(sheet, {}).all("div", data_plans=None)
    assert "hidden" in box.attributes


def test_a_forbidden_plan_cannot_be_taken_and_says_why(sheet: dict[str, Any]) -> None:
    never = {"needs": [{"pockets": ["none"]}], "because": "No cloth left."}
    sheet["rules"].append(rule([{"pocket-cloth": ["contrast"]}], **never))
    answer("open", json.dumps(sheet))
    made = switch(sheet, {"pockets": "two"})
    (button,) = [one for one in made.all("button") if one.text == "Contrast pockets"]
    assert button.attributes["aria-disabled"] == "true"
    (said,) = made.all("div", id="plan-pockets")
    assert said.text == "Not with your other options. No cloth left."


def test_a_pattern_without_plans_has_no_switch(sheet: dict[str, Any]) -> None:
    assert plan_switch(sheet | {"cloth_plans": []}, Slots({"fragments": []})) == ""


def test_a_choices_page_names_the_plans_of_each_alternative(sheet: dict[str, Any]) -> None:
    choice = next(one for one in sheet["choices"] if one["name"] == "pocket-cloth")
    links = read(plans_with(sheet, choice, "contrast")).all("a")
    assert [link.text for link in links] == ["Contrast pockets", "Contrast pockets and bands"]
    assert links[0].attributes["href"] == "../../?choice.pocket-cloth=contrast&choice.band-cloth=same"
    assert plans_with(sheet, choice | {"name": "length"}, "hip") == ""
