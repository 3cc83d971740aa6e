"""What the search can find: patterns, options, terms, headings; each with an address that exists."""

from __future__ import annotations

import json
from typing import Any

from boltside.pages.search_index import (
    KINDS,
    OPTION,
    PAGE,
    PATTERN,
    TERM,
    index_text,
    page_entries,
    pattern_entries,
    with_term_ids,
)

Json = dict[str, Any]
TERMS = "<h2>The cloth</h2><dl><dt>Nap</dt><dd>Cloth that looks <em>different</em> upside down.</dd></dl>"


def test_a_pattern_and_its_choices(sheet: Json) -> None:
    found = pattern_entries(sheet, "patterns/example-jacket/")
    assert [entry.kind for entry in found] == [PATTERN] + [OPTION] * len(sheet["choices"])
    assert sheet["summary"] in found[0].words and "Jacket" in found[0].words
    assert all(notion["title"] in found[0].words for notion in sheet["notions"]), "found by what it is closed with"
    length = found[1]
    assert length.address == "patterns/example-jacket/options/length/"
    for one in sheet["choices"][0]["alternatives"]:
        assert one["title"] in length.words and one["about"] in length.words


def test_terms_and_headings_of_a_page() -> None:
    found = page_entries("Terms", "glossary/", [("terms", "Terms"), ("cloth", "The cloth")], with_term_ids(TERMS))
    assert [(entry.kind, entry.title, entry.address) for entry in found] == [
        (PAGE, "Terms", "glossary/"), (PAGE, "The cloth", "glossary/#cloth"), (TERM, "Nap", "glossary/#nap"),
    ]  # fmt: skip
    assert found[-1].words == "Cloth that looks different upside down."


def test_ids_of_terms_differ_from_all_others() -> None:
    html = with_term_ids('<h2 id="nap">Nap</h2><dt>Nap</dt><dd>a</dd><dt>Nap</dt><dd>b</dd><dt>½</dt><dd>c</dd>')
    assert '<dt id="nap-2">' in html and '<dt id="nap-3">' in html and '<dt id="term">' in html


def test_the_list_is_json_with_patterns_first(sheet: Json) -> None:
    entries = page_entries("Terms", "glossary/", [], TERMS) + pattern_entries(sheet, "p/")
    index = json.loads(index_text(entries))
    assert index["kinds"] == list(KINDS) and index["entries"][0][:3] == [PATTERN, sheet["name"], "p/"]
    assert len(index["entries"]) == len(entries)
