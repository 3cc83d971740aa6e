"""The body chart as the drafts need it."""

from __future__ import annotations

import csv
from collections.abc import Iterable
from pathlib import Path

CHART = Path(__file__).resolve().parents[2] / "body_charts" / "thistle-quay.csv"
Body = dict[str, float]


def read_bodies(chart: Path = CHART) -> dict[str, Body]:
    """Return size to body: the measurement columns in mm, each under its name without `_mm`."""
    with chart.open(encoding="utf-8", newline="") as text:
        rows = csv.DictReader(row for row in text if not row.startswith("#"))
        return {
            row["size"]: {name.removesuffix("_mm"): float(row[name]) for name in row if name.endswith("_mm")}
            for row in rows
        }


def bodies_between(smallest: int, largest: int) -> dict[str, Body]:
    """Return the bodies of the sizes from the smallest to the largest, both included, in growing order."""
    wanted: Iterable[tuple[str, Body]] = read_bodies().items()
    return {size: body for size, body in wanted if smallest <= int(size) <= largest}
