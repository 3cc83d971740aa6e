"""Which files changed: everything that a shop is made of, nothing that editors and we ourselves leave beside it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from boltside.serve.watch import Watch


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "data" / "patterns").mkdir(parents=True)
    (tmp_path / "data" / "chart.csv").write_text("size", encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text("site_name: a", encoding="utf-8")
    return tmp_path


def test_changed_new_and_removed_files_are_told_once(folder: Path) -> None:
    watch = Watch([folder / "data", folder / "mkdocs.yml"])
    assert watch.changed() == frozenset()
    (folder / "mkdocs.yml").write_text("site_name: ab", encoding="utf-8")
    (folder / "data" / "patterns" / "new.yaml").write_text("x", encoding="utf-8")
    (folder / "data" / "chart.csv").unlink()
    assert watch.changed() == {
        folder / "mkdocs.yml", folder / "data" / "patterns" / "new.yaml", folder / "data" / "chart.csv"
    }  # fmt: skip
    assert watch.changed() == frozenset()


def test_a_change_that_keeps_the_length_is_seen(folder: Path) -> None:
    watch = Watch([folder])
    chart = folder / "data" / "chart.csv"
    before = chart.stat()
    chart.write_text("SIZE", encoding="utf-8")
    os.utime(chart, ns=(before.st_atime_ns, before.st_mtime_ns + 1_000_000))
    assert watch.changed() == {chart}


def test_a_file_that_an_editor_puts_in_place_of_the_old_one_is_seen(folder: Path) -> None:
    watch = Watch([folder])
    fresh = folder / ".chart.csv.tmp"
    fresh.write_text("size,age", encoding="utf-8")
    os.replace(fresh, folder / "data" / "chart.csv")
    assert watch.changed() == {folder / "data" / "chart.csv"}


@pytest.mark.parametrize(
    "name", [".chart.csv.swp", "chart.csv~", "patterns/lays.journal", ".cache/boltside/x", "__pycache__/x.pyc"]
)
def test_leftovers_of_editors_and_tools_are_passed_over(folder: Path, name: str) -> None:
    watch = Watch([folder])
    path = folder / "data" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("x", encoding="utf-8")
    assert watch.changed() == frozenset()


def test_what_is_not_there_yet_is_waited_for(folder: Path) -> None:
    watch = Watch([folder / "pages"])
    (folder / "pages").mkdir()
    (folder / "pages" / "index.md").write_text("# a", encoding="utf-8")
    assert watch.changed() == {folder / "pages" / "index.md"}
