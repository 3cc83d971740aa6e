"""What is to be bought? The answer of a pattern's page, as one would hand it over a counter.

The build fills in the default answer; each figure has a *why?* beside it that opens to where it comes from.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boltside.calculators.stripes import may_be_striped
from boltside.pages.list_page import put_on_list
from boltside.pages.markup import Html, element
from boltside.pages.slots import Slots

Sheet = Mapping[str, Any]

NO_SCRIPT = (
    "This is the answer for the usual choices. Working out others needs JavaScript; "
    "the tables below hold every size and width."
)
DRAFT = "Draft: some amounts come from quick lays and will become a little smaller."


def note(sheet: Sheet, slots: Slots, size: str) -> Html:
    """The answer with its state, its problems and ways out of them."""
    return element(
        "section",
        element("p", "open a line: ", element("span", "why?"), class_="note__hint", aria_hidden="true"),
        element("h2", "To buy, ", element("span", f"size {size}", data_shown_size=True), id="note-title",
                data_counter=True),
        element(
            "div",
            slots.one("request", "p", class_="note__problem"),
            slots.one("choices", "p", class_="note__problem"),
            element("div", class_="note__changes", data_changes=True, hidden=True),
            element("ul", *lines(sheet, slots), class_="note__lines bare", data_counter=True),
            slots.one("chosen-size", "p", class_="note__size"),
            slots.group("choice.", "ul", "li", class_="note__choices bare", data_counter=True),
            slots.group("advice.", class_="note__advice"),
            data_calculator="panel",
        ),
        element("p", class_="unseen", role="status", data_told=True),
        element("p", DRAFT, class_="note__state") if sheet.get("draft_lays") else "",
        element("p", class_="note__state", role="status", data_state=True, hidden=True),
        element("p", element("progress", max="100", value="0", aria_hidden="true"), element("span"),
                class_="note__progress", data_progress=True, hidden=True),
        element("noscript", element("p", NO_SCRIPT, class_="note__state")),
        element("button", "Show it large, for the counter", type="button", class_="plain",
                data_counter_note=True, hidden=True),
        put_on_list(sheet),
        class_="note",
        aria_labelledby="note-title",
    )  # fmt: skip


def lines(sheet: Sheet, slots: Slots) -> list[Html]:
    """The lines of the answer: each cloth and under it what saves much and what was counted for stripes, each notion
    and how it is cut."""
    made = []
    for cloth in sheet["cloths"]:
        made.append(slots.figure(f"cloth.{cloth['name']}", about=cloth["title"]))
        if len(cloth["ways"]) > 1:
            made.append(slots.one(f"cloth.{cloth['name']}.less", "li", class_="sub at-the-counter"))
        if may_be_striped(cloth["kinds"]):
            made.append(slots.one(f"cloth.{cloth['name']}.repeat", "li", class_="sub at-the-counter"))
    for notion in sheet["notions"]:
        made.append(slots.figure(f"notion.{notion['name']}", about=notion["title"]))
        made.append(slots.one(f"notion.{notion['name']}.cut", "li", class_="sub"))
    return made


def strip(sheet: Sheet, slots: Slots) -> Html:
    """The first line of the answer at the foot of the screen, shown while the note itself is out of sight."""
    first = sheet["cloths"][0]["name"]
    return element(
        "a",
        slots.one(f"cloth.{first}", "span"),
        element("span", "Note", class_="strip__go"),
        href="#note-title",
        class_="strip",
        data_strip=True,
        hidden=True,
        aria_hidden="true",
        tabindex="-1",
    )
