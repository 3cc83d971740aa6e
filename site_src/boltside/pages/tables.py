"""Which tables does a pattern's page carry? Size chart, cloth table, cutting list.

pandas arranges the figures; this file writes them as HTML with headings that a screen reader can follow. Both units
stand in every cell. Nothing here computes a length: body and finished measurements come from the sheet, amounts to
buy from the calculators.
"""

from __future__ import annotations

import itertools
import json
from collections.abc import Mapping, Sequence
from typing import Any

import pandas as pd

from boltside.calculators.cloth import SQUARING_MM
from boltside.calculators.choices import completed
from boltside.calculators.conditions import SIZE
from boltside.calculators.cutting_list import how_cut
from boltside.calculators.door import answer
from boltside.calculators.finished import case_mm
from boltside.calculators.fragments import say
from boltside.calculators.units import MM_PER_CM, Shown, metres
from boltside.pages.lengths import NO_FIGURE, figure, unit_names, width_heading
from boltside.pages.markup import Html, element, join, text
from boltside.pages.words import condition_in_words, listed, lower_first

Sheet = Mapping[str, Any]

WAY_TITLES = {"folded": "Folded once", "flat": "Flat, one layer"}


def table(frame: pd.DataFrame, *, caption: object, corner: str, row_name: str | None = None) -> Html:
    """A frame as an HTML table: column levels as spanning headings, the index as sticky row headings.

    Arguments: cells are text or `Html`; `corner` heads the row headings; `row_name="size"` marks each row with its
    size, so that the row of the chosen size can be shown.
    """
    levels = frame.columns.nlevels
    head = []
    for level in range(levels):
        cells = []
        if level == 0:
            cells.append(element("th", corner, scope="col", rowspan=levels if levels > 1 else None))
        for title, span in runs(frame, level):
            last = level == levels - 1
            cells.append(
                element("th", title, scope="col" if last and span == 1 else "colgroup",
                        colspan=span if span > 1 else None)
            )  # fmt: skip
        head.append(element("tr", *cells))
    body = []
    for index, row in zip(frame.index, frame.itertuples(index=False, name=None), strict=True):
        marks = {f"data_{row_name}": index} if row_name else {}
        cells = [element("th", index, scope="row"), *(element("td", cell) for cell in row)]
        body.append(element("tr", *cells, **marks))
    whole = element(
        "table",
        element("caption", caption),
        element("thead", *head),
        element("tbody", *body),
        class_="figures",
    )
    return element("div", whole, class_="wide", tabindex="0", role="region", aria_label=text(caption))


def runs(frame: pd.DataFrame, level: int) -> list[tuple[str, int]]:
    """The titles of one level of column headings with how many columns each spans, broken at upper levels."""
    found: list[tuple[str, int]] = []
    before: tuple[Any, ...] | None = None
    for column in frame.columns:
        upper = tuple(column)[: level + 1] if isinstance(column, tuple) else (column,)
        if upper == before:
            title, span = found[-1]
            found[-1] = (title, span + 1)
        else:
            found.append((str(upper[-1]), 1))
        before = upper
    return found


def size_chart(sheet: Sheet) -> Html:
    """Body measurements, finished measurements for the default choices, and the ease between them, by size."""
    body = sheet["body"]
    sizes = list(sheet["sizes"])
    columns: dict[tuple[str, str], list[Html]] = {}
    if body["ages"]:
        columns["Body", "About"] = [text(body["ages"].get(size, NO_FIGURE)) for size in sizes]
    for name in body["columns"]:
        columns["Body", body_title(name)] = [figure(body["rows"][size].get(name)) for size in sizes]
    ease: dict[tuple[str, str], list[Html]] = {}
    for measurement in sheet["finished"]:
        finished = [
            case_mm(measurement["cases"], completed(sheet["choices"], {SIZE: size}), size) for size in sizes
        ]
        if not any(finished):
            continue
        columns["Finished", finished_title(measurement["title"])] = [figure(value) for value in finished]
        if measurement["body"]:
            bodies = [body["rows"][size].get(measurement["body"]) for size in sizes]
            ease["Ease", body_title(measurement["body"])] = [
                figure(made - bare) if made is not None and bare is not None else NO_FIGURE
                for made, bare in zip(finished, bodies, strict=True)
            ]
    frame = pd.DataFrame(columns | ease, index=sizes)
    return table(frame, caption=join(["All sizes, in ", unit_names()]), corner="Size", row_name="size")


def body_title(name: str) -> str:
    """A column of the body chart as a heading.

    >>> body_title("upper_arm")
    'Upper arm'
    """
    return name.replace("_", " ").replace("-", " ").capitalize()


def finished_title(title: str) -> str:
    """A finished measurement's title under the heading that says *finished* already.

    >>> finished_title("Chest, finished"), finished_title("Back length")
    ('Chest', 'Back length')
    """
    return title.removesuffix(", finished").removeprefix("Finished ").capitalize()


def cloth_tables(sheet: Sheet) -> Html:
    """For each cloth: how much to buy at each width, in each size, for the default choices."""
    words = default_words(sheet)
    intro = join(["How much to buy, in ", Html(say(Shown("metres", "yards")).html), f", with {words}." if words else "."])
    return join([element("p", intro), *(cloth_table(sheet, cloth) for cloth in sheet["cloths"])])


def cloth_table(sheet: Sheet, cloth: Mapping[str, Any]) -> Html:
    """One cloth's amounts: sizes down, ways of laying and widths across."""
    amounts = pd.DataFrame.from_records(
        [
            {"way": way, "width": width_mm, "size": size, "amount": amount(sheet, cloth["name"], size, width_mm, way)}
            for way, width_mm, size in itertools.product(cloth["ways"], cloth["widths_mm"], sheet["sizes"])
        ]
    )
    columns = list(itertools.product(cloth["ways"], cloth["widths_mm"]))
    frame = amounts.pivot(index="size", columns=["way", "width"], values="amount")
    frame = frame.reindex(index=list(sheet["sizes"]), columns=pd.MultiIndex.from_tuples(columns))
    frame.columns = pd.MultiIndex.from_tuples([(WAY_TITLES[way], width_heading(mm)) for way, mm in columns])
    return table(frame, caption=cloth["title"], corner="Size", row_name="size")


def amount(sheet: Sheet, cloth: str, size: str, width_mm: float, way: str) -> Html:
    """What the cloth calculator says for one width, for the default choices; a dash where it says no."""
    request = {
        "pattern": sheet["pattern"],
        "size": size,
        "choices": {},
        "cloths": {cloth: {"width": f"{width_mm / MM_PER_CM:g}", "way": way}},
        "unit": "cm",
    }
    fragments = json.loads(answer("cloth", json.dumps(request)))["fragments"]
    found = next(part for part in fragments if part["id"] == f"cloth.{cloth}")
    if "buy_mm" not in found["data"]:
        return NO_FIGURE
    shown = metres(found["data"]["needed_mm"] + SQUARING_MM)
    return Html(say(Shown(shown.cm.removesuffix(" m"), shown.inch.removesuffix(" yd"))).html)


def default_words(sheet: Sheet) -> str:
    """The default choices in words, for the sentence over tables that hold for them only."""
    chosen = completed(sheet["choices"], {})
    parts = []
    for choice in sheet["choices"]:
        if choice["name"] in chosen and not choice["steps_only"]:
            titles = {alternative["name"]: alternative["title"] for alternative in choice["alternatives"]}
            parts.append(f"{choice['title'].lower()} {lower_first(titles[chosen[choice['name']]])}")
    return listed(parts)


def cutting_list(sheet: Sheet) -> Html:
    """Every line of the cutting list over all choices, cloth by cloth, with when it applies."""
    titles = {cloth["name"]: cloth["title"] for cloth in sheet["cloths"]}
    frame = pd.DataFrame(
        {
            "Cloth": [titles[item["cloth"]] for item in sheet["items"]],
            "Cut": [how_cut(item) for item in sheet["items"]],
            "When": [condition_in_words(sheet, item["when"]) or "always" for item in sheet["items"]],
            "Mind": [join(item["notes"], "; ") for item in sheet["items"]],
        },
        index=[item["title"] for item in sheet["items"]],
    )
    return table(frame, caption="All pieces, for all choices", corner="Piece")
