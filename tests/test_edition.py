"""The list of all files: complete, true, the same each time, and named by its own hash."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

from boltside.edition import EDITION_PATH, FILES_PATH, KEEPER, write_edition


def site(folder: Path) -> Path:
    for name, text in {"index.html": "one", "a/index.html": "two", "shop/x.mjs": "one", KEEPER: "keeps"}.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder


def test_every_file_is_listed_but_what_is_about_the_list(tmp_path: Path) -> None:
    write_edition(site(tmp_path))
    files = json.loads((tmp_path / FILES_PATH).read_bytes())["files"]
    one, two = hashlib.sha256(b"one").hexdigest(), hashlib.sha256(b"two").hexdigest()
    assert files == {"index.html": [one, 3], "a/index.html": [two, 3], "shop/x.mjs": [one, 3]}


def test_the_edition_is_the_hash_of_the_list_and_equal_files_count_once(tmp_path: Path) -> None:
    edition = write_edition(site(tmp_path))
    said = json.loads((tmp_path / EDITION_PATH).read_bytes())
    assert said == {"edition": edition, "bytes": 6, "files": 3}
    assert edition == hashlib.sha256((tmp_path / FILES_PATH).read_bytes()).hexdigest()


def test_it_changes_with_any_file_and_with_nothing_else(tmp_path: Path) -> None:
    first = write_edition(site(tmp_path))
    assert write_edition(tmp_path) == first
    (tmp_path / KEEPER).write_text("keeps better", "utf-8")
    assert write_edition(tmp_path) == first
    (tmp_path / "a" / "index.html").write_text("too", "utf-8")
    assert write_edition(tmp_path) != first


def many(folder: Path) -> Path:
    for name, text in {"index.html": "shop", "patterns/index.html": "all", "patterns/a/index.html": "one page",
                       "patterns/a/x/y.json": "shop", "patterns/b/index.html": "other page",
                       KEEPER: "keeps", EDITION_PATH: "", FILES_PATH: ""}.items():  # fmt: skip
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder


def test_a_shop_of_many_patterns_says_how_large_each_is(tmp_path: Path) -> None:
    """By hand: "shop" and "all" have seven letters; "one page" eight, "shop" again counts once; "other page" ten."""
    write_edition(many(tmp_path), by_pattern_above=1)
    said = json.loads((tmp_path / EDITION_PATH).read_bytes())
    assert (said["patterns"], said["rest_bytes"], said["bytes"]) == ({"a": 8, "b": 10}, 7, 25)


def test_a_shop_of_few_patterns_is_kept_as_a_whole(tmp_path: Path) -> None:
    write_edition(many(tmp_path), by_pattern_above=2)
    assert {"patterns", "rest_bytes"}.isdisjoint(json.loads((tmp_path / EDITION_PATH).read_bytes()))
