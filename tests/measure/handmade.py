"""Small patterns written by hand, so that measuring is tested without any files."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil, cos, pi, sin, sqrt
from typing import Any

from boltside.pattern import (
    Alternative,
    BodyChart,
    Case,
    Choice,
    Cloth,
    Condition,
    CutEntry,
    Edge,
    Outline,
    Pattern,
    Piece,
    Point,
    Polyline,
)

SAGITTA_MM = 0.1
"""How far a flattened curve may leave the true one (the pattern format's promise)."""


def arc(centre: Point, radius_mm: float, start_rad: float, stop_rad: float) -> list[Point]:
    """An arc flattened to the sagitta, its points on the circle."""
    step = 2 * sqrt(2 * SAGITTA_MM / radius_mm)
    count = max(2, ceil(abs(stop_rad - start_rad) / step))
    angles = [start_rad + (stop_rad - start_rad) * i / count for i in range(count + 1)]
    return [(centre[0] + radius_mm * cos(a), centre[1] + radius_mm * sin(a)) for a in angles]


def when(**words: Sequence[str] | str) -> Condition:
    """A condition of one mapping; underscores in names stand for hyphens."""
    return (
        {name.replace("_", "-"): (value,) if isinstance(value, str) else tuple(value) for name, value in words.items()},
    )


def edge(name: str, start: str, *allowances: float | Case) -> Edge:
    """An edge with one allowance, or cases."""
    return Edge(
        name=name, start=start, allowance_mm=tuple(a if isinstance(a, Case) else Case(mm=a) for a in allowances)
    )


def outline(
    ring: Sequence[Point],
    points: Mapping[str, Point],
    lines: Mapping[str, Polyline] | None = None,
    areas: Mapping[str, Polyline] | None = None,
) -> Outline:
    """An outline with its points, lines and areas."""
    return Outline(outline_mm=tuple(ring), points_mm=points, lines_mm=lines or {}, areas_mm=areas or {})


def rectangle(width_mm: float, height_mm: float, **more: Any) -> Outline:
    """A rectangle from (0, 0), anticlockwise, with points a (bottom left), b, c, d."""
    ring = [(0.0, 0.0), (width_mm, 0.0), (width_mm, height_mm), (0.0, height_mm)]
    points = dict(zip("abcd", ring, strict=True))
    points.update(more.pop("points", {}))
    return outline(ring, points, **more)


def four_edges(bottom: Any = 10.0, right: Any = 10.0, top: Any = 10.0, left: Any = 10.0) -> tuple[Edge, ...]:
    """The edges of :func:`rectangle` with their allowances."""

    def cases(value: Any) -> tuple[Any, ...]:
        return value if isinstance(value, tuple) else (value,)

    return (
        edge("bottom", "a", *cases(bottom)),
        edge("right", "b", *cases(right)),
        edge("top", "c", *cases(top)),
        edge("left", "d", *cases(left)),
    )


def piece(name: str, edges: Sequence[Edge], shape: Outline | Mapping[str, Outline], **more: Any) -> Piece:
    """A piece, in size 92 only if one outline is given; a single copy from the outer cloth if nothing is said."""
    outlines = {"92": shape} if isinstance(shape, Outline) else shape
    told: dict[str, Any] = {
        "title": name.capitalize(),
        "drawn": "stitching",
        "grain": "lengthwise",
        "cut": (CutEntry(cloth="outer", mode="single", count=1),),
    }
    return Piece(name=name, edges=tuple(edges), outlines=outlines, **{**told, **more})


def choice(name: str, *words: str, asked_when: Condition = ()) -> Choice:
    """A choice whose default is its first alternative."""
    return Choice(
        name=name,
        title=name,
        default=words[0],
        alternatives=tuple(Alternative(name=word, title=word) for word in words),
        asked_when=asked_when,
    )


def pattern(*pieces: Piece, sizes: Sequence[str] = ("92",), **more: Any) -> Pattern:
    """A pattern of these pieces with three cloths."""
    told: dict[str, Any] = {
        "folder": "handmade",
        "name": "Handmade",
        "summary": "",
        "garment": "jacket",
        "edition": "1",
        "difficulty": 1,
        "minutes": 60,
        "body_chart": BodyChart(name="none", sources=(), rows={size: {"chest": 500.0} for size in sizes}),
        "sizes": tuple(sizes),
        "size_by": ("chest",),
        "choices": (),
        "rules": (),
        "cloths": tuple(
            Cloth(
                name=name,
                title=name,
                kinds=("woven",),
                usual_width_mm=1400,
                widths_mm=(1400,),
                ways=("folded", "flat"),
            )
            for name in ("outer", "lining", "interfacing")
        ),
        "roles": (),
        "seams": (),
        "measurements": (),
        "notions": (),
        "steps": (),
        "words": (),
    }
    return Pattern(pieces=pieces, **{**told, **more})


FULL_TURN = 2 * pi
