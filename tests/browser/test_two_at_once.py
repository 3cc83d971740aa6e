"""A buyer sews for two: the second size is asked beside the first, and everything of the note is for both."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from .conftest import PHONE
from .test_buyer_at_360 import opened


def test_two_at_once_from_the_size_to_the_counter(phone: Page, example: str) -> None:
    opened(phone, example)
    question = phone.get_by_label("Two at once?")
    expect(question).to_have_value("")
    expect(phone.locator("#note-title")).to_have_text("To buy, size 92")

    question.select_option("104")
    expect(phone.locator("#note-title")).to_have_text("To buy, sizes 92 and 104")
    note = phone.locator(".note__lines")
    expect(note).to_contain_text("Outer cloth, 140 cm wide, for both: 1.20 m", use_inner_text=True)
    expect(note).to_contain_text("Buttons, 13 mm, or snaps, for both: 10", use_inner_text=True)
    for selector in ("h1", ".drawing svg", ".tape", "#note-title", ".note__lines li:first-child"):
        box = phone.locator(selector).first.bounding_box()
        assert box is not None and box["y"] + box["height"] <= PHONE["height"], selector
    assert phone.evaluate("document.documentElement.scrollWidth") == PHONE["width"]
    assert phone.url == f"{example}?second=104"
    rows = phone.locator("tr.chosen[data-size]")
    assert {row.get_attribute("data-size") for row in rows.all()} == {"92", "104"}

    phone.get_by_role("button", name="Show it large").click()
    counter = phone.get_by_role("dialog")
    expect(counter).to_contain_text("To buy, sizes 92 and 104", use_inner_text=True)
    expect(counter).to_contain_text("for both: 1.20 m", use_inner_text=True)
    counter.get_by_role("button", name="Close").click()

    phone.reload()
    expect(phone.locator("#note-title")).to_have_text("To buy, sizes 92 and 104")
    expect(phone.get_by_label("Two at once?")).to_have_value("104")
    phone.get_by_label("Two at once?").select_option("")
    expect(phone.locator("#note-title")).to_have_text("To buy, size 92")
    expect(note).to_contain_text("Outer cloth, 140 cm wide: 0.40 m", use_inner_text=True)
    assert phone.url == example


def test_the_lays_of_two_are_drawn_together_or_one_behind_the_other(phone: Page, example: str) -> None:
    opened(phone, f"{example}?second=104&way.outer=flat")
    expect(phone.locator("#note-title")).to_have_text("To buy, sizes 92 and 104")
    lay = phone.locator("details[data-lay=outer]")
    lay.locator("summary").click()
    expect(lay.locator("svg")).to_have_count(1)
    expect(lay.locator(".bs-second")).to_have_count(7)
    expect(lay).to_contain_text("Shaded, with a broken outline: size 104.", use_inner_text=True)

    phone.get_by_label("Two at once?").select_option("98")
    expect(lay.locator("svg")).to_have_count(2)
    expect(lay).to_contain_text("Behind it: size 98", use_inner_text=True)


def test_a_second_size_in_the_address_that_is_none_is_left_out(phone: Page, example: str) -> None:
    opened(phone, f"{example}?second=93")
    expect(phone.get_by_label("Two at once?")).to_have_value("")
    expect(phone.locator("#note-title")).to_have_text(re.compile("^To buy, size 92$"))
