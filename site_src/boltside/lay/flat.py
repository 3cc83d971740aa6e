"""Flat cloth: what is the shortest lay? Which runs of the packing library are made, and which of their lays is taken.

Each run goes up to the library's first failed attempt to get shorter; the shortest lay is taken, with its pieces pushed
together on their true outlines. That repeats exactly on every machine, which a time budget does not.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Final

from .bounds import shortest_possible_mm
from .folded import solve_by_filling
from .model import Lay, LayRequest, Quality, SolveFailed, check_widths, usable_width_mm
from .packing import LIBRARY, LIBRARY_VERSION, Found, Stop, packed, packed_for_a_time
from .settle import fits_across, settled
from .slots import Slot, slots_of

SOLVER: Final = LIBRARY
SOLVER_VERSION: Final = LIBRARY_VERSION

NEAR_BOUND: Final = 1.003
"""A lay within this factor of the shortest possible length needs no further run: settling takes out most of the rest.
See the benchmark."""

AT_BOUND: Final = 1.0005
"""Within this factor of it, it is taken as soon as it is reported: the library's outlines are larger by as much."""

WIDTH_ALLOWANCE: Final = 1.001
"""The library keeps pieces a little apart; this much more width lets pieces in that fit exactly. Measured."""


BARE_SEED: Final = 1
NEVER: Final = 10**9
"""So many failures do not happen."""


@dataclass(frozen=True, kw_only=True)
class FlatRule:
    """How thoroughly a flat lay is looked for: a run with each seed up to the library's first failure, until one is
    near the bound (or another length that is enough) by ``near``; what is as near as ``at_once`` ends a run.

    ``text`` is the rule as it is recorded with each lay; ``rounds`` how often its pieces are pushed from side to side.
    """

    seeds: tuple[int, ...]
    near: float
    at_once: float
    text: str
    rounds: int = 0


FULL_RULE: Final = FlatRule(
    seeds=(1, 2),
    near=NEAR_BOUND,
    at_once=AT_BOUND,
    text=f"seeds 1,2; failures 1; one seed within {NEAR_BOUND} of the bound, at once within {AT_BOUND}; "
    "early termination; rounds 3",
    rounds=3,
)

EVERYDAY_RULE: Final = FlatRule(
    seeds=(1,),
    near=NEAR_BOUND,
    at_once=NEAR_BOUND,
    text=f"seeds 1; failures 1, 0 within {NEAR_BOUND} of the bound; early termination",
)
"""Tried on seven lays of Ferrylight: 0.9 % longer in the mean than full lays of the older rule, 3.6 % at most."""

FIRST_FAILURE: Final = FlatRule(seeds=(1,), near=0.0, at_once=0.0, text="seeds 1; failures 1; early termination")
"""The library stopped at its first failure, nothing else: what the benchmark compares with."""

RULES: Final[dict[Quality, FlatRule]] = {"full": FULL_RULE, "everyday": EVERYDAY_RULE}

KEPT_STOP: Final[dict[Quality, str]] = {
    "full": f"seeds 1; failures 2, 1 within {NEAR_BOUND} of the bound; early termination",
    "everyday": EVERYDAY_RULE.text,
}
"""The stop rules in the keys of flat lays. That of full lays is the one before 26 November 2026: what was made by it
took hours and serves as well, so full lays of either rule are kept under the same keys (:func:`.solve.kept_as`)."""


def solve_flat(
    request: LayRequest, *, quality: Quality = "full", enough_mm: float = 0.0, rule: FlatRule | None = None
) -> Lay:
    """Lay pieces on flat cloth.

    Arguments: the request; the quality, which says by which rule; the length that is short enough to stop at, if it is
    above the bound; a rule of one's own. Call it in a process's main thread.

    Raises: :class:`.model.TooWide` before the solver starts; :class:`.model.SolveFailed`.
    """
    check_widths(request)
    slots = slots_of(request)
    rule = rule or RULES[quality]
    bound_mm = max(shortest_possible_mm(request), enough_mm)
    best: Found | None = None
    for seed in rule.seeds:
        stop = partial(Stop, failures=1, at_once_mm=bound_mm * rule.at_once)
        found = _settled_run(slots, request, seed, stop, rule.rounds)
        if found is None:
            continue
        best = found if best is None else min(best, found, key=lambda one: one[0])
        if best[0] <= bound_mm * rule.near:
            break
    if best is None:
        # The library gives up on pieces that are all but as wide as the cloth. The other search does not.
        return solve_by_filling(request, quality=quality)
    return _lay(request, quality, best)


def _lay(request: LayRequest, quality: Quality, found: Found) -> Lay:
    return Lay(
        length_mm=found[0],
        placements=found[1],
        way=request.way,
        bolt_width_mm=request.bolt_width_mm,
        one_way=request.one_way,
        quality=quality,
    )


def _settled_run(
    slots: tuple[Slot, ...], request: LayRequest, seed: int, stop: Callable[[], Stop], rounds: int
) -> Found | None:
    """What one seed finds, settled; None where the library gives up or its lay reaches beyond the selvedges."""
    usable_mm = usable_width_mm(request.bolt_width_mm, request.way)
    for strip_mm in (usable_mm * WIDTH_ALLOWANCE, usable_mm):
        try:
            _, placements = packed(slots, strip_mm, seed=seed, stop=stop())
        except SolveFailed:
            continue
        length_mm, placements = settled(slots, placements, usable_mm, rounds=rounds)
        if fits_across(slots, placements, usable_mm):
            return length_mm, placements
    return None


def solve_in_reports(request: LayRequest, *, reports: Mapping[int, int]) -> Lay:
    """The shortest of several runs of the library, each up to a number of its reports, settled on the true outlines.

    For many pieces, where the first failure is minutes away. Arguments: the request, and seed to number of reports.
    Raises: :class:`.model.TooWide`; :class:`.model.SolveFailed`.
    """
    check_widths(request)
    slots = slots_of(request)
    runs = [
        _settled_run(slots, request, seed, partial(Stop, failures=NEVER, reports=most), rounds=1)
        for seed, most in reports.items()
    ]
    found = [one for one in runs if one is not None]
    if not found:
        raise SolveFailed("no lay of the packing library fits between the selvedges")
    return _lay(request, "full", min(found, key=lambda one: one[0]))


def bare_length_mm(request: LayRequest, *, stop: Stop) -> float:
    """What the library makes of the outlines as they are, by itself: the length that it says, in millimetres.

    Raises: :class:`.model.SolveFailed`.
    """
    usable_mm = usable_width_mm(request.bolt_width_mm, request.way)
    return packed(slots_of(request), usable_mm, seed=BARE_SEED, stop=stop, as_drawn=True)[0]


def solve_long(request: LayRequest, *, seed: int, budget_s: int) -> tuple[float, int]:
    """The library left to itself for a time, as a reference: length in millimetres and number of its reports.

    Arguments: the request, the seed, the time budget in seconds. Raises: :class:`.model.SolveFailed`.
    """
    slots = slots_of(request)
    usable_mm = usable_width_mm(request.bolt_width_mm, request.way)
    for strip_mm in (usable_mm * WIDTH_ALLOWANCE, usable_mm):
        (_, placements), reports = packed_for_a_time(slots, strip_mm, seed=seed, budget_s=budget_s)
        length_mm, placements = settled(slots, placements, usable_mm)
        if fits_across(slots, placements, usable_mm):
            return length_mm, reports
    raise SolveFailed("the solver's lay reaches beyond the selvedges")
