"""The shopping list on a small phone: put on, added up, ticked, taken off and put back, sent, kept whatever happens.

Longer than 400 lines: one page, whose tests share how garments are put on it.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, Route, expect

from .conftest import PHONE, Watched
from .shop import served

READY_MS = 180_000
KEY = "boltside list: /"
FULL = """
const plain = Storage.prototype.setItem;
Storage.prototype.setItem = function (key, text) {
  if (window.fullNow) throw new DOMException("full", "QuotaExceededError");
  return plain.call(this, key, text);
};
"""
FORBIDDEN = """
Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } });
"""


@pytest.fixture(scope="module")
def shop(example_site: Path) -> Iterator[str]:
    """The address of a shop with the example pattern."""
    with served(example_site) as address:
        yield address


def put_on(page: Page, shop: str, asked: str, *, answered: bool = True) -> None:
    page.goto(f"{shop}patterns/example-jacket/?{asked}")
    if answered:
        expect(page.locator("form[data-ready]")).to_be_visible(timeout=READY_MS)
        expect(page.locator(".panel[aria-busy=false]")).to_be_visible(timeout=READY_MS)
    page.get_by_role("button", name="Put on my list").click()
    expect(page.locator("[data-put-said]")).to_contain_text("On your list.")


def added_up(page: Page) -> Locator:
    expect(page.locator("[data-list][data-shown=now]")).to_be_visible(timeout=READY_MS)
    return page.locator("[data-buys] > .buy-line")


def kept(page: Page) -> Any:
    return json.loads(page.evaluate(f"localStorage.getItem({KEY!r})") or "null")


def garment(size: str, **more: Any) -> dict[str, Any]:
    """A garment as a list keeps it."""
    return {"pattern": "example-jacket", "edition": "1", "size": size, "second": "", "unit": "cm", "cut": "",
            "choices": {}, "cloths": {}, "was": {}, "name": "Example jacket", "said": [], **more}  # fmt: skip


def with_list(page: Page, shop: str, *garments: dict[str, Any]) -> None:
    """Open the list of a device that has these on it."""
    items = {f"g{at}": {"at": at + 1, "since": at + 1, "garment": one} for at, one in enumerate(garments)}
    text = json.dumps({"format": 1, "items": items, "ticks": {}, "settings": {}, "answered": None})
    page.goto(f"{shop}list/")
    page.evaluate("([key, text]) => localStorage.setItem(key, text)", [KEY, text])
    page.reload()


def test_two_garments_are_put_on_added_up_ticked_and_kept_over_a_reload(phone: Page, shop: str) -> None:
    watched = Watched(phone.context)
    phone.goto(f"{shop}list/")
    expect(phone.get_by_text("Nothing is on your list yet.")).to_be_visible()
    assert phone.evaluate("localStorage.length") == 0, "nothing is kept before something is put on it"
    put_on(phone, shop, "size=98&width.outer=150&choice.length=waist")
    put_on(phone, shop, "size=104&width.outer=150")
    expect(phone.locator(".bar__count")).to_have_text("2")
    phone.get_by_role("link", name="Open it: 2 garments").click()
    lines = added_up(phone)
    expect(phone.locator("[data-garment]")).to_have_count(2)
    expect(lines.filter(has_text="Buttons, 13 mm")).to_contain_text("10")
    ticks = phone.get_by_role("checkbox")
    first = ticks.first
    first.check()
    phone.reload()
    added_up(phone)
    expect(phone.get_by_role("checkbox").first).to_be_checked()
    expect(phone.get_by_role("checkbox").nth(1)).not_to_be_checked()
    for target in phone.locator(".buy__tick, .buy__more > summary, .list-page .plain:visible").all():
        box = target.bounding_box()
        assert box is None or (box["height"] >= 44 and box["width"] >= 44), target.inner_text()
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert watched.foreign_to(shop) == [] and watched.complaints == []


def test_one_cloth_for_two_garments_is_added_before_it_is_rounded(phone: Page, shop: str) -> None:
    with_list(phone, shop, garment("92"), garment("104"))
    lines = added_up(phone)
    before = lines.count()
    lines.first.get_by_role("checkbox").check()
    phone.locator(".buy__more > summary").first.click()
    phone.get_by_role("button", name="Cut from one cloth with: Outer cloth (Example jacket, size 104)").click()
    expect(lines).to_have_count(before - 1)
    expect(lines.first).to_contain_text("Example jacket, size 92; Example jacket, size 104")
    expect(lines.first).to_contain_text("one behind the other")
    expect(lines.first).to_contain_text("You ticked it when it was: Outer cloth, 140 cm wide: ")
    expect(lines.first.get_by_role("checkbox")).not_to_be_checked()
    expect(phone.locator("[data-safe]")).to_contain_text("always enough")
    phone.get_by_label("Price of a metre").first.fill("10")
    phone.get_by_label("Price of a metre").first.press("Enter")
    expect(phone.locator("[data-total]")).to_contain_text("EUR")
    phone.reload()
    added_up(phone)
    expect(lines).to_have_count(before - 1)
    phone.locator(".buy__more > summary").first.click()
    expect(phone.get_by_label("Price of a metre").first).to_have_value("10 per m")
    phone.get_by_role("button", name="Not from one cloth after all").click()
    expect(lines).to_have_count(before)


def test_taken_off_and_put_back(phone: Page, shop: str) -> None:
    with_list(phone, shop, garment("92", cloths={"outer": {"width": "150", "price": "9 per m"}}), garment("104"))
    added_up(phone)
    before = [one["garment"] for one in kept(phone)["items"].values()]
    phone.get_by_role("button", name="Take off").first.click()
    expect(phone.locator("[data-garment]")).to_have_count(1)
    expect(phone.get_by_text("Example jacket, size 92 is off your list.")).to_be_visible()
    expect(phone.locator("[data-buys]")).not_to_contain_text("size 92")
    phone.get_by_role("button", name="Put it back").click()
    expect(phone.locator("[data-garment] h3")).to_have_text(["Example jacket, size 92", "Example jacket, size 104"])
    assert [one["garment"] for one in kept(phone)["items"].values()] == before
    phone.get_by_role("button", name="Take off").first.click()
    phone.reload()
    expect(phone.locator("[data-garment]")).to_have_count(1)


def test_opened_again_exactly_as_chosen(phone: Page, shop: str) -> None:
    asked = {"size": "98", "second": "104", "choice.length": "waist", "way.outer": "flat", "nap.outer": "with",
             "width.outer": "59 in", "wash.outer": "usual", "cut": "coarse", "pattern.lining": "own",
             "every.lining": "12"}  # fmt: skip
    put_on(phone, shop, "&".join(f"{name}={text}" for name, text in asked.items()))
    before = phone.locator(".note__lines").inner_text()
    phone.goto(f"{shop}list/")
    phone.get_by_role("link", name="Open again").click()
    expect(phone.locator("form[data-ready]")).to_be_visible(timeout=READY_MS)
    expect(phone.locator(".panel[aria-busy=false]")).to_be_visible(timeout=READY_MS)
    for name, text in asked.items():
        control = phone.locator(f'[name="{name}"]')
        if control.first.get_attribute("type") == "radio":
            expect(phone.locator(f'[name="{name}"][value="{text}"]')).to_be_checked()
        else:
            expect(control).to_have_value(text)
    assert phone.locator(".note__lines").inner_text() == before


def test_no_measurement_of_the_child_is_kept(phone: Page, shop: str) -> None:
    phone.goto(f"{shop}patterns/example-jacket/")
    expect(phone.locator("form[data-ready]")).to_be_visible(timeout=READY_MS)
    phone.get_by_label("Height").fill("97.5")
    phone.get_by_label("Chest").fill("51.3")
    phone.get_by_role("button", name="Put on my list").click()
    expect(phone.locator("[data-put-said]")).to_contain_text("On your list.")
    text = phone.evaluate(f"localStorage.getItem({KEY!r})")
    assert text and "97.5" not in text and "51.3" not in text and "own" not in text


def test_a_link_shows_the_list_elsewhere_and_is_taken_over_only_when_wanted(
    phone: Page, browser: Browser, shop: str
) -> None:
    cloths = {"outer": {"width": "150", "bolt": "x", "price": "7 per m"}}
    with_list(phone, shop, garment("92", cloths=cloths), garment("104", cloths=cloths))
    lines = added_up(phone).locator(".buy__said").all_inner_texts()
    phone.context.grant_permissions(["clipboard-read", "clipboard-write"])
    phone.get_by_role("button", name="Copy the link").click()
    expect(phone.locator("[data-sent]")).to_contain_text("The link is copied.")
    link = phone.evaluate("navigator.clipboard.readText()")
    assert link.startswith(f"{shop}list/#L1~") and len(link) < 300 and "per" not in link, "prices stay at home"

    other = browser.new_context(viewport=PHONE)
    page = other.new_page()
    with_list(page, shop, garment("68"))
    added_up(page)
    own = page.evaluate(f"localStorage.getItem({KEY!r})")
    page.goto(link)
    page.reload()  # the same page with other words behind # alone is not loaded anew
    added_up(page)
    expect(page.locator("[data-shared]")).to_contain_text("Your own list stays as it is.")
    assert page.locator("[data-buys] .buy__said").all_inner_texts() == lines
    assert page.evaluate(f"localStorage.getItem({KEY!r})") == own
    expect(page.get_by_role("button", name="Take off")).to_have_count(0)
    page.get_by_role("button", name="Show my own list").click()
    expect(page.locator("[data-garment] h3")).to_have_text(["Example jacket, size 68"])
    page.goto(link)
    expect(page.locator("[data-shared]")).to_be_visible()
    page.get_by_role("button", name="Take over into my list").click()
    expect(page.locator("[data-garment]")).to_have_count(3)
    joined = page.locator("[data-buys] .buy-line").filter(has_text="size 92; Example jacket, size 104")
    expect(joined.first).to_be_visible(timeout=READY_MS)
    assert "#" not in page.url
    other.close()


def test_one_garment_is_sent_as_a_code_and_pasted_elsewhere(phone: Page, browser: Browser, shop: str) -> None:
    with_list(phone, shop, garment("92"), garment("104", choices={"length": "waist"}))
    phone.context.grant_permissions(["clipboard-read", "clipboard-write"])
    phone.get_by_role("button", name="Its code").nth(1).click()
    expect(phone.locator("[data-sent]")).to_contain_text("The code is copied.")
    code = phone.evaluate("navigator.clipboard.readText()")
    context = browser.new_context(viewport=PHONE)
    page = context.new_page()
    page.goto(f"{shop}list/")
    page.get_by_text("Somebody sent you a list or a code?").click()
    page.get_by_label("Paste the link or the code here").fill(code)
    page.get_by_role("button", name="Open it").click()
    added_up(page)
    expect(page.locator("[data-shared]")).to_contain_text("A garment that somebody sent.")
    expect(page.locator("[data-garment]")).to_contain_text("Length: To the waist, with a band")
    page.get_by_role("link", name="Open in the shop").click()
    expect(page.locator('[name="choice.length"][value="waist"]')).to_be_checked()
    expect(page.locator('[name="size"][value="104"]')).to_be_checked()
    assert page.evaluate("localStorage.length") == 0
    context.close()


def test_copied_as_text_and_shared_by_the_device(phone: Page, shop: str) -> None:
    phone.add_init_script("navigator.share = async (what) => { window.wasShared = what; };")
    with_list(phone, shop, garment("92"))
    added_up(phone)
    phone.get_by_role("checkbox").first.check()
    phone.get_by_role("button", name="Share", exact=True).click()
    text = phone.evaluate("window.wasShared.text")
    lines = text.split("\n")
    assert lines[0] == "Shopping list, Thistle Quay"
    assert any(line.startswith("[x] Outer cloth, 140") and "(Example jacket, size 92)" in line for line in lines)
    assert any(line.startswith("[ ] Buttons, 13") for line in lines)
    assert lines[-1].startswith(f"{shop}list/#L1~~example-jacket.1.92.")
    phone.evaluate("() => { navigator.clipboard.writeText = () => Promise.reject(new Error('no')); }")
    phone.get_by_role("button", name="Copy as text").click()
    expect(phone.locator("[data-to-copy]")).to_have_value(text)


@pytest.mark.fault("list finds no room")
def test_a_full_storage_is_said_and_nothing_is_lost(phone: Page, shop: str) -> None:
    phone.add_init_script(FULL)
    with_list(phone, shop, garment("92"))
    added_up(phone)
    before = phone.evaluate(f"localStorage.getItem({KEY!r})")
    phone.evaluate("window.fullNow = true")
    phone.get_by_role("checkbox").first.click()
    expect(phone.locator("[data-problem]")).to_contain_text("There is no room left in this browser’s storage")
    expect(phone.get_by_role("checkbox").first).not_to_be_checked()
    phone.get_by_role("button", name="Take off").click()
    expect(phone.locator("[data-garment]")).to_have_count(1)
    assert phone.evaluate(f"localStorage.getItem({KEY!r})") == before and phone.evaluate("localStorage.length") == 1
    phone.goto(f"{shop}patterns/example-jacket/")
    expect(phone.locator("[data-put]")).to_be_visible()
    phone.evaluate("window.fullNow = true")
    phone.get_by_role("button", name="Put on my list").click()
    expect(phone.locator("[data-put-said]")).to_contain_text("Everything that was on your list is still there.")
    phone.evaluate("window.fullNow = false")
    phone.get_by_role("button", name="Put on my list").click()
    expect(phone.locator("[data-put-said]")).to_contain_text("Open it: 2 garments")


@pytest.mark.fault("list finds no room")
def test_a_really_full_storage(phone: Page, shop: str) -> None:
    with_list(phone, shop, garment("92"))
    added_up(phone)
    before = phone.evaluate(f"localStorage.getItem({KEY!r})")
    phone.evaluate("""() => { for (let size = 1 << 22; size >= 1; size >>= 1) {
      try { for (;;) localStorage.setItem(`filler ${size} ${localStorage.length}`, "x".repeat(size)); } catch {} } }""")
    phone.get_by_role("checkbox").first.click()
    expect(phone.locator("[data-problem]")).to_contain_text("There is no room left")
    assert phone.evaluate(f"localStorage.getItem({KEY!r})") == before


@pytest.mark.fault("list finds no room")
def test_a_forbidden_storage_is_said(browser: Browser, shop: str) -> None:
    context = browser.new_context(viewport=PHONE)
    context.add_init_script(FORBIDDEN)
    page = context.new_page()
    page.goto(f"{shop}patterns/example-jacket/")
    page.get_by_role("button", name="Put on my list").click()
    expect(page.locator("[data-put-said]")).to_contain_text("does not allow the page to keep anything")
    page.goto(f"{shop}list/")
    expect(page.locator("[data-problem]")).to_contain_text("does not allow the page to keep anything")
    context.close()


@pytest.mark.fault("list strange")
@pytest.mark.parametrize("text", ["{", "7", "null", '{"items": 7}', "\u0000", '{"format": "1"}'])
def test_what_cannot_be_read_is_put_aside_before_anything_is_written(phone: Page, shop: str, text: str) -> None:
    phone.goto(f"{shop}list/")
    phone.evaluate("([key, text]) => localStorage.setItem(key, text)", [KEY, text])
    phone.goto(f"{shop}patterns/example-jacket/")
    phone.get_by_role("button", name="Put on my list").click()
    expect(phone.locator("[data-put-said]")).to_contain_text("On your list.")
    assert len(kept(phone)["items"]) == 1
    assert text in phone.evaluate("Object.values({...localStorage})")


@pytest.mark.fault("list strange")
def test_a_list_of_a_newer_edition_is_left_alone(phone: Page, shop: str) -> None:
    newer = '{"format":2,"things":[]}'
    phone.goto(f"{shop}list/")
    phone.evaluate("([key, text]) => localStorage.setItem(key, text)", [KEY, newer])
    phone.goto(f"{shop}patterns/example-jacket/")
    phone.get_by_role("button", name="Put on my list").click()
    expect(phone.locator("[data-put-said]")).to_contain_text("newer edition of this shop")
    assert phone.evaluate(f"localStorage.getItem({KEY!r})") == newer


@pytest.mark.fault("list strange")
def test_two_tabs_lose_nothing_of_each_other(phone: Page, shop: str) -> None:
    with_list(phone, shop, garment("92"), garment("104"))
    added_up(phone)
    other = phone.context.new_page()
    other.goto(f"{shop}list/")
    added_up(other)
    phone.get_by_role("button", name="Take off").first.click()
    other.get_by_role("checkbox").nth(1).check()
    put_on(other, shop, "size=116", answered=False)
    expect(phone.locator("[data-garment] h3")).to_have_text(["Example jacket, size 104", "Example jacket, size 116"])
    # Both write from the same state, and the second write does not know of the first.
    stale = phone.evaluate(f"localStorage.getItem({KEY!r})")
    put_on(other, shop, "size=110", answered=False)
    expect(phone.locator("[data-garment]")).to_have_count(3)
    other.evaluate("([key, text]) => localStorage.setItem(key, text)", [KEY, stale])
    # The tab that knows of it puts it back.
    phone.wait_for_function("([key, text]) => localStorage.getItem(key) !== text", arg=[KEY, stale])
    phone.reload()
    expect(phone.locator("[data-garment] h3")).to_have_text(
        ["Example jacket, size 104", "Example jacket, size 116", "Example jacket, size 110"]
    )


@pytest.mark.fault("list and edition")
def test_what_an_older_edition_was_told_stays_and_is_held_against_now(phone: Page, shop: str) -> None:
    older = garment("92", edition="0", choices={"length": "hip", "lost": "x", "sleeves": "bell"},
                    was={"cloths": {"outer": [9950, 87]}, "notions": {"closure": [7]}})  # fmt: skip
    gone = garment("62", edition="0", said=[{"text": "Cloth: 0.80 m", "text_inch": "Cloth: 7/8 yd"}])
    with_list(phone, shop, older, gone)
    added_up(phone)
    first, second = phone.locator("[data-garment]").all()
    expect(first).to_contain_text("This was told for edition “0”; the shop now has edition “1”.")
    expect(first).to_contain_text("The option “lost” is no longer there.")
    expect(first).to_contain_text("“bell” is not offered here; reckoned with “Set in, long”.")
    expect(first).to_contain_text("Outer cloth: 9.95\u00a0m then, ")
    expect(first).to_contain_text("Buttons, 13 mm, or snaps: 7 then, 5 now.")
    expect(second).to_contain_text("“62” is not a size of this pattern.")
    expect(second).to_contain_text("Cloth: 0.80\u00a0m")
    phone.get_by_role("button", name="All right, take it as it is now").click()
    expect(first).not_to_contain_text("edition")
    expect(first.locator(".garment__changes")).to_have_count(0)
    assert kept(phone)["items"]["g0"]["garment"]["edition"] == "1"


def without_python(context: BrowserContext) -> None:
    def refuse(route: Route) -> None:
        route.abort()

    context.route(lambda url: "/shop/python/" in urlsplit(url).path, refuse)


def test_without_the_calculators_the_list_can_still_be_read(phone: Page, shop: str) -> None:
    with_list(phone, shop, garment("92", said=[{"text": "Cloth: 0.80 m", "text_inch": "Cloth: 7/8 yd"}]))
    lines = added_up(phone).locator(".buy__said").all_inner_texts()
    without_python(phone.context)
    phone.reload()
    state = phone.locator("[data-state]")
    expect(state).to_contain_text("These amounts are as last worked out here.", timeout=READY_MS)
    assert phone.locator("[data-buys] .buy__said").all_inner_texts() == lines
    phone.get_by_role("checkbox").first.check()
    phone.reload()
    expect(phone.get_by_role("checkbox").first).to_be_checked()
    with_list(phone, shop, garment("92", said=[{"text": "Cloth: 0.80 m", "text_inch": "Cloth: 7/8 yd"}]))
    expect(state).to_contain_text("nothing is added up", timeout=READY_MS)
    expect(phone.locator("[data-garment]")).to_contain_text("Cloth: 0.80\u00a0m")


def test_what_is_answered_before_python_is_put_on_with_its_amounts(phone: Page, shop: str) -> None:
    without_python(phone.context)
    phone.goto(f"{shop}patterns/example-jacket/?size=104")
    expect(phone.locator("#note-title")).to_have_text("To buy, size 104")
    phone.get_by_role("button", name="Put on my list").click()
    expect(phone.locator("[data-put-said]")).to_contain_text("On your list.")  # its script comes with the tap
    one = next(iter(kept(phone)["items"].values()))["garment"]
    assert one["size"] == "104" and one["choices"]["length"] == "hip"
    assert set(one["was"]["cloths"]) == {"outer", "lining", "interfacing"} and one["was"]["notions"]["closure"] == [5]
    assert any(line["text"].startswith("Outer cloth, 140 cm wide: ") for line in one["said"])
    typed = phone.get_by_label("Width on the bolt").first
    typed.fill("152")
    phone.wait_for_timeout(600)
    phone.get_by_role("button", name="Put on my list").click()
    expect(phone.locator(".bar__count")).to_have_text("2")
    last = list(kept(phone)["items"].values())
    waiting = next(one["garment"] for one in last if one["garment"]["cloths"])
    assert waiting["was"]["cloths"] == {} and waiting["said"] == [], "nothing is told for a width that nobody reckoned"


def test_line_by_line_in_large_type(phone: Page, shop: str) -> None:
    with_list(phone, shop, garment("92"))
    count = added_up(phone).count()
    phone.get_by_role("button", name="Show it large, line by line").click()
    dialog = phone.get_by_role("dialog", name="Shopping list")
    expect(dialog).to_contain_text(f"1 of {count}")
    size = dialog.locator("b:visible").evaluate("part => parseFloat(getComputedStyle(part).fontSize)")
    assert size >= 48
    dialog.get_by_role("button", name="Got it").click()
    expect(dialog).to_contain_text(f"2 of {count}")
    dialog.get_by_role("button", name="Back").click()
    expect(dialog).to_contain_text(f"1 of {count}, ticked")
    dialog.get_by_role("button", name="Close").click()
    expect(phone.get_by_role("checkbox").first).to_be_checked()


def test_two_garments_print_on_one_page(phone: Page, shop: str) -> None:
    with_list(phone, shop, garment("92", edition="0"), garment("104"))
    lines = added_up(phone)
    shown = lines.count()
    phone.emulate_media(media="print")
    assert shown > 5 and all(line.locator("input[type=checkbox]").is_visible() for line in lines.all())
    assert phone.get_by_role("button").filter(visible=True).count() == 0
    pdf = phone.pdf(format="A4")
    assert pdf.count(b"/Type /Page\n") + pdf.count(b"/Type /Page ") + pdf.count(b"/Type/Page/") == 1


def test_the_search_finds_the_list(phone: Page, shop: str) -> None:
    phone.goto(shop)
    phone.get_by_role("button", name="Search").click()
    phone.get_by_role("searchbox").fill("shopping")
    link = phone.locator("[data-search-results] a", has_text="Shopping list")
    expect(link.first).to_have_attribute("href", f"{shop}list/")
