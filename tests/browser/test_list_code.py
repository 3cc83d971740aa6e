"""A list in a link: written and read as the handbook says, and nothing else is ever taken for one."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from cases.list_code import code, drawn, hostile, sealed, unknown
from playwright.sync_api import Browser, Page, expect

from .conftest import PHONE
from .shop import served

SEED, LISTS = 20261126, 300
READY_MS = 180_000
KEPT = "localStorage.getItem(Object.keys(localStorage)[0] ?? '')"
SENTENCES = {
    "There is no list in this link.",
    "This link is too long to be a list.",
    "This link is damaged: a part of it is missing or was changed on its way. Ask for it again.",
    "This list was written by a newer edition of the shop. Load the page again, or ask for it as text.",
}


@pytest.fixture(scope="module")
def shop(example_site: Path) -> Iterator[str]:
    """The address of a shop with the example pattern."""
    with served(example_site) as address:
        yield address


@pytest.fixture(scope="module")
def page(browser: Browser, shop: str) -> Iterator[Page]:
    """The page of the list on a small phone."""
    context = browser.new_context(viewport=PHONE)
    page = context.new_page()
    page.goto(f"{shop}list/")
    expect(page.locator("[data-list]")).to_be_visible()
    yield page
    context.close()


def run(page: Page, what: str, given: Any) -> Any:
    return page.evaluate(f"async (given) => {{ const code = await import('/shop/code.mjs'); return ({what}); }}", given)


@pytest.mark.outside
def test_the_checksum_is_the_one_of_zip_files(page: Page) -> None:
    # Source: the check value of CRC-32 (ISO-HDLC), CBF43926 for "123456789"; zlib's crc32 gives it too.
    assert run(page, "code.check(given)", "123456789") == "cbf43926"
    assert sealed("123456789").endswith("~cbf43926")


def test_every_list_comes_back_and_is_written_as_the_handbook_says(page: Page) -> None:
    print(f"seed {SEED}")
    draw = random.Random(SEED)
    lists = [drawn(draw) for _ in range(LISTS)]
    expected = [code(garments, cut) for garments, cut in lists]
    asked = [{"garments": garments, "cut": cut} for garments, cut in lists]
    assert run(page, "given.map((one) => code.encode(one))", asked) == expected
    again = run(page, "given.map((one) => code.encode(code.decode(one)))", expected)
    assert again == expected
    read = run(page, "given.map((one) => code.decode(one))", expected)
    for (garments, cut), found in zip(lists, read, strict=True):
        assert found["cut"] == cut and len(found["garments"]) == len(garments)
        for one, back in zip(garments, found["garments"], strict=True):
            assert {key: back[key] for key in one if key not in ("cloths",)} == {
                key: one[key] for key in one if key not in ("cloths",)}  # fmt: skip
            for cloth, said in back["cloths"].items():
                assert {key: text for key, text in said.items() if key != "bolt"} == {
                    key: text for key, text in one["cloths"][cloth].items() if key != "bolt"}  # fmt: skip


def test_prices_stay_at_home(page: Page) -> None:
    priced = {"pattern": "cap", "edition": "1", "size": "92", "cloths": {"outer": {"price": "12.90 per m"}}}
    assert run(page, "code.encode({garments: [given]})", priced) == sealed("L1~~cap.1.92..cm.")


def test_what_messengers_do_to_a_link_does_no_harm(page: Page) -> None:
    sound = sealed("L1~fine~cap.1.92..cm..w-outer.1_2c37_20m")
    ways = [f"https://shop.example/list/#{sound}", f"#{sound}.", f" {sound} \n", sound.replace("~", "%7E"), f"{sound})"]
    for way in ways:
        assert run(page, "code.encode(code.decode(given))", way) == sound, way


def test_hostile_texts_lead_to_a_plain_sentence_and_to_nothing_else(page: Page) -> None:
    texts = hostile()
    assert len(texts) >= 200
    said = run(page, "given.map((one) => code.decode(one))", texts)
    for text, found in zip(texts, said, strict=True):
        assert set(found) == {"problem"} and found["problem"] in SENTENCES, text[:200]
    odd = [None, 7, [], {}, True, ["L1"]]
    assert all(set(one) == {"problem"} for one in run(page, "given.map((one) => code.decode(one))", odd))
    assert run(page, "({}).x === undefined && Object.keys(Object.prototype).length === 0", None)


def test_hostile_links_show_a_sentence_and_keep_nothing(page: Page, shop: str) -> None:
    page.goto(f"{shop}list/")
    before = page.evaluate(KEPT)
    problem = page.locator("[data-problem]")
    for text in hostile():
        page.evaluate("(text) => { location.hash = text; }", text)
        if page.evaluate("location.hash.length > 1"):
            expect(problem).to_be_visible()
            assert problem.inner_text() in SENTENCES, text[:200]
        assert page.locator("[data-garment]").count() == 0 and page.locator("[data-shared]").is_hidden()
    assert page.evaluate("typeof hacked") == "undefined" and page.evaluate(KEPT) == before
    assert page.locator(".list-page script, .list-page img").count() == 0


def test_what_the_shop_does_not_have_is_said_in_words(page: Page, shop: str) -> None:
    page.goto(f"{shop}list/")
    before = page.evaluate(KEPT)
    for text in unknown():
        page.evaluate("(text) => { location.hash = text; }", text)
        expect(page.locator("[data-shared]")).to_be_visible()
        expect(page.locator("[data-list][data-shown=now]")).to_be_visible(timeout=READY_MS)
        said = page.locator("[data-garments]").inner_text() + page.locator("[data-buys]").inner_text()
        assert any(words in said for words in ("has no pattern", "is not a size", "Example jacket, size 92")), text
    assert page.evaluate("typeof hacked") == "undefined" and page.evaluate(KEPT) == before
    assert page.locator(".list-page script, .list-page img").count() == 0
