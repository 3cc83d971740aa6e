"""How much of a cloth is to be bought, in each size, width, way of laying and nap? As frames, in mm and as a shop cuts.

The lengths are the calculators'; here they are arranged and rounded up.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import pandas as pd

from boltside.calculators.choices import completed
from boltside.calculators.nap import FORCED, WITH, WITHOUT, nap_said
from boltside.calculators.request import read_request
from boltside.calculators.spread import SQUARING_MM, spread_out
from boltside.calculators.units import MM_PER_CM, MM_PER_M, buy_mm, eighth_yards, width

Sheet = Mapping[str, Any]
Cloth = Mapping[str, Any]

WAY_TITLES = {
    "folded": "Folded once",
    "flat": "Flat, one layer",
    "middle": "Selvedges to the middle",
    "part-folded": "Folded over in part",
}
NAP_TITLES = {WITHOUT: "without nap", WITH: "with nap"}
USUAL_WIDTHS_MM = (900, 1100, 1150, 1350, 1400, 1500, 1600)
"""The widths most cloth is sold in (common practice); the page shows those first."""
EIGHTHS = 8


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
    frame.columns = pd.Index([f"{width_words(mm, unit)} wide ({unit})" for mm in amounts["width_mm"].drop_duplicates()])
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
