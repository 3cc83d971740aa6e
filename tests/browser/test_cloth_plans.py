"""On a small phone: one tap takes a cloth plan, everything follows, and another tap undoes it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from cases.plan_sheet import PATTERN, make_plans
from playwright.sync_api import Page, expect

from .shop import build_shop, served

READY = "form[data-ready]"
READY_MS = 180_000
TARGET_PX = 44
"""Comfortable targets. Source: WCAG 2.2, 2.5.5 (AAA)."""


@pytest.fixture(scope="module")
def plans(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the page of the example with plans."""
    folder = tmp_path_factory.mktemp("plans")
    sheet = folder / "plans.json"
    sheet.write_text(json.dumps(make_plans()), encoding="utf-8")
    with served(build_shop(folder / "site", sheets=[sheet])) as address:
        yield f"{address}patterns/{PATTERN}/"


def option(choice: str, word: str) -> str:
    return f"input[name='choice.{choice}'][value='{word}']"


def test_a_tap_takes_a_plan_and_another_one_undoes_it(phone: Page, plans: str, tmp_path: Path) -> None:
    phone.goto(plans)
    phone.wait_for_selector(READY, timeout=READY_MS)
    expect(phone.locator("[data-plans]")).to_be_hidden()
    phone.locator(option("pockets", "two")).check()
    phone.locator(option("sleeve-end", "gathered")).check()
    expect(phone.locator("[data-plan]:visible")).to_have_count(3)
    before = phone.locator(".note__lines").inner_text()
    both = phone.get_by_role("button", name="Contrast pockets and bands")
    box = both.bounding_box()
    assert box is not None and box["height"] >= TARGET_PX
    both.focus()
    phone.keyboard.press("Enter")
    expect(both).to_have_attribute("aria-pressed", "true")
    expect(both).to_be_focused()
    expect(phone.locator(option("pocket-cloth", "contrast"))).to_be_checked()
    expect(phone.locator(option("band-cloth", "contrast"))).to_be_checked()
    expect(phone.locator(".note__lines [data-fragment='cloth.contrast']")).to_contain_text("0.40 m")
    assert "choice.pocket-cloth=contrast" in phone.url
    expect(phone.locator("[data-fragment=plan]")).to_have_text("Now: Contrast pockets and bands.")
    table = phone.locator("table.bs-parts")
    expect(table).to_be_hidden()
    phone.get_by_text("Parts, cloth and amounts now").click()
    expect(table).to_contain_text("Patch pocket, sleeve band")
    phone.locator(option("band-cloth", "same")).check()
    expect(phone.locator("[data-plan] [aria-pressed=true]")).to_have_text("Contrast pockets")
    phone.get_by_role("button", name="All from one cloth").click()
    expect(phone.locator(option("pocket-cloth", "same"))).to_be_checked()
    expect(phone.locator("[data-fragment=plan]")).to_have_text("Now: All from one cloth.")
    assert phone.locator(".note__lines").inner_text() == before
    assert phone.evaluate("document.documentElement.scrollWidth") == 360
