"""What of an outline may be shown? A coarse one in whole millimetres, never what could be cut out and sewn.

Pages need outlines to draw a piece; the sold pattern must not leave the shop with them. So curves are replaced by as
few chords as lie within :data:`COARSE_MM` of them, corners of published pieces are moved to a grid, and of a piece only
this one line is published: no stitching line, notch or named point.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import floor, hypot

from shapely import Polygon, get_coordinates

COARSE_MM = 6.0
"""Chords may lie this far from the true line, and round curves do lie about as far: at least 5 mm, half of a usual seam
allowance, is our rule."""

GRID_MM = 5
"""Corners of published pieces lie on a grid of this step, so that straight pieces are not told exactly either. Ours."""

FINE_MM = 0.5
"""What chords are chosen from: the outline thinned by this much, so that the choosing is quick."""

Ring = list[tuple[float, float]]


def coarse(outline_mm: Sequence[tuple[float, float]], grid_mm: int = 1) -> list[list[int]]:
    """The outline for show, closed without repeating its first point, in whole millimetres.

    Arguments: a closed outline in mm; the grid in mm on which its corners shall lie.
    """
    ring = _few_chords(_thinned(outline_mm))
    points = [[_on_grid(x, grid_mm), _on_grid(y, grid_mm)] for x, y in ring]
    plain = [point for at, point in enumerate(points) if point != points[at - 1]]
    # A narrow piece might vanish on the grid; then whole millimetres must do.
    if grid_mm > 1 and (len(plain) < 3 or not Polygon(plain).is_valid):
        return coarse(outline_mm)
    return plain


def _on_grid(mm: float, grid_mm: int) -> int:
    return floor(mm / grid_mm + 0.5) * grid_mm


def _thinned(outline_mm: Sequence[tuple[float, float]]) -> Ring:
    # Thinning keeps the first point of a ring; begin at a corner that stays in any case, the leftmost.
    ring = [(float(x), float(y)) for x, y in outline_mm]
    first = min(range(len(ring)), key=lambda at: ring[at])
    thin = Polygon(ring[first:] + ring[:first]).simplify(FINE_MM)
    return [(x, y) for x, y in get_coordinates(thin).tolist()[:-1]]


def _few_chords(ring: Ring) -> Ring:
    """Corners dropped one after the other, the one that shows least first, while every chord stays near its stretch."""
    kept = list(range(len(ring)))
    known: dict[tuple[int, int], float] = {}

    def harm_mm(start: int, stop: int) -> float:
        if (start, stop) not in known:
            known[start, stop] = _harm_mm(ring, start, stop)
        return known[start, stop]

    while len(kept) > 3:
        harm = [(harm_mm(kept[at - 1], kept[(at + 1) % len(kept)]), at) for at in range(len(kept))]
        for least, at in sorted(harm):
            if least > COARSE_MM:
                return [ring[one] for one in kept]
            fewer = kept[:at] + kept[at + 1 :]
            if Polygon([ring[one] for one in fewer]).is_valid:
                kept = fewer
                break
        else:
            break
    return [ring[one] for one in kept]


def _harm_mm(ring: Ring, start: int, stop: int) -> float:
    """How far the stretch between two corners would lie from its chord, in mm."""
    stretch = ring[start + 1 : stop] if start < stop else ring[start + 1 :] + ring[:stop]
    (ax, ay), (bx, by) = ring[start], ring[stop]
    dx, dy = bx - ax, by - ay
    squared = dx * dx + dy * dy
    worst = 0.0
    for x, y in stretch:
        t = min(1.0, max(0.0, ((x - ax) * dx + (y - ay) * dy) / squared)) if squared else 0.0
        worst = max(worst, hypot(x - ax - t * dx, y - ay - t * dy))
    return worst
