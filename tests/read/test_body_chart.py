"""The body chart: sources, sizes, whole millimetres."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltside.pattern import BodyChart
from boltside.read.body_chart import read_body_chart
from boltside.read.collect import Problems

HEAD = "# One source.\n#  Another.\n"


def chart_of(text: str, folder: Path) -> tuple[BodyChart | None, list[str]]:
    path = folder / "chart.csv"
    path.write_text(text, encoding="utf-8")
    problems = Problems()
    return read_body_chart(path, folder, problems), [f"{one.line}:{one.column} {one.code}" for one in problems.found]


def test_good_chart(tmp_path: Path) -> None:
    text = HEAD + 'size,age,height_mm,note\n80,1 year,800,"tall, thin"\n92,,920,\n'
    chart, noted = chart_of(text, tmp_path)
    assert noted == []
    assert chart is not None
    assert chart.name == "chart"
    assert chart.sources == ("One source.", "Another.")
    assert chart.rows == {"80": {"height": 800}, "92": {"height": 920}}
    assert chart.ages == {"80": "1 year"}


@pytest.mark.parametrize(
    ("rows", "place"),
    [
        ("", "1:1"),
        ("height_mm\n800\n", "3:1"),
        ("size,a_mm,a_mm\n80,1,2\n", "3:1"),
        ("size,a_mm\n80,1\n80,2\n", "5:1"),
        ("size,a_mm\n80,1.5\n", "4:4"),
        ("size,a_mm\n80,-1\n", "4:4"),
        ("size,a_mm\n80,9000\n", "4:4"),
        ("size,a_mm\n80,\n", "4:4"),
        ("size,a_mm\n80\n", "4:1"),
        ("size,a_mm\n8/0,1\n", "4:1"),
        ('size,note\n80,"two\nlines"\n92,"open\n', "6:1"),
        ('size,note,a_mm\n80,"two\nlines",5\n92,x,y\n', "6:6"),
    ],
)
def test_bad_charts(rows: str, place: str, tmp_path: Path) -> None:
    chart, noted = chart_of(HEAD + rows, tmp_path)
    assert chart is None
    assert noted == [f"{place} bad-chart"]
