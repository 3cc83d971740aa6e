"""How does a buyer get the pattern? Price, what is in it, and a plain link: to the designer's checkout or to the file.

The page sends nothing anywhere: the link is followed only when it is tapped, and carries no word of where it was.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from urllib.parse import urlsplit

from boltside.pages.markup import Html, element, join
from boltside.pages.words import listed, size_span

Sheet = Mapping[str, Any]

SALE_ID, SALE_TITLE = "sale", "The pattern"
LANGUAGES: Mapping[str, str] = {
    "cs": "Czech", "da": "Danish", "de": "German", "el": "Greek", "en": "English", "es": "Spanish", "et": "Estonian",
    "fi": "Finnish", "fr": "French", "hu": "Hungarian", "is": "Icelandic", "it": "Italian", "ja": "Japanese",
    "lt": "Lithuanian", "lv": "Latvian", "nb": "Norwegian", "nl": "Dutch", "no": "Norwegian", "pl": "Polish",
    "pt": "Portuguese", "ro": "Romanian", "sk": "Slovak", "sl": "Slovenian", "sv": "Swedish", "uk": "Ukrainian",
}  # fmt: skip
"""Languages by their code in ISO 639-1; others are shown by their code."""
NEEDS_CONNECTION = "Buying needs a connection. Everything else on this page works without one."
OFFLINE = (
    "There is no connection now. Come back to this when there is one; your choices stay in the address of this page."
)
FREE_NEEDS_CONNECTION = "The download needs a connection, once."


def price_words(sheet: Sheet) -> str:
    """The price as it stands on the page; empty where the pattern is not for sale.

    >>> price_words({"currency": "EUR", "sale": {"price": "9.50", "free": False}})
    '9.50 EUR'
    >>> price_words({"currency": "EUR", "sale": {"price": None, "free": True}})
    'Free'
    """
    sale = sheet.get("sale")
    if not sale:
        return ""
    if sale["free"]:
        return "Free"
    return f"{sale['price']} {sheet['currency']}" if sale["price"] else ""


def sale_part(sheet: Sheet) -> Html:
    """The part of a pattern's page that sells it; empty for a pattern that is not for sale.

    Its links are as seen from the pattern's page.
    """
    sale = sheet.get("sale")
    if not sale:
        return Html("")
    return element(
        "section",
        element("h2", SALE_TITLE, id="sale-title"),
        element("p", price_words(sheet), class_="sale__price"),
        element("dl", *what_it_is(sheet, sale), class_="sale__facts"),
        free_link(sale) if sale["free"] else checkout_link(sheet, sale),
        id=SALE_ID,
        class_="part sale",
        aria_labelledby="sale-title",
    )


def what_it_is(sheet: Sheet, sale: Mapping[str, Any]) -> list[Html]:
    """What the buyer gets, as terms and words."""
    languages = [LANGUAGES.get(code, code) for code in sale["languages"]]
    facts = [
        ("Sizes", f"{size_span(sheet['sizes']).split(maxsplit=1)[1]}, all in one"),
        ("Files", join(sale["formats"], "<br>\n")),
        ("Languages" if len(languages) > 1 else "Language", listed(languages)),
        ("Edition", str(sheet["edition"])),
    ]
    return [element("div", element("dt", term), element("dd", words)) for term, words in facts if words]


def free_link(sale: Mapping[str, Any]) -> Html:
    """The file of a free pattern, from this site."""
    if not sale["download"]:
        return element("p", "The file is not here yet.")
    return join(
        [
            element(
                "p", element("a", "Download the pattern", href=sale["download"], download=True, class_="plain buy")
            ),
            element("p", FREE_NEEDS_CONNECTION, class_="aside"),
        ]
    )


def checkout_link(sheet: Sheet, sale: Mapping[str, Any]) -> Html:
    """The designer's own checkout, elsewhere; opened by the reader's tap alone."""
    if not sale["checkout"]:
        return element("p", "It is not sold here yet.")
    label = sheet["label"]
    words = f"Buy it at the checkout of {label}" if label else "Buy it"
    return join(
        [
            element(
                "p",
                element("a", words, href=sale["checkout"], rel="noopener", referrerpolicy="no-referrer",
                        class_="plain buy"),
            ),
            element("p", f"It leads to {urlsplit(sale['checkout']).hostname}. {NEEDS_CONNECTION}", class_="aside"),
            element("p", OFFLINE, class_="aside sale__offline", role="status", data_offline=True, hidden=True),
        ]
    )  # fmt: skip
