"""Reads a body chart: one row a size, measurements in whole millimetres, sources in the lines that begin with `#`."""

from __future__ import annotations

import csv
import io
import math
import re
from collections import Counter
from pathlib import Path
from typing import Final

from boltside.pattern import BodyChart
from boltside.read.collect import START, Problems, quoted
from boltside.read.document import SIZE_PATTERN
from boltside.read.meant_number import Bounds, asked_unit, mend_of_text
from boltside.read.text_file import CHART_BYTES_MAX, read_text, shown

SIZE_COLUMN: Final = "size"
AGE_COLUMN: Final = "age"
UNIT_SUFFIX: Final = "_mm"
COLUMNS_MAX: Final = 200
"""More measurements than anybody takes. Our choice."""

BODY_MM: Final = (1, 3_000)
"""No body measurement is outside of this. Our choice, against slips of units."""


def read_body_chart(path: Path, root: Path, problems: Problems) -> BodyChart | None:
    """The chart, or None with problems noted.

    Arguments: `root` is the folder the chart may not lie outside of.
    """
    text = read_text(path, root, CHART_BYTES_MAX, problems, "the body chart that `body_chart` names")
    if text is None:
        return None
    before = problems.errors
    name = shown(path)
    lines = text.split("\n")
    sources: list[str] = []
    while lines and lines[0].startswith("#"):
        sources.append(lines.pop(0).lstrip("#").strip())
    skipped = len(sources)
    reader = csv.reader(io.StringIO("\n".join(lines)), strict=True)
    table: list[tuple[int, list[str]]] = []
    line = skipped
    try:
        for cells in reader:
            # A quoted cell may run over several lines; the row stands where it began.
            begun, line = line + 1, skipped + reader.line_num
            if any(cell.strip() for cell in cells):
                table.append((begun, [cell.strip() for cell in cells]))
    except csv.Error as error:
        problems.add(
            "bad-chart",
            name,
            (skipped + reader.line_num, 1),
            seen=f"a row that is no CSV ({error})",
            expected="cells with commas between",
            mend="look at the quotes of this row",
        )
        return None
    chart = _chart(table, name, path.stem, tuple(sources), problems)
    return chart if problems.errors == before else None


def _chart(
    table: list[tuple[int, list[str]]], name: str, stem: str, sources: tuple[str, ...], problems: Problems
) -> BodyChart | None:
    if not table or SIZE_COLUMN not in table[0][1]:
        problems.add(
            "bad-chart",
            name,
            (table[0][0], 1) if table else START,
            seen="no column `size`",
            expected="a row of column names, `size` among them",
            mend="begin the table with `size,height_mm,…`",
        )
        return None
    header_line, header = table[0]
    if len(header) > COLUMNS_MAX:
        problems.add(
            "bad-chart",
            name,
            (header_line, 1),
            seen=f"{len(header)} columns",
            expected=f"at most {COLUMNS_MAX}",
            mend="delete the columns that are not needed",
        )
        return None
    for twice in sorted(one for one, count in Counter(header).items() if count > 1):
        problems.add(
            "bad-chart",
            name,
            (header_line, 1),
            seen=f"the column {quoted(twice)} twice",
            expected="each column once",
            mend="rename or delete one of them",
        )
    rows: dict[str, dict[str, float]] = {}
    ages: dict[str, str] = {}
    for line, cells in table[1:]:
        if len(cells) != len(header):
            problems.add(
                "bad-chart",
                name,
                (line, 1),
                seen=f"{len(cells)} cells",
                expected=f"{len(header)}, as in the header",
                mend="look for a comma too many or too few",
            )
            continue
        row = dict(zip(header, cells, strict=True))
        size = row[SIZE_COLUMN]
        column = 1
        figures: dict[str, float] = {}
        for title, cell in zip(header, cells, strict=True):
            if title == SIZE_COLUMN and (not re.fullmatch(SIZE_PATTERN, cell) or cell in rows):
                problems.add(
                    "bad-chart",
                    name,
                    (line, column),
                    seen=f"the size {quoted(cell)}{' again' if cell in rows else ''}",
                    expected="a size of its own in each row, like `92`",
                    mend="correct or delete the row",
                )
            if title.endswith(UNIT_SUFFIX):
                figure = int(cell) if re.fullmatch(r"[0-9]{1,6}", cell) else None
                if figure is None or not BODY_MM[0] <= figure <= BODY_MM[1]:
                    problems.add(
                        "bad-chart",
                        name,
                        (line, column),
                        seen=f"{quoted(cell)} under {quoted(title)}",
                        expected=f"whole millimetres from {BODY_MM[0]} to {BODY_MM[1]}",
                        mend=_mend(cell),
                    )
                else:
                    figures[title.removesuffix(UNIT_SUFFIX)] = float(figure)
            column += len(cell) + 1
        if row.get(AGE_COLUMN):
            ages[size] = row[AGE_COLUMN]
        rows[size] = figures
    return BodyChart(name=stem, sources=sources, rows=rows, ages=ages)


def _mend(cell: str) -> str:
    """How to mend a figure that is no whole number of mm, or out of bounds."""
    bounds = Bounds(low=BODY_MM[0], high=BODY_MM[1], in_mm=True, whole=True)
    text = mend_of_text(cell, bounds)
    if text is not None:
        return text
    if not re.fullmatch(r"[0-9]{1,6}[.,][0-9]{1,6}", cell):
        return "correct the figure"
    value = float(cell.replace(",", "."))
    return asked_unit(value, bounds) or f"round it to whole millimetres: {math.floor(value + 0.5)}"
