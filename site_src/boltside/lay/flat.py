"""Flat cloth: what is the shortest lay? The only file that knows the packing library (spyrrow).

The library reports as it goes. The lay is taken from the reports alone, up to a fixed number of failed
attempts to get shorter: that repeats exactly on every machine, which a time budget does not.
"""

import threading
import time
from importlib.metadata import version
from typing import Final

import spyrrow

from .bounds import shortest_possible_mm
from .folded import solve_by_filling
from .model import Lay, LayRequest, Placement, Quality, SolveFailed, check_widths, usable_width_mm
from .outlines import posed, solver_outline
from .settle import fits_across, settled
from .slots import Slot, slots_of

SOLVER: Final = "spyrrow"
SOLVER_VERSION: Final = version("spyrrow")

STOP_AT_FAILURES: Final = 2
"""Take the best lay found before the solver has failed this often to get shorter. See the benchmark."""

EVERYDAY_FAILURES: Final = 1
"""As above, for a quick start. Tried on seven lays of Ferrylight: 0.9 % longer in the mean, 3.6 % at most."""

FAILURES_OF: Final[dict[Quality, int]] = {"full": STOP_AT_FAILURES, "everyday": EVERYDAY_FAILURES}

NEAR_BOUND: Final = 1.003
"""A lay within this factor of the shortest possible length is taken at the first failure: three lays in four reach
the bound there, in a tenth of the time, and settling takes out the rest. See the benchmark."""

SEEDS: Final = (1,)
"""Fixed, so that the same pieces give the same lay."""

WIDTH_ALLOWANCE: Final = 1.001
"""The library keeps pieces a little apart; this much more width lets pieces in that fit exactly. Measured."""

_LONGEST_SOLVE_S: Final = 3600
"""The library wants a time budget; this one is never reached, the worker's time-out comes first."""

_POLL_S: Final = 0.005


def stop_rule(failures: int = STOP_AT_FAILURES) -> str:
    """The stop rule as it is recorded with each lay."""
    seeds = ",".join(map(str, SEEDS))
    return f"seeds {seeds}; failures {failures}, {failures - 1} within {NEAR_BOUND} of the bound; early termination"


def solve_flat(
    request: LayRequest, *, seed: int = SEEDS[0], quality: Quality = "full", enough_mm: float = 0.0
) -> Lay:
    """Lay pieces on flat cloth.

    Arguments: the request, the solver's seed, the quality, which says at how many failures to stop, and the length
    that is short enough to stop one failure earlier, if it is above the bound. Returns the lay.
    The library's thread goes on after the lay is taken and can't be stopped: call this only in a worker
    process that ends afterwards.

    Raises: :class:`.model.TooWide` before the solver starts; :class:`.model.SolveFailed`.
    """
    check_widths(request)
    slots = slots_of(request)
    usable_mm = usable_width_mm(request.bolt_width_mm, request.way)
    enough_mm = max(shortest_possible_mm(request), enough_mm) * NEAR_BOUND
    for strip_mm in (usable_mm * WIDTH_ALLOWANCE, usable_mm):
        try:
            placements = _solve(slots, strip_mm, seed, FAILURES_OF[quality], enough_mm)
        except SolveFailed:
            continue
        length_mm, placements = settled(slots, placements, usable_mm)
        if fits_across(slots, placements, usable_mm):
            return Lay(
                length_mm=length_mm,
                placements=placements,
                way=request.way,
                bolt_width_mm=request.bolt_width_mm,
                one_way=request.one_way,
                quality=quality,
            )
    # The library gives up on pieces that are all but as wide as the cloth. The other search does not.
    return solve_by_filling(request, quality=quality)


def solve_long(request: LayRequest, *, seed: int, budget_s: int) -> tuple[float, int]:
    """The library left to itself for a time, as a reference: length in millimetres and number of its reports.

    Arguments: the request, the seed, the time budget in seconds. Raises: :class:`.model.SolveFailed`.
    """
    slots = slots_of(request)
    usable_mm = usable_width_mm(request.bolt_width_mm, request.way)
    for strip_mm in (usable_mm * WIDTH_ALLOWANCE, usable_mm):
        instance, kinds = _instance(slots, strip_mm)
        queue = spyrrow.ProgressQueue()
        config = spyrrow.StripPackingConfig(
            early_termination=False, num_workers=1, seed=seed, total_computation_time=budget_s
        )
        solution = instance.solve(config, queue)
        length_mm, placements = settled(slots, _placements(slots, kinds, solution), usable_mm)
        if fits_across(slots, placements, usable_mm):
            return length_mm, len(queue.drain())
    raise SolveFailed("the solver's lay reaches beyond the selvedges")


def _solve(
    slots: tuple[Slot, ...], strip_mm: float, seed: int, failures: int, enough_mm: float
) -> tuple[Placement, ...]:
    instance, kinds = _instance(slots, strip_mm)
    config = spyrrow.StripPackingConfig(
        early_termination=True, num_workers=1, seed=seed, total_computation_time=_LONGEST_SOLVE_S
    )
    return _placements(slots, kinds, _best_before(instance, config, failures, enough_mm))


_Kinds = dict[tuple[str, bool], list[Slot]]
"""Slots of one item in one hand, which the library may exchange among each other."""


def _instance(slots: tuple[Slot, ...], strip_mm: float) -> tuple[spyrrow.StripPackingInstance, _Kinds]:
    kinds: _Kinds = {}
    for slot in slots:
        kinds.setdefault((slot.item_id, slot.poses[0].mirrored), []).append(slot)
    items = []
    for number, ((_, mirrored), same) in enumerate(kinds.items()):
        outline = posed(solver_outline(same[0].outline_mm, move_all_edges=True), turned=False, mirrored=mirrored)
        angles = [180.0 if pose.turned else 0.0 for pose in same[0].poses]
        items.append(spyrrow.Item(str(number), list(outline), len(same), angles))
    return spyrrow.StripPackingInstance("lay", strip_mm, items), kinds


def _placements(
    slots: tuple[Slot, ...], kinds: _Kinds, best: spyrrow.StripPackingSolution
) -> tuple[Placement, ...]:
    waiting = [list(same) for same in kinds.values()]
    placements: dict[tuple[str, int], Placement] = {}
    for placed in sorted(best.placed_items, key=lambda item: (int(item.id), item.translation)):
        slot = waiting[int(placed.id)].pop(0)
        placements[slot.item_id, slot.copy] = Placement(
            item_id=slot.item_id,
            copy=slot.copy,
            x_mm=placed.translation[0],
            y_mm=placed.translation[1],
            turned=round(placed.rotation) % 360 == 180,
            mirrored=slot.poses[0].mirrored,
        )
    return tuple(placements[slot.item_id, slot.copy] for slot in slots)


def _best_before(
    instance: spyrrow.StripPackingInstance, config: spyrrow.StripPackingConfig, failures: int, enough_mm: float
) -> spyrrow.StripPackingSolution:
    """The shortest lay reported before the given number of failures, or the final one if it ends earlier.

    A lay no longer than ``enough_mm`` is taken one failure earlier; where one is all, as soon as it is reported.
    """
    queue = spyrrow.ProgressQueue()
    ended: list[spyrrow.StripPackingSolution | str] = []

    def run() -> None:
        try:
            ended.append(instance.solve(config, queue))
        except BaseException as error:  # the library's panics are not Exceptions
            ended.append(str(error))

    threading.Thread(target=run, daemon=True).start()
    best: spyrrow.StripPackingSolution | None = None
    failed = 0
    while True:
        over = bool(ended)
        for kind, solution in queue.drain():
            if kind == spyrrow.ReportType.ExplInfeas:
                failed += 1
                if best is not None and (failed >= failures or best.width <= enough_mm):
                    return best
            elif kind != spyrrow.ReportType.ExplImproving:
                best = solution
                if failures == 1 and best.width <= enough_mm:
                    return best
        if over:
            if isinstance(ended[0], str):
                raise SolveFailed(f"the solver stopped: {ended[0]}")
            return ended[0]
        time.sleep(_POLL_S)
