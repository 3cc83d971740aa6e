"""Does a lay on folded cloth get shorter when pieces move across by a few millimetres?

The search puts each piece where it touches others, but a shorter lay may need one that floats between two. So a piece
or two are moved across by chance, all are put down once more, each as near to the first cut end as those before let it
at its place across, and what is not longer is kept. Orders change only as places do, poses not at all.
"""

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from .model import Placement
from .nofit import FINE_PER_MM, NoFitTable, Shape, extent, shape_of
from .outlines import posed, solver_outline
from .slots import Slot

SPREADS_MM: Final = (1.0, 4.0, 12.0)
"""Spreads of the moves across, taken by chance."""

_MOST_KEPT: Final = 50_000
"""Cut no-fit polygons kept before they are forgotten: some 20 MB."""


@dataclass(frozen=True, kw_only=True)
class _Piece:
    """One piece as it lies: its slot, its shape, that shape's corner in the outline, and its place in fine steps."""

    slot: int
    shape: Shape
    corner_mm: tuple[float, float]
    x: int
    y: int

    @property
    def end(self) -> int:
        """Where it ends along the cloth, in fine steps."""
        return self.x + extent(self.shape)[0]


@dataclass(frozen=True, kw_only=True)
class _Contour:
    """The edges of a no-fit polygon that rise or fall across the cloth, in fine steps: one row each."""

    x: NDArray[np.float64]
    y: NDArray[np.float64]
    next_y: NDArray[np.float64]
    slope: NDArray[np.float64]


class Nudger:
    """Moves the pieces of lays of the same slots on the same cloth."""

    def __init__(self, slots: Sequence[Slot], usable_width_mm: float, table: NoFitTable) -> None:
        self._slots, self._usable, self._table = slots, math.floor(usable_width_mm * FINE_PER_MM), table
        self._contours: dict[tuple[int, int], list[_Contour]] = {}
        self._cut: dict[tuple[int, int, int], list[tuple[int, int]]] = {}
        self._shapes: dict[Shape, Shape] = {}

    def nudged(
        self, placements: Sequence[Placement], *, moves: int, seed: int, enough_mm: float
    ) -> tuple[Placement, ...]:
        """The shortest lay that so many moves come upon; with the solver's outlines, so settle it afterwards.

        Arguments: one placement a slot in the order of the slots, the number of moves, the seed, and the length in
        millimetres that is short enough to stop at.
        """
        chance = random.Random(seed)
        pieces = [self._piece(number, placement) for number, placement in enumerate(placements)]
        free = [number for number, slot in enumerate(self._slots) if not slot.on_fold]
        now = best = self._put_down(pieces, None)
        length = shortest = _length(now) if now else 0
        for _ in range(moves if free else 0):
            if now is None or shortest <= enough_mm * FINE_PER_MM:
                break
            tried = list(now)
            for at in chance.sample(free, min(chance.choice((1, 1, 2)), len(free))):
                tried[at] = self._moved(tried[at], chance)
            laid = self._put_down(tried, length)
            if laid is not None:
                now, length = laid, _length(laid)
                if length < shortest:
                    best, shortest = laid, length
        return tuple(placements) if best is None else tuple(
            replace(
                old,
                x_mm=piece.x / FINE_PER_MM - piece.corner_mm[0],
                y_mm=0.0 if slot.on_fold else piece.y / FINE_PER_MM - piece.corner_mm[1],
            )
            for slot, old, piece in zip(self._slots, placements, best, strict=True)
        )  # fmt: skip

    def _piece(self, number: int, placement: Placement) -> _Piece:
        """A piece with the outline that the search sees."""
        outline = solver_outline(self._slots[number].outline_mm, move_all_edges=False)
        shape, corner_mm = shape_of(posed(outline, turned=placement.turned, mirrored=placement.mirrored))
        x, y = (
            round((at + corner) * FINE_PER_MM)
            for at, corner in zip((placement.x_mm, placement.y_mm), corner_mm, strict=True)
        )
        # The same object for the same shape: what is kept about two shapes is found by these.
        shape = self._shapes.setdefault(shape, shape)
        return _Piece(slot=number, shape=shape, corner_mm=corner_mm, x=x, y=y)

    def _moved(self, piece: _Piece, chance: random.Random) -> _Piece:
        """The piece at another place across."""
        highest = max(self._usable - extent(piece.shape)[1], 0)
        move = chance.gauss(0.0, chance.choice(SPREADS_MM)) * FINE_PER_MM
        return replace(piece, y=min(max(round(piece.y + move), 0), highest))

    def _put_down(self, pieces: Sequence[_Piece], limit: int | None) -> list[_Piece] | None:
        """All pieces as near to the cut end as they go, in the order in which they begin; None if beyond the limit."""
        done: list[_Piece] = []
        for piece in sorted(pieces, key=lambda one: (one.x, one.slot)):
            blocked = sorted(
                (other.x + start, other.x + end)
                for other in done
                for start, end in self._blocked(other.shape, piece.shape, piece.y - other.y)
            )
            x = 0
            for start, end in blocked:
                if start >= x:
                    break
                x = max(x, end)
            piece = replace(piece, x=x)
            if limit is not None and piece.end > limit:
                return None
            done.append(piece)
        return sorted(done, key=lambda one: one.slot)

    def _blocked(self, still: Shape, moving: Shape, across: int) -> list[tuple[int, int]]:
        """Where along the cloth the moving shape would overlap the still one, so far across from it."""
        key = (id(still), id(moving), across)
        known = self._cut.get(key)
        if known is None:
            if len(self._cut) >= _MOST_KEPT:
                self._cut.clear()
            known = self._cut[key] = [
                one for contour in self._contours_of(still, moving) for one in _along(contour, across)
            ]
        return known

    def _contours_of(self, still: Shape, moving: Shape) -> list[_Contour]:
        key = (id(still), id(moving))
        if key not in self._contours:
            self._contours[key] = [_contour(path) for path in self._table.paths(still, moving)]
        return self._contours[key]


def _contour(path: Sequence[tuple[int, int]]) -> _Contour:
    points = np.array(path, dtype=np.float64)
    nexts = np.roll(points, -1, axis=0)
    steep = points[:, 1] != nexts[:, 1]
    points, nexts = points[steep], nexts[steep]
    slope = (nexts[:, 0] - points[:, 0]) / (nexts[:, 1] - points[:, 1])
    return _Contour(x=points[:, 0], y=points[:, 1], next_y=nexts[:, 1], slope=slope)


def _along(contour: _Contour, across: int) -> list[tuple[int, int]]:
    """The stretches of a line along the cloth that lie inside a contour, in whole fine steps, rounded outwards."""
    crossed = (contour.y <= across) != (contour.next_y <= across)
    at = np.sort(contour.x[crossed] + (across - contour.y[crossed]) * contour.slope[crossed])
    return [(math.floor(start), math.ceil(end)) for start, end in zip(at[::2].tolist(), at[1::2].tolist(), strict=True)]


def _length(pieces: Sequence[_Piece]) -> int:
    """Where the last piece ends, in fine steps."""
    return max(piece.end for piece in pieces)
