"""What a drawing says of itself, as it is read aloud."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltside.read.seen import LETTERS_MAX, seen_on


@pytest.mark.parametrize(
    ("text", "seen"),
    [
        ('<svg viewBox="0 0 9 9" aria-label="A collar,\n  sewn on"><path d=""/></svg>', "A collar, sewn on"),
        ("<?xml version='1.0'?>\n<!-- a > b -->\n<svg aria-label='Bed &amp; board'/>", "Bed & board"),
        ('<svg viewBox="0 0 9 9"><g aria-label="not the drawing itself"/></svg>', ""),
        ('<svg data-aria-label="no"/>', ""),
        (f'<svg aria-label="{"x" * 999}"/>', "x" * LETTERS_MAX),
    ],
)
def test_the_label_of_the_drawing_itself(tmp_path: Path, text: str, seen: str) -> None:
    (tmp_path / "a.svg").write_text(text, encoding="utf-8")
    assert seen_on(tmp_path / "a.svg") == seen


def test_a_photograph_says_nothing(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").write_bytes(b'\xff\xd8\xff <svg aria-label="no">')
    assert seen_on(tmp_path / "a.jpg") == ""
