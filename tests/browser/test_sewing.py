"""The guide at the machine: steps ticked off, kept on the device and forgotten again; one at a time in large type."""

from __future__ import annotations

import json

from playwright.sync_api import Locator, Page, expect

TARGET_PX = 44
"""Comfortable targets. Source: WCAG 2.2, 2.5.5 (AAA)."""
KEY = "boltside steps: /patterns/example-jacket/"


def at_the_steps(page: Page, address: str) -> Locator:
    """The shown steps' boxes, once they are there."""
    page.goto(address)
    page.locator("#steps").scroll_into_view_if_needed()
    boxes = page.locator(".steps > li:not([hidden]) .step__done input")
    boxes.first.wait_for()
    return boxes


def kept(page: Page) -> list[str] | None:
    found: list[str] | None = json.loads(page.evaluate("key => localStorage.getItem(key) ?? 'null'", KEY))
    return found


def test_ticks_stay_after_a_reload_and_are_forgotten_with_one_tap(phone: Page, example: str) -> None:
    boxes = at_the_steps(phone, example)
    assert phone.evaluate("Object.keys(localStorage)") == [], "nothing is kept before something is ticked"
    boxes.nth(1).check()
    assert kept(phone) == ["step-set-the-sleeves-in"]
    boxes = at_the_steps(phone, example)
    expect(boxes.nth(1)).to_be_checked()
    expect(boxes.nth(0)).not_to_be_checked()
    phone.get_by_role("button", name="Start again: take all ticks away").click()
    expect(phone.locator(".step__done input:checked")).to_have_count(0)
    assert kept(phone) is None, "the place itself is gone"
    phone.get_by_role("button", name="Bring the ticks back").click()
    expect(phone.locator(".step__done input:checked")).to_have_count(1)
    assert kept(phone) == ["step-set-the-sleeves-in"]


def test_a_tick_belongs_to_its_step_whatever_is_chosen(phone: Page, example: str) -> None:
    boxes = at_the_steps(phone, example)
    sleeves = phone.locator(".steps > li", has_text="Set the sleeves in")
    sleeves.locator(".step__done input").check()
    ticked = kept(phone)
    phone.locator("input[name='choice.sleeves'][value=none]").check()
    expect(sleeves).to_be_hidden()
    expect(boxes).not_to_have_count(0)
    phone.locator("input[name='choice.sleeves'][value=long]").check()
    expect(sleeves.locator(".step__done input")).to_be_checked()
    assert kept(phone) == ticked and ticked is not None


def test_boxes_have_names_and_room_and_answer_the_keyboard(phone: Page, example: str) -> None:
    boxes = at_the_steps(phone, example)
    labels = phone.locator(".steps > li:not([hidden]) .step__done")
    for at in range(boxes.count()):
        room = labels.nth(at).bounding_box()
        assert room is not None and min(room["width"], room["height"]) >= TARGET_PX
    first = phone.get_by_role("checkbox", name="Done: Press the interfacing on")
    first.focus()
    phone.keyboard.press("Space")
    expect(first).to_be_checked()


def test_one_step_at_a_time_in_large_type(phone: Page, example: str) -> None:
    boxes = at_the_steps(phone, example)
    phone.get_by_role("button", name="At the machine: one step at a time, large").click()
    dialog = phone.locator("dialog.machine[open]")
    expect(dialog).to_contain_text(f"Step 1 of {boxes.count()}")
    expect(dialog).to_contain_text("Press the interfacing on")
    type_px = "parseFloat(getComputedStyle(document.querySelector('.machine__step p:last-of-type')).fontSize)"
    assert phone.evaluate(type_px) >= 20
    for button in dialog.get_by_role("button").all():
        room = button.bounding_box()
        assert room is not None and room["height"] >= TARGET_PX
    dialog.get_by_role("button", name="Done, next").click()
    expect(dialog).to_contain_text("Step 2 of")
    phone.keyboard.press("ArrowLeft")
    expect(dialog).to_contain_text(f"Step 1 of {boxes.count()}, done")
    phone.keyboard.press("Escape")
    expect(phone.locator("dialog.machine")).to_be_hidden()
    expect(boxes.nth(0)).to_be_checked()
    phone.get_by_role("button", name="At the machine: one step at a time, large").click()
    expect(dialog).to_contain_text("Step 2 of"), "it goes on where the first step is left"


def test_words_in_a_step_follow_size_and_options(phone: Page, example: str) -> None:
    """Length of the elastic in the step is the one in the list of what to buy."""
    at_the_steps(phone, example)
    phone.locator("input[name='choice.length'][value=waist]").check()
    band = phone.locator(".steps > li", has_text="Sew the waistband")
    band.locator("summary").click()
    told = []
    for size in ("92", "104"):
        phone.locator(f"input[name=size][value='{size}']").check()
        expect(phone.locator("#note-title")).to_have_text(f"To buy, size {size}")
        word = band.locator("[data-fragment='guide.1']")
        expect(word).not_to_have_text("")
        shown = word.inner_text()
        expect(phone.locator("[data-fragment='notion.waist-elastic.cut']").first).to_contain_text(shown)
        told.append(shown)
    assert told[0] != told[1]
