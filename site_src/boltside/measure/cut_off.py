"""What is left of a drawn piece that is cut along one of its interior lines?

Works on the drawn line, before allowances. Edges that the cut meets are shortened, edges beyond it are gone, and
the cut itself becomes an edge with a name and an allowance of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from shapely import LinearRing, LineString, Polygon, get_coordinates, get_parts
from shapely import Point as ShapelyPoint

from boltside.measure.drawn import ON_OUTLINE_MM, DrawnEdge, DrawnPiece
from boltside.measure.model import MeasureError
from boltside.measure.polyline import SAME_MM, between_mm, distance_mm, length_mm, nearest_on, ring_of
from boltside.pattern import CutOff, Point, Polyline

SHORT_OF_OUTLINE_MM = 2.0
"""A cut-off line may end this far inside the outline: it is run on to it. Our choice, twice a pencil's slip."""

CRUMB_MM2 = 0.01
"""Parts of clipped areas smaller than this are rounding."""


def cut_off(piece: DrawnPiece, how: CutOff, allowance_mm: float) -> DrawnPiece:
    """The side of the piece with the point ``how.keep``, cut along the interior line ``how.line``.

    Arguments: the drawn piece, which cut-off, and the new edge's allowance in mm. A line that an earlier cut-off
    took away altogether changes nothing. Raises: :class:`MeasureError` where the line does not part the outline.
    """
    line = piece.lines_mm.get(how.line)
    if line is None:
        return piece
    ring = ring_of([edge.line_mm for edge in piece.edges])
    cut = _from_side_to_side(ring, line, how.line)
    way, back, kept = _kept_side(piece, cut, how)
    return DrawnPiece(
        edges=_with_cut(piece.edges, way, back, how.edge, allowance_mm),
        points_mm={name: _snapped(place, kept) for name, place in piece.points_mm.items() if _within(place, kept)},
        lines_mm={
            name: clipped
            for name, whole in piece.lines_mm.items()
            if name != how.line and (clipped := clipped_line(whole, kept)) is not None
        },
        # Areas end where the cutting or stitching line will be, so those that are still there stay as drawn.
        areas_mm={name: area for name, area in piece.areas_mm.items() if clipped_area(area, kept)},
    )


def clipped_area(area: Polyline, inside: Polygon) -> tuple[Polyline, ...]:
    """The parts of an area that lie inside, largest first; there may be none, or several."""
    parts = [
        part
        for part in get_parts(Polygon(area).intersection(inside))
        if isinstance(part, Polygon) and part.area > CRUMB_MM2
    ]
    parts.sort(key=lambda part: -part.area)
    return tuple(tuple((x, y) for x, y in get_coordinates(part.exterior).tolist()[:-1]) for part in parts)


def clipped_line(line: Polyline, inside: Polygon) -> Polyline | None:
    """The longest stretch of a line that lies inside, in its own direction, or None."""
    parts = [part for part in get_parts(LineString(line).intersection(inside)) if isinstance(part, LineString)]
    if not parts:
        return None
    longest = max(parts, key=lambda part: part.length)
    if longest.length <= ON_OUTLINE_MM:
        return None
    stretch = tuple((x, y) for x, y in get_coordinates(longest).tolist())
    # Clipping may turn a line round: its direction says where the grain points.
    runs_on = nearest_on(line, stretch[-1])[0] >= nearest_on(line, stretch[0])[0]
    return stretch if runs_on else stretch[::-1]


def _from_side_to_side(ring: Polyline, line: Polyline, name: str) -> Polyline:
    """The line from its first to its last crossing of the outline, its ends run on to it if they stop short."""
    on = [_run_on(line[1], line[0]), *line, _run_on(line[-2], line[-1])]
    crossings = get_coordinates(LinearRing(ring).intersection(LineString(on))).tolist()
    along = sorted(nearest_on(on, (x, y))[0] for x, y in crossings)
    if not along or along[-1] - along[0] <= SHORT_OF_OUTLINE_MM:
        raise MeasureError(
            f"the cut-off line {name!r} does not go from one side of the outline to the other; "
            f"each end must come within {SHORT_OF_OUTLINE_MM:g} mm of it"
        )
    return tuple(between_mm(on, along[0], along[-1]))


def _run_on(before: Point, end: Point) -> Point:
    share = SHORT_OF_OUTLINE_MM / distance_mm(before, end)
    return end[0] + share * (end[0] - before[0]), end[1] + share * (end[1] - before[1])


def _at_on_edges(edges: Sequence[DrawnEdge], place: Point) -> tuple[int, float]:
    """Which edge a place on the outline is on, and how far along it in mm."""
    found = [(nearest_on(edge.line_mm, place), i) for i, edge in enumerate(edges)]
    (at_mm, _, _), i = min(found, key=lambda item: item[0][2])
    return i, at_mm


def _walk(edges: Sequence[DrawnEdge], start: Point, stop: Point) -> list[DrawnEdge]:
    """The edges, shortened, on the way round from one place on the outline to another."""
    (i, at_i), (j, at_j) = _at_on_edges(edges, start), _at_on_edges(edges, stop)
    if i == j and at_i <= at_j:
        return _shortened(edges[i], at_i, at_j)
    way = _shortened(edges[i], at_i, length_mm(edges[i].line_mm))
    k = (i + 1) % len(edges)
    while k != j:
        way.append(edges[k])
        k = (k + 1) % len(edges)
    return way + _shortened(edges[j], 0.0, at_j)


def _shortened(edge: DrawnEdge, start_mm: float, stop_mm: float) -> list[DrawnEdge]:
    """The stretch of an edge, or nothing where less is left than a rounding."""
    if stop_mm - start_mm <= ON_OUTLINE_MM:
        return []
    line = tuple(between_mm(edge.line_mm, start_mm, stop_mm))
    return [DrawnEdge(name=edge.name, line_mm=line, allowance_mm=edge.allowance_mm)]


def _kept_side(piece: DrawnPiece, cut: Polyline, how: CutOff) -> tuple[list[DrawnEdge], Polyline, Polygon]:
    """The side that has the point to keep: its edges round to the cut, the cut back to where they began, its area."""
    keep = piece.points_mm.get(how.keep)
    if keep is None:
        raise MeasureError(f"the cut-off {how.line!r} keeps the side with the point {how.keep!r}, which is not there")
    sides = []
    for back in (cut[::-1], cut):
        way = _walk(piece.edges, back[-1], back[0])
        polygon = Polygon(ring_of([*[edge.line_mm for edge in way], back]))
        if not polygon.is_valid:
            raise MeasureError(f"the cut-off line {how.line!r} crosses the outline more than twice")
        sides.append((way, back, polygon))
    return min(sides, key=lambda side: side[2].distance(ShapelyPoint(keep)))


def _with_cut(
    edges: Sequence[DrawnEdge], way: list[DrawnEdge], back: Polyline, name: str, allowance_mm: float
) -> tuple[DrawnEdge, ...]:
    """The edges round the kept side in the old order, with the new one where the cut is."""
    names = [edge.name for edge in way]
    if len(set(names)) < len(names):
        twice = next(a for a, b in pairwise(sorted(names)) if a == b)
        raise MeasureError(f"the cut-off {name!r} would leave the edge {twice!r} in two parts; split that edge")
    if name in names:
        raise MeasureError(f"the cut-off's new edge needs a name of its own: {name!r} is still there")
    joined = [*way, DrawnEdge(name=name, line_mm=_ends_of(way, back), allowance_mm=allowance_mm)]
    order = {edge.name: i for i, edge in enumerate(edges)}
    first = min(range(len(way)), key=lambda i: order[way[i].name])
    return tuple(joined[first:] + joined[:first])


def _ends_of(way: Sequence[DrawnEdge], line: Polyline) -> Polyline:
    """The cut from where the kept edges end to where they begin, exactly."""
    middle = [p for p in line[1:-1] if min(distance_mm(p, line[0]), distance_mm(p, line[-1])) > SAME_MM]
    return (way[-1].line_mm[-1], *middle, way[0].line_mm[0])


def _within(place: Point, kept: Polygon) -> bool:
    return bool(kept.distance(ShapelyPoint(place)) <= 2 * ON_OUTLINE_MM)


def _snapped(place: Point, kept: Polygon) -> Point:
    """A point that the cut left a hair outside is put on the kept outline."""
    if kept.intersects(ShapelyPoint(place)):
        return place
    ring = get_coordinates(kept.exterior).tolist()
    return nearest_on([(x, y) for x, y in ring], place)[1]
