"""A lay on spread cloth comes back from plain placements as it was."""

import pytest
from test_spread_laws import request

from boltside.lay.model import LayError, Placement
from boltside.lay.spread_middle import solve_middle
from boltside.lay.spread_part import solve_part_folded
from boltside.lay.spread_stored import plain_placements, spread_of, with_zones


@pytest.mark.parametrize("seed", range(10))
def test_a_lay_comes_back_as_it_was(seed):
    wanted = request(seed, rectangles=seed % 2 == 0)
    items = {item.item_id: item for item in wanted.items}
    lays = [solve_middle(wanted, trials=5), solve_part_folded(wanted, trials=5, short_trials=2)]
    for lay, way in zip(lays, ("middle", "part-folded"), strict=True):
        spread = spread_of(way, wanted.bolt_width_mm, lay.spread.fold_over_mm)  # type: ignore[arg-type]
        again = with_zones(
            plain_placements(lay), items, spread, length_mm=lay.length_mm, one_way=lay.one_way, quality=lay.quality
        )
        assert again == lay
        assert all(type(one) is Placement for one in plain_placements(lay))


def test_what_cannot_be_read_is_refused():
    wanted = request(2, rectangles=True)
    items = {item.item_id: item for item in wanted.items}
    name = wanted.items[0].item_id
    far = Placement(item_id=name, copy=0, x_mm=0.0, y_mm=5000.0, turned=False, mirrored=False)
    spread = spread_of("middle", 900.0, None)
    with pytest.raises(LayError, match="lies in no zone of the cloth"):
        with_zones([far], items, spread, length_mm=1.0, one_way=True)
    with pytest.raises(LayError, match="is laid but not known"):
        with_zones([far], {}, spread, length_mm=1.0, one_way=True)
    with pytest.raises(LayError, match="does not say how far"):
        spread_of("part-folded", 900.0, None)
