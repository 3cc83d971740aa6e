"""Which figures go into which table? Size chart, cloth to buy, notions, cutting list; as frames.

pandas arranges the figures; `table_sections` writes them into the page, `table_files` into files. Nothing here
computes a length: body and finished measurements come from the sheet, amounts to buy from the calculators.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

import pandas as pd

from boltside.calculators.choices import completed
from boltside.calculators.cloth import SQUARING_MM, spread_out
from boltside.calculators.conditions import SIZE
from boltside.calculators.cutting_list import how_cut
from boltside.calculators.finished import case_mm
from boltside.calculators.nap import FORCED, WITH, WITHOUT, nap_said
from boltside.calculators.notions import notion_fragments
from boltside.calculators.request import read_request
from boltside.calculators.units import MM_PER_CM, MM_PER_IN, MM_PER_M, buy_mm, eighth_yards, width
from boltside.pages.words import condition_in_words

Sheet = Mapping[str, Any]
Cloth = Mapping[str, Any]

WAY_TITLES = {"folded": "Folded once", "flat": "Flat, one layer"}
NAP_TITLES = {WITHOUT: "without nap", WITH: "with nap"}
BODY, FINISHED, EASE = "Body", "Finished", "Ease"
USUAL_WIDTHS_MM = (900, 1100, 1150, 1350, 1400, 1500, 1600)
"""The widths most cloth is sold in (common practice); the page shows those first."""
EIGHTHS = 8
INCH_DIGITS = 3
"""An eighth of an inch has three decimals."""


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
    shown.columns = pd.Index([f"{group}: {body_title(name)} ({unit})" for group, name in chart.columns])
    return shown


# ---- cloth ----


def naps(sheet: Sheet, cloth: Cloth) -> list[str]:
    """How this cloth may be laid for the usual choices: `without` and `with` nap, or the one that the designer says."""
    said = nap_said(cloth["nap"], completed(sheet["choices"], {}))
    return [FORCED[said]] if said in FORCED else [WITHOUT, WITH]


def usual_widths(cloth: Cloth) -> list[int]:
    """Of the widths that were reckoned those nearest to the ones cloth is usually sold in, growing.

    >>> usual_widths({"widths_mm": [500, 900, 1120, 1500]}), usual_widths({"widths_mm": [550]})
    ([900, 1120, 1500], [550])
    """
    known = cloth["widths_mm"]
    return sorted({min(known, key=lambda one: (abs(one - usual_mm), one)) for usual_mm in USUAL_WIDTHS_MM})


def amounts_frame(sheet: Sheet, cloth: Cloth) -> pd.DataFrame:
    """The lay lengths of one cloth for the usual choices, in mm: one row for each way, nap, size and width.

    Columns: way, nap, size, width_mm, lay_mm (NaN where the calculator says no).
    """
    rows = []
    for size in sheet["sizes"]:
        for nap in naps(sheet, cloth):
            for width_mm in cloth["widths_mm"]:
                asked = {"size": size, "cloths": {cloth["name"]: {"width": f"{width_mm / MM_PER_CM:g} cm", "nap": nap}}}
                laid = spread_out(read_request(sheet, asked), cloth).laid
                for way in cloth["ways"]:
                    found = laid.get(way)
                    rows.append((way, nap, size, width_mm, found.length_mm if found else None))
    return pd.DataFrame.from_records(rows, columns=["way", "nap", "size", "width_mm", "lay_mm"])


def amounts_at(amounts: pd.DataFrame, sizes: Sequence[str], columns: Sequence[tuple[str, str, int]]) -> pd.DataFrame:
    """Lay lengths in mm, sizes down and (way, nap, width_mm) across, in this order."""
    frame = amounts.pivot(index="size", columns=["way", "nap", "width_mm"], values="lay_mm")
    return frame.reindex(index=list(sizes), columns=pd.MultiIndex.from_tuples(columns))


def amounts_in(amounts: pd.DataFrame, unit: str) -> pd.DataFrame:
    """What to buy, for a file: a row for each way, nap and size, a column for each width.

    Argument: `unit`: `m` (steps of 5 cm) or `yd` (eighths), each rounded up as a shop cuts.
    """
    shown = amounts.assign(
        way=amounts["way"].map(WAY_TITLES),
        nap=amounts["nap"].map(NAP_TITLES).str.capitalize(),
        buy=amounts["lay_mm"].map(lambda lay_mm: to_buy(lay_mm, unit)),
    )
    order = shown[["way", "nap", "size"]].drop_duplicates().sort_values(["way", "nap"], kind="stable", ascending=False)
    frame = shown.pivot(index=["way", "nap", "size"], columns="width_mm", values="buy")
    frame = frame.reindex(index=pd.MultiIndex.from_frame(order), columns=list(amounts["width_mm"].drop_duplicates()))
    frame.index.names = ["Laid", "Nap", "Size"]
    frame.columns = pd.Index([f"{width_words(mm, unit)} wide ({unit})" for mm in frame.columns])
    return frame


def width_words(width_mm: int, unit: str) -> str:
    """A cloth's width in the words of one system.

    >>> width_words(1400, "m"), width_words(1400, "yd")
    ('140 cm', '55 in')
    """
    shown = width(width_mm)
    return shown.cm if unit == "m" else shown.inch


def to_buy(lay_mm: float, unit: str) -> float | None:
    """What to buy for a lay of this length (mm), in metres or yards; None where there is no lay.

    >>> to_buy(1270, "m"), to_buy(1270, "yd"), to_buy(float("nan"), "m")
    (1.3, 1.5, None)
    """
    return None if pd.isna(lay_mm) else to_buy_bare(float(lay_mm) + SQUARING_MM, unit)


def to_buy_bare(length_mm: float, unit: str) -> float:
    """A length (mm) rounded up as a shop cuts it, in metres (steps of 5 cm) or yards (eighths)."""
    return buy_mm(length_mm) / MM_PER_M if unit == "m" else eighth_yards(length_mm) / EIGHTHS


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
