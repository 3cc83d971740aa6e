"""Stripes in the drawing of a lay: the lines lie where the marks are, and every mark lies in its piece."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from fractions import Fraction
from math import floor
from typing import Any

import pytest
from cases.make_sheet_example import lays_beside
from shapely import Point, Polygon

from boltside.calculators.door import answer
from boltside.calculators.lay_file import lying
from boltside.calculators.stripe_svg import Repeat, mark_notch, repeats_at, stripe_lines

Ask = Callable[..., dict[str, dict[str, Any]]]
FILES = lays_beside()


def lines_of(repeat: Repeat, marks: list[list[int]]) -> str:
    return stripe_lines(repeat, marks, left=10, top=20, wide=100, long=90, from_mm=15, thin="1")


def test_lines_stand_a_repeat_apart_from_the_mark_on() -> None:
    stripes = lines_of(Repeat(along_mm=40), [[50, 7]])
    lines = re.findall(r"M(\d+) (\d+)h(\d+)", stripes)
    assert lines == [("10", "30", "100"), ("10", "70", "100"), ("10", "110", "100")]
    assert "v" not in stripes.split(" d=")[1]
    checks = lines_of(Repeat(along_mm=40, across_mm=30), [[50, 7]])
    assert re.findall(r"M(\d+) (\d+)v(\d+)", checks) == [("32", "20", "90"), ("62", "20", "90"), ("92", "20", "90")]
    assert lines_of(Repeat(along_mm=40), []) == ""


def test_a_notch_is_a_diamond_about_the_mark() -> None:
    assert 'd="M12 70L15 67L18 70L15 73Z"' in mark_notch([50, 5], left=10, top=20, size=10)


def test_the_marks_of_the_example_lie_in_their_pieces_and_in_step() -> None:
    repeats = {"stripes-40": (40, None), "checks-60": (60, 60), "uneven-70": (70, None)}
    seen = set()
    for file in FILES.values():
        for number, lay in file["lays"].items():
            if "repeat" not in lay:
                continue
            along, across = repeats[lay["repeat"]]
            seen.add((lay["repeat"], file["way"]))
            pieces = lying(file, int(number), file["items"])
            assert all(one.mark is not None and Polygon(one.points).buffer(1).covers(Point(one.mark)) for one in pieces)
            assert len({one.mark[0] % along for one in pieces if one.mark}) == 1
            assert across is None or len({one.mark[1] % across for one in pieces if one.mark}) == 1
    assert seen == {("stripes-40", "folded"), ("stripes-40", "flat"), ("checks-60", "folded"), ("uneven-70", "flat")}


@pytest.fixture
def opened(ask: Ask) -> Ask:
    """Asking with all lay files open."""
    for file in FILES.values():
        answer("open-lays", json.dumps(file))
    return ask


def test_a_lay_in_step_shows_repeats_and_notches(opened: Ask) -> None:
    said = opened("lay", cloth="outer", size="110", cloths={"outer": {"pattern": "repeat:checks-60", "width": "110"}})
    html, words = said["lay.outer"]["html"], said["lay.outer.words"]["text"]
    (path,) = re.findall(r'class="bs-repeat"[^>]* d="([^"]+)"', html)
    downs = [int(y) for y in re.findall(r"M\d+ (\d+)h", path)]
    marks = [int(y) for y in re.findall(r'class="bs-mark" d="M\d+ (\d+)L', html)]
    assert len(marks) == said["lay.outer"]["data"]["pieces"] == 4
    assert set(marks) <= set(downs), "every notch lies on a line"
    assert "Each line is a repeat, each diamond the notch of a piece" in words
    assert "its notch 6 cm from the cut end" in words


def test_by_the_rule_of_thumb_the_drawing_is_without_the_repeat(opened: Ask) -> None:
    said = opened("lay", cloth="outer", size="110", cloths={"outer": {"pattern": "own", "every": "12"}})
    plain = opened("lay", cloth="outer", size="110")
    assert "bs-repeat" not in said["lay.outer"]["html"]
    assert said["lay.outer"]["data"]["length_mm"] == plain["lay.outer"]["data"]["length_mm"]
    assert "Drawn without the repeat that the rule of thumb adds" in said["lay.outer.words"]["text"]


@pytest.mark.outside  # a published worked example: 4 1/4 in x 2 rows = 8 1/2 in
def test_two_repeats_of_the_worked_example_are_told_apart() -> None:
    # Lines at 0, 4 1/4 and 8 1/2 in, which is 215.9 mm: the third line ends what two repeats take.
    assert repeats_at(0, 4.25 * 25.4, 8.5 * 25.4 + 0.01) == [0, 108, 216]
    assert repeats_at(0, 4.25 * 25.4, 8.5 * 25.4 - 1) == [0, 108]


@pytest.mark.outside  # exact arithmetic, with fractions
@pytest.mark.parametrize("mark", [0, 17, 50, 113, 400, 999])
@pytest.mark.parametrize(("repeat", "end"), [("40", 1000), ("107.95", 1500), ("63.5", 2100), ("70.1", 333)])
def test_lines_stand_where_fractions_put_them(mark: int, repeat: str, end: int) -> None:
    # Whole repeats before the mark and behind it, as many as the cloth is long.
    step = Fraction(repeat)
    before, behind = floor(mark / step), floor((end - mark) / step)
    exact = [mark + at * step for at in range(-before, behind + 1)]
    found = repeats_at(mark, float(repeat), end)
    assert len(found) == len(exact)
    assert all(abs(one - line) <= Fraction(51, 100) for one, line in zip(found, exact, strict=True))
