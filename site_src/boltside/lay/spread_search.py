"""What is the shortest lay on cloth that is spread in a given way? Runs the search, then pushes the pieces together."""

import random
from functools import lru_cache
from typing import Final

from .model import LayRequest, Placement, Quality, SolveFailed
from .nofit import FINE_PER_MM, NoFitTable
from .settle import fits_across, settled
from .slots import Slot
from .spread_bounds import fold_rows
from .spread_fill import SpreadFiller
from .spread_model import Spread, SpreadLay, ZonedPlacement
from .spread_slots import fits, spread_slots
from .spread_trial import Trial

SPREAD_TRIALS: Final = 12_000
"""Lays tried before the best is taken, in :data:`SPREAD_RUNS` runs; a quarter of what one fold is given."""

SPREAD_TRIALS_OF: Final[dict[Quality, int]] = {"full": SPREAD_TRIALS, "everyday": SPREAD_TRIALS // 4, "draft": 10}
"""The same by quality, in the proportions of folded cloth."""

SPREAD_RUNS: Final = 2
SPREAD_SEED: Final = 1

_SPARE_MM: Final = 0.1
"""Where rounding pushes a stack over the edge of its zone, search again in zones this much less deep."""

_AT_BOUND_MM: Final = 0.3
"""A lay this near to the length that is good enough is taken, as on folded cloth."""


@lru_cache(maxsize=1)
def no_fit_table() -> NoFitTable:
    """One table for a process, as for folded cloth."""
    return NoFitTable()


class Search:
    """A search on one spread, which can be taken up again where it was left.

    Arguments: the request (its own way is not looked at); how the cloth is spread; the seed; the length in
    millimetres that is short enough to stop at; by how much every zone is made less deep.
    Raises: SolveFailed where a piece fits into no zone; callers check the widths before.
    """

    def __init__(
        self,
        request: LayRequest,
        spread: Spread,
        *,
        seed: int = SPREAD_SEED,
        good_mm: float = 0.0,
        spare_mm: float = 0.0,
    ) -> None:
        self.request, self.spread = request, spread
        self._seed, self._good_mm, self._spare_mm = seed, good_mm, spare_mm
        self._slots = spread_slots(request.items, spread, one_way=request.one_way)
        if not fits(self._slots):
            raise SolveFailed(f"a piece does not fit on {spread.way} cloth {request.bolt_width_mm:.0f} mm wide")
        depths_mm = [zone.depth_mm - spare_mm for zone in spread.zones]
        self._filler = SpreadFiller(self._slots, depths_mm, no_fit_table())
        self.rows_mm, rows = fold_rows(self._slots, len(spread.zones))
        first = self._filler.first(rows)
        if first is None:
            raise SolveFailed(f"no first lay was found on {spread.way} cloth {request.bolt_width_mm:.0f} mm wide")
        self._first = self._best = first
        self._chance = random.Random(seed)
        self._trials = 0

    @property
    def length_mm(self) -> float:
        """The length of the best lay so far, before its pieces are pushed together."""
        return self._best.length / FINE_PER_MM

    def go_on(self, trials: int, *, runs: int = 1) -> None:
        """Try so many more lays, in so many runs: the first from the best lay so far, others from the first lay."""
        self._trials += trials
        for number in range(runs):
            if self._enough(self.length_mm):
                break
            start = self._first if number else self._best
            found = self._filler.run(start, trials=trials // runs, chance=self._chance, good_enough=self._enough)
            self._best = min(self._best, found, key=lambda trial: trial.rank)

    def lay(self, quality: Quality = "full") -> SpreadLay:
        """The best lay, pushed together on the true outlines. Raises: SolveFailed."""
        made = self._settled(self._best, quality)
        if made is not None:
            return made
        if self._spare_mm:
            raise SolveFailed("the search's lay reaches beyond a zone of the cloth")
        again = Search(self.request, self.spread, seed=self._seed, good_mm=self._good_mm, spare_mm=_SPARE_MM)
        again.go_on(self._trials)
        return again.lay(quality)

    def _enough(self, length_mm: float) -> bool:
        return length_mm <= max(self._good_mm, self.rows_mm) + _AT_BOUND_MM

    def _settled(self, trial: Trial, quality: Quality) -> SpreadLay | None:
        length_mm = 0.0
        placements: list[ZonedPlacement] = []
        found = self._filler.placements(trial)
        for at, zone in enumerate(self.spread.zones):
            slots: list[Slot] = []
            local: list[Placement] = []
            for number, zone_at, placement in found:
                slot = self._slots[number].in_zones[zone_at]
                if zone_at == at and slot is not None:
                    slots.append(slot)
                    local.append(placement)
            if not slots:
                continue
            zone_mm, settled_local = settled(slots, local, zone.depth_mm)
            if not fits_across(slots, settled_local, zone.depth_mm):
                return None
            length_mm = max(length_mm, zone_mm)
            placements += [zone.to_table(one) for one in settled_local]
        return SpreadLay(
            length_mm=length_mm,
            placements=tuple(sorted(placements, key=lambda one: (one.item_id, one.copy))),
            spread=self.spread,
            one_way=self.request.one_way,
            quality=quality,
        )
