"""The paper guide's text: the set that was chosen and nothing else, in one system, the same each time."""

from __future__ import annotations

import json
import re
from html import unescape
from itertools import islice
from typing import Any

from cases.real_sheets import real_sheet

from boltside.calculators.cautions import DEFER, TEXTS
from boltside.calculators.choices import all_allowed, completed
from boltside.calculators.conditions import holds
from boltside.calculators.panel import panel_fragments
from boltside.calculators.request import read_request
from boltside.calculators.stretch import CLOTH_STRETCH
from boltside.paper.guide import TECHNIQUE_PICTURES, paper_guide, pictures_in

ELSEWHERE = ("drawing", "choice.", "choices", "caution.", "cutting-list", "why.", "plan", "cost", "guide.")
"""Fragments that a guide shows in another form, or that only an answer on a screen has."""


def words(document: str, unit: str = "cm") -> str:
    """What is read on the paper: without marks, and without the other system."""
    other = {"cm": "in-inch", "in": "in-cm"}[unit]
    shown = re.sub(rf'<span class="{other}">[^<]*</span>', "", document.split("<body", 1)[1].split(">", 1)[1])
    shown = re.sub(r"<title>[^<]*</title>|<style>[^<]*</style>|</?(span|a|b|em|strong)\b[^>]*>", "", shown)
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", shown)).split())


def some_sets(sheet: dict[str, Any]) -> list[dict[str, str]]:
    """Some dozens of allowed sets of the first and the last size, far apart from each other."""
    found = []
    for size in (sheet["sizes"][0], sheet["sizes"][-1]):
        every = list(islice(all_allowed(sheet["choices"], sheet["rules"], size), 2000))
        found += every[:: max(1, len(every) // 20)]
    return found


def test_it_has_its_parts_in_order(sheet: dict[str, Any]) -> None:
    document = paper_guide(sheet, sheet["sizes"][0], {})
    parts = ["Your options", "Whom it fits", "To buy", "To cut", "Closures", "Take care", "Before you start", "Sewing"]
    assert [part for part in re.findall("<h2>([^<]*)</h2>", document) if part in parts] == parts
    assert f"<title>{sheet['name']}, size {sheet['sizes'][0]}</title>" in document
    assert f"{sheet['name']} · size {sheet['sizes'][0]} · edition {sheet['edition']}" in document
    assert DEFER in words(document)
    assert "compliant" not in document and "certified" not in document


def test_the_same_question_gets_the_same_text(sheet: dict[str, Any]) -> None:
    assert paper_guide(sheet, sheet["sizes"][1], {}) == paper_guide(sheet, sheet["sizes"][1], {})


def test_only_the_steps_of_the_set_numbered_afresh_with_a_box_each(sheet: dict[str, Any]) -> None:
    counts = set()
    for chosen in some_sets(sheet):
        document = paper_guide(sheet, chosen["size"], chosen)
        shown = [step["title"] for step in sheet["steps"] if holds(step["when"], chosen)]
        heads = re.findall(r'<h3><span class="box"></span><span class="number">(\d+) </span>(.*?)</h3>', document)
        assert [(int(number), unescape(title)) for number, title in heads] == list(enumerate(shown, 1))
        counts.add(len(shown))
    assert len(counts) > 1, "the sets shown here all have the same steps"


def test_it_says_what_the_page_says(sheet: dict[str, Any]) -> None:
    for unit in ("cm", "in"):
        for chosen in some_sets(sheet)[::5]:
            text = words(paper_guide(sheet, chosen["size"], chosen, unit=unit), unit)
            said = panel_fragments(read_request(sheet, {"size": chosen["size"], "choices": chosen, "unit": unit}))
            for fragment in said:
                told = fragment.said.text if unit == "cm" else fragment.said.text_inch
                if told and not fragment.name.startswith(ELSEWHERE) and not fragment.name.endswith(".less"):
                    assert " ".join(told.split()) in text, fragment.name
            cut = next(one for one in said if one.name == "cutting-list")
            for row in cut.data["rows"]:
                assert f"{row['title']}: {row['how']}" in text
                assert "; ".join(row["notes"]) in text
            assert (CLOTH_STRETCH in text) == (CLOTH_STRETCH in cut.said.text)


def test_the_options_are_said_by_their_titles(sheet: dict[str, Any]) -> None:
    for chosen in some_sets(sheet)[::4]:
        text = words(paper_guide(sheet, chosen["size"], chosen))
        for choice in sheet["choices"]:
            for one in choice["alternatives"]:
                told = f"{choice['title']}: {one['title']}"
                assert (told in text) == (completed(sheet["choices"], chosen).get(choice["name"]) == one["name"]), told


def test_amounts_at_other_widths_are_those_of_the_page(sheet: dict[str, Any]) -> None:
    size = sheet["sizes"][0]
    document = paper_guide(sheet, size, {})
    rows = re.findall(r'<table class="widths"><tr><th>(.*?)</th>(.*?)</tr></table>', document)
    assert rows
    looked_at = 0
    for title, cells in rows:
        cloth = next(cloth for cloth in sheet["cloths"] if cloth["title"] == unescape(title))
        for width, amount in re.findall(r'<td><span class="in-cm">([\d.]+ cm)</span>.*?<b>(.*?)</b></td>', cells):
            asked = {"size": size, "cloths": {cloth["name"]: {"width": width}}}
            said = panel_fragments(read_request(sheet, asked))
            told = next(one for one in said if one.name == f"cloth.{cloth['name']}")
            shown = re.search(r'in-cm">([^<]*)<', amount)
            assert (shown[1] in told.said.text) if shown else (told.kind == "problem" and amount == "too narrow")
            looked_at += 1
    assert looked_at > 3


def test_pictures_are_named_once(sheet: dict[str, Any]) -> None:
    sheet["introduction_html"] = '<p><img src="a%20b.svg" alt="x"><img alt="y" src="c.png?a&amp;b"></p>'
    sheet["steps"][0]["html"] = '<p><img src="c.png?a&amp;b"></p>'
    for technique in sheet["techniques"]:
        technique.pop("drawing", None)
    assert pictures_in(paper_guide(sheet, sheet["sizes"][0], {})) == ["a%20b.svg", "c.png?a&b"]


def test_names_stay_text(sheet: dict[str, Any]) -> None:
    sheet["name"], sheet["label"] = "<b>&amp;", "</title><script>"
    document = paper_guide(json.loads(json.dumps(sheet)), sheet["sizes"][0], {})
    assert "<script" not in document and "<b>&amp;<" not in document
    assert "&lt;b&gt;&amp;amp;" in document


def test_no_link_leads_to_a_place_of_the_shop(sheet: dict[str, Any]) -> None:
    links = '<a href="../x/">here</a> <a href="https://example.org/">there</a> <a href="mailto:a@example.org">us</a>'
    sheet["introduction_html"] = f"<p>{links}</p>"
    document = paper_guide(sheet, sheet["sizes"][0], {})
    assert re.findall("<a[^>]*>", document.split("Before you start")[1])[:3] == [
        "<a>", '<a href="https://example.org/">', '<a href="mailto:a@example.org">'
    ]  # fmt: skip


def test_the_drawing_of_a_technique_stands_once_where_it_is_told(sheet: dict[str, Any]) -> None:
    """In the first step that names it and has no drawing of its own; where each has one, in the first."""
    step = {"title": "One", "html": "<p>x</p>", "when": [], "techniques": ["set-in-sleeve"], "drawing": "own.svg"}
    sheet["techniques"] = [
        {"name": "set-in-sleeve", "title": "Set a sleeve in", "short": "Pin.", "before": None, "drawing": "a.svg"},
        {"name": "plain", "title": "Plain", "short": "Sew.", "before": None},
    ]
    bare = {**step, "title": "Two", "techniques": ["plain", "set-in-sleeve"]}
    del bare["drawing"]
    for steps, place in (([step, bare, bare], "Two"), ([step, {**step, "title": "Three"}], "One"), ([], None)):
        sheet["steps"] = steps
        document = paper_guide(sheet, sheet["sizes"][0], {})
        entries = document.partition('class="sewing"')[2].split("<h3>")
        with_it = [entry for entry in entries if TECHNIQUE_PICTURES + "a.svg" in entry]
        assert len(with_it) == document.count(TECHNIQUE_PICTURES) == (1 if place else 0)
        assert all(f"</span>{place}</h3>" in entry for entry in with_it)
        assert (TECHNIQUE_PICTURES + "a.svg" in pictures_in(document)) == bool(place)


def test_techniques_and_what_to_do_before_are_told_in_short(sheet: dict[str, Any]) -> None:
    """Of the steps that are shown, and for the cloth that was chosen."""
    looked_at = 0
    for chosen in some_sets(sheet):
        text = words(paper_guide(sheet, chosen["size"], chosen))
        shown = {
            name for step in sheet["steps"] if holds(step["when"], chosen) for name in step.get("techniques", ())
        }
        for one in sheet["techniques"]:
            told = f"{one['title']}: {one['short'].split('{')[0]}".strip()
            before = one["before"] is not None and holds(one["before"], chosen)
            assert (told in text) == (one["name"] in shown or before), told
            looked_at += 1
    assert looked_at, "the example has no techniques"


def test_only_the_cautions_of_the_set_stand_on_paper() -> None:
    sheet = real_sheet("windlass")
    small, cords = TEXTS["small-parts"][1], TEXTS["cords"][1]
    none = words(paper_guide(sheet, "92", {"opening": "none"}))
    assert small not in none and cords in none and DEFER in none
    for opening in ("shoulder", "front", "back"):
        assert small in words(paper_guide(sheet, "92", {"opening": opening}))
