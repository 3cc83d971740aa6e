"""Stripes and checks: which places keep the pieces in step with the cloth's repeat?

A piece carries one *mark*, a notch that has to meet the same spot of the pattern as every other mark. Along the cloth
the places of all marks are then equal but for whole repeats, and with checks across it as well. Where the pattern
begins is free: the first marked piece that is laid settles it, across the cloth a half on the fold does. The flap over
a fold shows the pattern as its mirror image: so the cloth is to be folded along a line that has the same pattern on
either side, and then the upper layer is in step when the under one is.

Nothing is turned round (uneven patterns count as one-way), and pieces are not pushed together afterwards.
"""

from collections.abc import Sequence

from .model import GRID_PER_MM, LayError, Point, Repeat
from .nofit import FINE_PER_MM, NoFitTable, Path
from .outlines import posed
from .spread_fill import SpreadFiller
from .spread_free import free_along, free_at
from .spread_model import Spread
from .spread_slots import SpreadSlot
from .spread_trial import Choice, Laid

Phase = tuple[int | None, int | None]
"""Where marks lie within the repeat along and across the cloth, in fine steps; None: not settled yet, or no repeat."""


class FillerInStep(SpreadFiller):
    """Lays slots in zones so that their marks are in step. Arguments as of the filler; the spread; the repeat."""

    def __init__(self, slots: Sequence[SpreadSlot], spread: Spread, table: NoFitTable, repeat: Repeat) -> None:
        super().__init__(slots, [zone.depth_mm for zone in spread.zones], table)
        self._zones = spread.zones
        self._repeats = tuple(
            None if one is None else round(one * FINE_PER_MM) for one in (repeat.along_mm, repeat.across_mm)
        )
        self._marks = {
            id(choice): _mark_in(choice, repeat.marks[slot.item_id])
            for slot, choices in zip(slots, self._choices, strict=True)
            if slot.item_id in repeat.marks
            for choice in choices
        }
        self._longest += len(slots) * (self._repeats[0] or 0)
        self._on_fold = self._phase_of_halves()

    def each_has_a_place(self) -> bool:
        """Whether each piece could be in step with the halves if it were alone on the cloth with them."""
        return all(any(self._spots(one, self._room(one), ()) for one in choices) for choices in self._choices)

    def _room(self, choice: Choice) -> int:
        """How far across its zone a piece can lie, in fine steps."""
        return 0 if choice.on_fold else self._depths[choice.zone] - choice.variant.width

    def _spots(self, choice: Choice, high: int, laid: Sequence[Laid | None]) -> list[tuple[int, int]]:
        mark = self._marks.get(id(choice))
        if mark is None:
            return super()._spots(choice, high, laid)
        firsts = self._first_places(choice, mark, self._phase(laid))
        blocked: list[Path] = [
            [(x + other.x, y + other.y) for x, y in path]
            for other in laid
            if other is not None and other.choice.zone == choice.zone
            for path in self._table.paths(other.choice.variant.shape, choice.variant.shape)
        ]
        (first_x, first_y), (along, across) = firsts, self._repeats
        if first_x is None and first_y is None:
            return self._free(choice, high, blocked)
        found: list[tuple[int, int]] = []
        if first_x is not None:
            # Along fixed lines across the zone: the ends of each free stretch, in step across if need be.
            for x in range(first_x, self._longest, along or self._longest):
                for low, top in free_at(blocked, x, high):
                    found += [(x, y) for y in _ends_in_step(low, top, first_y, across)]
                if found and all(x > max(point[0] for point in path) for path in blocked):
                    break
        elif first_y is not None:
            for y in range(first_y, high + 1, across or high + 1):
                found += [(x, y) for x in free_along(blocked, y, self._longest)]
        return sorted(found)

    def _phase(self, laid: Sequence[Laid | None]) -> Phase:
        """The phase that the first marked piece in a trial has settled, and across the cloth the halves."""
        for other in laid:
            mark = None if other is None else self._marks.get(id(other.choice))
            if other is not None and mark is not None:
                x, y = other.x + mark[0], self._across(other.choice, other.y + mark[1])
                along, across = self._repeats
                return (None if along is None else x % along, None if across is None else y % across)
        return None, self._on_fold

    def _first_places(self, choice: Choice, mark: tuple[int, int], phase: Phase) -> tuple[int | None, int | None]:
        """The least places of a piece, along the cloth and across its zone, that are in step; None: any will do."""
        (along, across), (phase_x, phase_y) = self._repeats, phase
        x = None if along is None or phase_x is None else (phase_x - mark[0]) % along
        if across is None or phase_y is None:
            return x, None
        zero = self._across(choice, 0)
        sign = -1 if self._zones[choice.zone].fold == "high" else 1
        return x, (sign * (phase_y - zero) - mark[1]) % across

    def _across(self, choice: Choice, y: int) -> int:
        """A place in a zone's own measure as one across the table, in fine steps."""
        zone = self._zones[choice.zone]
        edge = zone.to_mm if zone.fold == "high" else zone.from_mm
        return round(edge * FINE_PER_MM) + (-y if zone.fold == "high" else y)

    def _phase_of_halves(self) -> int | None:
        """Where the marks of halves lie across the cloth: they can't choose. Raises: LayError when they differ."""
        across = self._repeats[1]
        if across is None:
            return None
        found = {
            self._across(choice, self._marks[id(choice)][1]) % across: slot.item_id
            for slot, choices in zip(self._slots, self._choices, strict=True)
            for choice in choices
            if choice.on_fold and id(choice) in self._marks
        }
        if len(found) > 1:
            raise LayError(f"on the fold the marks of {' and '.join(sorted(found.values()))} can't be in step across")
        return next(iter(found), None)


def _ends_in_step(low: int, top: int, first: int | None, repeat: int | None) -> list[int]:
    """The least and the greatest place of a stretch that are whole repeats from the first one, if there are any."""
    if first is None or repeat is None:
        return [low, top]
    least, greatest = low + (first - low) % repeat, top - (top - first) % repeat
    return [least, greatest] if least <= top else []


def _mark_in(choice: Choice, mark: Point) -> tuple[int, int]:
    """A mark from the corner of the shape's box, in fine steps, as the choice has the piece lie."""
    pose = choice.variant.pose
    ((x, y),) = posed((mark,), turned=pose.turned, mirrored=pose.mirrored)
    corner_x, corner_y = choice.variant.corner_mm
    return _fine(x - corner_x), _fine(y - corner_y)


def _fine(length_mm: float) -> int:
    """On the grid of 0.01 mm, in fine steps."""
    return round(length_mm * GRID_PER_MM) * (FINE_PER_MM // GRID_PER_MM)
