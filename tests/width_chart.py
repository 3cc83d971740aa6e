"""Do lays of several garments follow the width chart of the trade? Solves them once: `python -m tests.width_chart`.

The chart says how many yards of each width do the work of so many yards of cloth of 35 to 36 in. It was made for adult
garments; several children's garments from one length are as much cloth. Which garments, is a rule that was written
down before anything was solved:

* each pattern that the demo shop had then, in the order of their names, with its usual options, its first cloth,
  without nap;
* three garments, in every second size from the largest down; and five, in the five largest sizes: flat;
* four, in the four largest sizes: folded once;
* one of each pattern in one size, the three largest that all of them have: flat. This was added when the skirts alone
  had missed the chart, before these were solved: the chart is of garments of many pieces, large and small;
* on cloth of 90 cm (35-36 in) and of the chart's other widths, each the middle of what its column says;
* a pattern whose widest piece does not lie on 90 cm in that way is left out.

Lays are quickly made ("everyday"), with the engine as it is. They are kept in `data/benchmark/width_chart.json` with
their places, so that a test looks at each again; a lay that is there is not solved anew.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path
from typing import Any

from boltside.calculators.choices import completed
from boltside.calculators.conditions import holds
from boltside.lay.codec import lay_from_json, lay_to_json
from boltside.lay.model import LayItem, LayRequest, TooWide, Way, check_widths
from boltside.lay.pool import Order, Pool
from boltside.lay.verify import faults
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import lay_item
from boltside.pattern import Pattern
from boltside.read.folder import read_pattern
from boltside.spec.json_form import choice_json

DATA = Path(__file__).parents[1] / "data"
KEPT = DATA / "benchmark" / "width_chart.json"
PATTERNS = ("breakwater", "ferrylight", "millrace")
GROUPS: tuple[tuple[Way, int, int], ...] = (("flat", 3, 2), ("flat", 5, 1), ("folded", 4, 1))
"""Way, number of garments, and how many sizes down the next one is."""
ONE_OF_EACH = "one of each"
SIZES_OF_EACH = 3

INCH_MM = 25.4
YARD_MM = 914.4
WIDTHS_MM = {"35-36": 900.0, "39": 991.0, "41-42": 1054.0, "44-45": 1130.0, "50": 1270.0, "52-54": 1346.0,
             "60": 1524.0}  # fmt: skip
"""The chart's columns in mm: the middle of each, 35-36 in as the 90 cm of our widths, the others to the millimetre."""

CHART = """
1 3/4 | 1 1/2 | 1 1/2 | 1 3/8 | 1 1/4 | 1 1/8 | 1
2     | 1 3/4 | 1 3/4 | 1 5/8 | 1 1/2 | 1 3/8 | 1 1/4
2 1/4 | 2     | 2     | 1 3/4 | 1 5/8 | 1 1/2 | 1 3/8
2 1/2 | 2 1/4 | 2 1/4 | 2 1/8 | 1 3/4 | 1 3/4 | 1 5/8
2 7/8 | 2 1/2 | 2 1/2 | 2 1/4 | 2     | 1 7/8 | 1 3/4
3 1/8 | 2 3/4 | 2 3/4 | 2 1/2 | 2 1/4 | 2     | 1 7/8
3 3/8 | 3     | 2 7/8 | 2 3/4 | 2 3/8 | 2 1/4 | 2
3 3/4 | 3 1/4 | 3 1/8 | 2 7/8 | 2 5/8 | 2 3/8 | 2 1/4
4 1/4 | 3 1/2 | 3 3/8 | 3 1/8 | 2 3/4 | 2 5/8 | 2 3/8
4 1/2 | 3 3/4 | 3 5/8 | 3 3/8 | 3     | 2 3/4 | 2 5/8
4 3/4 | 4     | 3 7/8 | 3 5/8 | 3 1/4 | 2 7/8 | 2 3/4
5     | 4 1/4 | 4 1/8 | 3 7/8 | 3 3/8 | 3 1/8 | 2 7/8
"""
"""Yards by width, SEEN in two independent pages (a width conversion chart of the trade, adult garments)."""

SHORTEST_MM = 1600.0
"""The chart begins at 1 3/4 yd; shorter lays go in steps and need not follow. With the brief of this check."""
TIME_OUT_S = 3600.0


@dataclass(frozen=True, kw_only=True)
class Group:
    """Some garments of one pattern that are laid together, in one way."""

    pattern: str
    way: Way
    sizes: tuple[str, ...]
    items: tuple[LayItem, ...]

    @property
    def name(self) -> str:
        return f"{self.pattern}, {self.way}, {' + '.join(self.sizes)}"

    def request(self, width_mm: float) -> LayRequest:
        return LayRequest(items=self.items, bolt_width_mm=width_mm, way=self.way, one_way=False)


def chart() -> list[dict[str, float]]:
    """The chart's rows in yards, by column."""
    rows = [line.split("|") for line in CHART.strip().splitlines()]
    return [
        {column: sum(_number(part) for part in cell.split()) for column, cell in zip(WIDTHS_MM, row, strict=True)}
        for row in rows
    ]


def _number(text: str) -> float:
    above, _, below = text.partition("/")
    return int(above) / int(below or 1)


def of_chart_mm(length_mm: float, column: str) -> float | None:
    """What the chart says of another width for so much cloth of 90 cm, in mm: between two rows in proportion. None
    outside of the chart."""
    yards, rows = length_mm / YARD_MM, chart()
    for low, high in pairwise(rows):
        if low["35-36"] <= yards <= high["35-36"]:
            part = (yards - low["35-36"]) / (high["35-36"] - low["35-36"])
            return (low[column] + part * (high[column] - low[column])) * YARD_MM
    return None


def groups() -> Iterator[Group]:
    """The garments by the rule above."""
    patterns = [read_pattern(DATA / "patterns" / name, DATA / "body_charts") for name in PATTERNS]
    for pattern in patterns:
        for way, number, down in GROUPS:
            sizes = list(pattern.sizes)[::-down][:number]
            items = [item for size in sizes for item in _pieces(pattern, size, size)]
            group = Group(pattern=pattern.folder, way=way, sizes=tuple(sizes), items=tuple(items))
            try:
                check_widths(group.request(WIDTHS_MM["35-36"]))
            except TooWide:
                continue
            yield group
    for size in [one for one in patterns[0].sizes if all(one in other.sizes for other in patterns)][-SIZES_OF_EACH:]:
        items = [item for pattern in patterns for item in _pieces(pattern, size, pattern.folder)]
        yield Group(pattern=ONE_OF_EACH, way="flat", sizes=(size,), items=tuple(items))


def _pieces(pattern: Pattern, size: str, mark: str) -> Iterator[LayItem]:
    """What the usual options cut from the first cloth; `mark` tells the pieces of one garment from another's."""
    chosen = completed([choice_json(one) for one in pattern.choices], {"size": size})
    for line in cut_lines(pattern):
        if line.cloth == pattern.cloths[0].name and size in line.made_with and holds(line.when, chosen):
            yield replace(lay_item(pattern, line, size), item_id=f"{line.line_id}@{mark}")


def kept() -> dict[str, dict[str, Any]]:
    """The lays that were made, by the name of their garments and column."""
    rows = json.loads(KEPT.read_text(encoding="utf-8")) if KEPT.exists() else []
    return {f"{row['group']}, {row['column']}": row for row in rows}


def keep(rows: dict[str, dict[str, Any]]) -> None:
    lines = [json.dumps(rows[name], sort_keys=True, separators=(",", ":")) for name in sorted(rows)]
    KEPT.write_text("[\n" + ",\n".join(lines) + "\n]\n", encoding="utf-8")


def solve() -> None:
    """Make the lays that are missing, and keep each as soon as it is there."""
    rows = kept()
    wanted = {
        f"{group.name}, {column}": (group, column)
        for column in WIDTHS_MM
        for group in groups()
        if f"{group.name}, {column}" not in rows
    }
    with Pool(workers=1, time_out_s=TIME_OUT_S) as pool:
        for name, (group, column) in wanted.items():
            pool.submit(Order(name=name, request=group.request(WIDTHS_MM[column]), quality="everyday"))
        for outcome in pool.outcomes():
            group, column = wanted[outcome.order.name]
            if outcome.lay is None or faults(outcome.order.request, outcome.lay):
                raise SystemExit(f"{outcome.order.name}: {outcome.error or faults(outcome.order.request, outcome.lay)}")
            rows[outcome.order.name] = {"group": group.name, "column": column, **lay_to_json(outcome.lay)}
            keep(rows)
            print(f"{outcome.order.name}: {outcome.lay.length_mm:.0f} mm", flush=True)


@dataclass(frozen=True, kw_only=True)
class Compared:
    """One lay beside the chart: its length, what the chart says for it, and the length on 90 cm (mm)."""

    name: str
    column: str
    length_mm: float
    chart_mm: float | None
    narrow_mm: float

    @property
    def ratio(self) -> float | None:
        return None if self.chart_mm is None else self.length_mm / self.chart_mm


def compared() -> list[Compared]:
    """Every kept lay that is on wider cloth than 90 cm, beside the chart."""
    rows, found = kept(), []
    for row in rows.values():
        narrow = rows.get(f"{row['group']}, 35-36")
        if row["column"] != "35-36" and narrow is not None:
            narrow_mm, length_mm = (lay_from_json(one).length_mm for one in (narrow, row))
            found.append(Compared(name=row["group"], column=row["column"], length_mm=length_mm, narrow_mm=narrow_mm,
                                  chart_mm=of_chart_mm(narrow_mm, row["column"])))  # fmt: skip
    return sorted(found, key=lambda one: (one.name, WIDTHS_MM[one.column]))


def main() -> None:
    if "--look" not in sys.argv:
        solve()
    for one in compared():
        ratio = "outside of the chart" if one.ratio is None else f"{one.ratio:.3f}"
        chart_words = "" if one.chart_mm is None else f", chart {one.chart_mm:.0f}"
        print(f"{one.name}: 90 cm {one.narrow_mm:.0f}; {one.column} in {one.length_mm:.0f}{chart_words}: {ratio}")


if __name__ == "__main__":
    main()
