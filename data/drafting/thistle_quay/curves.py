"""Points, lines and cubic Béziers of a flat draft: lengths, splitting, directions, intersection.

A point is a complex number: x to the right, y down, millimetres. A chain is a tuple of cubic segments in which
each begins where the last ended; a straight line is a cubic with its handles on the line, so that one kind of
segment is enough.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise

# Nodes and weights of Gauss–Legendre quadrature with five points on [-1, 1]: Abramowitz & Stegun, table 25.4
# (from memory; the tests compare lengths with circles and straight lines).
GAUSS_NODES = (0.0, 0.5384693101056831, -0.5384693101056831, 0.9061798459386640, -0.9061798459386640)
GAUSS_WEIGHTS = (0.5688888888888889, 0.4786286704993665, 0.4786286704993665, 0.2369268850561891, 0.2369268850561891)
LENGTH_PANELS = 16
"""Each cubic is measured in this many equal parts: far below 0.001 mm of error on garment curves."""
BISECTIONS = 60
"""Halvings of an interval: enough to reach the precision of a float."""
STRAIGHT_TOLERANCE_MM = 1e-9


@dataclass(frozen=True, kw_only=True)
class Cubic:
    """A cubic Bézier segment from `start` to `end` with two handles (mm, y down)."""

    start: complex
    first_handle: complex
    second_handle: complex
    end: complex

    def at(self, t: float) -> complex:
        """Return the point at parameter t (0 to 1)."""
        s = 1 - t
        return (
            s**3 * self.start
            + 3 * s * s * t * self.first_handle
            + 3 * s * t * t * self.second_handle
            + t**3 * self.end
        )

    def slope_at(self, t: float) -> complex:
        """Return the derivative by t at parameter t (0 to 1)."""
        s = 1 - t
        return 3 * (
            s * s * (self.first_handle - self.start)
            + 2 * s * t * (self.second_handle - self.first_handle)
            + t * t * (self.end - self.second_handle)
        )

    def is_straight(self) -> bool:
        """Say whether both handles lie on the straight line between the ends."""
        along = self.end - self.start
        if abs(along) < STRAIGHT_TOLERANCE_MM:
            return True
        return all(
            abs(((handle - self.start) / along).imag) * abs(along) < STRAIGHT_TOLERANCE_MM
            for handle in (self.first_handle, self.second_handle)
        )

    def split(self, t: float) -> tuple[Cubic, Cubic]:
        """Return the two parts before and after parameter t (de Casteljau's construction)."""
        a = self.start + t * (self.first_handle - self.start)
        b = self.first_handle + t * (self.second_handle - self.first_handle)
        c = self.second_handle + t * (self.end - self.second_handle)
        d, e = a + t * (b - a), b + t * (c - b)
        middle = d + t * (e - d)
        return (
            Cubic(start=self.start, first_handle=a, second_handle=d, end=middle),
            Cubic(start=middle, first_handle=e, second_handle=c, end=self.end),
        )

    def reversed(self) -> Cubic:
        """Return the same curve run the other way."""
        return Cubic(
            start=self.end, first_handle=self.second_handle, second_handle=self.first_handle, end=self.start
        )

    def length_mm(self) -> float:
        """Return the arc length, by Gauss–Legendre quadrature of the speed."""
        half = 0.5 / LENGTH_PANELS
        return sum(
            weight * abs(self.slope_at((2 * panel + 1 + node) * half)) * half
            for panel in range(LENGTH_PANELS)
            for node, weight in zip(GAUSS_NODES, GAUSS_WEIGHTS, strict=True)
        )


Chain = tuple[Cubic, ...]


def line(*points: complex) -> Chain:
    """Return straight segments through the points."""
    return tuple(
        Cubic(start=a, first_handle=a + (b - a) / 3, second_handle=a + (b - a) * 2 / 3, end=b)
        for a, b in pairwise(points)
    )


def curve(start: complex, start_handle: complex, end_handle: complex, end: complex) -> Chain:
    """Return one cubic; the handles are offsets from their own end (mm)."""
    return (Cubic(start=start, first_handle=start + start_handle, second_handle=end + end_handle, end=end),)


def bow(
    start: complex, leaving: complex, start_part: float, end: complex, arriving: complex, end_part: float
) -> Chain:
    """Return one cubic that bends one way only.

    Each handle is a part (0 to 1) of the way to the point where the tangents at both ends meet; such a cubic has
    no inflection and no hook.

    Args:
        start, end: the ends.
        leaving, arriving: directions of travel at the ends.
        start_part, end_part: lengths of the handles as parts of the way to the tangents' meeting.

    Raises:
        ValueError: the tangents do not meet in front of both ends.
    """
    cross = (leaving.conjugate() * arriving).imag
    gap = end - start
    to_meeting = (gap.conjugate() * arriving).imag / cross if cross else 0.0
    from_meeting = (leaving.conjugate() * gap).imag / cross if cross else 0.0
    if to_meeting <= 0 or from_meeting <= 0:
        raise ValueError(f"the tangents at {start} and {end} do not meet between them")
    return curve(start, leaving * to_meeting * start_part, -arriving * from_meeting * end_part, end)


def arc(centre: complex, radius_mm: float, from_angle: float, to_angle: float, parts: int) -> Chain:
    """Return a circular arc as `parts` cubics; angles in radians, y down.

    The handle length 4/3·tan(angle/4) keeps the radius within 3·10⁻⁶ at 45° a part (textbook construction).
    """
    step = (to_angle - from_angle) / parts
    handle = 4 / 3 * math.tan(step / 4) * radius_mm
    pieces = []
    for part in range(parts):
        spoke_a = cmath.exp(1j * (from_angle + part * step))
        spoke_b = cmath.exp(1j * (from_angle + (part + 1) * step))
        a, b = centre + radius_mm * spoke_a, centre + radius_mm * spoke_b
        pieces.append(
            Cubic(
                start=a,
                first_handle=a + 1j * handle * spoke_a,
                second_handle=b - 1j * handle * spoke_b,
                end=b,
            )
        )
    return tuple(pieces)


def joined(*chains: Iterable[Cubic]) -> Chain:
    """Return one chain made of several."""
    return tuple(segment for chain in chains for segment in chain)


def backwards(chain: Chain) -> Chain:
    """Return the chain run the other way."""
    return tuple(segment.reversed() for segment in reversed(chain))


def moved(chain: Chain, by: complex) -> Chain:
    """Return the chain shifted by a vector (mm)."""
    return tuple(
        Cubic(
            start=s.start + by, first_handle=s.first_handle + by, second_handle=s.second_handle + by, end=s.end + by
        )
        for s in chain
    )


def chain_length_mm(chain: Chain) -> float:
    """Return the length of a chain."""
    return sum(segment.length_mm() for segment in chain)


def solve(function: Callable[[float], float], low: float, high: float) -> float:
    """Return where a function that changes its sign once between low and high is zero, by halving.

    Raises:
        ValueError: the function has the same sign at both ends.
    """
    low_value = function(low)
    if low_value * function(high) > 0:
        raise ValueError(f"no change of sign between {low} and {high}")
    for _ in range(BISECTIONS):
        middle = (low + high) / 2
        if (function(middle) > 0) == (low_value > 0):
            low = middle
        else:
            high = middle
    return (low + high) / 2


def split_at_length(chain: Chain, distance_mm: float) -> tuple[Chain, Chain]:
    """Return the parts of a chain before and after a distance along it.

    Raises:
        ValueError: the chain is not longer than the distance.
    """
    gone_mm = 0.0
    for index, segment in enumerate(chain):
        length_mm = segment.length_mm()
        if gone_mm + length_mm > distance_mm:
            wanted_mm = distance_mm - gone_mm
            t = solve(lambda at: segment.split(at)[0].length_mm() - wanted_mm, 0.0, 1.0)  # noqa: B023
            before, after = segment.split(t)
            return (*chain[:index], before), (after, *chain[index + 1 :])
        gone_mm += length_mm
    raise ValueError(f"a chain of {gone_mm:.1f} mm has no point at {distance_mm:.1f} mm")


def split_at(chain: Chain, side: Callable[[complex], float]) -> tuple[Chain, Chain]:
    """Return the parts of a chain before and after it first crosses the line on which `side` is zero.

    Raises:
        ValueError: no segment has its ends on different sides.
    """
    for index, segment in enumerate(chain):
        if side(segment.start) * side(segment.end) <= 0 and side(segment.start) != side(segment.end):
            before, after = segment.split(solve(lambda t: side(segment.at(t)), 0.0, 1.0))  # noqa: B023
            return (*chain[:index], before), (after, *chain[index + 1 :])
    raise ValueError("the chain does not cross the line")
