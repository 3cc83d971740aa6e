"""Both selvedges folded to the middle: what is the shortest lay?"""

from typing import Final

from .model import SELVEDGE_MM, LayRequest, Quality
from .spread_bounds import max_width_mm, shortest_spread_mm
from .spread_model import SpreadLay, TooWideInZone, to_the_middle
from .spread_search import SPREAD_RUNS, SPREAD_SEED, SPREAD_TRIALS, Search

MIDDLE_SOLVER: Final = "bottom-left between two folds"
MIDDLE_SOLVER_VERSION: Final = "1"
"""Counts up when the search changes, so that stored lays of older searches are made again."""


def middle_stop_rule(trials: int = SPREAD_TRIALS) -> str:
    """The stop rule as it is recorded with each lay."""
    return f"seed {SPREAD_SEED}; runs {SPREAD_RUNS}; trials {trials}"


def solve_middle(
    request: LayRequest,
    *,
    seed: int = SPREAD_SEED,
    trials: int = SPREAD_TRIALS,
    quality: Quality = "full",
    enough_mm: float = 0.0,
) -> SpreadLay:
    """Lay pieces on cloth with both selvedges folded to the middle. The request's own way is not looked at.

    Arguments: the request, seed and number of trials of the search, the quality the lay is marked with, the length
    that is short enough to stop at. Raises: :class:`.spread_model.TooWideInZone` before the search;
    :class:`.model.SolveFailed`.
    """
    check_middle_widths(request)
    bound_mm = shortest_spread_mm(request.items, request.bolt_width_mm, "middle", one_way=request.one_way)
    spread = to_the_middle(request.bolt_width_mm)
    search = Search(request, spread, seed=seed, good_mm=max(bound_mm, enough_mm))
    search.go_on(trials, runs=SPREAD_RUNS if trials >= SPREAD_RUNS * 200 else 1)
    return search.lay(quality)


def check_middle_widths(request: LayRequest) -> None:
    """Refuse pieces that are wider than a quarter of the cloth less the selvedge.

    Raises: :class:`.spread_model.TooWideInZone` for the widest piece.
    """
    widest = max(request.items, key=lambda item: (max_width_mm([item]), item.item_id))
    width_mm = max_width_mm([widest])
    usable_mm = request.bolt_width_mm / 4 - SELVEDGE_MM
    if width_mm > usable_mm:
        raise TooWideInZone(
            item_id=widest.item_id,
            width_mm=width_mm,
            usable_mm=max(usable_mm, 0.0),
            narrowest_bolt_mm=4 * (width_mm + SELVEDGE_MM),
            way="middle",
        )
