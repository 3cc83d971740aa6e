"""How short can a folded lay be, where pieces are too wide to lie beside the row along the fold?

A bound that nothing can beat. Take any pieces of a lay in the order in which they begin along the cloth: each begins at
least so far behind the one before as the two can't but overlap, wherever across the cloth both lie. The shortest such
row over all orders and poses is never longer than the lay. It says something where pieces are too wide to lie beside
one another; the row of halves along the fold is the case in which none can move across.

The engine's bound knows halves only. Shares no code with it: no-fit polygons are made and looked through here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

import numpy as np
import pyclipper  # type: ignore[import-untyped]
import shapely
from numpy.typing import NDArray
from other_zones import SELVEDGE_MM, Part, Piece, Strip, all_units, strips_of
from shapely import LineString, Polygon, box
from shapely.affinity import rotate, translate
from shapely.geometry.base import BaseGeometry

PER_MM = 1000
"""Whole steps of the clipping library."""
SPARE_MM = 0.01
"""No-fit polygons are shrunk by so much, so that no rounding makes the bound too long."""
HAIR_MM = 1e-6
MOST_IN_A_ROW = 8
"""Pieces whose best order is looked for; the widest of more."""
FAR_MM = 100_000.0


@dataclass(frozen=True, kw_only=True)
class InRow:
    """A piece in one pose, its box from (0, 0) on, and how far its lowest point may lie from the fold."""

    shape: Polygon
    low_mm: float
    high_mm: float

    @property
    def long_mm(self) -> float:
        """Along the cloth."""
        return float(self.shape.bounds[2])


def wide_row_mm(pieces: Sequence[Piece], way: str, bolt_width_mm: float, *, nap: bool) -> float:
    """The bound, in mm, of all halves and of the pieces that are too wide to lie beside the deepest of them; 0 where
    there are none of these.

    Folded over in part: of the pieces that are too wide for the single cloth, however little is folded over; these and
    the halves lie on the double cloth, which is at most as deep as in half.
    """
    if way == "part-folded":
        pieces = [one for one in pieces if one[1] == "fold" or across_mm(one) > beside_mm(pieces, bolt_width_mm)]
        way = "folded"
    strips = strips_of(way, bolt_width_mm)
    parts = [unit.whole for unit in all_units(pieces, strips, nap=nap)]
    halves = [part for part in parts if part.on_fold]
    deepest_mm = max((width_mm(part) for part in halves), default=0.0)
    depth_mm = strips[0].depth_mm
    wide = [part for part in parts if not part.on_fold and width_mm(part) + max(deepest_mm, width_mm(part)) > depth_mm]
    if not wide or len(halves) > MOST_IN_A_ROW:
        return 0.0
    wide.sort(key=lambda part: -width_mm(part))
    row = [*halves, *wide][:MOST_IN_A_ROW]
    return greatest_mm([rows_mm(row, number, strip) for number, strip in enumerate(strips)], len(row))


def across_mm(piece: Piece) -> float:
    """Width across the cloth, as drawn."""
    return float(piece[0].bounds[3] - piece[0].bounds[1])


def beside_mm(pieces: Sequence[Piece], bolt_width_mm: float) -> float:
    """The most single cloth beside a fold that takes the deepest half, in mm."""
    deepest_mm = max((across_mm(one) for one in pieces if one[1] == "fold"), default=0.0)
    return bolt_width_mm - 2 * (deepest_mm + SELVEDGE_MM) - SELVEDGE_MM


def width_mm(part: Part) -> float:
    """Width across the cloth; the same in every pose."""
    _, low, _, high = next(shapes for shapes in part.shapes if shapes)[0].bounds
    return float(high - low)


def greatest_mm(rows: Sequence[dict[frozenset[int], float]], count: int) -> float:
    """The greatest bound that any choice of the pieces gives: a third piece between two that are in each other's way,
    but in neither's, takes from a row what it is a bound for."""
    return max(
        shared_out_mm(rows, frozenset(chosen))
        for size in range(1, count + 1)
        for chosen in combinations(range(count), size)
    )


def shared_out_mm(rows: Sequence[dict[frozenset[int], float]], pieces: frozenset[int]) -> float:
    """The longer of the rows of all strips, with the pieces shared out so that it is as short as it can be."""
    if len(rows) == 1:
        return rows[0][pieces]
    one, other = rows
    sides = (frozenset(side) for size in range(len(pieces) + 1) for side in combinations(sorted(pieces), size))
    return min(max(one.get(side, 0.0), other.get(pieces - side, 0.0)) for side in sides)


def rows_mm(row: Sequence[Part], number: int, strip: Strip) -> dict[frozenset[int], float]:
    """The shortest row of every choice of the parts on a strip, in mm."""
    poses = [[in_row(shape, strip.depth_mm, on_fold=part.on_fold) for shape in part.shapes[number]] for part in row]
    begun: dict[tuple[frozenset[int], int, int], float] = {
        (frozenset((part,)), part, pose): 0.0 for part in range(len(row)) for pose in range(len(poses[part]))
    }
    shortest: dict[frozenset[int], float] = {}
    while begun:
        longer: dict[tuple[frozenset[int], int, int], float] = {}
        for (used, last, pose), so_far_mm in begun.items():
            end_mm = so_far_mm + poses[last][pose].long_mm
            shortest[used] = min(shortest.get(used, float("inf")), end_mm)
            for part in set(range(len(row))) - used:
                for following, other in enumerate(poses[part]):
                    key = (used | {part}, part, following)
                    begins_mm = so_far_mm + least_step_mm(poses[last][pose], other)
                    longer[key] = min(longer.get(key, float("inf")), begins_mm)
        begun = longer
    return shortest


def in_row(shape: Polygon, depth_mm: float, *, on_fold: bool) -> InRow:
    """A shape as drawn with all that is to be known of its places across."""
    x0, low, _, high = shape.bounds
    return InRow(
        shape=translate(shape, -x0, -low), low_mm=0.0, high_mm=0.0 if on_fold else max(0.0, depth_mm - (high - low))
    )


@lru_cache(maxsize=65536)
def least_step_mm(first: InRow, second: InRow) -> float:
    """How far behind the beginning of `first` that of `second` lies at least, wherever both lie across."""
    least, most = second.low_mm - first.high_mm, second.high_mm - first.low_mm
    if most >= first.shape.bounds[3] or least <= -second.shape.bounds[3]:
        return 0.0  # one above the other
    if least == most == 0.0:
        return step_along_mm(first.shape, second.shape)
    places = box(0.0, least, FAR_MM, most) if most > least else LineString([(0.0, least), (FAR_MM, least)])
    left: BaseGeometry = places.difference(overlapping(first.shape, second.shape))
    return float(left.bounds[0])


def step_along_mm(first: Polygon, second: Polygon) -> float:
    """The same of two halves at one fold: at a line across from just above and just below each corner, the stretches
    of one must not lie on those of the other."""
    corners = np.unique([y for shape in (first, second) for _, y in shape.exterior.coords])
    stretches: list[tuple[float, float]] = []
    for y in (*(corners[:-1] + HAIR_MM), *(corners[1:] - HAIR_MM)):
        here, there = cut_across(first, y), cut_across(second, y)
        stretches += [(a - d, b - c) for a, b in here for c, d in there]
    step_mm = 0.0
    for start, end in sorted(stretches):
        if start >= step_mm:
            break
        step_mm = max(step_mm, end)
    return step_mm


def cut_across(shape: Polygon, y: float) -> list[tuple[float, float]]:
    """The stretches of a shape on a line along the cloth that goes through no corner."""
    points = corners_of(shape)
    (x0, y0), (x1, y1) = points[:-1].T, points[1:].T
    crossed = (y0 < y) != (y1 < y)
    x0, y0, x1, y1 = x0[crossed], y0[crossed], x1[crossed], y1[crossed]
    at = np.sort(x0 + (y - y0) / (y1 - y0) * (x1 - x0)).tolist()
    return list(zip(at[::2], at[1::2], strict=True))


@lru_cache(maxsize=4096)
def corners_of(shape: Polygon) -> NDArray[np.float64]:
    """The outline, closed."""
    return shapely.get_coordinates(shape)


_KNOWN: dict[tuple[Polygon, Polygon], BaseGeometry] = {}


def overlapping(still: Polygon, moving: Polygon) -> BaseGeometry:
    """The moves of one shape at which it overlaps the other, less a hair; kept, for it is the slow part."""
    if (still, moving) not in _KNOWN:
        opposite = _KNOWN.get((moving, still))
        found = rotate(opposite, 180, origin=(0, 0)) if opposite is not None else no_fit(still, moving)
        _KNOWN[still, moving] = found
    return _KNOWN[still, moving]


def no_fit(still: Polygon, moving: Polygon) -> BaseGeometry:
    """The Minkowski sum of the two, one turned round; a textbook construction."""
    turned = [(-x, -y) for x, y in whole_steps(moving)]
    swept = pyclipper.MinkowskiSum(turned, whole_steps(still), True)
    outer = shapely.union_all([in_mm(path) for path in swept if pyclipper.Orientation(path)])
    for hole in (in_mm(path) for path in swept if not pyclipper.Orientation(path)):
        at = hole.representative_point()
        # The library sweeps along the outline: a move that brings one shape inside the other is left out as well.
        if translate(moving, at.x, at.y).intersection(still).area < SPARE_MM:
            outer = outer.difference(hole)
    return outer.buffer(-SPARE_MM, join_style="mitre")


def whole_steps(shape: Polygon) -> list[tuple[int, int]]:
    """The outline for the clipping library."""
    return [(round(x * PER_MM), round(y * PER_MM)) for x, y in shape.exterior.coords[:-1]]


def in_mm(path: Sequence[Sequence[int]]) -> BaseGeometry:
    """A path of the clipping library as a polygon; of one that touches itself the area."""
    return Polygon([(x / PER_MM, y / PER_MM) for x, y in path]).buffer(0)
