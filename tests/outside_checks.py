"""Which figures from outside do the tests compare with? Makes the handbook's table from the tests themselves.

    .venv/bin/python -m tests.outside_checks            says what the table holds now
    .venv/bin/python -m tests.outside_checks --write    writes it anew
"""

from __future__ import annotations

import contextlib
import io
import os
import sys
from collections import Counter
from collections.abc import Mapping, Sequence
from fnmatch import fnmatchcase
from pathlib import Path

import pytest

from tests.outside_sources import CHECKS, INDEPENDENT, SOURCES, Check

ROOT = Path(__file__).parents[1]
TABLE = ROOT / "site_src" / "handbook" / "outside-checks.md"
MOST_OF_A_SOURCE = 15
"""So many figures of one source count, however many there are."""
NO_FIGURES = frozenset({"__init__"})


class Unregistered(Exception):
    """A test marked `outside` has no line in outside_sources.py, or a line there is about no test."""


class _Collected:
    """A plugin that keeps which tests are marked."""

    def __init__(self) -> None:
        self.names: list[str] = []

    def pytest_collection_modifyitems(self, items: Sequence[pytest.Item]) -> None:
        """Keep `file::function` of each marked case."""
        for item in items:
            if item.get_closest_marker("outside"):
                file, _, rest = item.nodeid.partition("::")
                self.names.append(f"{file.removeprefix('tests/')}::{rest.split('[')[0]}")


def collected() -> Counter[str]:
    """The tests marked `outside`, each with its number of cases."""
    found = _Collected()
    said = io.StringIO()
    before = Path.cwd()
    os.chdir(ROOT)
    try:
        with contextlib.redirect_stdout(said):
            code = pytest.main(["--collect-only", "-q", "-m", "outside", "tests"], plugins=[found])
    finally:
        os.chdir(before)
    if code:
        raise Unregistered(f"the tests could not be collected:\n{said.getvalue()[-2000:]}")
    return Counter(found.names)


def checks_of(name: str, checks: Sequence[Check] = CHECKS) -> list[Check]:
    """The lines about a test: the first that fits, and those of the same pattern with another source."""
    first = next((check for check in checks if fnmatchcase(name, check.tests)), None)
    return [] if first is None else [check for check in checks if check.tests == first.tests]


def rows_of(cases: Mapping[str, int], checks: Sequence[Check] = CHECKS) -> list[tuple[Check, int]]:
    """Each line with how many figures there are. Raises: Unregistered."""
    fits = {name: checks_of(name, checks) for name in cases}
    missing = sorted(name for name, found in fits.items() if not found)
    if missing:
        raise Unregistered("tests marked `outside` without a line in outside_sources.py: " + ", ".join(missing))
    rows = []
    for check in checks:
        count = sum(cases[name] for name, found in fits.items() if check in found)
        if not count:
            raise Unregistered(f"this line of outside_sources.py is about no test: {check.tests}")
        rows.append((check, count if check.figures is None else check.figures))
    return rows


def calculators() -> list[str]:
    """All calculators by name."""
    return sorted(path.stem for path in (ROOT / "calculators").glob("*.py") if path.stem not in NO_FIGURES)


def table_text(cases: Mapping[str, int]) -> str:
    """The handbook's page. Argument: the marked tests with their numbers of cases."""
    rows = rows_of(cases)
    totals: Counter[str] = Counter()
    for check, figures in rows:
        totals[check.source] += figures
    counted = {name: min(MOST_OF_A_SOURCE, total) for name, total in totals.items()}
    theirs = [name for name in counted if SOURCES[name].kind in INDEPENDENT]
    lines = [
        "# Checks against figures from outside",
        "",
        "Made by `python -m tests.outside_checks --write` from the tests marked `outside`; do not edit by hand. Such a",
        "test compares what Boltside reckons with figures that are not its own; their source stands beside the check.",
        "",
        f"From {len(theirs)} independent sources {sum(totals[name] for name in theirs)} figures, of which "
        f"{sum(counted[name] for name in theirs)} count: at most {MOST_OF_A_SOURCE} of each source.",
        "",
        "## Sources",
        "",
        "| source | kind | figures | counted |",
        "|---|---|---|---|",
    ]
    kinds = list(dict.fromkeys(source.kind for source in SOURCES.values()))
    for name in sorted(counted, key=lambda one: (kinds.index(SOURCES[one].kind), list(SOURCES).index(one))):
        source = SOURCES[name]
        lines.append(f"| {source.words} | {source.kind} | {totals[name]} | {counted[name]} |")
    lines += ["", "## Rules", "", "| rule | calculators | source | figures | tests |", "|---|---|---|---|---|"]
    for check, figures in rows:
        tests = check.tests.removesuffix("::*").replace("*", "…")
        named = ", ".join(f"`{one}`" for one in check.calculators.split())
        words = SOURCES[check.source].words
        lines.append(f"| {check.rule} | {named} | {words} | {figures} | `{tests}` |")
    checked = {one for check in CHECKS for one in check.calculators.split()}
    bare = [f"`{one}`" for one in calculators() if one not in checked]
    lines += ["", "## Calculators without a figure from outside", "", f"{', '.join(bare)}." if bare else "None.", ""]
    lines += [
        "Some reckon nothing, but say in words what others reckon, or choose what is said. They are held against sums",
        "of a garment of rectangles and triangles, whose shortest lays are right on paper, against sets and graphs",
        "that can be counted on paper, or against the standard of the form that they read or write. Where a row names",
        "several calculators, they are compared together.",
        "",
    ]
    return "\n".join(lines)


def main() -> int:
    """Say or write the table; returns the exit code."""
    try:
        text = table_text(collected())
    except Unregistered as error:
        print(error, file=sys.stderr)
        return 1
    current = TABLE.exists() and TABLE.read_text(encoding="utf-8") == text
    if "--write" in sys.argv[1:]:
        TABLE.write_text(text, encoding="utf-8", newline="\n")
        print(f"Wrote {TABLE.relative_to(ROOT)}.")
        return 0
    print(text.splitlines()[5])
    print("The handbook's table is current." if current else "The table is older; write it anew with --write.")
    return 0 if current else 1


if __name__ == "__main__":
    sys.exit(main())
