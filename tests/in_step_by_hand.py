"""Stripes and checks, worked out by hand: are the marks of a lay in step, and are so many rows of repeats enough?

Source of the rule: a worked example (a repeat of 4 1/4 in and two rows of pieces make 8 1/2 in) and geometry. A piece
that is moved on along the cloth moves what lies before it on; so the piece at the end of a row of n moves by less than
n repeats, wherever in the pieces their marks lie.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import pairwise, product
from math import ceil, floor, inf

import numpy as np
from look_at_lays import Laid, Outlines, Pieces, overlaps, papers, posed
from shapely import Point, get_coordinates, get_parts
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

LINE_MM = 2.0
"""Pieces are looked at along lines so far apart; what meets between two of them is seen when pieces overlap."""

OFF_MM = 0.7
"""Lines lie off whole millimetres, where pieces may touch."""

Ends = tuple[int, list[float], list[float]]
"""The first line that crosses a piece, and on each from there where along the cloth it begins and ends."""


def marks_of(lay: Laid, marks: Mapping[str, tuple[float, float]]) -> list[tuple[float, float]]:
    """Where the marks of a lay lie on the table, in mm, along and across; pieces without a mark are left out."""
    found = []
    for name, x_mm, y_mm, turned, mirrored in lay.at:
        if name in marks:
            spot = posed(Point(marks[name]), x_mm, y_mm, turned=turned, mirrored=mirrored)
            found.append(tuple(get_coordinates(spot)[0]))
    return found


def out_of_step_mm(marks: Sequence[tuple[float, float]], along_mm: float, across_mm: float | None) -> float:
    """By how much two marks are off from whole repeats, in mm, at most."""
    most = 0.0
    for axis, repeat_mm in enumerate((along_mm, across_mm)):
        for one in marks if repeat_mm is not None else ():
            off = (one[axis] - marks[0][axis]) % repeat_mm
            most = max(most, min(off, repeat_mm - off))
    return most


def folds_off_mm(width_mm: float, across_mm: float) -> float:
    """With both selvedges to the middle: by how much the two folds can't both be in the middle of the pattern.

    A pattern with equal sides has two middles in each repeat; the folds are half a bolt apart.
    """
    off = (width_mm / 2) % (across_mm / 2)
    return min(off, across_mm / 2 - off)


def _ends(shape: BaseGeometry) -> Ends:
    """Where a piece begins and ends on each line along the cloth."""
    shape = translate(shape, 0, OFF_MM)
    points = get_coordinates(shape)
    low, high = ceil(points[:, 1].min() / LINE_MM), floor(points[:, 1].max() / LINE_MM)
    first, last = np.full(high - low + 1, inf), np.full(high - low + 1, -inf)
    for part in get_parts(shape):
        ring = get_coordinates(part.exterior)
        for (x0, y0), (x1, y1) in pairwise(ring):
            lowest, highest = ceil(min(y0, y1) / LINE_MM), floor(max(y0, y1) / LINE_MM)
            if lowest > highest or y0 == y1:
                continue
            at = x0 + (np.arange(lowest, highest + 1) * LINE_MM - y0) * (x1 - x0) / (y1 - y0)
            here = slice(lowest - low, highest + 1 - low)
            first[here], last[here] = np.minimum(first[here], at), np.maximum(last[here], at)
    return low, list(first), list(last)


def pushed_by(shapes: Sequence[BaseGeometry]) -> list[set[int]]:
    """For each piece those that it meets when it is moved on along the cloth: part of them lies before part of it."""
    ends = [_ends(shape) for shape in shapes]
    found: list[set[int]] = [set() for _ in shapes]
    for one, other in product(range(len(shapes)), repeat=2):
        (low, first, _), (other_low, _, last) = ends[one], ends[other]
        lines = range(max(low, other_low), min(low + len(first), other_low + len(last)))
        if one != other and any(first[at - low] < last[at - other_low] for at in lines):
            found[one].add(other)
    return found


def in_turn(pushed: Sequence[set[int]]) -> list[set[int]]:
    """Groups of pieces, each before those that it pushes; more than one in a group are hooked into one another."""
    reached = [set(one) for one in pushed]
    for through in range(len(pushed)):
        for one in reached:
            if through in one:
                one |= reached[through]
    groups = {frozenset({at} | {other for other in one if at in reached[other]}) for at, one in enumerate(reached)}
    # What is pushed reaches less than what pushes it.
    reach = {group: len(group.union(*(reached[at] for at in group))) for group in groups}
    return [set(group) for group in sorted(groups, key=lambda group: (-reach[group], min(group)))]


def rows(pushed: Sequence[set[int]]) -> int:
    """The most pieces that push one another, each the next; of hooked ones each counts."""
    longest: dict[int, int] = {}
    for group in reversed(in_turn(pushed)):
        after = [longest[other] for one in group for other in pushed[one] - group]
        for one in group:
            longest[one] = len(group) + max(after, default=0)
    return max(longest.values())


def look_at_rows(
    chance: random.Random,
    outlines: Outlines,
    size: str,
    lay: Laid,
    pieces: Pieces,
    said_rows: int,
    repeat_mm: Fraction,
    apart_mm: float,
) -> bool:
    """The pieces asked for can be brought in step within so many repeats, their marks being anywhere.

    Marks are drawn by chance; then each piece is moved on until it is in step with the first, moving on what lies
    before it. Copies that begin at the same place, one perhaps mirrored, have their marks side by side: they may be
    moved on together, as on the folded cloth that the lay was made for. `apart_mm`: by so much each piece is made
    smaller, for places are rounded. False: some are hooked into one another, which nobody moves on one by one; then
    only their number is looked at.
    """
    at = [one for one in lay.at if one[0] in pieces]
    shapes = [one.buffer(-apart_mm, join_style="mitre") for one in papers(outlines, size, lay._replace(at=at), pieces)]
    twins: dict[tuple[str, float, bool], list[int]] = {}
    for number, (name, x_mm, _, turned, _) in enumerate(at):
        twins.setdefault((name, x_mm, turned), []).append(number)
    ways = [_Moving(shapes, bodies) for bodies in ([[number] for number in range(len(at))], list(twins.values()))]
    every = float(repeat_mm)
    mark = {name: chance.uniform(0, every) for name in pieces}
    places = [x_mm + (-mark[name] if turned else mark[name]) for name, x_mm, _, turned, _ in at]
    done = [way.moved(places, every) for way in ways]
    least = 0 if len(twins) == 1 else min(way.rows for way in ways)
    assert said_rows >= least, f"{least} rows, not {said_rows}"
    for way in (way for way, in_step in zip(ways, done, strict=True) if in_step):
        if max(way.by) <= said_rows * every + 1e-6:
            off_mm = out_of_step_mm([(place + by, 0) for place, by in zip(places, way.by, strict=True)], every, None)
            assert off_mm < 1e-6
            return True
    return False


class _Moving:
    """Pieces that are moved on along the cloth, some of them together as one body.

    Attributes: `rows`, the most bodies that push one another, each the next; `by`, how far each piece was moved.
    """

    def __init__(self, shapes: Sequence[BaseGeometry], bodies: Sequence[Sequence[int]]) -> None:
        self.shapes, self.bodies = shapes, bodies
        self.pushed = pushed_by([unary_union([shapes[number] for number in one]) for one in bodies])
        self.by = [0.0] * len(shapes)

    @property
    def rows(self) -> int:
        """Of bodies that are hooked into one another each counts."""
        return rows(self.pushed)

    def moved(self, places: Sequence[float], every: float) -> bool:
        """Whether each body could be moved on until its place is in step with the first one's, moving on what lies
        before it. Where two then lie over one another, the one behind pushes the other, be it by a hair."""
        while True:
            groups = in_turn(self.pushed)
            if any(len(group) > 1 for group in groups):
                return False
            place_of = [places[one[0]] for one in self.bodies]
            (first, *_), *_ = groups
            moved = [0.0] * len(self.bodies)
            for (one,) in groups:
                off = (place_of[first] - place_of[one] - moved[one]) % every
                moved[one] += off if every - off > 1e-6 else 0.0
                for other in self.pushed[one]:
                    moved[other] = max(moved[other], moved[one])
            body_of = {number: at for at, one in enumerate(self.bodies) for number in one}
            self.by = [moved[body_of[number]] for number in range(len(self.shapes))]
            hit = overlaps([translate(shape, by) for shape, by in zip(self.shapes, self.by, strict=True)])
            if not hit:
                return True
            before = sum(len(one) for one in self.pushed)
            for one, other in hit:
                assert self.by[one] != self.by[other], "they lie over one another as drawn"
                behind, met = (one, other) if self.by[one] > self.by[other] else (other, one)
                self.pushed[body_of[behind]].add(body_of[met])
            assert sum(len(one) for one in self.pushed) > before, "moved into one another"
