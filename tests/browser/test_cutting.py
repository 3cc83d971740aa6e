"""The cutting list is ticked off: kept over a reload and other options, taken away and brought back."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from .harmed_shop import PAGE, Shop

KEY = "boltside cut: /patterns/example-jacket/"


def lines(page: Page) -> list[str]:
    return [name.removeprefix("Cut: ") for name in page.evaluate(
        "[...document.querySelectorAll('.cutting input')].map((one) => one.getAttribute('aria-label'))"
    )]  # fmt: skip


def ticked(page: Page) -> list[str]:
    return [line for line in lines(page) if page.get_by_role("checkbox", name=f"Cut: {line}", exact=True).is_checked()]


def near(page: Page) -> None:
    page.locator("#cutting-list").scroll_into_view_if_needed()
    expect(page.locator(".cutting input").first).to_be_visible()


@pytest.fixture(name="page")
def _page(context: BrowserContext, shop: Shop) -> Page:
    page = context.new_page()
    page.goto(shop.address + PAGE)
    near(page)
    return page


def test_ticks_stay_over_a_reload_and_a_change_of_options(page: Page) -> None:
    assert page.evaluate("localStorage.length") == 0, "nothing is kept before the first tick"
    all_lines = lines(page)
    assert len(all_lines) == len(set(all_lines)) >= 4
    first, last = all_lines[0], all_lines[-1]
    for line in (first, last):
        page.get_by_role("checkbox", name=f"Cut: {line}", exact=True).check()
    page.reload()
    near(page)
    assert ticked(page) == [first, last]
    page.locator("input[name='choice.pockets'][value=two]").check()
    expect(page.locator(".cutting")).to_contain_text("Patch pocket")
    expect(page.locator(".cutting input")).to_have_count(page.locator(".cutting li").count())
    assert first in ticked(page)
    assert json.loads(page.evaluate(f"localStorage.getItem({KEY!r})")) == [first, last]


def test_all_ticks_are_taken_away_and_brought_back(page: Page) -> None:
    line = lines(page)[1]
    page.get_by_role("checkbox", name=f"Cut: {line}", exact=True).check()
    page.get_by_role("button", name="Cut again: take all ticks away").click()
    assert ticked(page) == []
    assert page.evaluate("localStorage.length") == 0
    page.get_by_role("button", name="Bring the ticks back").click()
    assert ticked(page) == [line]


def test_a_box_stays_where_it_is_while_answers_come(page: Page) -> None:
    """The boxes are no part of the answer, so the same answer again leaves them, and the focus, alone."""
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    box = page.locator(".cutting input").first
    box.focus()
    page.evaluate("document.querySelector('.cutting input').marked = true")
    page.get_by_label("Width on the bolt").first.fill("137")
    expect(page.locator(".note__lines")).to_contain_text("137 cm wide", use_inner_text=True)
    assert page.evaluate("document.querySelector('.cutting input').marked")


@pytest.mark.parametrize("kept", ["{", "7", '["a", 1, null]', '"Front"'])
def test_what_is_kept_and_makes_no_sense_does_nothing(context: BrowserContext, shop: Shop, kept: str) -> None:
    page = context.new_page()
    page.goto(shop.address + "measuring/")
    page.evaluate("([key, kept]) => localStorage.setItem(key, kept)", [KEY, kept])
    page.goto(shop.address + PAGE)
    near(page)
    assert ticked(page) == []
