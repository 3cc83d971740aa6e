"""Do the edges of a chain follow on from each other on the sewn garment?

A chain such as `[front.armhole, back.armhole]` is one line on the garment only if the two pieces are joined where the
edges meet. Only what is surely wrong is told: another seam that ends anywhere at both edges is enough.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise, product

from boltside.measure.model import Garment
from boltside.pattern import EdgePart, Pattern, Seam

AS = "as:"


def broken_links(garment: Garment, seam: Seam, parts: Sequence[EdgePart]) -> list[tuple[EdgePart, EdgePart]]:
    """The neighbours in a chain of the seam that do not follow on from each other.

    Arguments: a garment with the pieces of the chain, the seam, and its `join` or `to`. Edges of one piece follow
    on when they are neighbours round it (or the same edge again); edges of two pieces, and others of one piece, when
    another seam joins the pieces at a neighbour of each.
    """
    broken = []
    for one, next_ in pairwise(parts):
        beside = [neighbours(garment, part) for part in (one, next_)]
        pieces = [garment.piece(part.piece).name for part in (one, next_)]
        if pieces[0] == pieces[1] and next_.edge in beside[0]:
            continue
        sewn = any(
            _joins(garment.pattern, other, (pieces[0], beside[0]), (pieces[1], beside[1]))
            for other in garment.pattern.seams
            if other is not seam
        )
        if not sewn:
            broken.append((one, next_))
    return broken


def neighbours(garment: Garment, part: EdgePart) -> set[str]:
    """The edge of the part and the edges before and after it round the piece. Raises: :class:`MeasureError`."""
    piece = garment.piece(part.piece)
    piece.edge(part.edge)
    names = [edge.name for edge in piece.edges]
    at = names.index(part.edge)
    return {names[at - 1], names[at], names[(at + 1) % len(names)]}


def _joins(pattern: Pattern, seam: Seam, one: tuple[str, set[str]], other: tuple[str, set[str]]) -> bool:
    """True when the seam sews an edge of the one (piece, edges) to one of the other, whichever plays which role."""
    for a, b in ((one, other), (other, one)):
        if any(
            first[0] == a[0] and first[1] in a[1] and second[0] == b[0] and second[1] in b[1]
            for first, second in product(_edges(pattern, seam.join), _edges(pattern, seam.to))
        ):
            return True
    return False


def _edges(pattern: Pattern, parts: Sequence[EdgePart]) -> Iterator[tuple[str, str]]:
    """Piece and edge of each part, for every piece that may play its role."""
    plays = {AS + role.role: [play.piece for play in role.plays] for role in pattern.roles}
    for part in parts:
        for piece in plays.get(part.piece, [part.piece]):
            yield piece, part.edge
