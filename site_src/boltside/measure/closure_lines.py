"""Along which line do closures sit, what crosses it, and how far is the edge? From the outlines, on the stitching line.

The line is straightened: all that is told of it are distances along it from its upper end, in mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import Polygon

from boltside.measure.conditions import holds, with_size
from boltside.measure.cut_off import clipped_line
from boltside.measure.model import Garment, MadePiece, MeasureError
from boltside.measure.polyline import between_mm, distance_mm, length_mm, nearest_on
from boltside.measure.seams import ON_EDGE_MM, edge_length_mm
from boltside.pattern import EdgePart, Pattern, Placed, PlacedAlong, Point, Polyline, Seam

BESIDE_MM = 40.0
"""A seam that ends at an edge so near to the line runs on across it. Our choice: twice the widest usual overlap."""

AT_END_MM = 1.0
"""What meets the line so near to its end meets its end. Our choice."""

SAME_MM = 0.1
"""Places are told to a tenth of a millimetre."""

SAMPLE_MM = 10.0
"""The way from the line to the edge is measured this often, and at both ends. Our choice."""


@dataclass(frozen=True, kw_only=True)
class ClosureLine:
    """The line: its length, where seams and named points cross it, and how far the edge beside it is, in mm.

    `edge_mm` is the least distance of an interior line to the stitching line beside it; `edge_right`: as the outline
    is drawn, the line's upper end turned up, the edge lies to the right. Both are None along an edge.
    """

    length_mm: float
    crossings_mm: tuple[float, ...]
    edge_mm: float | None
    edge_right: bool | None


def closure_line(garment: Garment, placed: Placed, seams: Sequence[Seam]) -> ClosureLine:
    """The line in one size and set of choices. Arguments: the garment, how closures are placed, seams that may cross.

    Raises: :class:`MeasureError` where a piece, line, edge or point is not there with these choices.
    """
    at_mm = 0.0
    crossings: list[float] = []
    edge: tuple[float, bool] | None = None
    there = _there(garment, placed.along)
    for number, (part, (piece, line)) in enumerate(zip(there, line_parts(garment, placed.along), strict=True)):
        length = length_mm(line)
        if number:
            crossings.append(at_mm)
        found = [*_seam_places(garment, piece, part, line, seams), *_named_places(garment, piece, placed, line)]
        crossings += [at_mm + along for along in found if AT_END_MM < along < length - AT_END_MM]
        if part.line is not None and edge is None:
            edge = _edge_beside(piece, line)
        at_mm += length
    return ClosureLine(
        length_mm=at_mm,
        crossings_mm=tuple(sorted(round(at, 3) for at in crossings)),
        edge_mm=edge[0] if edge is not None else None,
        edge_right=edge[1] if edge is not None else None,
    )


def line_parts(garment: Garment, along: Sequence[PlacedAlong]) -> list[tuple[MadePiece, Polyline]]:
    """The pieces over which such a line runs in this garment, with the line on each. Raises: as `closure_line`."""
    pieces = [(garment.piece(part.piece), part) for part in _there(garment, along)]
    return [(piece, _line(piece, part)) for piece, part in pieces]


def _there(garment: Garment, along: Sequence[PlacedAlong]) -> list[PlacedAlong]:
    asked = with_size(garment.chosen, garment.size)
    parts = [part for part in along if holds(part.when, asked)]
    if not parts:
        raise MeasureError("no part of the line along which closures are placed is there")
    return parts


def seams_beside(pattern: Pattern, garment: Garment, placed: Placed) -> list[Seam]:
    """The seams that end somewhere along an edge beside the line, so that a joint of theirs may cross it.

    Argument: a garment with the pieces of the line. Only these have to be looked at, with their pieces and choices.
    """
    edges = {edge for part in placed.along for edge in _edges_beside(pattern, garment, part)}
    roles = {f"as:{name}": piece for name, piece in garment.roles.items()}
    found = []
    for seam in pattern.seams:
        for own, other in ((seam.join, seam.to), (seam.to, seam.join)):
            beside = [one for one in own if (roles.get(one.piece, one.piece), one.edge) in edges]
            if beside and (len(other) > 1 or any(one.start or one.stop for one in beside)) and seam not in found:
                found.append(seam)
    return found


def _edges_beside(pattern: Pattern, garment: Garment, part: PlacedAlong) -> Iterator[tuple[str, str]]:
    names = {part.piece, *(play.piece for role in pattern.roles for play in role.plays
                           if f"as:{role.role}" == part.piece)}  # fmt: skip
    for name in names & set(garment.pieces):
        piece = garment.pieces[name]
        if part.edge is not None:
            yield name, part.edge
        elif part.line in piece.lines_mm:
            line = _line(piece, part)
            for edge in piece.edges:
                if _runs_beside(edge.stitching_mm, line):
                    yield name, edge.name


def _runs_beside(edge: Polyline, line: Polyline) -> bool:
    """Whether some of the edge lies beside the line, not only at its ends."""
    length = length_mm(line)
    for place in _samples(edge):
        along, _, away = nearest_on(line, place)
        if away <= BESIDE_MM and AT_END_MM < along < length - AT_END_MM:
            return True
    return False


def _samples(line: Polyline) -> list[Point]:
    length = length_mm(line)
    count = max(2, int(length / SAMPLE_MM) + 1)
    places = [place_at(line, length * number / (count - 1)) for number in range(count)]
    return places


def place_at(line: Polyline, along_mm: float) -> Point:
    """The place so far along the line, its end where it is shorter."""
    stretch = between_mm(line, 0.0, along_mm)
    return stretch[-1] if stretch else line[0]


def _line(piece: MadePiece, part: PlacedAlong) -> Polyline:
    """The part of the line on this piece, from its upper end."""
    if part.line is not None:
        drawn = piece.lines_mm.get(part.line)
        # What lies in the allowance is no part of the finished garment.
        line = drawn and clipped_line(drawn, Polygon(piece.stitching_mm))
        if not line:
            raise MeasureError(f"piece {piece.name!r} has no line {part.line!r} here")
    else:
        line = _stretch(piece, part)
    if part.upper is not None:
        upper = _point(piece, part.upper)
        if distance_mm(upper, line[-1]) < distance_mm(upper, line[0]):
            line = line[::-1]
    if part.share < 1:
        line = tuple(between_mm(line, 0.0, length_mm(line) * part.share))
    return line


def _stretch(piece: MadePiece, part: PlacedAlong) -> Polyline:
    edge = piece.edge(part.edge or "")
    ends = [0.0, edge.length_mm]
    for which, name in enumerate((part.start, part.stop)):
        if name is not None:
            ends[which], _, away_mm = nearest_on(edge.stitching_mm, _point(piece, name))
            if away_mm > ON_EDGE_MM:
                raise MeasureError(f"the point {name!r} of piece {piece.name!r} is not on its edge {edge.name!r}")
    line = tuple(between_mm(edge.stitching_mm, min(ends), max(ends)))
    return line if ends[0] <= ends[1] else line[::-1]


def _point(piece: MadePiece, name: str) -> Point:
    place = piece.points_mm.get(name)
    if place is None:
        raise MeasureError(f"piece {piece.name!r} has no point {name!r} here")
    return place


def _named_places(garment: Garment, piece: MadePiece, placed: Placed, line: Polyline) -> Iterator[float]:
    """Where the named points that are to be kept clear of lie along the line."""
    for name, point in placed.clear_of:
        players = {name, garment.roles.get(name.removeprefix("as:"), name)}
        if piece.name in players and point in piece.points_mm:
            yield nearest_on(line, piece.points_mm[point])[0]


def _seam_places(
    garment: Garment, piece: MadePiece, part: PlacedAlong, line: Polyline, seams: Sequence[Seam]
) -> Iterator[float]:
    """Where seams that end at the edge, or at an edge beside the line, cross the line."""
    asked = with_size(garment.chosen, garment.size)
    for seam in seams:
        if not holds(seam.when, asked):
            continue
        for own, other in ((seam.join, seam.to), (seam.to, seam.join)):
            if any(garment.piece(one.piece) is piece for one in own):
                for edge_name, place in _joints(garment, piece, own, other):
                    along, _, away = nearest_on(line, place)
                    if edge_name == part.edge if part.edge is not None else away <= BESIDE_MM:
                        yield along


def _joints(
    garment: Garment, piece: MadePiece, own: Sequence[EdgePart], other: Sequence[EdgePart]
) -> Iterator[tuple[str, Point]]:
    """Places on edges of the piece where the other side of the seam goes from one piece to the next, or ends.

    The other side's lengths are spread evenly over this side, as ease or gathers are.
    """
    lengths = [edge_length_mm(garment, one) for one in other]
    own_lengths = [edge_length_mm(garment, one) for one in own]
    share = sum(own_lengths) / sum(lengths)
    joints = [sum(lengths[: number + 1]) * share for number, (one, after) in enumerate(pairwise(other))
              if not _round_a_corner(garment, one, after)]  # fmt: skip
    begun = 0.0
    for one, length in zip(own, own_lengths, strict=True):
        if garment.piece(one.piece) is piece:
            line = _stretch(piece, PlacedAlong(piece=piece.name, edge=one.edge, start=one.start, stop=one.stop))
            for at in joints:
                if begun < at < begun + length:
                    yield one.edge, place_at(line, (at - begun) / max(one.times, 1.0))
            for name in (one.start, one.stop):
                if name is not None:
                    yield one.edge, _point(piece, name)
        begun += length


def _round_a_corner(garment: Garment, one: EdgePart, after: EdgePart) -> bool:
    """Whether both are neighbours round one piece: from a mere corner no seam runs on."""
    piece = garment.piece(one.piece)
    if garment.piece(after.piece) is not piece:
        return False
    ends, begins = (
        [line[0], line[-1]] for line in (piece.edge(one.edge).stitching_mm, piece.edge(after.edge).stitching_mm)
    )
    return min(distance_mm(end, begin) for end in ends for begin in begins) <= SAME_MM


def _edge_beside(piece: MadePiece, line: Polyline) -> tuple[float, bool] | None:
    """How far the nearest edge beside the line is, and whether it lies to the right, the line's upper end up."""
    ends = (line[0], line[-1])
    beside = [
        edge.stitching_mm
        for edge in piece.edges
        if not any(nearest_on(edge.stitching_mm, end)[2] <= AT_END_MM for end in ends)
    ]
    found = [(away, place, near) for place in _samples(line) for edge in beside
             for _, near, away in [nearest_on(edge, place)]]  # fmt: skip
    if not found:
        return None
    away, place, near = min(found)
    (x0, y0), (x1, y1) = line[0], line[-1]
    # Left of the way down is the right of who looks at it.
    return away, (x1 - x0) * (near[1] - place[1]) - (y1 - y0) * (near[0] - place[0]) > 0
