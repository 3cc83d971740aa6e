"""How short can a lay be at best? Bounds that no way of arranging the pieces can beat."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from .fold_steps import overlaps_along
from .model import LayRequest, Outline, usable_width_mm
from .nofit import FINE_PER_MM, Shape, extent, shape_of
from .outlines import posed, signed_area
from .slots import Pose, Slot, slots_of

_MOST_CHAINED: Final = 7
"""Halves on the fold whose best order is found by trying all; beyond that their fold edges are added up."""


def shortest_possible_mm(request: LayRequest) -> float:
    """The greatest of the bounds below, in millimetres."""
    slots = slots_of(request)
    return max(
        longest_piece_mm(slots),
        area_mm2(slots) / usable_width_mm(request.bolt_width_mm, request.way),
        fold_chain_mm(slots),
    )


def longest_piece_mm(slots: Sequence[Slot]) -> float:
    """Length along the grain of the longest piece, in millimetres."""
    return max(max(x for x, _ in slot.outline_mm) - min(x for x, _ in slot.outline_mm) for slot in slots)


def area_mm2(slots: Sequence[Slot]) -> float:
    """Area that the pieces take on the table, in square millimetres."""
    return sum(abs(signed_area(slot.outline_mm)) for slot in slots)


def fold_chain_mm(slots: Sequence[Slot]) -> float:
    """Length of the shortest row of all halves along the fold, in millimetres; 0 without any.

    Neighbours on the fold must keep apart as their outlines demand (they may reach into each other beyond
    the fold edge). The shortest row over all orders and poses bounds every lay, since leaving out what pieces
    that are not neighbours demand of each other can only make it shorter.
    """
    pinned = [slot for slot in slots if slot.on_fold]
    if len(pinned) > _MOST_CHAINED:
        return sum(_fold_edge_length_mm(slot) for slot in pinned)
    return shortest_fold_chain(slots)[0]


def shortest_fold_chain(slots: Sequence[Slot]) -> tuple[float, tuple[tuple[int, Pose], ...]]:
    """The shortest row of halves along the fold, found by dynamic programming.

    Returns its length in millimetres, and number and pose of each slot in the row; nothing without halves
    or with too many of them.
    """
    pinned = [number for number, slot in enumerate(slots) if slot.on_fold]
    if not 0 < len(pinned) <= _MOST_CHAINED:
        return 0.0, ()
    outlines = tuple((slots[number].outline_mm, slots[number].poses) for number in pinned)
    length_mm, row = _shortest_row(outlines)
    return length_mm, tuple((pinned[place], pose) for place, pose in row)


_Row = tuple[tuple[int, Pose], ...]


@lru_cache(maxsize=512)
def _shortest_row(halves: tuple[tuple[Outline, tuple[Pose, ...]], ...]) -> tuple[float, _Row]:
    """The shortest row of halves and its length; kept, because every width of the same pieces asks for it."""
    pinned = range(len(halves))
    shapes = {number: _pinned_shapes(*halves[number]) for number in pinned}
    steps: dict[tuple[Shape, Shape], int] = {}
    rows: dict[tuple[frozenset[int], int, Shape], tuple[int, _Row]] = {
        (frozenset((number,)), number, shape): (0, ((number, pose),))
        for number in pinned
        for shape, pose in shapes[number].items()
    }
    for _ in pinned[1:]:
        longer: dict[tuple[frozenset[int], int, Shape], tuple[int, _Row]] = {}
        for (used, _last, shape), (so_far, row) in rows.items():
            for number in pinned:
                if number in used:
                    continue
                for following, pose in shapes[number].items():
                    if (shape, following) not in steps:
                        steps[shape, following] = _least_step(shape, following)
                    key = (used | {number}, number, following)
                    total = so_far + steps[shape, following]
                    if key not in longer or total < longer[key][0]:
                        longer[key] = (total, (*row, (number, pose)))
        rows = longer
    length, row = min(
        ((so_far + extent(shape)[0], row) for (_, _, shape), (so_far, row) in rows.items()),
        key=lambda found: found[0],
    )
    return length / FINE_PER_MM, row


def _pinned_shapes(outline: Outline, poses: tuple[Pose, ...]) -> dict[Shape, Pose]:
    """The different shapes a half may take on the fold, each with the first pose that gives it."""
    found: dict[Shape, Pose] = {}
    for pose in poses:
        shape, _ = shape_of(posed(outline, turned=pose.turned, mirrored=pose.mirrored))
        found.setdefault(shape, pose)
    return found


def _fold_edge(points: Sequence[tuple[float, float]]) -> tuple[float, float]:
    on_fold = [x for x, y in points if y == 0]
    return min(on_fold), max(on_fold)


def _fold_edge_length_mm(slot: Slot) -> float:
    start, end = _fold_edge(slot.outline_mm)
    return end - start


@lru_cache(maxsize=4096)
def _least_step(first: Shape, second: Shape) -> int:
    """Least offset of ``second`` when it follows ``first`` on the fold, in fine steps; kept, for sets share pairs.

    From where their fold edges would touch it moves on as long as the outlines still overlap.
    """
    step = round(_fold_edge(first)[1] - _fold_edge(second)[0])
    for start, end in overlaps_along(first, second):
        if start <= step < end:
            step = end
    return step
