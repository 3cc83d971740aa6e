"""Techniques in a step and on a page of their own: linked, in both units, and with what was written escaped."""

from __future__ import annotations

import json

import markdown
import pytest

from boltside.pages.technique_pages import before, in_step, technique_page, techniques_page

SHEET = {
    "techniques": [
        {"name": "gathering", "title": "Gather <an edge>", "short": "Two rows, {mm 4} & {mm 8}.", "before": None},
        {"name": "before-knit", "title": "Knits", "short": "Wash it.", "before": [{"cloth": ["knit"]}]},
    ]
}
PAGE = {"name": "gathering", "title": "Gather", "short": "Two rows.", "text": "Sew {mm 4}.", "drawing": "gathering.svg",
        "seen": ""}  # fmt: skip


@pytest.mark.parametrize(("base", "href"), [("../..", "../../"), ("../../", "../../"), (".", "./")])
def test_a_step_has_the_short_text_with_a_link(base: str, href: str) -> None:
    html = str(in_step(SHEET, ["gathering"], base))
    assert f'<a href="{href}techniques/gathering/">Gather &lt;an edge&gt;</a>: ' in html
    assert '<span class="in-cm">4 mm</span><span class="in-inch">3/16 in</span> &amp; ' in html


def test_what_is_read_before_has_its_condition() -> None:
    html = str(before(SHEET, ".."))
    assert "Gather" not in html
    assert json.dumps([{"cloth": ["knit"]}], separators=(",", ":")).replace('"', "&quot;") in html
    assert before({"techniques": [SHEET["techniques"][0]]}, "..") == ""


def test_the_page_has_drawing_text_and_the_patterns_that_use_it() -> None:
    text = technique_page(PAGE, [("ferrylight", "Ferrylight")])
    assert text.startswith("# Gather\n\n**Two rows.**\n\n![Drawing: Gather](gathering.svg)")
    assert "[Ferrylight](../patterns/ferrylight/index.md)" in text and "{mm" not in text
    assert "[Gather](gathering.md)" in techniques_page([PAGE])


def test_what_is_seen_on_the_drawing_is_read_aloud() -> None:
    html = markdown.markdown(technique_page({**PAGE, "seen": "Two rows [drawn up], a \\ between"}, []))
    assert 'alt="Two rows [drawn up], a \\ between"' in html and 'src="gathering.svg"' in html
