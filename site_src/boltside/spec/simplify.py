"""What of an outline may be shown? A coarse one in whole millimetres, never what could be cut out and sewn.

Pages need outlines to draw a piece; the sold pattern must not leave the shop with them. So curves are replaced by
chords that may lie :data:`COARSE_MM` off, and of a piece only this one line is published: no stitching line, notch or
named point.
"""

from __future__ import annotations

from collections.abc import Sequence

from shapely import Polygon, get_coordinates

COARSE_MM = 6.0
"""Chords may lie this far from the true line. At least 5 mm, a seam allowance, is our rule; a little more is drawn
just as well."""

FEWEST_POINTS = 4
"""An outline that comes to fewer points than a triangle, closed, keeps its own points."""


def coarse(outline_mm: Sequence[tuple[float, float]], tolerance_mm: float = COARSE_MM) -> list[list[int]]:
    """The outline for show, closed without repeating its first point, in whole millimetres.

    Arguments: a closed outline in mm; how far chords may lie off, in mm.
    """
    # Simplifying keeps the first point of a ring; begin at a corner that stays in any case, the leftmost.
    ring = [(float(x), float(y)) for x, y in outline_mm]
    first = min(range(len(ring)), key=lambda at: ring[at])
    turned = Polygon(ring[first:] + ring[:first])
    simple = turned.simplify(tolerance_mm, preserve_topology=True)
    shape = simple if isinstance(simple, Polygon) and len(simple.exterior.coords) >= FEWEST_POINTS else turned
    points = [[round(x), round(y)] for x, y in get_coordinates(shape.exterior).tolist()[:-1]]
    return [point for at, point in enumerate(points) if point != points[at - 1]]
