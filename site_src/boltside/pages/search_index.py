"""What can be found by searching? Patterns, their options, terms of the trade, headings of hand-written pages.

The list is one JSON file that the page fetches when somebody opens the search: `kinds`, and `entries` each with the
number of its kind, its title, its address from the site's root, and words.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from html import unescape
from textwrap import shorten
from typing import Any

from boltside.pages.options_page import option_address
from boltside.pages.words import size_span

Sheet = Mapping[str, Any]

KINDS = ("Pattern", "Option", "Term", "Page")
PATTERN, OPTION, TERM, PAGE = range(len(KINDS))
TERM_WORDS = 24
"""So many words of an explanation are kept: enough to recognise it. Our choice."""
DESCRIPTION_SIGNS = 160
"""About what lists of pages show of a description (common practice)."""
FIRST_PARAGRAPH = re.compile(r"<p(?:\s[^>]*)?>(.*?)</p>", re.S)
TERM_IN_HTML = re.compile(r"<dt(?P<attributes>[^>]*)>(?P<term>.*?)</dt>\s*<dd>(?P<words>.*?)</dd>", re.S)
TERM_START = re.compile(r"<dt>(?P<term>.*?)</dt>", re.S)
TAG = re.compile(r"<[^>]+>")
ID = re.compile(r'id="([^"]*)"')


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One thing that can be found; its address is seen from the site's root."""

    kind: int
    title: str
    address: str
    words: str = ""


def pattern_entries(sheet: Sheet, address: str) -> list[Entry]:
    """A pattern and each of its choices with all alternatives."""
    whole = f"{sheet['garment'].capitalize()}, {size_span(sheet['sizes'])}. {sheet['summary']}"
    taken = "; ".join(notion["title"] for notion in sheet["notions"])
    words = f"{whole} It may take: {taken}." if taken else whole
    found = [Entry(kind=PATTERN, title=sheet["name"], address=address, words=words)]
    for choice in sheet["choices"]:
        titles = ", ".join(one["title"] for one in choice["alternatives"])
        about = " ".join([choice.get("about", ""), *(one.get("about", "") for one in choice["alternatives"])]).split()
        found.append(
            Entry(
                kind=OPTION,
                title=f"{choice['title']}, {sheet['name']}",
                address=address + option_address(choice),
                words=" ".join([f"{titles}.", *about]),
            )
        )
    return found


def page_entries(title: str, address: str, headings: Iterable[tuple[str, str]], html: str) -> list[Entry]:
    """A hand-written page: itself, its headings (id, title) and the terms that it explains."""
    found = [Entry(kind=PAGE, title=title, address=address)]
    for name, heading in headings:
        if heading != title:
            found.append(Entry(kind=PAGE, title=heading, address=f"{address}#{name}", words=title))
    for term in TERM_IN_HTML.finditer(html):
        own = ID.search(term["attributes"])
        words = plain(term["words"]).split()
        short = " ".join(words[:TERM_WORDS]) + (" …" if len(words) > TERM_WORDS else "")
        place = f"{address}#{own[1]}" if own else address
        found.append(Entry(kind=TERM, title=plain(term["term"]), address=place, words=short))
    return found


def with_term_ids(html: str) -> str:
    """The HTML with an id on each explained term, so that it can be linked to.

    >>> with_term_ids("<dt>Seam allowance</dt>")
    '<dt id="seam-allowance">Seam allowance</dt>'
    """
    taken = set(ID.findall(html))

    def named(term: re.Match[str]) -> str:
        base = name = re.sub(r"[^a-z0-9]+", "-", plain(term["term"]).lower()).strip("-") or "term"
        number = 1
        while name in taken:
            number += 1
            name = f"{base}-{number}"
        taken.add(name)
        return f'<dt id="{name}">{term["term"]}</dt>'

    return TERM_START.sub(named, html)


def first_words(html: str) -> str:
    """The first paragraph in plain words, cut at a word: what a page is about when it does not say so itself.

    >>> first_words("<h1>Terms</h1><p>Short <em>answers</em>.</p><p>More.</p>")
    'Short answers.'
    """
    paragraph = FIRST_PARAGRAPH.search(html)
    return shorten(plain(paragraph[1]), width=DESCRIPTION_SIGNS, placeholder=" …") if paragraph else ""


def plain(html: str) -> str:
    """The words of some HTML.

    >>> plain("Cut <em>two</em> &amp; press")
    'Cut two & press'
    """
    return " ".join(unescape(TAG.sub("", html)).split())


def index_text(entries: Sequence[Entry]) -> str:
    """The list as the page fetches it, the same text each time; patterns first, so that equals come in that order."""
    rows = [[entry.kind, entry.title, entry.address, entry.words] for entry in sorted(entries, key=lambda e: e.kind)]
    return json.dumps({"kinds": KINDS, "entries": rows}, ensure_ascii=False, separators=(",", ":"))
