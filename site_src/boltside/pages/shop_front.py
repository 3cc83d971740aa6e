"""What does the shop show first? One card per pattern: line drawing, name, garment, sizes, difficulty."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from boltside.pages.markup import Html, element, join
from boltside.pages.slots import Slots
from boltside.pages.words import size_span


def shop_front(patterns: Sequence[tuple[Mapping[str, Any], Mapping[str, Any], str]]) -> Html:
    """The cards. Argument: for each pattern its sheet, the answer for its default choices, its address."""
    return element("ul", *(element("li", card(*pattern)) for pattern in patterns), class_="cards bare")


def card(sheet: Mapping[str, Any], answer: Mapping[str, Any], address: str) -> Html:
    """One pattern's card; the whole card is one link."""
    slots = Slots(answer)
    drawing, difficulty = slots.fragment("drawing"), slots.fragment("difficulty")
    return element(
        "a",
        element("span", Html(drawing["html"]) if drawing else "", class_="card__drawing", aria_hidden="true"),
        element("span", sheet["name"], class_="card__name"),
        element("span", join([f"{sheet['garment'].capitalize()}, ", size_span(sheet["sizes"])]), class_="card__facts"),
        element("span", sheet["summary"], class_="card__summary"),
        element("span", Html(difficulty["html"]) if difficulty else "", class_="card__facts"),
        href=address,
        class_="card",
    )
