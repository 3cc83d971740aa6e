"""The shop front: a card per pattern, filters that can tell patterns apart, light with two hundred patterns."""

from __future__ import annotations

import copy
import gzip
import json
from typing import Any

import pytest

from boltside.calculators.door import answer
from boltside.pages.shop_front import facts, shop_front
from boltside.shop_build import PatternFiles, default_request

from .many_patterns import COUNT, EXAMPLE, sheet_number
from .reading import Element, read

LARGEST_FRONT_BYTES = 400_000
"""Largest shop front with two hundred patterns, packed. Source: our own budget for a slow connection."""

Json = dict[str, Any]


def shown(sheet: Json) -> tuple[Json, Any, str]:
    """A pattern as the shop front takes it."""
    answer("open", json.dumps(sheet))
    return sheet, json.loads(answer("panel", json.dumps(default_request(sheet)))), f"patterns/{sheet['pattern']}/"


def selects(front: Element) -> dict[str, list[str]]:
    """The words that each list offers, by its name."""
    return {
        str(select.attributes["name"]): [str(option.attributes["value"]) for option in select.all("option")]
        for select in front.all("select")
    }


@pytest.fixture
def other(sheet: Json) -> Json:
    """A second pattern that differs in everything that can be filtered by."""
    other = copy.deepcopy(sheet)
    other |= {"pattern": "other", "name": "Other & more", "garment": "dress", "sizes": ["98", "104", "110"]}
    other["difficulty"] = 5
    other["cloths"][0]["kinds"] = ["knit"]
    other["sale"] = {"price": None, "free": True, "checkout": None, "download": None, "formats": [], "languages": []}
    return other


def test_each_pattern_has_a_card_that_is_one_link(sheet: Json, other: Json) -> None:
    front = read(shop_front([shown(sheet), shown(other)]))
    cards = front.all("a", class_="card")
    assert [card.attributes["href"] for card in cards] == ["patterns/example-jacket/", "patterns/other/"]
    assert "8.50 EUR" in cards[0].text and "Other & more" in cards[1].text and cards[1].text.endswith("Free")
    assert all(len(card.all("svg")) == 1 for card in cards)


def test_filters_offer_what_the_patterns_have(sheet: Json, other: Json) -> None:
    front = read(shop_front([shown(sheet), shown(other)]))
    offered = selects(front)
    assert offered["size"] == ["", *sheet["sizes"]]
    assert offered["garment"] == ["", "dress", "jacket"]
    assert offered["cloth"] == ["", *sorted({*sheet["cloths"][0]["kinds"], "knit"})]
    assert front.all("input", name="free")
    for label in front.all("label"):
        assert label.all("select") or label.all("input"), "every control stands in its label"


def test_without_a_script_all_cards_are_there_and_no_filter_is(sheet: Json, other: Json) -> None:
    front = read(shop_front([shown(sheet), shown(other)]))
    assert front.all("form")[0].has("hidden", None)
    assert not any(item.has("hidden", None) for item in front.all("li"))


def test_a_filter_that_tells_nothing_apart_is_left_out(sheet: Json) -> None:
    assert not read(shop_front([shown(sheet)])).all("form")
    twin = copy.deepcopy(sheet) | {"pattern": "twin", "name": "Twin", "garment": "coat"}
    assert list(selects(read(shop_front([shown(sheet), shown(twin)])))) == ["garment"]


def test_cloth_is_that_of_the_garment_not_of_its_lining(sheet: Json) -> None:
    sheet["cloths"][0]["kinds"] = ["knit"]
    sheet["cloths"][1]["kinds"] = ["woven"]
    assert facts(shown(sheet))["cloth"] == ["knit"]


def test_two_hundred_patterns_are_light() -> None:
    example = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    sheets = [sheet_number(number, example) for number in range(COUNT)]
    assert len({sheet["pattern"] for sheet in sheets}) == COUNT
    front = shop_front([shown(sheet) for sheet in sheets])
    assert len(read(front).all("a", class_="card")) == COUNT
    assert len(gzip.compress(front.encode())) < LARGEST_FRONT_BYTES


def test_names_stay_text(sheet: Json, pattern: PatternFiles) -> None:
    sheet["name"], sheet["garment"] = "<script>alert(1)</script>", 'a"b'
    front = shop_front([(sheet, pattern.default_answer, "x/")])
    assert "<script>" not in front
    assert read(front).all("li")[0].attributes["data-garment"] == 'a"b'
