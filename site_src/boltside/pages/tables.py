"""Which tables does a pattern's page carry? Size chart, cloth table, cutting list.

pandas arranges the figures; `table_html` writes them. Nothing here computes a length: body and finished measurements
come from the sheet, amounts to buy from the calculators.
"""

from __future__ import annotations

import itertools
import json
from collections.abc import Mapping
from typing import Any, cast

import pandas as pd

from boltside.calculators.choices import completed
from boltside.calculators.conditions import SIZE
from boltside.calculators.cutting_list import how_cut
from boltside.calculators.door import answer
from boltside.calculators.finished import case_mm
from boltside.calculators.units import MM_PER_CM
from boltside.pages.lengths import amount_to_buy, buying_units, column_of_figures, measuring_units, width_heading
from boltside.pages.markup import Html, element, join
from boltside.pages.table_html import table
from boltside.pages.words import choices_in_words, condition_in_words

Sheet = Mapping[str, Any]

WAY_TITLES = {"folded": "Folded once", "flat": "Flat, one layer"}
BODY, FINISHED, EASE = "Body", "Finished", "Ease"
AGE_TITLE = "About"


def size_chart(sheet: Sheet) -> Html:
    """Body measurements, finished measurements for the usual choices, and the ease between them, by size."""
    body = sheet["body"]
    sizes = list(sheet["sizes"])
    rows = pd.DataFrame.from_dict(body["rows"], orient="index").reindex(index=sizes, columns=body["columns"])
    rows.columns = pd.MultiIndex.from_product([[BODY], rows.columns])
    made = {
        measurement["name"]: [
            case_mm(measurement["cases"], completed(sheet["choices"], {SIZE: size}), size) for size in sizes
        ]
        for measurement in sheet["finished"]
    }
    finished = pd.DataFrame(made, index=sizes, dtype=float).dropna(axis="columns", how="all")
    compared = {one["name"]: one["body"] for one in sheet["finished"] if one["body"] and one["name"] in finished}
    ease = pd.DataFrame({name: finished[name] - rows[BODY, column] for name, column in compared.items()}, index=sizes)
    titles = {measurement["name"]: finished_title(measurement["title"]) for measurement in sheet["finished"]}
    finished.columns = pd.MultiIndex.from_product([[FINISHED], finished.columns])
    ease.columns = pd.MultiIndex.from_product([[EASE], ease.columns])
    chart = pd.concat([part for part in (rows, finished, ease) if not part.empty], axis="columns")
    columns = cast(list[tuple[str, str]], chart.columns.to_list())
    cells: dict[tuple[str, str], list[Any]] = {column: column_of_figures(chart[column]) for column in columns}
    if body["ages"]:
        cells[BODY, AGE_TITLE] = [body["ages"].get(size, "") for size in sizes]
    order = sorted(cells, key=lambda column: (BODY, FINISHED, EASE).index(column[0]))
    return table(
        [(group, body_title(name) if group == BODY else titles[name]) for group, name in order],
        [(size, [cells[column][at] for column in order]) for at, size in enumerate(sizes)],
        caption=join(["All sizes, in ", measuring_units()]),
        label="Size chart",
        corner="Size",
        row_name="size",
    )


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
    short = title.removesuffix(", finished").removeprefix("Finished ")
    return short[:1].upper() + short[1:]


def cloth_tables(sheet: Sheet) -> Html:
    """For each cloth: how much to buy at each width, in each size, for the usual choices."""
    words = choices_in_words(sheet, completed(sheet["choices"], {}))
    intro = join(["How much to buy, in ", buying_units(), f", for the usual choices ({words})." if words else "."])
    return join([element("p", intro), *(cloth_table(sheet, cloth) for cloth in sheet["cloths"])])


def cloth_table(sheet: Sheet, cloth: Mapping[str, Any]) -> Html:
    """One cloth's amounts: sizes down, ways of laying and widths across; a dash where the calculator says no."""
    asked = list(itertools.product(cloth["ways"], cloth["widths_mm"]))
    amounts = pd.DataFrame.from_records(
        [
            (way, width_mm, size, lay_mm(sheet, cloth["name"], size, width_mm, way))
            for (way, width_mm), size in itertools.product(asked, sheet["sizes"])
        ],
        columns=["way", "width_mm", "size", "lay_mm"],
    )
    frame = amounts.pivot(index="size", columns=["way", "width_mm"], values="lay_mm")
    frame = frame.reindex(index=list(sheet["sizes"]), columns=pd.MultiIndex.from_tuples(asked))
    return table(
        [(WAY_TITLES[way], width_heading(width_mm)) for way, width_mm in asked],
        [(size, [amount_to_buy(mm) for mm in frame.loc[size]]) for size in sheet["sizes"]],
        caption=cloth["title"],
        label=f"{cloth['title']}: how much to buy",
        corner="Size",
        row_name="size",
    )


def lay_mm(sheet: Sheet, cloth: str, size: str, width_mm: float, way: str) -> float | None:
    """The lay length that the cloth calculator reckons with for the usual choices, in mm; None where it says no."""
    request = {
        "pattern": sheet["pattern"],
        "size": size,
        "choices": {},
        "cloths": {cloth: {"width": f"{width_mm / MM_PER_CM:g}", "way": way}},
        "unit": "cm",
    }
    fragments = json.loads(answer("cloth", json.dumps(request)))["fragments"]
    found = next(part for part in fragments if part["id"] == f"cloth.{cloth}")
    needed: float | None = found["data"].get("needed_mm")
    return needed


def cutting_lists(sheet: Sheet) -> Html:
    """For each cloth every line of the cutting list over all choices, with when it applies; folded, for it is long."""
    items = pd.DataFrame(
        {
            "cloth": [item["cloth"] for item in sheet["items"]],
            "Piece": [item["title"] for item in sheet["items"]],
            "Cut": [how_cut(item) for item in sheet["items"]],
            "When": [condition_in_words(sheet, item["when"]) or "always" for item in sheet["items"]],
            "Note": ["; ".join(item["notes"]) for item in sheet["items"]],
        }
    )
    parts = [element("summary", "All pieces, whatever the options")]
    for cloth in sheet["cloths"]:
        lines = items[items["cloth"] == cloth["name"]].drop(columns="cloth")
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
    return element("details", *parts, class_="folded")
