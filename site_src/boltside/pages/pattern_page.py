"""How does a spec sheet become a pattern's page?

Returns HTML for the article only; whoever calls puts it into a document. The first screen of a phone holds name,
drawing, size and the answer; everything else is below.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from boltside.calculators.choices import HARD
from boltside.pages import panel, table_sections
from boltside.pages.cautions import cautions
from boltside.pages.downloads import downloads_part
from boltside.pages.gallery import GALLERY_ID, GALLERY_TITLE, gallery_part
from boltside.pages.interfacing_plan import interfacing_plan
from boltside.pages.lay_section import lay_part
from boltside.pages.made_with import MADE_WITH_TITLE, made_with_names
from boltside.pages.markup import Html, element, join
from boltside.pages.note import note, strip
from boltside.pages.options_page import option_links
from boltside.pages.paper_links import paper_links
from boltside.pages.plan_switch import plan_switch
from boltside.pages.sale import SALE_ID, SALE_TITLE, price_words, sale_part
from boltside.pages.scale_line import scale_line
from boltside.pages.slots import Slots
from boltside.pages.step_list import steps
from boltside.pages.why import why

Sheet = Mapping[str, Any]

PARTS = (
    ("size-chart", "Size chart"),
    ("cloth", "Cloth to buy"),
    ("lay", "How the pieces lie"),
    ("cutting-list", "Cutting list"),
    ("closures", "Closures"),
    ("made-with", MADE_WITH_TITLE),
    ("steps", "Sewing steps"),
    ("cautions", "Cautions"),
    ("why", "Why these figures"),
)
"""The sections below the panel: id and heading."""
GALLERY, SALE = (GALLERY_ID, GALLERY_TITLE), (SALE_ID, SALE_TITLE)
"""Those before and after them, of patterns that have photographs or are sold."""

CLOSURES = ("button", "snap")
"""Kinds of notion that the calculators say more about: how many, how large, which buttonhole."""
NO_CLOSURES = "With these options there are no buttons and no snaps."
PRECEDENCE = (
    "Where wishes collide: that no hole lies on a seam counts first, then the distances from the ends, then equal "
    "spaces, then the number or space that was wished for."
)


def pattern_page(
    sheet: Sheet,
    answer: Mapping[str, Any],
    request: Mapping[str, Any],
    files: Mapping[str, Any],
    *,
    script: str,
    base: str,
    heading_id: str = "pattern",
    guides: Sequence[tuple[str, str, int]] = (),
) -> Html:
    """A pattern's article.

    Arguments: the sheet; the panel's answer to `request`, which is the default; `files`, the list of what the
    page's worker may load; `script`, the address of the page's script, and `base`, that of the site's root, both
    as seen from the page; the id of the page's heading; the paper guides, each by size, address and bytes.
    """
    slots = Slots(answer)
    sections = {
        "size-chart": [finished(sheet, slots, request["size"]), table_sections.size_chart(sheet, slots)],
        "cloth": [table_sections.cloth_tables(sheet, slots), table_sections.notions_table(sheet, slots),
                  downloads_part(sheet)],
        "lay": [lay_part(sheet, slots, request)],
        "cutting-list": [slots.one("cutting-list", class_="cutting"), interfacing_plan(sheet),
                         table_sections.cutting_lists(sheet)],
        "closures": [closures(sheet, slots)],
        "made-with": [made_with(sheet, slots)],
        "steps": [paper_links(sheet, guides), steps(sheet, slots, base)],
        "cautions": [cautions(sheet)],
        "why": [why(sheet)],
    }  # fmt: skip
    parts = [(name, title) for name, title in PARTS if any(sections[name])]
    gallery, sale = gallery_part(sheet), sale_part(sheet)
    linked = [*([GALLERY] if gallery else []), *parts, *([SALE] if sale else [])]
    return join(
        [
            head(sheet, slots, heading_id),
            the_panel(sheet, slots, request),
            element("a", "Keep this shop on my phone", href="#keep", class_="keep-line keep-line--waiting",
                    data_keep_line=True),
            element("nav", *(element("a", title, href=f"#{name}") for name, title in linked),
                    class_="jump", aria_label="On this page"),
            gallery,
            *(section(name, title, *sections[name]) for name, title in parts),
            sale,
            counter_note(sheet),
            page_data(sheet, request, files, base),
            element("script", type="module", src=script),
        ],
        "\n",
    )  # fmt: skip


def head(sheet: Sheet, slots: Slots, heading_id: str) -> Html:
    """Name and the facts under it; a pattern that is sold says for how much, and leads to where."""
    price = price_words(sheet)
    return element(
        "header",
        element("h1", sheet["name"], id=heading_id),
        element(
            "div",
            element("span", f"{sheet['garment'].capitalize()}. ", class_="facts__garment"),
            slots.figure("difficulty", "span", about="Difficulty and time", class_="figure-line facts__difficulty"),
            class_="facts",
        ),
        element("a", price, href=f"#{SALE_ID}", class_="head__price") if price else "",
        on_paper(sheet),
        class_="head",
    )


def on_paper(sheet: Sheet) -> Html:
    """What only a printed page has: of which edition it is, and whether it came out true to scale."""
    edition = f"Edition {sheet['edition']}" + (f" · {sheet['label']}" if sheet["label"] else "")
    return element("div", element("p", edition), scale_line(), class_="on-paper")


def the_panel(sheet: Sheet, slots: Slots, request: Mapping[str, Any]) -> Html:
    """Drawing, size, note, and the questions."""
    return element(
        "form",
        slots.one("drawing", class_="drawing"),
        panel.sizes(sheet, request["size"]),
        note(sheet, slots, request["size"]),
        element(
            "div",
            element(
                "section", element("h2", "Options"), panel.options(sheet, slots), option_links(sheet), class_="ask"
            ),
            element(
                "section",
                element("h2", "Your cloth"),
                plan_switch(sheet, slots),
                panel.cloths(sheet, slots),
                class_="ask",
            ),
            element("section", element("h2", "Which size?"), panel.own_measurements(sheet), class_="ask", id="own"),
            class_="asks",
        ),
        strip(sheet, slots),
        id=panel.FORM_ID,
        class_="panel",
        data_pattern=sheet["pattern"],
    )


def section(name: str, title: str, *content: object) -> Html:
    """One part below the panel."""
    return element("section", element("h2", title), *content, id=name, class_="part")


def finished(sheet: Sheet, slots: Slots, size: str) -> Html:
    """The finished measurements for the chosen size and options, one line each."""
    lines = [slots.figure(f"finished.{one['name']}", about=one["title"]) for one in sheet["finished"]]
    if not lines:
        return Html("")
    heading = element("h3", "Finished, ", element("span", f"size {size}", data_shown_size=True), ", with your options")
    return join([heading, element("ul", *lines, class_="finished bare")])


def closures(sheet: Sheet, slots: Slots) -> Html:
    """Buttons and snaps: how many, how large, which buttonhole, what else they need; nothing without any."""
    parts = []
    for notion in sheet["notions"]:
        if not set(notion["kinds"]) & set(CLOSURES):
            continue
        name = f"closure.{notion['name']}"
        parts += [
            slots.figure(name, "div", about=notion["title"], class_="figure-line closure"),
            slots.one(f"{name}.places") if notion.get("placed") else "",
            slots.one(f"{name}.how"),
        ]
    placed = any(notion.get("placed") for notion in sheet["notions"])
    first = element("p", PRECEDENCE, class_="aside precedence") if placed else ""
    return join([element("p", NO_CLOSURES, class_="aside no-closures"), *parts, first]) if parts else Html("")


def made_with(sheet: Sheet, slots: Slots) -> Html:
    """Whether it goes on and holds, how much is gathered and where it is marked, about how much thread."""
    lines = [slots.one(name, "li") for name in made_with_names(sheet)]
    return element("ul", *lines, class_="made-with") if lines else Html("")


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


def page_data(sheet: Sheet, request: Mapping[str, Any], files: Mapping[str, Any], base: str) -> Html:
    """What the page's script needs to know, as data in the page."""
    known = {"base": base, "request": request, "files": files, "offer": offer(sheet)}
    data = json.dumps(known, sort_keys=True, separators=(",", ":"))
    return element("script", Html(data.replace("<", "\\u003c")), type="application/json", id="panel-data")


def offer(sheet: Sheet) -> dict[str, Any]:
    """Which options there are and what forbids them, as the sheet has it: with this the page's script strikes out
    what does not go together at once, also while the calculators are still being fetched."""
    hard = [rule for rule in sheet["rules"] if any(rule.get(kind) is not None for kind in HARD)]
    return {
        "sizes": sheet["sizes"],
        "choices": [
            {
                "name": choice["name"],
                "default": choice["default"],
                "asked_when": choice["asked_when"],
                "alternatives": [{"name": one["name"], "minutes": one["minutes"]} for one in choice["alternatives"]],
            }
            for choice in sheet["choices"]
        ],
        "rules": [{kind: rule.get(kind) for kind in ("when", *HARD, "because")} for rule in hard],
    }
