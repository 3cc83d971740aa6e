"""Each error code has a broken folder, and each broken folder its whole messages."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from boltside.errors import CODES, ProblemsFound
from boltside.read.folder import examine_patterns, read_patterns

from .cases import CASES, Broken
from .folders import BASE, broken_data, snapshot

HANDBOOK = Path(__file__).parents[2] / "site_src" / "handbook" / "errors.md"


def test_the_base_is_good() -> None:
    patterns, problems = examine_patterns(BASE)
    assert [pattern.folder for pattern in patterns] == ["plain"]
    assert problems == ()


@pytest.mark.parametrize("case", CASES, ids=[case.name.replace(" ", "-") for case in CASES])
def test_broken_folder_says_everything_and_writes_nothing(case: Broken, tmp_path: Path) -> None:
    data_dir = broken_data(case.changes, tmp_path / "data")
    before = snapshot(tmp_path)
    _, problems = examine_patterns(data_dir)
    assert tuple(str(problem).replace(f"{data_dir.as_posix()}/", "") for problem in problems) == case.messages
    assert snapshot(tmp_path) == before
    if any(problem.severity == "error" for problem in problems):
        with pytest.raises(ProblemsFound) as raised:
            read_patterns(data_dir)
        assert raised.value.problems == problems
    else:
        assert read_patterns(data_dir)


def test_each_code_has_a_broken_folder() -> None:
    shown = {
        case.code for case in CASES if any(re.search(rf"\[(warning: )?{case.code}\]", one) for one in case.messages)
    }
    assert sorted(set(CODES) - shown) == []
    assert sorted(case.code for case in CASES if case.code not in shown) == []


def test_names_of_cases_are_their_own() -> None:
    names = [case.name for case in CASES]
    assert sorted(set(names)) == sorted(names)


def test_handbook_lists_each_code_with_its_meaning() -> None:
    rows = re.findall(r"^\| `([a-z0-9-]+)` \| (.+) \|$", HANDBOOK.read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert dict(rows) == CODES
    assert len(rows) == len(CODES)
