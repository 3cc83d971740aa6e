"""The handbook's table of checks against figures from outside is made from the tests that there are."""

from __future__ import annotations

import os
import re
import subprocess
import sys

import pytest

from tests.outside_checks import ROOT, TABLE, Unregistered, calculators, checks_of, rows_of
from tests.outside_sources import CHECKS, INDEPENDENT, SOURCES, Check

SOME = (Check("a.py::test_one", "one", "who", 3), Check("a.py::test_one", "one", "pint"), Check("b.py::*", "b", "pint"))


@pytest.mark.slow
def test_the_table_is_current() -> None:
    """If this fails: `python -m tests.outside_checks --write`, after a line for each new test in outside_sources.py."""
    command = [sys.executable, "-m", "tests.outside_checks"]
    told = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, env={**os.environ, "PYTEST_ADDOPTS": ""})
    assert told.returncode == 0, told.stdout + told.stderr


def test_enough_figures_from_enough_sources() -> None:
    said = re.search(r"From (\d+) independent sources (\d+) figures, of which (\d+) count", TABLE.read_text("utf-8"))
    assert said is not None
    assert int(said[1]) >= 12 and int(said[3]) >= 150


def test_a_test_without_a_line_and_a_line_without_a_test_are_told() -> None:
    rows = rows_of({"a.py::test_one": 2, "b.py::test_x": 4, "b.py::test_y": 1}, SOME)
    assert [figures for _, figures in rows] == [3, 2, 5]
    with pytest.raises(Unregistered, match="test_two"):
        rows_of({"a.py::test_one": 1, "a.py::test_two": 1, "b.py::test_x": 1}, SOME)
    with pytest.raises(Unregistered, match="about no test: b"):
        rows_of({"a.py::test_one": 1}, SOME)
    assert checks_of("a.py::test_two", SOME) == []


def test_lines_name_sources_and_calculators_that_there_are() -> None:
    known = set(calculators())
    for check in CHECKS:
        assert check.source in SOURCES
        assert set(check.calculators.split()) <= known, check
    assert {check.source for check in CHECKS} == set(SOURCES)
    assert {source.kind for source in SOURCES.values()} > set(INDEPENDENT)
