"""How long is a line, how large an area, and where on the line is a point? Plain points in millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin

from boltside.pattern import Point, Polyline

SAME_MM = 1e-6
"""Closer than this, two computed points are one: far below what can be drawn, far above rounding."""


def distance_mm(a: Point, b: Point) -> float:
    """Straight distance of two points, mm."""
    return hypot(b[0] - a[0], b[1] - a[1])


def length_mm(line: Sequence[Point]) -> float:
    """Length of an open line, mm."""
    return sum(distance_mm(a, b) for a, b in pairwise(line))


def signed_area_mm2(ring: Sequence[Point]) -> float:
    """Area inside a closed line, mm²; positive when it runs anticlockwise. Source: the shoelace formula."""
    return (
        sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], ring[0]], strict=True)) / 2
        if ring
        else 0.0
    )


def area_mm2(ring: Sequence[Point]) -> float:
    """Area inside a closed line, mm²."""
    return abs(signed_area_mm2(ring))


def angle_deg(line: Sequence[Point]) -> float:
    """Direction from the first to the last point, degrees anticlockwise from +x."""
    (x0, y0), (x1, y1) = line[0], line[-1]
    return degrees(atan2(y1 - y0, x1 - x0))


def turned(line: Sequence[Point], by_deg: float) -> Polyline:
    """The line turned about the origin, anticlockwise by so many degrees."""
    c, s = cos(radians(by_deg)), sin(radians(by_deg))
    return tuple((c * x - s * y, s * x + c * y) for x, y in line)


def without_repeats(line: Sequence[Point]) -> list[Point]:
    """The line without points that repeat the one before."""
    kept: list[Point] = []
    for point in line:
        if not kept or distance_mm(kept[-1], point) > SAME_MM:
            kept.append(point)
    return kept


def ring_of(lines: Sequence[Sequence[Point]]) -> Polyline:
    """The closed line that runs through all the lines one after the other, without repeated points."""
    ring = without_repeats([point for line in lines for point in line])
    while len(ring) > 1 and distance_mm(ring[0], ring[-1]) <= SAME_MM:
        ring.pop()
    return tuple(ring)


def nearest_on(line: Sequence[Point], point: Point) -> tuple[float, Point, float]:
    """Where a line comes nearest to a point: distance along the line in mm, the place, distance from it in mm."""
    best = (0.0, line[0], distance_mm(line[0], point))
    along = 0.0
    for (x0, y0), (x1, y1) in pairwise(line):
        dx, dy = x1 - x0, y1 - y0
        squared = dx * dx + dy * dy
        if squared == 0.0:
            continue
        t = min(1.0, max(0.0, ((point[0] - x0) * dx + (point[1] - y0) * dy) / squared))
        place = (x0 + t * dx, y0 + t * dy)
        away = distance_mm(place, point)
        step = squared**0.5
        if away < best[2]:
            best = (along + t * step, place, away)
        along += step
    return best


def between_mm(line: Sequence[Point], start_mm: float, stop_mm: float) -> list[Point]:
    """The stretch of an open line between two distances along it, mm (start before stop)."""
    stretch: list[Point] = []
    along = 0.0
    for a, b in pairwise(line):
        step = distance_mm(a, b)
        if step == 0.0:
            continue
        lo, hi = max(start_mm, along), min(stop_mm, along + step)
        if lo <= hi:
            for at in (lo, hi):
                t = (at - along) / step
                # The ends of a segment are taken as they are, so that an uncut line comes back unchanged.
                stretch.append(a if t <= 0 else b if t >= 1 else (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
        along += step
    return without_repeats(stretch)
