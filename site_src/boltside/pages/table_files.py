"""Which files hold a page's tables, for spreadsheets? One CSV per table, and one workbook with a sheet per table.

CSV follows RFC 4180: commas, CRLF, quotes doubled. It begins with a byte order mark, because spreadsheet programs
that open a file by a double click otherwise read UTF-8 as the system's old character set and spoil every ½ and é.
Words that a spreadsheet would run as a formula get an apostrophe in front in CSV, and are stored as text in the
workbook. The same tables give the same bytes: dates inside the workbook are fixed.
"""

from __future__ import annotations

import csv
import io
import re
import zipfile
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

import pandas as pd
from openpyxl import Workbook
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter

from boltside.pages import tables

Sheet = Mapping[str, Any]
Cell = str | int | float | None

BYTE_ORDER_MARK = "\ufeff"
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
"""Signs with which spreadsheet programs begin a formula or a command (common practice)."""
FIXED_DAY = datetime(2000, 1, 1)
"""Stands for *made on* and *changed on* in the workbook, which else would differ in each build."""
ZIP_DAY = (2000, 1, 1, 0, 0, 0)
LONGEST_SHEET_NAME = 31
"""Longest name of a worksheet. Source: ECMA-376 readers; Excel refuses longer ones."""
FORBIDDEN_IN_SHEET_NAMES = re.compile(r"[\\/*?:\[\]]")
WIDEST_COLUMN = 40
"""In characters, so that a note does not push the rest off the screen. Our choice."""


def table_files(sheet: Sheet) -> list[tuple[str, bytes]]:
    """The files of all tables of a pattern: path below the pattern's page, and content."""
    named = tables.all_tables(sheet)
    found = [(csv_path(table.name), csv_bytes(cells_of(table.frame))) for table in named]
    if named:
        found.append((workbook_path(sheet), workbook_bytes([(table.title, cells_of(table.frame)) for table in named])))
    return found


def csv_path(table: str) -> str:
    """Where a table's CSV lies, as seen from the pattern's page."""
    return f"tables/{table}.csv"


def workbook_path(sheet: Sheet) -> str:
    """Where the workbook lies, as seen from the pattern's page."""
    return f"{sheet['pattern']}.xlsx"


def cells_of(frame: pd.DataFrame) -> list[list[Cell]]:
    """A table as rows of cells, headings first; headings over several levels are joined by a comma.

    The index is written as leading columns when it has a name.
    """
    if any(name is not None for name in frame.index.names):
        frame = frame.reset_index()
    head: list[Cell] = [
        ", ".join(str(level) for level in name if str(level)) if isinstance(name, tuple) else str(name)
        for name in frame.columns
    ]
    rows: list[list[Cell]] = [
        [cell_of(value) for value in row] for row in frame.astype(object).itertuples(index=False, name=None)
    ]
    return [head, *rows]


def cell_of(value: Any) -> Cell:
    """A value as spreadsheets know it; what is not there, or no words, is an empty cell.

    >>> cell_of(float("nan")), cell_of(92.0), cell_of(1.35), cell_of("92")
    (None, 92, 1.35, '92')
    """
    if value is None or value is pd.NA or (isinstance(value, float) and value != value):
        return None
    if isinstance(value, str):
        return str(value) or None
    number = float(value)
    return int(number) if number.is_integer() else number


def csv_bytes(rows: Sequence[Sequence[Cell]]) -> bytes:
    """The rows as CSV. Numbers stay numbers; words that look like a formula get an apostrophe in front.

    >>> csv_bytes([["Piece", "cm"], ["=1+1", -2.5]])
    b"\\xef\\xbb\\xbfPiece,cm\\r\\n'=1+1,-2.5\\r\\n"
    """
    written = io.StringIO(newline="")
    writer = csv.writer(written, lineterminator="\r\n")
    for row in rows:
        writer.writerow(["" if cell is None else harmless(cell) for cell in row])
    return (BYTE_ORDER_MARK + written.getvalue()).encode("utf-8")


def harmless(cell: Cell) -> Cell:
    """Words that no spreadsheet runs.

    >>> harmless("@sum"), harmless("-"), harmless(-3), harmless("Front")
    ("'@sum", "'-", -3, 'Front')
    """
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(FORMULA_STARTS) else cell


def workbook_bytes(named: Sequence[tuple[str, Sequence[Sequence[Cell]]]]) -> bytes:
    """A workbook in the Office Open XML format with a sheet per table, the same bytes for the same tables."""
    book = Workbook()
    book.remove(book.worksheets[0])
    book.properties.creator = "Boltside"
    book.properties.created = FIXED_DAY
    taken: set[str] = set()
    for title, rows in named:
        page = book.create_sheet(sheet_name(title, taken))
        page.freeze_panes = "B2"
        for at, row in enumerate(rows, start=1):
            for column, value in enumerate(row, start=1):
                if value is None:
                    continue
                cell = page.cell(at, column, value)
                if isinstance(value, str):
                    cell.data_type = "s"  # else a leading = would make it a formula
                if at == 1:
                    cell.font = Font(bold=True)
        for column in range(1, len(rows[0]) + 1):
            widest = max(len(str(row[column - 1] or "")) for row in rows)
            page.column_dimensions[get_column_letter(column)].width = min(widest + 2, WIDEST_COLUMN)
    written = io.BytesIO()
    book.save(written)
    return with_fixed_dates(written.getvalue())


def sheet_name(title: str, taken: set[str]) -> str:
    """A name that a worksheet may have and that none has yet; it is added to those taken.

    >>> sheet_name("Lining: flat/folded", set()), sheet_name("A", {"a"})
    ('Lining flat folded', 'A 2')
    """
    plain = (
        " ".join(FORBIDDEN_IN_SHEET_NAMES.sub(" ", title).split()).strip("'")[:LONGEST_SHEET_NAME].strip() or "Table"
    )
    name, number = plain, 1
    while name.lower() in taken:
        number += 1
        name = f"{plain[: LONGEST_SHEET_NAME - len(str(number)) - 1]} {number}"
    taken.add(name.lower())
    return name


def with_fixed_dates(book: bytes) -> bytes:
    """The workbook packed anew, with a fixed day for each part and for *changed on*."""
    packed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(book)) as old, zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as new:
        for name in sorted(old.namelist(), key=lambda name: (name != "[Content_Types].xml", name)):
            content = old.read(name)
            if name == "docProps/core.xml":
                day = FIXED_DAY.strftime("%Y-%m-%dT%H:%M:%SZ").encode()
                content = re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>" + day, content)
            part = zipfile.ZipInfo(name, ZIP_DAY)
            part.compress_type = zipfile.ZIP_DEFLATED
            part.create_system = 3  # the same on every system
            new.writestr(part, content)
    return packed.getvalue()
