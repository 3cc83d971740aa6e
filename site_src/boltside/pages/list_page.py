"""What is on my list? The places of the shopping list's page, and the button of a pattern's page that puts it there.

The page itself is filled by its script from what this device keeps, or from what stands in a link; the calculators
work the amounts out. Every place that the script fills is named here by a `data-` attribute.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from boltside.calculators.shop_cuts import CUTS, step_words
from boltside.pages.controls import radio
from boltside.pages.markup import Html, element, join

Sheet = Mapping[str, Any]

TITLE = "Shopping list"
DESCRIPTION = "What to buy for all garments on your list together, kept on this device only, to be ticked in the shop."
NO_SCRIPT = "The list needs JavaScript: it is kept on your own device and nowhere else."
EMPTY = (
    "Nothing is on your list yet. Open a pattern, choose size, options and cloth, and tap “Put on my list”. The list "
    "stays on this device."
)
ONE_CLOTH = (
    "Two garments from one cloth? Open “more” beside one of them and say so: their lengths are then added before they "
    "are rounded up."
)
KEPT_HERE = "The list is kept on this device only. A link to it holds everything, without prices and ticks."
CODE = "Somebody sent you a list or a code?"
CODE_LABEL = "Paste the link or the code here"
LARGE = "Show it large, line by line"


def list_page(files: Mapping[str, Any], *, script: str, base: str, shop: str) -> Html:
    """The places of the list and what the page's script has to know.

    Arguments: what the worker may load, each with hash and length; the script's address; the way from the page to the
    site's root; the shop's name, for a list that is sent as text.
    """
    known = json.dumps({"base": base, "files": files, "shop": shop}, sort_keys=True, separators=(",", ":"))
    return join(
        [
            element("noscript", element("p", NO_SCRIPT)),
            # Room is kept for it, so that nothing jumps once it is filled.
            element("div", element("div", _said(), _shared(), element("p", EMPTY, data_empty=True, hidden=True),
                                   _to_buy(), _garments(), _send(), _code(), class_="list-page", data_list=True,
                                   hidden=True), class_="list-room"),
            _large(),
            element("script", Html(known.replace("<", "\\u003c")), type="application/json", id="list-data"),
            element("script", type="module", src=script),
        ],
        "\n",
    )  # fmt: skip


def _said() -> Html:
    """What has to be said of storage, the calculator, and what was just done."""
    bar = element("progress", max=100, value=0, aria_label="Calculator")
    return join(
        [
            element("p", class_="list-page__problem", role="alert", data_problem=True, hidden=True),
            element("p", bar, element("span"), class_="remnant__progress", data_progress=True, hidden=True),
            element("p", class_="remnant__state", role="status", data_state=True, hidden=True),
        ]
    )


def _shared() -> Html:
    """Shown above a list that came in a link."""
    return element(
        "div",
        element("p", data_shared_said=True),
        element("div", element("button", "Take over into my list", type="button", class_="plain", data_take_over=True),
                element("button", "Show my own list", type="button", class_="plain", data_own_list=True),
                class_="acts"),
        class_="shared",
        data_shared=True,
        hidden=True,
    )  # fmt: skip


def _to_buy() -> Html:
    words = {name: f"{step_words(steps).cm} or {step_words(steps).inch}" for name, steps in CUTS.items()}
    cuts = join(radio("list-cut", name, title, checked=not at) for at, (name, title) in enumerate(words.items()))
    return element(
        "section",
        element("h2", "To buy", id="to-buy"),
        element("ul", class_="bare buys", data_buys=True, aria_labelledby="to-buy"),
        element("p", class_="buys__total", data_total=True, hidden=True),
        element("button", LARGE, type="button", class_="plain", data_large=True),
        element("p", ONE_CLOTH, class_="aside", data_one_cloth=True, hidden=True),
        element("p", class_="aside", data_safe=True, hidden=True),
        element("p", class_="aside", data_not_counted=True, hidden=True),
        element("div", class_="list-cautions", data_cautions=True, hidden=True),
        element("div", element("span", "The shop cuts to full", class_="legend", id="list-cut-title"),
                element("div", cuts, class_="chips"), role="radiogroup", aria_labelledby="list-cut-title",
                class_="buys__cuts"),
        data_to_buy=True,
        hidden=True,
    )  # fmt: skip


def _garments() -> Html:
    return element(
        "section",
        element("h2", "Garments", id="garments"),
        element("ul", class_="bare garments", data_garments=True, aria_labelledby="garments"),
        data_on_list=True,
        hidden=True,
    )


def _send() -> Html:
    def act(words: str, **what: object) -> Html:
        return element("button", words, type="button", class_="plain", **what)

    return element(
        "section",
        element("h2", "Send or print it"),
        element("div", act("Share", data_share=True, hidden=True), act("Copy the link", data_copy_link=True),
                act("Copy as text", data_copy_text=True), act("Print", data_print=True), class_="acts"),
        element("p", role="status", data_sent=True, hidden=True),
        element("textarea", rows=6, readonly=True, data_to_copy=True, aria_label="To copy", hidden=True),
        element("p", KEPT_HERE, class_="aside"),
        data_send=True,
        hidden=True,
    )  # fmt: skip


def _code() -> Html:
    return element(
        "details",
        element("summary", CODE),
        element("form", element("label", CODE_LABEL, for_="list-code"),
                element("textarea", id="list-code", rows=3, autocomplete="off", spellcheck="false",
                        autocapitalize="off"),
                element("button", "Open it", class_="plain"), data_code=True),
        class_="folded small list-code",
    )  # fmt: skip


def _large() -> Html:
    """One line of the list filling the screen."""
    return element(
        "dialog",
        element("p", class_="large__at", data_large_at=True),
        element("div", class_="large__line", data_large_line=True, aria_live="polite"),
        element(
            "div",
            element("button", "Back", type="button", class_="plain", data_large_back=True),
            element("button", "Got it", type="button", class_="plain large__got", data_large_got=True),
            element("button", "Next", type="button", class_="plain", data_large_next=True),
            class_="large__acts",
        ),
        element("form", element("button", "Close", class_="plain"), method="dialog"),
        class_="counter large",
        aria_label=TITLE,
        data_large_dialog=True,
    )


def put_on_list(sheet: Sheet) -> Html:
    """The button of a pattern's page: its place is there from the beginning, and it shows once a script can do it."""
    return element(
        "div",
        element("button", "Put on my list", type="button", class_="plain", data_put_on=True),
        element("p", role="status", class_="put__said", data_put_said=True, hidden=True),
        class_="put",
        data_put=True,
        data_edition=sheet["edition"],
        data_name=sheet["name"],
    )
