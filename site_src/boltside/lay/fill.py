"""In which order do the pieces go down? Bottom-left fill over no-fit polygons, with a local search.

Each piece in turn takes the place where its far end is nearest the first cut end. The search changes the
order and the poses, keeps what is not worse, and stops after a fixed number of trials, so it repeats exactly.
"""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

import pyclipper  # type: ignore[import-untyped]

from .bounds import shortest_fold_chain
from .like_before import orders_of
from .model import Lay, Placement
from .nofit import FINE_PER_MM, NoFitTable, Path, Shape, extent, shape_of
from .outlines import posed, solver_outline
from .slots import Pose, Slot

_ROOM: Final = 1
"""Steps by which the room for a piece is widened, so that a piece as wide as the cloth has room at all."""

_RUNS: Final = 4
"""Runs of the search, each from another first lay; the best of them is taken. See the benchmark."""

_MEMORY: Final = 200
"""A trial is compared with the lay of so many trials ago. Measured: 60 finds less, 1000 is slower."""

_RUNS_LIKE_BEFORE: Final = 2
"""Runs where lays of nearly the same pieces are there to start from: one from the best of these, one from nothing."""

_SHARE_LIKE_BEFORE: Final = 12
"""Such a run makes so many times fewer trials. Measured: within 0.3 % of the long search in the mean."""

_FOUND_AGAIN: Final = 2
"""When so many runs end at the same best length, no further run is made."""

_MOST_KEPT: Final = 30_000
"""Answers kept before they are forgotten: some 100 MB."""

_SAME_LENGTH: Final = FINE_PER_MM // 20
"""Two places whose far ends differ by less than this count as equally far: 0.05 mm."""


@dataclass(frozen=True, kw_only=True)
class Variant:
    """A slot's outline in one pose: its shape, the corner of its box in mm, its size in fine steps."""

    pose: Pose
    shape: Shape
    corner_mm: tuple[float, float]
    length: int
    width: int


@dataclass(frozen=True, kw_only=True)
class _Laid:
    """One piece laid in a trial: which slot, which variant, where (fine steps)."""

    slot: int
    variant: Variant
    x: int
    y: int

    @property
    def end(self) -> int:
        return self.x + self.variant.length


@dataclass(frozen=True, kw_only=True)
class _Wish:
    """What a trial asks of one slot: a variant (None: the best), and which free place it takes.

    ``first`` is the axis that decides (0: least x, towards the first cut end; 1: least or greatest y), ``high``
    prefers the selvedge to the fold.
    """

    variant: int | None = None
    first: int = 0
    high: bool = False


_Order = tuple[int, ...]
_Wishes = tuple[_Wish, ...]


@dataclass(frozen=True, kw_only=True)
class _Trial:
    """An order of slots, a wish for each slot, and what came of it."""

    order: _Order
    wishes: _Wishes
    laid: tuple[_Laid, ...]

    @property
    def length(self) -> int:
        return max(piece.end for piece in self.laid)

    @property
    def rank(self) -> tuple[int, int]:
        """Shorter is better; among equals, the one whose pieces lie nearer the first cut end."""
        return self.length, sum(piece.end * piece.variant.width for piece in self.laid) // FINE_PER_MM


def variants_of(slot: Slot) -> tuple[Variant, ...]:
    """The different shapes that a slot may take; poses that give the same shape are listed once."""
    outline = solver_outline(slot.outline_mm, move_all_edges=False)
    found: dict[Shape, Variant] = {}
    for pose in slot.poses:
        shape, corner_mm = shape_of(posed(outline, turned=pose.turned, mirrored=pose.mirrored))
        length, width = extent(shape)
        found.setdefault(shape, Variant(pose=pose, shape=shape, corner_mm=corner_mm, length=length, width=width))
    return tuple(found.values())


class Filler:
    """Lays slots on cloth of a given usable width; keeps the no-fit polygons of all that it has laid."""

    def __init__(self, slots: Sequence[Slot], usable_width_mm: float, table: NoFitTable) -> None:
        self._slots = slots
        self._variants = [variants_of(slot) for slot in slots]
        self._usable = round(usable_width_mm * FINE_PER_MM)
        self._table = table
        self._known_spots: dict[tuple[object, ...], list[tuple[int, int]]] = {}
        self._longest = sum(max(variant.length for variant in variants) for variants in self._variants)

    def search(
        self, *, trials: int, seed: int, good_enough: Callable[[float], bool], like: Sequence[Lay] = ()
    ) -> tuple[Placement, ...]:
        """The best lay of a fixed number of trials.

        Arguments: the number of trials, the seed of the search, a test on a length in millimetres that ends the search
        early, and finished lays of nearly the same pieces to start from, which make fewer trials enough. Returns one
        placement a slot, in the order of the slots.
        """
        chance = random.Random(seed)
        firsts = self._laid_first(self._starts())
        before = self._laid_first([start for lay in like for start in self._starts_like(lay)])
        runs = _RUNS if trials >= _RUNS * _MEMORY else 1
        each = trials // runs
        if before:
            firsts = [before[0], *firsts]
            runs, each = _RUNS_LIKE_BEFORE, trials // _SHARE_LIKE_BEFORE
        best, times_found = min(firsts, key=lambda trial: trial.rank), 0
        for number in range(runs):
            if good_enough(best.length / FINE_PER_MM):
                break
            found = self._run(firsts[number % len(firsts)], each, chance, best, good_enough)
            if abs(found.length - best.length) <= _SAME_LENGTH:
                times_found += 1
            elif found.length < best.length:
                times_found = 1
            best = min(best, found, key=lambda trial: trial.rank)
            if times_found == _FOUND_AGAIN:
                break
        return self._placements(best)

    def _laid_first(self, starts: Sequence[tuple[_Order, _Wishes]]) -> list[_Trial]:
        """First lays, the best one first."""
        laid = [self._lay(order, wishes, (), None) for order, wishes in starts]
        return sorted((trial for trial in laid if trial is not None), key=lambda trial: trial.rank)

    def _starts_like(self, lay: Lay) -> list[tuple[_Order, _Wishes]]:
        """The orders in which a finished lay's pieces may have gone down, towards the fold or to where they lay.

        Pieces that it does not have go down last, the largest first.
        """
        starts = []
        middle_mm = self._usable / FINE_PER_MM / 2
        for lying, missing in orders_of(self._slots, lay):
            last = sorted(missing, key=lambda n: -self._variants[n][0].length * self._variants[n][0].width)
            order = (*(one.slot for one in lying), *last)
            for to_their_side in (False, True):
                wishes = [_Wish()] * len(self._slots)
                for one in lying:
                    pose = Pose(turned=one.turned, mirrored=one.mirrored)
                    high = to_their_side and (one.low_y + one.high_y) / 2 > middle_mm
                    wishes[one.slot] = _Wish(variant=self._variant_or_any(one.slot, pose), high=high)
                starts.append((order, tuple(wishes)))
        return starts

    def _run(
        self, first: _Trial, trials: int, chance: random.Random, so_far: _Trial, good_enough: Callable[[float], bool]
    ) -> _Trial:
        """One run from a first lay: the best lay it comes upon.

        A change is kept if it is no worse than the lay before it, or than the lay that was current ``_MEMORY``
        trials ago. Early on that lets the search climb out of holes, late it lets nothing worse pass.
        Source: late acceptance hill-climbing (Burke and Bykov 2017, from memory).
        """
        current = best = first
        ago = [first.rank] * _MEMORY
        for number in range(trials):
            if good_enough(min(best.length, so_far.length) / FINE_PER_MM):
                break
            limit = max(current.rank, ago[number % _MEMORY])
            order, wishes = self._changed(current, chance, chance.choice((1, 1, 2)))
            start = current.laid[: _common_start(current, order, wishes)]
            trial = self._lay(order, wishes, start, limit[0])
            if trial is not None and trial.rank <= limit:
                current = trial
                if trial.rank < best.rank:
                    best = trial
            ago[number % _MEMORY] = min(ago[number % _MEMORY], current.rank)
        return best

    def _starts(self) -> list[tuple[_Order, _Wishes]]:
        """Each first order as it is, and again behind the shortest row along the fold."""
        orders = self._first_orders()
        no_wish = (_Wish(),) * len(self._slots)
        starts = [(order, no_wish) for order in orders]
        _, row = shortest_fold_chain(self._slots)
        if row:
            first = [number for number, _ in row]
            wishes = list(no_wish)
            for number, pose in row:
                wishes[number] = _Wish(variant=self._variant_in(number, pose))
            starts += [
                ((*first, *(number for number in order if number not in first)), tuple(wishes)) for order in orders
            ]
        return list(dict.fromkeys(starts))

    def _variant_or_any(self, number: int, pose: Pose) -> int | None:
        """The variant of a pose, or None (the best of all) where this slot may not lie in it."""
        outline = solver_outline(self._slots[number].outline_mm, move_all_edges=False)
        shape, _ = shape_of(posed(outline, turned=pose.turned, mirrored=pose.mirrored))
        shapes = [variant.shape for variant in self._variants[number]]
        return shapes.index(shape) if shape in shapes else None

    def _variant_in(self, number: int, pose: Pose) -> int:
        outline = solver_outline(self._slots[number].outline_mm, move_all_edges=False)
        shape, _ = shape_of(posed(outline, turned=pose.turned, mirrored=pose.mirrored))
        return [variant.shape for variant in self._variants[number]].index(shape)

    def _first_orders(self) -> list[tuple[int, ...]]:
        """Orders a cutter would try: large pieces first, long ones first, wide ones first, the fold first."""
        numbers = range(len(self._slots))
        size = [(variants[0].length, variants[0].width) for variants in self._variants]
        orders = [
            sorted(numbers, key=lambda n: -size[n][0] * size[n][1]),
            sorted(numbers, key=lambda n: -size[n][0]),
            sorted(numbers, key=lambda n: -size[n][1]),
        ]
        fold_first = [sorted(order, key=lambda n: not self._slots[n].on_fold) for order in orders]
        fold_last = [sorted(order, key=lambda n: self._slots[n].on_fold) for order in orders]
        return [tuple(order) for order in (*orders, *fold_first, *fold_last)]

    def _changed(self, current: _Trial, chance: random.Random, changes: int) -> tuple[_Order, _Wishes]:
        order, wishes = list(current.order), list(current.wishes)
        for _ in range(changes):
            what = chance.random()
            if what < 0.35 and len(order) > 1:
                first, second = chance.sample(range(len(order)), 2)
                order[first], order[second] = order[second], order[first]
            elif what < 0.7 and len(order) > 1:
                order.insert(chance.randrange(len(order)), order.pop(chance.randrange(len(order))))
            else:
                slot = chance.randrange(len(wishes))
                wishes[slot] = _Wish(
                    variant=chance.choice((None, *range(len(self._variants[slot])))),
                    first=chance.choice((0, 0, 1)),
                    high=chance.random() < 0.5,
                )
        return tuple(order), tuple(wishes)

    def _lay(
        self,
        order: _Order,
        wishes: _Wishes,
        start: tuple[_Laid, ...],
        limit: int | None,
    ) -> _Trial | None:
        """Lay the slots in this order; None when that can't be done within ``limit``."""
        laid = list(start)
        for slot in order[len(start) :]:
            wish = wishes[slot]
            choices = self._variants[slot] if wish.variant is None else (self._variants[slot][wish.variant],)
            places = [
                place for variant in choices if (place := self._place(slot, variant, wish, laid, limit)) is not None
            ]
            if not places:
                return None
            laid.append(_preferred(places, wish))
        return _Trial(order=order, wishes=wishes, laid=tuple(laid))

    def _place(
        self, slot: int, variant: Variant, wish: _Wish, laid: Sequence[_Laid], limit: int | None
    ) -> _Laid | None:
        far = (self._longest if limit is None else limit) - variant.length
        high = 0 if self._slots[slot].on_fold else self._usable - variant.width
        if far < 0 or high < 0:
            return None
        spots = self._spots(slot, variant, high, laid)
        if not spots or spots[0][0] > far:
            return None
        sign = -1 if wish.high else 1
        if wish.first == 0 or limit is None:
            nearest = spots[0][0]
            x, y = min((spot for spot in spots if spot[0] == nearest), key=lambda spot: sign * spot[1])
        else:
            x, y = min((spot for spot in spots if spot[0] <= far), key=lambda spot: (sign * spot[1], spot[0]))
        return _Laid(slot=slot, variant=variant, x=max(x, 0), y=min(max(y, 0), high))

    def _spots(self, slot: int, variant: Variant, high: int, laid: Sequence[_Laid]) -> list[tuple[int, int]]:
        """Corners of the room that is left for a shape beside what is laid, nearest the first cut end first.

        The search comes back to the same beginnings again and again, so answers are kept. Shapes are told apart by
        the object they are, which is quick and safe while ``_variants`` holds them.
        """
        key = (
            self._slots[slot].on_fold,
            id(variant.shape),
            tuple((id(other.variant.shape), other.x, other.y) for other in laid),
        )
        known = self._known_spots.get(key)
        if known is not None:
            return known
        blocked: list[Path] = []
        for other in laid:
            for path in self._table.paths(other.variant.shape, variant.shape):
                blocked.append([(x + other.x, y + other.y) for x, y in path])
        spots = [(0, 0), (0, high)]
        if blocked:
            clipper = pyclipper.Pyclipper()
            low, top, far = -_ROOM, high + _ROOM, self._longest
            clipper.AddPath([(low, low), (far, low), (far, top), (low, top)], pyclipper.PT_SUBJECT, True)
            clipper.AddPaths(blocked, pyclipper.PT_CLIP, True)
            free = clipper.Execute(pyclipper.CT_DIFFERENCE, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO)
            spots = sorted((max(x, 0), y) for path in free for x, y in path)
        if len(self._known_spots) >= _MOST_KEPT:
            self._known_spots.clear()
        self._known_spots[key] = spots
        return spots

    def _placements(self, trial: _Trial) -> tuple[Placement, ...]:
        placements = {}
        for piece in trial.laid:
            slot = self._slots[piece.slot]
            corner_x, corner_y = piece.variant.corner_mm
            y_mm = 0.0 if slot.on_fold else piece.y / FINE_PER_MM - corner_y
            placements[piece.slot] = Placement(
                item_id=slot.item_id,
                copy=slot.copy,
                x_mm=piece.x / FINE_PER_MM - corner_x,
                y_mm=y_mm,
                turned=piece.variant.pose.turned,
                mirrored=piece.variant.pose.mirrored,
            )
        return tuple(placements[number] for number in range(len(self._slots)))


def _preferred(places: Sequence[_Laid], wish: _Wish) -> _Laid:
    """The place to take among those of the variants."""
    if wish.first == 1:
        return min(places, key=lambda place: (-place.y if wish.high else place.y + place.variant.width, place.end))
    nearest = min(place.end for place in places)
    return min(
        (place for place in places if place.end <= nearest + _SAME_LENGTH),
        key=lambda place: (place.y + place.variant.width, place.end),
    )


def _common_start(current: _Trial, order: _Order, wishes: _Wishes) -> int:
    """How many pieces lie as before, because neither the order nor their wishes changed."""
    for index, slot in enumerate(order):
        if slot != current.order[index] or wishes[slot] != current.wishes[slot]:
            return index
    return len(order)
