"""What outline does a solver see? Unfolded, turned over or round, and simplified outwards.

Solvers are slow on curves of many points, so they get a simpler outline that *contains* the true one. The
true outline comes back in :mod:`boltside.lay.settle`, which takes out the slack, and in the verifier.
"""

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from .model import LayItem, Outline, Point, Way

SIMPLIFY_MM: Final = 0.3
"""How far a simplified outline may bulge beyond the true one. Our choice: settling takes most of it back."""

ROUNDING_GAP_MM: Final = 0.01
"""Sloping edges move out this far, so that rounding both neighbours to the grid of 0.01 mm can't make them
overlap: the error between two pieces is at most 0.01 mm on each axis, 0.0142 mm in all, less than 2 x 0.01."""

_LONGEST_MITRE_MM: Final = 0.2
"""A sharp point moves out by no more than this when its edges do."""

_STRAIGHT_MM: Final = 1e-9
"""A point nearer than this to the line between its neighbours is no corner."""


def unfold(half: Outline) -> Outline:
    """The whole outline of a half whose fold edge lies on y = 0, all in millimetres."""
    points = list(half)
    on_fold = [index for index, (_, y) in enumerate(points) if y == 0.0]
    start = next(
        (i for i in on_fold if points[(i + 1) % len(points)][1] > 0.0),
        None,
    )
    if start is None:
        raise ValueError("the half has no edge that leaves the fold")
    points = points[start:] + points[:start]
    upper = [point for index, point in enumerate(points) if index == 0 or point[1] > 0.0]
    last = max(index for index, (_, y) in enumerate(points) if y > 0.0)
    end = points[last + 1] if last + 1 < len(points) else points[0]
    upper.append(end)
    lower = [(x, -y) for x, y in reversed(upper[1:-1])]
    return tuple(upper + lower)


def laid_outline(item: LayItem, way: Way) -> Outline:
    """The outline as the paper piece lies before it is turned or moved: whole on flat cloth, else as given."""
    if item.mode == "fold" and way == "flat":
        return unfold(item.outline_mm)
    return item.outline_mm


def posed(outline: Outline, *, turned: bool, mirrored: bool) -> Outline:
    """The outline turned over and turned round, in the order that :class:`.model.Placement` documents."""
    if mirrored:
        outline = tuple((x, -y) for x, y in reversed(outline))
    if turned:
        outline = tuple((-x, -y) for x, y in outline)
    return outline


def signed_area(outline: Outline) -> float:
    """Area in square millimetres, positive when the points run anticlockwise. Source: the shoelace rule."""
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(outline, outline[1:] + outline[:1], strict=True)) / 2


def symmetric_across(outline: Outline) -> bool:
    """Whether turning the piece over (y to -y) gives the same outline, moved across the cloth at most."""
    ys = [y for _, y in outline]
    total = min(ys) + max(ys)
    corners = _without_straight_points(list(outline))
    mirrored = {(round(x, 3), round(total - y, 3)) for x, y in corners}
    return mirrored == {(round(x, 3), round(y, 3)) for x, y in corners}


@lru_cache(maxsize=4096)
def solver_outline(outline: Outline, *, move_all_edges: bool) -> Outline:
    """A simpler outline that contains ``outline``, anticlockwise, in millimetres.

    Arguments: ``move_all_edges`` also moves edges parallel to an axis out by the rounding gap, for a solver
    whose results do not lie on the grid; otherwise those edges stay where they are, and so does the bounding
    box, so that pieces still fit where they fit exactly.
    """
    points = list(outline if signed_area(outline) > 0 else tuple(reversed(outline)))
    points = _without_straight_points(points)
    box = _box(points)
    points = _simplified(points, box)
    moved = _moved_out(points, move_all_edges)
    if move_all_edges:
        return tuple(moved)
    return tuple((min(max(x, box[0]), box[2]), min(max(y, box[1]), box[3])) for x, y in moved)


def simplified_inwards(outline: Outline) -> Outline:
    """A simpler outline that lies inside ``outline``, in millimetres; for bounds, which must never be too great.

    The same changes as outwards, seen from the other side: along a clockwise outline they take area away.
    """
    points = list(outline if signed_area(outline) < 0 else tuple(reversed(outline)))
    return tuple(_simplified(_without_straight_points(points), _box(points)))


def _box(points: Sequence[Point]) -> tuple[float, float, float, float]:
    """Least x and y, greatest x and y."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _without_straight_points(points: list[Point]) -> list[Point]:
    """The corners only."""
    kept = [
        point
        for index, point in enumerate(points)
        if _height(points[index - 1], point, points[(index + 1) % len(points)]) > _STRAIGHT_MM
    ]
    return kept if len(kept) >= 3 else points


def _cross(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _height(a: Point, b: Point, c: Point) -> float:
    """Distance of b from the line a-c."""
    base = math.dist(a, c)
    return abs(_cross(a, b, c)) / base if base else math.dist(a, b)


def _meeting(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """Where the line a-b, prolonged beyond b, meets the line d-c prolonged beyond c; None if it does not."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], c[0] - d[0], c[1] - d[1]
    determinant = ux * vy - uy * vx
    if abs(determinant) < 1e-12:
        return None
    wx, wy = d[0] - a[0], d[1] - a[1]
    along_ab = (wx * vy - wy * vx) / determinant
    along_dc = (wx * uy - wy * ux) / determinant
    if along_ab < 1.0 or along_dc < 1.0:
        return None
    return (a[0] + along_ab * ux, a[1] + along_ab * uy)


def _simplified(points: list[Point], box: tuple[float, float, float, float]) -> list[Point]:
    """Fewer points, outwards only and inside the bounding box; cheapest change first. For anticlockwise outlines.

    Two changes only ever add area: dropping a hollow corner, and prolonging the two edges beside a convex
    edge until they meet. Each edge remembers how far it has moved, so that changes don't add up unseen.
    """
    bulge = [0.0] * len(points)  # of the edge from this point to the next
    while len(points) > 4:
        best: tuple[float, int, Point | None] | None = None
        count = len(points)
        for index in range(count):
            a, b, c, d = (points[(index + shift) % count] for shift in (-1, 0, 1, 2))
            turn_b = _cross(a, b, c)
            if turn_b <= 0.0:
                cost = max(bulge[index - 1], bulge[index]) + _height(a, b, c)
                new: Point | None = None
            elif _cross(b, c, d) > 0.0:
                new = _meeting(a, b, c, d)
                if new is None or not (box[0] <= new[0] <= box[2] and box[1] <= new[1] <= box[3]):
                    continue
                cost = bulge[index] + _height(b, new, c)
            else:
                continue
            if cost <= SIMPLIFY_MM and (best is None or cost < best[0]):
                best = (cost, index, new)
        if best is None:
            break
        cost, index, new = best
        if new is None:
            bulge[index - 1] = cost
            del points[index], bulge[index]
        else:
            after = (index + 1) % count
            points[after] = new
            bulge[index - 1] = max(bulge[index - 1], cost)
            bulge[after] = max(bulge[after], cost)
            del points[index], bulge[index]
    return points


def _moved_out(points: list[Point], all_edges: bool) -> list[Point]:
    """Every sloping edge (or every edge) of an anticlockwise outline moved out by the rounding gap."""
    count = len(points)
    lines = []
    for index in range(count):
        (x0, y0), (x1, y1) = points[index], points[(index + 1) % count]
        length = math.hypot(x1 - x0, y1 - y0)
        nx, ny = (y1 - y0) / length, (x0 - x1) / length
        sloping = x0 != x1 and y0 != y1
        gap = ROUNDING_GAP_MM if all_edges or sloping else 0.0
        lines.append((nx, ny, nx * x0 + ny * y0 + gap, gap))
    moved = []
    for index, (x, y) in enumerate(points):
        n0x, n0y, c0, gap0 = lines[index - 1]
        n1x, n1y, c1, gap1 = lines[index]
        determinant = n0x * n1y - n0y * n1x
        if abs(determinant) > 1e-6:
            new = ((c0 * n1y - c1 * n0y) / determinant, (n0x * c1 - n1x * c0) / determinant)
        else:
            new = (x + (n0x + n1x) / 2 * max(gap0, gap1), y + (n0y + n1y) / 2 * max(gap0, gap1))
        reach = math.dist(new, (x, y))
        if reach > _LONGEST_MITRE_MM:
            share = _LONGEST_MITRE_MM / reach
            new = (x + (new[0] - x) * share, y + (new[1] - y) * share)
        moved.append(new)
    return moved
