"""What does each option change? A page per choice: every alternative with its drawing, cloth, time and conditions."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boltside.pages.markup import Html, element

Sheet = Mapping[str, Any]

OPTIONS_FOLDER = "options"
"""Below a pattern's page; in it a folder per choice."""


def option_address(choice: Mapping[str, Any]) -> str:
    """Where a choice's page lies, as seen from the pattern's page.

    >>> option_address({"name": "sleeve-end"})
    'options/sleeve-end/'
    """
    return f"{OPTIONS_FOLDER}/{choice['name']}/"


def option_links(sheet: Sheet) -> Html:
    """For the pattern's page: a line of links to the pages of its choices; empty where nothing can be chosen."""
    if not sheet["choices"]:
        return Html("")
    links = [
        element("li", element("a", choice["title"], href=option_address(choice))) for choice in sheet["choices"]
    ]
    return element(
        "nav",
        element("span", "What each changes:", id="option-links"),
        element("ul", *links, class_="bare"),
        class_="option-links",
        aria_labelledby="option-links",
    )
