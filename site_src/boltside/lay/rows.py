"""How many pieces follow one another along the cloth? That many repeats of a pattern a lay may have to give way to.

To bring the marks of a lay in step, each piece moves on by less than one repeat from where the pieces before it have
pushed it. So the pieces of the longest row that push one another, each the next, take a repeat each at most; what lies
side by side in one row takes one, for its marks may lie at different places; and copies of one piece that lie exactly
side by side take none. A row may wander across the cloth, so it can be longer than the number of pieces on any one
line. Pieces hooked into one another can't be pushed apart so; each of them counts as if it followed the others.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from .model import GRID_PER_MM, Lay, LayItem, Outline, Placement, Way
from .outlines import laid_outline, posed, signed_area
from .slide import TOUCHING, Edges, edges_facing

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
    shapes = [_shape(items[one.item_id], lay.way, one.turned, one.mirrored) for one in lay.placements]
    at = [(round(one.x_mm * GRID_PER_MM), round(one.y_mm * GRID_PER_MM)) for one in lay.placements]
    return _longest(_pushed(shapes, at))


def _beside(one: Placement, other: Placement) -> bool:
    """Whether the two are copies of one piece that begin at the same place along the cloth, the same way up."""
    return one.item_id == other.item_id and one.x_mm == other.x_mm and one.turned == other.turned


class _Side:
    """How far an outline reaches on one side along the cloth, at each place across: straight between ``breaks``.

    Arguments: the edges of that side; which of several edges over one place is meant, the nearest (`argmin`) or the
    farthest (`argmax`) along the cloth. Edges of an outline do not cross, so between two breaks it is one edge.
    """

    def __init__(self, edges: Edges, which: Callable[..., NDArray[np.intp]]) -> None:
        self.breaks = np.unique(edges[:, [1, 3]])
        middles = (self.breaks[:-1] + self.breaks[1:]) / 2
        slopes = (edges[:, 2] - edges[:, 0]) / (edges[:, 3] - edges[:, 1])
        levels = edges[:, 0] - slopes * edges[:, 1]
        there = (edges[:, 1] < middles[:, None]) & (middles[:, None] < edges[:, 3])
        reach = levels + slopes * middles[:, None]
        nowhere = np.inf if which is np.argmin else -np.inf
        chosen = which(np.where(there, reach, nowhere), axis=1)
        self.slopes, self.levels = slopes[chosen], levels[chosen]


class _Shape:
    """A posed outline in steps of the grid: its box, how far back it reaches at most, and how far on at least."""

    def __init__(self, outline: Outline) -> None:
        points = np.rint(np.array(outline) * GRID_PER_MM)
        (self.low_x, self.low_y), (self.high_x, self.high_y) = points.min(axis=0).tolist(), points.max(axis=0).tolist()
        self.back = _Side(edges_facing(points, axis=0, forward=False), np.argmax)
        self.on = _Side(edges_facing(points, axis=0, forward=True), np.argmin)


_known: dict[tuple[int, Way, bool, bool], tuple[LayItem, _Shape]] = {}
_MOST_KNOWN: Final = 4096


def _shape(item: LayItem, way: Way, turned: bool, mirrored: bool) -> _Shape:
    # By identity: to hash an outline takes longer than the rest. The piece is kept, so its id stays its own.
    by = (id(item), way, turned, mirrored)
    if by not in _known:
        if len(_known) >= _MOST_KNOWN:
            _known.clear()
        lying = posed(laid_outline(item, way), turned=turned, mirrored=mirrored)
        _known[by] = item, _Shape(tuple(reversed(lying)) if signed_area(lying) < 0 else lying)
    return _known[by][1]


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
    return _meets(one.on, other.back, other_at[0] - at[0], other_at[1] - at[1])


def _meets(on: _Side, back: _Side, along: int, across: int) -> bool:
    """Whether somewhere the one side looks at the other, which lies so much further along and across the cloth.

    Exact: between all breaks of both, their distance changes linearly.
    """
    breaks = back.breaks + across
    low, high = max(on.breaks[0], breaks[0]), min(on.breaks[-1], breaks[-1])
    if low >= high:
        return False
    places = np.concatenate((on.breaks, breaks, (low, high)))
    places = np.sort(places[(low <= places) & (places <= high)])
    middles = (places[:-1] + places[1:]) / 2
    of_on = np.searchsorted(on.breaks, middles) - 1
    of_back = np.searchsorted(breaks, middles) - 1
    slopes = back.slopes[of_back] - on.slopes[of_on]
    levels = back.levels[of_back] + along - back.slopes[of_back] * across - on.levels[of_on]
    first, last = levels + slopes * places[:-1], levels + slopes * places[1:]
    stretches = places[1:] > places[:-1]
    return bool(((np.minimum(first, last) >= -TOUCHING) & stretches).any())


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
