"""Where is the other line? From stitching to cutting line by each edge's allowance, or back.

Each edge is moved by its own allowance, outwards from a drawn stitching line and inwards from a drawn cutting line;
neighbours are then extended or trimmed to where they meet. An edge without allowance, or on the fold, stays, and its
neighbours run on to it.
"""

from __future__ import annotations

from collections.abc import Sequence

from shapely import LinearRing

from boltside.measure.corners import Meeting, meet
from boltside.measure.drawn import ON_OUTLINE_MM, DrawnEdge, DrawnPiece
from boltside.measure.model import MadeEdge, MeasureError, PieceLines
from boltside.measure.offset import offset_edge, offset_point
from boltside.measure.polyline import between_mm, distance_mm, length_mm, nearest_on, ring_of, signed_area_mm2
from boltside.pattern import DrawnLine, Point, Polyline


def both_lines(piece: DrawnPiece, drawn: DrawnLine, fold_edge: str | None = None) -> PieceLines:
    """Stitching and cutting line of a piece, split at the same edges.

    Arguments: the drawn piece, which line its outline is, and the edge that lies on the fold (its allowance counts
    as 0). Lengths in mm. Raises: :class:`MeasureError` where the derived line crosses itself.
    """
    edges = [_on_fold(edge) if edge.name == fold_edge else edge for edge in piece.edges]
    ring = ring_of([edge.line_mm for edge in edges])
    # The right-hand side is outside when the outline runs anticlockwise.
    outwards = 1.0 if signed_area_mm2(ring) > 0 else -1.0
    side = outwards if drawn == "stitching" else -outwards
    derived = moved_edges(edges, side, fold_edge)
    other = ring_of(derived)
    if len(other) < 3 or not LinearRing(other).is_simple or signed_area_mm2(other) * outwards <= 0:
        raise MeasureError(
            f"the {'cutting' if drawn == 'stitching' else 'stitching'} line crosses itself: the allowances "
            f"({', '.join(f'{edge.name} {edge.allowance_mm:g}' for edge in edges)} mm) do not fit this outline"
        )
    made = tuple(_made(edge, line, drawn) for edge, line in zip(edges, derived, strict=True))
    stitching, cutting = (ring, other) if drawn == "stitching" else (other, ring)
    points = dict(piece.points_mm)
    if drawn == "cutting":
        points = {name: _stitched(place, edges, derived, side) for name, place in piece.points_mm.items()}
    return PieceLines(stitching_mm=stitching, cutting_mm=cutting, edges=made, points_mm=points)


def moved_edges(edges: Sequence[DrawnEdge], side: float, fold_edge: str | None = None) -> list[list[Point]]:
    """Each edge's line moved by its allowance to its right (``side`` 1) or left (−1) and met with its neighbours.

    An edge that its neighbours leave no room for shrinks to a point.
    """
    if len(edges) == 1:
        return [_closed_curve(edges[0], side)]
    moved = [offset_edge(edge.line_mm, side * edge.allowance_mm) for edge in edges]
    there = list(range(len(edges)))
    while True:
        raw = moved
        meetings = _meetings(edges, raw, there, fold_edge)
        if not all(meeting.met for meeting in meetings):
            # An edge may meet the stretch by which its neighbour was run on at the other end.
            raw = _run_on(raw, there, meetings)
            meetings = _meetings(edges, raw, there, fold_edge)
        gone = [
            i
            for k, i in enumerate(there)
            if meetings[k - 1].b_at_mm > meetings[k].a_at_mm + ON_OUTLINE_MM and len(there) > 2
        ]
        if not gone:
            lines = _all_cut(raw, there, meetings)
            gone = _no_room(edges, there, meetings, lines)
            if not gone:
                return lines
        # The edge that is most inside out goes first; its neighbours then meet each other.
        there.remove(max(gone, key=lambda i: meetings[there.index(i) - 1].b_at_mm - meetings[there.index(i)].a_at_mm))


def _no_room(
    edges: Sequence[DrawnEdge], there: Sequence[int], meetings: Sequence[Meeting], lines: Sequence[list[Point]]
) -> list[int]:
    """The shortest edge that meets a neighbour nowhere, if that makes the whole line cross itself."""
    loose = [i for k, i in enumerate(there) if not (meetings[k - 1].met and meetings[k].met)]
    if len(there) < 3 or not loose or LinearRing(ring_of(lines)).is_simple:
        return []
    return [min(loose, key=lambda i: length_mm(edges[i].line_mm))]


def _all_cut(raw: Sequence[list[Point]], there: Sequence[int], meetings: Sequence[Meeting]) -> list[list[Point]]:
    """Every moved edge between its neighbours; one that is gone is a point where its neighbours meet."""
    lines: dict[int, list[Point]] = {}
    for k, i in enumerate(there):
        lines[i] = _cut_to(raw[i], meetings[k - 1], meetings[k])
    for i in range(len(raw)):
        if i not in lines:
            before = max((k for k in there if k < i), default=there[-1])
            lines[i] = [lines[before][-1], lines[before][-1]]
    return [lines[i] for i in range(len(raw))]


def _meetings(
    edges: Sequence[DrawnEdge], raw: Sequence[list[Point]], there: Sequence[int], fold_edge: str | None
) -> list[Meeting]:
    """For each edge that is there, where its end meets the next one's start."""
    return [
        meet(
            raw[i],
            raw[j],
            edges[i].line_mm[-1],
            (edges[i].allowance_mm, edges[j].allowance_mm),
            on_fold=fold_edge in (edges[i].name, edges[j].name),
            two_edges=len(there) == 2,
        )
        for i, j in zip(there, [*there[1:], there[0]], strict=True)
    ]


def _run_on(raw: Sequence[list[Point]], there: Sequence[int], meetings: Sequence[Meeting]) -> list[list[Point]]:
    """The moved edges with what they were run on by where they met."""
    longer = list(raw)
    for k, i in enumerate(there):
        start, stop = meetings[k - 1], meetings[k]
        # The old ends lie on the way and are no corners.
        if start.met and start.b_at_mm < 0.0:
            longer[i] = [start.b_start, *longer[i][1:]]
        if stop.met and stop.a_at_mm > length_mm(raw[i]):
            longer[i] = [*longer[i][:-1], stop.a_end]
    return longer


def _cut_to(line: list[Point], start: Meeting, stop: Meeting) -> list[Point]:
    """The moved edge between the places where it meets the edge before and the one after."""
    kept = between_mm(line, max(0.0, start.b_at_mm), min(length_mm(line), stop.a_at_mm))
    # The ends are given exactly, so that neighbours share them and a fold stays straight; where an edge runs on, its
    # old end lies on the way and is no corner.
    return [start.b_start, *kept[1:-1], stop.a_end]


def _closed_curve(edge: DrawnEdge, side: float) -> list[Point]:
    """A single edge that runs all the way round: moved as two halves, which meet at both ends."""
    middle = len(edge.line_mm) // 2
    halves = [
        DrawnEdge(name=name, line_mm=line, allowance_mm=edge.allowance_mm)
        for name, line in (("first", edge.line_mm[: middle + 1]), ("second", edge.line_mm[middle:]))
    ]
    first, second = moved_edges(halves, side)
    return [*first, *second[1:]] if distance_mm(first[-1], second[0]) == 0 else [*first, *second]


def _on_fold(edge: DrawnEdge) -> DrawnEdge:
    return DrawnEdge(name=edge.name, line_mm=edge.line_mm, allowance_mm=0.0)


def _made(edge: DrawnEdge, derived: list[Point], drawn: DrawnLine) -> MadeEdge:
    other: Polyline = tuple(derived)
    stitching, cutting = (edge.line_mm, other) if drawn == "stitching" else (other, edge.line_mm)
    return MadeEdge(
        name=edge.name,
        allowance_mm=edge.allowance_mm,
        stitching_mm=stitching,
        cutting_mm=cutting,
        length_mm=length_mm(stitching),
        cutting_length_mm=length_mm(cutting),
    )


def _stitched(place: Point, edges: Sequence[DrawnEdge], derived: Sequence[list[Point]], side: float) -> Point:
    """Where a point on a drawn cutting line lies on the stitching line: a corner on the corner, else by the normal."""
    for edge, line in zip(edges, derived, strict=True):
        if distance_mm(place, edge.line_mm[0]) <= ON_OUTLINE_MM:
            return line[0]
    for edge, line in zip(edges, derived, strict=True):
        at_mm, _, away_mm = nearest_on(edge.line_mm, place)
        if away_mm <= ON_OUTLINE_MM:
            return nearest_on(line, offset_point(edge.line_mm, at_mm, side * edge.allowance_mm))[1]
    return place
