"""What has to be cut, over all choices? A line for each different outline and way of cutting a piece from a cloth."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from boltside.calculators.conditions import names_in_all
from boltside.measure.combinations import Combination, combinations, condition_for, same_in_all_sizes
from boltside.measure.conditions import SIZE, with_size
from boltside.measure.garment import make_piece
from boltside.measure.lay_items import lies_on_fold
from boltside.measure.model import CutLine, MadePiece
from boltside.pattern import (
    Condition,
    Copy,
    CutEntry,
    CutOff,
    DrawnLine,
    Face,
    Interfacing,
    Mode,
    Pattern,
    Piece,
    Polyline,
    RolePart,
)

SAME_OUTLINE_DIGITS = 3
"""Outlines that agree to a thousandth of a millimetre are one."""


@dataclass(frozen=True)
class _Cut:
    """How something is cut, all but its outline: what two lines of the cutting list differ in."""

    cloth: str
    kind: str
    mode: Mode
    count: int
    face: Face
    fold_edge: str | None = None
    unfolded: bool = False
    area: str | None = None
    to: DrawnLine | None = None
    carried_by: tuple[str, ...] = ()
    part: int = 0


@dataclass
class _Group:
    """A line of the cutting list while it is put together."""

    outlines: dict[str, Polyline] = field(default_factory=dict)
    made_with: dict[str, Combination] = field(default_factory=dict)
    where: list[dict[str, str]] = field(default_factory=list)
    copies: dict[str, Copy] = field(default_factory=dict)


def cut_lines(pattern: Pattern) -> tuple[CutLine, ...]:
    """The cutting list over all choices, in the order of the pieces and cloths.

    Lines of one piece on one cloth exclude each other, except those of different interfaced areas. A line's
    ``when`` may be wider than needed in combinations that the rules forbid. Raises: :class:`MeasureError`.
    """
    cloths = [cloth.name for cloth in pattern.cloths]
    lines: list[CutLine] = []
    for piece in pattern.pieces:
        found = _piece_lines(pattern, piece)
        found.sort(key=lambda line: cloths.index(line.cloth) if line.cloth in cloths else len(cloths))
        lines += found
    return tuple(lines)


def choices_of_piece(pattern: Pattern, piece: Piece) -> tuple[str, ...]:
    """The choices (and perhaps ``size``) that the piece's own conditions mention, roles included; sorted."""
    roles = [role for role in pattern.roles if any(play.piece == piece.name for play in role.plays)]
    conditions: list[Condition] = [piece.when]
    conditions += [play.when for role in roles for play in role.plays]
    owners: list[Piece | RolePart] = [piece, *roles]
    for owner in owners:
        things: list[CutOff | CutEntry | Copy | Interfacing] = [*owner.cut_offs, *owner.cut, *owner.copies]
        things += owner.interfacing
        conditions += [thing.when for thing in things]
        conditions += [case.when for how in owner.cut_offs for case in how.allowance_mm]
    conditions += [case.when for edge in piece.edges for case in edge.allowance_mm]
    conditions += [case.when for role in roles for cases in role.allowances_mm.values() for case in cases]
    return names_in_all(conditions)


def occurring(pattern: Pattern, names: Sequence[str]) -> dict[str, list[Combination]]:
    """For each size the combinations of the named choices that can occur in it."""
    if same_in_all_sizes(pattern):
        once = combinations(pattern, names, pattern.sizes[0])
        return dict.fromkeys(pattern.sizes, once)
    return {size: combinations(pattern, names, size) for size in pattern.sizes}


def shortest_condition(
    pattern: Pattern, occur: Mapping[str, Sequence[Combination]], where: Sequence[Mapping[str, str]]
) -> Condition:
    """The condition that picks ``where`` (combinations with their size); the size is mentioned only if it matters."""
    everywhere = [with_size(one, size) for size, found in occur.items() for one in found]

    def choices_only(one: Mapping[str, str]) -> dict[str, str]:
        return {name: word for name, word in one.items() if name != SIZE}

    picked = _distinct(choices_only(one) for one in where)
    unsized = _distinct(choices_only(one) for one in everywhere)
    if all(one in where for one in everywhere if choices_only(one) in picked):
        return condition_for(pattern, unsized, picked)
    return condition_for(pattern, everywhere, where)


def _distinct(items: Iterator[dict[str, str]]) -> list[dict[str, str]]:
    return [dict(key) for key in dict.fromkeys(tuple(item.items()) for item in items)]


def _piece_lines(pattern: Pattern, piece: Piece) -> list[CutLine]:
    occur = occurring(pattern, choices_of_piece(pattern, piece))
    groups: dict[_Cut, list[_Group]] = {}
    in_order: dict[tuple[str, ...], tuple[Combination, list[str]]] = {}
    for size, found in occur.items():
        for one in found:
            key = tuple(f"{name}={word}" for name, word in one.items())
            in_order.setdefault(key, (one, []))[1].append(size)
    for one, sizes in in_order.values():
        outlines: dict[_Cut, dict[str, tuple[Polyline, MadePiece]]] = {}
        for size in sizes:
            made = make_piece(pattern, piece, size, one)
            if made is None:
                continue
            for cut, outline in cuts(made):
                outlines.setdefault(cut, {})[size] = (outline, made)
        for cut, by_size in outlines.items():
            _add(groups.setdefault(cut, []), one, by_size)
    return _named(
        [
            CutLine(
                line_id="",
                piece=piece.name,
                title=piece.title,
                cloth=cut.cloth,
                mode=cut.mode,
                count=cut.count,
                face=cut.face,
                kind=cut.kind,
                made_with={size: group.made_with[size] for size in pattern.sizes if size in group.made_with},
                when=shortest_condition(pattern, occur, group.where),
                copies=tuple(group.copies.values()),
                area=cut.area,
                to=cut.to,
                fold_edge=cut.fold_edge,
                unfolded=cut.unfolded,
                carried_by=cut.carried_by,
                part=cut.part,
            )
            for cut, of_cut in groups.items()
            for group in of_cut
        ]
    )


def cuts(made: MadePiece) -> Iterator[tuple[_Cut, Polyline]]:
    """Everything that is cut for a made piece, with its outline."""
    for entry in made.cut:
        lines = made.by_cloth[entry.cloth]
        unfolded = entry.mode == "fold" and not lies_on_fold(made, lines, entry.fold_edge)
        yield (
            _Cut(
                cloth=entry.cloth,
                kind="cut",
                mode="single" if unfolded else entry.mode,
                count=entry.count,
                face=entry.face,
                fold_edge=entry.fold_edge if entry.mode == "fold" else None,
                unfolded=unfolded,
            ),
            lines.cutting_mm,
        )
    parts: dict[tuple[str, str | None, str, tuple[str, ...]], int] = {}
    for area in made.interfaced:
        name = (area.cloth, area.area, area.to, area.carried_by)
        part = parts[name] = parts.get(name, -1) + 1
        entry = made.cut[0]
        unfolded = area.mode == "fold" and not lies_on_fold(made, made.by_cloth[entry.cloth], entry.fold_edge)
        yield (
            _Cut(
                cloth=area.cloth,
                kind="interfacing",
                mode="single" if unfolded else area.mode,
                count=area.copies,
                face=area.face,
                fold_edge=entry.fold_edge if area.mode == "fold" else None,
                unfolded=unfolded,
                area=area.area,
                to=area.to,
                carried_by=area.carried_by,
                part=part,
            ),
            area.outline_mm,
        )


def _add(groups: list[_Group], one: Combination, by_size: Mapping[str, tuple[Polyline, MadePiece]]) -> None:
    """Put a combination's outlines into the group that has the same ones, or into a new group."""
    rounded = {
        size: tuple((round(x, SAME_OUTLINE_DIGITS), round(y, SAME_OUTLINE_DIGITS)) for x, y in outline)
        for size, (outline, _) in by_size.items()
    }
    group = next((group for group in groups if _agree(group.outlines, rounded)), None)
    if group is None:
        group = _Group()
        groups.append(group)
    for size, (_, made) in by_size.items():
        group.outlines.setdefault(size, rounded[size])
        group.made_with.setdefault(size, one)
        group.where.append(with_size(one, size))
        group.copies.update({copy.name: copy for copy in made.copies})


def _agree(a: Mapping[str, Polyline], b: Mapping[str, Polyline]) -> bool:
    """Same outline wherever both are there, and both are there somewhere."""
    both = [size for size in a if size in b]
    return bool(both) and all(a[size] == b[size] for size in both)


def _named(lines: list[CutLine]) -> list[CutLine]:
    """The lines with ids: piece, cloth, interfaced area and copies, and the alternatives where there are several."""
    bases = [".".join([line.piece, line.cloth, *_what(line)]) for line in lines]
    named: list[CutLine] = []
    taken: set[str] = set()
    for line, base in zip(lines, bases, strict=True):
        line_id = base
        if bases.count(base) > 1 and line.when:
            line_id = ".".join([base, *("-".join(words) for words in line.when[0].values())])
        number = 2
        while line_id in taken:
            line_id = f"{line_id.rstrip('0123456789').rstrip('.')}.{number}"
            number += 1
        taken.add(line_id)
        named.append(replace(line, line_id=line_id))
    return named


def _what(line: CutLine) -> list[str]:
    """What of the piece is interfaced, on which copies; nothing for the piece itself."""
    if line.kind == "cut":
        return []
    return [line.area or "whole", *(["-".join(line.carried_by)] if line.carried_by else [])]
