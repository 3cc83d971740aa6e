"""How much is sewn? Every seam and every hem, as often as the garment has it, in mm by choices and size.

A seam is as long as the edges that the other one is eased or gathered to, on the stitching line. An edge that no seam
joins and that has an allowance is hemmed, or turned in. A piece on the fold is drawn as a half, so its edges count
twice.
"""

from __future__ import annotations

from collections.abc import Iterator

from boltside.measure.cases import ValueCase, value_cases
from boltside.measure.conditions import holds, with_size
from boltside.measure.model import Garment, MadePiece
from boltside.measure.seams import edge_length_mm
from boltside.pattern import Pattern, Piece, Seam


def sewn_cases(pattern: Pattern) -> Iterator[ValueCase[int]]:
    """The length of each seam and of each piece's hems, in whole mm; cases of one thing exclude each other."""
    interfacing = {cloth.name for cloth in pattern.cloths if cloth.kinds == ("interfacing",)}
    for seam in pattern.seams:

        def of_seam(garment: Garment, seam: Seam = seam) -> int:
            return round(_seam_mm(garment, seam, interfacing))

        yield from value_cases(pattern, seam.when, [part.piece for part in (*seam.join, *seam.to)], of_seam)
    for piece in pattern.pieces:
        joined = [seam for seam in pattern.seams if piece.name in _players(pattern, seam)]

        def of_hems(garment: Garment, piece: Piece = piece, joined: list[Seam] = joined) -> int:
            return round(_hems_mm(garment, piece, joined, interfacing))

        # A seam that names the piece by its role may have other pieces too; only this one is looked at.
        cases = value_cases(pattern, piece.when, [piece.name], of_hems, asked=[seam.when for seam in joined])
        yield from (case for case in cases if any(case.by_size.values()))


def times_there(made: MadePiece, interfacing: set[str]) -> int:
    """How often each edge of the drawn piece is there in the garment: on all copies, twice on those cut on the fold."""
    return sum(entry.count * (2 if entry.mode == "fold" else 1) for entry in made.cut if entry.cloth not in interfacing)


def _seam_mm(garment: Garment, seam: Seam, interfacing: set[str]) -> float:
    """The seam's own length as often as it is sewn: as often as the side has it that is there least."""
    often = [
        times_there(garment.piece(part.piece), interfacing) / max(part.times, 1.0) for part in (*seam.join, *seam.to)
    ]
    return sum(edge_length_mm(garment, part) for part in seam.to) * max(1.0, min(often))


def _hems_mm(garment: Garment, piece: Piece, joined: list[Seam], interfacing: set[str]) -> float:
    made = garment.pieces.get(piece.name)
    if made is None:
        return 0.0
    asked = with_size(garment.chosen, garment.size)
    sewn = {
        part.edge
        for seam in joined
        if holds(seam.when, asked)
        for part in (*seam.join, *seam.to)
        if part.piece == piece.name or garment.roles.get(part.piece.removeprefix("as:")) == piece.name
    }
    folds = {entry.fold_edge for entry in made.cut if entry.mode == "fold"}
    edges = [edge for edge in made.edges if edge.name not in sewn | folds and edge.allowance_mm > 0]
    return sum(edge.length_mm for edge in edges) * times_there(made, interfacing)


def _players(pattern: Pattern, seam: Seam) -> set[str]:
    plays = {f"as:{role.role}": [play.piece for play in role.plays] for role in pattern.roles}
    return {piece for part in (*seam.join, *seam.to) for piece in plays.get(part.piece, [part.piece])}
