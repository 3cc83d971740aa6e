"""What does a lay on spread cloth look like when the cloth is unfolded? A flat lay of the same length.

The under layer, right side up, stays as it is; what lies in a flap is its mirror image about the fold. So a pair in a
double zone gives both copies, a half the whole piece about its fold, a single piece comes once and its second layer is
waste. What was cut apart in a single zone stays where it is.
"""

from collections.abc import Mapping

from .model import GRID_PER_MM, Lay, LayItem, Placement
from .spread_model import Spread, SpreadLay, ZonedPlacement
from .spread_slots import gives_two


def unfolded_spread(lay: SpreadLay, items: Mapping[str, LayItem]) -> Lay:
    """The flat lay that a lay on spread cloth is when it is unfolded. Arguments: the lay; its pieces by name."""
    placements: list[Placement] = []
    for placement in lay.placements:
        placements += _all_layers(placement, items[placement.item_id], lay.spread)
    return Lay(
        length_mm=lay.length_mm,
        placements=tuple(sorted(placements, key=lambda one: (one.item_id, one.copy))),
        way="flat",
        bolt_width_mm=lay.spread.bolt_width_mm,
        one_way=lay.one_way,
        quality=lay.quality,
    )


def _all_layers(placement: ZonedPlacement, item: LayItem, spread: Spread) -> list[Placement]:
    """What one place on the table gives."""
    zone = spread.zone(placement.zone)
    if zone.fold is None:
        return [_at(placement, placement.copy, spread.under_mm + placement.y_mm, mirrored=placement.mirrored)]
    if item.mode == "fold":
        return [_at(placement, placement.copy, spread.under_mm + zone.fold_mm, mirrored=False)]
    under_mm = spread.under_mm + placement.y_mm
    upper_mm = spread.under_mm + 2 * zone.fold_mm - placement.y_mm
    if item.mode == "pair":
        copy = placement.copy - placement.copy % 2
        return [
            _at(placement, copy + int(placement.mirrored), under_mm, mirrored=placement.mirrored),
            _at(placement, copy + int(not placement.mirrored), upper_mm, mirrored=not placement.mirrored),
        ]
    under = _at(placement, placement.copy, under_mm, mirrored=placement.mirrored)
    if not gives_two(item, placement.copy):
        return [under]
    # Its own mirror image: the upper copy is moved to where the mirrored one would lie, and is not turned over.
    ys = [y for _, y in item.outline_mm]
    sign = -1.0 if placement.turned != placement.mirrored else 1.0
    upper_mm -= sign * (min(ys) + max(ys))
    return [under, _at(placement, placement.copy + 1, upper_mm, mirrored=placement.mirrored)]


def _at(placement: ZonedPlacement, copy: int, y_mm: float, *, mirrored: bool) -> Placement:
    return Placement(
        item_id=placement.item_id,
        copy=copy,
        x_mm=placement.x_mm,
        y_mm=round(y_mm * GRID_PER_MM) / GRID_PER_MM,
        turned=placement.turned,
        mirrored=mirrored,
    )
