"""Where do the closures of a notion sit, in every size and set of choices that matters?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from boltside.measure.cases import ValueCase, value_cases
from boltside.measure.closure_backing import bare_mm, other_bare_mm
from boltside.measure.closure_lines import ClosureLine, closure_line, seams_beside
from boltside.measure.closure_places import CLEAR_MM, NoRoom, Places, Reach, Wish, place, reach_of
from boltside.measure.conditions import first_holding, holds, with_size
from boltside.measure.cutting_list import choices_of_piece, occurring
from boltside.measure.garment import make_garment
from boltside.measure.model import Garment, MeasureError
from boltside.pattern import Condition, Notion, Pattern, Placed, Seam

NOT_THERE = "say with `when:` where it applies, or correct the piece"

LINE_DIGITS = 1
"""Places are told to a tenth of a millimetre; what agrees so far is one."""


@dataclass(frozen=True, kw_only=True)
class PlacedRow:
    """One row of closures in one size: the title of the piece it begins on, the line, the places along it.

    `edge_right` says of each copy of the piece whether the edge lies to the right of the line, right side up and the
    upper end on top; no copies where that is not known. `bare_mm` are the
    places without interfacing under them, `other_bare_mm` those whose other halves have none, on the layer `other`;
    only :func:`placed_or_why` looks for them.
    """

    piece: str
    length_mm: float
    crossings_mm: tuple[float, ...]
    edge_mm: float | None
    edge_right: tuple[tuple[str, bool], ...]
    places: Places
    bare_mm: tuple[float, ...] = ()
    other_bare_mm: tuple[float, ...] = ()
    other: str = ""


@dataclass(frozen=True, kw_only=True)
class Unplaced:
    """No places in this size: why, and what to change; `measurable` False: the line itself is not there."""

    why: str
    mend: str
    measurable: bool = True


def placed_cases(pattern: Pattern, notion: Notion) -> tuple[ValueCase[PlacedRow], ...]:
    """The rows over all choices, where the notion is needed. Raises: :class:`MeasureError` where there is no room."""

    def row(garment: Garment) -> PlacedRow:
        found = placed_row(pattern, notion, garment, seams)
        if isinstance(found, Unplaced):
            raise NoRoom(f"notion {notion.name!r}, size {garment.size}: {found.why}", found.mend)
        return found

    placed = notion.placed
    if placed is None:
        return ()
    seams = _seams(pattern, notion)
    return value_cases(pattern, notion.when, _pieces(placed, seams), row, asked=_asked(placed, seams))


def placed_or_why(pattern: Pattern, notion: Notion) -> tuple[ValueCase[PlacedRow | Unplaced], ...]:
    """As :func:`placed_cases`, with the reason in the place of a row that has no room."""
    placed = notion.placed
    if placed is None:
        return ()
    seams = _seams(pattern, notion)

    def row(garment: Garment) -> PlacedRow | Unplaced:
        try:
            found = placed_row(pattern, notion, garment, seams)
            return found if isinstance(found, Unplaced) else _looked_under(garment, placed, found)
        except MeasureError as error:
            return Unplaced(why=str(error), mend=NOT_THERE, measurable=False)

    layers = [*placed.backing, *placed.onto]
    pieces = [*_pieces(placed, seams), *(part.piece for part in layers)]
    asked = [*_asked(placed, seams), *(part.when for part in layers)]
    return value_cases(pattern, notion.when, pieces, row, asked=asked)


def _looked_under(garment: Garment, placed: Placed, row: PlacedRow) -> PlacedRow:
    """The row with what is known of the interfacing under it. Raises: :class:`MeasureError`."""
    other_mm, other = other_bare_mm(garment, placed, row.places.mm)
    return replace(row, bare_mm=bare_mm(garment, placed, row.places.mm), other_bare_mm=other_mm, other=other)


def placed_row(pattern: Pattern, notion: Notion, garment: Garment, seams: list[Seam]) -> PlacedRow | Unplaced:
    """The row in one garment, or why there is none. Raises: :class:`MeasureError` where the line is not there."""
    placed = notion.placed
    assert placed is not None and notion.diameter_mm is not None, "the reader sees to both"
    asked = with_size(garment.chosen, garment.size)
    line = closure_line(garment, placed, seams)
    wish = wish_of(notion, placed, line, garment.size, asked)
    try:
        found = place(wish)
    except NoRoom as error:
        return Unplaced(why=str(error), mend=error.mend)
    rounded = Places(
        mm=tuple(round(at, LINE_DIGITS) for at in found.mm),
        equal=found.equal,
        first_moved=found.first_moved,
        last_moved=found.last_moved,
        other_number=found.other_number,
    )
    piece = garment.piece(next(part.piece for part in placed.along if holds(part.when, asked)))
    return PlacedRow(
        piece=piece.title,
        length_mm=round(line.length_mm, LINE_DIGITS),
        crossings_mm=tuple(round(at, LINE_DIGITS) for at in line.crossings_mm),
        edge_mm=None if line.edge_mm is None else round(line.edge_mm, LINE_DIGITS),
        edge_right=()
        if line.edge_right is None
        else tuple((copy.name, line.edge_right is copy.drawn) for copy in piece.copies),
        places=rounded,
    )


def wish_of(
    notion: Notion, placed: Placed, line: ClosureLine, size: str, asked: dict[str, str]
) -> Wish:
    """What the designer wishes for on this line. Raises: :class:`MeasureError` where no case of an inset holds."""
    diameter_mm = notion.diameter_mm or 0.0
    first, last = first_holding(placed.first_mm, asked), first_holding(placed.last_mm, asked)
    if not placed.last_mm:
        last = 0.0  # a row of one
    if first is None or last is None:
        raise MeasureError("no case of `first_mm` or `last_mm` holds")
    clear_mm = CLEAR_MM if placed.clear_mm is None else placed.clear_mm
    reach = reach_of(notion.kinds, diameter_mm, notion.thickness_mm or 0.0, placed.holes)
    count = None if placed.spacing_mm is not None else notion.tabled_count.get(size, notion.count or 0)
    return Wish(
        length_mm=line.length_mm,
        first_mm=first,
        last_mm=last,
        reach=reach,
        apart_mm=apart_mm(diameter_mm, reach, clear_mm),
        count=None if count is None else count // placed.rows,
        spacing_mm=placed.spacing_mm,
        clear_mm=clear_mm,
        crossings_mm=line.crossings_mm,
    )


def apart_mm(diameter_mm: float, reach: Reach, clear_mm: float) -> float:
    """How near two may come, from middle to middle: neither buttons, caps nor holes come nearer than the clearance."""
    return max(diameter_mm, reach.up_mm + reach.down_mm) + clear_mm


def _seams(pattern: Pattern, notion: Notion) -> list[Seam]:
    """The seams that may cross the line, seen over the forms that its own pieces take in the first size that has it."""
    placed = notion.placed
    assert placed is not None
    own = list(_players(pattern, [part.piece for part in placed.along]))
    names = {name for piece in pattern.pieces if piece.name in own for name in choices_of_piece(pattern, piece)}
    names |= set(_names([notion.when, *_asked(placed, [])]))
    found: list[Seam] = []
    for size, combinations in occurring(pattern, sorted(names)).items():
        for chosen in combinations:
            if holds(notion.when, with_size(chosen, size)):
                garment = make_garment(pattern, size, chosen, only=own)
                found += [seam for seam in seams_beside(pattern, garment, placed) if seam not in found]
    return found


def _names(conditions: list[Condition]) -> list[str]:
    return [name for condition in conditions for mapping in condition for name in mapping]


def _players(pattern: Pattern, names: list[str]) -> Iterator[str]:
    plays = {f"as:{role.role}": [play.piece for play in role.plays] for role in pattern.roles}
    for name in names:
        yield from plays.get(name, [name])


def _pieces(placed: Placed, seams: list[Seam]) -> list[str]:
    of_seams = [part.piece for seam in seams for part in (*seam.join, *seam.to)]
    return list(dict.fromkeys([*(part.piece for part in placed.along), *of_seams]))


def _asked(placed: Placed, seams: list[Seam]) -> list[Condition]:
    cases = [*placed.first_mm, *placed.last_mm]
    return [*(case.when for case in cases), *(part.when for part in placed.along), *(seam.when for seam in seams)]
