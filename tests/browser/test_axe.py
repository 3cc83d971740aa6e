"""axe finds nothing to mend on any kind of page, in any state, on a phone and on a wide screen, light and dark."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import axe_playwright_python
import pytest
from playwright.sync_api import Browser, Page

from .conftest import PHONE
from .looks import LOOKS, Look, context_for, open_look

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text("utf-8")
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "best-practice"]
WIDE = {"width": 1280, "height": 900}
COLOURS = ["color-contrast", "link-in-text-block"]
"""The rules that look at colours: the only ones that a colour scheme can make a difference to, and the slowest."""
RUN = "([part, options]) => axe.run(part, options)"


def violations(page: Page, part: str, *, colours: bool | None) -> list[str]:
    """What axe has to say; `colours`: those rules alone, all but those, or (None) all."""
    options: dict[str, Any] = {"runOnly": TAGS, "resultTypes": ["violations"]}
    if colours:
        options["runOnly"] = COLOURS
    elif colours is not None:
        options["rules"] = {rule: {"enabled": False} for rule in COLOURS}
    found = page.evaluate(RUN, [part, options])["violations"]
    return [f"{one['id']}: {node['html'][:200]} {node['failureSummary']}" for one in found for node in one["nodes"]]


def all_violations(page: Page, part: str) -> list[str]:
    """On a phone and a wide screen, light and dark: each rule wherever it could find something else."""
    found = []
    page.evaluate("document.querySelector('dialog[open]') || scrollTo(0, 0)")  # under a strip targets look small
    for size, name in ((PHONE, "360"), (WIDE, "1280")):
        page.set_viewport_size({"width": size["width"], "height": size["height"]})
        for scheme, colours in (("light", None if name == "360" else False), ("dark", True)):
            page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
            found += [f"{name} {scheme}: {one}" for one in violations(page, part, colours=colours)]
    return found


@pytest.mark.outside
@pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.name)
def test_axe_finds_nothing(browser: Browser, looks_shop: str, look: Look) -> None:
    # Source: the rules of axe-core for WCAG 2.0, 2.1 and 2.2, levels A and AA, and its best practices.
    with context_for(browser, viewport=PHONE) as context:
        page = context.new_page()
        open_look(page, looks_shop, look)
        page.evaluate(AXE)
        assert all_violations(page, look.part) == []


@pytest.mark.outside
def test_axe_would_find_what_is_wrong(browser: Browser, looks_shop: str) -> None:
    with context_for(browser, viewport=PHONE) as context:
        page = context.new_page()
        page.goto(f"{looks_shop}list/")
        page.evaluate(AXE)
        page.evaluate("""() => {
          document.querySelector("main").insertAdjacentHTML("beforeend",
            "<button id=unnamed></button><p id=pale>Too pale to read</p><img id=unsaid src=x.png>");
          document.getElementById("pale").style.color = "#ddd";
        }""")
        found = json.dumps(all_violations(page, "html"))
        assert all(word in found for word in ("button-name", "color-contrast", "image-alt", "unsaid"))
