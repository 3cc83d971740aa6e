"""On a small phone: nap, what is struck out and why, where figures come from, drawings of lays."""

from __future__ import annotations

import json
import random
import re
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from boltside.calculators.choices import HARD, broken, completed
from boltside.calculators.conditions import SIZE

from .conftest import PHONE, Watched
from .shop import EXAMPLE_SHEET

READY = "form[data-ready]"
READY_MS = 180_000
TRIES = 300
"""Random sets of options on which the page's rules are held to the calculators'."""
SEED = 20261125


def opened(page: Page, address: str) -> Page:
    page.goto(address)
    page.wait_for_selector(READY, timeout=READY_MS)
    return page


def option(choice: str, word: str) -> str:
    """Where an alternative stands in the page."""
    return f"input[name='choice.{choice}'][value='{word}']"


# ---- nap ----


def test_nap_is_asked_and_changes_the_amount(phone: Page, example: str) -> None:
    opened(phone, example)
    line = phone.locator(".note__lines [data-fragment='cloth.outer']")
    expect(line).not_to_contain_text("with nap")
    phone.locator("[data-bolt=outer] [data-nap=ask]").get_by_role("radio", name="Yes").check()
    expect(line).to_contain_text("with nap", use_inner_text=True)
    assert "nap.outer=with" in phone.url
    expect(phone.locator("[data-bolt=interfacing] [data-nap]")).to_have_count(0)


def test_a_kind_of_cloth_answers_the_question_about_nap(phone: Page, example: str) -> None:
    opened(phone, example)
    question = phone.locator("[data-bolt=outer] [data-nap=ask]")
    question.get_by_text("Not sure? Pick your cloth").click()
    question.get_by_role("button", name="Corduroy, needlecord: yes").click()
    expect(question.get_by_role("radio", name="Yes")).to_be_checked()
    expect(phone.locator(".note__lines [data-fragment='cloth.outer']")).to_contain_text("with nap", use_inner_text=True)
    question.get_by_role("button", name="Denim, twill, canvas: no").click()
    expect(question.get_by_role("radio", name="No")).to_be_checked()
    assert "nap.outer" not in phone.url


def test_cloth_that_always_has_a_nap_is_not_asked_about(phone: Page, example: str) -> None:
    opened(phone, example)
    bolt = phone.locator("[data-bolt=outer]")
    expect(bolt.locator("[data-nap=always]")).to_be_hidden()
    phone.locator(option("cloth", "knit")).check()
    expect(bolt.locator("[data-nap=always]")).to_be_visible()
    expect(bolt.locator("[data-nap=ask]")).to_be_hidden()
    expect(phone.locator(".note__lines [data-fragment='cloth.outer']")).to_contain_text("with nap")


# ---- what does not go together ----


def test_a_forbidden_option_cannot_be_chosen_and_says_why(phone: Page, example: str) -> None:
    opened(phone, example)
    expect(phone.locator("[data-struck-hint]")).to_be_hidden()
    phone.locator(option("pockets", "two")).check()
    waist = phone.locator(option("length", "waist"))
    expect(waist).to_have_attribute("aria-disabled", "true")
    expect(phone.locator("[data-struck-hint]")).to_be_visible()
    reason = phone.locator(f"#{waist.get_attribute('aria-describedby')}")
    expect(reason).to_be_hidden()
    waist.click(force=True)  # a real tap; without force the test tool waits until it is enabled
    expect(waist).not_to_be_checked()
    expect(phone.locator(option("length", "hip"))).to_be_checked()
    expect(reason).to_contain_text("Patch pockets need the hip length.")
    reason.get_by_role("button", name="Take it with Patch pockets: None").click()
    expect(waist).to_be_checked()
    expect(waist).to_be_focused()
    expect(phone.locator(option("pockets", "none"))).to_be_checked()
    expect(phone.locator("[data-fragment=choices]")).to_be_hidden()
    expect(phone.locator(option("pockets", "two"))).to_have_attribute("aria-disabled", "true")


def test_the_arrow_keys_choose_nothing_forbidden(phone: Page, example: str) -> None:
    opened(phone, example)
    phone.locator(option("pockets", "two")).check()
    phone.locator(option("length", "hip")).focus()
    phone.keyboard.press("ArrowUp")
    expect(phone.locator(option("length", "hip"))).to_be_checked()
    expect(phone.locator(".why-not:visible")).to_contain_text("Patch pockets need the hip length.")
    assert "choice.length" not in phone.url


def test_a_size_in_which_an_option_is_not_offered_is_struck_out(phone: Page, example: str) -> None:
    opened(phone, example)
    phone.locator(option("sleeve-end", "gathered")).check()
    smallest = phone.locator("input[name=size][value='68']")
    expect(smallest).to_have_attribute("aria-disabled", "true")
    smallest.click(force=True)
    expect(phone.locator(".why-not:visible")).to_contain_text("In size 68 the band would be too short to sew.")
    phone.get_by_role("button", name="Take it with Sleeve end: Hemmed").click()
    expect(phone.locator("#note-title")).to_have_text("To buy, size 68")


def test_what_the_second_size_forbids_is_struck_out_too(phone: Page, example: str) -> None:
    opened(phone, f"{example}?second=68")
    gathered = phone.locator(option("sleeve-end", "gathered"))
    expect(gathered).to_have_attribute("aria-disabled", "true")
    gathered.click(force=True)
    expect(gathered).not_to_be_checked()
    reason = phone.locator(".why-not:visible")
    expect(reason).to_contain_text("In size 68 the band would be too short to sew.")
    expect(reason.get_by_role("button", name="size")).to_have_count(0)
    phone.get_by_label("Two at once?").select_option("")
    expect(gathered).not_to_have_attribute("aria-disabled", "true")


def test_a_size_from_measurements_that_is_struck_out_says_why(phone: Page, example: str) -> None:
    opened(phone, example)
    phone.locator(option("sleeve-end", "gathered")).check()
    phone.get_by_label(re.compile("^Chest")).fill("41")
    phone.get_by_label(re.compile("^Height")).fill("66")
    answer = phone.locator("[data-calculator=size]")
    expect(answer).to_contain_text("Size 68", use_inner_text=True)
    answer.get_by_role("button", name="Take this size").click()
    expect(phone.locator(".why-not:visible")).to_contain_text("In size 68 the band would be too short to sew.")
    expect(phone.locator("#note-title")).to_have_text("To buy, size 92")


def test_the_page_forbids_what_the_calculators_forbid(phone: Page, example: str) -> None:
    """The page strikes out before the calculators have started, so it has the rules too: they must agree."""
    sheet = json.loads(EXAMPLE_SHEET.read_text(encoding="utf-8"))
    hard = [rule for rule in sheet["rules"] if any(rule.get(kind) is not None for kind in HARD)]
    source = random.Random(SEED)
    sets = [
        {SIZE: source.choice(sheet["sizes"])}
        | {one["name"]: source.choice(one["alternatives"])["name"] for one in sheet["choices"]}
        for _ in range(TRIES)
    ]
    wanted = [[rule["because"] for rule in broken(hard, completed(sheet["choices"], one))] for one in sets]
    assert 20 < sum(bool(reasons) for reasons in wanted) < TRIES - 20, "both kinds of sets are tried"
    phone.goto(example)
    found = phone.evaluate(
        """async ({sets, script}) => {
            const { broken } = await import(script);
            const { offer } = JSON.parse(document.getElementById("panel-data").textContent);
            return sets.map((one) => broken(offer, one).map((rule) => rule.because));
        }""",
        {"sets": sets, "script": f"{example.removesuffix('patterns/example-jacket/')}shop/offered.mjs"},
    )
    assert found == wanted


def test_every_way_out_that_is_offered_is_one(phone: Page, example: str) -> None:
    sheet = json.loads(EXAMPLE_SHEET.read_text(encoding="utf-8"))
    hard = [rule for rule in sheet["rules"] if any(rule.get(kind) is not None for kind in HARD)]
    chosen = {
        SIZE: "92",
        **{one["name"]: one["default"] for one in sheet["choices"]},
        "pockets": "two",
        "hem": "stitched",
    }
    phone.goto(example)
    struck = phone.evaluate(
        """async ({chosen, script}) => {
            const { forbidden } = await import(script);
            return forbidden(JSON.parse(document.getElementById("panel-data").textContent).offer, chosen);
        }""",
        {"chosen": chosen, "script": f"{example.removesuffix('patterns/example-jacket/')}shop/offered.mjs"},
    )
    assert [(one["name"], one["word"]) for one in struck] == [("length", "waist")]
    for one in struck:
        assert one["changes"]
        for change in one["changes"]:
            tried = {**chosen, one["name"]: one["word"], **dict(change)}
            assert broken(hard, completed(sheet["choices"], tried)) == []


# ---- where figures come from ----


def test_each_figure_opens_to_where_it_comes_from(phone: Page, example: str) -> None:
    opened(phone, example)
    why = phone.locator(".note__lines li").first.locator("details.why")
    expect(why.locator(".why__text")).to_be_hidden()
    why.locator("summary").click()
    expect(why.locator(".why__text")).to_contain_text("140 cm", use_inner_text=True)
    phone.get_by_label("Width on the bolt").first.fill("112")
    expect(why.locator(".why__text")).to_contain_text("110 cm", use_inner_text=True)
    chest = phone.locator(".finished details.why").first
    chest.locator("summary").click()
    expect(chest.locator("svg.bs-traced").first).to_be_visible()
    assert chest.locator("svg .bs-trace").count() >= 2, "on the front and on the back"


# ---- lays ----


def test_the_lay_opens_and_follows_what_is_chosen(phone: Page, example: str) -> None:
    opened(phone, example)
    lining = phone.locator("details[data-lay=lining]")
    lining.locator("summary").click()
    drawing = lining.locator("svg.bs-lay")
    expect(drawing).to_be_visible()
    expect(lining.locator(".bs-lay-key")).to_contain_text("Sleeve")
    title = drawing.locator("title").text_content()
    phone.locator(option("sleeves", "none")).check()
    expect(lining.locator(".bs-lay-key")).not_to_contain_text("Sleeve")
    phone.get_by_role("radio", name="116", exact=True).check()
    expect(drawing.locator("title")).to_have_text(re.compile("size 116"))
    assert title is not None and "size 92" in title


def test_paper_shows_the_lay_at_its_scale(phone: Page, example: str) -> None:
    opened(phone, example)
    outer = phone.locator("details[data-lay=outer]")
    outer.locator("summary").click()
    drawing = outer.locator("svg.bs-lay")
    expect(drawing).to_be_visible()
    phone.emulate_media(media="print")
    stated_mm = float((drawing.get_attribute("width") or "").removesuffix("mm"))
    # Found and measured in one go: the calculator, when it has started, puts its own drawing in this one's place.
    shown_px = phone.evaluate(
        "document.querySelector('details[data-lay=outer] svg.bs-lay').getBoundingClientRect().width"
    )
    assert shown_px == pytest.approx(stated_mm * 96 / 25.4, abs=0.5)  # CSS: 96 px are an inch of paper
    expect(outer).to_contain_text(f"On paper 1:{drawing.get_attribute('data-scale')}.")


def test_a_lay_that_is_not_of_this_edition_is_not_shown(browser: Browser, example: str, example_site: Path) -> None:
    context = browser.new_context(viewport=PHONE)
    wrong = bytearray((example_site / "patterns/example-jacket/lays/lining.folded.92.json").read_bytes())
    wrong[len(wrong) // 2] ^= 1
    replaced: list[str] = []

    def replace(route: Route) -> None:
        replaced.append(route.request.url)
        if len(replaced) == 1:
            route.fulfill(body=bytes(wrong), content_type="application/json")
        else:
            route.continue_()

    context.route(lambda url: urlsplit(url).path.endswith("lining.folded.92.json"), replace)
    page = opened(context.new_page(), example)
    lining = page.locator("details[data-lay=lining]")
    lining.locator("summary").click()
    expect(lining).to_contain_text("The lay could not be fetched.")
    expect(lining.locator("svg")).to_have_count(0)
    expect(page.locator(".note__lines")).to_be_visible()
    lining.locator("summary").click()
    lining.locator("summary").click()
    expect(lining.locator("svg.bs-lay")).to_be_visible()
    assert len(replaced) == 2
    context.close()


def test_lays_are_fetched_only_when_one_is_opened_and_only_from_the_shop(browser: Browser, example: str) -> None:
    context = browser.new_context(viewport=PHONE)
    watched = Watched(context)
    page = opened(context.new_page(), example)
    assert not [url for url in watched.requests if "/lays/" in url]
    outer = page.locator("details[data-lay=outer]")
    outer.locator("summary").click()
    expect(outer.locator("svg.bs-lay")).to_be_visible()
    page.get_by_label("Width on the bolt").first.fill("112")
    expect(page.locator(".note__lines")).to_contain_text("112 cm wide", use_inner_text=True)
    page.wait_for_timeout(300)
    context.close()
    fetched = [url for url in watched.requests if "/lays/" in url]
    assert len(fetched) == 1, "one file holds all widths"
    assert watched.foreign_to(example) == []
    assert watched.complaints == []
