"""Where does one edge lie when it is moved sideways by its allowance?

The points of the moved edge are where neighbouring moved segments meet (a mitre), so a curve flattened to 0.1 mm
stays as good as it was. Stretches that the move turns inside out (a hollow tighter than the allowance) vanish.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from boltside.measure.polyline import SAME_MM, distance_mm, without_repeats
from boltside.pattern import Point

MITRE_LIMIT = 4.0
"""A corner of two moved lines may lie this many allowances from the drawn corner; sharper ones are blunted.

Reached at corners below 29 degrees. Our choice: the usual default of drawing programs' mitred strokes (SVG 1.1,
`stroke-miterlimit`, is 4 as well)."""

PARALLEL = 1e-9
"""Sine of the angle below which two lines count as parallel."""

INSIDE_OUT = -1e-9
"""A moved segment shorter than this (mm, against its drawn direction) is inside out."""


@dataclass
class _Segment:
    """A moved segment: its ends, its direction and how long it was drawn."""

    start: Point
    stop: Point
    way: Point
    drawn_mm: float


def offset_edge(edge: Sequence[Point], right_mm: float) -> list[Point]:
    """The edge moved to its right-hand side by ``right_mm`` (negative: to the left), as an open line.

    Its ends are square to the drawn ends; :mod:`boltside.measure.corners` trims or extends them.
    """
    points = without_repeats(edge)
    if right_mm == 0.0 or len(points) < 2:
        return points
    segments = [_moved(a, b, right_mm) for a, b in pairwise(points)]
    joins = [_join(a, b, right_mm) for a, b in pairwise(segments)]
    while len(segments) > 1:
        worst = min(range(len(segments)), key=lambda i: _kept_share(segments, joins, i))
        if _kept_share(segments, joins, worst) * segments[worst].drawn_mm >= INSIDE_OUT:
            break
        # The segment that vanishes first goes; its neighbours then meet each other.
        del segments[worst]
        if worst == 0:
            del joins[0]
        elif worst == len(segments):
            del joins[-1]
        else:
            joins[worst - 1 : worst + 1] = [_join(segments[worst - 1], segments[worst], right_mm)]
    return without_repeats([segments[0].start, *(point for join in joins for point in join), segments[-1].stop])


def offset_point(edge: Sequence[Point], at_mm: float, right_mm: float) -> Point:
    """Where the point so far along the edge comes to lie: out by the normal; at a bend, by the mean of the two."""
    along = 0.0
    before: _Segment | None = None
    for a, b in pairwise(without_repeats(edge)):
        moved = _moved(a, b, right_mm)
        if before is not None and abs(at_mm - along) <= SAME_MM:
            join = _join(before, moved, right_mm)
            return join[0] if len(join) == 1 else _middle(join[0], join[1])
        if at_mm < along + moved.drawn_mm - SAME_MM:
            t = max(0.0, at_mm - along)
            return moved.start[0] + t * moved.way[0], moved.start[1] + t * moved.way[1]
        along += moved.drawn_mm
        before = moved
    assert before is not None, "an edge has at least two points"
    return before.stop


def crossing(a: Point, a_way: Point, b: Point, b_way: Point) -> tuple[float, float] | None:
    """Where two straight lines cross: mm along each from its point (ways are unit vectors), or None if parallel."""
    sine = a_way[0] * b_way[1] - a_way[1] * b_way[0]
    if abs(sine) < PARALLEL:
        return None
    dx, dy = b[0] - a[0], b[1] - a[1]
    return (dx * b_way[1] - dy * b_way[0]) / sine, (dx * a_way[1] - dy * a_way[0]) / sine


def _moved(a: Point, b: Point, right_mm: float) -> _Segment:
    dx, dy = b[0] - a[0], b[1] - a[1]
    long_mm = hypot(dx, dy)
    ux, uy = dx / long_mm, dy / long_mm
    out_x, out_y = right_mm * uy, -right_mm * ux
    return _Segment((a[0] + out_x, a[1] + out_y), (b[0] + out_x, b[1] + out_y), (ux, uy), long_mm)


def _middle(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def _join(a: _Segment, b: _Segment, right_mm: float) -> list[Point]:
    """The point (or two, where a sharp bend is blunted) between two moved segments."""
    if distance_mm(a.stop, b.start) <= SAME_MM:
        return [a.stop]
    met = crossing(a.stop, a.way, b.start, b.way)
    reach_mm = MITRE_LIMIT * abs(right_mm)
    if met is None or (met[0] > reach_mm and met[1] < -reach_mm):
        if a.way[0] * b.way[0] + a.way[1] * b.way[1] > 0:
            return [_middle(a.stop, b.start)]
        on = abs(right_mm)
        return [
            (a.stop[0] + on * a.way[0], a.stop[1] + on * a.way[1]),
            (b.start[0] - on * b.way[0], b.start[1] - on * b.way[1]),
        ]
    return [(a.stop[0] + met[0] * a.way[0], a.stop[1] + met[0] * a.way[1])]


def _kept_share(segments: list[_Segment], joins: list[list[Point]], i: int) -> float:
    """How much of a drawn segment is left after the move; below zero it is inside out."""
    segment = segments[i]
    start = joins[i - 1][-1] if i else segment.start
    stop = joins[i][0] if i < len(joins) else segment.stop
    left = (stop[0] - start[0]) * segment.way[0] + (stop[1] - start[1]) * segment.way[1]
    return left / segment.drawn_mm
