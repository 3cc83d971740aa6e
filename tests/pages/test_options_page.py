"""A page per choice: every alternative with what it changes, and ways there and back."""

from __future__ import annotations

from typing import Any

import pytest

from boltside.pages.options_page import option_address, option_links, options_page
from boltside.shop_build import PatternFiles, option_effects

from .reading import read

Json = dict[str, Any]


def test_the_pattern_page_can_link_each_choice(sheet: Json) -> None:
    links = read(option_links(sheet)).all("a")
    assert [link.attributes["href"] for link in links] == [option_address(choice) for choice in sheet["choices"]]
    assert option_links({**sheet, "choices": []}) == ""


@pytest.mark.parametrize("number", range(3))
def test_each_alternative_says_what_it_changes(pattern: PatternFiles, sheet: Json, number: int) -> None:
    choice = sheet["choices"][number]
    page = read(options_page(sheet, choice, option_effects(sheet, choice["name"])))
    parts = page.all("section", class_="alternative")
    assert [part.attributes["id"] for part in parts] == [one["name"] for one in choice["alternatives"]]
    for part, one in zip(parts, choice["alternatives"], strict=True):
        assert len(part.all("svg")) == 1
        assert one["title"] in part.text and one["about"] in part.text
        back = part.all("a")[-1].attributes["href"]
        usual = one["name"] == choice["default"]
        assert back == ("../../" if usual else f"../../?choice.{choice['name']}={one['name']}")
        assert usual == ("The pattern's usual choice" in part.text)


def test_figures_are_those_of_the_calculator(pattern: PatternFiles, sheet: Json) -> None:
    effects = option_effects(sheet, "length")
    waist = next(part for part in effects["fragments"] if part["id"] == "effect.waist")
    page = read(options_page(sheet, sheet["choices"][0], effects))
    text = page.all("section", id="waist")[0].text
    for cloth in waist["data"]["cloths"].values():
        assert cloth["title"] in text
    assert f"{abs(waist['data']['cloths']['outer']['adds_mm']) / 1000:.2f} m" in text


def test_the_other_choices_are_a_step_away(pattern: PatternFiles, sheet: Json) -> None:
    first = sheet["choices"][0]
    page = read(options_page(sheet, first, option_effects(sheet, first["name"])))
    others = [link.attributes["href"] for link in page.all("nav")[-1].all("a")]
    assert others == [f"../{choice['name']}/" for choice in sheet["choices"][1:]]


def test_words_stay_text(pattern: PatternFiles, sheet: Json) -> None:
    choice = {**sheet["choices"][0], "title": "<b>x</b>", "about": "a < b"}
    page = options_page(sheet, choice, {"fragments": []})
    assert "<b>" not in page and "a &lt; b" in page
