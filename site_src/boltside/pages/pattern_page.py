"""How does a spec sheet become a pattern's page?

Returns HTML for the article only; whoever calls puts it into a document. The first screen of a phone holds name,
drawing, size and the answer; everything else is below.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from boltside.pages import panel, tables
from boltside.pages.cautions import cautions
from boltside.pages.markup import Html, element, join
from boltside.pages.slots import Slots
from boltside.pages.why import why
from boltside.pages.words import condition_in_words

Sheet = Mapping[str, Any]

PARTS = (
    ("size-chart", "Size chart"),
    ("cloth", "Cloth to buy"),
    ("cutting-list", "Cutting list"),
    ("steps", "Sewing steps"),
    ("cautions", "Cautions"),
    ("why", "Why these figures"),
)
"""The sections below the panel: id and heading."""

ALL_STEPS = "Show the steps of all options"


def pattern_page(
    sheet: Sheet,
    answer: Mapping[str, Any],
    request: Mapping[str, Any],
    files: Mapping[str, Any],
    *,
    script: str,
    base: str,
    heading_id: str = "pattern",
) -> Html:
    """A pattern's article.

    Arguments: the sheet; the panel's answer to `request`, which is the default; `files`, the list of what the
    page's worker may load; `script`, the address of the page's script, and `base`, that of the site's root, both
    as seen from the page; the id of the page's heading.
    """
    slots = Slots(answer)
    return join(
        [
            head(sheet, slots, heading_id),
            the_panel(sheet, slots, request),
            element("nav", *(element("a", title, href=f"#{name}") for name, title in PARTS),
                    class_="jump", aria_label="On this page"),
            section("size-chart", finished(sheet, slots, request["size"]), tables.size_chart(sheet)),
            section("cloth", tables.cloth_tables(sheet)),
            section("cutting-list", slots.one("cutting-list", class_="cutting"), tables.cutting_lists(sheet)),
            section("steps", steps(sheet)),
            section("cautions", cautions(sheet)),
            section("why", why(sheet)),
            counter_note(sheet),
            page_data(request, files, base),
            element("script", type="module", src=script),
        ],
        "\n",
    )  # fmt: skip


def head(sheet: Sheet, slots: Slots, heading_id: str) -> Html:
    """Name and the facts under it."""
    return element(
        "header",
        element("h1", sheet["name"], id=heading_id),
        element(
            "p",
            element("span", f"{sheet['garment'].capitalize()}. ", class_="facts__garment"),
            slots.one("difficulty", "span"),
            class_="facts",
        ),
        class_="head",
    )


def the_panel(sheet: Sheet, slots: Slots, request: Mapping[str, Any]) -> Html:
    """Drawing, size, note, and the questions."""
    return element(
        "form",
        slots.one("drawing", class_="drawing"),
        panel.sizes(sheet, request["size"]),
        panel.note(sheet, slots, request["size"]),
        element(
            "div",
            element("section", element("h2", "Options"), panel.options(sheet, slots), class_="ask"),
            element("section", element("h2", "Your cloth"), panel.cloths(sheet, slots), class_="ask"),
            element("section", element("h2", "Which size?"), panel.own_measurements(sheet), class_="ask", id="own"),
            class_="asks",
        ),
        panel.strip(sheet, slots),
        id=panel.FORM_ID,
        class_="panel",
        data_pattern=sheet["pattern"],
    )


def section(name: str, *content: object) -> Html:
    """One part below the panel."""
    return element("section", element("h2", dict(PARTS)[name]), *content, id=name, class_="part")


def finished(sheet: Sheet, slots: Slots, size: str) -> Html:
    """The finished measurements for the chosen size and options, one line each."""
    lines = [slots.one(f"finished.{measurement['name']}", "li") for measurement in sheet["finished"]]
    if not lines:
        return Html("")
    heading = element("h3", "Finished, size ", element("span", size, data_shown_size=True), ", with your options")
    return join([heading, element("ul", *lines, class_="finished bare")])


def steps(sheet: Sheet) -> Html:
    """The sewing steps in order; a step that only some choices have says which.

    Such a step carries its condition for the page's script, which hides the steps that the chosen options do not
    have; without a script all stand there. Their numbers are counted by the style sheet, so they are always in a row.
    """
    entries = []
    for step in sheet["steps"]:
        when = condition_in_words(sheet, step["when"])
        title = element("span", step["title"], class_="step__title")
        summary = element("summary", title, element("span", when, class_="step__when") if when else "")
        text = element("div", Html(step["html"]), class_="step__text")
        condition = json.dumps(step["when"], separators=(",", ":")) if step["when"] else None
        entries.append(element("li", element("details", summary, text, class_="step"), data_when=condition))
    return join([Html(sheet["introduction_html"]), all_steps(), element("ol", *entries, class_="steps bare")])


def all_steps() -> Html:
    """The box that brings back the steps which the chosen options do not have; shown once a script hides any."""
    box = element("input", type="checkbox", name="all-steps", autocomplete="off")
    return element("label", box, element("span", ALL_STEPS), class_="tick", data_all_steps=True, hidden=True)


def counter_note(sheet: Sheet) -> Html:
    """The answer filling the screen, to be read across a counter; the page's script puts the note into it."""
    return element(
        "dialog",
        element("h2", sheet["name"], id="counter-title"),
        element("div", data_counter_lines=True),
        element("form", element("button", "Close", class_="plain"), method="dialog"),
        class_="counter",
        aria_labelledby="counter-title",
    )


def page_data(request: Mapping[str, Any], files: Mapping[str, Any], base: str) -> Html:
    """What the page's script needs to know, as data in the page."""
    data = json.dumps({"base": base, "request": request, "files": files}, sort_keys=True, separators=(",", ":"))
    return element("script", Html(data.replace("<", "\\u003c")), type="application/json", id="panel-data")
