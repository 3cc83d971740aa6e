"""`boltside samples`: says it, writes the table, and says what is wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltside.cli import main

ROOT = Path(__file__).parents[2]


def test_it_says_the_plan_and_writes_the_table(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = tmp_path / "samples.csv"
    assert main(["samples", "millrace", "--shop", str(ROOT), "--csv", str(table)]) == 0
    said = capsys.readouterr().out
    assert said.startswith("Millrace: 2 garments and ") and said.endswith("\n")
    content = table.read_bytes()
    assert content.startswith(b"\xef\xbb\xbfgarment,size,options,shows,what,with\r\n1,")
    assert main(["samples", "millrace", "--shop", str(ROOT), "--csv", str(table)]) == 0
    assert capsys.readouterr().out == said and table.read_bytes() == content


def test_mistakes_are_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["samples", "milrace", "--shop", str(ROOT)]) == 1
    assert "did you mean 'millrace'?" in capsys.readouterr().err
    place = tmp_path / "no" / "a.csv"
    assert main(["samples", "millrace", "--shop", str(ROOT), "--csv", str(place)]) == 1
    assert capsys.readouterr().err == f"cannot write {place}: No such file or directory\n"
