"""How do a pattern's tables stand in its page? With units in their captions, the usual widths first, the rest folded.

The figures are those of `tables`; under each table stands where they come from, as the calculators explain it for
the usual choices. Nothing here needs a script.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from typing import Any, cast

import pandas as pd

from boltside.calculators.choices import completed
from boltside.calculators.nap import WITH, WITHOUT
from boltside.pages.cloth_amounts import (
    NAP_TITLES,
    WAY_TITLES,
    amounts_at,
    amounts_frame,
    naps,
    usual_widths,
)
from boltside.pages.lengths import (
    amount_to_buy,
    buying_units,
    column_of_figures,
    length_to_buy,
    measuring_units,
    width_heading,
)
from boltside.pages.markup import Html, element, join
from boltside.pages.slots import Slots
from boltside.pages.table_html import table
from boltside.pages.tables import (
    BODY,
    EASE,
    FINISHED,
    chart_frame,
    chart_titles,
    cutting_frame,
    notion_amounts,
)
from boltside.pages.unbroken import unbroken
from boltside.pages.words import choices_in_words

Sheet = Mapping[str, Any]

AGE_TITLE = "About"
WHY_THESE = "Where these figures come from"
OTHER_WIDTHS = "All other widths"
WITH_NAP = "Laid with nap: pile, or a print that points one way"


def size_chart(sheet: Sheet, slots: Slots) -> Html:
    """Body measurements by size; and finished measurements for the usual choices with the ease over the body."""
    chart, titles, ages = chart_frame(sheet), chart_titles(sheet), sheet["body"]["ages"]
    columns = cast(list[tuple[str, str]], chart.columns.to_list())
    cells: dict[tuple[str, str], list[Any]] = {column: column_of_figures(chart[column]) for column in columns}
    if ages:
        cells[BODY, AGE_TITLE] = [ages.get(size, "") for size in sheet["sizes"]]
        titles[BODY, AGE_TITLE] = AGE_TITLE

    def part(groups: Sequence[str], label: str, words: str) -> Html:
        order = [column for group in groups for column in cells if column[0] == group]
        if not order:
            return Html("")
        return table(
            [(group, titles[group, name]) if len(groups) > 1 else (titles[group, name],) for group, name in order],
            [(size, [cells[column][at] for column in order]) for at, size in enumerate(sheet["sizes"])],
            caption=join([words, measuring_units()]),
            label=label,
            corner="Size",
            row_name="size",
        )

    body = part([BODY], "Size chart", "Body, all sizes, in ")
    made = part([FINISHED, EASE], "Finished measurements", "Finished, all sizes, for the usual choices, in ")
    known = {name for group, name in columns if group == FINISHED}
    explained = [(one["title"], f"finished.{one['name']}") for one in sheet["finished"] if one["name"] in known]
    return join([body, made, why_these(slots, explained)])


def cloth_tables(sheet: Sheet, slots: Slots) -> Html:
    """For each cloth: how much to buy at each width, in each size, for the usual choices."""
    words = choices_in_words(sheet, completed(sheet["choices"], {}))
    intro = join(["How much to buy, in ", buying_units(), f", for the usual choices ({words})." if words else "."])
    return join([element("p", intro), *(cloth_part(sheet, cloth, slots) for cloth in sheet["cloths"])])


def cloth_part(sheet: Sheet, cloth: Mapping[str, Any], slots: Slots) -> Html:
    """One cloth: a table of the usual widths; folded under it the same with nap, the other widths, and why."""
    amounts, kinds, usual = amounts_frame(sheet, cloth), naps(sheet, cloth), usual_widths(cloth)
    if amounts["lay_mm"].isna().all():
        return Html("")
    others = [width_mm for width_mm in cloth["widths_mm"] if width_mm not in usual]
    first, *rest = kinds
    parts = [cloth_table(sheet, cloth, amounts, first, usual)]
    for nap in rest:
        parts.append(
            folded(WITH_NAP if nap == WITH else NAP_TITLES[WITHOUT], cloth_table(sheet, cloth, amounts, nap, usual))
        )
    if others:
        parts.append(folded(OTHER_WIDTHS, *(cloth_table(sheet, cloth, amounts, nap, others) for nap in kinds)))
    parts.append(why_these(slots, [(cloth["title"], f"cloth.{cloth['name']}")]))
    return element("div", *parts, class_="by-cloth")


def cloth_table(
    sheet: Sheet, cloth: Mapping[str, Any], amounts: pd.DataFrame, nap: str, widths_mm: Sequence[int]
) -> Html:
    """One cloth's amounts: sizes down, ways of laying and widths across; a dash where the calculator says no."""
    asked = list(itertools.product(cloth["ways"], widths_mm))
    sizes = list(sheet["sizes"])
    frame = amounts_at(amounts, sizes, [(way, nap, width_mm) for way, width_mm in asked])
    said = "" if naps(sheet, cloth) == [WITHOUT] and "interfacing" in cloth["kinds"] else f", {NAP_TITLES[nap]}"
    spread = "" if list(widths_mm) == usual_widths(cloth) else ", other widths"
    return table(
        [(WAY_TITLES[way], width_heading(width_mm)) for way, width_mm in asked],
        [(size, [amount_to_buy(mm) for mm in frame.loc[size]]) for size in sizes],
        caption=join([cloth["title"], said, ", in ", buying_units()]),
        label=f"{cloth['title']}{said}{spread}: how much to buy",
        corner="Size",
        row_name="size",
    )


def notions_table(sheet: Sheet, slots: Slots) -> Html:
    """What else to buy for the usual choices: sizes down, notions across; lengths in metres or yards, else pieces."""
    amounts = notion_amounts(sheet)
    if amounts.empty:
        return Html("")
    sizes = list(sheet["sizes"])
    headings: list[tuple[object, ...]] = []
    columns: list[list[Html]] = []
    for title, lines in amounts.groupby("title", sort=False):
        by_size = lines.set_index("size").reindex(sizes)
        lengths, counts = by_size["total_mm"], by_size["count"]
        if lengths.notna().any():
            headings.append((join([unbroken(f"{title}"), ", ", buying_units()]),))
            columns.append([length_to_buy(mm) for mm in lengths])
        else:
            headings.append((unbroken(f"{title}, pieces"),))
            columns.append([Html(piece(count)) for count in counts])
    made = table(
        headings,
        [(size, [column[at] for column in columns]) for at, size in enumerate(sizes)],
        caption="Notions, by size",
        label="Notions: how much to buy",
        corner="Size",
        row_name="size",
    )
    needed = [(one["title"], f"notion.{one['name']}") for one in sheet["notions"]]
    return element("div", made, why_these(slots, needed), class_="by-cloth")


def piece(count: float) -> str:
    """A number of pieces; a dash where the size needs none.

    >>> piece(5.0), piece(float("nan"))
    ('5', '–')
    """
    return "–" if pd.isna(count) else f"{count:g}"


def cutting_lists(sheet: Sheet) -> Html:
    """For each cloth every line of the cutting list over all choices, with when it applies; folded, for it is long."""
    items = cutting_frame(sheet).drop(columns="Single copies")
    parts = []
    for cloth in sheet["cloths"]:
        lines = items[items["Cloth"] == cloth["title"]].drop(columns="Cloth")
        if lines.empty:
            continue
        if not lines["Note"].any():
            lines = lines.drop(columns="Note")
        parts.append(
            table(
                [(title,) for title in lines.columns[1:]],
                [(row[0], list(row[1:])) for row in lines.itertuples(index=False, name=None)],
                caption=cloth["title"],
                label=f"{cloth['title']}: cutting list",
                corner="Piece",
                words=True,
            )
        )
    return folded("All pieces, whatever the options", *parts)


def why_these(slots: Slots, names: Sequence[tuple[str, str]]) -> Html:
    """A note under a table: how each of these figures (title, fragment) came about, for the usual choices."""
    said = [(title, slots.fragment(f"why.{name}")) for title, name in names]
    known = [(title, Html(found["html"])) for title, found in said if found and found["html"]]
    if not known:
        return Html("")
    entries = [
        element("div", element("h3", title) if len(known) > 1 else "", html, class_="why__text")
        for title, html in known
    ]
    return folded(WHY_THESE, *entries)


def folded(title: object, *content: object) -> Html:
    """Something that is opened by a tap, with or without a script."""
    return element("details", element("summary", title), *content, class_="folded")
