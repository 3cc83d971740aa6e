"""What does a lay of folded cloth look like when the cloth is unfolded? A flat lay of the same length.

The under layer, right side up, stays as it is beyond the centre line; the upper layer is its mirror image on the other
side. A pair gives both copies, a half on the fold the whole piece about the centre line, a single piece comes once.
"""

from collections.abc import Mapping
from math import floor

from .model import GRID_PER_MM, Lay, LayItem, Placement, usable_width_mm
from .slots import places
from .spread_stored import spread_lay
from .spread_unfold import unfolded_spread


def unfolded(lay: Lay, items: Mapping[str, LayItem]) -> Lay:
    """The flat lay that a folded one is when it is unfolded, however it is folded; a flat lay comes back as it is.

    Arguments: the lay; its pieces by name.
    """
    if lay.way == "flat":
        return lay
    if lay.way != "folded":
        return unfolded_spread(spread_lay(lay, items), items)
    centre_mm = floor(usable_width_mm(lay.bolt_width_mm, "folded") * GRID_PER_MM + 1e-6) / GRID_PER_MM
    placements: list[Placement] = []
    for placement in lay.placements:
        placements += _both_layers(placement, items[placement.item_id], centre_mm)
    return Lay(
        length_mm=lay.length_mm,
        placements=tuple(placements),
        way="flat",
        bolt_width_mm=lay.bolt_width_mm,
        one_way=lay.one_way,
        quality=lay.quality,
    )


def _both_layers(placement: Placement, item: LayItem, centre_mm: float) -> list[Placement]:
    """What one place on folded cloth gives."""
    if item.mode == "fold":
        return [_at(placement, placement.copy, centre_mm, mirrored=False)]
    if item.mode == "pair":
        under = _at(placement, 0, centre_mm + placement.y_mm, mirrored=placement.mirrored)
        upper = _at(placement, 0, centre_mm - placement.y_mm, mirrored=not placement.mirrored)
        return [
            _at(one, 2 * placement.copy + int(one.mirrored), one.y_mm, mirrored=one.mirrored) for one in (under, upper)
        ]
    two_layers = places(item, "folded") < item.count
    first = 2 * placement.copy if two_layers else placement.copy
    under = _at(placement, first, centre_mm + placement.y_mm, mirrored=placement.mirrored)
    if not two_layers or first + 1 >= item.count:
        return [under]
    # Its own mirror image: the upper copy is moved to where the mirrored one would lie, and is not turned over.
    ys = [y for _, y in item.outline_mm]
    across_mm = min(ys) + max(ys)
    sign = -1.0 if placement.turned != placement.mirrored else 1.0
    upper_mm = centre_mm - placement.y_mm - sign * across_mm
    return [under, _at(placement, first + 1, upper_mm, mirrored=placement.mirrored)]


def _at(placement: Placement, copy: int, y_mm: float, *, mirrored: bool) -> Placement:
    return Placement(
        item_id=placement.item_id,
        copy=copy,
        x_mm=placement.x_mm,
        y_mm=round(y_mm * GRID_PER_MM) / GRID_PER_MM,
        turned=placement.turned,
        mirrored=mirrored,
    )
