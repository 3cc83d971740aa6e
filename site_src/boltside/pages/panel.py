"""How does a buyer ask? The questions of a pattern's page; the answer is `note`.

Plain HTML that stands on its own: every control has a label. The names of the controls are what the page's script
reads: `size`, `second`, `choice.<name>`, `width.<cloth>`, `way.<cloth>`, `nap.<cloth>`, `wash.<cloth>`,
`along.<cloth>`, `across.<cloth>`, `price.<cloth>`, `cut`, `own.<measurement>`, `unit`, and those of `stripes`.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boltside.calculators.child import AGE, TRUNK
from boltside.calculators.choices import HARD
from boltside.calculators.fragments import say
from boltside.calculators.nap import ASK, WITH, WITHOUT
from boltside.calculators.request import SECOND
from boltside.calculators.shop_cuts import CUT, CUTS, FINER, step_words
from boltside.calculators.typed import LONGEST_TEXT
from boltside.calculators.units import Shown, width
from boltside.calculators.wash import NOT_COUNTED_YET, OWN, USUAL, WASHED
from boltside.pages.controls import radio, typed
from boltside.pages.markup import Html, element, join
from boltside.pages.measuring import where_to_measure
from boltside.pages.nap_kinds import nap_picks
from boltside.pages.slots import Slots
from boltside.pages.stripes import stripes_question
from boltside.pages.words import rule_in_words, upper_first

Sheet = Mapping[str, Any]

FORM_ID = "panel"
MOST_IN_A_ROW = 6
"""Sizes beyond this many stand in two rows on a phone, so that each mark is at least 44 px wide."""
MOST_AS_CHIPS = 4
"""A choice of more alternatives stands as a list, one under the other. Our choice."""
WAY_TITLES = {
    "folded": "Folded once",
    "flat": "Flat, one layer",
    "middle": "Selvedges to the middle",
    "part-folded": "Folded over in part",
}
TWO_AT_ONCE = "Two at once?"
SECOND_LABEL = "Two at once? Size of the second one"
"""What the list shows before anything is picked from it, and what screen readers call it."""
NAP_QUESTION = "Nap, or a print that points one way?"
NAP_TITLES = {WITHOUT: "No", WITH: "Yes"}
NAP_ALWAYS = "Always laid with nap: no piece is turned head to foot."
STRUCK = "What is struck out does not go with your other options. Tap it to read why, and what to change."
TOGETHER = "What does not go together"
BEFORE_YOU_BUY = "Before you buy: washing, price, how the shop cuts"
WASH_TITLES = {
    NOT_COUNTED_YET: "Not counted", WASHED: "Washed already", USUAL: "As is usual", OWN: "My own test",
}  # fmt: skip
"""How a cloth shrinks in the first wash, as the answers of one question."""
LOSSES = {"along": "Shorter by", "across": "Narrower by"}
OWN_TEST = (
    "Mark a square of ", Shown("20 cm", "12 1/2 in"), " on a piece of it, wash and press it, and measure again: each ",
    Shown("2 mm", "1/8 in"), " less is 1 %. A single figure counts for both.",
)  # fmt: skip
"""How to find the figures: 2 mm are a hundredth of 20 cm, 1/8 in is one of 12 1/2 in."""
OWN_MEASUREMENTS = {
    "height": ("Height", "from the top of the head to the floor, without shoes"),
    "chest": ("Chest", "round the fullest part, under the arms"),
    "waist": ("Waist", "round the natural waist, the tape lying loosely"),
    "hip": ("Hip", "round the fullest part of the seat"),
    "trunk": ("Trunk", "from the shoulder down the front, through the legs and up the back to the same shoulder"),
}
"""What the size calculator asks for: title and how to measure it (trade's own words, common practice)."""


def sizes(sheet: Sheet, size: str) -> Html:
    """The sizes as marks of a tape."""
    marks = join(radio("size", each, each, checked=each == size) for each in sheet["sizes"])
    count = len(sheet["sizes"])
    return element(
        "div",
        element("span", "Size", id="size-title", class_="legend"),
        second_size(sheet),
        element("a", "Which size?", href="#own"),
        element("div", marks, class_="tape", data_columns=-(-count // 2) if count > MOST_IN_A_ROW else count),
        element("div", class_="why-nots", data_why_nots=True, aria_live="polite"),
        class_="sizes",
        role="radiogroup",
        aria_labelledby="size-title",
    )


def second_size(sheet: Sheet) -> Html:
    """Whether a second garment is cut at once, and in which size: a quiet question, for few ask it."""
    sizes_to_add = (element("option", f"and {each}", value=each) for each in sheet["sizes"])
    return element("select", element("option", TWO_AT_ONCE, value=""), *sizes_to_add, name=SECOND, autocomplete="off",
                   aria_label=SECOND_LABEL, class_="second")  # fmt: skip


def options(sheet: Sheet, slots: Slots) -> Html:
    """The pattern's choices, each a row of chips, or a list where there are many.

    The page's script strikes out what is forbidden and says why under it; the reasons stand here too, for whoever
    reads without a script.
    """
    rows = [choice_row(choice, slots) for choice in sheet["choices"]]
    hint = element("p", STRUCK, class_="aside", data_struck_hint=True, hidden=True)
    return join([hint, element("div", *rows, class_="rows"), reasons(sheet)])


def choice_row(choice: Mapping[str, Any], slots: Slots) -> Html:
    """One choice: its title, its alternatives, and the place for why some are struck out."""
    name = f"choice.{choice['name']}"
    picks = join(
        radio(name, alternative["name"], alternative["title"], checked=alternative["name"] == choice["default"])
        for alternative in choice["alternatives"]
    )
    said = slots.fragment(name)
    return element(
        "fieldset",
        element("legend", choice["title"]),
        element("p", choice["about"], class_="aside") if choice["about"] else "",
        element("div", picks, class_="chips" if len(choice["alternatives"]) <= MOST_AS_CHIPS else "list"),
        element("div", class_="why-nots", data_why_nots=True, aria_live="polite"),
        data_choice=choice["name"],
        hidden=said is not None and said["data"].get("asked") is False,
    )


def reasons(sheet: Sheet) -> Html:
    """Every reason why options do not go together, in the designer's words."""
    said = [
        element("li", element("b", upper_first(f"{rule_in_words(sheet, rule)}.")), f" {rule['because'] or ''}")
        for rule in sheet["rules"]
        if any(rule.get(kind) is not None for kind in HARD)
    ]
    if not said:
        return Html("")
    return element("details", element("summary", TOGETHER), element("ul", *said), class_="folded small")


def cloths(sheet: Sheet, slots: Slots) -> Html:
    """For each cloth: the width on the bolt as the buyer reads it there, the way of laying, nap where asked."""
    return join(
        [
            *(bolt(cloth, slots) for cloth in sheet["cloths"]),
            slots.one("cloth.not-counted", "p", class_="aside"),
            before_buying(sheet, slots),
        ]
    )


def bolt(cloth: Mapping[str, Any], slots: Slots) -> Html:
    """The questions about one cloth; hidden while the chosen options take none of it."""
    name, width_id = cloth["name"], f"width-{cloth['name']}"
    usual = width(cloth["usual_width_mm"])
    usual = Shown(usual.cm.removesuffix(" cm"), usual.inch.removesuffix(" in"))
    field = element(
        "div",
        element("label", "Width on the bolt", for_=width_id),
        element(
            "span",
            element("input", id=width_id, name=f"width.{name}", type="text", inputmode="decimal",
                    autocomplete="off", placeholder=usual.cm, data_usual_cm=usual.cm, data_usual_inch=usual.inch,
                    size=6, maxlength=LONGEST_TEXT),
            element("span", "cm", class_="in-cm"),
            element("span", "inch", class_="in-inch"),
            class_="measure",
        ),
        class_="field",
    )  # fmt: skip
    ways = join(
        radio(f"way.{name}", way, WAY_TITLES[way], checked=number == 0) for number, way in enumerate(cloth["ways"])
    )
    said = slots.fragment(f"cloth.{name}")
    return element(
        "fieldset",
        element("legend", cloth["title"]),
        field,
        element("div", ways, class_="chips", role="group", aria_label=f"{cloth['title']}: how it is laid"),
        nap_question(cloth, said["data"].get("nap") if said else None),
        stripes_question(cloth, slots),
        slots.one(f"cloth.{name}.how", "p", class_="aside"),
        slots.one(f"cloth.{name}.wash", "p", class_="aside"),
        slots.figure(f"cloth.{name}.wider", "div", about=f"{cloth['title']}: wider", class_="figure-line aside"),
        class_="bolt",
        data_bolt=name,
        hidden=not (said and said["html"]),
    )


def nap_question(cloth: Mapping[str, Any], nap: str | None) -> Html:
    """Whether this bolt has a nap: asked, or said where the designer says it; both hidden where it can't matter.

    Arguments: the cloth; what its answer says of the nap for the chosen options: `ask`, `always` or `never`.
    """
    name = cloth["name"]
    known = {case["nap"] for case in cloth["nap"]}
    picks = join(radio(f"nap.{name}", value, NAP_TITLES[value], checked=value == WITHOUT) for value in NAP_TITLES)
    question = element(
        "div",
        element("span", NAP_QUESTION, class_="legend", id=f"nap-{name}"),
        element("div", picks, class_="chips"),
        nap_picks(f"nap.{name}"),
        role="radiogroup",
        aria_labelledby=f"nap-{name}",
        class_="nap",
        data_nap=ASK,
        hidden=nap != ASK,
    )
    always = element("p", NAP_ALWAYS, class_="aside", data_nap="always", hidden=nap != "always")
    return join([question if ASK in known else "", always if "always" in known else ""])


def before_buying(sheet: Sheet, slots: Slots) -> Html:
    """What is asked only of who wants to know: the first wash and the price of each cloth, and how the shop cuts."""
    # Both systems in one label: shops that sell by the metre and by the yard are told apart by what they cut to.
    words = {name: f"{step_words(steps).cm} or {step_words(steps).inch}" for name, steps in CUTS.items()}
    cuts = join(radio(CUT, name, words[name], checked=name == FINER) for name in CUTS)
    return element(
        "details",
        element("summary", BEFORE_YOU_BUY),
        element(
            "div",
            *(wash_and_price(sheet, cloth, slots) for cloth in sheet["cloths"]),
            element("div", element("span", "The shop cuts to full", class_="legend", id="cut-title"),
                    element("div", cuts, class_="chips"), role="radiogroup", aria_labelledby="cut-title",
                    class_="buying__part"),
            slots.figure("cost-total", "div", about="Cloth together", class_="figure-line buying__sum"),
            class_="buying",
        ),
        class_="folded",
    )  # fmt: skip


def wash_and_price(sheet: Sheet, cloth: Mapping[str, Any], slots: Slots) -> Html:
    """Of one cloth how it shrinks and what it costs; hidden while the chosen options take none of it."""
    name, title = cloth["name"], cloth["title"]
    picks = join(
        radio(f"wash.{name}", value, WASH_TITLES[value], checked=value == NOT_COUNTED_YET) for value in WASH_TITLES
    )
    fields = [
        typed(f"{part}.{name}", words, "%", label_more=title, data_behind_cm="%", data_behind_inch="%")
        for part, words in LOSSES.items()
    ]
    a_metre = Html(say("Price of a ", Shown("metre", "yard")).html)
    price = typed(f"price.{name}", a_metre, sheet["currency"], label_more=title, data_behind_cm="per m",
                  data_behind_inch="per yd")  # fmt: skip
    said = slots.fragment(f"cloth.{name}")
    return element(
        "div",
        element("h3", title),
        element("span", "Shrinks in the first wash", class_="legend", id=f"wash-{name}"),
        element("div", picks, class_="chips", role="radiogroup", aria_labelledby=f"wash-{name}"),
        element("div", *fields, element("p", Html(say(*OWN_TEST).html), class_="aside"), class_="fields buying__own"),
        price,
        slots.figure(f"cost.{name}", "div", about=f"{title}: cost", class_="figure-line buying__sum"),
        class_="buying__part",
        data_bolt=name,
        hidden=not (said and said["html"]),
    )


def own_measurements(sheet: Sheet) -> Html:
    """The child's measurements, and the size that follows from them."""
    wanted = [name for name in sheet["size_by"] if name in OWN_MEASUREMENTS]
    wanted += [
        name
        for name in OWN_MEASUREMENTS
        if name not in (*wanted, TRUNK) and name in sheet["body"]["columns"]
    ]
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
    fields.append(
        element(
            "div",
            element("label", "Age", element("small", "years, or 18 months: the weakest guide"),
                    for_="own-age"),
            element("span",
                    element("input", id="own-age", name=f"own.{AGE}", type="text", autocomplete="off", size=9,
                            maxlength=LONGEST_TEXT),
                    element("span"),  # as wide as a unit
                    class_="measure"),
            class_="field",
        )
    )  # fmt: skip
    return join([where_to_measure(wanted), element("div", *fields, class_="fields"), size_answer()])


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
