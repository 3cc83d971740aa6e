"""The same asked of Chromium, Firefox and WebKitGTK: pages answer, work with the server gone, are of one edition."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from .harmed_shop import ITSELF, NEWS, PAGE, Shop
from .phones import (
    BROWSERS,
    Gone,
    Phone,
    PlaywrightPhone,
    button,
    chromium,
    firefox_phone,
    missing,
    until,
    until_there,
    webkit_phone,
)

SAID, NOTE = "[data-keep-said]", ".note__lines"
WHOLE = "Kept on this phone, complete."
READY = "form[data-ready]"
WIDTH = "//input[@name='width.outer']"
KEEPERS = "async () => (await navigator.serviceWorker.getRegistrations()).length"
KEPT = "async () => (await caches.keys()).length"
OLD, NEW = "Outer cloth", "Outer cloth of the new edition"


def can_be_asked(name: str) -> None:
    """Skip where the browser is not there; in CI that is a failure."""
    why = missing(name)
    if why and os.environ.get("CI"):
        pytest.fail(f"{name}: {why}")
    elif why:
        pytest.skip(f"{name}: {why}")


@pytest.mark.parametrize("name", ["Firefox", "WebKitGTK"])
def test_a_missing_browser_is_skipped_with_its_reason_and_fails_in_ci(
    monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    monkeypatch.setattr("shutil.which", lambda program: None)
    monkeypatch.delenv("CI", raising=False)
    with pytest.raises(pytest.skip.Exception, match=f"{name}: .*installed"):
        can_be_asked(name)
    monkeypatch.setenv("CI", "true")
    with pytest.raises(pytest.fail.Exception, match=f"{name}: .*installed"):
        can_be_asked(name)


@pytest.fixture(scope="module", params=BROWSERS)
def phone(request: pytest.FixtureRequest, browser: Browser) -> Iterator[Phone]:
    """One of the browsers; each test has a shop at an address of its own, so nothing is left from one to the next."""
    name = request.param
    can_be_asked(name)
    starting: AbstractContextManager[Phone] = {
        "Chromium": lambda: chromium(browser),
        "Firefox": firefox_phone,
        "WebKitGTK": webkit_phone,
    }[name]()
    with starting as started:
        yield started


def answers(phone: Phone, cloth: str = OLD) -> None:
    """The calculators answer a width that only they can know, in the words of the page's own edition."""
    until_there(phone, READY)
    phone.tap("//label[normalize-space(.)='116']")
    phone.type(WIDTH, "137")
    said = until(phone, NOTE, "137 cm wide")
    assert f"{cloth}, 137" in said.replace("\u00a0", " ")
    form = phone.run("async () => document.querySelector('form#panel').textContent")
    assert (NEW in form) == (cloth == NEW), "the page is of the same edition as its calculators"


def start_keeping(phone: Phone, shop: Shop) -> None:
    phone.go(shop.address)
    until_there(phone, "#keep:not([hidden])")
    phone.run("async () => document.querySelector('#keep').scrollIntoView()")
    phone.tap(button("Keep this shop on my phone ("))


def keep(phone: Phone, shop: Shop) -> None:
    start_keeping(phone, shop)
    until(phone, SAID, WHOLE)


@pytest.mark.fault("nothing")
def test_a_page_answers_what_is_listed_and_what_is_typed(phone: Phone, shop: Shop) -> None:
    shop.order(harm={"shop/worker.mjs": "500"})
    phone.go(shop.address + PAGE)
    phone.tap("//label[normalize-space(.)='116']")
    until(phone, "#note-title", "To buy, size 116")
    shop.order()
    phone.go(shop.address + PAGE)
    answers(phone)
    assert phone.run(KEPT) == 0 and phone.run(KEEPERS) == 0, "nothing is stored before somebody asks"


@pytest.mark.fault("gone")
def test_with_the_server_gone_everything_works(phone: Phone, shop: Shop) -> None:
    keep(phone, shop)
    shop.kill()
    asked = shop.listen()
    phone.go(shop.address + PAGE)
    until(phone, SAID, WHOLE)
    answers(phone)
    phone.reload()
    answers(phone)
    phone.go(shop.address + "remnants/?width=140&length=150")
    until_there(phone, READY)
    until(phone, "#fits", "jacket")
    phone.go(shop.address + "no/such/page/")
    until(phone, "h1", "This page is not in the shop")
    assert set(asked) <= ITSELF | NEWS


@pytest.mark.fault("update waits")
def test_a_new_edition_waits_until_it_is_chosen(phone: Phone, shop: Shop, second_edition: Path) -> None:
    keep(phone, shop)
    shop.publish(second_edition)
    phone.go(shop.address + PAGE)
    answers(phone)
    phone.tap(button("Get the new edition"))
    until(phone, SAID, "A new edition of the shop is on this phone, complete.")
    shop.kill()
    phone.reload()
    answers(phone)
    phone.tap(button("Change over now"))
    until(phone, SAID, "Changed over.")
    phone.reload()
    answers(phone, NEW)
    until(phone, SAID, WHOLE)


@pytest.mark.fault("gone while keeping")
def test_server_killed_within_a_file_while_keeping(phone: Phone, shop: Shop) -> None:
    phone.go(shop.address)
    shop.kill()
    shop.open(end=[60, "middle"])
    start_keeping(phone, shop)
    shop.wait_for_its_end()
    until(phone, SAID, "Partly kept:")
    assert phone.run(KEEPERS) == 0
    with contextlib.suppress(Gone):
        phone.go(shop.address + PAGE)
        assert "Example jacket" not in phone.text(), "without a keeper no page comes"
    shop.open()
    phone.go(shop.address)
    until(phone, SAID, "Partly kept:")
    phone.tap(button("Go on"))
    until(phone, SAID, WHOLE)
    shop.kill()
    phone.go(shop.address + PAGE)
    answers(phone)


@pytest.mark.fault("wrong file")
@pytest.mark.parametrize("harm", ["corrupted", "truncated", "cut", "404", "500", "redirected"])
def test_a_wrong_file_is_never_kept(phone: Phone, shop: Shop, harm: str) -> None:
    shop.order(harm={"shop/worker.mjs": harm})
    start_keeping(phone, shop)
    until(phone, SAID, "Try again in a while. Partly kept:")
    assert phone.run(KEEPERS) == 0


@pytest.mark.fault("gone while updating")
def test_server_killed_within_an_update(phone: Phone, shop: Shop, second_edition: Path) -> None:
    keep(phone, shop)
    shop.publish(second_edition)
    shop.kill()
    shop.open(end=[9, "middle"])
    phone.go(shop.address + PAGE)
    phone.tap(button("Get the new edition"))
    shop.wait_for_its_end()
    until(phone, SAID, "you go on with the old one")
    phone.reload()
    answers(phone)
    shop.open()
    phone.tap(button("Go on"))
    until(phone, SAID, "A new edition of the shop is on this phone, complete.")
    phone.tap(button("Change over now"))
    until(phone, SAID, "Changed over.")
    shop.kill()
    phone.reload()
    answers(phone, NEW)


def no_wasm(browser: Browser, name: str) -> AbstractContextManager[Phone]:
    """The browser without WebAssembly."""
    starts: dict[str, Callable[[], AbstractContextManager[Phone]]] = {
        "Chromium": lambda: chromium(browser, ["--js-flags=--jitless"]),
        "Firefox": lambda: firefox_phone(javascript__options__wasm=False),
        "WebKitGTK": lambda: webkit_phone(JSC_useWasm="0", JSC_useWebAssembly="0"),
    }
    return starts[name]()


def listed_only(phone: Phone) -> None:
    """The calculators can't start, and the page says what that means."""
    until(phone, "[data-state]", "The calculator could not start on this device.")
    phone.tap("//label[normalize-space(.)='116']")
    until(phone, "#note-title", "To buy, size 116")
    phone.type(WIDTH, "137")
    until(phone, "[data-state]", "for other widths see the tables below")
    assert "137 cm" not in phone.run("async (css) => document.querySelector(css).innerText", NOTE)


@pytest.mark.fault("WebAssembly missing")
@pytest.mark.parametrize("name", BROWSERS)
def test_without_webassembly_what_is_listed_is_answered(name: str, browser: Browser, shop: Shop) -> None:
    can_be_asked(name)
    with no_wasm(browser, name) as phone:
        phone.go(shop.address + PAGE)
        assert phone.run("async () => typeof WebAssembly") == "undefined"
        listed_only(phone)


@pytest.mark.fault("WebAssembly forbidden")
@pytest.mark.parametrize("phone", ["Chromium", "Firefox"], indirect=True)
def test_where_webassembly_is_forbidden_what_is_listed_is_answered(phone: Phone, shop: Shop) -> None:
    """By a policy of the host's, which counts beside the page's own. WebKitGTK runs it in a worker all the same."""
    shop.order(headers={"Content-Security-Policy": "script-src 'self' 'unsafe-inline' blob:"})
    phone.go(shop.address + PAGE)
    listed_only(phone)
    assert not [path for path in shop.requests() if "/shop/python/" in path], "no megabyte is fetched in vain"


@pytest.mark.fault("JavaScript off")
@pytest.mark.parametrize("name", ["Chromium", "Firefox"])
def test_without_javascript_all_tables_are_there(name: str, browser: Browser, shop: Shop) -> None:
    """WebKitGTK's driver itself needs JavaScript in the page."""
    can_be_asked(name)
    without: AbstractContextManager[Phone] = (
        chromium(browser, java_script_enabled=False) if name == "Chromium" else firefox_phone(javascript__enabled=False)
    )
    with without as phone:
        phone.go(shop.address + PAGE)
        words = phone.text()
        assert "Working out others needs JavaScript" in words and "To buy, size" in words
        if isinstance(phone, PlaywrightPhone):
            tables = phone.page.locator("table")
            folded = tables.locator("xpath=self::*[ancestor::details[not(@open)]]")  # opened without any script
            seen = tables.locator("visible=true")
            assert seen.count() >= 5 and seen.count() + folded.count() == tables.count()
            amounts = seen.filter(has_text="116").first.inner_text()
            assert all(size in amounts for size in ("68", "74", "80", "86", "92", "98", "104", "110", "116"))
        for path, sentence in (("remnants/", "needs JavaScript"), ("list/", "The list needs JavaScript")):
            phone.go(shop.address + path)
            assert sentence in phone.text()


@pytest.mark.fault("browser started anew", browser="Firefox")
def test_list_and_copy_outlive_a_restart_of_firefox(shop: Shop, tmp_path: Path) -> None:
    can_be_asked("Firefox")
    profile = tmp_path / "profile"
    with firefox_phone(profile) as phone:
        keep(phone, shop)
        phone.go(f"{shop.address}{PAGE}?size=98")
        phone.tap(button("Put on my list"))
        until(phone, "[data-put-said]", "On your list.")
    shop.kill()
    asked = shop.listen()
    with firefox_phone(profile) as phone:
        phone.go(f"{shop.address}list/")
        until(phone, "[data-list]", "Example jacket")
        phone.go(shop.address + PAGE)
        answers(phone)
    assert set(asked) <= ITSELF | NEWS
