"""For all tests: no time limit on single examples, because a busy machine is no failure; and one browser."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, sync_playwright

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A real Chromium; a test that can't have one fails, it is never skipped.

    There is one for all tests, because a second one can't be driven in the same process.
    """
    from tests.browser.shop import BROWSER, BROWSER_ARGUMENTS

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=BROWSER, args=BROWSER_ARGUMENTS)
        yield browser
        browser.close()
