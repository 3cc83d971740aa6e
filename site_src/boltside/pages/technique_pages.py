"""How is a technique of the shop told: short within a step, whole on its own page?

The pages are Markdown, as the shop's hand-written ones are, so they are found and kept like these.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

from boltside.calculators.guide import said_as
from boltside.pages.markup import Html, element, join

Sheet = Mapping[str, Any]

TECHNIQUES_FOLDER = "techniques"
BEFORE_TITLE = "Before you start"
TITLE = "Techniques"
DESCRIPTION = "How things are done that come back in every garment: seams, hems, gathers, buttonholes, elastic."

_MM = re.compile(r"\{mm ([0-9]+(?:\.[0-9])?)\}")


def technique_address(name: str) -> str:
    """Where a technique's page lies, as seen from the site's root.

    >>> technique_address("gathering")
    'techniques/gathering/'
    """
    return f"{TECHNIQUES_FOLDER}/{name}/"


def in_step(sheet: Sheet, names: Sequence[str], base: str) -> Html:
    """The techniques of a step: title, short text, link. Argument `base`: the way to the site's root."""
    known = {one["name"]: one for one in sheet["techniques"]}
    return join(element("p", *_told(known[name], base), class_="step__how") for name in names)


def before(sheet: Sheet, base: str) -> Html:
    """What is read before one starts, for the cloth that is chosen; a script hides what is for another."""
    found = [one for one in sheet["techniques"] if one["before"] is not None]
    if not found:
        return Html("")
    entries = [element("li", *_told(one, base), data_fits=_condition(one["before"])) for one in found]
    return join([element("h3", BEFORE_TITLE), element("ul", *entries, class_="before bare")])


def technique_page(technique: Mapping[str, Any], using: Sequence[tuple[str, str]]) -> str:
    """The Markdown of a technique's page.

    Arguments: the technique (name, title, short, text, drawing, seen); the patterns that name it, by folder and title.
    """
    parts = [f"# {technique['title']}", f"**{_with_units(technique['short'])}**"]
    if technique["drawing"]:
        alt = re.sub(r"([\\\[\]])", r"\\\1", technique["seen"] or f"Drawing: {technique['title']}")
        parts.append(f"![{alt}]({technique['drawing']}){{: .technique }}")
    parts.append(_with_units(technique["text"]))
    if using:
        links = ", ".join(f"[{title}](../patterns/{folder}/index.md)" for folder, title in using)
        parts.append(f"In the guides of: {links}.")
    return "\n\n".join(parts) + "\n"


def techniques_page(techniques: Sequence[Mapping[str, Any]]) -> str:
    """The Markdown of the list of all techniques."""
    rows = [f"[{one['title']}]({one['name']}.md)\n:   {_with_units(one['short'])}" for one in techniques]
    return f"# {TITLE}\n\n{DESCRIPTION}\n\n" + "\n\n".join(rows) + "\n"


def short_html(technique: Mapping[str, Any]) -> Html:
    """The technique in short, lengths in both systems."""
    return Html(_with_units(element("span", technique["short"])))


def _told(technique: Mapping[str, Any], base: str) -> tuple[Html, str | Html]:
    link = element("a", technique["title"], href=f"{base.rstrip('/')}/{technique_address(technique['name'])}")
    return join([link, ": "]), short_html(technique)


def _condition(condition: Sequence[Mapping[str, Any]]) -> str:
    return json.dumps(condition, separators=(",", ":")) if condition else ""


def _with_units(text: str) -> str:
    """The text with its lengths in both systems."""
    return _MM.sub(lambda found: said_as("mm", float(found[1])).html, text)
