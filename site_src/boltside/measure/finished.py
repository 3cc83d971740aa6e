"""How large is the finished garment, and how long are the edges that notions are tied to? On the stitching line."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from shapely import Polygon

from boltside.measure.cases import value_cases
from boltside.measure.cut_off import clipped_line
from boltside.measure.model import Garment, LengthCase, MeasureError
from boltside.measure.polyline import distance_mm, length_mm
from boltside.measure.seams import edge_length_mm
from boltside.pattern import Between, Condition, EdgePart, LinePart, Measurement, Notion, Pattern

SAME_LENGTH_DIGITS = 3
"""Lengths that agree to a thousandth of a millimetre are one."""


def finished_mm(garment: Garment, measurement: Measurement) -> float:
    """A finished measurement in mm: the sum of its parts, each times its ``times``.

    Raises: :class:`MeasureError` where a piece, edge, point or line is not there with these choices.
    """
    return sum(part_mm(garment, part) for part in measurement.parts)


def notion_edge_length_mm(garment: Garment, notion: Notion) -> float:
    """Length in mm, on the stitching line, of the edge that the notion is tied to, before its rule is applied.

    Raises: :class:`MeasureError` where the notion has no edge or the edge is not there with these choices.
    """
    if notion.edge is None:
        raise MeasureError(f"the notion {notion.name!r} is tied to no edge")
    return edge_length_mm(garment, notion.edge)


def finished_cases(pattern: Pattern, measurement: Measurement) -> tuple[LengthCase, ...]:
    """The different values of a finished measurement over all choices, in mm by size, where its ``when`` holds."""
    return _cases(
        pattern,
        measurement.when,
        [part.piece for part in measurement.parts],
        lambda garment: finished_mm(garment, measurement),
    )


def notion_edge_cases(pattern: Pattern, notion: Notion) -> tuple[LengthCase, ...]:
    """The different lengths of a notion's edge over all choices, in mm by size, where its ``when`` holds."""
    if notion.edge is None:
        return ()
    return _cases(pattern, notion.when, [notion.edge.piece], lambda garment: notion_edge_length_mm(garment, notion))


def part_mm(garment: Garment, part: EdgePart | Between | LinePart) -> float:
    """Length in mm of one part of a measurement, times its ``times``. Raises: :class:`MeasureError`."""
    if isinstance(part, EdgePart):
        return edge_length_mm(garment, part)
    piece = garment.piece(part.piece)
    if isinstance(part, LinePart):
        line = piece.lines_mm.get(part.line)
        # What lies in the allowance is not part of the finished garment.
        line = line and clipped_line(line, Polygon(piece.stitching_mm))
        if line is None:
            raise MeasureError(f"piece {piece.name!r} has no line {part.line!r} here")
        return length_mm(line) * part.times
    for name in (part.start, part.stop):
        if name not in piece.points_mm:
            raise MeasureError(f"piece {piece.name!r} has no point {name!r} here")
    a, b = piece.points_mm[part.start], piece.points_mm[part.stop]
    across = {None: distance_mm(a, b), "x": abs(b[0] - a[0]), "y": abs(b[1] - a[1])}
    return across[part.along] * part.times


def _cases(
    pattern: Pattern, when: Condition, pieces: Iterable[str], value: Callable[[Garment], float]
) -> tuple[LengthCase, ...]:
    """Values that agree in every size are one case; the cases' conditions include ``when``."""

    def rounded(garment: Garment) -> float:
        return round(value(garment), SAME_LENGTH_DIGITS)

    return tuple(LengthCase(when=one.when, mm=one.by_size) for one in value_cases(pattern, when, pieces, rounded))
