"""Is there interfacing under every button or snap, and under its other half on the layer below?

Only the outlines are asked: whether a firm cloth needs none is for the designer to say.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shapely import Point as Spot
from shapely import Polygon

from boltside.measure.closure_lines import AT_END_MM, SAME_MM, line_parts, place_at
from boltside.measure.model import Garment, MadePiece
from boltside.measure.polyline import length_mm
from boltside.pattern import Placed, Polyline

Parts = Sequence[tuple[MadePiece, Polyline]]


def bare_mm(garment: Garment, placed: Placed, places_mm: Sequence[float]) -> tuple[float, ...]:
    """The places without interfacing where it is looked for: along `backing`, or the line itself.

    Raises: :class:`MeasureError` where a piece, line, edge or point is not there with these choices.
    """
    return _bare(line_parts(garment, placed.backing or placed.along), places_mm)


def other_bare_mm(garment: Garment, placed: Placed, places_mm: Sequence[float]) -> tuple[tuple[float, ...], str]:
    """The places whose other halves have no interfacing under them, and which layer that is, in words.

    They sit along `onto`; without it, on the other copy of a piece whose copies have names, of which only those places
    are told that are not bare on every copy. Raises: as :func:`bare_mm`.
    """
    if placed.onto:
        parts = line_parts(garment, placed.onto)
        names = " and ".join(f"`{name}`" for name in dict.fromkeys(piece.name for piece, _ in parts))
        return _bare(parts, places_mm), names
    parts = line_parts(garment, placed.backing or placed.along)
    copies = dict.fromkeys(copy.name for piece, _ in parts for copy in piece.copies)
    known = _bare(parts, places_mm)  # on every copy: told already
    bare = {copy: tuple(at for at in _bare(parts, places_mm, copy) if at not in known) for copy in copies}
    worst = max(bare, key=lambda copy: len(bare[copy]), default="")
    return (bare[worst], f"the copy `{worst}`") if worst and bare[worst] else ((), "")


def _bare(parts: Parts, places_mm: Sequence[float], copy: str | None = None) -> tuple[float, ...]:
    """The places without interfacing, on any copy or on this one; one where two parts meet counts with either."""
    bare, begun = [], 0.0
    for piece, line in parts:
        areas = [Polygon(outline).buffer(AT_END_MM) for outline in _areas(piece, copy)]
        here = [at for at in places_mm if begun - SAME_MM <= at <= begun + length_mm(line) + SAME_MM]
        bare += [at for at in here if not any(area.covers(Spot(place_at(line, at - begun))) for area in areas)]
        begun += length_mm(line)
    # On a line that is shorter than the other one there is no place for them at all.
    return tuple(dict.fromkeys([*bare, *(at for at in places_mm if at > begun + SAME_MM)]))


def _areas(piece: MadePiece, copy: str | None) -> Iterator[Polyline]:
    own = {one.name for one in piece.copies}
    for area in piece.interfaced:
        if copy not in own or not area.carried_by or copy in area.carried_by:
            yield area.outline_mm
