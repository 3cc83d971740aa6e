"""How short can a lay on spread cloth be at best? Bounds that no way of arranging the pieces can beat."""

from collections.abc import Sequence
from itertools import combinations
from typing import Final

from .bounds import longest_piece_mm, shortest_fold_chain
from .model import SELVEDGE_MM, LayItem
from .outlines import signed_area
from .slots import Pose, Slot
from .spread_model import SpreadWay, plain, to_the_middle
from .spread_slots import SpreadSlot, spread_slots

FOLDS: Final[dict[SpreadWay, int]] = {"middle": 2, "part-folded": 1}
"""How many folds there are."""

_MOST_SHARED_OUT: Final = 5
"""Halves whose best division over two folds is found by trying all; beyond that only their fold edges are divided."""


def shortest_spread_mm(items: Sequence[LayItem], bolt_width_mm: float, way: SpreadWay, *, one_way: bool) -> float:
    """The greatest of these bounds, in millimetres: the longest piece; the area of all garment pieces on all layers of
    cloth, and of the places in double zones; the rows of halves along the folds. However much is folded over.
    """
    slots = wide_slots(items, way, one_way=one_way)
    bounds = [
        longest_piece_mm([first_of(slot) for slot in slots]),
        cloth_area_mm2(items) / (bolt_width_mm - 2 * SELVEDGE_MM),
        fold_rows(slots, FOLDS[way])[0],
    ]
    if way == "middle":
        bounds.append(places_area_mm2(slots) / sum(zone.depth_mm for zone in to_the_middle(bolt_width_mm).zones))
    return max(bounds)


def wide_slots(items: Sequence[LayItem], way: SpreadWay, *, one_way: bool) -> tuple[SpreadSlot, ...]:
    """The slots of pieces on cloth that is wide enough for each of them to lie double."""
    wide_mm = 4 * (max_width_mm(items) + SELVEDGE_MM)
    wide = to_the_middle(wide_mm) if way == "middle" else plain(wide_mm, "folded")
    return spread_slots(items, wide, one_way=one_way)


def max_width_mm(items: Sequence[LayItem]) -> float:
    """Width across of the widest outline as drawn, in millimetres."""
    return max(max(y for _, y in item.outline_mm) - min(y for _, y in item.outline_mm) for item in items)


def cloth_area_mm2(items: Sequence[LayItem]) -> float:
    """Area of all garment pieces that come out, in square millimetres."""
    return sum(abs(signed_area(item.outline_mm)) * item.count * (2 if item.mode == "fold" else 1) for item in items)


def places_area_mm2(slots: Sequence[SpreadSlot]) -> float:
    """Area that the slots take on the table where every place lies double, in square millimetres."""
    return sum(abs(signed_area(first_of(slot).outline_mm)) for slot in slots if slot.partner is None)


def first_of(slot: SpreadSlot) -> Slot:
    """How a slot lies in the first zone that takes it. Raises: ValueError if none does."""
    for one in slot.in_zones:
        if one is not None:
            return one
    raise ValueError(f"{slot.item_id!r} fits into no zone")


def fold_rows(slots: Sequence[SpreadSlot], zones: int) -> tuple[float, list[list[tuple[int, Pose]]]]:
    """The halves shared out over one or two folds so that the longer of the shortest rows is as short as it can be.

    Returns its length in millimetres (a bound of the lay's length) and the row of each zone, first the first fold's:
    numbers and poses of the slots. Too many halves give no rows. Zones beyond the second fold get empty rows.
    """
    pinned = [number for number, slot in enumerate(slots) if _half(slot) is not None]
    folds = max(
        (sum(one is not None and one.on_fold for one in slots[number].in_zones) for number in pinned), default=0
    )
    empty: list[list[tuple[int, Pose]]] = [[] for _ in range(zones)]
    if not pinned:
        return 0.0, empty
    if folds == 1:
        length_mm, row = _row(slots, pinned)
        return length_mm or sum(_fold_edge_mm(slots[number]) for number in pinned), [row, *empty[1:]]
    first, *others = pinned
    divisions = [
        ([first, *chosen], [number for number in others if number not in chosen])
        for size in range(len(others) + 1)
        for chosen in combinations(others, size)
    ]
    if len(pinned) > _MOST_SHARED_OUT:
        edges = {number: _fold_edge_mm(slots[number]) for number in pinned}
        return min(max(sum(edges[number] for number in side) for side in sides) for sides in divisions), empty
    best_mm, best = float("inf"), empty
    for sides in divisions:
        rows = [_row(slots, side) for side in sides]
        length_mm = max(row_mm for row_mm, _ in rows)
        if length_mm < best_mm:
            best_mm, best = length_mm, [row for _, row in rows] + empty[2:]
    return best_mm, best


def _half(slot: SpreadSlot) -> Slot | None:
    return next((one for one in slot.in_zones if one is not None and one.on_fold), None)


def _row(slots: Sequence[SpreadSlot], side: Sequence[int]) -> tuple[float, list[tuple[int, Pose]]]:
    """The shortest row of some slots along one fold; length 0 without any or with too many."""
    halves = [half for number in side if (half := _half(slots[number])) is not None]
    length_mm, row = shortest_fold_chain(halves)
    return length_mm, [(side[place], pose) for place, pose in row]


def _fold_edge_mm(slot: SpreadSlot) -> float:
    half = _half(slot)
    on_fold = [x for x, y in half.outline_mm if y == 0.0] if half is not None else [0.0]
    return max(on_fold) - min(on_fold)
