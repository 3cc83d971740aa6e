"""What is the garment in this size with these choices? Roles, conditions, cut-offs and allowances resolved."""

from __future__ import annotations

import weakref
from collections.abc import Container, Mapping
from dataclasses import dataclass
from typing import Any

from shapely import Polygon

from boltside.measure.conditions import first_holding, holds, with_size
from boltside.measure.copies import merged_copies
from boltside.measure.cut_off import clipped_area, cut_off
from boltside.measure.drawn import DrawnPiece, split_outline
from boltside.measure.interfaced import interfaced_areas
from boltside.measure.lines import both_lines
from boltside.measure.model import Garment, MadePiece, MeasureError, PieceLines
from boltside.measure.polyline import angle_deg
from boltside.pattern import (
    ChoiceSet,
    Copy,
    CutEntry,
    CutOff,
    Interfacing,
    Pattern,
    Piece,
    Polyline,
    RolePart,
)

UPRIGHT_DEG = 90.0
"""Without a grain line the grain runs straight up the drawing."""


@dataclass(frozen=True, kw_only=True)
class _Plan:
    """A piece as it is to be made with these choices, roles included, before any size is looked at."""

    piece: Piece
    cut: tuple[CutEntry, ...]
    own_copies: tuple[Copy, ...]
    role_copies: tuple[Copy, ...]
    interfacing: tuple[Interfacing, ...]
    allowances_mm: tuple[tuple[str, float], ...]
    cut_offs: tuple[tuple[CutOff, float], ...]


_made: dict[int, dict[Any, Any]] = {}
"""Lines already worked out, by the piece they belong to; forgotten when the piece is."""


def make_garment(pattern: Pattern, size: str, chosen: ChoiceSet, *, only: Container[str] | None = None) -> Garment:
    """The garment in one size and one set of choices, as it is cut and sewn.

    Arguments: the pattern, one of its sizes, what was chosen (choices that are not asked are absent), and the names
    of the pieces to make (all, if left out).
    Raises: :class:`MeasureError` where the outlines can't be made as the pattern says, or a role has no player.
    """
    asked = with_size(chosen, size)
    pieces = {}
    for piece in pattern.pieces:
        if only is not None and piece.name not in only:
            continue
        made = make_piece(pattern, piece, size, chosen)
        if made is not None:
            pieces[piece.name] = made
    roles = {role.role: player for role in pattern.roles if (player := _player(role, asked)) is not None}
    return Garment(pattern=pattern, size=size, chosen=dict(chosen), pieces=pieces, roles=roles)


def make_piece(pattern: Pattern, piece: Piece, size: str, chosen: ChoiceSet) -> MadePiece | None:
    """One piece in one size; None where its condition does not hold.

    ``chosen`` needs only the choices that the piece's own conditions mention (see :mod:`cutting_list`).
    """
    asked = with_size(chosen, size)
    if not holds(piece.when, asked):
        return None
    plan = _plan(pattern, piece, asked)
    key = (
        size,
        tuple(id(entry) for entry in plan.cut),
        tuple(id(copy) for copy in plan.own_copies),
        tuple(id(copy) for copy in plan.role_copies),
        tuple(id(how) for how in plan.interfacing),
        plan.allowances_mm,
        tuple((id(how), mm) for how, mm in plan.cut_offs),
    )
    kept = _kept_for(piece)
    if key not in kept:
        try:
            # The items are kept too: their ids must not be used again while they are part of a key.
            items = (plan.cut, plan.own_copies, plan.role_copies, plan.interfacing, plan.cut_offs)
            kept[key] = (_make(plan, size), items)
        except MeasureError as error:
            raise MeasureError(f"piece {piece.name!r}, size {size}: {error}") from error
    made: MadePiece = kept[key][0]
    return made


def _kept_for(piece: Piece) -> dict[Any, Any]:
    if id(piece) not in _made:
        _made[id(piece)] = {}
        weakref.finalize(piece, _made.pop, id(piece), None)
    return _made[id(piece)]


def _player(role: RolePart, asked: ChoiceSet) -> str | None:
    return next((play.piece for play in role.plays if holds(play.when, asked)), None)


def _plan(pattern: Pattern, piece: Piece, asked: ChoiceSet) -> _Plan:
    roles = [role for role in pattern.roles if _player(role, asked) == piece.name]
    cut: dict[str, CutEntry] = {}
    for entry in [*piece.cut, *(entry for role in roles for entry in role.cut)]:
        if entry.cloth not in cut and holds(entry.when, asked):
            cut[entry.cloth] = entry
    overrides = {name: cases for role in roles for name, cases in role.allowances_mm.items()}

    def allowance_mm(name: str, cases: Any) -> float:
        own = first_holding(overrides.get(name, ()), asked)
        mm = first_holding(cases, asked) if own is None else own
        if mm is None:
            raise MeasureError(f"piece {piece.name!r}: no case of the allowance of edge {name!r} holds for {asked}")
        return mm

    return _Plan(
        piece=piece,
        cut=tuple(cut.values()),
        own_copies=_holding(piece.copies, asked),
        role_copies=_holding((copy for role in roles for copy in role.copies), asked),
        interfacing=_holding([*piece.interfacing, *(how for role in roles for how in role.interfacing)], asked),
        allowances_mm=tuple((edge.name, allowance_mm(edge.name, edge.allowance_mm)) for edge in piece.edges),
        cut_offs=tuple(
            (how, allowance_mm(how.edge, how.allowance_mm))
            for how in [*piece.cut_offs, *(how for role in roles for how in role.cut_offs)]
            if holds(how.when, asked)
        ),
    )


def _holding(items: Any, asked: ChoiceSet) -> tuple[Any, ...]:
    return tuple(item for item in items if holds(item.when, asked))


def _make(plan: _Plan, size: str) -> MadePiece:
    piece = plan.piece
    outline = piece.outlines.get(size)
    if outline is None:
        raise MeasureError("there is no outline")
    drawn = split_outline(outline, piece.edges, dict(plan.allowances_mm))
    for how, mm in plan.cut_offs:
        drawn = cut_off(drawn, how, mm)
    grain = outline.lines_mm.get("grain")
    by_cloth = _by_cloth(plan, drawn)
    main = next(iter(by_cloth.values()))
    copies = merged_copies(plan.own_copies, plan.role_copies)
    return MadePiece(
        name=piece.name,
        title=piece.title,
        stitching_mm=main.stitching_mm,
        cutting_mm=main.cutting_mm,
        edges=main.edges,
        points_mm=main.points_mm,
        lines_mm=drawn.lines_mm,
        areas_mm=_largest_parts(drawn.areas_mm, main.cutting_mm),
        cut=plan.cut,
        copies=copies,
        interfaced=_interfaced(plan, main, drawn.areas_mm, copies),
        grain=piece.grain,
        grain_deg=UPRIGHT_DEG if grain is None else angle_deg(grain),
        by_cloth=by_cloth if plan.cut else {},
    )


def _by_cloth(plan: _Plan, drawn: DrawnPiece) -> Mapping[str, PieceLines]:
    """Both lines for each cloth; worked out once for each edge that may lie on the fold."""
    by_fold: dict[str | None, PieceLines] = {}
    by_cloth = {}
    for cloth, fold_edge in [(entry.cloth, _fold_edge(entry)) for entry in plan.cut] or [("", None)]:
        if fold_edge not in by_fold:
            by_fold[fold_edge] = both_lines(drawn, plan.piece.drawn, fold_edge)
        by_cloth[cloth] = by_fold[fold_edge]
    return by_cloth


def _fold_edge(entry: CutEntry) -> str | None:
    if entry.mode != "fold":
        return None
    if entry.fold_edge is None:
        raise MeasureError(f"it is cut on the fold from {entry.cloth!r}, but no edge is named that lies on the fold")
    return entry.fold_edge


def _largest_parts(areas_mm: Mapping[str, Polyline], cutting_mm: Polyline) -> dict[str, Polyline]:
    """What of each area lies on the piece; the largest part, where it has fallen into several."""
    inside = Polygon(cutting_mm)
    return {name: parts[0] for name, area in areas_mm.items() if (parts := clipped_area(area, inside))}


def _interfaced(plan: _Plan, main: PieceLines, areas_mm: Mapping[str, Polyline], copies: tuple[Copy, ...]) -> Any:
    if not plan.interfacing:
        return ()
    if not plan.cut:
        raise MeasureError("it has interfacing but is cut from no cloth")
    return interfaced_areas(plan.interfacing, main, areas_mm, plan.cut[0], copies)
