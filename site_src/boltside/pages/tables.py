"""Which figures go into which table? Size chart, cloth to buy, notions, cutting list; as frames.

pandas arranges the figures; `table_sections` writes them into the page, `table_files` into files. Nothing here
computes a length: body and finished measurements come from the sheet, amounts to buy from the calculators.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple, cast

import pandas as pd

from boltside.calculators.choices import completed
from boltside.calculators.conditions import SIZE
from boltside.calculators.cutting_list import how_cut
from boltside.calculators.finished import case_mm
from boltside.calculators.notions import notion_fragments
from boltside.calculators.request import read_request
from boltside.calculators.units import MM_PER_CM, MM_PER_IN
from boltside.pages.cloth_amounts import amounts_frame, amounts_in, to_buy_bare
from boltside.pages.words import condition_in_words

Sheet = Mapping[str, Any]

BODY, FINISHED, EASE = "Body", "Finished", "Ease"


class NamedTable(NamedTuple):
    """A table for a file: a name for its address, a title, and the figures with their units in the headings."""

    name: str
    title: str
    frame: pd.DataFrame


def all_tables(sheet: Sheet) -> list[NamedTable]:
    """Every table of a pattern, with all widths: size chart, cloths, notions, cutting list.

    Argument: a sheet that the calculators have opened or not; they are asked directly.
    """
    chart = chart_frame(sheet)
    made = [
        NamedTable("size-chart", "Size chart, cm", chart_in(chart, MM_PER_CM, "cm", 1)),
        NamedTable("size-chart-inches", "Size chart, inches", chart_in(chart, MM_PER_IN, "in", 2)),
    ]
    for cloth in sheet["cloths"]:
        amounts = amounts_frame(sheet, cloth)
        name, title = f"cloth-{cloth['name']}", cloth["title"]
        made.append(NamedTable(name, f"{title}, metres", amounts_in(amounts, "m")))
        made.append(NamedTable(f"{name}-yards", f"{title}, yards", amounts_in(amounts, "yd")))
    notions = notions_frame(sheet)
    if not notions.empty:
        made.append(NamedTable("notions", "Notions", notions))
    made.append(NamedTable("cutting-list", "Cutting list", cutting_frame(sheet)))
    return made


# ---- size chart ----


def chart_frame(sheet: Sheet) -> pd.DataFrame:
    """Body and finished measurements and the ease between them, in mm: sizes down, (group, name) across.

    Finished measurements are those of the usual choices. A measurement that no size has is left out.
    """
    body, sizes = sheet["body"], list(sheet["sizes"])
    rows = pd.DataFrame.from_dict(body["rows"], orient="index").reindex(index=sizes, columns=body["columns"])
    rows.columns = pd.MultiIndex.from_product([[BODY], rows.columns])
    usual = {size: completed(sheet["choices"], {SIZE: size}) for size in sizes}
    made = {one["name"]: [case_mm(one["cases"], usual[size], size) for size in sizes] for one in sheet["finished"]}
    finished = pd.DataFrame(made, index=sizes, dtype=float).dropna(axis="columns", how="all")
    compared = {one["name"]: one["body"] for one in sheet["finished"] if one["body"] and one["name"] in finished}
    ease = pd.DataFrame({name: finished[name] - rows[BODY, column] for name, column in compared.items()}, index=sizes)
    finished.columns = pd.MultiIndex.from_product([[FINISHED], finished.columns])
    ease.columns = pd.MultiIndex.from_product([[EASE], ease.columns])
    return pd.concat([part for part in (rows, finished, ease) if not part.empty], axis="columns").rename_axis("Size")


def chart_titles(sheet: Sheet) -> dict[tuple[str, str], str]:
    """The heading of each column of the size chart."""
    titles = {(BODY, name): body_title(name) for name in sheet["body"]["columns"]}
    for measurement in sheet["finished"]:
        for group in (FINISHED, EASE):
            titles[group, measurement["name"]] = finished_title(measurement["title"])
    return titles


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


def chart_in(chart: pd.DataFrame, unit_mm: float, unit: str, digits: int) -> pd.DataFrame:
    """The size chart in another unit, with flat headings for a file."""
    shown = (chart / unit_mm).round(digits)
    columns = cast(list[tuple[str, str]], chart.columns.to_list())
    shown.columns = pd.Index([f"{group}: {body_title(name)} ({unit})" for group, name in columns])
    return shown


# ---- notions ----


def notion_amounts(sheet: Sheet) -> pd.DataFrame:
    """What else is needed for the usual choices: one row for each notion and size.

    Columns: title, size, total_mm (NaN for what is counted), count (NaN for what is measured).
    """
    titles = {f"notion.{notion['name']}": notion["title"] for notion in sheet["notions"]}
    rows = [
        (titles[part.name], size, part.data.get("total_mm"), part.data.get("count"))
        for size in sheet["sizes"]
        for part in notion_fragments(read_request(sheet, {"size": size}))
        if part.name in titles and part.said.text
    ]
    frame = pd.DataFrame.from_records(rows, columns=["title", "size", "total_mm", "count"])
    frame = frame.astype({"total_mm": float, "count": float})
    return frame.assign(count=frame["count"].mask(frame["total_mm"].notna()))


def notions_frame(sheet: Sheet) -> pd.DataFrame:
    """What else to buy for the usual choices: a row for each notion and unit, a column for each size."""
    amounts = notion_amounts(sheet)
    parts = []
    for unit, column in (("m", "total_mm"), ("yd", "total_mm"), ("pieces", "count")):
        known = amounts.dropna(subset=column)
        shown = known[column] if unit == "pieces" else known[column].map(lambda mm, unit=unit: to_buy_bare(mm, unit))
        parts.append(known.assign(unit=unit, amount=shown))
    frame = pd.concat(parts).pivot(index=["title", "unit"], columns="size", values="amount")
    order = [(one["title"], unit) for one in sheet["notions"] for unit in ("m", "yd", "pieces")]
    frame = frame.reindex(index=[key for key in order if key in frame.index], columns=list(sheet["sizes"]))
    frame.index.names = ["Notion", "Unit"]
    frame.columns = pd.Index([f"Size {size}" for size in frame.columns])
    return frame


# ---- cutting list ----


def cutting_frame(sheet: Sheet) -> pd.DataFrame:
    """Every line of the cutting list over all choices, with when it applies."""
    titles = {cloth["name"]: cloth["title"] for cloth in sheet["cloths"]}
    rank = {name: at for at, name in enumerate(titles)}
    items = sorted(sheet["items"], key=lambda item: rank[item["cloth"]])
    return pd.DataFrame(
        {
            "Cloth": [titles[item["cloth"]] for item in items],
            "Piece": [item["title"] for item in items],
            "Cut": [how_cut(item) for item in items],
            "When": [condition_in_words(sheet, item["when"]) or "always" for item in items],
            "Note": ["; ".join(item["notes"]) for item in items],
            "Single copies": ["; ".join(carried(sheet, item)) for item in items],
        }
    )


def carried(sheet: Sheet, item: Mapping[str, Any]) -> list[str]:
    """What single copies of a piece carry (buttonholes, buttons), in words, with when.

    >>> copies = [{"name": "wearers-left", "carries": [{"what": "buttonholes", "when": []}], "drawn": True}]
    >>> carried({"choices": []}, {"copies": copies})
    ["wearer's left: buttonholes"]
    """
    said = []
    for copy in item.get("copies", []):
        for one in copy["carries"]:
            when = condition_in_words(sheet, one["when"])
            said.append(f"{copy_words(copy['name'])}: {one['what']}" + (f" ({when})" if when else ""))
    return said


def copy_words(name: str) -> str:
    """A copy's name in words.

    >>> copy_words("wearers-right")
    "wearer's right"
    """
    return name.replace("wearers-", "wearer's ").replace("-", " ")
