"""A remnant on a small phone: typed, answered, led to the pattern, kept over a reload; nothing is asked elsewhere."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Page, expect

from .conftest import PHONE, Watched
from .shop import served

READY_MS = 180_000


@pytest.fixture(scope="module")
def shop(example_site: Path) -> Iterator[str]:
    """The address of a shop with the example pattern."""
    with served(example_site) as address:
        yield address


def typed(page: Page, address: str, length: str, width: str) -> None:
    page.goto(f"{address}remnants/")
    page.get_by_label("Length, along the selvedge").fill(length)
    page.get_by_label("Width, across it").fill(width)


def test_what_is_typed_before_python_is_there_is_answered_and_leads_to_the_pattern(phone: Page, shop: str) -> None:
    watched = Watched(phone.context)
    typed(phone, shop, "300", "150")
    link = phone.locator("#fits a").first
    expect(link).to_be_visible(timeout=READY_MS)
    expect(phone.locator("#fits")).to_contain_text("Example jacket")
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    asked = parse_qs(urlsplit(str(link.get_attribute("href"))).query)
    link.click()
    expect(phone.locator("form[data-ready]")).to_be_visible(timeout=READY_MS)
    for name, values in asked.items():
        control = phone.locator(f'[name="{name}"]')
        if control.count() and control.first.get_attribute("type") == "radio":
            expect(phone.locator(f'[name="{name}"][value="{values[0]}"]')).to_be_checked()
    assert watched.foreign_to(shop) == [] and watched.complaints == []


def test_too_small_a_piece_is_told_so_and_a_reload_keeps_what_was_typed(phone: Page, shop: str) -> None:
    typed(phone, shop, "12", "20")
    said = phone.locator("#fits [data-fragment]:not([hidden])").first
    expect(said).not_to_be_empty(timeout=READY_MS)
    assert phone.locator("#fits a").count() == 0
    before = said.inner_text()
    phone.reload()
    expect(phone.get_by_label("Width, across it")).to_have_value("20")
    expect(phone.locator("#fits [data-fragment]:not([hidden])").first).to_have_text(
        re.compile(re.escape(before.splitlines()[0])), timeout=READY_MS
    )
