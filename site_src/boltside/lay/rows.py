"""How many pieces follow one another along the cloth? That many repeats of a pattern a lay may have to give way to.

To bring the marks of a lay in step, each piece moves on by less than one repeat from where the pieces before it have
pushed it. So the pieces of the longest row that push one another, each the next, take a repeat each at most; what lies
side by side in one row takes one, for its marks may lie at different places; and copies of one piece that lie exactly
side by side take none. A row may wander across the cloth, so it can be longer than the number of pieces on any one
line. Pieces hooked into one another can't be pushed apart so; each of them counts as if it followed the others.
"""

import math
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Final

import numpy as np

from .model import GRID_PER_MM, Lay, LayItem, Outline, Placement
from .outlines import laid_outline, posed, signed_area
from .slide import Edges, edges_facing, slide_room

_BESIDE: Final = 0.05 * GRID_PER_MM
"""Pieces that share less than this across the cloth lie side by side; rounding makes neighbours share a hair."""


def rows_in_turn(lay: Lay, items: Mapping[str, LayItem]) -> int:
    """How many repeats bring every mark of this lay in step, wherever in its piece each mark lies.

    Arguments: the lay as it was stored; its pieces by name. Returns 0 where nothing has to move. Source: geometry; the
    published rule (extra = repeat x rows of pieces along the length) says the same of pieces in straight rows.
    """
    first = lay.placements[0] if lay.placements else None
    if first is None or all(_beside(first, one) for one in lay.placements):
        return 0
    shapes = [_shape(laid_outline(items[one.item_id], lay.way), one.turned, one.mirrored) for one in lay.placements]
    at = [(round(one.x_mm * GRID_PER_MM), round(one.y_mm * GRID_PER_MM)) for one in lay.placements]
    return _longest(_pushed(shapes, at))


def _beside(one: Placement, other: Placement) -> bool:
    """Whether the two are copies of one piece that begin at the same place along the cloth, the same way up."""
    return one.item_id == other.item_id and one.x_mm == other.x_mm and one.turned == other.turned


class _Shape:
    """A posed outline in steps of the grid: its box and the edges that look along the cloth, back and on."""

    def __init__(self, outline: Outline) -> None:
        points = np.rint(np.array(outline) * GRID_PER_MM)
        (self.low_x, self.low_y), (self.high_x, self.high_y) = points.min(axis=0), points.max(axis=0)
        self.back: Edges = edges_facing(points, axis=0, forward=False)
        self.on: Edges = edges_facing(points, axis=0, forward=True)


@lru_cache(maxsize=4096)
def _shape(outline: Outline, turned: bool, mirrored: bool) -> _Shape:
    lying = posed(outline, turned=turned, mirrored=mirrored)
    return _Shape(tuple(reversed(lying)) if signed_area(lying) < 0 else lying)


def _pushed(shapes: Sequence[_Shape], at: Sequence[tuple[int, int]]) -> list[list[int]]:
    """For each piece those that it meets when it is moved on along the cloth."""
    pushed: list[list[int]] = [[] for _ in shapes]
    for one in range(len(shapes)):
        for other in range(len(shapes)):
            if one != other and _pushes(shapes[one], at[one], shapes[other], at[other]):
                pushed[one].append(other)
    return pushed


def _pushes(one: _Shape, at: tuple[int, int], other: _Shape, other_at: tuple[int, int]) -> bool:
    shared = min(one.high_y + at[1], other.high_y + other_at[1]) - max(one.low_y + at[1], other.low_y + other_at[1])
    if shared <= _BESIDE or other.high_x + other_at[0] <= one.low_x + at[0]:
        return False
    if one.high_x + at[0] <= other.low_x + other_at[0]:
        return True
    room = slide_room(other.back, one.on, other_at[0] - at[0], other_at[1] - at[1])
    return not math.isinf(room)


def _longest(pushed: Sequence[Sequence[int]]) -> int:
    """The longest row; pieces that push one another in a ring count as a row of their own."""
    groups = _rings(pushed)
    of = {one: number for number, group in enumerate(groups) for one in group}
    longest: list[int] = []
    for number, group in enumerate(groups):  # what a group pushes stands before it
        after = {of[other] for one in group for other in pushed[one]} - {number}
        longest.append(len(group) + max((longest[other] for other in after), default=0))
    return max(longest)


def _rings(pushed: Sequence[Sequence[int]]) -> list[list[int]]:
    """Pieces grouped with those that they push and are pushed by, what is pushed before what pushes (Tarjan)."""
    number: dict[int, int] = {}
    low: dict[int, int] = {}
    stack: list[int] = []
    groups: list[list[int]] = []

    def visit(one: int) -> None:
        number[one] = low[one] = len(number)
        stack.append(one)
        for other in pushed[one]:
            if other not in number:
                visit(other)
                low[one] = min(low[one], low[other])
            elif other in stack:
                low[one] = min(low[one], number[other])
        if low[one] == number[one]:
            at = stack.index(one)
            groups.append(stack[at:])
            del stack[at:]

    for one in range(len(pushed)):
        if one not in number:
            visit(one)
    return groups
