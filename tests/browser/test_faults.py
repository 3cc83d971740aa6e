"""Each fault of the handbook's table has a test, each marked test stands in the table, and the table says only that."""

from __future__ import annotations

import importlib
import re
from collections.abc import Iterator
from pathlib import Path
from types import FunctionType

import pytest

from .faults import BEGIN, BROWSERS, END, FAULTS, TABLE, Seen


def marked() -> Iterator[tuple[str, str]]:
    """Fault and name of every test that is marked."""
    for path in sorted(Path(__file__).parent.glob("test_*.py")):
        module = importlib.import_module(f"{__package__}.{path.stem}")
        for name, test in vars(module).items():
            if name.startswith("test_") and isinstance(test, FunctionType):
                for mark in getattr(test, "pytestmark", []):
                    if mark.name == "fault":
                        yield mark.args[0], f"{path.stem}.{name}"


def rows() -> list[list[str]]:
    made = TABLE.read_text("utf-8").split(BEGIN)[1].split(END)[0]
    lines = [line.strip("| ").split(" | ") for line in made.splitlines() if line.startswith("|")]
    assert lines[0] == ["what goes wrong", *BROWSERS]
    return lines[2:]


def test_each_fault_of_the_table_has_a_test() -> None:
    assert {fault for fault, _ in marked()} == set(FAULTS)


def test_the_handbooks_table_has_these_faults_and_was_made_with_all_browsers() -> None:
    assert [row[0] for row in rows()] == list(FAULTS.values())
    assert {cell for row in rows() for cell in row[1:] if not re.fullmatch(r"holds \(\d+\)|–", cell)} == set()
    assert all(row[1].startswith("holds") for row in rows())


def test_a_table_says_what_failed_and_what_was_not_asked() -> None:
    seen = Seen()
    seen.tests["one"] = [["gone", "Chromium", "passed"], ["gone", "Firefox", "skipped"]]
    seen.tests["two"] = [["gone", "Chromium", "failed"], ["gone", "Firefox", "passed"]]
    seen.tests["three"] = [["no room", "Firefox", "passed"]]
    cells = [seen.cell(*which) for which in (("gone", "Chromium"), ("gone", "Firefox"), ("no room", "Firefox"))]
    assert cells == ["**failed** (1 of 2)", "not here", "holds (1)"]
    assert seen.cell("no room", "WebKitGTK") == "–"


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_is_told_in_one_cell(fault: str) -> None:
    assert "|" not in FAULTS[fault]
