"""Which tables can be kept as files? Links to the CSV of each table and to the workbook with all of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boltside.pages import tables
from boltside.pages.markup import Html, element
from boltside.pages.table_files import csv_path, workbook_path

Sheet = Mapping[str, Any]


def downloads_part(sheet: Sheet) -> Html:
    """The links, as seen from the pattern's page; goes into a part of that page."""
    named = tables.all_tables(sheet)
    if not named:
        return Html("")
    csvs = [
        element(
            "li", element("a", table.title, href=csv_path(table.name), download=f"{sheet['pattern']}-{table.name}.csv")
        )
        for table in named
    ]
    return element(
        "details",
        element("summary", "Tables for a spreadsheet"),
        element("p", element("a", "All tables in one workbook (XLSX)", href=workbook_path(sheet), download=True)),
        element("p", "Each table as CSV:"),
        element("ul", *csvs, class_="downloads"),
        class_="folded",
        id="downloads",
    )
