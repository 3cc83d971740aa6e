"""A file that is not the file of this edition leads to a plain sentence, never to an answer."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from .conftest import PHONE

FAILED = "The calculator could not start on this device."
LATE = "The calculator has not started on this device so far."
SHIPPED = ["shop/python/python.bin", "shop/python/calculators.bin", "patterns/example-jacket/spec.json"]


def page_with(browser: Browser, path: str, content: bytes, address: str) -> Page:
    """The page, with one file replaced on its way."""
    context = browser.new_context(viewport=PHONE)
    seen: list[str] = []

    def replace(route: Route) -> None:
        seen.append(route.request.url)
        kind = "text/javascript" if path.endswith("mjs") else "application/octet-stream"
        route.fulfill(body=content, content_type=kind)

    context.route(lambda url: urlsplit(url).path.endswith(path), replace)
    page = context.new_page()
    page.goto(address)
    expect(page.locator("[data-state]")).to_contain_text(FAILED, timeout=180_000)
    assert seen, "the replaced file was asked for"
    return page


@pytest.mark.parametrize("path", SHIPPED)
def test_one_wrong_byte(browser: Browser, example: str, example_site: Path, path: str) -> None:
    content = bytearray((example_site / path).read_bytes())
    content[len(content) // 2] ^= 1
    page = page_with(browser, path, bytes(content), example)
    assert page.locator(".note__lines").inner_text().startswith("Outer cloth, 140 cm wide"), "the usual answer stays"
    expect(page.get_by_role("region", name="Size chart")).to_be_visible()
    page.context.close()


@pytest.mark.parametrize("path", ["shop/python/python.bin", "shop/python/calculators.bin"])
@pytest.mark.parametrize("what", ["shorter", "longer"])
def test_wrong_length(browser: Browser, example: str, example_site: Path, path: str, what: str) -> None:
    content = (example_site / path).read_bytes()
    page_with(browser, path, content[:-1] if what == "shorter" else content + b"\n", example).context.close()


def test_a_broken_worker_is_noticed(browser: Browser, example: str) -> None:
    page_with(browser, "shop/worker.mjs", b"this is no script", example).context.close()


def test_late_start_is_said_and_still_taken(browser: Browser, example: str) -> None:
    context = browser.new_context(viewport=PHONE)
    held: list[Route] = []
    context.route(lambda url: urlsplit(url).path.endswith("python.bin"), lambda route: held.append(route))
    page = context.new_page()
    page.clock.install()
    page.goto(example)
    page.get_by_role("radio", name="116", exact=True).check()
    page.get_by_label("Width on the bolt").first.fill("137")
    state = page.locator("[data-state]")
    expect(state).to_contain_text("What you typed waits for the calculator")
    expect(page.locator("[data-progress]")).to_be_visible()
    page.wait_for_timeout(200)
    page.clock.fast_forward(61_000)
    expect(state).to_contain_text(LATE)
    expect(page.locator("#note-title")).to_have_text("To buy, size 116")
    expect(page.locator(".note__lines")).to_contain_text("Outer cloth: waits for the calculator")
    for route in held:
        route.continue_()
    page.clock.resume()
    expect(page.locator("#note-title")).to_have_text("To buy, size 116", timeout=180_000)
    expect(page.locator(".note__lines")).to_contain_text("137 cm wide", use_inner_text=True)
    expect(state).to_be_hidden()
    context.close()
