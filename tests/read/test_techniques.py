"""Techniques of a shop: read with their short text, and refused where that or the text itself is missing."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltside.read.collect import Problems
from boltside.read.techniques import SHORT_MAX, read_techniques

DATA = Path(__file__).parents[2] / "data"
GOOD = "# Gathering\nshort: Draw it up.\ndrawing: gathering.svg\nbefore: [woven]\n\nThe *whole* text.\n"


def read(text: str, tmp_path: Path, name: str = "gathering.md") -> tuple[list[str], list[str]]:
    folder = tmp_path / "techniques"
    folder.mkdir()
    (folder / name).write_text(text, encoding="utf-8")
    (folder / "gathering.svg").write_text("<svg/>", encoding="utf-8")
    problems = Problems()
    found = read_techniques(tmp_path, problems)
    return [f"{one.name}|{one.title}|{one.short}|{one.text}|{one.drawing}|{one.before}" for one in found], [
        one.code for one in problems.found
    ]


def test_a_technique_is_read_whole(tmp_path: Path) -> None:
    found, noted = read(GOOD, tmp_path)
    assert (found, noted) == (["gathering|Gathering|Draw it up.|The *whole* text.|gathering.svg|('woven',)"], [])


@pytest.mark.parametrize(
    ("text", "name", "code"),
    [
        (GOOD.replace("short: Draw it up.\n", ""), "gathering.md", "bad-technique"),
        (GOOD.replace("# Gathering", "Gathering"), "gathering.md", "bad-technique"),
        (GOOD.replace("The *whole* text.", ""), "gathering.md", "bad-technique"),
        (GOOD.replace("Draw it up.", "x" * (SHORT_MAX + 1)), "gathering.md", "bad-technique"),
        (GOOD.replace("woven", "felt"), "gathering.md", "bad-technique"),
        (GOOD.replace("gathering.svg", "gone.svg"), "gathering.md", "missing-file"),
        (GOOD.replace("gathering.svg", "../gathering.svg"), "gathering.md", "missing-file"),
        (GOOD, "Gathering.md", "bad-name"),
    ],
)
def test_what_is_missing_is_said(text: str, name: str, code: str, tmp_path: Path) -> None:
    found, noted = read(text, tmp_path, name)
    assert (found, noted) == ([], [code])


def test_the_shops_own_techniques_have_a_drawing_or_are_read_before() -> None:
    problems = Problems()
    found = read_techniques(DATA, problems)
    assert problems.found == []
    assert len(found) >= 8
    assert all(one.drawing or one.before for one in found)
    assert all(one.seen for one in found if one.drawing), "what is seen is read to those who do not see it"
