"""Whatever happens on the phone: an old copy whole or a new one whole, no list lost, and the page says which."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, CDPSession, Page, expect

from boltside.edition import FILES_PATH

from .conftest import PHONE
from .harmed_shop import ITSELF, NEWS, PAGE, Shop
from .keeping import NEW, NO_ROOM, READY, WHOLE, answered, begin_to_keep, keep, kept, of_the_page, opened, said
from .shop import BROWSER, BROWSER_ARGUMENTS

GET_NEW, CHANGE, CHANGED = "Get the new edition", "Change over now", "Changed over."
NOT_HERE = "This page is no longer on this phone"
ASK = "(address) => fetch(address).then((response) => response.text()).catch(() => 'nothing')"
STATE = """async ([change, given]) => {
  const state = await caches.open((await caches.keys()).find((one) => one.includes("state")));
  const { current } = await (await state.match("/kept/state")).json();
  if (change === "all") for (const name of await caches.keys()) await caches.delete(name);
  if (change === "list") await state.delete(`/kept/${current}`);
  if (change === "state") await state.put("/kept/state", new Response(given));
}"""


def changed_over(page: Page) -> None:
    page.get_by_role("button", name=GET_NEW).click()
    page.get_by_role("button", name=CHANGE).click()
    expect(said(page)).to_contain_text(CHANGED)


def put_on_list(page: Page, shop: Shop, size: str) -> None:
    page.goto(f"{shop.address}{PAGE}?size={size}")
    page.get_by_role("button", name="Put on my list").click()
    expect(page.locator("[data-put-said]")).to_contain_text("On your list.")


def on_the_list(page: Page, shop: Shop) -> list[str]:
    """The sizes on the list, as the page tells them."""
    page.goto(f"{shop.address}list/")
    expect(page.locator("[data-garment]").first).to_be_visible()
    return re.findall(r"[Ss]ize (\d+)", " ".join(page.locator("[data-garment]").all_inner_texts()))


def storage_of(page: Page, shop: Shop, bytes_more: int | None) -> CDPSession:
    """Let this origin store so many bytes more than it does now; None: as the browser likes."""
    session = page.context.new_cdp_session(page)
    origin = shop.address.rstrip("/")
    settings: dict[str, Any] = {"origin": origin}
    if bytes_more is not None:
        settings["quotaSize"] = session.send("Storage.getUsageAndQuota", {"origin": origin})["usage"] + bytes_more
    session.send("Storage.overrideQuotaForOrigin", settings)
    return session


# ---- room ----


@pytest.mark.fault("no room")
def test_a_phone_that_is_really_full_while_keeping(context: BrowserContext, shop: Shop) -> None:
    page = context.new_page()
    page.goto(shop.address)
    session = storage_of(page, shop, 2_000_000)
    begin_to_keep(page)
    expect(said(page)).to_contain_text(NO_ROOM)
    expect(said(page)).to_contain_text("Partly kept:")
    put_on_list(page, shop, "98")
    session.detach()
    page.goto(shop.address)
    page.get_by_role("button", name="Go on").click()
    expect(said(page)).to_contain_text(WHOLE)
    assert on_the_list(page, shop) == ["98"]


@pytest.mark.fault("no room")
def test_a_phone_that_is_really_full_while_updating(context: BrowserContext, shop: Shop, second_edition: Path) -> None:
    page = kept(context, shop)
    shop.publish(second_edition)
    page.goto(shop.address + PAGE)
    session = storage_of(page, shop, 100_000)
    page.get_by_role("button", name=GET_NEW).click()
    expect(said(page)).to_contain_text(NO_ROOM)
    page.reload()
    answered(page)
    session.detach()
    page.get_by_role("button", name=re.compile("Go on|Get the new edition")).click()
    page.get_by_role("button", name=CHANGE).click()
    expect(said(page)).to_contain_text(CHANGED)
    shop.kill()
    opened(page, shop, NEW)


@pytest.mark.fault("no room")
def test_no_room_to_change_over_is_said(context: BrowserContext, shop: Shop, second_edition: Path) -> None:
    page = kept(context, shop)
    shop.publish(second_edition)
    page.goto(shop.address + PAGE)
    page.get_by_role("button", name=GET_NEW).click()
    expect(said(page)).to_contain_text(READY)
    page.evaluate("""() => {
      window.put = Cache.prototype.put;
      Cache.prototype.put = () => Promise.reject(new DOMException("Quota exceeded.", "QuotaExceededError"));
    }""")
    page.get_by_role("button", name=CHANGE).click()
    expect(said(page)).to_contain_text(NO_ROOM)
    expect(said(page)).to_contain_text(READY)
    shop.kill()
    page.reload()
    answered(page)
    page.get_by_role("button", name=CHANGE).click()
    expect(said(page)).to_contain_text(CHANGED)
    opened(page, shop, NEW)


# ---- what is kept, removed or strange ----


@pytest.mark.fault("kept state removed or strange")
def test_what_says_what_is_kept_is_gone_or_of_an_older_form(context: BrowserContext, shop: Shop) -> None:
    page = kept(context, shop)
    older = '{"edition":"1","files":["a"]}'
    for change, given in (("state", "{"), ("state", "[]"), ("state", older), ("list", ""), ("all", "")):
        page.evaluate(STATE, [change, given])
        session = context.new_cdp_session(page)
        session.send("ServiceWorker.enable")
        session.send("ServiceWorker.stopAllWorkers")  # it remembers the list
        session.detach()
        shop.kill()
        answer = page.goto(shop.address + PAGE)
        assert answer is not None and answer.status == 503
        expect(page.get_by_role("heading")).to_have_text(NOT_HERE)
        shop.open()
        page.goto(shop.address)
        expect(said(page)).to_contain_text("You can keep the whole shop on this phone.")
        begin_to_keep(page)
        expect(said(page)).to_contain_text(WHOLE)
    shop.kill()
    opened(page, shop)


@pytest.mark.fault("keeper dropped")
def test_the_browser_has_dropped_what_opens_the_copy(context: BrowserContext, shop: Shop) -> None:
    page = kept(context, shop)
    shop.order(harm={"keeper.js": "500"})
    page.evaluate("navigator.serviceWorker.getRegistration().then((one) => one.unregister())")
    page.goto(shop.address + PAGE)
    expect(said(page)).to_contain_text("the browser has dropped what opens it without a connection.")
    shop.order()
    page.get_by_role("button", name="Make it work again").click()
    expect(said(page)).to_contain_text(WHOLE)
    shop.kill()
    page.reload()
    answered(page)


@pytest.mark.fault("very old copy")
def test_a_window_of_an_edition_that_is_no_longer_kept(
    context: BrowserContext, shop: Shop, second_edition: Path
) -> None:
    """Two changes later its files are neither kept nor on the server: it gets none rather than those of another."""
    page = kept(context, shop)
    page.goto(shop.address + PAGE)
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    sheet = f"{PAGE}spec.json"
    first = json.loads((shop.site / FILES_PATH).read_text("utf-8"))["files"][sheet][0]
    shop.publish(second_edition)
    other = context.new_page()
    other.goto(shop.address)
    changed_over(other)
    shop.new_edition()
    other.reload()
    changed_over(other)
    assert page.evaluate(ASK, f"/{sheet}?{first[:12]}") == "nothing"
    answered(page)
    page.reload()
    answered(page, NEW)


# ---- time ----


@pytest.mark.fault("phone's clock wrong")
@pytest.mark.parametrize("year", [1999, 2071])
def test_a_phone_whose_clock_is_wrong(context: BrowserContext, shop: Shop, second_edition: Path, year: int) -> None:
    page = context.new_page()
    page.clock.set_fixed_time(f"{year}-01-01T12:00:00")
    keep(page, shop.address)
    expect(said(page)).to_contain_text(WHOLE)
    assert page.evaluate("new Date().getFullYear()") == year
    put_on_list(page, shop, "98")
    page.clock.set_fixed_time("2026-11-26T12:00:00")
    put_on_list(page, shop, "110")
    shop.publish(second_edition)
    page.goto(shop.address + PAGE)
    changed_over(page)
    shop.kill()
    opened(page, shop, NEW)
    assert on_the_list(page, shop) == ["98", "110"]


# ---- moving about ----


@pytest.mark.fault("reload in the middle")
def test_reloaded_in_the_middle_of_keeping(context: BrowserContext, shop: Shop) -> None:
    page = context.new_page()
    keep(page, shop.address)
    for _ in range(4):
        page.wait_for_timeout(120)
        page.reload()
        page.locator("#keep").scroll_into_view_if_needed()
        expect(said(page)).to_contain_text(re.compile("Partly kept:|You can keep the whole shop|complete"))
        if "complete" in said(page).inner_text():
            break
        page.get_by_role("button", name=re.compile(r"^(Go on|Keep this shop on my phone \()")).click()
    expect(said(page)).to_contain_text(WHOLE)
    shop.kill()
    opened(page, shop)


@pytest.mark.fault("back and forward")
def test_back_and_forward_over_a_change_of_edition(context: BrowserContext, shop: Shop, second_edition: Path) -> None:
    page = kept(context, shop)
    opened(page, shop)
    page.goto(shop.address)
    shop.publish(second_edition)
    page.reload()
    changed_over(page)
    shop.kill()
    page.go_back()
    answered_as_the_page(page)
    page.go_forward()
    expect(page.locator(".cards")).to_be_visible()
    page.go_back()
    answered_as_the_page(page)
    opened(page, shop, NEW)


def answered_as_the_page(page: Page) -> None:
    """A page that comes back may be the old one out of the browser's memory; then its answers are old as well."""
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    is_new = NEW in (page.locator("form#panel").text_content() or "")
    answered(page, *([NEW] if is_new else []))


@pytest.mark.fault("update while typing")
def test_an_update_in_the_middle_of_typing(context: BrowserContext, shop: Shop, second_edition: Path) -> None:
    page = kept(context, shop)
    put_on_list(page, shop, "98")
    page.goto(shop.address + PAGE)
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    page.get_by_role("radio", name="116", exact=True).check()
    width = page.get_by_label("Width on the bolt").first
    width.press_sequentially("13")
    shop.publish(second_edition)
    other = context.new_page()
    other.goto(shop.address)
    changed_over(other)
    shop.kill()
    width.press_sequentially("7")
    expect(page.locator(".note__lines")).to_contain_text("Outer cloth, 137 cm wide", use_inner_text=True)
    of_the_page(page)
    page.reload()
    expect(page.get_by_role("radio", name="116", exact=True)).to_be_checked()
    expect(page.get_by_label("Width on the bolt").first).to_have_value("137")
    expect(page.locator(".note__lines")).to_contain_text(f"{NEW}, 137 cm wide", use_inner_text=True, timeout=180_000)
    of_the_page(page, NEW)
    assert on_the_list(page, shop) == ["98"], "and no list is lost"


# ---- what works in the background ----


@pytest.mark.fault("Python's worker ends")
def test_a_worker_that_ends_without_a_word_is_replaced(context: BrowserContext, shop: Shop) -> None:
    page = context.new_page()
    page.clock.install()
    page.goto(shop.address + PAGE)
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    page.workers[0].evaluate("self.close()")
    page.get_by_role("radio", name="116", exact=True).check()
    page.get_by_label("Width on the bolt").first.fill("137")
    page.clock.fast_forward(1_000)
    expect(page.locator("form[aria-busy=true]")).to_be_attached()
    page.clock.fast_forward(16_000)
    expect(page.locator(".note__lines")).to_contain_text("137 cm wide", use_inner_text=True, timeout=180_000)
    expect(page.locator("#note-title")).to_have_text("To buy, size 116")


@pytest.mark.fault("keeper stopped")
def test_a_keeper_that_is_stopped_comes_back(context: BrowserContext, shop: Shop) -> None:
    page = kept(context, shop)
    shop.kill()
    session = context.new_cdp_session(page)
    session.send("ServiceWorker.enable")
    session.send("ServiceWorker.stopAllWorkers")
    opened(page, shop)
    session.send("ServiceWorker.stopAllWorkers")
    page.locator("details[data-lay=lining] > summary").click()
    expect(page.locator("details[data-lay=lining] svg.bs-lay")).to_be_visible()


@pytest.mark.fault("page from which it was kept")
def test_the_page_from_which_it_was_kept_works_on(context: BrowserContext, shop: Shop) -> None:
    page = context.new_page()
    opened(page, shop)
    begin_to_keep(page)
    expect(said(page)).to_contain_text(WHOLE)
    shop.kill()
    page.locator("details[data-lay=lining] > summary").click()
    expect(page.locator("details[data-lay=lining] svg.bs-lay")).to_be_visible()
    page.get_by_role("button", name="Put on my list").click()
    expect(page.locator("[data-put-said]")).to_contain_text("On your list.")
    assert on_the_list(page, shop) == ["92"]


# ---- restart ----


@pytest.mark.fault("browser started anew")
def test_copy_and_list_outlive_a_restart(browser: Browser, shop: Shop, tmp_path: Path) -> None:
    def start() -> BrowserContext:
        return browser.browser_type.launch_persistent_context(
            tmp_path / "profile", executable_path=BROWSER, args=BROWSER_ARGUMENTS, viewport=PHONE
        )

    context = start()
    page = kept(context, shop)
    put_on_list(page, shop, "98")
    context.close()
    shop.kill()
    asked = shop.listen()
    context = start()
    page = context.new_page()
    assert on_the_list(page, shop) == ["98"]
    opened(page, shop)
    expect(said(page)).to_contain_text(WHOLE)
    assert set(asked) <= ITSELF | NEWS
    context.close()
