"""Each error code has a broken folder, and each broken folder its whole messages."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from boltside.check import check_patterns, examine
from boltside.errors import CODES, ProblemsFound, covering_dear
from boltside.read.folder import read_patterns

from .cases import CASES as FIRST_CASES
from .cases import Broken
from .cases_advice import ADVICE
from .cases_clauses import CLAUSES
from .cases_closures import CLOSURES
from .cases_files import FILES, SHOP
from .cases_guide import GUIDE
from .cases_guide_whole import GUIDES
from .cases_plans import PLANS
from .cases_remnants import REMNANTS
from .cases_repeats import REPEATS
from .cases_worn import WORN
from .folders import BASE, broken_data, snapshot

CASES = (*FIRST_CASES, *CLAUSES, *PLANS, *FILES, *REMNANTS, *REPEATS, *ADVICE, *CLOSURES, *GUIDE, *GUIDES, *WORN)
HANDBOOK = Path(__file__).parents[2] / "site_src" / "handbook" / "errors.md"

MEASURED = ("seam-lengths", "broken-chain", "not-measurable", "shrinking-grading", "ease-off",
            "no-room-for-closures", "closures-moved", "narrow-overlap", "closure-not-backed",
            "too-tight-to-pull-on", "channel-too-narrow",
            "channel-narrow", "elastic-not-for-all", "elastic-does-not-fit", "tabled-elastic-off", "word-unresolved",
            "unknown-technique")  # fmt: skip
"""Found by measuring, not by reading."""

SAID_ELSEWHERE = ("covering-dear",)
"""Said by the planning of lays; its message has a test of its own below."""


def test_the_base_is_good() -> None:
    found = examine(BASE)
    assert [pattern.folder for pattern in found.patterns] == ["plain"]
    assert found.problems == ()


@pytest.mark.parametrize("case", CASES, ids=[case.name.replace(" ", "-") for case in CASES])
def test_broken_folder_says_everything_and_writes_nothing(case: Broken, tmp_path: Path) -> None:
    data_dir = broken_data(case.changes, tmp_path / "data")
    before = snapshot(tmp_path)
    problems = examine(data_dir).problems
    assert tuple(str(problem).replace(f"{data_dir.as_posix()}/", "") for problem in problems) == case.messages
    assert snapshot(tmp_path) == before
    if any(problem.severity == "error" for problem in problems):
        with pytest.raises(ProblemsFound) as raised:
            list(check_patterns(data_dir))
        assert raised.value.problems == problems
        errors = [one for one in problems if one.severity == "error" and one.code not in MEASURED]
        of_reading = [one for one in errors if not one.path.endswith((SHOP, "lays.json", "press.md"))]
        if of_reading:
            with pytest.raises(ProblemsFound) as raised:
                read_patterns(data_dir)
            assert set(of_reading) <= set(raised.value.problems)
    else:
        assert read_patterns(data_dir)
        assert [line for line in check_patterns(data_dir) if "[" in line] == [problem.told for problem in problems]


def test_each_code_has_a_broken_folder() -> None:
    shown = {
        case.code
        for case in CASES
        if any(re.search(rf"\[((warning|advice): )?{case.code}\]", one) for one in case.messages)
    }
    assert sorted(set(CODES) - shown - set(SAID_ELSEWHERE)) == []
    assert sorted(case.code for case in CASES if case.code not in shown) == []


def test_names_of_cases_are_their_own() -> None:
    names = [case.name for case in CASES]
    assert sorted(set(names)) == sorted(names)


def test_handbook_lists_each_code_with_its_meaning() -> None:
    rows = re.findall(r"^\| `([a-z0-9-]+)` \| (.+) \|$", HANDBOOK.read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert dict(rows) == CODES
    assert len(rows) == len(CODES)


def test_what_a_covering_lay_costs_is_said_whole() -> None:
    problem = covering_dear(
        path="patterns/plain/pattern.yaml", pattern="plain", cloth="outer", size="92", cost_mm=61.2, line=30, column=3
    )
    assert problem.told == (
        "Warning: patterns/plain/pattern.yaml:30:3: [warning: covering-dear] "
        "seen pieces of `outer` in size 92 that may be told 61 mm more than they need; "
        "expected at most 50 mm, one purchase step; "
        "run `boltside lay plain`, so that smaller sets get lays of their own"
    )


def test_first_words_tell_severities_apart() -> None:
    problem = covering_dear(path="p", pattern="p", cloth="outer", size="92", cost_mm=60)
    words = [replace(problem, severity=severity).told.split()[0] for severity in ("error", "warning", "advice")]
    assert words == ["Error:", "Warning:", "Advice:"]
