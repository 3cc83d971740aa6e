"""A buyer with a small phone: size from measurements, options, width as typed, cloth and elastic read."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from boltside.calculators.choices import completed
from boltside.calculators.conditions import SIZE, holds

from .conftest import PHONE, Watched
from .shop import EXAMPLE_SHEET

READY = "form[data-ready]"
READY_MS = 180_000
TARGET_PX, LEAST_TARGET_PX = 44, 24
"""Comfortable targets, and the least. Source: WCAG 2.2, 2.5.5 (AAA) and 2.5.8 (AA)."""
REFLOW_PX = 320
"""Source: WCAG 2.2, 1.4.10 Reflow."""


@pytest.fixture(scope="session")
def picture(tmp_path_factory: pytest.TempPathFactory) -> Callable[[Page, str], None]:
    """Puts a picture of the page into the folder BOLTSIDE_PICTURES, else into a temporary one."""
    given = os.environ.get("BOLTSIDE_PICTURES")
    folder = Path(given) if given else tmp_path_factory.mktemp("pictures")
    folder.mkdir(parents=True, exist_ok=True)
    return lambda page, name: (page.screenshot(path=folder / f"{name}.png"), None)[1]


def opened(page: Page, address: str) -> Page:
    page.goto(address)
    page.wait_for_selector(READY, timeout=READY_MS)
    return page


def test_from_the_child_to_the_counter(phone: Page, example: str, picture: Callable[[Page, str], None]) -> None:
    opened(phone, example)
    picture(phone, "1-first-screen")

    phone.get_by_role("link", name="Which size?").click()
    phone.get_by_label(re.compile("^Chest")).fill("53.4")
    phone.get_by_label(re.compile("^Height")).fill("99,5")
    answer = phone.locator("[data-calculator=size]")
    expect(answer).to_contain_text("Size 104", use_inner_text=True)
    expect(answer).to_contain_text("Chest 53.4 cm: size 104, cut for up to 54.8 cm", use_inner_text=True)
    picture(phone, "2-size")
    answer.get_by_role("button", name="Take this size").click()
    expect(phone.get_by_role("radio", name="104", exact=True)).to_be_checked()
    expect(phone.locator("#note-title")).to_have_text("To buy, size 104")

    before = phone.locator(".drawing svg").inner_html()
    phone.get_by_role("radio", name="To the waist, with a band", exact=True).check()
    note = phone.locator(".note__lines")
    expect(note).to_contain_text("Elastic, 20 mm wide: 0.55 m", use_inner_text=True)
    expect(note).to_contain_text("Cut 50.8 cm: 48.8 cm closed and 2 cm overlap.", use_inner_text=True)
    assert phone.locator(".drawing svg").inner_html() != before, "the drawing follows the choices"

    phone.get_by_label("Width on the bolt").first.fill("137")
    outer = note.locator("[data-fragment='cloth.outer']")
    expect(outer).to_contain_text("137 cm is too narrow, folded once", use_inner_text=True)
    expect(outer).to_contain_text("Laid flat it is wide enough", use_inner_text=True)
    phone.get_by_role("group", name="Outer cloth: how it is laid").get_by_role("radio", name="Flat, one layer").check()
    how = phone.locator("[data-fragment='cloth.outer.how']")
    expect(how).to_contain_text("Reckoned for 135 cm, the next narrower width, laid flat", use_inner_text=True)
    expect(note).to_contain_text("Outer cloth, 137 cm wide:", use_inner_text=True)
    expect(outer).to_contain_text(re.compile(r"\d\.\d[05] m"), use_inner_text=True)
    picture(phone, "3-cloth")

    phone.locator("#note-title").scroll_into_view_if_needed()
    phone.get_by_role("button", name="Show it large").click()
    counter = phone.get_by_role("dialog")
    expect(counter).to_contain_text("Elastic, 20 mm wide: 0.55 m", use_inner_text=True)
    expect(counter.get_by_text("why?")).to_have_count(0)
    expect(counter.locator("h2").first).to_be_in_viewport()
    picture(phone, "4-counter")


def test_inches_change_in_place_and_read_what_is_typed_in_them(phone: Page, example: str) -> None:
    opened(phone, example)
    phone.get_by_role("radio", name="inch", exact=True).check()
    note = phone.locator("[data-fragment='cloth.outer']").first
    expect(note.locator(".in-cm").first).to_be_hidden()
    expect(note.locator(".in-inch").last).to_have_text(re.compile("yd$"))
    phone.get_by_label("Width on the bolt").first.fill("54")
    how = phone.locator("[data-fragment='cloth.outer.how']")
    expect(how).to_contain_text("next narrower width", use_inner_text=True)
    expect(note.locator(".in-inch").first).to_have_text("54 in")


def test_a_typed_number_keeps_its_unit_when_the_page_changes_to_the_other(phone: Page, example: str) -> None:
    opened(phone, example)
    field = phone.get_by_label("Width on the bolt").first
    line = phone.locator("[data-fragment='cloth.outer']").first
    field.fill("137")
    expect(line).to_contain_text("137 cm wide", use_inner_text=True)
    phone.get_by_role("radio", name="inch", exact=True).check()
    expect(field).to_have_value("137 cm")
    expect(line).to_contain_text("54 in wide", use_inner_text=True)  # 137 cm are 53.9 in
    phone.get_by_role("radio", name="cm", exact=True).check()
    expect(line).to_contain_text("137 cm wide", use_inner_text=True)


def test_what_was_chosen_survives_reloading_and_stands_in_the_address(phone: Page, example: str) -> None:
    opened(phone, example)
    phone.get_by_role("radio", name="116", exact=True).check()
    phone.get_by_role("radio", name="Two", exact=True).check()
    phone.get_by_label("Width on the bolt").first.fill("137")
    phone.get_by_label(re.compile("^Chest")).fill("53.4")
    note = phone.locator(".note__lines")
    expect(note).to_contain_text("137 cm wide", use_inner_text=True)
    expect(phone.locator("[data-calculator=size]")).to_contain_text("Size 104", use_inner_text=True)
    address = phone.url
    assert address == f"{example}?size=116&choice.pockets=two&width.outer=137", "a child's measurements stay here"
    kept = note.inner_text()
    opened(phone, address)
    expect(phone.get_by_label("Width on the bolt").first).to_have_value("137")
    expect(phone.locator("#note-title")).to_have_text("To buy, size 116")
    expect(note).to_contain_text("137 cm wide", use_inner_text=True)
    assert note.inner_text() == kept


def test_an_address_with_what_is_not_offered_together_is_mended_with_one_tap(phone: Page, example: str) -> None:
    opened(phone, f"{example}?choice.pockets=two&choice.length=waist")
    problem = phone.locator("[data-fragment=choices]")
    expect(problem).to_contain_text("Patch pockets need the hip length.", use_inner_text=True)
    expect(phone.locator(".note__lines")).to_be_hidden()
    expect(phone.get_by_role("button", name="Show it large")).to_be_hidden()
    # The lining is the same either way, and still no amount of it is shown, wherever the page could.
    for amount in (".bolt > [data-fragment='cloth.lining.how']", ".lay[data-lay=lining]", ".strip"):
        expect(phone.locator(amount)).to_be_hidden()
    phone.locator("[data-changes] button").first.click()
    expect(problem).to_be_hidden()
    expect(phone.locator(".note__lines")).to_be_visible()
    expect(phone.locator(".bolt > [data-fragment='cloth.lining.how']")).to_be_visible()


@pytest.mark.parametrize(
    "chosen",
    [
        {},
        {"pockets": "two", "hem": "stitched"},
        {"length": "waist"},
        {"length": "waist", "sleeves": "none"},
    ],
    ids=lambda chosen: "-".join(chosen.values()) or "usual",
)
def test_the_steps_are_those_of_the_options(phone: Page, example: str, chosen: dict[str, str]) -> None:
    opened(phone, example)
    for name, word in chosen.items():
        phone.locator(f"input[name='choice.{name}'][value='{word}']").check()
    sheet = json.loads(EXAMPLE_SHEET.read_text(encoding="utf-8"))
    asked = completed(sheet["choices"], {SIZE: "92", **chosen})
    wanted = [step["title"] for step in sheet["steps"] if holds(step["when"], asked)]
    assert 0 < len(wanted) < len(sheet["steps"])
    shown = phone.locator(".steps > li:not([hidden]) .step__title")
    expect(shown).to_have_text(wanted)
    phone.get_by_label("Show the steps of all options").check()
    expect(shown).to_have_count(len(sheet["steps"]))


def test_paper_gets_the_steps_unfolded_and_no_questions(phone: Page, example: str) -> None:
    opened(phone, example)
    phone.emulate_media(media="print", color_scheme="dark")
    phone.evaluate("dispatchEvent(new Event('beforeprint'))")
    for hidden in (".bar", ".tape", ".asks", ".jump", ".note button", ".strip", ".foot nav"):
        expect(phone.locator(hidden).first).to_be_hidden()
    expect(phone.locator(".note__lines")).to_be_visible()
    expect(phone.locator(".step__text").first).to_be_visible()
    assert phone.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    assert phone.evaluate("getComputedStyle(document.querySelector('h1')).color") == "rgb(38, 33, 29)"
    phone.evaluate("dispatchEvent(new Event('afterprint'))")
    expect(phone.locator(".step__text").first).to_be_hidden()


def test_impossible_input_gets_a_sentence_and_keeps_the_rest(phone: Page, example: str) -> None:
    opened(phone, example)
    field = phone.get_by_label("Width on the bolt").first
    field.fill("<img src=x onerror=alert(1)>")
    line = phone.locator("[data-fragment='cloth.outer']").first
    expect(line).to_contain_text("is not a width", use_inner_text=True)
    assert phone.locator(".note img").count() == 0
    expect(phone.locator("[data-fragment='cloth.lining']").first).to_contain_text("m", use_inner_text=True)
    field.fill("40")
    expect(line).to_contain_text("too narrow", use_inner_text=True)


def test_first_screen_holds_name_drawing_size_and_answer(phone: Page, example: str) -> None:
    first_screen(opened(phone, example))


def test_first_screen_of_every_pattern_of_the_shop(phone: Page, site: str, site_dir: Path) -> None:
    for path in sorted(site_dir.glob("patterns/*/spec.json")):
        first_screen(opened(phone, f"{site}patterns/{path.parent.name}/"))


def first_screen(phone: Page) -> None:
    """Everything a buyer came for stands on the first screen."""
    for selector in ("h1", ".drawing svg", ".tape", "#note-title", ".note__lines"):
        box = phone.locator(selector).first.bounding_box()
        assert box is not None and box["y"] + box["height"] <= PHONE["height"], selector


@pytest.mark.outside
def test_targets_are_large_enough(phone: Page, example: str) -> None:
    opened(phone, example)
    phone.get_by_role("radio", name="Two", exact=True).check()
    phone.locator("input[name='choice.length'][value=waist]").click(
        force=True
    )  # the reason with its button is there too
    small = """([wanted, least]) => [...document.querySelectorAll(wanted)]
        .filter(e => e.offsetParent)
        .filter(e => Math.min(e.getBoundingClientRect().width, e.getBoundingClientRect().height) < least)
        .map(e => e.outerHTML.slice(0, 120))"""
    large = ".panel .pick, .panel input[type=text], .panel button, .units label, .folded > summary, .step > summary"
    large += ", .note .why > summary"
    assert phone.evaluate(small, [large, TARGET_PX]) == []
    assert phone.evaluate(small, [".why > summary", LEAST_TARGET_PX]) == []
    assert phone.locator(".why > summary").count() > 8


@pytest.mark.outside
@pytest.mark.parametrize("place", ["", "patterns/example-jacket/", "measuring/", "buying-cloth/", "404.html"])
def test_nothing_is_cut_off_at_320_px(browser: Browser, example: str, place: str) -> None:
    context = browser.new_context(viewport={"width": REFLOW_PX, "height": 640})
    page = context.new_page()
    page.goto(example.removesuffix("patterns/example-jacket/") + place)
    wide = page.evaluate(
        """() => [...document.querySelectorAll('body *')]
            .filter(e => !e.closest('.wide, .unseen, [hidden]') && e.getBoundingClientRect().right > innerWidth + 0.5)
            .map(e => e.outerHTML.slice(0, 120))"""
    )
    assert wide == []
    assert page.evaluate("document.documentElement.scrollWidth") == REFLOW_PX
    context.close()


def test_no_request_leaves_the_shop_and_no_page_complains(browser: Browser, example: str) -> None:
    context = browser.new_context(viewport=PHONE)
    watched = Watched(context)
    page = context.new_page()
    home = example.removesuffix("patterns/example-jacket/")
    for place in ("", "measuring/", "buying-cloth/", "404.html"):
        page.goto(home + place)
    opened(page, example)
    page.get_by_role("radio", name="116", exact=True).check()
    expect(page.locator("#note-title")).to_have_text("To buy, size 116")
    context.close()
    assert any("/python.bin?" in url for url in watched.requests), "the watch does see requests"
    assert watched.foreign_to(example) == []
    assert watched.complaints == []


def test_with_javascript_off_the_answer_and_all_tables_are_there(browser: Browser, example: str) -> None:
    context = browser.new_context(viewport=PHONE, java_script_enabled=False)
    page = context.new_page()
    page.goto(example)
    expect(page.locator(".note__lines")).to_contain_text("Outer cloth, 140 cm wide", use_inner_text=True)
    expect(page.locator(".note")).to_contain_text("needs JavaScript", use_inner_text=True)
    for name in (
        "Size chart",
        "Finished measurements",
        "Outer cloth, without nap: how much to buy",
        "Lining, without nap: how much to buy",
    ):
        table = page.get_by_role("region", name=name).locator("table")
        expect(table).to_be_visible()
        assert table.locator("tbody tr").count() >= 9
    expect(page.get_by_role("region", name="Outer cloth, with nap: how much to buy")).to_be_hidden()
    page.get_by_text("Laid with nap: pile").first.click()
    expect(page.get_by_role("region", name="Outer cloth, with nap: how much to buy")).to_be_visible()
    page.locator(".note__lines .why summary").first.click()
    expect(page.locator(".note__lines .why__text").first).to_be_visible()
    page.get_by_text("All pieces, whatever the options").click()  # folded, for it is long; unfolds without a script
    expect(page.get_by_role("region", name="Outer cloth: cutting list").get_by_text("Waistband")).to_be_visible()
    assert page.locator(".steps > li:not([hidden])").count() == page.locator(".steps > li").count() > 0
    chart = page.get_by_role("region", name="Size chart")
    expect(chart.locator(".in-inch").first).to_be_hidden()
    page.locator("#unit-inch").check(force=True)
    expect(chart.locator(".in-inch").first).to_be_visible()
    expect(chart.locator(".in-cm").first).to_be_hidden()
    context.close()
