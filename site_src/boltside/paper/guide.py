"""What stands on the paper guide of one size and set of choices, in what order?

A whole HTML document whose only address is that of its faces; `print_pdf` makes pages of it. Whatever is said is the
calculators' answer to the same question on the pattern's page.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from html import unescape
from typing import Any

from boltside.calculators.closures import closures
from boltside.calculators.conditions import holds
from boltside.calculators.fragments import Fragment, say
from boltside.calculators.panel import panel_fragments
from boltside.calculators.request import Request, read_request
from boltside.calculators.spread import spread_out
from boltside.calculators.stretch import CLOTH_STRETCH, is_knit
from boltside.calculators.units import measured, metres, width
from boltside.pages.cautions import cautions
from boltside.pages.cloth_amounts import usual_widths
from boltside.pages.guide import Guide, guide_of
from boltside.pages.interfacing_plan import ABOUT as INTERFACING_ABOUT
from boltside.pages.interfacing_plan import TITLE as INTERFACING_TITLE
from boltside.pages.interfacing_plan import drawing, words
from boltside.pages.made_with import MADE_WITH_TITLE, made_with_names
from boltside.pages.markup import Html, element, join
from boltside.pages.panel import OWN_MEASUREMENTS
from boltside.pages.scale_line import scale_line
from boltside.pages.step_list import picture
from boltside.pages.technique_pages import short_html
from boltside.paper.strips import strips

Sheet = Mapping[str, Any]
Said = Mapping[str, Fragment]

PICTURE = re.compile("<img [^>]*>")
RELATIVE_LINK = re.compile(r'<a href="(?!https?:|mailto:)[^"]*"[^>]*>')
IMAGE = re.compile(r'<img [^>]*?src="([^"]*)"')
TICK = "Tick what is done: that is what the small boxes are for."
INK = "#211d1a"
TECHNIQUE_PICTURES = "~techniques/"
"""Below which the drawings of techniques seem to lie: no file of a pattern's folder can be called so."""
DRAWING_STYLE = f"path{{fill:#fff;stroke:{INK};stroke-width:3.2}}"
"""How the garment is drawn."""


def paper_guide(sheet: Sheet, size: str, choices: Mapping[str, str], *, unit: str = "cm", styles: str = "") -> str:
    """The guide as an HTML document.

    Arguments: the sheet; one of its sizes; what was chosen (an allowed set; what is not named takes its default);
    `cm` or `in`; the style sheet. The same arguments give the same text.
    """
    request = read_request(sheet, {"size": size, "choices": dict(choices), "unit": unit})
    said = {fragment.name: fragment for fragment in panel_fragments(request)}
    guide = guide_of(sheet, size, choices, units="both")
    parts = [
        _head(sheet, said, size),
        _part("Your options", _options(sheet, request, said)),
        _part("Whom it fits", _sizes(sheet, request, said)),
        _part("To buy", _to_buy(sheet, request, said)),
        _part("To cut", _cutting_list(sheet, request, said), _interfacing(sheet, request)),
        _part("Closures", _closures(sheet, said)),
        _part(MADE_WITH_TITLE, _made_with(sheet, said), id_="made-with"),  # warnings lead there
        _part("Take care", element("div", cautions(sheet, [request.chosen]), class_="care")),
        _part("Before you start", Html(guide.introduction_html), _before(sheet, request)),
        _part("Sewing", element("p", TICK, class_="aside"), _steps(sheet, guide), class_="sewing"),
        strips(sheet, request),
    ]
    title = f"{sheet['name']}, size {size}"
    head = [element("meta", charset="utf-8"), element("title", title), element("style", Html(styles))]
    head += [element("meta", name="author", content=sheet["label"])] if sheet["label"] else []
    running = element("p", f"{sheet['name']} · size {size} · edition {sheet['edition']}", class_="running")
    body = element("body", running, *parts, class_=f"units-{unit}")
    # Places of this shop are nowhere on paper.
    body = Html(RELATIVE_LINK.sub("<a>", body))
    return f'<!doctype html>\n<html lang="en"><head>{join(head)}</head>{body}</html>\n'


def pictures_in(document: str) -> list[str]:
    """The addresses of the pictures that a guide shows, each once."""
    return list(dict.fromkeys(unescape(address) for address in IMAGE.findall(document)))


def _part(title: str, *content: object, class_: str | None = None, id_: str | None = None) -> Html:
    """A part with its heading, to which `id_` leads; nothing where it has no content."""
    if not any(content):
        return Html("")
    return element("section", element("h2", title), *content, class_=class_, id=id_)


def _html(said: Said, name: str) -> Html:
    found = said.get(name)
    return Html(found.said.html) if found else Html("")


def _head(sheet: Sheet, said: Said, size: str) -> Html:
    """Name, what it is, size, difficulty, the drawing, and the line that shows whether the paper is true to scale."""
    edition = f"Edition {sheet['edition']}" + (f" · {sheet['label']}" if sheet["label"] else "")
    about = element(
        "div",
        element("h1", sheet["name"]),
        element("p", sheet["summary"], class_="lead"),
        element("p", _html(said, "chosen-size"), class_="size"),
        element("p", _html(said, "difficulty")),
        element("p", edition, class_="aside"),
    )
    drawn = _styled(said["drawing"].said.html, DRAWING_STYLE)
    return join([element("header", about, element("div", drawn, class_="drawing")), scale_line()])


def _options(sheet: Sheet, request: Request, said: Said) -> Html:
    """What was chosen, in words; and what the designer says about it."""
    rows = []
    for choice in sheet["choices"]:
        one = next((one for one in choice["alternatives"] if one["name"] == request.chosen.get(choice["name"])), None)
        if one is not None:
            rows.append(element("li", f"{choice['title']}: ", element("b", one["title"])))
    advice = [fragment for name, fragment in said.items() if name.startswith("advice.") and fragment.said.html]
    notes = (element("p", Html(one.said.html), class_="advice") for one in advice)
    return join([element("ul", *rows, class_="plain two"), *notes]) if rows or advice else Html("")


def _sizes(sheet: Sheet, request: Request, said: Said) -> Html:
    """The body that the size is cut for, and the finished garment."""
    body = sheet["body"]["rows"][request.size]
    rows = [
        element("li", f"{title}: ", element("b", Html(say(measured(body[name])).html)))
        for name, (title, _) in OWN_MEASUREMENTS.items()
        if name in body and (name != "trunk" or "trunk" in sheet["size_by"])
    ]
    finished = [_html(said, f"finished.{one['name']}") for one in sheet["finished"]]
    lines = [element("li", one) for one in finished if one]
    return join(
        [
            element("h3", "The child"),
            element("ul", *rows, class_="plain row"),
            element("h3", "The finished garment") if lines else "",
            element("ul", *lines, class_="plain two") if lines else "",
        ]
    )


def _to_buy(sheet: Sheet, request: Request, said: Said) -> Html:
    """A line to tick for each cloth and notion, and how much of each cloth at other widths."""
    lines, tables = [], []
    for cloth in sheet["cloths"]:
        amount = said[f"cloth.{cloth['name']}"]
        if amount.said.html:  # an amount, or why there is none at the usual width
            how = [_html(said, f"cloth.{cloth['name']}.{part}") for part in ("how", "wider")]
            lines.append(_tick(element("b", Html(amount.said.html)), join(filter(None, how), " ")))
            tables.append(_other_widths(sheet, request, cloth))
    for notion in sheet["notions"]:
        amount = said[f"notion.{notion['name']}"]
        if amount.said.html:
            lines.append(_tick(element("b", Html(amount.said.html)), _html(said, f"notion.{notion['name']}.cut")))
    rest = element("p", _html(said, "cloth.not-counted"), class_="aside")
    heading = element("h3", "In other widths") if tables else ""
    return join([element("ul", *lines, class_="ticks"), rest, heading, *tables])


def _other_widths(sheet: Sheet, request: Request, cloth: Mapping[str, Any]) -> Html:
    """What is bought of a cloth at the widths it is usually sold in, with these choices in this size."""
    cells = []
    for width_mm in usual_widths(cloth):
        asked = {
            "size": request.size, "choices": dict(request.words), "unit": request.unit,
            "cloths": {cloth["name"]: {"width": f"{width_mm / 10:g} cm"}},
        }  # fmt: skip
        spread = spread_out(read_request(sheet, asked), cloth)
        answer = None if spread.refused else spread.answer
        amount = metres(spread.length_mm(answer), spread.cuts) if answer else "too narrow"
        shown = [Html(say(one).html) for one in (width(width_mm), amount)]
        cells.append(element("td", shown[0], element("br"), element("b", shown[1])))
    return element("table", element("tr", element("th", cloth["title"]), *cells), class_="widths")


def _cutting_list(sheet: Sheet, request: Request, said: Said) -> Html:
    """A line to tick for each line of the cutting list, by cloth; the interfacing is one of the cloths."""
    rows = said["cutting-list"].data.get("rows", ())
    cloths = {cloth["name"]: cloth for cloth in sheet["cloths"]}
    parts: list[Html] = []
    for name in dict.fromkeys(row["cloth"] for row in rows):
        lines = [
            _tick(join([element("b", row["title"]), f": {row['how']}"]), "; ".join(row["notes"]))
            for row in rows
            if row["cloth"] == name
        ]
        stretch = element("p", CLOTH_STRETCH, class_="aside") if is_knit(cloths[name], request.chosen) else ""
        heading = element("h3", cloths[name]["title"])
        parts.append(element("div", heading, stretch, element("ul", *lines, class_="ticks"), class_="cut"))
    return join(parts)


def _interfacing(sheet: Sheet, request: Request) -> Html:
    """Where interfacing goes, drawn for each line of it that these choices have."""
    figures = []
    for item in sheet["items"]:
        picture = sheet["pressed"].get(item["id"])
        if picture is None or not holds(item["when"], request.chosen):
            continue
        ends = [(point[0], point[1]) for point in picture["piece"]]
        larger = max(max(x for x, _ in ends), max(y for _, y in ends))
        thick, thin = f"{larger / 110:.1f}", f"{larger / 260:.1f}"
        style = f"path{{fill:none;stroke:{INK};stroke-width:{thick}}}"
        style += f".pressed__area,.pressed__hatch{{stroke-width:{thin}}}"
        drawn = _styled(drawing(picture, item["title"]), style)
        caption = element("figcaption", element("b", item["title"]), element("br"), words(picture, item))
        figures.append(element("figure", drawn, caption))
    if not figures:
        return Html("")
    about = element("p", INTERFACING_ABOUT, class_="aside")
    drawings = element("div", *figures, class_="pressed")
    return element("div", element("h3", INTERFACING_TITLE), about, drawings, class_="drawings")


def _styled(svg: str, style: str) -> Html:
    """A drawing with its styles within it: a document's own do not reach into it."""
    return Html(re.sub(r"(<svg[^>]*>)", lambda found: f"{found[1]}<style>{style}</style>", svg, count=1))


def _closures(sheet: Sheet, said: Said) -> Html:
    """What is said of buttons and snaps, where this set has any."""
    parts = []
    for notion in closures(sheet):
        name = f"closure.{notion['name']}"
        if name in said and said[name].said.html:
            # The strip itself is the last sheet of the guide.
            places = PICTURE.sub("", _html(said, f"{name}.places"))
            parts += [element("p", _html(said, name), class_="strong"), Html(places), _html(said, f"{name}.how")]
    return join(parts)


def _made_with(sheet: Sheet, said: Said) -> Html:
    """Whether it goes on and holds, how much is gathered and where it is marked, about how much thread."""
    told = [_html(said, name) for name in made_with_names(sheet)]
    lines = [element("li", one) for one in told if one]
    return element("ul", *lines, class_="plain") if lines else Html("")


def _before(sheet: Sheet, request: Request) -> Html:
    """What the shop says to read before one starts, for the cloth that was chosen."""
    found = [one for one in sheet["techniques"] if one["before"] is not None and holds(one["before"], request.chosen)]
    return join(_technique(one) for one in found)


def _technique(technique: Mapping[str, Any], **attributes: object) -> Html:
    return element("p", element("b", technique["title"]), ": ", short_html(technique), **attributes)


def _steps(sheet: Sheet, guide: Guide) -> Html:
    """The steps that these choices have, numbered afresh, a box before each; above each text the face that is up,
    below it the techniques in short. The drawing of a technique stands in one step alone."""
    techniques = {one["name"]: one for one in sheet["techniques"]}
    drawn = _drawn_in(guide, techniques)
    entries = [
        element(
            "li",
            element("h3", element("span", class_="box"), element("span", f"{step.number} ", class_="number"),
                    step.title),
            element("p", f"Up: {step.up}", class_="aside") if step.up else "",
            picture(step.drawing, step.title, step.seen) if step.drawing else "",
            *(_technique_picture(techniques[name]) for name in drawn[step.number]),
            Html(step.html),
            *(_technique(techniques[name], class_="how") for name in step.techniques),
            class_="pictured" if step.drawing or drawn[step.number] else None,
        )
        for step in guide.steps
    ]  # fmt: skip
    return element("ol", *entries, class_="plain") if entries else Html("")


def _drawn_in(guide: Guide, techniques: Mapping[str, Mapping[str, Any]]) -> Mapping[int, list[str]]:
    """The techniques whose drawing stands in a step, by its number: each in the first step that names it and has no
    drawing of its own, else in the first that names it."""
    found: dict[int, list[str]] = {step.number: [] for step in guide.steps}
    for name in dict.fromkeys(name for step in guide.steps for name in step.techniques):
        if techniques[name].get("drawing"):
            naming = [step for step in guide.steps if name in step.techniques]
            found[next((step for step in naming if not step.drawing), naming[0]).number].append(name)
    return found


def _technique_picture(technique: Mapping[str, Any]) -> Html:
    image = picture(TECHNIQUE_PICTURES + technique["drawing"], technique["title"])
    return element("figure", image, element("figcaption", technique["title"]), class_="how")


def _tick(words: Html, beside: object = "") -> Html:
    note = element("span", beside, class_="note") if beside else ""
    return element("li", element("span", class_="box"), words, " " if note else "", note)

