"""Which stretch of the drawn outline is which edge?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from boltside.measure.model import MeasureError
from boltside.measure.polyline import distance_mm
from boltside.pattern import Edge, Outline, Point, Polyline

ON_OUTLINE_MM = 0.05
"""A named point this near to the outline lies on it: half of what curves are flattened to. Our choice."""


@dataclass(frozen=True, kw_only=True)
class DrawnEdge:
    """One edge of the drawn outline with the allowance that counts for it, mm."""

    name: str
    line_mm: Polyline
    allowance_mm: float


@dataclass(frozen=True, kw_only=True)
class DrawnPiece:
    """A drawn piece before the other line is derived. After a cut-off, lines are shortened and areas may be gone."""

    edges: tuple[DrawnEdge, ...]
    points_mm: Mapping[str, Point]
    lines_mm: Mapping[str, Polyline]
    areas_mm: Mapping[str, Polyline]


def split_outline(outline: Outline, edges: tuple[Edge, ...], allowances_mm: Mapping[str, float]) -> DrawnPiece:
    """Split the outline at the edges' starts; each edge's line begins at its start and ends at the next one's.

    Raises: :class:`MeasureError` where a start is not on the outline or the starts are not in order round it.
    """
    ring = list(outline.outline_mm)
    starts = [_vertex(ring, edge, outline) for edge in edges]
    # Distances round the ring from the first start, so that it may begin anywhere.
    steps = [(start - starts[0]) % len(ring) for start in starts]
    if steps != sorted(set(steps)):
        raise MeasureError(f"the edges {', '.join(edge.name for edge in edges)} are not in order round the outline")
    ring = ring[starts[0] :] + ring[: starts[0] + 1]
    cuts = [*steps, len(ring) - 1]
    return DrawnPiece(
        edges=tuple(
            DrawnEdge(
                name=edge.name,
                line_mm=tuple(ring[cuts[i] : cuts[i + 1] + 1]),
                allowance_mm=allowances_mm[edge.name],
            )
            for i, edge in enumerate(edges)
        ),
        points_mm=outline.points_mm,
        lines_mm=outline.lines_mm,
        areas_mm=outline.areas_mm,
    )


def _vertex(ring: list[Point], edge: Edge, outline: Outline) -> int:
    place = outline.points_mm.get(edge.start)
    if place is None:
        raise MeasureError(f"edge {edge.name!r} begins at the point {edge.start!r}, which is not drawn")
    index = min(range(len(ring)), key=lambda i: distance_mm(ring[i], place))
    if distance_mm(ring[index], place) > ON_OUTLINE_MM:
        raise MeasureError(f"edge {edge.name!r} begins at the point {edge.start!r}, which is not on the outline")
    return index
