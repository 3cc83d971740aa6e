"""Markdown comes out as harmless HTML."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.spec.steps_html import ELEMENTS, steps_html


def test_what_steps_are_written_with() -> None:
    text = (
        "Sew *slowly*, **then** press.\n\n1. first\n2. second\n\n| a | b |\n|---|---|\n| 1 | 2 |\n\n![a seam](seam.jpg)"
    )
    html = steps_html(text)
    assert "<p>Sew <em>slowly</em>, <strong>then</strong> press.</p>" in html
    assert "<li>first</li>" in html and "<td>1</td>" in html
    assert '<img alt="a seam" src="seam.jpg">' in html


def test_raw_html_is_text() -> None:
    html = steps_html("Hello <script>alert(1)</script> <b onclick=x>there</b>\n\n<div>block</div>")
    assert "<script" not in html and "<b" not in html.replace("<br", "") and "<div" not in html
    assert "&lt;script&gt;" in html and "&lt;div&gt;" in html


@pytest.mark.parametrize(
    "address",
    [
        "javascript:alert(1)",
        "JaVaScRiPt:alert(1)",
        "java&#115;cript:alert(1)",
        "java\tscript:alert(1)",
        " javascript:alert(1)",
        "data:text/html;base64,PHNjcmlwdD4=",
        "vbscript:x",
        "//elsewhere.example/x",
        "\\\\elsewhere\\x",
    ],
)
def test_links_that_do_harm_lose_their_address(address: str) -> None:
    for text in (f"[x]({address})", f"[x](<{address}>)", f"![x]({address})", f"[x][1]\n\n[1]: <{address}>"):
        assert not any(name in ("href", "src") for _, attributes in _tags(steps_html(text)) for name, _ in attributes)


@pytest.mark.parametrize("address", ["https://example.org/a?b=c", "../other/", "#step-2", "mailto:a@example.org"])
def test_links_for_readers_stay(address: str) -> None:
    assert f'href="{address}"' in steps_html(f"[x]({address})")


def _tags(html: str) -> list[tuple[str, list[tuple[str, str | None]]]]:
    found: list[tuple[str, list[tuple[str, str | None]]]] = []

    class Reader(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            found.append((tag, attrs))

    reader = Reader()
    reader.feed(html)
    reader.close()
    return found


PIECES = st.sampled_from(
    ["<script>", "</p>", "<img src=x onerror=alert(1)>", "[a](javascript:b)", "**", "`", "\n\n", "> ", "<!--", "-->",
     "<![CDATA[", "&#60;script&#62;", "| a |\n|---|\n", "1. ", "    ", "![](x)", '"', "'", "<", ">", "text"]
)  # fmt: skip


@given(st.lists(PIECES, max_size=14).map("".join))
def test_law_only_allowed_elements_and_attributes_come_out(text: str) -> None:
    for tag, attributes in _tags(steps_html(text)):
        assert tag in ELEMENTS
        assert {name for name, _ in attributes} <= ELEMENTS[tag]
        assert not any("javascript" in (value or "") for name, value in attributes if name in ("href", "src"))
