"""The closed part of the panel: washing, price, how the shop cuts."""

from __future__ import annotations

from boltside.pages.panel import BEFORE_YOU_BUY
from boltside.pages.pattern_page import pattern_page
from boltside.shop_build import PatternFiles

from .reading import Element, read


def part(pattern: PatternFiles) -> Element:
    """The part, as the page opens."""
    article = read(
        pattern_page(pattern.sheet, pattern.default_answer, pattern.default_request, {"sheet": {}}, script="", base="")
    )
    (found,) = [one for one in article.all("details") if BEFORE_YOU_BUY in one.all("summary")[0].text]
    return found


def test_it_is_closed_and_asks_of_every_cloth(pattern: PatternFiles) -> None:
    found = part(pattern)
    assert "open" not in found.attributes
    names = {str(control.attributes["name"]) for control in found.all("input")}
    asked = ("wash", "along", "across", "price")
    assert names == {"cut", *(f"{what}.{one['name']}" for what in asked for one in pattern.sheet["cloths"])}
    assert "EUR" in found.text and "5 cm or 1/8 yd" in found.text


def test_no_label_of_a_chip_holds_another_box(pattern: PatternFiles) -> None:
    for pick in part(pattern).all("label", class_="pick"):
        (words,) = pick.all("span")
        assert words.text


def test_its_figures_are_silent_until_a_price_is_typed(pattern: PatternFiles) -> None:
    for place in part(pattern).all(data_fragment=None):
        if str(place.attributes["data-fragment"]).startswith("cost"):
            assert place.text == "" and "hidden" in place.attributes
