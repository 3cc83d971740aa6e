"""Makes the outline of one piece in one size: closed, simple, begun at the first edge and run in the edges' order."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from shapely.geometry import Polygon
from shapely.validation import explain_validity

from boltside.pattern import Outline, Point, Polyline
from boltside.read.collect import Problems, quoted
from boltside.read.drawn import DrawnPiece, Shape, Stroke

ON_OUTLINE_MM: Final = 0.5
"""A named point this near to the outline is meant to lie on it: half the width of a drawn line. Our choice."""

CLOSED_MM: Final = 0.01
"""A stroke whose ends are this near to each other is closed, with or without `Z`."""

NODE_MM: Final = 0.05
"""Two places on an outline nearer than this are the same when edges are put in order. Our choice."""


@dataclass(frozen=True)
class EdgeStart:
    """What the outline needs to know of an edge: the points it starts at and, perhaps, goes through."""

    name: str
    start: str
    via: str | None


def make_outline(
    piece: str, size: str, drawn: DrawnPiece, edges: Sequence[EdgeStart], name: str, problems: Problems
) -> Outline | None:
    """The outline, or None with problems noted.

    Arguments: `edges` in the order of the pattern, empty when they are not known; `name` is the drawing's file as
    problems name it.
    """
    whose = f"{piece}.{size}"
    if len(drawn.outlines) != 1 or len(drawn.outlines[0].strokes) != 1:
        if drawn.outlines:
            last = drawn.outlines[-1]
            count = sum(len(one.strokes) for one in drawn.outlines)
            problems.add(
                "several-outlines",
                name,
                last.place,
                seen=f"{count} outlines of `{whose}`",
                expected="one",
                mend="join the paths, or delete what is not the outline",
            )
        return None
    shape = drawn.outlines[0]
    areas = {key: _ring(one, name, problems) for key, one in drawn.areas.items()}
    lines = {key: _line(one, name, problems) for key, one in drawn.lines.items()}
    ring = _ring(shape, name, problems)
    if ring is None or any(one is None for one in (*areas.values(), *lines.values())):
        return None
    # Of a path closed without `Z` the last node is the first again and gone.
    loop = _Loop(ring, frozenset(one for one in shape.strokes[0].nodes if one < len(ring)))
    places: dict[str, float] = {}
    points: dict[str, Point] = {}
    for key, one in drawn.points.items():
        at = one.strokes[0].vertices[0]
        along, distance, on = loop.nearest(at)
        if distance <= ON_OUTLINE_MM:
            places[key], points[key] = along, on
        else:
            points[key] = at
            wanted = next((edge for edge in edges if key in (edge.start, edge.via)), None)
            if wanted is not None:
                problems.add(
                    "point-off-outline",
                    name,
                    one.place,
                    seen=f"`{key}` of `{whose}` {distance:.1f} mm off the outline",
                    expected=f"it on the outline (within {ON_OUTLINE_MM} mm), as the edge `{wanted.name}` needs it",
                    mend="move the circle onto the outline",
                )
    usable = all(edge.start in places and (edge.via is None or edge.via in places) for edge in edges)
    vertices = loop.with_points(places, points)
    if edges and usable:
        turned = _in_order(whose, shape, loop, places, edges, vertices, name, problems)
        if turned is None:
            return None
        vertices = turned
    return Outline(
        outline_mm=tuple(at for _, at in vertices),
        points_mm=points,
        lines_mm={key: one for key, one in lines.items() if one is not None},
        areas_mm={key: one for key, one in areas.items() if one is not None},
    )


class _Loop:
    """A closed polyline with the length run so far at every vertex."""

    def __init__(self, vertices: Polyline, nodes: frozenset[int]) -> None:
        self.vertices = vertices
        self.nodes = nodes
        self.run = [0.0]
        for a, b in zip(vertices, (*vertices[1:], vertices[0]), strict=True):
            self.run.append(self.run[-1] + math.dist(a, b))
        self.length = self.run[-1]

    def nearest(self, at: Point) -> tuple[float, float, Point]:
        """Length run to, distance from, and place of the nearest node within tolerance, or else place."""
        node = min(self.nodes, key=lambda one: math.dist(self.vertices[one], at))
        if math.dist(self.vertices[node], at) <= ON_OUTLINE_MM:
            return self.run[node], math.dist(self.vertices[node], at), self.vertices[node]
        best = (0.0, math.inf, at)
        for index, a in enumerate(self.vertices):
            b = self.vertices[(index + 1) % len(self.vertices)]
            across, up = b[0] - a[0], b[1] - a[1]
            squared = across * across + up * up
            part = ((at[0] - a[0]) * across + (at[1] - a[1]) * up) / squared if squared else 0.0
            part = min(max(part, 0.0), 1.0)
            on = (a[0] + part * across, a[1] + part * up)
            distance = math.dist(on, at)
            if distance < best[1]:
                best = ((self.run[index] + part * math.sqrt(squared)) % self.length, distance, on)
        return best

    def with_points(self, places: Mapping[str, float], points: Mapping[str, Point]) -> list[tuple[float, Point]]:
        """The vertices, each with the length run to it, and the named points among them as vertices of their own."""
        every = dict(zip(self.run, self.vertices, strict=False))
        for key, along in places.items():
            every.setdefault(along, points[key])
        return sorted(every.items())


def _in_order(
    whose: str,
    shape: Shape,
    loop: _Loop,
    places: Mapping[str, float],
    edges: Sequence[EdgeStart],
    vertices: list[tuple[float, Point]],
    name: str,
    problems: Problems,
) -> list[tuple[float, Point]] | None:
    """The vertices begun at the first edge's start and run round the way the edges run."""
    stops: list[tuple[str, str]] = []
    for edge in edges:
        stops.append((edge.start, edge.name))
        if edge.via is not None:
            stops.append((edge.via, edge.name))
    begin = places[edges[0].start]

    def ahead(point: str) -> float:
        gone = (places[point] - begin) % loop.length
        return 0.0 if loop.length - gone < NODE_MM else gone

    gone = [ahead(point) for point, _ in stops]
    for index, (point, edge_name) in enumerate(stops):
        twin = next((at for at in range(index) if abs(gone[at] - gone[index]) < NODE_MM), None)
        if twin is not None:
            problems.add(
                "edge-without-length",
                name,
                shape.place,
                seen=f"`{stops[twin][0]}` and `{point}` of `{whose}` in the same place",
                expected=f"a length between them, because the edges `{stops[twin][1]}` and `{edge_name}` need it",
                mend="move one of the circles along the outline",
            )
            return None
    backwards = [(loop.length - one) % loop.length for one in gone]
    forward = gone == sorted(gone)
    if not forward and backwards != sorted(backwards):
        in_drawing = [point for _, point in sorted(zip(gone, (one for one, _ in stops), strict=True))]
        problems.add(
            "edge-order",
            name,
            shape.place,
            seen=f"the points of `{whose}` round the outline in the order {_then(in_drawing)}",
            expected=f"the order of the edges: {_then([one for one, _ in stops])}",
            mend="put the edges in order round the piece, or move the circles",
        )
        return None
    run = vertices if forward else vertices[::-1]
    first = min(
        range(len(run)), key=lambda at: min((run[at][0] - begin) % loop.length, (begin - run[at][0]) % loop.length)
    )
    return run[first:] + run[:first]


def _then(points: Sequence[str]) -> str:
    return ", ".join(f"`{one}`" for one in points)


def _ring(shape: Shape, name: str, problems: Problems) -> Polyline | None:
    """The one closed stroke of an outline or area, or None with a problem noted."""
    shown = quoted(shape.element_id)
    stroke = shape.strokes[0]
    if len(shape.strokes) > 1:
        problems.add(
            "several-outlines",
            name,
            shape.place,
            seen=f"{len(shape.strokes)} strokes in {shown}",
            expected="one",
            mend="join the strokes, or delete what does not belong to it",
        )
        return None
    vertices = stroke.vertices
    if not stroke.closed:
        gap_mm = math.dist(vertices[0], vertices[-1])
        if gap_mm > CLOSED_MM or len(vertices) < 3:
            problems.add(
                "not-closed",
                name,
                shape.place,
                seen=f"{shown} open, a gap of {gap_mm:.1f} mm from {_where(vertices[0])} to {_where(vertices[-1])}",
                expected="a closed path",
                mend="join the two ends",
            )
            return None
        vertices = vertices[:-1]
    polygon = Polygon(vertices) if len(vertices) >= 3 else None
    if polygon is None or not polygon.is_valid or polygon.area <= CLOSED_MM:
        place = re.search(r"\[\s*(\S+) (\S+?)\s*\]", explain_validity(polygon)) if polygon is not None else None
        at = f" at {_where((float(place[1]), float(place[2])))}" if place else ""
        problems.add(
            "self-crossing",
            name,
            shape.place,
            seen=f"{shown} that crosses or touches itself{at}",
            expected="an outline that goes round once and encloses an area",
            mend="look there for a loop or a doubled node",
        )
        return None
    return vertices


def _line(shape: Shape, name: str, problems: Problems) -> Polyline | None:
    stroke = shape.strokes[0]
    if len(shape.strokes) > 1 or len(stroke.vertices) < 2:
        problems.add(
            "bad-shape",
            name,
            shape.place,
            seen=f"{len(shape.strokes)} strokes in {quoted(shape.element_id)}"
            if len(shape.strokes) > 1
            else f"{quoted(shape.element_id)} without length",
            expected="one stroke with a length",
            mend="draw the line in one go",
        )
        return None
    return _whole_line(stroke)


def _whole_line(stroke: Stroke) -> Polyline:
    return (*stroke.vertices, stroke.vertices[0]) if stroke.closed else stroke.vertices


def _where(at: Point) -> str:
    """A place as the drawing program shows it: from the upper left corner, in mm."""
    return f"({at[0]:.1f} mm across, {-at[1]:.1f} mm down)"
