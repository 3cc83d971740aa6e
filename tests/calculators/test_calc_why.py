"""Why a figure is what it is: the steps add up to the figure, and every rule says what it rests on."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest

from boltside.calculators.spread import SQUARING_MM

Ask = Callable[..., dict[str, dict[str, Any]]]
SVG = "{http://www.w3.org/2000/svg}"
WAIST = {"length": "waist"}


def test_every_figure_has_its_why_and_only_it(ask: Ask) -> None:
    for choices in ({}, WAIST, {"sleeves": "none", "cloth": "knit"}):
        said = ask("panel", choices=choices, cloths={"lining": {"width": "20"}})
        reasoned = [name for name in said if f"why.{name}" in said]
        assert {f"why.{name}" for name in reasoned} == {name for name in said if name.startswith("why.")}
        for name in reasoned:
            why = said[f"why.{name}"]
            assert why["kind"] == "why"
            assert (why["html"] != "") == (said[name]["kind"] == "figure"), name
            assert set(said[name]["depends_on"]) <= set(why["depends_on"])
        figures = {name for name, one in said.items() if one["kind"] == "figure" and not name.endswith(".cut")}
        assert figures <= set(reasoned)


def test_a_why_depends_on_nothing_that_its_figure_does_not(ask: Ask) -> None:
    said = ask("panel")
    for name, one in said.items():
        if name.startswith("why."):
            assert one["depends_on"] == said[name.removeprefix("why.")]["depends_on"], name


def test_cloth_adds_up(ask: Ask) -> None:
    said = ask("panel", cloths={"outer": {"width": "137"}})
    cloth, why = said["cloth.outer"]["data"], said["why.cloth.outer"]
    assert why["data"] == {"lay_mm": cloth["needed_mm"], "squaring_mm": SQUARING_MM, "buy_mm": cloth["buy_mm"]}
    assert "3 cm more, because cut ends are rarely square (common practice)." in why["text"]
    assert "Cut from it: Front, Back, Sleeve, Front facing." in why["text"]


def test_a_lay_made_for_more_pieces_is_said_to_be_so(ask: Ask) -> None:
    assert "The layout has room for more (Sleeve band)" in ask("panel", choices=WAIST)["why.cloth.outer"]["text"]
    assert "room for more" not in ask("panel")["why.cloth.outer"]["text"]


def test_a_ring_of_elastic_names_body_rule_and_the_designers_own_figure(ask: Ask) -> None:
    assert ask("panel", size="92", choices=WAIST)["why.notion.waist-elastic"]["text"] == (
        "The waist in the size chart, size 92: 47.5 cm. Less 2 cm, so that it holds (from memory). "
        "Plus 2 cm where the ends lie on each other (from memory). By this rule: 47.5 cm. "
        "The designer's own figure for size 92, which counts: 48 cm. Rounded up to full 5 cm: 0.50 m (common practice)."
    )


def test_an_edge_is_the_sum_of_its_parts_and_is_shown(ask: Ask) -> None:
    why = ask("panel", size="92")["why.notion.hem-tape"]
    # Half of chest 503 is 251.5, + 70.5 = 322; twice that + 30 = 674 mm.
    assert "Front, edge hem: 16.1 cm. Back, edge hem: 16.1 cm. The edge, 32.2 cm, times 2. Plus 3 cm" in why["text"]
    pictures = re.findall(r"<svg.*?</svg>", why["html"])
    assert len(pictures) == 2
    for picture in pictures:
        root = ElementTree.fromstring(picture)
        marks = [one for one in root.iter(f"{SVG}path") if one.get("class") == "bs-trace"]
        assert len(marks) == 1


def test_what_is_counted_twice_is_marked_on_both_sides(ask: Ask) -> None:
    html = ask("panel")["why.finished.chest"]["html"]
    pictures = re.findall(r"<svg.*?</svg>", html)
    assert [picture.count('class="bs-trace"') for picture in pictures] == [2, 2]
    assert "2\u00a0×\u00a0" in html


def test_marks_lie_within_the_picture(ask: Ask) -> None:
    for name, one in ask("panel", choices=WAIST).items():
        for picture in re.findall(r"<svg.*?</svg>", one["html"]) if name.startswith("why.") else []:
            root = ElementTree.fromstring(picture)
            _, _, width, height = map(int, root.attrib["viewBox"].split())
            for mark in root.iter(f"{SVG}path"):
                numbers = [int(number) for number in re.findall(r"-?\d+", mark.attrib["d"])]
                assert all(0 <= x <= width for x in numbers[::2]) and all(0 <= y <= height for y in numbers[1::2])


def test_a_finished_measurement_names_body_ease_and_what_is_meant(ask: Ask) -> None:
    text = ask("panel", size="92", choices={"cloth": "knit"})["why.finished.chest"]["text"]
    assert "The chest in the size chart, size 92: 50.3 cm; ease 8.9 cm." in text
    assert "For this cloth the designer means an ease of 2 cm to 11 cm." in text


def test_difficulty_names_what_each_choice_adds(ask: Ask) -> None:
    text = ask("panel", choices={"length": "waist", "cloth": "knit"})["why.difficulty"]["text"]
    assert "The pattern itself: difficulty 2, 240 min." in text
    assert "Length: To the waist, with a band: difficulty +1, +40 min." in text
    assert "Cloth: Sweat knit: -20 min." in text


def test_no_rule_stands_without_what_it_rests_on(ask: Ask) -> None:
    for name, one in ask("panel", choices=WAIST).items():
        if name.startswith("why."):
            for row in re.findall(r"<li>(.*?)</li>", one["html"]):
                rule = any(words in row for words in ("Rounded", "Less ", "Plus ", "buttonhole", "Beyond", "square"))
                assert not rule or "bs-why-source" in row, row


@pytest.mark.outside  # geometry, on paper, and the trade's order of the reckoning
def test_the_reasons_of_a_length_are_those_worked_out_on_paper(on_paper: Ask) -> None:
    # Six rectangles of 70 cm along, two beside each other on 100 cm: 3 x 0.70 = 2.10 m. The trade: squaring the ends
    # 3 to 5 cm, then the wash: 2.13 / 0.95 = 2.2421, said in full cm as at least 2.25; up to 5 cm: 2.25 m.
    wash = {"wash": "own", "along": "5", "across": "0"}
    said = on_paper("panel", choices={"sleeves": "long"}, cloths={"outer": wash})["why.cloth.outer"]["text"]
    said = said.replace("\u00a0", " ")
    steps = [
        "these pieces take 2.10 m.", "3 cm more, because cut ends are rarely square",
        "Together 2.13 m; as the first wash takes 5 % of the length, these are 95 % of 2.25 m",
        "Rounded up to full 5 cm: 2.25 m",
    ]  # fmt: skip
    at = [said.find(step) for step in steps]
    assert -1 not in at and at == sorted(at), said
