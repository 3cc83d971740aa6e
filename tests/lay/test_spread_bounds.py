"""Bounds of lays on spread cloth, worked out on paper."""

import pytest

from boltside.lay.model import LayItem
from boltside.lay.spread_bounds import shortest_spread_mm

pytestmark = pytest.mark.outside


def item(item_id, along, across, mode, count):
    return LayItem(
        item_id=item_id,
        outline_mm=((0, 0), (along, 0), (along, across), (0, across)),
        mode=mode,
        count=count,
    )


HALVES = [item("a", 300, 50, "fold", 1), item("b", 200, 50, "fold", 2), item("c", 100, 50, "fold", 1)]

CASES = {
    "the longest piece": ([item("a", 400, 50, "single", 1)], 900, "middle", 400),
    # 300 + 100 on one fold, 200 + 200 on the other.
    "halves on two folds": (HALVES, 900, "middle", 400),
    "halves on one fold": (HALVES, 900, "part-folded", 800),
    # 7 halves of 100 can't be shared out evenly: four on one fold. (Too many to try all rows; their edges are divided.)
    "seven halves": ([item("a", 100, 50, "fold", 7)], 900, "middle", 400),
    # 8 halves: too many for a row, their fold edges are added up.
    "eight halves on one fold": ([item("a", 100, 50, "fold", 8)], 900, "part-folded", 800),
    # Places: 10 pairs of 100 x 105 take 105 000 mm2 of 2 x 210 of table: 250.
    "places in double zones": ([item("a", 100, 105, "pair", 20)], 900, "middle", 250),
    # The same 210 000 mm2 of garment pieces on 870 of usable cloth.
    "all layers of cloth": ([item("a", 100, 105, "pair", 20)], 900, "part-folded", 210_000 / 870),
    # A single piece without a partner wastes its second layer to the middle: 11 places of 105 x 100 (21 = 10 + 10 + 1).
    "an odd single": ([item("a", 100, 105, "single", 21)], 900, "middle", 275),
}


@pytest.mark.parametrize("name", CASES)
def test_bound(name):
    items, width_mm, way, bound_mm = CASES[name]
    assert shortest_spread_mm(items, width_mm, way, one_way=True) == pytest.approx(bound_mm)
