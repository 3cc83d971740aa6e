"""The question about stripes: closed, plain at first, and not asked of interfacing."""

from __future__ import annotations

from boltside.pages.pattern_page import pattern_page
from boltside.pages.stripes import STRIPES_QUESTION
from boltside.shop_build import PatternFiles

from .reading import Element, read


def questions(pattern: PatternFiles) -> list[Element]:
    """The questions of all cloths, as the page opens."""
    article = read(
        pattern_page(pattern.sheet, pattern.default_answer, pattern.default_request, {"sheet": {}}, script="", base="")
    )
    return [one for one in article.all("details") if STRIPES_QUESTION in one.all("summary")[0].text]


def test_it_is_asked_of_every_cloth_but_interfacing(pattern: PatternFiles) -> None:
    wanted = [one["name"] for one in pattern.sheet["cloths"] if set(one["kinds"]) & {"woven", "knit"}]
    names = [{str(one.attributes["name"]) for one in part.all("input")} for part in questions(pattern)]
    assert names == [{f"{what}.{cloth}" for what in ("pattern", "every", "uneven")} for cloth in wanted]
    assert len(wanted) < len(pattern.sheet["cloths"])


def test_it_is_closed_and_plain_and_lists_the_repeats_with_lays(pattern: PatternFiles) -> None:
    for part, cloth in zip(questions(pattern), pattern.sheet["cloths"], strict=False):
        assert "open" not in part.attributes
        radios = [one for one in part.all("input") if one.attributes["type"] == "radio"]
        listed = [f"repeat:{one['name']}" for one in cloth.get("repeats", [])]
        assert [one.attributes["value"] for one in radios] == ["plain", *listed, "own"]
        assert [one.attributes["value"] for one in radios if "checked" in one.attributes] == ["plain"]
        assert all(one["title"] in part.text for one in cloth.get("repeats", []))


def test_uneven_is_told_in_words_that_belong_to_its_box(pattern: PatternFiles) -> None:
    for part in questions(pattern):
        (box,) = [one for one in part.all("input") if one.attributes["type"] == "checkbox"]
        (words,) = part.all("p", id=str(box.attributes["aria-describedby"]))
        assert "head to foot" in words.text and "one layer" in words.text and "checked" not in box.attributes
