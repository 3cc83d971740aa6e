"""The example sheet, opened by the calculators, with the answer for its usual choices."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from boltside.shop_build import PatternFiles, pattern_files

EXAMPLE = Path(__file__).parents[1] / "cases" / "sheet_example.json"


@pytest.fixture
def sheet() -> dict[str, Any]:
    """The example sheet, fresh for each test."""
    made: dict[str, Any] = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    return made


@pytest.fixture
def pattern(sheet: dict[str, Any]) -> PatternFiles:
    """The example pattern's files."""
    return pattern_files(sheet)
