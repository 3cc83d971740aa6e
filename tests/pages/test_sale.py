"""What the buyer gets for how much, and a plain link that sends nothing along."""

from __future__ import annotations

from typing import Any

import pytest

from boltside.pages.sale import price_words, sale_part

from .reading import read

Json = dict[str, Any]


def test_price_contents_and_checkout(sheet: Json) -> None:
    part = read(sale_part(sheet))
    assert "8.50 EUR" in part.text
    facts = dict(zip((term.text for term in part.all("dt")), (words.text for words in part.all("dd")), strict=True))
    assert facts == {"Sizes": "68–116, all in one", "Files": "A4 pages A0 sheet", "Language": "English",
                     "Edition": "1"}  # fmt: skip
    (link,) = part.all("a")
    assert link.attributes["href"] == "https://checkout.example/example-jacket"
    assert link.has("rel", "noopener") and link.has("referrerpolicy", "no-referrer")
    assert "needs a connection" in part.text, "said in words, whatever the connection"
    assert part.all("p", data_offline=None)[0].has("hidden", None)


def test_nothing_in_the_part_loads_or_sends_anything(sheet: Json) -> None:
    part = read(sale_part(sheet))
    for tag in ("img", "script", "iframe", "form", "link"):
        assert not part.all(tag)
    assert not part.all(ping=None)


def test_a_free_pattern_is_downloaded_from_here(sheet: Json) -> None:
    sheet["sale"] |= {"price": None, "free": True, "checkout": None, "download": "files/all.zip"}
    part = read(sale_part(sheet))
    (link,) = part.all("a")
    assert link.attributes["href"] == "files/all.zip" and link.has("download", None)
    assert "Free" in part.text and "EUR" not in part.text


@pytest.mark.parametrize(("sale", "words"), [(None, ""), ({"free": False, "price": None}, "")])
def test_without_a_price_none_is_shown(sheet: Json, sale: Json | None, words: str) -> None:
    assert price_words({**sheet, "sale": sale}) == words


def test_what_is_not_sold_has_no_part(sheet: Json) -> None:
    assert sale_part({**sheet, "sale": None}) == ""


def test_a_language_without_a_name_is_shown_by_its_code(sheet: Json) -> None:
    sheet["sale"]["languages"] = ["en", "xq"]
    assert "English and xq" in read(sale_part(sheet)).text
