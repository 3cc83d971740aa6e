"""The guides of seven garments are, letter by letter, those that were read."""

from __future__ import annotations

import pytest
from cases.real_sheets import real_sheet
from guides_as_text import FOLDER, GARMENTS, file_of, text_of


@pytest.mark.parametrize(("name", "size", "chosen"), GARMENTS, ids=[file_of(*one).stem for one in GARMENTS])
def test_the_guide_is_the_one_that_was_read(name: str, size: str, chosen: dict[str, str]) -> None:
    kept = file_of(name, size, chosen).read_text(encoding="utf-8")
    assert text_of(real_sheet(name), size, chosen) == kept, "read it anew, then run `python tests/guides_as_text.py`"


def test_no_text_is_left_over() -> None:
    assert sorted(FOLDER.glob("*.txt")) == sorted(file_of(*one) for one in GARMENTS)
