"""Pictures of interfacing: coarse, in their place, and in the right hand with the wrong side up."""

from __future__ import annotations

from typing import Any

import pytest
from cases.real_sheets import pattern_names, real_sheet
from shapely import Polygon

from boltside.spec.simplify import COARSE_MM, GRID_MM


def by_id(sheet: dict[str, Any], line_id: str) -> dict[str, Any]:
    found: dict[str, Any] = sheet["pressed"][line_id]
    return found


def test_the_hand_of_the_fixture_garment(sheet: dict[str, Any]) -> None:
    """Worked out with a shirt on the table.

    Oblong's front is drawn to the right of the centre line: with the right side up that is the wearer's left half, its
    opening edge on the left. Turned over, its opening edge lies on the right; so the strip along it. The wearer's right
    front has it on the left. A back drawn to the right of the centre is the wearer's right half, so there it is the
    other way round. 190 wide: 20 for the opening, 159, 10 at the side, on a grid of 5. The strip begins at the cut edge
    and goes 30 beyond the centre: 50; up to 210, less the 60 below the waist, and the 10 for the seam there.
    """
    left = by_id(sheet, "front.interfacing.opening-strip.wearers-left.front.waist")
    assert left["shown"] == "wearers-left" and left["to"] == "cutting"
    assert sorted(left["area"]) == [[140, 0], [140, 160], [190, 0], [190, 160]]
    right = by_id(sheet, "front.interfacing.opening-strip.wearers-right.front.waist.stand")
    assert right["shown"] == "wearers-right" and right["to"] == "stitching"
    assert sorted(right["area"]) == [[20, 10], [20, 160], [50, 10], [50, 160]]
    back = by_id(sheet, "back.interfacing.opening-strip.wearers-left.back.waist")
    assert sorted(back["area"]) == [[0, 0], [0, 160], [50, 0], [50, 160]]


def test_a_piece_on_the_fold_is_shown_whole(sheet: dict[str, Any]) -> None:
    """The stand collar, as cut 110 wide from the fold and 60 high: 220 × 60, interfaced 10 within."""
    collar = by_id(sheet, "collar.interfacing.whole")
    assert sorted(collar["piece"]) == [[0, 0], [0, 60], [220, 0], [220, 60]]
    assert sorted(collar["area"]) == [[10, 10], [10, 50], [210, 10], [210, 50]]
    assert collar["shown"] is None


@pytest.mark.parametrize("name", pattern_names())
def test_every_interfacing_of_the_shop_has_its_picture(name: str) -> None:
    sheet = real_sheet(name)
    lines = {item["id"]: item for item in sheet["items"] if item["kind"] == "interfacing"}
    assert set(sheet["pressed"]) == set(lines)
    for line_id, picture in sheet["pressed"].items():
        numbers = [number for shape in ("piece", "area") for point in picture[shape] for number in point]
        assert all(type(number) is int for number in numbers)
        piece, area = Polygon(picture["piece"]), Polygon(picture["area"])
        assert piece.is_valid and area.is_valid
        assert piece.buffer(COARSE_MM + GRID_MM).covers(area), line_id
        copies = lines[line_id]["count"]
        true_mm2 = lines[line_id]["area_mm2"][picture["size"]] / copies
        assert abs(area.area - true_mm2) <= area.length * COARSE_MM, line_id
        if lines[line_id]["mode"] == "fold":
            assert mirrored(area).symmetric_difference(area).area < 1
            assert mirrored(piece).symmetric_difference(piece).area < 1


def mirrored(shape: Polygon) -> Polygon:
    """Upright or level, whichever is nearer to the shape itself."""
    left, low, right, high = shape.bounds
    upright = Polygon([(left + right - x, y) for x, y in shape.exterior.coords])
    level = Polygon([(x, low + high - y) for x, y in shape.exterior.coords])
    return min((upright, level), key=lambda one: one.symmetric_difference(shape).area)
