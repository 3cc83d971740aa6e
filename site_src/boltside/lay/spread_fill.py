"""In which order do the pieces go down on spread cloth? Bottom-left fill in several zones at once.

The same search as :mod:`.fill`, but each piece takes the best place in any zone where it may lie, and a pair may be cut
apart. Zones don't meet, so each is filled in its own measure; they share the length.
"""

import random
from collections.abc import Callable, Sequence
from typing import Final

import pyclipper  # type: ignore[import-untyped]

from .model import Placement
from .nofit import FINE_PER_MM, NoFitTable, Path
from .spread_slots import SpreadSlot
from .spread_starts import changed, starts
from .spread_trial import Choice, Laid, Rows, Trial, Wish, choices_of, preferred

_ROOM: Final = 1
"""Steps by which the room for a piece is widened, so that a piece as deep as its zone has room at all."""

_MEMORY: Final = 200
"""A trial is compared with the lay of so many trials ago, as in :mod:`.fill`."""

_MOST_KEPT: Final = 30_000
"""Answers kept before they are forgotten: some 100 MB."""


class SpreadFiller:
    """Lays slots in zones of given depths; keeps all that it has found out about them.

    Arguments: the slots; how deep each zone is, in millimetres; a table of no-fit polygons.
    """

    def __init__(self, slots: Sequence[SpreadSlot], depths_mm: Sequence[float], table: NoFitTable) -> None:
        self._slots = slots
        self._table = table
        self._choices = [choices_of(slot) for slot in slots]
        self._depths = [
            # A piece that is just as deep as the zone but for rounding has room.
            max(round(depth_mm * FINE_PER_MM), *(choice.variant.width for choice in self._in_zone(zone)), 0)
            for zone, depth_mm in enumerate(depths_mm)
        ]
        self._known_spots: dict[tuple[object, ...], list[tuple[int, int]]] = {}
        self._longest = sum(max(choice.variant.length for choice in choices) for choices in self._choices)

    def _in_zone(self, zone: int) -> list[Choice]:
        return [choice for choices in self._choices for choice in choices if choice.zone == zone]

    def first(self, rows: Rows = ()) -> Trial | None:
        """The best of the first lays (:func:`.spread_starts.starts`); None where something does not fit."""
        trials = [self._lay(order, wishes, (), None) for order, wishes in starts(self._choices, rows)]
        return min((trial for trial in trials if trial is not None), key=lambda trial: trial.rank, default=None)

    def run(self, first: Trial, *, trials: int, chance: random.Random, good_enough: Callable[[float], bool]) -> Trial:
        """The best lay that a run of the search comes upon; late acceptance, as in :mod:`.fill`.

        Arguments: a first lay, the number of trials, the source of chance, a test on a length in millimetres that ends
        the search early.
        """
        current = best = first
        ago = [first.rank] * _MEMORY
        for number in range(trials):
            if good_enough(best.length / FINE_PER_MM):
                break
            limit = max(current.rank, ago[number % _MEMORY])
            order, wishes = changed(current, self._choices, chance, chance.choice((1, 1, 2)))
            start = current.laid[: self._common_start(current, order, wishes)]
            trial = self._lay(order, wishes, start, limit[0])
            if trial is not None and trial.rank <= limit:
                current = trial
                if trial.rank < best.rank:
                    best = trial
            ago[number % _MEMORY] = min(ago[number % _MEMORY], current.rank)
        return best

    def placements(self, trial: Trial) -> list[tuple[int, int, Placement]]:
        """Slot, zone and place in the zone's own measure of all that is laid."""
        found = []
        for piece in trial.laid:
            if piece is None:
                continue
            slot, variant = self._slots[piece.slot], piece.choice.variant
            corner_x, corner_y = variant.corner_mm
            placement = Placement(
                item_id=slot.item_id,
                copy=slot.copy,
                x_mm=piece.x / FINE_PER_MM - corner_x,
                y_mm=0.0 if piece.choice.on_fold else piece.y / FINE_PER_MM - corner_y,
                turned=variant.pose.turned,
                mirrored=variant.pose.mirrored,
            )
            found.append((piece.slot, piece.choice.zone, placement))
        return sorted(found, key=lambda one: one[:2])

    def _lay(
        self, order: tuple[int, ...], wishes: tuple[Wish, ...], start: tuple[Laid | None, ...], limit: int | None
    ) -> Trial | None:
        """Lay the slots in this order; None when that can't be done within ``limit``."""
        laid = list(start)
        for number in order[len(start) :]:
            partner = self._slots[number].partner
            if partner is not None and not wishes[partner].apart:
                laid.append(None)
                continue
            places = [
                place
                for choice in self._wished(number, wishes[number])
                if (place := self._place(number, choice, wishes[number], laid, limit)) is not None
            ]
            if not places:
                return None
            laid.append(preferred(places, wishes[number]))
        return Trial(order=order, wishes=wishes, laid=tuple(laid))

    def _wished(self, number: int, wish: Wish) -> list[Choice]:
        choices = self._choices[number]
        if wish.choice is not None and choices[wish.choice].apart == wish.apart:
            return [choices[wish.choice]]
        return [choice for choice in choices if choice.apart == wish.apart]

    def _place(
        self, number: int, choice: Choice, wish: Wish, laid: Sequence[Laid | None], limit: int | None
    ) -> Laid | None:
        far = (self._longest if limit is None else limit) - choice.variant.length
        high = 0 if choice.on_fold else self._depths[choice.zone] - choice.variant.width
        if far < 0:
            return None
        spots = self._spots(choice, high, laid)
        if not spots or spots[0][0] > far:
            return None
        sign = -1 if wish.high else 1
        if wish.first == 0 or limit is None:
            x, y = min((spot for spot in spots if spot[0] == spots[0][0]), key=lambda spot: sign * spot[1])
        else:
            x, y = min((spot for spot in spots if spot[0] <= far), key=lambda spot: (sign * spot[1], spot[0]))
        return Laid(slot=number, choice=choice, x=max(x, 0), y=min(max(y, 0), high))

    def _spots(self, choice: Choice, high: int, laid: Sequence[Laid | None]) -> list[tuple[int, int]]:
        """Corners of the room that is left in the zone beside what is laid, nearest the first cut end first.

        Answers are kept; shapes are told apart by the object they are, which is safe while ``_choices`` holds them.
        """
        beside = [other for other in laid if other is not None and other.choice.zone == choice.zone]
        key = (
            choice.zone,
            choice.on_fold,
            id(choice.variant.shape),
            *((id(other.choice.variant.shape), other.x, other.y) for other in beside),
        )
        known = self._known_spots.get(key)
        if known is None:
            blocked: list[Path] = [
                [(x + other.x, y + other.y) for x, y in path]
                for other in beside
                for path in self._table.paths(other.choice.variant.shape, choice.variant.shape)
            ]
            if len(self._known_spots) >= _MOST_KEPT:
                self._known_spots.clear()
            known = self._known_spots[key] = self._free(choice, high, blocked)
        return known

    def _free(self, choice: Choice, high: int, blocked: Sequence[Path]) -> list[tuple[int, int]]:
        """Corners of the room outside the blocked places, nearest the first cut end first."""
        if not blocked:
            return [(0, 0), (0, high)]
        clipper = pyclipper.Pyclipper()
        low, top, far = -_ROOM, high + _ROOM, self._longest
        clipper.AddPath([(low, low), (far, low), (far, top), (low, top)], pyclipper.PT_SUBJECT, True)
        clipper.AddPaths(blocked, pyclipper.PT_CLIP, True)
        free = clipper.Execute(pyclipper.CT_DIFFERENCE, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO)
        return sorted((max(x, 0), y) for path in free for x, y in path)

    def _common_start(self, current: Trial, order: tuple[int, ...], wishes: tuple[Wish, ...]) -> int:
        """How many pieces lie as before, because neither the order nor their wishes (nor their partners') changed."""
        for index, number in enumerate(order):
            partner = self._slots[number].partner
            if number != current.order[index] or wishes[number] != current.wishes[number]:
                return index
            if partner is not None and wishes[partner].apart != current.wishes[partner].apart:
                return index
        return len(order)
