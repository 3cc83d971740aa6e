"""The article of a pattern's page: whole, escaped, and usable without a script."""

from __future__ import annotations

import copy
import json
from typing import Any

from boltside.calculators.door import answer
from boltside.pages.panel import MOST_AS_CHIPS, TOGETHER, choice_row
from boltside.pages.pattern_page import PARTS, pattern_page
from boltside.pages.shop_front import shop_front
from boltside.pages.slots import Slots
from boltside.pages.table_sections import WHY_THESE
from boltside.shop_build import PatternFiles, pattern_files, stand_ins

from .conftest import EXAMPLE
from .reading import Element, read

HOSTILE = '<script>alert("x")</script>&\'"'


def page(pattern: PatternFiles) -> Element:
    return read(html(pattern))


def html(pattern: PatternFiles) -> str:
    return pattern_page(
        pattern.sheet, pattern.default_answer, pattern.default_request, {"sheet": {}}, script="panel.mjs", base="../../"
    )


def test_the_default_answer_is_filled_in(pattern: PatternFiles) -> None:
    note = page(pattern).all("section", class_="note")[0]
    said_here = note.all("ul", class_="note__lines")[0].all("span", class_="said")
    lines = [line.text for line in said_here if "hidden" not in line.attributes]
    said = {part["id"]: part["text"] for part in pattern.default_answer["fragments"]}
    assert lines[0] == said["cloth.outer"]
    assert lines[1] == said["cloth.lining"]
    assert said["notion.closure"] in lines
    assert said["notion.waist-elastic"] == "" and not any("lastic" in line for line in lines)


def test_every_fragment_of_the_first_screen_has_its_place(pattern: PatternFiles) -> None:
    document = page(pattern)
    places = {place.attributes["data-fragment"] for place in document.all(data_fragment=None)}
    groups = tuple(str(place.attributes["data-fragments"]) for place in document.all(data_fragments=None))
    elsewhere = {"caution.elastic"}  # said under Cautions anyway
    homeless = [
        part["id"]
        for part in pattern.default_answer["fragments"]
        if part["id"] not in places | elsewhere and not part["id"].startswith(groups)
    ]
    assert homeless == []


def test_every_control_has_a_label_and_a_name(pattern: PatternFiles) -> None:
    document = page(pattern)
    labelled = {label.attributes.get("for") for label in document.all("label")}
    for control in document.all("input"):
        assert control.attributes.get("name"), control.attributes
        assert control.attributes.get("id") in labelled or (control.parent and control.parent.tag == "label")


def test_each_question_starts_at_its_default(pattern: PatternFiles) -> None:
    checked = {box.attributes["name"]: box.attributes["value"] for box in page(pattern).all("input", checked=None)}
    assert checked == {
        "size": "92", "choice.length": "hip", "choice.sleeves": "long", "choice.sleeve-end": "hemmed",
        "choice.pockets": "none", "choice.hem": "plain", "choice.cloth": "woven",
        "choice.overlap": "left-over-right", "way.outer": "folded", "way.lining": "folded",
        "way.interfacing": "folded", "nap.outer": "without", "nap.lining": "without", "pattern.outer": "plain",
        "pattern.lining": "plain", "wash.outer": "not-counted",
        "wash.lining": "not-counted", "wash.interfacing": "not-counted", "cut": "fine",
    }  # fmt: skip


def test_nap_is_asked_where_the_designer_leaves_it_open(pattern: PatternFiles) -> None:
    bolts = {str(bolt.attributes["data-bolt"]): bolt for bolt in page(pattern).all("fieldset", data_bolt=None)}
    asked = {name: bolt.all("div", data_nap="ask") for name, bolt in bolts.items()}
    assert {name: len(found) for name, found in asked.items()} == {"outer": 1, "lining": 1, "interfacing": 0}
    assert "hidden" not in asked["outer"][0].attributes
    (always,) = bolts["outer"].all("p", data_nap="always")  # for the knit, which is not the usual choice
    assert "hidden" in always.attributes


def test_every_figure_of_the_answer_opens_to_where_it_comes_from(pattern: PatternFiles) -> None:
    document = page(pattern)
    explained = {
        str(place.attributes["data-fragment"]).removeprefix("why."): place.text
        for why in document.all("details", class_="why")
        for place in why.all(class_="why__text")
    }
    for line in document.all(class_="figure-line"):
        (said,) = line.all(class_="said")
        assert explained[str(said.attributes["data-fragment"])] or not said.text, said.attributes
    assert sum(bool(text) for text in explained.values()) >= 8


def test_under_each_table_stands_where_its_figures_come_from(pattern: PatternFiles) -> None:
    explained = [part.text for part in page(pattern).all("details") if WHY_THESE in part.all("summary")[0].text]
    assert len(explained) == 1 + len(pattern.sheet["cloths"]) + 1  # size chart, cloths, notions
    assert all(len(text) > len(WHY_THESE) + 40 for text in explained)


def test_the_first_cloth_has_its_lay_drawn_without_a_script() -> None:
    (pattern,) = stand_ins([EXAMPLE])
    answer("open-lays", pattern.lays["outer.folded.92"].content.decode())
    parts = {str(part.attributes["data-lay"]): part for part in page(pattern).all("details", data_lay=None)}
    assert set(parts) == {"outer", "lining", "interfacing"}
    assert parts["outer"].all("svg", class_="bs-lay") and "On paper 1:" in parts["outer"].text
    assert not parts["lining"].all("svg")


def test_what_does_not_go_together_is_said_without_a_script(pattern: PatternFiles) -> None:
    said = next(part.text for part in page(pattern).all("details") if TOGETHER in part.text)
    for rule in pattern.sheet["rules"]:
        assert (rule["because"] or "") in said


def test_the_page_carries_the_rules_that_forbid(pattern: PatternFiles) -> None:
    data = json.loads("".join(map(str, page(pattern).all("script", type="application/json")[0].children)))
    assert [rule["because"] for rule in data["offer"]["rules"]] == [
        rule["because"] for rule in pattern.sheet["rules"] if rule["advice"] is None
    ]
    assert data["offer"]["sizes"] == pattern.sheet["sizes"]


def test_many_alternatives_stand_as_a_list(sheet: dict[str, Any]) -> None:
    many = copy.deepcopy(sheet["choices"][0])
    one = many["alternatives"][0]
    many["alternatives"] = [{**one, "name": f"a{number}"} for number in range(MOST_AS_CHIPS + 1)]
    row = read(choice_row(many, Slots({"fragments": []})))
    assert row.all("div", class_="list") and not row.all("div", class_="chips")
    assert read(choice_row(sheet["choices"][0], Slots({"fragments": []}))).all("div", class_="chips")


def test_all_parts_are_there_and_can_be_jumped_to(pattern: PatternFiles) -> None:
    document = page(pattern)
    ids = [element.attributes["id"] for element in document.all(id=None)]
    assert len(ids) == len(set(ids))
    links = {str(link.attributes["href"]) for link in document.all("a")}
    at_the_foot = {"keep"}  # of every page: theme/partials/keep.html
    assert {link[1:] for link in links if link.startswith("#")} <= set(ids) | at_the_foot
    assert {name for name, _ in PARTS} <= set(ids)


def test_text_of_the_designer_stays_text(sheet: dict[str, Any]) -> None:
    hostile = copy.deepcopy(sheet)
    for place in (hostile, hostile["choices"][0], hostile["choices"][0]["alternatives"][0], hostile["cloths"][0],
                  hostile["items"][0], hostile["finished"][0], hostile["notions"][0], hostile["steps"][0]):  # fmt: skip
        place["name" if place is hostile else "title"] = HOSTILE
    hostile["summary"] = hostile["garment"] = HOSTILE
    hostile["body"]["sources"] = [HOSTILE]
    hostile["items"][0]["notes"] = [HOSTILE]
    hostile["rules"][3]["advice"] = hostile["rules"][0]["because"] = HOSTILE
    made = pattern_files(hostile)
    document = page(made)
    scripts = document.all("script")
    assert [script.attributes.get("type") for script in scripts] == ["application/json", "module"]
    assert "<script>alert" not in html(made)
    front = shop_front([(made.sheet, made.default_answer, "patterns/x/")])
    assert "<script" not in front and read(front).all("a")


def test_page_data_cannot_end_its_own_script(pattern: PatternFiles) -> None:
    files = {"sheet": {"path": "</script><b>"}}
    text = pattern_page(pattern.sheet, pattern.default_answer, pattern.default_request, files, script="p", base="./")
    data = read(text).all("script", type="application/json")[0]
    assert json.loads("".join(str(child) for child in data.children))["files"] == files


def test_lays_of_a_draft_are_marked(sheet: dict[str, Any], pattern: PatternFiles) -> None:
    assert "Draft:" not in html(pattern)
    assert "Draft:" in html(pattern_files({**sheet, "draft_lays": 3}))


def test_each_step_of_some_options_only_carries_its_condition(pattern: PatternFiles) -> None:
    document = page(pattern)
    steps = document.all("ol", class_="steps")[0]
    entries = [entry for entry in steps.all("li") if entry.parent is steps]
    carried = [json.loads(str(entry.attributes.get("data-when", "[]"))) for entry in entries]
    assert carried == [step["when"] for step in pattern.sheet["steps"]]
    assert [] in carried and any(carried), "the example has steps of both kinds"
    assert not any("hidden" in entry.attributes for entry in entries)
    assert "hidden" in document.all("label", class_="tick")[0].attributes, "without a script there is nothing to show"
