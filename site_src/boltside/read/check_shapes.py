"""Are fold edges straight and along the grain, and do cut-off lines part their piece in two?"""

from __future__ import annotations

import math
from typing import Final

from shapely.geometry import LineString, Polygon
from shapely.ops import split

from boltside.pattern import Outline, Point, Polyline
from boltside.read.book import Book
from boltside.read.collect import quoted
from boltside.read.document import PieceDoc
from boltside.read.yaml_tree import Path

FOLD_STRAIGHT_MM: Final = 0.2
"""So far may an edge on the fold leave the straight line: what a ruler on paper shows. Our choice."""

FOLD_GRAIN_DEG: Final = 1.0
"""So far may an edge on the fold lie off the grain. Our choice."""

REACH_MM: Final = 1.0
"""A cut-off line may end this far inside of the outline. Our choice."""

FOLDED_WAYS: Final = frozenset({"folded", "middle", "part-folded"})
"""Ways of laying with a fold, which runs with the lengthwise grain."""

GRAIN_LINE: Final = "grain"
GRAIN_TURN_DEG: Final = {"lengthwise": 0.0, "crosswise": 90.0, "bias": 45.0}
"""How far the line named `grain` is turned from the cloth's lengthwise grain."""


def check_shapes(book: Book) -> None:
    """Note fold edges and cut-off lines that can't be used."""
    for source, path, entry in book.cut_entries():
        if entry.mode != "fold" or entry.fold_edge is None:
            continue
        for piece in book.players(source):
            _fold(book, (*path, "fold_edge"), piece, entry.fold_edge, entry.cloth)
    for source, part in book.document.pieces.items():
        for piece in book.players(source):
            for at, cut_off in enumerate(part.cut_offs):
                _cut_off(book, ("pieces", source, "cut_offs", at), piece, cut_off.line, cut_off.keep)


def grain_deg(outline: Outline) -> float:
    """The direction of the line named `grain`, degrees from x; straight up the drawing without one."""
    line = outline.lines_mm.get(GRAIN_LINE)
    if line is None:
        return 90.0
    return math.degrees(math.atan2(line[-1][1] - line[0][1], line[-1][0] - line[0][0]))


def edge_polyline(outline: Outline, part: PieceDoc, name: str) -> Polyline | None:
    """The vertices of an edge from its start to the next edge's; None when the outline does not tell."""
    at = next((place for place, edge in enumerate(part.edges) if edge.name == name), None)
    if at is None:
        return None
    on = {vertex: place for place, vertex in enumerate(outline.outline_mm)}
    starts = [
        outline.points_mm.get(edge.start or "") for edge in (part.edges[at], part.edges[(at + 1) % len(part.edges)])
    ]
    if starts[0] not in on or starts[1] not in on:
        return None
    begin, end = (on[place] for place in starts if place is not None)
    count = len(outline.outline_mm)
    length = (end - begin) % count or count
    return tuple(outline.outline_mm[(begin + step) % count] for step in range(length + 1))


def _fold(book: Book, path: Path, piece: str, edge_name: str, cloth: str) -> None:
    part = book.pieces[piece]
    for size, outline in book.outlines.get(piece, {}).items():
        edge = edge_polyline(outline, part, edge_name)
        if edge is None or edge[0] == edge[-1]:
            continue
        off = max(abs(_aside(one, edge[0], edge[-1])) for one in edge)
        sides = [_aside(one, edge[0], edge[-1]) for one in outline.outline_mm]
        if off > FOLD_STRAIGHT_MM or min(max(sides), -min(sides)) > FOLD_STRAIGHT_MM:
            seen = (
                f"{off:.1f} mm off the straight line"
                if off > FOLD_STRAIGHT_MM
                else "with the piece on both sides of it"
            )
            book.note(
                "fold-not-straight",
                path,
                seen=f"`{piece}.{edge_name}` on the fold, in size {size} {seen}",
                expected="a straight edge with the whole piece on one side",
                mend="straighten the edge in the drawing",
            )
            return
        if FOLDED_WAYS & set(book.document.cloths[cloth].ways if cloth in book.document.cloths else ()):
            direction = math.degrees(math.atan2(edge[-1][1] - edge[0][1], edge[-1][0] - edge[0][0]))
            lengthwise = grain_deg(outline) - GRAIN_TURN_DEG[part.grain or "lengthwise"]
            turned = abs((direction - lengthwise + 90) % 180 - 90)
            if turned > FOLD_GRAIN_DEG:
                book.note(
                    "fold-off-grain",
                    path,
                    seen=f"`{piece}.{edge_name}` on the fold, in size {size} {turned:.0f}° off the lengthwise grain",
                    expected=f"an edge along the fold of {quoted(cloth)}, which runs with the lengthwise grain",
                    mend="turn the `grain` line or change `grain`; left so, the piece is cut whole, unfolded",
                    severity="advice",
                )
                return


def _aside(at: Point, a: Point, b: Point) -> float:
    """Distance from the line through a and b, with a sign for the side."""
    return ((b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])) / math.dist(a, b)


def _cut_off(book: Book, path: Path, piece: str, line_name: str, keep: str) -> None:
    for size, outline in book.outlines.get(piece, {}).items():
        line, point = outline.lines_mm.get(line_name), outline.points_mm.get(keep)
        if line is None or point is None:
            continue
        cut = LineString([_beyond(line[1], line[0]), *line, _beyond(line[-2], line[-1])])
        parts = [one for one in split(Polygon(outline.outline_mm), cut).geoms if one.area > REACH_MM]
        on_line = LineString(line).distance(_shapely_point(point)) < REACH_MM
        if len(parts) == 2 and not on_line:
            continue
        if len(parts) == 2:
            key, what, mend = "keep", f"running through {quoted(keep)}", "name a point on the side that is kept"
        elif len(parts) < 2:
            key, what, mend = "line", "not reaching from outline to outline", "draw the line on to the outline"
        else:
            key, what, mend = "line", "crossing the piece more than once", "draw a line that crosses it once"
        book.note(
            "cut-off-misses",
            (*path, key),
            seen=f"the line {quoted(line_name)} of `{piece}`, in size {size} {what}",
            expected="a line that parts the piece in two, the kept point beside it",
            mend=mend,
        )
        return


def _shapely_point(at: Point) -> LineString:
    return LineString([at, at])


def _beyond(before: Point, end: Point) -> Point:
    """The end moved on by what a line may fall short."""
    length = math.dist(before, end) or 1.0
    return (end[0] + (end[0] - before[0]) / length * REACH_MM, end[1] + (end[1] - before[1]) / length * REACH_MM)
