"""Where lays are missing or unreadable a shop gets nothing, and is told what to do."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from boltside.plan import LaysMissing
from boltside.shop_lays import shop_sheets

GARMENT = Path(__file__).parent / "garment" / "data"
DATA = Path(__file__).parents[1] / "data"


def test_without_lays_nothing_is_published_and_the_text_says_what_to_do() -> None:
    with pytest.raises(LaysMissing) as caught:
        shop_sheets(GARMENT)
    assert "not laid yet" in str(caught.value)
    assert "run `boltside lay oblong`" in str(caught.value)


def test_a_damaged_file_of_lays_is_told_and_nobody_is_sent_to_solve(tmp_path: Path) -> None:
    data = tmp_path / "data"
    shutil.copytree(GARMENT, data)
    (folder,) = (data / "patterns").iterdir()
    (folder / "lays.json").write_text("[\n<<<<<<< mine\n", encoding="utf-8")
    with pytest.raises(LaysMissing) as caught:
        shop_sheets(data)
    assert "lays.json:2: " in str(caught.value)
    assert "not there" not in str(caught.value)


def test_patterns_side_by_side_give_what_they_give_one_after_the_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = tmp_path / "data"
    shutil.copytree(DATA, data, ignore=lambda _, names: {"benchmark", "drafting"} & set(names) | {
        name for name in names if name in ("breakwater", "ferrylight", "windlass", "wrackline")})  # fmt: skip
    shutil.copytree(data / "patterns" / "millrace", data / "patterns" / "tideline")
    one_after_the_other = shop_sheets(data)
    monkeypatch.setattr("boltside.shop_lays._MANY_BYTES", 0)
    side_by_side = shop_sheets(data)
    assert [one.sheet["pattern"] for one in side_by_side] == ["millrace", "tideline"]
    assert side_by_side == one_after_the_other
    (data / "patterns" / "tideline" / "lays.json").unlink()
    with pytest.raises(LaysMissing) as caught:
        shop_sheets(data)
    assert "run `boltside lay tideline`" in str(caught.value)
    assert "millrace" not in str(caught.value)
