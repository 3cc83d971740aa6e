"""Which outlines must be placed on spread cloth, in which zones may each lie, and in which poses?

The rules are those of :mod:`.slots`, zone by zone:

* a half lies on a fold, on either one (only cloth without any fold takes the whole paper piece);
* a mirrored pair comes from one place in a double zone, either way round. Where there is a single zone, it may also be
  cut there as two pieces, the second one turned over by hand;
* two single pieces that are their own mirror image are treated alike, but are never turned over;
* any other single piece may lie in every zone; in a double one it wastes its second layer.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from .model import LayItem
from .outlines import symmetric_across, unfold
from .slots import Pose, Slot
from .spread_model import Spread, Zone


@dataclass(frozen=True, kw_only=True)
class SpreadSlot:
    """One or two garment pieces that come from one place.

    ``in_zones`` holds, for each zone of the spread, how the piece lies there in the zone's own measure, or None where
    it may not lie. ``partner`` is the number of a slot whose places in a double zone give this piece too, so that it
    needs one of its own only if that slot is cut apart, in a single zone.
    """

    item_id: str
    copy: int
    in_zones: tuple[Slot | None, ...]
    apart_in: frozenset[int] = frozenset()
    partner: int | None = None


_FITS_MM: Final = 1e-6
"""Rounding of a width that is just the zone's."""


def gives_two(item: LayItem, copy: int) -> bool:
    """Whether a place in a double zone gives this copy and the one after it."""
    if copy + 1 >= item.count or item.mode == "fold":
        return False
    return item.mode == "pair" or symmetric_across(item.outline_mm)


def spread_slots(items: Sequence[LayItem], spread: Spread, *, one_way: bool) -> tuple[SpreadSlot, ...]:
    """The slots of pieces on spread cloth, in the order of the pieces; one of a partner follows its first."""
    slots: list[SpreadSlot] = []
    for item in items:
        copy = 0
        while copy < item.count:
            if gives_two(item, copy):
                slots += _two(item, copy, spread, one_way, len(slots))
                copy += 2
            else:
                slots.append(SpreadSlot(item_id=item.item_id, copy=copy, in_zones=_alone(item, copy, spread, one_way)))
                copy += 1
    return tuple(slots)


def fits(slots: Sequence[SpreadSlot]) -> bool:
    """Whether each slot has a zone that takes it."""
    return all(any(slot.in_zones) for slot in slots)


def _two(item: LayItem, copy: int, spread: Spread, one_way: bool, number: int) -> list[SpreadSlot]:
    """A place that gives two pieces, and the place of the second one where they can be cut apart."""
    zones = spread.zones
    apart = [_alone(item, one, spread, one_way) for one in (copy, copy + 1)]
    together = tuple(
        _slot(item, copy, zone, _pair_poses(item, zone, one_way)) if zone.layers == 2 else None for zone in zones
    )
    singles = [tuple(None if zone.layers == 2 else one for zone, one in zip(zones, of, strict=True)) for of in apart]
    if not any(singles[0]):
        return [SpreadSlot(item_id=item.item_id, copy=copy, in_zones=together)]
    first = tuple(one or other for one, other in zip(together, singles[0], strict=True))
    apart_in = frozenset(at for at, one in enumerate(singles[0]) if one is not None)
    return [
        SpreadSlot(item_id=item.item_id, copy=copy, in_zones=first, apart_in=apart_in),
        SpreadSlot(item_id=item.item_id, copy=copy + 1, in_zones=singles[1], partner=number),
    ]


def _alone(item: LayItem, copy: int, spread: Spread, one_way: bool) -> tuple[Slot | None, ...]:
    """One copy that comes from a place of its own."""
    turns = _turns(one_way)
    found: list[Slot | None] = []
    for zone in spread.zones:
        if item.mode == "fold":
            if zone.fold is not None:
                # The whole is symmetric, so the half is flipped along its length instead of turned round.
                found.append(_slot(item, copy, zone, tuple(Pose(turned=turn, mirrored=turn) for turn in turns)))
            else:
                whole = tuple(Pose(turned=turn, mirrored=False) for turn in turns)
                found.append(None if spread.folds else _slot(item, copy, zone, whole))
            continue
        over = copy % 2 == 1 if item.mode == "pair" else item.face == "down"
        found.append(_slot(item, copy, zone, _poses(zone, over, turns)))
    return tuple(found)


def _pair_poses(item: LayItem, zone: Zone, one_way: bool) -> tuple[Pose, ...]:
    turns = _turns(one_way)
    if item.mode == "pair":
        return tuple(Pose(turned=turn, mirrored=over) for over in (False, True) for turn in turns)
    return _poses(zone, item.face == "down", turns)


def _poses(zone: Zone, over: bool, turns: Sequence[bool]) -> tuple[Pose, ...]:
    """Poses in the zone's own measure, which is turned over where the fold is at the high edge."""
    return tuple(Pose(turned=turn, mirrored=over != (zone.fold == "high")) for turn in turns)


def _turns(one_way: bool) -> tuple[bool, ...]:
    return (False,) if one_way else (False, True)


def _slot(item: LayItem, copy: int, zone: Zone, poses: tuple[Pose, ...]) -> Slot | None:
    """The slot in one zone, or None where it is too wide for it."""
    outline = unfold(item.outline_mm) if item.mode == "fold" and zone.fold is None else item.outline_mm
    ys = [y for _, y in outline]
    if max(ys) - min(ys) > zone.depth_mm + _FITS_MM:
        return None
    return Slot(
        item_id=item.item_id,
        copy=copy,
        outline_mm=outline,
        on_fold=item.mode == "fold" and zone.fold is not None,
        poses=poses,
    )
