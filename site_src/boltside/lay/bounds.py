"""How short can a lay be at best? Bounds that no way of arranging the pieces can beat."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

import numpy as np

from .model import LayRequest, Outline, usable_width_mm
from .nofit import FINE_PER_MM, NoFitTable, Path, Shape, extent, shape_of
from .outlines import posed, signed_area, simplified_inwards
from .slide import edges_facing, slide_room
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

    If no line along the fold enters either outline twice, the two can't hook into each other: then the least
    offset is where the second stops when it slides up from afar. Otherwise the no-fit polygon tells, made of
    outlines simplified inwards, so that the bound stays one.
    """
    if _enters_once(first) and _enters_once(second):
        far = extent(first)[0]
        still = edges_facing(np.array(_anticlockwise(first), dtype=np.float64), axis=0, forward=True)
        moving = edges_facing(np.array(_anticlockwise(second), dtype=np.float64), axis=0, forward=False)
        return round(far - slide_room(moving, still, far, 0.0))
    step = round(_fold_edge(first)[1] - _fold_edge(second)[0])
    paths = NoFitTable().paths(_thinned(first), _thinned(second))
    for start, end in sorted(stretch for path in paths for stretch in _stretches_on_axis(path)):
        if start <= step < end:
            step = end
    return step


def _enters_once(shape: Shape) -> bool:
    """Whether every line y = constant meets the inside of the shape in one stretch at most."""
    heights = [y for _, y in shape]
    rises = [high - low for low, high in zip(heights, heights[1:] + heights[:1], strict=True) if high != low]
    return sum((now > 0) != (before > 0) for before, now in zip(rises, rises[1:] + rises[:1], strict=True)) <= 2


@lru_cache(maxsize=512)
def _thinned(shape: Shape) -> Shape:
    """A simpler shape inside this one, in the same place."""
    outline = tuple((x / FINE_PER_MM, y / FINE_PER_MM) for x, y in shape)
    return tuple((round(x * FINE_PER_MM), round(y * FINE_PER_MM)) for x, y in simplified_inwards(outline))


def _anticlockwise(shape: Shape) -> Shape:
    return shape if signed_area(shape) > 0 else shape[::-1]


def _stretches_on_axis(path: Path) -> list[tuple[int, int]]:
    """Stretches of the line y = 0 inside a polygon, in whole steps, rounded inwards."""
    crossings = []
    for (x0, y0), (x1, y1) in zip(path, path[1:] + path[:1], strict=True):
        if (y0 <= 0) != (y1 <= 0):
            crossings.append(x0 + (x1 - x0) * (0 - y0) / (y1 - y0))
    crossings.sort()
    return [(int(start) + 1, int(end)) for start, end in zip(crossings[::2], crossings[1::2], strict=True)]
