"""Where do two neighbouring edges meet once each is moved by its own allowance?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LineString, get_coordinates

from boltside.measure.offset import MITRE_LIMIT, crossing
from boltside.measure.polyline import SAME_MM, distance_mm, length_mm, nearest_on
from boltside.pattern import Point

STEP_LIMIT = 2.5
"""Where two allowances meet on a nearly smooth line, lines that would cross farther off than this many allowances
get a step instead: below a turn of about 16 degrees for 10 and 30 mm. Our choice."""

REACH_FOLD_MM = 1000.0
"""How far a neighbour may run on to meet the fold: as far as it takes; this is longer than any allowance."""


@dataclass(frozen=True)
class Meeting:
    """Where edge a ends and edge b begins, and how far along each moved edge that is (below 0: before its start).

    ``met`` is False where the two did not meet and keep ends of their own.
    """

    a_end: Point
    a_at_mm: float
    b_start: Point
    b_at_mm: float
    met: bool = True


def meet(
    a: Sequence[Point],
    b: Sequence[Point],
    corner: Point,
    allowance_mm: tuple[float, float],
    *,
    on_fold: bool,
    two_edges: bool,
) -> Meeting:
    """Trim or extend moved edge ``a`` (its end) and ``b`` (its start) to the place where they meet.

    Arguments: the moved edges, the drawn corner, both allowances in mm, whether one edge lies on the fold (then the
    other runs on to it however far), and whether the piece has these two edges only (they meet at both ends).
    Edges that would have to be run on further than :data:`MITRE_LIMIT` allowances from the corner (:data:`STEP_LIMIT`
    where it is blunt) keep square ends: a step on a smooth line; at a sharp point, run on by one allowance.
    """
    a_mm = length_mm(a)
    if distance_mm(a[-1], b[0]) <= SAME_MM:
        return Meeting(a[-1], a_mm, a[-1], 0.0)
    widest_mm = max(abs(mm) for mm in allowance_mm)
    a_way, b_way = _way(a[-2], a[-1]), _way(b[0], b[1])
    sharp = a_way[0] * b_way[0] + a_way[1] * b_way[1] < 0
    reach_mm = REACH_FOLD_MM if on_fold else (MITRE_LIMIT if sharp else STEP_LIMIT) * widest_mm
    met = crossing(a[-1], a_way, b[0], b_way)
    if met is not None and met[0] >= -distance_mm(a[-2], a[-1]) and met[1] <= distance_mm(b[0], b[1]):
        place = (a[-1][0] + met[0] * a_way[0], a[-1][1] + met[0] * a_way[1])
        both_trimmed = met[0] <= 0.0 <= met[1]
        if both_trimmed or distance_mm(place, corner) <= reach_mm:
            return Meeting(place, a_mm + met[0], place, met[1])
    found = _crossing_further_in(a, b, a_way, b_way, corner, reach_mm, two_edges)
    if found is not None:
        return found
    if sharp:
        return Meeting(
            (a[-1][0] + widest_mm * a_way[0], a[-1][1] + widest_mm * a_way[1]),
            a_mm + widest_mm,
            (b[0][0] - widest_mm * b_way[0], b[0][1] - widest_mm * b_way[1]),
            -widest_mm,
            met=False,
        )
    return Meeting(a[-1], a_mm, b[0], 0.0, met=False)


def _way(a: Point, b: Point) -> Point:
    long_mm = distance_mm(a, b)
    return (b[0] - a[0]) / long_mm, (b[1] - a[1]) / long_mm


def _crossing_further_in(
    a: Sequence[Point],
    b: Sequence[Point],
    a_way: Point,
    b_way: Point,
    corner: Point,
    reach_mm: float,
    two_edges: bool,
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
        if two_edges and change_mm > (a_mm + length_mm(b)) / 2:
            continue  # that is where they meet at their other ends
        if best is None or change_mm < best[0]:
            best = (change_mm, Meeting(place, a_at, place, b_at))
    return best[1] if best else None
