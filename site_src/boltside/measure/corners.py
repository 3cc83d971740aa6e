"""Where do two neighbouring edges meet once each is moved by its own allowance?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LineString, get_coordinates

from boltside.measure.offset import MITRE_LIMIT, crossing
from boltside.measure.polyline import SAME_MM, distance_mm, length_mm, nearest_on
from boltside.pattern import Point

REACH_FOLD_MM = 1000.0
"""How far a neighbour may run on to meet the fold: as far as it takes; this is longer than any allowance."""


@dataclass(frozen=True)
class Meeting:
    """Where edge a ends and edge b begins, and how far along each moved edge that is (below 0: before its start)."""

    a_end: Point
    a_at_mm: float
    b_start: Point
    b_at_mm: float


def meet(
    a: Sequence[Point], b: Sequence[Point], corner: Point, allowance_mm: tuple[float, float], *, on_fold: bool
) -> Meeting:
    """Trim or extend moved edge ``a`` (its end) and ``b`` (its start) to the place where they meet.

    Arguments: the moved edges, the drawn corner, both allowances in mm, and whether one edge lies on the fold (then
    the other runs on to it however far). Edges that do not meet within :data:`MITRE_LIMIT` allowances of the corner
    keep their square ends (a step, where two allowances meet on a smooth line), run on by one allowance where the
    corner is a sharp point.
    """
    a_mm = length_mm(a)
    if distance_mm(a[-1], b[0]) <= SAME_MM:
        return Meeting(a[-1], a_mm, a[-1], 0.0)
    widest_mm = max(abs(mm) for mm in allowance_mm)
    reach_mm = REACH_FOLD_MM if on_fold else MITRE_LIMIT * widest_mm
    a_way, b_way = _way(a[-2], a[-1]), _way(b[0], b[1])
    met = crossing(a[-1], a_way, b[0], b_way)
    if met is not None and met[0] >= -distance_mm(a[-2], a[-1]) and met[1] <= distance_mm(b[0], b[1]):
        place = (a[-1][0] + met[0] * a_way[0], a[-1][1] + met[0] * a_way[1])
        both_trimmed = met[0] <= 0.0 <= met[1]
        if both_trimmed or distance_mm(place, corner) <= reach_mm:
            return Meeting(place, a_mm + met[0], place, met[1])
    found = _crossing_further_in(a, b, a_way, b_way, corner, reach_mm)
    if found is not None:
        return found
    if a_way[0] * b_way[0] + a_way[1] * b_way[1] < 0:
        return Meeting(
            (a[-1][0] + widest_mm * a_way[0], a[-1][1] + widest_mm * a_way[1]),
            a_mm + widest_mm,
            (b[0][0] - widest_mm * b_way[0], b[0][1] - widest_mm * b_way[1]),
            -widest_mm,
        )
    return Meeting(a[-1], a_mm, b[0], 0.0)


def _way(a: Point, b: Point) -> Point:
    long_mm = distance_mm(a, b)
    return (b[0] - a[0]) / long_mm, (b[1] - a[1]) / long_mm


def _crossing_further_in(
    a: Sequence[Point], b: Sequence[Point], a_way: Point, b_way: Point, corner: Point, reach_mm: float
) -> Meeting | None:
    """The crossing of the two edges, each run on by the reach, that takes least off them; None if there is none."""
    a_mm = length_mm(a)
    a_on = [*a, (a[-1][0] + reach_mm * a_way[0], a[-1][1] + reach_mm * a_way[1])]
    b_on = [(b[0][0] - reach_mm * b_way[0], b[0][1] - reach_mm * b_way[1]), *b]
    best: tuple[float, Meeting] | None = None
    for x, y in get_coordinates(LineString(a_on).intersection(LineString(b_on))).tolist():
        place = (x, y)
        a_at, b_at = nearest_on(a_on, place)[0], nearest_on(b_on, place)[0] - reach_mm
        if (a_at > a_mm or b_at < 0.0) and distance_mm(place, corner) > reach_mm:
            continue
        change_mm = abs(a_at - a_mm) + abs(b_at)
        if best is None or change_mm < best[0]:
            best = (change_mm, Meeting(place, a_at, place, b_at))
    return best[1] if best else None
