"""What was read from pieces.svg: shapes in millimetres, y up, each with its place in the file."""

from __future__ import annotations

from dataclasses import dataclass, field

from boltside.pattern import Polyline
from boltside.read.collect import Place


@dataclass(frozen=True)
class Stroke:
    """One stroke in mm: its vertices, which of them are nodes as drawn (not made by flattening), whether it closes."""

    vertices: Polyline
    nodes: frozenset[int]
    closed: bool


@dataclass(frozen=True)
class Shape:
    """An element we asked for: strokes of an outline, line or area, or the single vertex of a point."""

    kind: str
    element_id: str
    place: Place
    strokes: tuple[Stroke, ...]


@dataclass
class DrawnPiece:
    """All shapes of one piece in one size. `outlines` holds one when all is well."""

    place: Place
    outlines: list[Shape] = field(default_factory=list)
    points: dict[str, Shape] = field(default_factory=dict)
    lines: dict[str, Shape] = field(default_factory=dict)
    areas: dict[str, Shape] = field(default_factory=dict)


@dataclass(frozen=True)
class Drawing:
    """What the file holds. `damaged` are pieces and sizes some of whose shapes could not be read (reported)."""

    place: Place
    pieces: dict[tuple[str, str], DrawnPiece]
    ids: dict[str, Place]
    damaged: frozenset[tuple[str, str]]
