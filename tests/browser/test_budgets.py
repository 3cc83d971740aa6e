"""The shop of the data stays light and calm: bytes of a pattern's page, and nothing that jumps on any kind of page.

What takes longer is measured by `python -m tests.browser.budgets`.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from .budgets import LAYOUT_SHIFT, PAGE_KB, pages_of, visit
from .slow_link import Visit, compressing

LATER = ("search.mjs", "search.json", "files.json", "putting.mjs", "keeper.js")
"""What only somebody who uses it needs."""


@pytest.fixture(scope="module")
def visits(browser: Browser, demo_site: Path) -> Iterator[dict[str, Visit]]:
    """A first visit over the slow link to every kind of page, by what the page is."""
    with compressing(demo_site) as shop:
        yield {
            title: visit(browser, shop + address, python=python, calm_ms=2500)
            for title, address, python in pages_of(demo_site)
        }


def test_a_patterns_page_is_light_before_anybody_does_anything(visits: dict[str, Visit]) -> None:
    patterns = {title: one.bytes_by_file for title, one in visits.items() if title.startswith("pattern ")}
    seen = {title: sum(files.values()) / 1000 for title, files in patterns.items()}
    assert len(seen) >= 4 and max(seen.values()) <= PAGE_KB, seen
    # Everything is counted: the page, its style sheet and font, and its scripts came while it was looked at.
    files = next(iter(patterns.values()))
    assert {path.rsplit(".", 1)[-1] for path in files} >= {"css", "woff2", "mjs", "svg"} and len(files) > 10


def test_nothing_is_fetched_before_it_is_used(visits: dict[str, Visit]) -> None:
    for title, one in visits.items():
        assert [path for path in one.bytes_by_file if path.endswith(LATER)] == [], title


def test_nothing_jumps(visits: dict[str, Visit]) -> None:
    """Web Vitals counts up to 0.1 as good."""
    moved = {title: (one.layout_shift, one.shifts) for title, one in visits.items() if one.layout_shift >= LAYOUT_SHIFT}
    assert moved == {}
