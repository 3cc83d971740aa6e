"""In a shop of many patterns a buyer keeps the ones that she sews: these work without a server, the others say so."""

from __future__ import annotations

import json
import re
import shutil

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from boltside.edition import EDITION_PATH, FILES_PATH, write_edition

from .harmed_shop import ITSELF, NEWS, PAGE, Shop
from .keeping import START_MS, answered, said

OTHER, THIRD = "patterns/other-jacket/", "patterns/third-jacket/"
KEPT = "This pattern is kept on this phone, complete."
STORED = """async () => {
  const files = await caches.open((await caches.keys()).find((name) => name.includes("files")));
  return (await files.keys()).map((request) => request.url.split("/").pop());
}"""


@pytest.fixture(name="many")
def _many(shop: Shop) -> Shop:
    """A shop of three patterns that is kept pattern by pattern, as one of more than a hundred is."""
    for name in (OTHER, THIRD):
        shutil.copytree(shop.site / PAGE, shop.site / name)
        page = shop.site / name / "index.html"
        page.write_text(page.read_text("utf-8").replace("</h1>", f" of {name}</h1>", 1), "utf-8")
    write_edition(shop.site, by_pattern_above=2)
    return shop


def tap(page: Page, words: str) -> None:
    page.get_by_role("button", name=re.compile(words)).click()


def one_kept(context: BrowserContext, shop: Shop) -> Page:
    page = context.new_page()
    page.goto(shop.address + PAGE)
    page.locator("#keep").scroll_into_view_if_needed()
    tap(page, r"^Keep this pattern on my phone \(\d")
    expect(said(page)).to_contain_text(KEPT)
    return page


def hashes(shop: Shop, *left_out: str) -> set[str]:
    files = json.loads((shop.site / FILES_PATH).read_bytes())["files"]
    return {sha256 for path, (sha256, _) in files.items() if not path.startswith(left_out)}


@pytest.mark.fault("one of many patterns")
def test_one_pattern_is_kept_and_works_alone(context: BrowserContext, many: Shop) -> None:
    page = one_kept(context, many)
    assert set(page.evaluate(STORED)) == hashes(many, OTHER, THIRD)
    many.kill()
    page.goto(many.address + PAGE)
    answered(page)
    for path in (OTHER, THIRD):
        answer = page.goto(many.address + path)
        assert answer is not None and answer.status == 503
        expect(page.get_by_role("heading", level=1)).to_have_text("This pattern is not kept on this phone")
        page.get_by_role("link", name="To the shop").click()
        expect(said(page)).to_contain_text("One pattern of this shop is kept on this phone, complete.")


@pytest.mark.fault("one of many patterns")
def test_a_pattern_that_is_not_kept_opens_from_the_network_and_is_stored_only_when_asked(
    context: BrowserContext, many: Shop
) -> None:
    page = one_kept(context, many)
    page.goto(many.address + OTHER)
    answered(page)
    expect(said(page)).to_contain_text("this one is not")
    assert set(page.evaluate(STORED)) == hashes(many, OTHER, THIRD)
    # Its connection breaks off in the middle: nothing counts as kept; then it is.
    many.order(harm={OTHER: "corrupted"})
    tap(page, r"^Keep this pattern too \(\d")
    expect(said(page)).to_contain_text("Nothing of it was used.")
    many.order()
    many.kill()
    expect(page.get_by_role("button", name=re.compile("^Keep this pattern too"))).to_be_visible()
    page.goto(many.address + OTHER)
    expect(page.get_by_role("heading", level=1)).to_have_text("This pattern is not kept on this phone")
    many.open()
    page.goto(many.address + OTHER)
    tap(page, "^Keep this pattern too")
    expect(said(page)).to_contain_text(KEPT)
    assert set(page.evaluate(STORED)) == hashes(many, THIRD)
    many.kill()
    for path in (PAGE, OTHER):
        page.goto(many.address + path)
        answered(page)
    page.goto(many.address + PAGE)
    tap(page, "^Remove this pattern")
    expect(said(page)).to_contain_text("This pattern is removed from this phone; others stay.")
    assert set(page.evaluate(STORED)) == hashes(many, PAGE, THIRD)


@pytest.mark.fault("one of many patterns")
def test_a_new_edition_is_fetched_for_what_is_kept_alone(context: BrowserContext, many: Shop) -> None:
    page = one_kept(context, many)
    for path in (PAGE, OTHER):
        place = many.site / path / "index.html"
        place.write_text(place.read_text("utf-8").replace("</h1>", " anew</h1>", 1), "utf-8")
    write_edition(many.site, by_pattern_above=2)
    before = len(many.requests())
    page.reload()
    tap(page, "^Get the new edition")
    tap(page, "^Change over now")
    expect(said(page)).to_contain_text("Changed over.")
    asked = [line for line in many.requests()[before:] if OTHER in line or THIRD in line]
    assert asked == [], "of the others nothing is fetched"
    many.kill()
    asked_after = many.listen()
    context.set_offline(True)
    page.goto(many.address + PAGE)
    expect(page.get_by_role("heading", level=1)).to_contain_text("anew")
    page.wait_for_selector("form[data-ready]", timeout=START_MS)
    assert set(asked_after) <= ITSELF | NEWS


def test_the_shop_front_says_that_patterns_are_kept_one_by_one(context: BrowserContext, many: Shop) -> None:
    page = context.new_page()
    page.goto(many.address)
    page.locator("#keep").scroll_into_view_if_needed()
    expect(said(page)).to_contain_text("open a pattern and keep it from its own page")
    expect(page.locator("#keep button:visible")).to_have_count(0)
    assert page.evaluate("caches.keys()") == []


def test_the_size_that_is_told_is_what_is_fetched(context: BrowserContext, many: Shop) -> None:
    told = json.loads((many.site / EDITION_PATH).read_bytes())
    name = PAGE.split("/")[1]
    page = one_kept(context, many)
    lengths = page.evaluate("""async () => {
      const files = await caches.open((await caches.keys()).find((name) => name.includes("files")));
      let sum = 0;
      for (const one of await files.keys()) sum += (await (await files.match(one)).arrayBuffer()).byteLength;
      return sum;
    }""")
    assert lengths == told["rest_bytes"] + told["patterns"][name]
