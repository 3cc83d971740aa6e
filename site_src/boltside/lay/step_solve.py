"""Striped or checked cloth: who makes a lay in step, in each way of laying, and how is it stored?"""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from .bounds import shortest_possible_mm
from .model import Lay, LayError, LayRequest, Placement, Quality, Repeat, SolveFailed, check_widths
from .spread_bounds import shortest_spread_mm
from .spread_in_step import solve_in_step
from .spread_middle import check_middle_widths
from .spread_model import Spread, SpreadLay, folded_over, plain, to_the_middle
from .spread_part import fold_overs
from .spread_search import SPREAD_SEED
from .spread_stored import plain_placements, stored_lay

STEP_SOLVER: Final = "bottom-left in step"
STEP_SOLVER_VERSION: Final = "1"
"""Counts up when the search changes, so that stored lays of older searches are made again."""

STEP_TRIALS_OF: Final[dict[Quality, int]] = {"full": 500, "everyday": 150, "draft": 10}
"""Lays tried by quality. Nine pieces of Ferrylight take up to 5 s of computing; more than twice as many trials found
1.4 % at most."""

MOST_FOLDS: Final = 4
"""Ways to fold cloth over in part that are tried, those with the least bounds; they share the trials."""


def step_stop_rule(quality: Quality) -> str:
    """The stop rule as it is recorded with each lay."""
    return f"seed {SPREAD_SEED}; trials {STEP_TRIALS_OF[quality]}; folds {MOST_FOLDS}"


def solve_in_step_with(request: LayRequest, repeat: Repeat, quality: Quality, *, enough_mm: float = 0.0) -> Lay:
    """Make a lay whose marks are in step with the repeat.

    Arguments: the request, whose repeat this is; the quality; the length that is short enough to stop at.
    Raises: TooWide, LayError where the folds or the marks on them can't be in step, SolveFailed.
    """
    if request.way == "flat" or request.way == "folded":
        check_widths(request)
        spreads: Sequence[Spread] = [plain(request.bolt_width_mm, request.way)]
        bound_mm = shortest_possible_mm(request)
    elif request.way == "middle":
        check_middle_widths(request)
        spreads = [to_the_middle(request.bolt_width_mm)]
        bound_mm = shortest_spread_mm(request.items, request.bolt_width_mm, "middle", one_way=True)
    else:
        halved = folded_over(request.bolt_width_mm, request.bolt_width_mm / 2)
        spreads = [halved, *(spread for _, spread in fold_overs(request)[: MOST_FOLDS - 1])]
        bound_mm = shortest_spread_mm(request.items, request.bolt_width_mm, "part-folded", one_way=True)
    found: list[SpreadLay] = []
    said = ""
    for spread in spreads:
        best_mm = min((lay.length_mm for lay in found), default=float("inf"))
        if best_mm <= max(bound_mm, enough_mm):
            break
        try:
            found.append(
                solve_in_step(
                    request,
                    spread,
                    repeat,
                    trials=-(-STEP_TRIALS_OF[quality] // len(spreads)),
                    quality=quality,
                    good_mm=max(bound_mm, enough_mm),
                )
            )
        except LayError as error:
            said = said or str(error)
    if not found:
        raise SolveFailed(said or "no way to fold the cloth over in part was found")
    return _kept(min(found, key=lambda lay: lay.length_mm), request, repeat)


def _kept(lay: SpreadLay, request: LayRequest, repeat: Repeat) -> Lay:
    """The lay as it is stored. On cloth folded in half copies are numbered by place, as all such lays are."""
    made = replace(stored_lay(lay), repeat_mm=repeat.lengths_mm)
    if request.way != "folded":
        return replace(made, placements=tuple(sorted(made.placements, key=lambda one: (one.item_id, one.copy))))
    placements: list[Placement] = []
    for one in sorted(plain_placements(lay), key=lambda one: (one.item_id, one.copy)):
        before = sum(other.item_id == one.item_id for other in placements)
        placements.append(replace(one, copy=before))
    return replace(made, placements=tuple(placements))
