"""A shop that is kept on the phone works when its server is gone, is never of two editions, and says how it stands."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import BrowserContext, Error, Route, expect

from boltside.edition import EDITION_PATH, FILES_PATH

from .harmed_shop import ITSELF, NEW_WORDS, PAGE, Shop
from .keeping import READY, WHOLE, keep, kept

STORED = """async () => {
  const found = [];
  for (const name of await caches.keys()) for (const one of await (await caches.open(name)).keys()) found.push(one.url);
  return found;
}"""


@pytest.mark.fault("nothing")
def test_nothing_is_stored_before_somebody_asks(context: BrowserContext, shop: Shop) -> None:
    page = context.new_page()
    for path in ("", PAGE, "remnants/"):
        page.goto(shop.address + path)
        page.locator("#keep").scroll_into_view_if_needed()
        expect(page.get_by_role("button", name=re.compile(r"^Keep this shop on my phone \(\d"))).to_be_visible()
        assert page.evaluate("caches.keys()") == []
        assert page.evaluate("navigator.serviceWorker.getRegistrations().then((all) => all.length)") == 0


@pytest.mark.fault("gone")
def test_with_the_server_gone_everything_works(context: BrowserContext, shop: Shop) -> None:
    page = kept(context, shop)
    size = json.loads((shop.site / EDITION_PATH).read_text("utf-8"))
    assert len(set(page.evaluate(STORED))) <= size["files"] + 2
    shop.kill()
    page.close()
    page = context.new_page()
    asked = shop.listen()
    context.set_offline(True)
    page.goto(shop.address + PAGE)
    expect(page.locator("[data-keep-said]")).to_contain_text(WHOLE)
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    page.get_by_role("radio", name="116", exact=True).check()
    page.get_by_label("Width on the bolt").first.fill("137")
    expect(page.locator(".note__lines")).to_contain_text("137 cm wide", use_inner_text=True)
    page.get_by_role("button", name="Search").click()
    page.locator("#search-words").fill("jacket")
    expect(page.locator("[data-search-results] li").first).to_be_visible()
    page.keyboard.press("Escape")
    page.goto(shop.address + "remnants/?width=140&length=150")
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    expect(page.locator("#fits")).to_contain_text("jacket", ignore_case=True)
    answer = page.goto(shop.address + "no/such/page/")
    assert answer is not None and answer.status == 404
    expect(page.get_by_role("heading", level=1)).to_have_text("This page is not in the shop")
    page.get_by_role("link", name="See all patterns").click()
    expect(page.locator(".cards")).to_be_visible()
    page.goto(shop.address + PAGE.rstrip("/"))
    assert page.url == shop.address + PAGE
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    page.locator("details[data-lay=lining] > summary").click()
    expect(page.locator("details[data-lay=lining] svg.bs-lay")).to_be_visible()
    assert set(asked) <= ITSELF


@pytest.mark.fault("wrong file")
@pytest.mark.parametrize("harm", ["corrupted", "truncated", "404", "500", "redirected"])
def test_a_wrong_file_is_never_kept(context: BrowserContext, shop: Shop, harm: str) -> None:
    wrong = "shop/worker.mjs"
    content = (shop.site / wrong).read_bytes()

    def answer(route: Route) -> None:
        if harm == "corrupted":
            route.fulfill(body=b"#" + content[1:])
        elif harm == "truncated":
            route.fulfill(body=content[:-1])
        elif harm == "redirected":
            route.fulfill(status=302, headers={"Location": shop.address + "404.html"})
        else:
            route.fulfill(status=int(harm), body=content)

    page = context.new_page()
    page.route(lambda url: urlsplit(url).path.endswith(wrong), answer)
    keep(page, shop.address)
    expect(page.locator("[data-keep-said]")).to_contain_text("Try again in a while. Partly kept:")
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then((all) => all.length)") == 0
    page.unroute_all()
    page.get_by_role("button", name="Go on").click()
    expect(page.locator("[data-keep-said]")).to_contain_text(WHOLE)


@pytest.mark.fault("update waits")
def test_a_new_edition_is_whole_and_waits_for_the_buyer(context: BrowserContext, shop: Shop) -> None:
    page = kept(context, shop)
    page.goto(shop.address + PAGE)
    shop.new_edition()
    page.reload()
    expect(page.get_by_text(NEW_WORDS)).to_have_count(0)
    expect(page.locator("[data-keep-line]")).to_have_text("Kept on this phone, complete; there is a new edition")
    page.get_by_role("button", name="Get the new edition").click()
    expect(page.locator("[data-keep-said]")).to_contain_text(READY)
    page.reload()
    expect(page.locator("[data-keep-said]")).to_contain_text(READY)
    expect(page.get_by_text(NEW_WORDS)).to_have_count(0)
    shop.kill()
    page.reload()
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    expect(page.get_by_text(NEW_WORDS)).to_have_count(0)
    page.get_by_role("button", name="Change over now").click()
    expect(page.locator("[data-keep-said]")).to_contain_text("Changed over.")
    page.reload()
    expect(page.get_by_text(NEW_WORDS)).to_have_count(1)
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    expect(page.locator("[data-keep-said]")).to_contain_text(WHOLE)


@pytest.mark.fault("wrong file in an update")
def test_a_new_edition_with_a_wrong_file_leaves_the_old_one_whole(context: BrowserContext, shop: Shop) -> None:
    page = kept(context, shop)
    shop.new_edition()
    shop.replace(PAGE + "index.html", lambda content: content + b"<!-- not in the list -->")
    page.reload()
    page.get_by_role("button", name="Get the new edition").click()
    expect(page.locator("[data-keep-said]")).to_contain_text("Try again in a while.")
    shop.kill()
    page.goto(shop.address + PAGE)
    expect(page.get_by_text(NEW_WORDS)).to_have_count(0)
    page.wait_for_selector("form[data-ready]", timeout=180_000)


@pytest.mark.fault("removed or harmed")
def test_what_the_browser_removed_is_noticed_and_mended(context: BrowserContext, shop: Shop) -> None:
    page = kept(context, shop)
    shop.kill()
    page.evaluate(
        """async (path) => {
          const name = (await caches.keys()).find((one) => one.includes("state"));
          const state = await caches.open(name);
          const { current } = await (await state.match("/kept/state")).json();
          const { files } = await (await state.match(`/kept/${current}`)).json();
          const kept = await caches.open((await caches.keys()).find((one) => one.includes("files")));
          await kept.delete(`/kept/${files[path][0]}`);
        }""",
        PAGE + "index.html",
    )
    page.reload()
    expect(page.locator("[data-keep-said]")).to_contain_text("no longer whole: the browser has removed a file.")
    answer = page.goto(shop.address + PAGE)
    assert answer is not None and answer.status == 503
    expect(page.get_by_role("heading")).to_have_text("This page is no longer on this phone")
    shop.open()
    page.goto(shop.address)
    page.get_by_role("button", name="Make it whole again").click()
    expect(page.locator("[data-keep-said]")).to_contain_text(WHOLE)
    shop.kill()
    page.goto(shop.address + PAGE)
    expect(page.get_by_role("heading", level=1)).to_be_visible()


@pytest.mark.fault("gone while keeping")
def test_server_gone_while_keeping_is_gone_on_with_later(context: BrowserContext, shop: Shop) -> None:
    page = context.new_page()
    page.route(lambda url: "python.bin" in url, lambda route: (shop.kill(), route.abort()))
    keep(page, shop.address)
    expect(page.locator("[data-keep-said]")).to_contain_text("Partly kept:")
    page.unroute_all()
    shop.open()
    page.reload()
    expect(page.locator("[data-keep-said]")).to_contain_text("Partly kept:")
    page.get_by_role("button", name="Go on").click()
    expect(page.locator("[data-keep-said]")).to_contain_text(WHOLE)


def test_pause_data_saving_and_removing(context: BrowserContext, shop: Shop) -> None:
    page = context.new_page()
    page.add_init_script("Object.defineProperty(navigator, 'connection', { value: { saveData: true } })")
    held: list[Route] = []
    page.route(lambda url: "python.bin" in url, lambda route: held.append(route))
    keep(page, shop.address)
    expect(page.locator("[data-keep-said]")).to_contain_text("This phone is set to save data. Fetch")
    assert page.evaluate("caches.keys()") == []
    page.get_by_role("button", name="Yes, fetch it").click()
    expect(page.locator("[data-keep-said]")).to_contain_text("Keeping:")
    page.get_by_role("button", name="Pause").click()
    expect(page.locator("[data-keep-said]")).to_contain_text("Partly kept:")
    page.evaluate("caches.open('of somebody else')")
    page.get_by_role("button", name="Remove it").click()
    expect(page.locator("[data-keep-said]")).to_contain_text("Removed from this phone.")
    assert page.evaluate("caches.keys()") == ["of somebody else"]


FULL = """
const put = Cache.prototype.put;
let room = 5;
Cache.prototype.put = function (request, response) {
  if (room-- > 0) return put.call(this, request, response);
  return Promise.reject(new DOMException("Quota exceeded.", "QuotaExceededError"));
};
"""


@pytest.mark.fault("no room")
def test_a_full_phone_is_said_and_nothing_is_lost(context: BrowserContext, shop: Shop) -> None:
    page = context.new_page()
    page.add_init_script(FULL)
    keep(page, shop.address)
    expect(page.locator("[data-keep-said]")).to_contain_text("There is no room left on this phone.")
    expect(page.locator("[data-keep-said]")).to_contain_text("Partly kept:")
    page.close()
    page = context.new_page()
    page.goto(shop.address)
    page.get_by_role("button", name="Go on").click()
    expect(page.locator("[data-keep-said]")).to_contain_text(WHOLE)


@pytest.mark.fault("no room")
def test_an_update_that_finds_no_room_leaves_the_old_edition_whole(context: BrowserContext, shop: Shop) -> None:
    kept(context, shop).close()
    shop.new_edition()
    page = context.new_page()
    page.add_init_script(FULL.replace("room = 5", "room = 2"))
    page.goto(shop.address + PAGE)
    page.get_by_role("button", name="Get the new edition").click()
    expect(page.locator("[data-keep-said]")).to_contain_text("There is no room left on this phone.")
    shop.kill()
    page.reload()
    expect(page.locator("[data-keep-said]")).to_contain_text("you go on with the old one")
    expect(page.get_by_text(NEW_WORDS)).to_have_count(0)
    page.wait_for_selector("form[data-ready]", timeout=180_000)


@pytest.mark.fault("two windows")
def test_two_windows_on_two_editions_each_get_their_own_files(context: BrowserContext, shop: Shop) -> None:
    old_window = kept(context, shop)
    old_window.goto(shop.address + PAGE)
    script = "shop/counter.mjs"
    before = json.loads((shop.site / FILES_PATH).read_text("utf-8"))["files"][script]
    shop.replace(script, lambda content: content + b"// of the new edition")
    shop.new_edition()
    after = json.loads((shop.site / FILES_PATH).read_text("utf-8"))["files"][script]
    new_window = context.new_page()
    new_window.goto(shop.address)
    new_window.get_by_role("button", name="Get the new edition").click()
    new_window.get_by_role("button", name="Change over now").click()
    expect(new_window.locator("[data-keep-said]")).to_contain_text("Changed over.")
    shop.kill()
    asked = "(address) => fetch(address).then((response) => response.text()).catch(() => 'nothing')"
    for window in (old_window, new_window):
        for listed, ends in ((before, False), (after, True)):
            text = window.evaluate(asked, f"/{script}?{listed[0][:12]}")
            assert len(text.encode()) == listed[1] and text.endswith("// of the new edition") == ends
        assert window.evaluate(asked, f"/{script}?{'0' * 12}") == "nothing", "of no edition that is kept"
    old_window.wait_for_selector("form[data-ready]", timeout=180_000)
    old_window.locator("details[data-lay=lining] > summary").click()
    expect(old_window.locator("details[data-lay=lining] svg.bs-lay")).to_be_visible()


@pytest.mark.fault("very old copy")
def test_a_very_old_copy_goes_to_the_newest_edition_in_one_step(context: BrowserContext, shop: Shop) -> None:
    page = kept(context, shop)
    for _ in range(3):
        shop.new_edition()
    page.goto(shop.address + PAGE)
    page.get_by_role("button", name="Get the new edition").click()
    page.get_by_role("button", name="Change over now").click()
    expect(page.locator("[data-keep-said]")).to_contain_text("Changed over.")
    shop.kill()
    page.reload()
    expect(page.get_by_text(NEW_WORDS)).to_have_count(3)


@pytest.mark.fault("removed or harmed")
def test_a_harmed_file_in_the_copy_is_never_given_out(context: BrowserContext, shop: Shop) -> None:
    page = kept(context, shop)
    shop.kill()
    page.evaluate(
        """async () => {
          const kept = await caches.open((await caches.keys()).find((one) => one.includes("files")));
          for (const one of await kept.keys()) await kept.put(one, new Response("harmed"));
        }"""
    )
    answer = page.goto(shop.address + PAGE)
    assert answer is not None and answer.status == 503
    expect(page.get_by_role("heading")).to_have_text("This page is no longer on this phone")


def test_a_shop_in_a_folder_of_its_server_keeps_to_that_folder(
    context: BrowserContext, example_site: Path, tmp_path: Path
) -> None:
    shop = Shop(shutil.copytree(example_site, tmp_path / "shops" / "quay"), tmp_path, "shops/quay/")
    (tmp_path / "elsewhere.html").write_text("<!doctype html><title>Elsewhere</title><p>Not the shop</p>", "utf-8")
    shop.open()
    page = kept(context, shop)
    shop.kill()
    page.goto(shop.address + PAGE)
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    answer = page.goto(shop.address + "no/such/page")
    assert answer is not None and answer.status == 404
    expect(page.get_by_role("heading", level=1)).to_have_text("This page is not in the shop")
    ground = page.evaluate("getComputedStyle(document.body).backgroundColor")
    page.get_by_role("link", name="See all patterns").click()
    expect(page.locator(".cards")).to_be_visible()
    assert ground == page.evaluate("getComputedStyle(document.body).backgroundColor"), "it has the shop's styles"
    with pytest.raises(Error, match="ERR_CONNECTION_REFUSED"):
        page.goto(f"http://127.0.0.1:{shop.port}/elsewhere.html")
    shop.close()


@pytest.mark.fault("gone")
def test_the_shopping_list_works_with_the_server_gone(context: BrowserContext, shop: Shop) -> None:
    kept(context, shop).close()
    shop.kill()
    page = context.new_page()
    asked = shop.listen()
    context.set_offline(True)
    page.goto(f"{shop.address}{PAGE}?size=98")
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    page.get_by_role("button", name="Put on my list").click()
    page.get_by_role("link", name="Open it").click()
    page.wait_for_selector("[data-list][data-shown=now]", timeout=180_000)
    expect(page.locator("[data-buys] .buy-line").first).to_contain_text("Outer cloth, 140\u00a0cm wide:")
    page.get_by_role("checkbox").first.check()
    page.reload()
    page.wait_for_selector("[data-list][data-shown=now]", timeout=180_000)
    expect(page.get_by_role("checkbox").first).to_be_checked()
    assert set(asked) <= ITSELF
