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
from boltside.pages.chapters import chapter_links
from boltside.pages.guide import PLACE
from boltside.pages.markup import Html, element, join, text
from boltside.pages.slots import Slots
from boltside.pages.technique_pages import before, in_step
from boltside.pages.unbroken import unbroken
from boltside.pages.words import condition_in_words

Sheet = Mapping[str, Any]

ALL_STEPS = "Show the steps of all options"
MACHINE = "At the machine: one step at a time, large"


def steps(sheet: Sheet, slots: Slots, base: str) -> Html:
    """The introduction and the steps in order; a step that only some choices have says which.

    Argument `base`: the way from the page to the site's root.
    """
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
        minutes = f"about {step['minutes']} min" if step.get("minutes") else ""
        body = element(
            "div",
            element("p", filled(text(f"Up: {up}"), slots) if up else "", " · " if up and minutes else "",
                    minutes.replace(" min", "\N{NO-BREAK SPACE}min"), class_="step__up") if up or minutes else "",
            picture(step["drawing"], step["title"], step.get("seen", "")) if step.get("drawing") else "",
            filled(step["html"], slots),
            in_step(sheet, step.get("techniques", ()), base),
            film_link(step["film"]) if step.get("film") else "",
            class_="step__text",
        )  # fmt: skip
        condition = json.dumps(step["when"], separators=(",", ":")) if step["when"] else None
        folded = element("details", summary, body, class_="step")
        entries.append(element("li", folded, id=step_id(step, taken), data_when=condition))
    introduction = filled(sheet["introduction_html"], slots)
    listed = element("ol", *entries, class_="steps bare")
    return join([introduction, before(sheet, base), all_steps(), at_the_machine(), listed, chapter_links(sheet),
                 machine_dialog()])


def picture(file: str, title: str, seen: str = "") -> Html:
    """A drawing or photograph of a step, fetched when it comes near. `seen`: what it says is seen on it, if it does.

    >>> str(picture("a.svg", "Sew {0} on", "A collar")).partition(" loading")[0]
    '<img src="a.svg" alt="Drawing: A collar"'
    >>> str(picture("a.jpg", "Hem the sleeves")).partition(" loading")[0]
    '<img src="a.jpg" alt="Drawing: Hem the sleeves"'
    """
    alt = f"Drawing: {seen or PLACE.sub('', title)}"
    return element("img", src=file, alt=alt, loading="lazy", decoding="async", class_="step__picture")


def film_link(film: Mapping[str, Any]) -> Html:
    """A link to the film of a step with its beginning and end; nothing of it is fetched before it is followed.

    >>> str(film_link({"file": None, "address": "https://a.example/f", "from_s": 95, "to_s": 140}))
    '<p class="step__film"><a href="https://a.example/f#t=95,140">Film of this step</a>, from 1:35 to 2:20</p>'
    """
    begin, end = film["from_s"], film["to_s"]
    # The part of a film that an address names. Source: W3C Media Fragments URI 1.0.
    part = f"#t={begin},{end}" if end else f"#t={begin}" if begin else ""
    said = f", from {clock(begin)}" if begin or end else ""
    link = element("a", "Film of this step", href=(film["file"] or film["address"]) + part)
    return element("p", link, said + (f" to {clock(end)}" if end else ""), class_="step__film")


def clock(seconds: int) -> str:
    """Minutes and seconds of a film.

    >>> clock(95), clock(3725)
    ('1:35', '1:02:05')
    """
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"


def at_the_machine() -> Html:
    """Buttons that a script brings to life: one step at a time in large type, and all ticks away."""
    return element(
        "p",
        element("button", MACHINE, type="button", class_="plain", data_machine=True),
        element("button", type="button", class_="plain", data_again=True, hidden=True),
        element("span", role="status", data_sewing_said=True),
        class_="sewing",
        data_sewing=True,
        hidden=True,
    )


def machine_dialog() -> Html:
    """One step filling the screen, to be read from the machine."""
    return element(
        "dialog",
        element("p", class_="machine__at", id="machine-at", data_machine_at=True),
        element("div", class_="machine__step", data_machine_step=True, tabindex="0"),
        element(
            "form",
            element("button", "Done, next", type="button", class_="plain machine__done", data_machine_done=True),
            element("button", "Back", type="button", class_="plain", data_machine_back=True),
            element("button", "Next", type="button", class_="plain", data_machine_next=True),
            element("button", "Close", class_="plain"),
            method="dialog",
            class_="machine__buttons",
        ),
        class_="machine",
        aria_labelledby="machine-at",
        data_machine_dialog=True,
    )


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
