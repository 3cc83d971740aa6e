"""Striped or checked cloth: what is the shortest lay found in which all marks are in step, and is it right?"""

import random
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from .model import GRID_PER_MM, LayError, LayItem, LayRequest, Quality, Repeat, SolveFailed
from .spread_model import Spread, SpreadLay, ZonedPlacement
from .spread_repeats import FillerInStep
from .spread_search import SPREAD_SEED, no_fit_table
from .spread_slots import fits, spread_slots

IN_STEP_TRIALS: Final = 4_000
"""Lays tried before the best is taken. Our choice: places in step are few."""

_IN_STEP_MM: Final = 0.021
"""Two marks may be out of step by the rounding of either to the grid of 0.01 mm, and no more."""


def solve_in_step(
    request: LayRequest,
    spread: Spread,
    repeat: Repeat,
    *,
    seed: int = SPREAD_SEED,
    trials: int = IN_STEP_TRIALS,
    quality: Quality = "full",
    good_mm: float = 0.0,
) -> SpreadLay:
    """Lay pieces so that their marks are in step with the cloth's repeat.

    Arguments: the request (its own way is not looked at); how the cloth is spread; the repeat and the marks; seed and
    number of trials; the length that is short enough to stop at. Nothing is turned round, as on one-way cloth.
    Raises: LayError where the folds or the marks on them can't be in step; SolveFailed where no lay is found.
    """
    check_folds(spread, repeat)
    slots = spread_slots(request.items, spread, one_way=True)
    if not fits(slots):
        raise SolveFailed(f"a piece does not fit on {spread.way} cloth {request.bolt_width_mm:.0f} mm wide")
    filler = FillerInStep(slots, spread, no_fit_table(), repeat)
    first = filler.first()
    if first is None:
        raise SolveFailed("no lay was found in which the pieces are in step with the cloth's repeat")
    best = filler.run(
        first, trials=trials, chance=random.Random(seed), good_enough=lambda length_mm: length_mm <= good_mm
    )
    placements = [spread.zones[zone].to_table(local) for _, zone, local in filler.placements(best)]
    rounded = [replace(one, x_mm=round(one.x_mm * GRID_PER_MM) / GRID_PER_MM) for one in placements]
    outlines = {item.item_id: item.outline_mm for item in request.items}
    length_mm = max(one.x_mm + max(x for x, _ in outlines[one.item_id]) for one in rounded)
    return SpreadLay(
        length_mm=round(length_mm * GRID_PER_MM) / GRID_PER_MM,
        placements=tuple(rounded),
        spread=spread,
        one_way=request.one_way,
        quality=quality,
    )


def check_folds(spread: Spread, repeat: Repeat) -> None:
    """Refuse cloth whose two folds can't both lie where the pattern has two equal sides.

    Such lines are half a repeat apart. Source: geometry (two reflections make a shift by twice their distance).
    Raises: LayError.
    """
    folds_mm = [zone.fold_mm for zone in spread.zones if zone.fold is not None]
    if repeat.across_mm is None or len(folds_mm) < 2:
        return
    over_mm = 2 * (max(folds_mm) - min(folds_mm)) % repeat.across_mm
    if min(over_mm, repeat.across_mm - over_mm) > _IN_STEP_MM:
        raise LayError(
            f"folds {max(folds_mm) - min(folds_mm):.1f} mm apart can't both lie in the middle of a pattern "
            f"that repeats every {repeat.across_mm:.1f} mm across"
        )


def out_of_step(items: Sequence[LayItem], lay: SpreadLay, repeat: Repeat) -> list[str]:
    """Marks that are not in step with the first one, as plain sentences; checked on the table's under layer."""
    found = []
    first: tuple[float, float] | None = None
    known = {item.item_id for item in items}
    for one in lay.placements:
        if one.item_id not in repeat.marks or one.item_id not in known:
            continue
        at = _mark_at(one, repeat.marks[one.item_id])
        first = first or at
        for name, repeat_mm, axis in (("along", repeat.along_mm, 0), ("across", repeat.across_mm, 1)):
            if repeat_mm is None:
                continue
            off_mm = (at[axis] - first[axis]) % repeat_mm
            off_mm = min(off_mm, repeat_mm - off_mm)
            if off_mm > _IN_STEP_MM:
                found.append(f"{one.item_id!r} copy {one.copy} is {off_mm:.2f} mm out of step {name} the cloth")
    return found


def _mark_at(one: ZonedPlacement, mark: tuple[float, float]) -> tuple[float, float]:
    """Where a mark lies on the table."""
    x, y = mark[0], -mark[1] if one.mirrored else mark[1]
    return (one.x_mm - x, one.y_mm - y) if one.turned else (one.x_mm + x, one.y_mm + y)
