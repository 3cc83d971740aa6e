"""In which order did the pieces of a finished lay go down? A lay of nearly the same pieces is a good first lay.

Neighbours in width, with a piece more or less, or with nap, are laid much alike. A search that starts from such a lay
finds in a few thousand trials what a search from nothing takes tens of thousands for (see the benchmark's figures).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from .model import Lay, Placement
from .slots import Slot


@dataclass(frozen=True, kw_only=True)
class Lying:
    """Where one slot lies in a finished lay: its box in millimetres, and how it was put."""

    slot: int
    low_x: float
    high_x: float
    low_y: float
    high_y: float
    turned: bool
    mirrored: bool


Order = tuple[tuple[Lying, ...], tuple[int, ...]]
"""Slots in the order in which they went down, then the slots that the finished lay does not have."""


def orders_of(slots: Sequence[Slot], lay: Lay) -> list[Order]:
    """Three orders in which the slots may have gone down: by near end, far end and middle along the cloth."""
    places = {(placement.item_id, placement.copy): placement for placement in lay.placements}
    lying, missing = [], []
    for number, slot in enumerate(slots):
        placement = places.get((slot.item_id, slot.copy))
        if placement is None:
            missing.append(number)
        else:
            lying.append(_lying(number, slot, placement))
    keys: tuple[Callable[[Lying], tuple[float, float, int]], ...] = (
        lambda one: (one.low_x, one.low_y, one.slot),
        lambda one: (one.high_x, one.low_y, one.slot),
        lambda one: (one.low_x + one.high_x, one.low_y, one.slot),
    )
    return [(tuple(sorted(lying, key=key)), tuple(missing)) for key in keys]


def _lying(number: int, slot: Slot, placement: Placement) -> Lying:
    along = -1 if placement.turned else 1
    across = along * (-1 if placement.mirrored else 1)
    xs = [along * x + placement.x_mm for x, _ in slot.outline_mm]
    ys = [across * y + placement.y_mm for _, y in slot.outline_mm]
    return Lying(
        slot=number, low_x=min(xs), high_x=max(xs), low_y=min(ys), high_y=max(ys),
        turned=placement.turned, mirrored=placement.mirrored,
    )  # fmt: skip
