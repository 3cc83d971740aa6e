"""The paper strips: true to scale, every place drawn where the sheet has it, on one sheet of paper."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any
from xml.etree import ElementTree

import pytest
from cases.real_sheets import real_sheet

from boltside.calculators.closures import closure_fragments
from boltside.calculators.request import read_request
from boltside.pages.closure_strip import AWAY_MM, COLUMN_MM, HEAD_MM, LONGEST_MM, columns_of, strip_files

SVG = "{http://www.w3.org/2000/svg}"
PRINTABLE_MM = (190, 265)
"""What fits on A4 (210 × 297) with margins of 10 and 16 mm, and in height, on US Letter (216 × 279) with 7."""


def strips(name: str) -> dict[str, ElementTree.Element]:
    """Every strip of a pattern, read as XML."""
    return {path: ElementTree.fromstring(content) for path, content in strip_files(real_sheet(name))}


def row(name: str, path: str) -> tuple[dict[str, Any], dict[str, Any], list[tuple[float, float]]]:
    """The notion and row that a strip is of, and the strip's columns."""
    for notion in real_sheet(name)["notions"]:
        found = re.fullmatch(rf"strips/{notion['name']}-(\d+)(?:-(\d))?(?:-(left|right))?\.svg", path)
        if found and notion["placed"]:
            size = found[1]
            cases = [case for case in notion["placed"]["cases"] if size in case["sizes"]]
            one = cases[int(found[2] or 1) - 1]["sizes"][size]
            return notion, one, columns_of(one["line_mm"], [*one["mm"], *one["seams_mm"]])
    raise AssertionError(path)


@pytest.mark.outside
@pytest.mark.parametrize("name", ["ferrylight", "breakwater"])
def test_every_strip_is_true_to_scale_and_fits_on_paper(name: str) -> None:
    """Width and height in mm with a viewBox of the same numbers: one unit is one millimetre (SVG 2, units)."""
    found = strips(name)
    assert found
    for path, root in found.items():
        wide, high = (float(root.attrib[key].removesuffix("mm")) for key in ("width", "height"))
        assert root.attrib["viewBox"] == f"0 0 {wide:g} {high:g}", path
        assert wide <= PRINTABLE_MM[0] and high <= PRINTABLE_MM[1], (path, wide, high)
        test = next(one for one in root.iter(f"{SVG}path") if one.get("id") == "test-length")
        assert re.fullmatch(r"M6 [\d.]+h100", test.attrib["d"]), path


@pytest.mark.parametrize("name", ["ferrylight", "breakwater"])
def test_every_place_is_drawn_where_the_sheet_has_it(name: str) -> None:
    for path, root in strips(name).items():
        notion, one, columns = row(name, path)
        circles = [tuple(float(c.attrib[key]) for key in ("cx", "cy", "r")) for c in root.iter(f"{SVG}circle")]
        assert len(circles) == len(one["mm"]), path
        assert {r for _, _, r in circles} == {notion["diameter_mm"] / 2}
        along = []
        for x, y, _ in circles:
            column = int((x - 2) // COLUMN_MM)
            along.append(columns[column][0] + y - HEAD_MM)
        assert sorted(along) == pytest.approx(one["mm"], abs=0.01), path
        words = {text.text for text in root.iter(f"{SVG}text")}
        assert {f"{at:g}" for at in one["mm"]} <= words


def test_a_hole_across_begins_three_millimetres_towards_the_edge() -> None:
    # 13 + 3 = 16 mm long; the edge of the wearer's left front, right side up and upper end on top, is on the left.
    root = strips("ferrylight")["strips/buttons-92-2-left.svg"]
    holes = [one.attrib["d"] for one in root.iter(f"{SVG}path") if one.get("stroke-width") == ".6"]
    assert len(holes) == 5
    for path in holes:
        begin, end = (float(one) for one in re.match(r"M([\d.]+) [\d.]+H([\d.]+)", path).groups())  # type: ignore[union-attr]
        middle = 2 + COLUMN_MM / 2 + (COLUMN_MM if begin > 2 + COLUMN_MM else 0)
        assert begin == middle - 3 and end == middle - 3 + 16
    mirrored = strips("ferrylight")["strips/buttons-92-2-right.svg"]
    first = next(one.attrib["d"] for one in mirrored.iter(f"{SVG}path") if one.get("stroke-width") == ".6")
    assert first.startswith(f"M{2 + COLUMN_MM / 2 + 3:g} ")


@pytest.mark.parametrize("line", [50, 209, 211, 420, 640])
def test_columns_follow_each_other_and_end_away_from_every_place(line: int) -> None:
    places = [12 + at * 57.3 for at in range(int(line / 57.3))]
    columns = columns_of(line, places)
    assert columns[0][0] == 0 and columns[-1][1] == line
    assert all(a[1] == b[0] for a, b in pairwise(columns))
    assert all(stop - start <= LONGEST_MM + 2 * AWAY_MM for start, stop in columns)
    assert all(abs(stop - at) >= AWAY_MM for _, stop in columns[:-1] for at in places)


@pytest.mark.parametrize("name", ["ferrylight", "breakwater"])
def test_every_link_of_every_choice_leads_to_a_strip(name: str) -> None:
    sheet, files = real_sheet(name), {path for path, _ in strip_files(real_sheet(name))}
    led = set()
    for size in sheet["sizes"]:
        for length in sheet["choices"][0]["alternatives"]:
            for more in ({"closure": "buttons"}, {"closure": "snaps"}, {"inseam": "snaps"}):
                for overlap in ("left-over-right", "right-over-left"):
                    chosen = {sheet["choices"][0]["name"]: length["name"], "overlap": overlap, **more}
                    for one in closure_fragments(read_request(sheet, {"size": size, "choices": chosen})):
                        led |= set(re.findall(r'href="(strips/[^"]+)"', one.said.html))
    assert led and led <= files
    assert files == led, files - led
