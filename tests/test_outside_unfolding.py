"""Folded cloth unfolded, drawn on squared paper: 63 cm wide, so 60 cm between the selvedges and the fold at 30 cm."""

from __future__ import annotations

import pytest
from shapely import Polygon
from shapely.affinity import scale, translate

from boltside.lay.model import Lay, LayItem, Placement
from boltside.lay.outlines import laid_outline
from boltside.lay.unfold import unfolded

pytestmark = pytest.mark.outside

BACK = LayItem(item_id="back", outline_mm=((0, 0), (200, 0), (200, 150), (0, 150)), mode="fold", count=1)
SLEEVE = LayItem(item_id="sleeve", outline_mm=((0, 0), (200, 0), (100, 100), (0, 100)), mode="pair", count=2)
TAB = LayItem(item_id="tab", outline_mm=((0, 0), (40, 0), (40, 50), (0, 50)), mode="single", count=2)
ITEMS = {item.item_id: item for item in (BACK, SLEEVE, TAB)}


def at(item_id: str, x_mm: float, y_mm: float, *, turned: bool = False, mirrored: bool = False) -> Placement:
    return Placement(item_id=item_id, copy=0, x_mm=x_mm, y_mm=y_mm, turned=turned, mirrored=mirrored)


def shapes_of(*placements: Placement, nap: bool = False) -> dict[str, list[Polygon]]:
    """Where the pieces lie once the cloth is unfolded."""
    lay = Lay(length_mm=200.0, placements=placements, way="folded", bolt_width_mm=630.0, one_way=nap)
    flat = unfolded(lay, ITEMS)
    assert (flat.way, flat.length_mm, flat.bolt_width_mm, flat.one_way) == ("flat", 200.0, 630.0, nap)
    found: dict[str, list[Polygon]] = {}
    for placement in flat.placements:
        shape = Polygon(laid_outline(ITEMS[placement.item_id], "flat"))
        if placement.mirrored:
            shape = scale(shape, yfact=-1, origin=(0, 0))
        if placement.turned:
            shape = scale(shape, xfact=-1, yfact=-1, origin=(0, 0))
        found.setdefault(placement.item_id, []).append(translate(shape, placement.x_mm, placement.y_mm))
    return found


def same(found: list[Polygon], *paper: list[tuple[float, float]]) -> bool:
    """The same shapes, in any order."""
    wanted = [Polygon(points) for points in paper]
    return len(found) == len(wanted) and all(any(one.equals(other) for other in wanted) for one in found)


def test_a_half_on_the_fold_becomes_the_whole_in_the_middle() -> None:
    assert same(shapes_of(at("back", 0, 0))["back"], [(0, 150), (200, 150), (200, 450), (0, 450)])


def test_a_pair_lies_once_on_each_side_each_the_mirror_image_of_the_other() -> None:
    """15 cm from the fold, so 45 cm and 15 cm from the selvedge; the slanting end points away from the middle."""
    found = shapes_of(at("back", 0, 0), at("sleeve", 0, 150), nap=True)["sleeve"]
    assert same(found, [(0, 450), (200, 450), (100, 550), (0, 550)], [(0, 150), (200, 150), (100, 50), (0, 50)])


def test_a_pair_that_is_turned_is_turned_on_both_sides() -> None:
    """Head to foot: its right angle at (200, 25 cm), its slanting end towards the fold."""
    found = shapes_of(at("sleeve", 200, 250, turned=True))["sleeve"]
    assert same(found, [(200, 550), (0, 550), (100, 450), (200, 450)], [(200, 50), (0, 50), (100, 150), (200, 150)])


def test_two_single_pieces_from_one_place_lie_on_both_sides() -> None:
    """A rectangle is its own mirror image: both layers give one, neither turned over."""
    found = shapes_of(at("tab", 10, 200))["tab"]
    assert same(found, [(10, 500), (50, 500), (50, 550), (10, 550)], [(10, 50), (50, 50), (50, 100), (10, 100)])
