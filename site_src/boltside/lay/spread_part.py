"""Folded over only as far as needed, the rest single: how far, and what is the shortest lay?

How far to fold is tried out: as deep as one piece that is cut double, or as two beside each other, or in half. Each
depth that could beat what is there gets a short search, the two most promising ones a long one.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from .folded import solve_by_filling
from .model import SELVEDGE_MM, Lay, LayItem, LayRequest, Quality, SolveFailed, TooWide
from .outlines import signed_area
from .spread_bounds import cloth_area_mm2, first_of, max_width_mm, shortest_spread_mm
from .spread_model import (
    Spread,
    SpreadLay,
    SpreadWay,
    TooWideInZone,
    fold_over_for,
    folded_over,
)
from .spread_search import SPREAD_RUNS, SPREAD_SEED, SPREAD_TRIALS, Search
from .spread_slots import fits, gives_two, spread_slots
from .spread_stored import in_half

PART_SOLVER: Final = "bottom-left beside a fold"
PART_SOLVER_VERSION: Final = "1"
"""Counts up when the search changes, so that stored lays of older searches are made again."""

SHORT_TRIALS: Final = 300
"""Lays tried for each way to fold before the best ones are gone into. Our choice."""

SHORT_TRIALS_OF: Final[dict[Quality, int]] = {"full": SHORT_TRIALS, "everyday": SHORT_TRIALS // 4, "draft": 3}
"""The same by quality."""

MOST_TRIED: Final = 10
"""Ways to fold that get a short search, those with the least bounds."""

GONE_INTO: Final = 2
"""Ways to fold that get a long search."""

_WAY: Final[SpreadWay] = "part-folded"


def part_stop_rule(trials: int = SPREAD_TRIALS, short_trials: int = SHORT_TRIALS) -> str:
    """The stop rule as it is recorded with each lay."""
    return (
        f"seed {SPREAD_SEED}; runs {SPREAD_RUNS}; trials {trials}; depths {MOST_TRIED} of {short_trials}, {GONE_INTO}"
    )


def solve_part_folded(
    request: LayRequest,
    *,
    folded: Lay | None = None,
    seed: int = SPREAD_SEED,
    trials: int = SPREAD_TRIALS,
    short_trials: int = SHORT_TRIALS,
    quality: Quality = "full",
    enough_mm: float = 0.0,
) -> SpreadLay:
    """Lay pieces on cloth that is folded over in part. The request's own way is not looked at.

    Arguments: the request; a finished lay of it on cloth folded in half, which is taken where nothing shorter is found
    (without one it is made, if the pieces fit); seed and trials of the long search, trials of the short ones; the
    quality the lay is marked with; the length that is short enough to stop at. So it is never longer than ``folded``.
    Raises: :class:`.spread_model.TooWideInZone` before the search; :class:`.model.SolveFailed`.
    """
    halved = _in_half(request, folded, seed, trials)
    ways = fold_overs(request)
    if halved is None:
        _refuse_too_wide(request)
    bound_mm = shortest_spread_mm(request.items, request.bolt_width_mm, _WAY, one_way=request.one_way)
    good_mm = max(bound_mm, enough_mm)
    best_mm = halved.length_mm if halved else float("inf")
    searches: list[Search] = []
    for least_mm, spread in ways[:MOST_TRIED]:
        if least_mm >= best_mm or best_mm <= good_mm:
            continue
        try:
            search = Search(request, spread, seed=seed, good_mm=max(good_mm, least_mm))
        except SolveFailed:
            continue
        search.go_on(short_trials)
        searches.append(search)
        best_mm = min(best_mm, search.length_mm)
    searches.sort(key=lambda one: one.length_mm)
    for search in searches[:GONE_INTO]:
        search.go_on(trials, runs=SPREAD_RUNS if trials >= SPREAD_RUNS * 200 else 1)
    found = [_only_as_needed(search.lay(quality), request.items) for search in searches[:GONE_INTO]]
    if halved is not None:
        found.insert(0, replace(halved, quality=quality))
    if not found:
        raise SolveFailed("no way to fold the cloth over in part was found")
    return min(found, key=lambda lay: lay.length_mm)


def fold_overs(request: LayRequest) -> list[tuple[float, Spread]]:
    """Ways to fold the cloth over, less than in half, each with a bound in millimetres of what it can give, the least
    bound first."""
    halves = [max_width_mm([item]) for item in request.items if item.mode == "fold"]
    doubled = sorted(
        width_mm
        for item in request.items
        for width_mm in [max_width_mm([item])] * min(2, sum(_doubles(item, copy) for copy in range(item.count)))
    )
    depths = {*doubled, *(one + other for at, one in enumerate(doubled) for other in doubled[at + 1 :])}
    overs = {
        fold_over_for(depth_mm, request.bolt_width_mm) for depth_mm in depths if depth_mm >= max(halves, default=0)
    }
    found = []
    for over_mm in sorted(overs):
        if over_mm >= request.bolt_width_mm / 2 - 0.01:
            continue
        spread = folded_over(request.bolt_width_mm, over_mm)
        least_mm = _least_mm(request, spread)
        if least_mm is not None:
            found.append((least_mm, spread))
    return sorted(found, key=lambda one: (one[0], one[1].fold_over_mm))


def _doubles(item: LayItem, copy: int) -> bool:
    """Whether a place for this copy makes use of both layers; the second of two copies has no place of its own."""
    return item.mode == "fold" or (copy % 2 == 0 and gives_two(item, copy))


def _least_mm(request: LayRequest, spread: Spread) -> float | None:
    """A bound by area of what a spread can give; None where a piece fits nowhere."""
    slots = spread_slots(request.items, spread, one_way=request.one_way)
    if not fits(slots):
        return None
    bounds = [cloth_area_mm2(request.items) / spread.cloth_mm]
    for at, zone in enumerate(spread.zones):
        bound_to = [
            slot
            for slot in slots
            if slot.partner is None and [n for n, one in enumerate(slot.in_zones) if one is not None] == [at]
        ]
        bounds.append(sum(abs(signed_area(first_of(slot).outline_mm)) for slot in bound_to) / zone.depth_mm)
    return max(bounds)


def _in_half(request: LayRequest, folded: Lay | None, seed: int, trials: int) -> SpreadLay | None:
    """The lay on cloth folded in half, as one on cloth folded over by half its width."""
    if folded is None:
        try:
            folded = solve_by_filling(replace(request, way="folded"), seed=seed, trials=trials)
        except TooWide:
            return None
    return in_half(folded, {item.item_id: item for item in request.items})


def _only_as_needed(lay: SpreadLay, items: Sequence[LayItem]) -> SpreadLay:
    """The same lay with the cloth folded over no further than what lies double needs."""
    outlines = {item.item_id: item.outline_mm for item in items}
    deepest_mm = 0.0
    for one in lay.placements:
        if one.zone == "double":
            sign = -1 if one.turned != one.mirrored else 1
            deepest_mm = max(deepest_mm, one.y_mm + max(sign * y for _, y in outlines[one.item_id]))
    over_mm, now_mm = fold_over_for(deepest_mm, lay.spread.bolt_width_mm), lay.spread.fold_over_mm
    if not deepest_mm or now_mm is None or over_mm >= now_mm:
        return lay
    placements = tuple(
        one if one.zone == "double" else replace(one, y_mm=round(one.y_mm + over_mm - now_mm, 2))
        for one in lay.placements
    )
    return replace(lay, placements=placements, spread=folded_over(lay.spread.bolt_width_mm, over_mm))


def _refuse_too_wide(request: LayRequest) -> None:
    """Refuse a request that fits neither folded in half nor folded over by less.

    Raises: :class:`.spread_model.TooWideInZone` for the widest piece.
    """
    if fold_overs(request):
        return
    widest = max(request.items, key=lambda item: (max_width_mm([item]), item.item_id))
    raise TooWideInZone(
        item_id=widest.item_id,
        width_mm=max_width_mm([widest]),
        usable_mm=request.bolt_width_mm / 2 - SELVEDGE_MM,
        narrowest_bolt_mm=narrowest_part_folded_mm(request.items),
        way=_WAY,
    )


def narrowest_part_folded_mm(items: Sequence[LayItem]) -> float:
    """The narrowest cloth, in millimetres, on which every piece fits, folded in half or over by less.

    Halves need a double zone; of the rest, what is too wide for it lies beside it, between the flap's selvedge and
    the cloth's own.
    """
    halves_mm = max((max_width_mm([item]) for item in items if item.mode == "fold"), default=0.0)
    widths_mm = {item.item_id: max_width_mm([item]) for item in items}
    least_mm = 2 * (max(widths_mm.values()) + SELVEDGE_MM)
    for item in items:
        depth_mm = widths_mm[item.item_id]
        if depth_mm < halves_mm or not any(_doubles(item, copy) for copy in range(item.count)):
            continue
        over_mm = fold_over_for(depth_mm, 4 * least_mm)
        beside_mm = max((width_mm for width_mm in widths_mm.values() if width_mm > depth_mm), default=0.0)
        least_mm = min(least_mm, 2 * over_mm + SELVEDGE_MM + beside_mm)
    return least_mm
