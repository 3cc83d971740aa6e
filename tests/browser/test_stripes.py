"""A buyer with striped cloth and a small phone: a repeat is typed, an uneven one ticked, a listed one picked."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from .test_buyer_at_360 import REFLOW_PX, opened


def test_a_repeat_is_typed_and_an_uneven_one_ticked(phone: Page, example: str) -> None:
    opened(phone, example)
    note = phone.locator(".note__lines")
    question = phone.locator(".stripes").first
    expect(question.get_by_role("radiogroup")).to_be_hidden()
    question.locator("summary").click()
    expect(question.get_by_label("Starts again every")).to_be_hidden()
    question.get_by_role("radio", name="Another repeat").check(force=True)
    expect(note).to_contain_text("Stripes or checks are not counted yet.", use_inner_text=True)
    question.get_by_label("Starts again every").fill("12")
    expect(note).to_contain_text("140 cm wide, repeat of 12 cm", use_inner_text=True)
    expect(note).to_contain_text(re.compile(r"By the rule of thumb: \d rows? ×\s12 cm"), use_inner_text=True)
    question.get_by_role("checkbox").check(force=True)
    expect(note).to_contain_text("uneven repeat of 12 cm", use_inner_text=True)
    expect(question).to_contain_text("So it is reckoned laid flat, whatever is chosen above.", use_inner_text=True)
    assert phone.url.endswith("?pattern.outer=own&every.outer=12&uneven.outer=yes")
    assert phone.evaluate("document.documentElement.scrollWidth") <= 360

    phone.get_by_role("radio", name="inch", exact=True).check()
    expect(question.get_by_label("Starts again every")).to_have_value("12 cm")
    phone.get_by_role("button", name="Show it large").click()
    counter = phone.get_by_role("dialog")
    expect(counter).to_contain_text(re.compile(r"rule of thumb: \d rows? ×\s4 3/4 in"), use_inner_text=True)
    phone.keyboard.press("Escape")

    opened(phone, phone.url)
    expect(question.get_by_role("checkbox")).to_be_checked()
    expect(question.get_by_label("Starts again every")).to_be_visible()
    expect(note).to_contain_text("uneven repeat of", use_inner_text=True)
    question.get_by_role("checkbox").uncheck(force=True)
    question.get_by_label("Starts again every").fill("0")
    expect(note).to_contain_text("is no repeat to lay for", use_inner_text=True)
    question.get_by_role("radio", name="Plain").check(force=True)
    expect(note).not_to_contain_text("repeat", use_inner_text=True)
    assert "uneven" not in phone.url and "pattern" not in phone.url.split("?")[-1]


def test_a_listed_repeat_is_drawn_in_step(phone: Page, example: str) -> None:
    phone.set_viewport_size({"width": REFLOW_PX, "height": 740})
    opened(phone, f"{example}?pattern.outer=repeat%3Achecks-60")
    note = phone.locator(".note__lines")
    expect(note).to_contain_text("Laid with its notches in step: “Checks of 6 cm”.", use_inner_text=True)
    lay = phone.locator("details[data-lay=outer]")
    lay.locator("summary").click()
    expect(lay.locator(".bs-repeat")).to_have_count(1)
    assert lay.locator(".bs-mark").count() > 3
    assert phone.evaluate("document.documentElement.scrollWidth") == REFLOW_PX
