"""Tables as files: CSV after RFC 4180, a workbook that readers open, no formulas, the same bytes twice."""

from __future__ import annotations

import csv
import io
import time
import zipfile
from typing import Any
from xml.etree import ElementTree

import openpyxl
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.pages import tables
from boltside.pages.downloads import downloads_part
from boltside.pages.table_files import cells_of, csv_bytes, sheet_name, table_files, workbook_bytes, workbook_path

from .reading import read

Json = dict[str, Any]
DANGEROUS = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", '=HYPERLINK("http://x.example")']
"""Beginnings that spreadsheet programs run. Source: OWASP, *CSV Injection*."""


def test_every_table_is_there_and_linked(sheet: Json) -> None:
    files = dict(table_files(sheet))
    names = [f"tables/{table.name}.csv" for table in tables.all_tables(sheet)]
    assert list(files) == [*names, "example-jacket.xlsx"] and len(names) > 3
    links = [link.attributes["href"] for link in read(downloads_part(sheet)).all("a")]
    assert sorted(str(link) for link in links) == sorted(files)


@pytest.mark.outside
def test_csv_reads_back_with_the_standard_library_reader(sheet: Json) -> None:
    """Source: RFC 4180, read by Python's `csv` and by pandas, both written elsewhere."""
    files = dict(table_files(sheet))
    for table in tables.all_tables(sheet):
        content = files[f"tables/{table.name}.csv"]
        assert content.startswith(b"\xef\xbb\xbf") and content.endswith(b"\r\n")
        assert b"\n" not in content.replace(b"\r\n", b"")
        rows = list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")))
        assert len({len(row) for row in rows}) == 1
        again = pd.read_csv(io.BytesIO(content))
        assert again.shape == (len(rows) - 1, len(rows[0]))
        for shown, meant in zip(rows, cells_of(table.frame), strict=True):
            assert shown == ["" if cell is None else str(cell) for cell in meant]


def test_workbook_reads_back(sheet: Json) -> None:
    book = openpyxl.load_workbook(io.BytesIO(dict(table_files(sheet))[workbook_path(sheet)]))
    named = tables.all_tables(sheet)
    assert len(book.sheetnames) == len(named)
    for page, table in zip(book.worksheets, named, strict=True):
        meant = cells_of(table.frame)
        assert [list(row) for row in page.iter_rows(values_only=True)] == meant


def test_the_workbook_is_a_well_formed_package(sheet: Json) -> None:
    """Packed with its list of parts first, and every part is XML. Source: ECMA-376, Part 2."""
    with zipfile.ZipFile(io.BytesIO(dict(table_files(sheet))[workbook_path(sheet)])) as packed:
        assert packed.testzip() is None
        assert packed.namelist()[0] == "[Content_Types].xml"
        for name in packed.namelist():
            ElementTree.fromstring(packed.read(name))


@pytest.mark.parametrize("words", DANGEROUS)
def test_no_words_become_a_formula(words: str) -> None:
    (line,) = list(csv.reader(io.StringIO(csv_bytes([[words]]).decode("utf-8-sig"), newline="")))
    assert line == [f"'{words}"]
    cell = openpyxl.load_workbook(io.BytesIO(workbook_bytes([("A", [[words]])]))).active["A1"]
    assert cell.data_type == "s" and cell.value == words


def test_negative_numbers_stay_numbers() -> None:
    assert csv_bytes([[-1.5, 3]]) == b"\xef\xbb\xbf-1.5,3\r\n"


def test_the_same_tables_give_the_same_bytes(sheet: Json) -> None:
    first = table_files(sheet)
    time.sleep(2.1)  # dates inside such files count in steps of two seconds
    assert table_files(sheet) == first


@given(st.lists(st.text(max_size=50), min_size=1, max_size=8))
def test_names_of_worksheets_are_allowed_and_differ(titles: list[str]) -> None:
    taken: set[str] = set()
    names = [sheet_name(title, taken) for title in titles]
    assert len({name.lower() for name in names}) == len(titles)
    assert all(0 < len(name) <= 31 and not set(name) & set("[]:*?/\\") for name in names)


def test_a_frame_becomes_rows_with_joined_headings() -> None:
    frame = pd.DataFrame([[1.0, float("nan")]], index=pd.Index(["92"], name="Size"))
    frame.columns = pd.MultiIndex.from_tuples([("Body", "Chest"), ("Ease", "")])
    assert cells_of(frame) == [["Size", "Body, Chest", "Ease"], ["92", 1, None]]
