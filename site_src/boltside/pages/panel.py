"""How does a buyer ask? The form of a pattern's page and the note with the answer.

Plain HTML that stands on its own: every control has a label, and the default answer is filled in by the build.
The names of the controls are what the page's script reads: `size`, `choice.<name>`, `width.<cloth>`, `way.<cloth>`,
`own.<measurement>`, `unit`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from boltside.calculators.typed import LONGEST_TEXT
from boltside.calculators.units import Shown, width
from boltside.pages.markup import Html, element, join
from boltside.pages.slots import Slots

Sheet = Mapping[str, Any]

FORM_ID = "panel"
NO_SCRIPT = (
    "This is the answer for the usual choices. Working out others needs JavaScript; "
    "the tables below hold every size and width."
)
MOST_IN_A_ROW = 6
"""Sizes beyond this many stand in two rows on a phone, so that each mark is at least 44 px wide."""
DRAFT = "Draft: some amounts come from quick lays and will become a little smaller."
WAY_TITLES = {"folded": "Folded once", "flat": "Flat, one layer"}
OWN_MEASUREMENTS = {
    "height": ("Height", "from the top of the head to the floor, without shoes"),
    "chest": ("Chest", "round the fullest part, under the arms"),
    "waist": ("Waist", "round the natural waist, the tape lying loosely"),
    "hip": ("Hip", "round the fullest part of the seat"),
}
"""What the size calculator asks for: title and how to measure it (trade's own words, common practice)."""


def radio(name: str, value: str, label: object, *, checked: bool, described_by: str | None = None) -> Html:
    """One radio button with its label around it."""
    return element(
        "label",
        element("input", type="radio", name=name, value=value, checked=checked, autocomplete="off",
                aria_describedby=described_by),
        element("span", label),
        class_="pick",
    )  # fmt: skip


def sizes(sheet: Sheet, size: str) -> Html:
    """The sizes as marks of a tape."""
    marks = join(radio("size", each, each, checked=each == size) for each in sheet["sizes"])
    count = len(sheet["sizes"])
    return element(
        "div",
        element("span", "Size", id="size-title", class_="legend"),
        element("a", "Which one? Measure", href="#own"),
        element("div", marks, class_="tape", data_columns=-(-count // 2) if count > MOST_IN_A_ROW else count),
        class_="sizes",
        role="radiogroup",
        aria_labelledby="size-title",
    )


def options(sheet: Sheet, slots: Slots) -> Html:
    """The pattern's choices, each a row of chips; what does not go together is said under them, with ways out."""
    rows = []
    for choice in sheet["choices"]:
        name = f"choice.{choice['name']}"
        chips = join(
            radio(name, alternative["name"], alternative["title"], checked=alternative["name"] == choice["default"])
            for alternative in choice["alternatives"]
        )
        said = slots.fragment(name)
        rows.append(
            element(
                "fieldset",
                element("legend", choice["title"]),
                element("div", chips, class_="chips"),
                data_choice=choice["name"],
                hidden=said is not None and said["data"].get("asked") is False,
            )
        )
    return join(rows)


def cloths(sheet: Sheet, slots: Slots) -> Html:
    """For each cloth: the width on the bolt as the buyer reads it there, and the way of laying."""
    rows = []
    for cloth in sheet["cloths"]:
        width_id = f"width-{cloth['name']}"
        usual = width(cloth["usual_width_mm"])
        usual = Shown(usual.cm.removesuffix(" cm"), usual.inch.removesuffix(" in"))
        field = element(
            "div",
            element("label", "Width on the bolt", for_=width_id),
            element(
                "span",
                element("input", id=width_id, name=f"width.{cloth['name']}", type="text", inputmode="decimal",
                        autocomplete="off", placeholder=usual.cm, data_usual_cm=usual.cm, data_usual_inch=usual.inch,
                        size=6, maxlength=LONGEST_TEXT),
                element("span", "cm", class_="in-cm"),
                element("span", "inch", class_="in-inch"),
                class_="measure",
            ),
            class_="field",
        )  # fmt: skip
        ways = join(
            radio(f"way.{cloth['name']}", way, WAY_TITLES[way], checked=number == 0)
            for number, way in enumerate(cloth["ways"])
        )
        rows.append(
            element(
                "fieldset",
                element("legend", cloth["title"]),
                field,
                element("div", ways, class_="chips", role="group", aria_label=f"{cloth['title']}: how it is laid"),
                slots.one(f"cloth.{cloth['name']}.how", "p", class_="aside"),
                class_="bolt",
            )
        )
    return join([*rows, slots.one("cloth.not-counted", "p", class_="aside")])


def own_measurements(sheet: Sheet) -> Html:
    """The child's measurements, and the size that follows from them."""
    wanted = [name for name in sheet["size_by"] if name in OWN_MEASUREMENTS]
    wanted += [name for name in OWN_MEASUREMENTS if name not in wanted and name in sheet["body"]["columns"]]
    fields = []
    for name in wanted:
        title, how = OWN_MEASUREMENTS[name]
        fields.append(
            element(
                "div",
                element("label", title, element("small", how), for_=f"own-{name}"),
                element(
                    "span",
                    element("input", id=f"own-{name}", name=f"own.{name}", type="text", inputmode="decimal",
                            autocomplete="off", size=6, maxlength=LONGEST_TEXT),
                    element("span", "cm", class_="in-cm"),
                    element("span", "inch", class_="in-inch"),
                    class_="measure",
                ),
                class_="field",
            )
        )  # fmt: skip
    return join([element("div", *fields, class_="fields"), size_answer()])


def size_answer() -> Html:
    """The place for what the size calculator says."""
    return element(
        "div",
        element("div", data_size_said=True, data_each="p", hidden=True),
        element("button", "Take this size", type="button", class_="plain", data_take_size=True, hidden=True),
        class_="own-answer",
        aria_live="polite",
        data_calculator="size",
    )


def note(sheet: Sheet, slots: Slots, size: str) -> Html:
    """The answer, as one would hand it over a counter."""
    lines: Sequence[Html] = [
        *(slots.one(f"cloth.{cloth['name']}", "li") for cloth in sheet["cloths"]),
        *(
            slots.one(f"notion.{notion['name']}{part}", "li", class_=class_)
            for notion in sheet["notions"]
            for part, class_ in (("", None), (".cut", "sub"))
        ),
    ]
    return element(
        "section",
        element("h2", "To buy, size ", element("span", size, data_shown_size=True), id="note-title",
                data_counter=True),
        element(
            "div",
            slots.one("request", "p", class_="note__problem"),
            slots.one("choices", "p", class_="note__problem"),
            element("div", class_="note__changes", data_changes=True, hidden=True),
            element("ul", *lines, class_="note__lines bare", data_counter=True),
            slots.one("chosen-size", "p", class_="note__size"),
            slots.group("choice.", "ul", "li", class_="note__choices bare", data_counter=True),
            slots.group("advice.", class_="note__advice"),
            data_calculator="panel",
            aria_live="polite",
        ),
        element("p", DRAFT, class_="note__state") if sheet.get("draft_lays") else "",
        element("p", class_="note__state", role="status", data_state=True, hidden=True),
        element("p", element("progress", max="100", value="0", aria_hidden="true"), element("span"),
                class_="note__progress", data_progress=True, hidden=True),
        element("noscript", element("p", NO_SCRIPT, class_="note__state")),
        element("button", "Show it large, for the counter", type="button", class_="plain",
                data_counter_note=True, hidden=True),
        class_="note",
        aria_labelledby="note-title",
    )  # fmt: skip


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
