"""What measuring gives: a garment in one size and one set of choices, every number taken from its outlines.

Closed lines are written without repeating their first point. Lengths are millimetres, areas square millimetres.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from boltside.errors import BoltsideError
from boltside.pattern import (
    ALWAYS,
    ChoiceSet,
    Condition,
    Copy,
    CutEntry,
    DrawnLine,
    Face,
    Grain,
    Mode,
    Pattern,
    Point,
    Polyline,
)


class MeasureError(BoltsideError):
    """Something can't be measured or cut as the pattern says. The text is a sentence for the designer."""


@dataclass(frozen=True, kw_only=True)
class MadeEdge:
    """One edge on both lines.

    ``length_mm`` is taken on the stitching line, ``cutting_length_mm`` on the cutting line. Where two allowances
    meet in a step or a blunted corner, the short link between the edges belongs to neither of them.
    """

    name: str
    allowance_mm: float
    stitching_mm: Polyline
    cutting_mm: Polyline
    length_mm: float
    cutting_length_mm: float


@dataclass(frozen=True, kw_only=True)
class PieceLines:
    """Both lines of a piece as it is cut from one cloth; ``points_mm`` are moved on to the stitching line."""

    stitching_mm: Polyline
    cutting_mm: Polyline
    edges: tuple[MadeEdge, ...]
    points_mm: Mapping[str, Point]


@dataclass(frozen=True, kw_only=True)
class InterfacedArea:
    """An area of a piece that gets interfacing, as it is cut.

    ``area`` is None for the whole piece. ``outline_mm`` is in the piece's own drawing; for mode ``fold`` it is the
    half beside ``fold_mm``. ``area_mm2`` is that of one copy (unfolded); ``copies`` is how many come out of the
    interfacing. ``face`` of a single one is that of the copy it lies under, interfacing lying glue side up.
    """

    cloth: str
    area: str | None
    to: DrawnLine
    outline_mm: Polyline
    area_mm2: float
    copies: int
    mode: Mode
    face: Face = "up"
    fold_mm: tuple[Point, Point] | None = None
    carried_by: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class MadePiece:
    """A piece in one size and one set of choices.

    ``stitching_mm``, ``cutting_mm``, ``edges`` and ``points_mm`` are those of the first cloth it is cut from;
    ``by_cloth`` has them for every cloth (they differ only if the piece lies on the fold in one cloth and not in
    another). ``points_mm`` lie on the stitching line where the drawn point lies on the outline; those inside are as
    drawn. ``cut`` has one entry for each cloth. ``grain_deg`` is the drawn grain line's angle, anticlockwise from +x.
    """

    name: str
    title: str
    stitching_mm: Polyline
    cutting_mm: Polyline
    edges: tuple[MadeEdge, ...]
    points_mm: Mapping[str, Point]
    lines_mm: Mapping[str, Polyline]
    areas_mm: Mapping[str, Polyline]
    cut: tuple[CutEntry, ...]
    copies: tuple[Copy, ...]
    interfaced: tuple[InterfacedArea, ...]
    grain: Grain
    grain_deg: float
    by_cloth: Mapping[str, PieceLines]

    def edge(self, name: str) -> MadeEdge:
        """The edge of that name. Raises :class:`MeasureError` where the piece has none (perhaps cut off)."""
        for edge in self.edges:
            if edge.name == name:
                return edge
        raise MeasureError(
            f"piece {self.name!r} has no edge {name!r} here; it has {', '.join(edge.name for edge in self.edges)}"
        )


@dataclass(frozen=True, kw_only=True)
class Garment:
    """All pieces that are there in one size and one set of choices, and which piece plays which role."""

    pattern: Pattern
    size: str
    chosen: ChoiceSet
    pieces: Mapping[str, MadePiece]
    roles: Mapping[str, str]

    def piece(self, name: str) -> MadePiece:
        """The piece of that name, or the one that plays the role in ``as:<role>``.

        Raises :class:`MeasureError` where it is not there with these choices.
        """
        wanted = self.roles.get(name.removeprefix("as:"), "") if name.startswith("as:") else name
        if wanted not in self.pieces:
            raise MeasureError(f"there is no piece {name!r} in size {self.size} with {dict(self.chosen)}")
        return self.pieces[wanted]


@dataclass(frozen=True, kw_only=True)
class CutLine:
    """One line of the cutting list: one cutting outline of a piece on one cloth, with how it is cut.

    ``when`` says in which choices (and sizes, only if they matter) the line applies. ``mode`` is how it is laid: a
    piece whose fold edge does not run with the lengthwise grain is ``single`` and ``unfolded``. ``made_with`` has,
    for each size that has the line, choices that lead to this outline.
    """

    line_id: str
    piece: str
    title: str
    cloth: str
    mode: Mode
    count: int
    face: Face
    kind: str
    made_with: Mapping[str, ChoiceSet]
    when: Condition = ALWAYS
    copies: tuple[Copy, ...] = ()
    area: str | None = None
    to: DrawnLine | None = None
    fold_edge: str | None = None
    unfolded: bool = False
    carried_by: tuple[str, ...] = ()
    part: int = 0

    @property
    def sizes(self) -> tuple[str, ...]:
        """The sizes that have this line in some combination."""
        return tuple(self.made_with)


@dataclass(frozen=True, kw_only=True)
class SeamResult:
    """One seam as measured on the stitching line, beside what the designer means.

    ``ease_mm`` is join − to; ``ease_percent`` that in percent of ``to``; ``ratio`` join ÷ to. ``meant`` is which of
    the three is stated (``equal`` if none) and ``meant_range`` its limits. ``problem`` is a sentence if it is not met.
    """

    name: str
    join_mm: float
    to_mm: float
    ease_mm: float
    ease_percent: float
    ratio: float
    meant: str
    meant_range: tuple[float, float]
    problem: str | None = None

    @property
    def holds(self) -> bool:
        """Whether the seam is as the designer means it."""
        return self.problem is None


@dataclass(frozen=True, kw_only=True)
class LengthCase:
    """A length that depends on choices: in these, so many millimetres in each size."""

    when: Condition
    mm: Mapping[str, float] = field(default_factory=dict)
