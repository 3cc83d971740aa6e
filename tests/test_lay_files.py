"""Lay files: where the pieces lie is true to the millimetre, how they look is not."""

import gzip
import json
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from shapely import Polygon, affinity

from boltside.demands import cloth_demand, ways_of
from boltside.lay.brackets import CoverSearch
from boltside.lay.folded import solve_by_filling
from boltside.lay.lattice import AskedSet
from boltside.lay.model import LayItem, usable_width_mm
from boltside.lay.outlines import laid_outline
from boltside.lay_files import drawn_outline, lay_file
from boltside.measure.cutting_list import cut_lines
from boltside.published_lays import published_cloth
from boltside.read.folder import read_pattern
from boltside.spec.simplify import COARSE_MM, GRID_MM

DATA = Path(__file__).parents[1] / "data"
SIZE = "92"

MOST_LAYS = 250
"""More than the demo's richest file has."""


def files() -> tuple[dict[str, LayItem], dict[str, dict[str, Any]]]:
    """Outer cloth of Ferrylight in one size, from quick drafts of a few sets at three widths."""
    pattern = read_pattern(DATA / "patterns" / "ferrylight", DATA / "body_charts")
    cloth = pattern.cloths[0]
    demand = cloth_demand(pattern, cut_lines(pattern), cloth, SIZE)
    sets = sorted({one.item_ids for one in demand.reachable}, key=sorted)
    asked = [AskedSet(item_ids=ids, naps=frozenset({True, False})) for ids in sets[:: max(1, len(sets) // 3)]]
    ways = ways_of(cloth)
    widths = (1100.0, 1400.0, 1600.0)
    search = CoverSearch(demand.items, asked, widths_mm=widths, ways=ways)
    while (node := search.next_node()) is not None:
        search.take(node, solve_by_filling(search.request(node), trials=1))
    published = published_cloth({SIZE: search.result()}, ways, widths, {SIZE: demand.items})
    made = {
        way: lay_file("ferrylight", cloth.name, way, SIZE, demand.items, published.lays[way, SIZE]) for way in ways
    }
    return dict(demand.items), made  # type: ignore[return-value]


@pytest.fixture(scope="module")
def made() -> tuple[dict[str, LayItem], dict[str, dict[str, Any]]]:
    return files()


def placed(shape: Polygon, x: float, y: float, turned: int, mirrored: int) -> Polygon:
    if mirrored:
        shape = affinity.scale(shape, yfact=-1.0, origin=(0, 0))
    if turned:
        shape = affinity.rotate(shape, 180, origin=(0, 0))
    return affinity.translate(shape, x, y)


def test_the_true_pieces_do_not_overlap_where_the_file_says_they_lie_but_for_rounding(made):
    items, of_ways = made
    for way, file in of_ways.items():
        true = [Polygon(laid_outline(items[name], way)) for name in file["items"]]
        for lay in file["lays"].values():
            # Each may be off by half a millimetre along each axis: two of them by 1 mm along each, 0.71 mm for each.
            there = [placed(true[at], *rest).buffer(-0.71) for at, _, *rest in lay["at"]]
            for one, other in combinations(there, 2):
                assert one.intersection(other).area < 1.0
            usable_mm = usable_width_mm(lay["width_mm"], way)
            for shape in there:
                x0, y0, x1, y1 = shape.bounds
                assert x0 > 0 and x1 < lay["length_mm"] + 1 and y1 < usable_mm + 1
                assert y0 > -1 or way == "folded"


def test_every_piece_lies_there_in_its_number(made):
    items, of_ways = made
    for lay in of_ways["flat"]["lays"].values():
        names = [of_ways["flat"]["items"][at] for at, *_ in lay["at"]]
        for name in set(names):
            assert names.count(name) == items[name].count
            if items[name].mode == "pair":
                mirrored = [row[5] for row in lay["at"] if of_ways["flat"]["items"][row[0]] == name]
                assert sum(mirrored) == len(mirrored) // 2


def test_nothing_is_turned_round_with_nap(made):
    _, of_ways = made
    lays = [lay for file in of_ways.values() for lay in file["lays"].values()]
    assert any(lay["nap"] for lay in lays)
    assert not any(row[4] for lay in lays if lay["nap"] for row in lay["at"])


def test_outlines_are_coarse_and_on_the_grid(made):
    items, of_ways = made
    for way, file in of_ways.items():
        for name, outline in zip(file["items"], file["outlines"], strict=True):
            shown, true = Polygon(outline), Polygon(laid_outline(items[name], way))
            assert shown.is_valid
            assert all(x % GRID_MM == 0 and y % GRID_MM == 0 for x, y in outline)
            assert shown.boundary.hausdorff_distance(true.boundary) <= COARSE_MM + GRID_MM
            assert outline == drawn_outline(items[name], way)


def test_halves_lie_above_the_fold_and_wholes_about_it(made):
    items, of_ways = made
    halves = [name for name in of_ways["folded"]["items"] if items[name].mode == "fold"]
    assert halves
    for name in halves:
        ys = [y for _, y in of_ways["folded"]["outlines"][of_ways["folded"]["items"].index(name)]]
        assert min(ys) == 0
        ys = [y for _, y in of_ways["flat"]["outlines"][of_ways["flat"]["items"].index(name)]]
        assert min(ys) < 0 < max(ys) and abs(min(ys) + max(ys)) <= GRID_MM


def test_a_file_of_many_lays_is_small(made):
    _, of_ways = made
    for file in of_ways.values():
        few = json.dumps(file, separators=(",", ":"), sort_keys=True)
        bare = len(gzip.compress(json.dumps({**file, "lays": {}}, separators=(",", ":")).encode()))
        each = (len(gzip.compress(few.encode())) - bare) / len(file["lays"])
        assert bare + each * MOST_LAYS <= 30_000
        assert json.loads(few)["format"] == 1
