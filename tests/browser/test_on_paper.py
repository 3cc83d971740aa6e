"""A pattern's page as a browser prints it: the guide of what was chosen, true to scale, and nothing beside it."""

from __future__ import annotations

import io
import json
import re
import unicodedata
from html import unescape
from math import dist

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from boltside.pages.guide import guide_of
from boltside.pages.scale_line import LENGTH_MM
from tests.browser.shop import EXAMPLE_SHEET
from tests.browser.test_buyer_at_360 import opened
from tests.paper.lines import strokes_mm

pytestmark = pytest.mark.browser

CHOSEN = {"length": "waist", "sleeves": "none"}
NOT_ON_PAPER = ("Why these figures", "Body, all sizes", "Finished, all sizes", "Cloth to buy", "Which size?",
                "Tables for a spreadsheet", "Show the steps of all options", "Keep this shop", "(PDF)")  # fmt: skip


def words_of(html: str) -> str:
    """The text of a step without its marks."""
    return unescape(re.sub(r"<[^>]*>", "", html))


def plain(text: str) -> str:
    """The text with single spaces, and letters that a face draws as one apart."""
    return " ".join(unicodedata.normalize("NFKC", text).split())


@pytest.mark.outside
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_it_is_the_guide_of_what_was_chosen(phone: Page, example: str, paper: str) -> None:
    """Lengths read from the operators of the browser's own PDF; units by PDF 32000-1:2008."""
    opened(phone, example)
    for name, word in CHOSEN.items():
        phone.locator(f"input[name='choice.{name}'][value='{word}']").check()
    sheet = json.loads(EXAMPLE_SHEET.read_text(encoding="utf-8"))
    shown = guide_of(sheet, "92", CHOSEN).steps
    others = [step for at, step in enumerate(sheet["steps"]) if at not in {one.place for one in shown}]
    assert shown and others
    expect(phone.locator(".steps > li:not([hidden]) .step__title")).to_have_text([step.title for step in shown])
    made = PdfReader(io.BytesIO(phone.pdf(format=paper)))
    text = plain(" ".join(page.extract_text() for page in made.pages))
    parts = (sheet["name"], f"Edition {sheet['edition']}", "To buy, size 92", "Cutting list", "Cautions")
    for told in (*(step.title for step in shown), *(words_of(step.html) for step in shown), *parts):
        assert plain(told) in text, told
    # Of the other steps what stands before the first word in braces.
    starts = [words_of(step["html"]).split("{")[0] for step in others]
    for told in (*filter(None, starts), *NOT_ON_PAPER):
        assert plain(told) not in text, text[max(0, text.find(told) - 200) : text.find(told) + 100]
    for number, page in enumerate(made.pages, 1):
        assert f"{number} / {len(made.pages)}" in page.extract_text()
    level = [dist(*ends) for ends in strokes_mm(made, 0) if abs(ends[0][1] - ends[1][1]) < 0.01]
    assert len([one for one in level if abs(one - LENGTH_MM) <= 0.2]) == 1


def test_what_is_for_paper_is_not_on_the_screen(phone: Page, example: str) -> None:
    opened(phone, example)
    expect(phone.locator(".on-paper")).to_be_hidden()
    phone.emulate_media(media="print")
    expect(phone.locator(".on-paper")).to_be_visible()
    for hidden in ("#cloth", "#why", ".keep-line"):
        expect(phone.locator(hidden).first).to_be_hidden()
