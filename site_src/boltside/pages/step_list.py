"""The sewing steps of a pattern's page.

A step that only some choices have carries its condition for the page's script, which hides the steps that the chosen
options do not have; without a script all stand there. Their numbers are counted by the style sheet, so they are always
in a row. Words that depend on size and choices have places that are filled like all others.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

from boltside.calculators.guide import WORD
from boltside.pages.guide import PLACE
from boltside.pages.markup import Html, element, join, text
from boltside.pages.slots import Slots
from boltside.pages.unbroken import unbroken
from boltside.pages.words import condition_in_words

Sheet = Mapping[str, Any]

ALL_STEPS = "Show the steps of all options"


def steps(sheet: Sheet, slots: Slots) -> Html:
    """The introduction and the steps in order; a step that only some choices have says which."""
    taken: dict[str, int] = {}
    entries = []
    for step in sheet["steps"]:
        when = condition_in_words(sheet, step["when"])
        up = step.get("up")
        summary = element(
            "summary",
            element("span", filled(text(step["title"]), slots), class_="step__title"),
            element("span", when, class_="step__when") if when else "",
        )
        body = element(
            "div",
            element("p", "Up: ", filled(text(up), slots), class_="step__up") if up else "",
            filled(step["html"], slots),
            class_="step__text",
        )
        condition = json.dumps(step["when"], separators=(",", ":")) if step["when"] else None
        folded = element("details", summary, body, class_="step")
        entries.append(element("li", folded, id=step_id(step, taken), data_when=condition))
    introduction = filled(sheet["introduction_html"], slots)
    return join([introduction, all_steps(), element("ol", *entries, class_="steps bare")])


def step_id(step: Mapping[str, Any], taken: dict[str, int]) -> str:
    """What a step is called in addresses, and where ticks are kept: its title, and a number if that is taken.

    >>> taken = {}
    >>> step_id({"title": "Sew the {0} on"}, taken), step_id({"title": "Sew the on"}, taken)
    ('step-sew-the-on', 'step-sew-the-on-2')
    """
    base = "-".join(re.findall(r"[a-z0-9]+", PLACE.sub("", step["title"]).lower())) or "step"
    taken[base] = taken.get(base, 0) + 1
    return f"step-{base}" + (f"-{taken[base]}" if taken[base] > 1 else "")


def filled(html: str, slots: Slots) -> Html:
    """HTML with the places of its words."""
    return Html(PLACE.sub(lambda found: slots.one(f"{WORD}{found[1]}", "span", class_="word"), unbroken(html)))


def all_steps() -> Html:
    """The box that brings back the steps which the chosen options do not have; shown once a script hides any."""
    box = element("input", type="checkbox", name="all-steps", autocomplete="off")
    return element("label", box, element("span", ALL_STEPS), class_="tick", data_all_steps=True, hidden=True)
