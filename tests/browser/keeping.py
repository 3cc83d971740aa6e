"""What a buyer does to keep a shop, and what the page then says, for the tests in Chromium."""

from __future__ import annotations

import re

from playwright.sync_api import BrowserContext, Locator, Page, expect

from .harmed_shop import PAGE, Shop

WHOLE = "Kept on this phone, complete."
READY = "A new edition of the shop is on this phone, complete."
NO_ROOM = "There is no room left on this phone."
OLD, NEW = "Outer cloth", "Outer cloth of the new edition"
"""One cloth by the name that each of two editions gives it."""
START_MS = 180_000


def said(page: Page) -> Locator:
    """How the copy stands, in words."""
    return page.locator("[data-keep-said]")


def begin_to_keep(page: Page) -> None:
    """Tap the button at the foot of the page."""
    page.locator("#keep").scroll_into_view_if_needed()
    page.get_by_role("button", name=re.compile(r"^Keep this shop on my phone \(\d")).click()


def keep(page: Page, address: str) -> None:
    """Open a page of the shop and tap the button."""
    page.goto(address)
    begin_to_keep(page)


def kept(context: BrowserContext, shop: Shop) -> Page:
    """A page of a shop that is kept whole."""
    page = context.new_page()
    keep(page, shop.address)
    expect(said(page)).to_contain_text(WHOLE)
    return page


def answered(page: Page, cloth: str = OLD) -> None:
    """The open page's calculators answer a width that only they know, in the words of the page's own edition."""
    page.wait_for_selector("form[data-ready]", timeout=START_MS)
    page.get_by_label("Width on the bolt").first.fill("137")
    expect(page.locator(".note__lines")).to_contain_text(f"{cloth}, 137 cm wide", use_inner_text=True)
    of_the_page(page, cloth)


def of_the_page(page: Page, cloth: str = OLD) -> None:
    """The page itself is of the edition that calls the cloth so."""
    form = page.locator("form#panel").text_content() or ""
    assert (NEW in form) == (cloth == NEW)


def opened(page: Page, shop: Shop, cloth: str = OLD) -> None:
    """Open the pattern's page; page and calculators are of that edition."""
    page.goto(shop.address + PAGE)
    answered(page, cloth)
