"""Where does each part of a drawing lie?

A part without `on` stands as drawn, with its point `put` on the garment's centre line, x = 0, and at height 0, wherever
on the designer's sheet it was drawn: so the garment does not jump when another piece takes its place. A part with `on`
is laid with its point `put` on a point of another part. Then it is turned about `put`. Parts may come in any order, but
not in a circle.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from math import cos, radians, sin

from shapely import LineString, Polygon, get_coordinates
from shapely import Point as Spot
from shapely.ops import split

from boltside.calculators.conditions import holds
from boltside.measure.garment import make_piece
from boltside.measure.model import MadePiece, MeasureError
from boltside.pattern import DrawingPart, Pattern, Piece, Point, Polyline, RolePlay

ORIGIN: Point = (0.0, 0.0)
REACH = 10.0
"""Interior lines are lengthened by this many times the piece's size before they cut it."""


@dataclass(frozen=True)
class Placed:
    """A part in its place, in mm: its outline, the edge on the fold if it has one, its piece's points, edges, lines."""

    piece: str
    outline_mm: Polyline
    fold_mm: Polyline
    points_mm: Mapping[str, Point]
    edges_mm: Mapping[str, Polyline]
    lines_mm: Mapping[str, Polyline]


def place(
    pattern: Pattern,
    size: str,
    parts: Sequence[DrawingPart],
    chosen: Mapping[str, str],
    only: Collection[int] | None = None,
) -> dict[int, Placed]:
    """The parts that are there with these choices, by their number in the view, each in its place.

    Arguments: ``chosen`` needs only the choices that matter to these parts; ``only`` leaves out all but some numbers.
    A part that is laid on one that is not there is not there either.
    Raises: :class:`MeasureError` for parts laid on each other in a circle and for pieces, points or lines that are
    not there.
    """
    asked = {**chosen, "size": size}
    there: dict[int, MadePiece] = {}
    for at, part in enumerate(parts):
        if (only is None or at in only) and holds(part.when, asked):
            piece = _made(pattern, size, part, chosen)
            if piece is not None:
                there[at] = piece
    placed: dict[int, Placed] = {}

    def placed_part(at: int, waiting: tuple[int, ...]) -> Placed | None:
        if at in waiting:
            names = " on ".join(parts[one].piece for one in (*waiting[waiting.index(at) :], at))
            raise MeasureError(f"in the drawing, parts are laid on each other in a circle: {names}")
        if at not in placed:
            part, piece = parts[at], there[at]
            target = ORIGIN
            if part.on is not None:
                wanted = _played_by(pattern, part.on[0], asked)
                other = next((number for number in there if there[number].name == wanted), None)
                base = None if other is None else placed_part(other, (*waiting, at))
                if base is None:
                    return None
                if part.on[1] not in base.points_mm:
                    raise MeasureError(f"in the drawing, {part.piece} is laid on {'.'.join(part.on)}: no such point")
                target = base.points_mm[part.on[1]]
            placed[at] = _put(part, piece, target)
        return placed[at]

    return {at: one for at in there if (one := placed_part(at, ())) is not None}


def hangs_on(pattern: Pattern, parts: Sequence[DrawingPart], at: int) -> list[int]:
    """The numbers of the part itself and of all parts on which its place may hang, sorted."""
    todo, found = [at], set()
    while todo:
        one = todo.pop()
        on = parts[one].on
        if one in found:
            continue
        found.add(one)
        if on is not None:
            wanted = {piece.name for piece in players(pattern, on[0])}
            for number, part in enumerate(parts):
                if wanted & {piece.name for piece in players(pattern, part.piece)}:
                    todo.append(number)
    return sorted(found)


def players(pattern: Pattern, name: str) -> list[Piece]:
    """The piece of that name, or all pieces that may play the role of `as:<role>`."""
    names = {name}
    if name.startswith("as:"):
        names = {play.piece for play in _plays(pattern, name)}
    return [piece for piece in pattern.pieces if piece.name in names]


def _plays(pattern: Pattern, name: str) -> list[RolePlay]:
    return [play for role in pattern.roles if role.role == name.removeprefix("as:") for play in role.plays]


def _played_by(pattern: Pattern, name: str, asked: Mapping[str, str]) -> str:
    if not name.startswith("as:"):
        return name
    return next((play.piece for play in _plays(pattern, name) if holds(play.when, asked)), name)


def _made(pattern: Pattern, size: str, part: DrawingPart, chosen: Mapping[str, str]) -> MadePiece | None:
    name = _played_by(pattern, part.piece, {**chosen, "size": size})
    piece = next((piece for piece in pattern.pieces if piece.name == name), None)
    if piece is None:
        raise MeasureError(f"the drawing names a piece {part.piece!r} that is not there")
    return make_piece(pattern, piece, size, chosen)


def _point(piece: MadePiece, name: str) -> Point:
    if name not in piece.points_mm:
        raise MeasureError(f"in the drawing: piece {piece.name!r} has no point {name!r} here")
    return piece.points_mm[name]


def _put(part: DrawingPart, piece: MadePiece, target: Point) -> Placed:
    pivot = _point(piece, part.put)
    c, s = cos(radians(part.turn_deg)), sin(radians(part.turn_deg))

    def moved(point: Point) -> Point:
        x, y = point[0] - pivot[0], point[1] - pivot[1]
        return target[0] + c * x - s * y, target[1] + s * x + c * y

    outline = piece.stitching_mm if part.keep_line is None else _kept(part, piece)
    folded = [entry.fold_edge for entry in piece.cut[:1] if entry.mode == "fold" and entry.fold_edge]
    fold = next((edge.stitching_mm for edge in piece.edges if edge.name in folded), ())
    return Placed(
        piece=piece.name,
        outline_mm=tuple(moved(point) for point in outline),
        fold_mm=tuple(moved(point) for point in fold),
        points_mm={name: moved(point) for name, point in piece.points_mm.items()},
        edges_mm={edge.name: tuple(moved(point) for point in edge.stitching_mm) for edge in piece.edges},
        lines_mm={name: tuple(moved(point) for point in line) for name, line in piece.lines_mm.items()},
    )


def _kept(part: DrawingPart, piece: MadePiece) -> Polyline:
    """The side of an interior line that is shown."""
    line = piece.lines_mm.get(part.keep_line or "")
    if line is None or part.keep_point is None:
        raise MeasureError(f"in the drawing: piece {piece.name!r} has no line {part.keep_line!r} here")
    shape = Polygon(piece.stitching_mm)
    x0, y0, x1, y1 = shape.bounds
    reach = REACH * max(x1 - x0, y1 - y0)
    cut = LineString([_beyond(line[1], line[0], reach), *line, _beyond(line[-2], line[-1], reach)])
    sides = [side for side in split(shape, cut).geoms if isinstance(side, Polygon)]
    spot = Spot(_point(piece, part.keep_point))
    nearest = min(sides, key=lambda side: side.distance(spot))
    return tuple((x, y) for x, y in get_coordinates(nearest.exterior).tolist()[:-1])


def _beyond(before: Point, end: Point, reach: float) -> Point:
    dx, dy = end[0] - before[0], end[1] - before[1]
    length = (dx * dx + dy * dy) ** 0.5
    return end[0] + dx / length * reach, end[1] + dy / length * reach
