"""A shop of two hundred patterns on a small phone: filters, their place in the address, how long they take."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.pages.many_patterns import COUNT, EXAMPLE, sheet_number

from .conftest import PHONE, Watched
from .shop import served

LONGEST_FILTER_MS = 100
"""Longest time from a choice to the cards that fit. Source: our own budget; what people take for at once."""

FRONT = """<!doctype html><html lang="en" dir="ltr"><head><meta charset="utf-8"><title>Front</title>
<meta name="viewport" content="width=device-width,initial-scale=1"><link rel="icon" href="data:,">{styles}</head><body>
<div class="md-content"><article class="md-content__inner md-typeset">{front}</article></div>
<script type="module" src="front.mjs"></script></body></html>"""


@pytest.fixture(scope="module")
def many(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The shop front of two hundred patterns with its script and styles; only this page, for speed."""
    from boltside.calculators.door import answer
    from boltside.pages.shop_front import shop_front
    from boltside.shop_build import default_request

    folder = tmp_path_factory.mktemp("many")
    example = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    shown = []
    for number in range(COUNT):
        sheet = sheet_number(number, example)
        answer("open", json.dumps(sheet))
        shown.append((sheet, json.loads(answer("panel", json.dumps(default_request(sheet)))), f"{sheet['pattern']}/"))
    source = Path(__file__).parents[2] / "site_src"
    styles = ""
    for style in ("base", "paper", "panel", "parts", "shop"):
        (folder / f"{style}.css").write_bytes((source / "theme" / "assets" / f"{style}.css").read_bytes())
        styles += f'<link rel="stylesheet" href="{style}.css">'
    shutil.copytree(source / "theme" / "assets" / "fonts", folder / "fonts")
    (folder / "front.mjs").write_bytes((source / "browser" / "front.mjs").read_bytes())
    (folder / "index.html").write_text(FRONT.format(styles=styles, front=shop_front(shown)), encoding="utf-8")
    with served(folder) as address:
        yield address


def shown_cards(page: Page) -> int:
    return page.locator("#cards > li:not([hidden])").count()


def test_filters_by_size_garment_and_difficulty(phone: Page, many: str) -> None:
    watched = Watched(phone.context)
    phone.goto(many)
    expect(phone.locator("[data-front-count]")).to_have_text(f"{COUNT}")
    loaded = len(watched.requests)
    phone.locator("#front summary").click()
    phone.get_by_label("Size").select_option("68")
    phone.get_by_label("Garment").select_option("dress")
    phone.get_by_label("Difficulty").select_option("3")
    example = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    sheets = [sheet_number(number, example) for number in range(COUNT)]
    meant = [sheet for sheet in sheets if "68" in sheet["sizes"] and sheet["garment"] == "dress"]
    assert 0 < shown_cards(phone) <= len(meant) < COUNT
    expect(phone.get_by_role("status")).to_have_text(f"{shown_cards(phone)} of {COUNT} patterns")
    assert phone.url.endswith("?size=68&garment=dress&difficulty=3")
    assert len(watched.requests) == loaded, "filtering asks the network for nothing"
    assert watched.complaints == []


def test_the_address_keeps_the_filters(phone: Page, many: str) -> None:
    phone.goto(f"{many}?cloth=knit&free=free&garment=<b>&unknown=1")
    phone.locator("#front summary").click()
    expect(phone.get_by_label("Cloth")).to_have_value("knit")
    expect(phone.get_by_label("Free ones only")).to_be_checked()
    expect(phone.get_by_label("Garment")).to_have_value("")
    few = shown_cards(phone)
    assert 0 < few < COUNT
    phone.reload()
    expect(phone.get_by_label("Cloth")).to_have_value("knit")
    assert shown_cards(phone) == few
    phone.locator("#front summary").click()
    phone.get_by_role("button", name="Show all").click()
    assert shown_cards(phone) == COUNT and "?" not in phone.url


def test_a_word_that_would_leave_nothing_cannot_be_taken(phone: Page, many: str) -> None:
    phone.goto(many)
    phone.locator("#front summary").click()
    for garment in phone.get_by_label("Garment").locator("option").all()[1:]:
        phone.get_by_label("Garment").select_option(garment.get_attribute("value"))
        for option in phone.get_by_label("Size").locator("option:not([disabled])").all():
            phone.get_by_label("Size").select_option(option.get_attribute("value"))
            assert shown_cards(phone) > 0
        phone.get_by_label("Size").select_option("")


def test_a_filter_takes_no_time(phone: Page, many: str) -> None:
    phone.goto(many)
    took_ms = phone.evaluate(
        """() => {
          const select = document.querySelector("select[name=garment]");
          const started = performance.now();
          select.value = "dress";
          select.dispatchEvent(new Event("input", { bubbles: true }));
          document.body.getBoundingClientRect(); // has the page laid out anew
          return performance.now() - started;
        }"""
    )
    assert took_ms <= LONGEST_FILTER_MS


def test_the_filters_are_in_reach_of_the_thumb(phone: Page, many: str) -> None:
    phone.goto(many)
    bar = phone.locator("#front summary").bounding_box()
    assert bar is not None and bar["y"] + bar["height"] > PHONE["height"] - 8 and bar["height"] >= 44
    phone.locator("#front summary").click()
    for control in phone.locator("#front select, #front button").all():
        box = control.bounding_box()
        if box is not None:
            assert box["height"] >= 44 and box["y"] > PHONE["height"] / 2
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]


def test_without_javascript_all_cards_are_there(browser: Browser, many: str) -> None:
    context = browser.new_context(viewport=PHONE, java_script_enabled=False)
    page = context.new_page()
    page.goto(many)
    assert shown_cards(page) == COUNT
    expect(page.locator("#front")).to_be_hidden()
    context.close()
