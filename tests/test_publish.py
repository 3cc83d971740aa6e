"""Building aside and swapping whole: a failed build leaves what was there."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltside.publish import BuildFailed, last_change_s, publish, swap_in

CONFIG = """\
site_name: Try
docs_dir: words
use_directory_urls: true
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / "words").mkdir()
    (tmp_path / "words" / "index.md").write_text("# Hello\n", encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    return tmp_path


def test_a_build_is_swapped_in_whole(shop: Path) -> None:
    (shop / "site").mkdir()
    (shop / "site" / "old.html").write_text("old", encoding="utf-8")
    publish(shop / "mkdocs.yml", shop / "site")
    assert (shop / "site" / "index.html").exists()
    assert not (shop / "site" / "old.html").exists()
    assert sorted(path.name for path in shop.iterdir()) == ["mkdocs.yml", "site", "words"]


def test_a_shop_named_from_another_folder_is_built_where_it_is(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(shop.parent)
    publish(Path(shop.name) / "mkdocs.yml", Path(shop.name) / "site")
    assert (shop / "site" / "index.html").exists()
    assert sorted(path.name for path in shop.iterdir()) == ["mkdocs.yml", "site", "words"]


def test_a_failed_build_leaves_the_old_shop(shop: Path) -> None:
    (shop / "site").mkdir()
    (shop / "site" / "old.html").write_text("old", encoding="utf-8")
    (shop / "mkdocs.yml").write_text(CONFIG + "plugins: [no-such-plugin]\n", encoding="utf-8")
    with pytest.raises(BuildFailed):
        publish(shop / "mkdocs.yml", shop / "site")
    assert (shop / "site" / "old.html").read_text(encoding="utf-8") == "old"
    assert not (shop / "site.new").exists()


def test_left_overs_of_an_interrupted_build_do_no_harm(shop: Path) -> None:
    for name in ("site.new", "site.old"):
        (shop / name).mkdir()
        (shop / name / "torn.html").write_text("torn", encoding="utf-8")
    publish(shop / "mkdocs.yml", shop / "site")
    assert not (shop / "site" / "torn.html").exists()
    assert sorted(path.name for path in shop.iterdir()) == ["mkdocs.yml", "site", "words"]


def test_swap_in_where_nothing_was(tmp_path: Path) -> None:
    (tmp_path / "aside").mkdir()
    (tmp_path / "aside" / "page.html").write_text("new", encoding="utf-8")
    swap_in(tmp_path / "aside", tmp_path / "place")
    assert (tmp_path / "place" / "page.html").read_text(encoding="utf-8") == "new"
    assert not (tmp_path / "aside").exists()


def test_outside_of_git_the_newest_file_dates_the_build(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    assert last_change_s(tmp_path) == 0
    (tmp_path / "data" / "chart.csv").write_text("size", encoding="utf-8")
    assert last_change_s(tmp_path) == int((tmp_path / "data" / "chart.csv").stat().st_mtime)
