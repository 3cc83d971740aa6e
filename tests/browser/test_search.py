"""The search on a small phone: fetched when it is opened, finds patterns, options and terms, breaks no policy."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from .conftest import PHONE, Watched
from .shop import served


@pytest.fixture(scope="module")
def shop(example_site: Path) -> Iterator[str]:
    """The address of a shop with the example pattern."""
    with served(example_site) as address:
        yield address


def opened(page: Page, address: str, words: str) -> None:
    page.goto(address)
    page.get_by_role("button", name="Search").click()
    page.get_by_role("searchbox", name="Search the shop").fill(words)
    expect(page.locator("[data-search-said]")).to_contain_text("found")


def test_nothing_is_fetched_until_it_is_opened(phone: Page, shop: str) -> None:
    watched = Watched(phone.context)
    phone.goto(shop)
    phone.wait_for_load_state("networkidle")
    assert not [url for url in watched.requests if "search" in url]
    phone.get_by_role("button", name="Search").click()
    expect(phone.locator("[data-search-said]")).to_have_text("Patterns, options, terms of the trade.")
    assert sum("search.json" in url for url in watched.requests) == 1
    phone.get_by_role("button", name="Close").click()
    phone.get_by_role("button", name="Search").click()
    assert sum("search.json" in url for url in watched.requests) == 1, "fetched once"
    assert watched.foreign_to(shop) == [] and watched.complaints == []


@pytest.mark.parametrize(
    ("words", "title", "kind", "place"),
    [
        ("jack", "Example jacket", "Pattern", "patterns/example-jacket/"),
        ("GATHERED ba", "Sleeve end, Example jacket", "Option", "patterns/example-jacket/options/sleeve-end/"),
        ("selved", "Selvedge", "Term", "#selvedge"),
        ("seam allo", "Seam allowance", "Term", "glossary/#seam-allowance"),
        ("which size", "Which size to choose", "Page", "measuring/#which-size"),
    ],
)
def test_finds(phone: Page, shop: str, words: str, title: str, kind: str, place: str) -> None:
    opened(phone, shop, words)
    line = phone.locator("[data-search-results] li", has_text=title).filter(has_text=kind).first
    expect(line).to_be_visible()
    assert str(line.locator("a").get_attribute("href")).endswith(place)
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]


def test_enter_follows_the_first_line_and_the_place_is_there(phone: Page, shop: str) -> None:
    opened(phone, f"{shop}patterns/example-jacket/options/length/", "trueing")
    phone.keyboard.press("Enter")
    phone.wait_for_url("**/glossary/#trueing")
    expect(phone.locator("#trueing")).to_be_in_viewport()


def test_a_result_on_the_same_page_uncovers_it(phone: Page, shop: str) -> None:
    opened(phone, f"{shop}glossary/", "placket")
    phone.keyboard.press("Enter")
    expect(phone.locator("dialog.search")).to_be_hidden()
    expect(phone.locator("#placket")).to_be_in_viewport()


def test_what_is_not_there_is_said(phone: Page, shop: str) -> None:
    phone.goto(shop)
    phone.get_by_role("button", name="Search").click()
    phone.get_by_role("searchbox").fill("<img src=x onerror=alert(1)>")
    expect(phone.locator("[data-search-said]")).to_have_text("Nothing found. Try the beginning of another word.")


def test_without_a_connection_it_says_so(phone: Page, shop: str) -> None:
    phone.goto(shop)
    phone.wait_for_load_state("networkidle")
    phone.context.set_offline(True)
    phone.get_by_role("button", name="Search").click()
    expect(phone.locator("[data-search-said]")).to_contain_text("needs a connection the first time")


def test_the_sale_says_when_there_is_no_connection(phone: Page, shop: str) -> None:
    phone.goto(f"{shop}patterns/example-jacket/")
    words = phone.locator("[data-offline]")
    expect(words).to_be_hidden()
    phone.context.set_offline(True)
    expect(words).to_be_visible()
    phone.context.set_offline(False)
    expect(words).to_be_hidden()


@pytest.mark.parametrize("page", ["", "glossary/", "patterns/example-jacket/options/length/"])
def test_every_link_leads_somewhere(phone: Page, shop: str, page: str) -> None:
    phone.goto(shop + page)
    links = phone.eval_on_selector_all("a[href]", "links => links.map(link => link.href)")
    for link in dict.fromkeys(str(link).split("#")[0] for link in links):
        if link.startswith(shop):
            assert phone.request.get(link).ok, link
