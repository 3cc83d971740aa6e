"""A start that hangs is tried afresh, a crash is mended, and a page that nobody looks at gives its memory back."""

from __future__ import annotations

from collections.abc import Iterator
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from .conftest import PHONE

WATCHED = """
const Plain = window.Worker;
window.workers = [];
window.Worker = class extends Plain {
  constructor(...given) { super(...given); window.workers.push(this); }
  terminate() { this.ended = true; super.terminate(); }
};
window.running = () => window.workers.filter((worker) => !worker.ended).length;
"""
HANGS = """
onmessage = () => postMessage({kind: "progress", done_bytes: 1, total_bytes: 1});
"""
SEEN = """
(hidden) => {
  Object.defineProperty(document, "hidden", { configurable: true, get: () => hidden });
  document.dispatchEvent(new Event("visibilitychange"));
}
"""


@pytest.fixture
def watched(browser: Browser) -> Iterator[Page]:
    """A page that counts its workers and whose clock the test holds."""
    context = browser.new_context(viewport=PHONE)
    context.add_init_script(WATCHED)
    page = context.new_page()
    page.clock.install()
    yield page
    context.close()


def hang(page: Page, times: int) -> list[str]:
    """Have the first `times` workers stand still once all their bytes are there; returns those asked for."""
    asked: list[str] = []

    def answer(route: Route) -> None:
        asked.append(route.request.url)
        if len(asked) <= times:
            route.fulfill(body=HANGS, content_type="text/javascript")
        else:
            route.continue_()

    page.context.route(lambda url: urlsplit(url).path.endswith("worker.mjs"), answer)
    return asked


def expect_ready(page: Page) -> None:
    page.wait_for_selector("form[data-ready]", timeout=180_000)


@pytest.mark.fault("Python's worker ends")
def test_a_start_that_hangs_is_tried_afresh(watched: Page, example: str) -> None:
    asked = hang(watched, 1)
    watched.goto(example)
    expect(watched.locator("[data-progress]")).to_contain_text("The calculator is starting")
    watched.clock.fast_forward(61_000)
    expect_ready(watched)
    assert len(asked) == 2 and watched.evaluate("running()") == 1


@pytest.mark.fault("Python's worker ends")
def test_a_start_that_hangs_twice_is_said(watched: Page, example: str) -> None:
    asked = hang(watched, 9)
    watched.goto(example)
    for _ in range(2):
        expect(watched.locator("[data-progress]")).to_contain_text("The calculator is starting")
        watched.wait_for_timeout(500)
        watched.clock.fast_forward(61_000)
    expect(watched.locator("[data-state]")).to_contain_text("The calculator could not start on this device.")
    assert len(asked) == 2 and watched.evaluate("running()") == 0


@pytest.mark.fault("Python's worker ends")
def test_a_crash_is_mended_and_nothing_chosen_is_lost(watched: Page, example: str) -> None:
    watched.goto(example)
    expect_ready(watched)
    watched.evaluate("workers[0].dispatchEvent(new ErrorEvent('error', {message: 'out of memory'}))")
    watched.get_by_role("radio", name="116", exact=True).check()
    expect(watched.locator("#note-title")).to_have_text("To buy, size 116", timeout=180_000)
    assert watched.evaluate("workers.length") == 2 and watched.evaluate("running()") == 1


def test_out_of_sight_it_rests_and_comes_back(watched: Page, example: str) -> None:
    watched.goto(example)
    expect_ready(watched)
    watched.evaluate(SEEN, True)
    watched.clock.fast_forward(299_000)
    assert watched.evaluate("running()") == 1
    watched.evaluate(SEEN, False)
    watched.clock.fast_forward(301_000)
    assert watched.evaluate("running()") == 1, "a short look away ends nothing, neither then nor later"
    watched.evaluate(SEEN, True)
    watched.clock.fast_forward(301_000)
    assert watched.evaluate("running()") == 0
    watched.get_by_role("radio", name="116", exact=True).check()
    expect(watched.locator("#note-title")).to_have_text("To buy, size 116")
    watched.get_by_label("Width on the bolt").first.fill("137")
    expect(watched.locator("[data-state]")).to_contain_text("What you typed waits")
    watched.evaluate(SEEN, False)
    expect(watched.locator(".note__lines")).to_contain_text("137 cm wide", timeout=180_000, use_inner_text=True)
    assert watched.evaluate("workers.length") == 2
