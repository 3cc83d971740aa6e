"""The drawings of the demo's steps and techniques: are they what the scripts draw, small, readable, and all shown?"""

from __future__ import annotations

import re
import sys
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable

import pytest
from drawn_pieces import DATA

from boltside.read.seen import seen_on

sys.path.insert(0, str(DATA / "drafting"))

import draft
from thistle_quay.step_kit import Picture, beside, part, runs

BYTES_MAX = 4_000
"""A drawing is fetched when its step is opened, on a slow link too. Our choice."""
LETTER_MIN = 15
"""Of 360 units across; on a page of 320 points, 280 of them for the drawing, letters are still 11.7 points high."""
SVG = "{http://www.w3.org/2000/svg}"

ALL = draft.line_drawings()
SIZED = re.compile(r"\d\s*(?:mm|cm|in\b|inch)")


def named() -> list[str]:
    """What steps and techniques name, by the path from the data folder."""
    told = sorted([*DATA.glob("patterns/*/steps.md"), *DATA.glob("techniques/*.md")])
    return [
        str(file.parent.relative_to(DATA) / name)
        for file in told
        for name in re.findall(r"(?m)^drawing: (\S+\.svg)$", file.read_text(encoding="utf-8"))
    ]


def test_committed_drawings_are_what_the_scripts_draw() -> None:
    for path, text in ALL.items():
        assert (DATA / path).read_bytes() == text.encode(), f"{path}: run python data/drafting/draft.py"


def test_every_drawing_is_named_and_none_lies_about() -> None:
    files = [*DATA.glob("patterns/*/drawings/*.svg"), *DATA.glob("techniques/*.svg")]
    assert {str(file.relative_to(DATA)) for file in files} == set(ALL) == set(named())


def test_most_steps_that_are_sewn_have_a_drawing() -> None:
    """Of the big patterns half the steps or more."""
    count = dict.fromkeys(("ferrylight", "windlass", "breakwater", "wrackline", "millrace"), 0)
    for path in named():
        if path.startswith("patterns/"):
            count[path.split("/")[1]] += 1
    assert all(count[name] >= least for name, least in zip(count, (30, 20, 15, 12, 8), strict=True)), count


@pytest.mark.parametrize("path", ALL)
def test_drawing_is_small_says_what_is_seen_and_no_lengths(path: str) -> None:
    """A buyer may have chosen inches, and of a drawing nobody takes a measurement."""
    assert len(ALL[path].encode()) <= BYTES_MAX
    root = ElementTree.fromstring(ALL[path])
    seen = root.get("aria-label") or ""
    assert 40 <= len(seen) <= 250
    assert seen_on(DATA / path) == seen
    assert root.get("viewBox") == f"0 0 {root.get('width')} {root.get('height')}"
    words = [word.text or "" for word in root.iter(f"{SVG}text")]
    assert words
    assert not [word for word in (*words, seen) if SIZED.search(word)]
    assert all(float(size) >= LETTER_MIN for size in re.findall('font-size="([^"]+)"', ALL[path]))
    assert 'font-size="' in ALL[path]
    assert not re.search(r"<(?:script|image|style|a)\b|href|url\(", ALL[path])


@pytest.mark.parametrize("path", ALL)
def test_nothing_is_drawn_outside(path: str) -> None:
    """Of the corners of all lines none lies outside the drawing by more than half a line's width."""
    for data in re.findall(r' d="([^"]+)"', ALL[path]):
        if re.search("[lh]", data):  # hatching, dots and ends of leading lines: relative, and within what they fill
            continue
        for run in runs(data):
            for stretch in run:
                assert -2 <= stretch[-1].real <= 362, data
                assert -2 <= stretch[-1].imag <= 242, data


def test_steps_that_leave_the_side_open_name_none() -> None:
    """Where a choice says whose side it is, no drawing says left or right."""
    for steps in DATA.glob("patterns/*/steps.md"):
        for step in steps.read_text(encoding="utf-8").split("\n## ")[1:]:
            name = re.search(r"(?m)^drawing: (\S+)$", step)
            if name and re.search(r"\{(?:side|other|seen) ", step):
                text = ALL[f"patterns/{steps.parent.name}/{name[1]}"]
                for of_the_drawing in ("right side", "Left: the lower part", "Right, from"):
                    text = text.replace(of_the_drawing, "")
                assert not re.search(r"\b(?:left|right)\b", text, re.IGNORECASE), step[:60]


@pytest.mark.parametrize(
    "draw",
    [
        lambda it: it.word(20, 100, "leaves the drawing"),
        lambda it: it.word(180, 300, "below"),
        lambda it: (it.word(180, 100, "one"), it.word(190, 104, "two")),
    ],
)
def test_words_outside_or_on_each_other_are_refused(draw: Callable[[Picture], object]) -> None:
    it = Picture("a drawing")
    draw(it)
    with pytest.raises(ValueError, match=r"leaves|lies on"):
        it.svg()


def test_hatching_stays_within_what_it_hatches() -> None:
    """A square with a hole: hatching lines end on its edges. By hand: 45 degrees across 90 units."""
    it = Picture("a square")
    it.cloth("M10 10H100V100H10ZM40 40V70H70V40Z", "wrong")
    lines = re.findall(r"M(-?\d+) (-?\d+)l(-?\d+)([+-]\d+)", it.svg())
    assert len(lines) > 10
    for x, y, across, down in (tuple(map(int, line)) for line in lines):
        assert across == -down
        for step in range(1, 10):
            at_x, at_y = x + across * step / 10, y + down * step / 10
            assert 9 <= at_x <= 101
            assert 9 <= at_y <= 101
            assert not (42 < at_x < 68 and 42 < at_y < 68)


def test_part_of_a_curve_lies_on_it() -> None:
    """A quadratic curve from (0, 0) by (10, 20) to (20, 0): at a half it is at (10, 10), at a quarter at (5, 7.5)."""
    ((begin,), (_, end)) = runs(part("M0 0Q10 20 20 0", 0.25, 0.5))[0]
    assert begin == pytest.approx(5 + 7.5j)
    assert end == pytest.approx(10 + 10j)


def test_line_beside_keeps_its_distance() -> None:
    """Beside a right angle, downwards and then to the right; to the right of the way is the left and the bottom."""
    assert beside("M50 10V60H120", 10) == "M40 10L40 70L120 70"
