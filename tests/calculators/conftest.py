"""What the calculator tests share: the example sheet, opened, and asking in one line."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from boltside.calculators.door import answer

sys.path.insert(0, str(Path(__file__).parents[1]))

from cases.paper_sheet import lay_files, make_paper  # found on the path that is set just above

Fragments = dict[str, dict[str, Any]]
Ask = Callable[..., Fragments]


@pytest.fixture(scope="session")
def sheet() -> dict[str, Any]:
    """The spec sheet made by hand."""
    path = Path(__file__).parents[1] / "cases" / "sheet_example.json"
    made: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return made


@pytest.fixture
def ask(sheet: dict[str, Any]) -> Ask:
    """Ask a calculator about the example sheet; the fragments by their id."""
    assert json.loads(answer("open", json.dumps(sheet))) == {"opened": "example-jacket"}

    def asked(name: str, **request: Any) -> Fragments:
        said = json.loads(answer(name, json.dumps({"pattern": "example-jacket", **request})))
        assert said["calculator"] == name
        return {fragment["id"]: fragment for fragment in said["fragments"]}

    return asked


@pytest.fixture
def on_paper() -> Ask:
    """Ask a calculator about the garment of rectangles whose lays are right on paper, with its lay files open."""
    made = make_paper()
    assert json.loads(answer("open", json.dumps(made))) == {"opened": made["pattern"]}
    for file in lay_files().values():
        answer("open-lays", json.dumps(file))

    def asked(name: str, **request: Any) -> Fragments:
        said = json.loads(answer(name, json.dumps({"pattern": made["pattern"], **request})))
        return {fragment["id"]: fragment for fragment in said["fragments"]}

    return asked
