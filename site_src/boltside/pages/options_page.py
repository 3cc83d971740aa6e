"""What does each option change? A page per choice: every alternative with its drawing, cloth, time and conditions."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from boltside.pages.markup import Html, element, join
from boltside.pages.words import condition_in_words, lower_first

Sheet = Mapping[str, Any]

OPTIONS_FOLDER = "options"
"""Below a pattern's page; in it a folder per choice."""
UP = "../../"
"""From a choice's page to the pattern's."""


def option_address(choice: Mapping[str, Any]) -> str:
    """Where a choice's page lies, as seen from the pattern's page.

    >>> option_address({"name": "sleeve-end"})
    'options/sleeve-end/'
    """
    return f"{OPTIONS_FOLDER}/{choice['name']}/"


def option_links(sheet: Sheet) -> Html:
    """For the pattern's page: links to the pages of its choices; empty where nothing can be chosen."""
    if not sheet["choices"]:
        return Html("")
    links = [element("li", element("a", choice["title"], href=option_address(choice))) for choice in sheet["choices"]]
    return element(
        "nav",
        element("span", "What each changes:", id="option-links"),
        element("ul", *links, class_="bare"),
        class_="option-links",
        aria_labelledby="option-links",
    )


def options_title(sheet: Sheet, choice: Mapping[str, Any]) -> str:
    """The title of a choice's page.

    >>> options_title({"name": "Ferrylight"}, {"title": "Sleeve end"})
    'Sleeve end, Ferrylight'
    """
    return f"{choice['title']}, {sheet['name']}"


def options_description(sheet: Sheet, choice: Mapping[str, Any]) -> str:
    """One sentence on a choice's page for whoever lists pages."""
    titles = "; ".join(one["title"] for one in choice["alternatives"])
    return (
        f"{sheet['name']}, {lower_first(choice['title'])}: {titles}. What each changes in cloth, time and difficulty."
    )


def options_page(
    sheet: Sheet, choice: Mapping[str, Any], effects: Mapping[str, Any], *, heading_id: str = "option"
) -> Html:
    """The article on one choice.

    Arguments: the sheet; one of its choices; the calculators' answer on the effects of its alternatives; the id of
    the page's heading.
    """
    fragments: dict[str, list[Mapping[str, Any]]] = {}
    for fragment in effects["fragments"]:
        name = fragment["id"].split(".")[1] if fragment["id"].startswith("effect.") else ""
        fragments.setdefault(name, []).append(fragment)
    asked = condition_in_words(sheet, choice["asked_when"])
    return join(
        [
            element(
                "header",
                element("h1", choice["title"], id=heading_id),
                element("p", "An option of ", element("a", sheet["name"], href=UP), ".", class_="aside"),
                element("p", choice["about"]) if choice["about"] else "",
                element("p", f"Asked where: {asked}.", class_="aside") if asked else "",
                class_="head head--option",
            ),
            element(
                "div",
                *(alternative(sheet, choice, one, fragments.get(one["name"], [])) for one in choice["alternatives"]),
                class_="alternatives",
            ),
            other_choices(sheet, choice),
        ],
        "\n",
    )


def alternative(
    sheet: Sheet, choice: Mapping[str, Any], one: Mapping[str, Any], effects: list[Mapping[str, Any]]
) -> Html:
    """One alternative: what it is, what it changes, and the way back with it chosen."""
    chosen = "" if one["name"] == choice["default"] else f"?{urlencode({'choice.' + choice['name']: one['name']})}"
    return element(
        "section",
        element("h2", one["title"]),
        *(element("div", Html(effect["html"]), class_="effect", data_kind=effect["kind"]) for effect in effects
          if effect["html"]),
        plans_with(sheet, choice, one["name"]),
        element("p", element("a", f"See {sheet['name']} with this", href=f"{UP}{chosen}", class_="plain")),
        id=one["name"],
        class_="alternative",
    )  # fmt: skip


def plans_with(sheet: Sheet, choice: Mapping[str, Any], word: str) -> Html:
    """The cloth plans that this alternative belongs to, each a link to the pattern with the plan's options."""
    found = [plan for plan in sheet["cloth_plans"] if word in plan["choices"].get(choice["name"], ())]
    if not found:
        return Html("")
    links = []
    for plan in found:
        words = {name: will_do[0] for name, will_do in plan["choices"].items()} | {choice["name"]: word}
        asked = urlencode({f"choice.{name}": one for name, one in words.items()})
        links.append(element("a", plan["title"], href=f"{UP}?{asked}"))
    title = "In the cloth plan: " if len(links) == 1 else "In the cloth plans: "
    return element("p", title, join(links, "; "), class_="aside")


def other_choices(sheet: Sheet, choice: Mapping[str, Any]) -> Html:
    """Links to the pattern's other choices."""
    others = [one for one in sheet["choices"] if one["name"] != choice["name"]]
    if not others:
        return Html("")
    links = [element("li", element("a", one["title"], href=f"../{one['name']}/")) for one in others]
    return element(
        "nav",
        element("h2", f"Other options of {sheet['name']}", id="other-options"),
        element("ul", *links, class_="bare"),
        class_="other-options",
        aria_labelledby="other-options",
    )
