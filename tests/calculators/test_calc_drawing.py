"""The drawing: frame, smoothing, and that it is well-formed and follows the choices."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box, union_all
from svgelements import Move, Path

from boltside.calculators.choices import all_allowed
from boltside.calculators.drawing import frame, path, svg

Ask = Callable[..., dict[str, dict[str, Any]]]
SVG = "{http://www.w3.org/2000/svg}"


def test_the_frame_is_the_same_for_all_choices(sheet: dict[str, Any]) -> None:
    boxes = set()
    for chosen in all_allowed(sheet["choices"], sheet["rules"], "92"):
        root = ElementTree.fromstring(svg(sheet, chosen, "title"))
        boxes.add(root.get("viewBox"))
        _, _, width, height = map(int, root.attrib["viewBox"].split())
        for one in root.iter(f"{SVG}path"):
            numbers = [int(number) for number in re.findall(r"-?\d+", one.attrib["d"])]
            assert all(0 <= x <= width for x in numbers[::2]) and all(0 <= y <= height for y in numbers[1::2])
    assert len(boxes) == 1


def test_parts_follow_the_choices(ask: Ask) -> None:
    def parts(**choices: str) -> int:
        root = ElementTree.fromstring(ask("panel", choices=choices)["drawing"]["html"])
        return len(list(root.iter(f"{SVG}path")))

    # Front: 2 halves; back: 1 whole. Sleeves: 2 in each view. Pockets: 2 in front. Bands: 2 in each view.
    assert parts(sleeves="none") == 3
    assert parts(sleeves="long") == 7
    assert parts(sleeves="long", pockets="two") == 9
    assert parts(sleeves="long", **{"sleeve-end": "gathered"}) == 11


def test_it_is_a_picture_with_words_and_without_colours(ask: Ask) -> None:
    said = ask("panel", choices={"pockets": "two"})["drawing"]
    root = ElementTree.fromstring(said["html"])
    title = root.find(f"{SVG}title")
    assert root.get("role") == "img" and title is not None and title.text == said["text"]
    assert said["text"] == (
        "Example jacket, front and back. Length: To the hip. Sleeves: Set in, long. Sleeve end: Hemmed. "
        "Patch pockets: Two."
    )
    assert root.get("stroke") == "currentColor" and root.get("fill") == "none"
    assert "#" not in said["html"] and "rgb" not in said["html"]


def test_titles_are_escaped(sheet: dict[str, Any]) -> None:
    assert "<b>" not in svg(sheet, {}, "<b>")


def test_sharp_corners_stay_and_gentle_ones_are_rounded() -> None:
    square = [[0, 0], [100, 0], [100, 100], [0, 100]]
    assert path(square) == "M0 0L100 0L100 100L0 100Z"
    bent = [[0, 0], [100, 10], [200, 0], [200, 100], [0, 100]]
    assert path(bent) == "M0 0L50 5Q100 10 150 5L200 0L200 100L0 100Z"
    round_one = [[100, 0], [50, 87], [-50, 87], [-100, 0], [-50, -87], [50, -87]]
    assert "Q" not in path(round_one)  # 60° turns
    twelve = [[100, 0], [87, 50], [50, 87], [0, 100], [-50, 87], [-87, 50], [-100, 0]]
    twelve += [[-87, -50], [-50, -87], [0, -100], [50, -87], [87, -50]]
    assert path(twelve).count("Q") == 12 and "L" not in path(twelve)


POINTS = st.lists(st.tuples(st.integers(-300, 300), st.integers(-300, 300)), min_size=3, max_size=12, unique=True)


@given(POINTS)
def test_law_curves_stay_within_the_outlines_frame(points: list[tuple[int, int]]) -> None:
    numbers = [int(number) for number in re.findall(r"-?\d+", path(points))]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    assert all(min(xs) <= x <= max(xs) for x in numbers[::2])
    assert all(min(ys) <= y <= max(ys) for y in numbers[1::2])


def test_a_sheet_without_a_drawing_has_none(sheet: dict[str, Any]) -> None:
    bare = {**sheet, "drawing": {"size": "92", "front": [], "back": []}}
    assert frame(bare) == (0, 0, 0) and svg(bare, {}, "title") == ""


def area(d: str) -> float:
    """The area inside path data, as svgelements reads them."""
    points = []
    for segment in Path(d):
        if not isinstance(segment, Move):
            points += [segment.point(at / 40) for at in range(40)]
    return Polygon([(point.x, point.y) for point in points]).area


@pytest.mark.outside  # geometry, on paper: Archimedes' quadrature of the parabola; SVG 2 paths, read by svgelements
def test_a_rounded_corner_cuts_off_a_third_of_its_triangle() -> None:
    # A regular twelve-sided figure turns by 30 degrees at each corner, so each is rounded: a parabola from the middle
    # of one side to the middle of the next, with the corner where its tangents meet. By Archimedes it leaves two
    # thirds of the triangle of these three inside, so a third is cut off. With R to the corners the sides are 2 R sin
    # 15 degrees, s^2 = R^2 (2 - sqrt 3); the figure has 3 R^2; each triangle (s / 2)^2 sin 30 / 2 = s^2 / 16. Twelve
    # thirds of it are s^2 / 4, which leaves 3 R^2 - (2 - sqrt 3) R^2 / 4 = 2.9330127 R^2.
    radius = 10_000
    ring = [
        (round(radius * math.cos(math.pi * at / 6)), round(radius * math.sin(math.pi * at / 6))) for at in range(12)
    ]
    assert area(path(ring)) / radius**2 == pytest.approx(2.9330127, abs=5e-4)


@pytest.mark.outside  # geometry, on paper
def test_corners_of_a_square_stay_and_halves_make_a_whole(sheet: dict[str, Any]) -> None:
    # A half of 100 x 300 mm on both sides of the centre line, front and back: two wholes of 200 x 300, side by side.
    assert area(path([[0, 0], [100, 0], [100, 100], [0, 100]])) == 10_000
    half = {"when": [], "both_sides": True, "outline": [[0, 0], [100, 0], [100, 300], [0, 300]]}
    drawn = svg({**sheet, "drawing": {"size": "92", "front": [half], "back": [half]}}, {}, "A box")
    boxes = [Path(d).bbox() for d in re.findall(r' d="([^"]+)"', drawn)]
    whole = union_all([box(*one) for one in boxes])
    assert len(boxes) == 4 and whole.area == 2 * 200 * 300
    assert sorted(part.bounds[2] - part.bounds[0] for part in whole.geoms) == [200, 200]
    width, height = (int(one) for one in re.findall(r'viewBox="0 0 (\d+) (\d+)"', drawn)[0])
    assert box(0, 0, width, height).contains(whole)
