"""Escaping and the two systems of units in one sentence."""

from __future__ import annotations

import unicodedata
from html import unescape
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.fragments import NOTHING, escaped, joined, quoted, say
from boltside.calculators.units import Shown


@given(st.text())
def test_law_escaping_can_be_undone_and_leaves_nothing_special(text: str) -> None:
    shown = escaped(text)
    assert not set("<>\"'") & set(shown)
    assert unescape(shown) == unescape(escaped(text)) and shown.count("&") == sum(text.count(s) for s in "<>&\"'")


def test_both_systems_stand_in_the_html_and_one_in_each_text() -> None:
    said = say("Buy ", Shown("1.35 m", "1 1/2 yd"), " & go")
    assert (said.text, said.text_inch) == ("Buy 1.35 m & go", "Buy 1 1/2 yd & go")
    assert said.html == ('Buy <span class="in-cm">1.35 m</span><span class="in-inch">1 1/2 yd</span> &amp; go')


def test_what_is_the_same_or_empty_in_one_system_is_not_doubled() -> None:
    assert say(Shown("0", "0")).html == "0"
    assert say(Shown("5 cm less", "")).html == '<span class="in-cm">5 cm less</span>'


def test_empty_sentences_leave_no_gap() -> None:
    assert joined([NOTHING, say("One."), say(""), say("Two.")]).text == "One. Two."
    assert joined([]) == NOTHING


@given(st.text(max_size=60))
def test_law_quoted_text_can_be_sent(text: str) -> None:
    assert "\u202e" not in quoted(text) and len(quoted(text)) <= 27
    quoted(text).encode("utf-8")


def test_half_characters_are_dropped() -> None:
    assert quoted("a\ud800b") == "“a b”"


@pytest.mark.outside  # XML 1.0, 4.6 (the five signs that have to be written otherwise), read with the expat parser
@pytest.mark.parametrize("sign", ["<", ">", "&", "'", '"'])
def test_what_is_escaped_is_read_as_it_was(sign: str) -> None:
    text = f"5{sign}6{sign}{sign}lt;{sign}"
    for quote in ("'", '"'):
        read = ElementTree.fromstring(f"<p title={quote}{escaped(text)}{quote}>{escaped(text)}</p>")
        assert (read.text, read.get("title")) == (text, text)


@pytest.mark.outside  # Unicode: the signs that turn the reading direction (UAX 9), as Python's tables have them
def test_nothing_typed_turns_the_reading_direction() -> None:
    classes = ("LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI")
    turning = [chr(code) for code in range(0x110000) if unicodedata.bidirectional(chr(code)) in classes]
    # And the marks that have a direction themselves without being seen: LRM, RLM, ALM.
    turning += ["\u200e", "\u200f", "\u061c"]
    assert len(turning) == 12
    assert all(quoted(f"a{sign}b") == "“a b”" for sign in turning)
    assert all(quoted(f"a{chr(code)}b") == "“a b”" for code in range(0x110000)
               if unicodedata.category(chr(code)) in ("Cc", "Cs"))  # fmt: skip
