"""Ready answers are kept from build to build, and never taken when they are damaged or for another sheet."""

from __future__ import annotations

from pathlib import Path

import pytest
from cases.make_sheet_example import make

from boltside import shop_answers as module
from boltside.pages.ready_answers import ALL_SIZES, ready_answers
from boltside.shop_answers import shop_answers


def test_kept_answers_are_the_made_ones(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = make()
    made = shop_answers([sheet], tmp_path)
    assert made == [ready_answers(sheet, (ALL_SIZES, *sheet["sizes"]))]
    monkeypatch.setattr(module, "ready_answers", None)  # whoever made them again would fail
    assert shop_answers([sheet], tmp_path) == made


@pytest.mark.parametrize("damage", [lambda text: text[:-9], lambda text: text.replace("92", "93"), lambda text: ""])
def test_damaged_answers_are_made_again(tmp_path: Path, damage) -> None:  # type: ignore[no-untyped-def]
    sheet = make()
    made = shop_answers([sheet], tmp_path)
    (kept,) = (tmp_path / "answers").iterdir()
    kept.write_text(damage(kept.read_text("utf-8")), encoding="utf-8")
    assert shop_answers([sheet], tmp_path) == made == shop_answers([sheet])


def test_another_sheet_gets_answers_of_its_own(tmp_path: Path) -> None:
    sheet = make()
    before = shop_answers([sheet], tmp_path)
    other = {**sheet, "name": "Another name"}
    assert shop_answers([other], tmp_path) == [ready_answers(other, (ALL_SIZES, *sheet["sizes"]))] != before


def test_processes_side_by_side_make_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = make()
    alone = shop_answers([sheet])
    monkeypatch.setattr(module, "_MANY_BYTES", 0)
    monkeypatch.setattr(module.os, "cpu_count", lambda: 2)
    assert shop_answers([sheet]) == alone
