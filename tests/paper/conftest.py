"""The example sheet; and whether PDFs can be made: in CI they must, elsewhere their tests are skipped where not."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import pytest

from boltside.paper.print_pdf import why_not

EXAMPLE = Path(__file__).parents[1] / "cases" / "sheet_example.json"


@pytest.fixture
def sheet() -> dict[str, Any]:
    """The example sheet, fresh for each test."""
    made: dict[str, Any] = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    return made


@pytest.fixture
def printing() -> None:
    """For tests that make PDFs."""
    if why_not():
        assert not os.environ.get("CI"), why_not()
        pytest.skip(why_not())
