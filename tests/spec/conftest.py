"""What the tests of the spec sheet share: the fixture garment and its sheet."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from boltside.pattern import Pattern
from boltside.read.folder import read_pattern
from boltside.spec.sheet import make_sheet

DATA = Path(__file__).parents[1] / "garment" / "data"

LAYS = {
    "outer": {
        "sets": [["front.outer.front.hip", "back.outer.front.hip"]],
        "lengths": {
            "folded": {nap: {"92": [[[1100, 400, 0, 2]]]} for nap in ("with", "without")},
            "flat": {nap: {"92": [[[1100, 390, 1, 2]]]} for nap in ("with", "without")},
        },
    }
}
"""Published lays by hand."""


@pytest.fixture(scope="session")
def oblong() -> Pattern:
    """The fixture garment."""
    return read_pattern(DATA / "patterns" / "oblong", DATA / "body_charts")


@pytest.fixture(scope="session")
def sheet(oblong: Pattern) -> dict[str, Any]:
    """Its spec sheet."""
    return make_sheet(oblong, LAYS)
