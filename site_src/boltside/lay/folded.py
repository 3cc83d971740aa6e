"""Folded cloth: what is the shortest lay, with halves pinned to the fold?"""

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from .bounds import shortest_possible_mm
from .fill import Filler
from .model import Lay, LayRequest, Quality, SolveFailed, check_widths, usable_width_mm, width_on_cloth_mm
from .nofit import NoFitTable
from .nudge import Nudger
from .settle import fits_across, settled
from .slots import slots_of

SOLVER: Final = "bottom-left"
SOLVER_VERSION: Final = "2"
"""Counts up when the search changes, so that stored lays of older searches are made again."""

TRIALS: Final = 48_000
"""Lays tried before the best is taken, where no finished lay is there to start from. See the benchmark."""

EVERYDAY_TRIALS: Final = 12_000
"""As above, for a quick start. Tried on five lays of Ferrylight: 0.1 % longer in the mean, 0.5 % at most."""

DRAFT_TRIALS: Final = 10

TRIALS_OF: Final[dict[Quality, int]] = {"full": TRIALS, "everyday": EVERYDAY_TRIALS, "draft": DRAFT_TRIALS}
NUDGES_OF: Final[dict[Quality, int]] = {"full": 2_000, "everyday": 500, "draft": 0}
"""Moves across the cloth at the end: see :mod:`.nudge`. Tried on 24 lays of the demo: 500 moves took off 0.9 mm in the
mean, 2,000 moves 1.0 mm, 8,000 moves hardly more. 500 take 0.3 s, 2,000 take 0.5 s."""

SEED: Final = 1

_SPARE_MM: Final = 0.1
"""Where a stack fills the cloth so exactly that rounding pushes it over the selvedge, search again on cloth this
much narrower."""

_AT_BOUND_MM: Final = 0.3
"""A lay this near to the bound is taken: settling takes out most of the rest, and no ruler shows what is left."""


KEPT_STOP: Final[dict[Quality, str]] = {
    quality: f"seed {SEED}; trials {trials}" for quality, trials in TRIALS_OF.items()
}
"""The stop rules of lays before they were nudged, which stay in their keys: such a lay is at most 1 % longer."""


def stop_rule(quality: Quality = "full") -> str:
    """The stop rule as it is recorded with each lay."""
    nudges = NUDGES_OF[quality]
    return KEPT_STOP[quality] + (f"; nudges {nudges}" if nudges else "")


@lru_cache(maxsize=1)
def _table() -> NoFitTable:
    """One table for a process: pieces come again in other sets, widths, ways and with nap."""
    return NoFitTable()


def solve_by_filling(
    request: LayRequest,
    *,
    seed: int = SEED,
    trials: int | None = None,
    quality: Quality = "full",
    enough_mm: float = 0.0,
    like: Sequence[Lay] = (),
) -> Lay:
    """Lay pieces by bottom-left fill: on folded cloth, or a quick draft on flat cloth.

    Arguments: the request, the seed and number of trials of the search (as many as the quality has), the quality the
    lay is marked with, the length that is short enough to stop at, if it is above the bound, and finished lays of
    nearly the same pieces.
    Raises: :class:`.model.TooWide` before the search; :class:`.model.SolveFailed`.
    """
    check_widths(request)
    trials = TRIALS_OF[quality] if trials is None else trials
    slots = slots_of(request)
    usable_mm = usable_width_mm(request.bolt_width_mm, request.way)
    good_mm = max(shortest_possible_mm(request), enough_mm) + _AT_BOUND_MM
    table = _table()
    widest_mm = max(width_on_cloth_mm(item, request.way) for item in request.items)
    for spare_mm in (0.0, _SPARE_MM):
        filler = Filler(slots, max(usable_mm - spare_mm, widest_mm), table)
        placements = filler.search(
            trials=trials, seed=seed, good_enough=lambda length_mm: length_mm <= good_mm, like=like
        )
        length_mm, settled_placements = settled(slots, placements, usable_mm)
        if fits_across(slots, settled_placements, usable_mm):
            if length_mm > good_mm and NUDGES_OF[quality]:
                nudger = Nudger(slots, usable_mm, table)
                moved = nudger.nudged(placements, moves=NUDGES_OF[quality], seed=seed, enough_mm=good_mm)
                moved_mm, moved = settled(slots, moved, usable_mm)
                if moved_mm < length_mm and fits_across(slots, moved, usable_mm):
                    length_mm, settled_placements = moved_mm, moved
            return Lay(
                length_mm=length_mm,
                placements=settled_placements,
                way=request.way,
                bolt_width_mm=request.bolt_width_mm,
                one_way=request.one_way,
                quality=quality,
            )
    raise SolveFailed("the search's lay reaches beyond the selvedges")
