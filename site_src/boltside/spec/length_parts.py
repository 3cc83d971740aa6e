"""Where does a length come from? The parts it is the sum of, in words, with their lengths and places in the drawing.

A buyer who asks why a figure is what it is gets these: edge by edge, with the edge marked in the little front or back
drawing. The marks are as coarse as the drawing itself (see :mod:`boltside.spec.simplify`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from shapely import LineString, Polygon, get_coordinates
from shapely import Point as Spot
from shapely.ops import substring

from boltside.calculators.conditions import SIZE, holds, names_in_all
from boltside.measure.combinations import combinations
from boltside.measure.cutting_list import choices_of_piece
from boltside.measure.finished import part_mm
from boltside.measure.garment import make_garment
from boltside.measure.model import Garment, LengthCase
from boltside.pattern import Between, ChoiceSet, EdgePart, LinePart, Pattern, Polyline
from boltside.spec.drawing import drawn_size
from boltside.spec.json_form import Json, tidy
from boltside.spec.placing import Placed, hangs_on, place, players
from boltside.spec.simplify import COARSE_MM, GRID_MM

Part = EdgePart | Between | LinePart
VIEWS = ("front", "back")

BESIDE_MM = 2.0
"""A line so near to what is drawn of its piece is seen with it. Our choice."""


@dataclass(frozen=True, kw_only=True)
class Example:
    """Choices with which a case occurs, for each size."""

    by_size: Mapping[str, ChoiceSet]


def parts_json(pattern: Pattern, case: LengthCase, parts: Sequence[Part], low_mm: Mapping[str, int]) -> list[Json]:
    """The parts of one case of a length.

    Arguments: the pattern, the case (its condition and sizes), the parts whose sum it is, and how far each view of
    the drawing was moved.
    Returns a list of `words`, `times`, `mm` (of one time, by size) and `trace` (view and line, or None where the part
    is in neither drawing). Raises: MeasureError.
    """
    pieces = {player.name for part in parts for player in players(pattern, part.piece)}
    example = example_of(pattern, case, pieces)
    garments = {
        size: make_garment(pattern, size, chosen, only=pieces) for size, chosen in example.by_size.items()
    }
    told = []
    for part in parts:
        once = replace(part, times=1)
        told.append(
            {
                "words": words_of(garments, part),
                "times": tidy(part.times, 3),
                "mm": {size: tidy(part_mm(garment, once)) for size, garment in garments.items()},
                "trace": _trace(pattern, example, part, low_mm),
            }
        )
    return told


def example_of(pattern: Pattern, case: LengthCase, pieces: set[str]) -> Example:
    """Choices with which the case occurs: the first allowed ones in each size."""
    names = set(names_in_all([case.when])) - {SIZE}
    names |= {name for role in pattern.roles for play in role.plays for name in names_in_all([play.when])} - {SIZE}
    for piece in pattern.pieces:
        if piece.name in pieces:
            names |= set(choices_of_piece(pattern, piece)) - {SIZE}
    found: dict[str, ChoiceSet] = {}
    for size in case.mm:
        for chosen in combinations(pattern, sorted(names), size):
            if holds(case.when, {**chosen, SIZE: size}):
                found[size] = chosen
                break
    return Example(by_size=found)


def words_of(garments: Mapping[str, Garment], part: Part) -> str:
    """What is measured, in words: the piece and its edge, its line, or the two points between which it is straight."""
    garment = next(iter(garments.values()))
    title = garment.piece(part.piece).title
    if isinstance(part, EdgePart):
        stretch = [f"from {plain(part.start)}"] if part.start else []
        stretch += [f"to {plain(part.stop)}"] if part.stop else []
        return " ".join([f"{title}, edge {plain(part.edge)}", *stretch])
    if isinstance(part, LinePart):
        return f"{title}, line {plain(part.line)}"
    how = {None: "straight", "x": "across", "y": "along"}[part.along]
    return f"{title}, {how} from {plain(part.start)} to {plain(part.stop)}"


def plain(name: str | None) -> str:
    """A name of the format as a reader says it."""
    return (name or "").replace("-", " ")


def _trace(pattern: Pattern, example: Example, part: Part, low_mm: Mapping[str, int]) -> Json | None:
    """The part in the front drawing, else in the back one, coarse; None where it is in neither."""
    size = drawn_size(pattern)
    chosen = example.by_size.get(size) or next(iter(example.by_size.values()))
    wanted = {player.name for player in players(pattern, part.piece)}
    for view, drawn in zip(VIEWS, (pattern.drawing_front, pattern.drawing_back), strict=True):
        for at, one in enumerate(drawn):
            if not wanted & {player.name for player in players(pattern, one.piece)}:
                continue
            placed = place(pattern, size, drawn, chosen, only=hangs_on(pattern, drawn, at)).get(at)
            line = None if placed is None or placed.piece not in wanted else _line(placed, part)
            line = None if placed is None or line is None else _seen(line, placed)
            if line is not None:
                return {"view": view, "line": [[x, y - low_mm[view]] for x, y in coarse_line(line)]}
    return None


def _seen(line: Polyline, placed: Placed) -> Polyline | None:
    """What is seen of a line where the drawing shows only a side of the piece; None where nothing is."""
    shown = LineString(line).intersection(Polygon(placed.outline_mm).buffer(BESIDE_MM))
    parts = [one for one in getattr(shown, "geoms", [shown]) if isinstance(one, LineString) and one.length > BESIDE_MM]
    if not parts:
        return None
    longest = max(parts, key=lambda one: one.length)
    return tuple((x, y) for x, y in get_coordinates(longest).tolist())


def _line(placed: Placed, part: Part) -> Polyline | None:
    """The part as it lies in the drawing; None where that edge, line or point is not there."""
    if isinstance(part, LinePart):
        return placed.lines_mm.get(part.line)
    if isinstance(part, Between):
        if part.start not in placed.points_mm or part.stop not in placed.points_mm:
            return None
        return placed.points_mm[part.start], placed.points_mm[part.stop]
    edge = placed.edges_mm.get(part.edge)
    if edge is None:
        return None
    whole = LineString(edge)
    ends = [0.0, whole.length]
    for which, name in enumerate((part.start, part.stop)):
        if name is not None and name in placed.points_mm:
            ends[which] = whole.project(Spot(placed.points_mm[name]))
    stretch = substring(whole, min(ends), max(ends))
    return tuple((x, y) for x, y in get_coordinates(stretch).tolist())


def coarse_line(line_mm: Polyline) -> list[list[int]]:
    """An open line for show: few points, on the same grid as published outlines."""
    few: Any = LineString(line_mm).simplify(COARSE_MM)
    points = [[round(x / GRID_MM) * GRID_MM, round(y / GRID_MM) * GRID_MM] for x, y in get_coordinates(few).tolist()]
    plain_points = [point for at, point in enumerate(points) if at == 0 or point != points[at - 1]]
    return plain_points if len(plain_points) > 1 else points
