"""Reads the drafted `pieces.svg` back with svgelements, for the trueing tests."""

from __future__ import annotations

import cmath
import csv
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path

import shapely
import svgelements  # type: ignore[import-untyped]
import yaml

DATA = Path(__file__).resolve().parents[1] / "data"
GARMENTS = {
    "breakwater": range(62, 129, 6),
    "ferrylight": range(68, 117, 6),
    "millrace": range(86, 129, 6),
    "windlass": range(62, 129, 6),
    "wrackline": range(86, 117, 6),
}
ROUNDING_MM = 0.02
"""Coordinates have two decimals, so a point may lie this far from where it was computed."""
Stretch = list[svgelements.CubicBezier | svgelements.Line]


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One piece in one size as drawn: segments of the outline, points, interior lines."""

    segments: Stretch
    points: dict[str, complex]
    lines: dict[str, Stretch]

    def stretch(self, start: str, stop: str) -> Stretch:
        """Segments of the outline from one named point to another, in the drawn order."""
        first = self.joint_at(start)
        turned = self.segments[first:] + self.segments[:first]
        count = next(i for i, s in enumerate(turned, 1) if abs(end_of(s) - self.points[stop]) < ROUNDING_MM)
        return turned[:count]

    def joint_at(self, name: str) -> int:
        """Index of the segment that begins at a named point."""
        return next(i for i, s in enumerate(self.segments) if abs(start_of(s) - self.points[name]) < ROUNDING_MM)

    def angle_deg(self, name: str) -> float:
        """Inside angle of the outline at a named point."""
        index = self.joint_at(name)
        arriving, leaving = directions(self.segments[index - 1])[1], directions(self.segments[index])[0]
        turn = math.degrees(cmath.phase(leaving / arriving))
        return 180 - turn if self.is_clockwise() else 180 + turn

    def is_clockwise(self) -> bool:
        """Whether the outline runs clockwise in the drawing (y down: positive area)."""
        ring = polygon(self.segments).exterior.coords
        return sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairwise(ring)) > 0


def start_of(segment: svgelements.CubicBezier | svgelements.Line) -> complex:
    """Start of a segment."""
    return complex(segment.start)


def end_of(segment: svgelements.CubicBezier | svgelements.Line) -> complex:
    """End of a segment."""
    return complex(segment.end)


def directions(segment: svgelements.CubicBezier | svgelements.Line) -> tuple[complex, complex]:
    """Unit directions of travel at both ends of a segment."""
    points = [complex(segment.start), complex(segment.end)]
    if isinstance(segment, svgelements.CubicBezier):
        points[1:1] = [complex(segment.control1), complex(segment.control2)]
    first, last = points[1] - points[0], points[-1] - points[-2]
    return first / abs(first), last / abs(last)


def length_mm(stretch: Stretch) -> float:
    """Length as svgelements measures it."""
    return float(sum(segment.length(error=1e-5) for segment in stretch))


def points_of(segment: svgelements.CubicBezier | svgelements.Line, parts: int) -> list[complex]:
    """Points along a segment, both ends included."""
    found = [segment.point(i / parts) for i in range(parts + 1)]
    return [complex(float(p.x), float(p.y)) for p in found]


def polygon(stretch: Stretch) -> shapely.Polygon:
    """The closed stretch as a polygon of short chords."""
    return shapely.Polygon([(p.real, p.imag) for segment in stretch for p in points_of(segment, 40)[:-1]])


def segments_of(path_data: str) -> Stretch:
    """Lines and cubics of path data, without moves and empty closings."""
    parts = svgelements.Path(path_data)
    return [
        svgelements.Line(part.start, part.end) if isinstance(part, svgelements.Close) else part
        for part in parts
        if not isinstance(part, svgelements.Move) and abs(complex(part.end) - complex(part.start)) > ROUNDING_MM
    ]


@cache
def drawn(garment: str) -> dict[tuple[str, str], Piece]:
    """Piece and size to drawing, as read from the file."""
    text = (DATA / "patterns" / garment / "pieces.svg").read_text(encoding="utf-8")
    found: dict[tuple[str, str], dict[str, dict[str, str]]] = {}
    for name, path in re.findall(r'<path id="([^"]+)"[^>]* d="([^"]+)"', text):
        piece, size, kind, *rest = name.split(".")
        found.setdefault((piece, size), {}).setdefault(kind, {})["".join(rest)] = path
    points: dict[tuple[str, str], dict[str, complex]] = {}
    for name, x, y in re.findall(r'<circle id="([^"]+)" cx="([^"]+)" cy="([^"]+)"', text):
        piece, size, _, label = name.split(".")
        points.setdefault((piece, size), {})[label] = complex(float(x), float(y))
    return {
        key: Piece(
            segments=segments_of(kinds["outline"][""]),
            points=points[key],
            lines={label: segments_of(path) for label, path in kinds.get("line", {}).items()},
        )
        for key, kinds in found.items()
    }


@cache
def described(garment: str) -> dict[str, list[tuple[str, str, str]]]:
    """Piece to its edges (name, first point, last point), from pattern.yaml."""
    pattern = yaml.safe_load((DATA / "patterns" / garment / "pattern.yaml").read_text(encoding="utf-8"))
    pieces = {name: about for name, about in pattern["pieces"].items() if not name.startswith("as:")}
    edges = {piece: [(e["name"], e["from"]) for e in about["edges"]] for piece, about in pieces.items()}
    return {
        piece: [(name, start, after[1]) for (name, start), after in zip(row, row[1:] + row[:1], strict=True)]
        for piece, row in edges.items()
    }


@cache
def bodies() -> dict[str, dict[str, str]]:
    """Rows of the body chart."""
    text = (DATA / "body_charts" / "thistle-quay.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {row["size"]: row for row in rows}


@cache
def edge_mm(garment: str, edge: str, size: str) -> float:
    """Length of an edge (`piece.edge`, or `piece.from>to` for a stretch between two points)."""
    piece, name = edge.split(".")
    if ">" in name:
        start, stop = name.split(">")
    else:
        start, stop = next((a, b) for label, a, b in described(garment)[piece] if label == name)
    return length_mm(drawn(garment)[piece, size].stretch(start, stop))


def everything() -> Iterator[tuple[str, str, str]]:
    """Every garment, piece and size."""
    for garment, sizes in GARMENTS.items():
        for piece in described(garment):
            for size in sizes:
                yield garment, piece, str(size)


def bends(stretch: Stretch) -> int:
    """How often a stretch changes between bending left and right, from the turning of 40 equal chords.

    Turns below a fifth of a degree are the drawing's rounding.
    """
    way = shapely.LineString([(p.real, p.imag) for s in stretch for p in points_of(s, 40)])
    points = [way.interpolate(i / 40, normalized=True) for i in range(41)]
    chords = [complex(b.x - a.x, b.y - a.y) for a, b in pairwise(points)]
    turns_deg = [math.degrees(cmath.phase(b / a)) for a, b in pairwise(chords)]
    signs = [turn > 0 for turn in turns_deg if abs(turn) > 0.2]
    return sum(a != b for a, b in pairwise(signs))


FERRYLIGHT_SIZES = [str(size) for size in GARMENTS["ferrylight"]]
MILLRACE_SIZES = [str(size) for size in GARMENTS["millrace"]]
EVERYTHING = list(everything())
