"""How good are lays on folded cloth? `python tests/folded_quality.py [COUNT] [SECONDS]`, on stored lays.

Draws full lays of every folded way by a fixed seed from all patterns, the same number of each way as far as there are
so many. Where a bound that nothing can beat is within `AT_BOUND_MM`, the lay is as short as can be. The rest, folded
once, is laid again by a search that shares nothing with the engine (`other_solvers.py`), for so many seconds of
processor time each; for the other ways there is no second method here, and the distance to the bound is told.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from long_solves import solved_apart
from other_solvers import places
from shapely import Polygon

from boltside.lay.bounds import area_mm2, fold_chain_mm, longest_piece_mm, shortest_possible_mm
from boltside.lay.model import Lay, LayRequest, usable_width_mm
from boltside.lay.slots import slots_of
from boltside.lay.spread_bounds import cloth_area_mm2, shortest_spread_mm
from boltside.plan import run_pattern
from boltside.read.folder import read_patterns

DATA = Path(__file__).parents[1] / "data"
SEED, COUNT, SECONDS = 20261126, 20, 60.0
WAYS = ("folded", "middle", "part-folded")
AT_BOUND_MM = 0.3
"""No ruler shows what is left. The search stops as near."""


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """A stored lay, what it was made for, and the length that nothing can beat (mm)."""

    name: str
    request: LayRequest
    lay: Lay
    bound_mm: float

    @property
    def at_bound(self) -> bool:
        """Whether no ruler could tell the lay from the bound."""
        return self.lay.length_mm <= self.bound_mm + AT_BOUND_MM

    @property
    def by_area(self) -> bool:
        """Whether the area is the greatest bound: pieces never fill the cloth, so it is not reached."""
        if self.request.way == "folded":
            slots = slots_of(self.request)
            area = area_mm2(slots) / usable_width_mm(self.request.bolt_width_mm, "folded")
            return area > max(fold_chain_mm(slots), longest_piece_mm(slots))
        return self.bound_mm <= cloth_area_mm2(self.request.items) / (self.request.bolt_width_mm - 30) + 0.01


def bound_mm(request: LayRequest) -> float:
    """The greatest bound of a lay on folded cloth, in mm."""
    if request.way == "middle" or request.way == "part-folded":
        return shortest_spread_mm(request.items, request.bolt_width_mm, request.way, one_way=request.one_way)
    return shortest_possible_mm(request)


def stored() -> dict[str, list[tuple[str, LayRequest, Lay]]]:
    """All full lays by their way."""
    found: dict[str, list[tuple[str, LayRequest, Lay]]] = {way: [] for way in WAYS}
    for pattern in read_patterns(DATA):
        lays = run_pattern(pattern, DATA / "patterns" / pattern.folder, only_stored=True, quality="draft")
        for key, plan in lays.plans.items():
            for node, lay in plan.laid.items():
                if node.way in found and lay.quality == "full":
                    items = tuple(lays.demands[key].items[one] for one in sorted(node.item_ids))
                    request = LayRequest(
                        items=items, bolt_width_mm=lay.bolt_width_mm, way=lay.way, one_way=lay.one_way
                    )
                    found[node.way].append((f"{key}, {node}", request, lay))
    return found


def drawn(count: int) -> list[Drawn]:
    """Lays of each way, by a fixed seed."""
    chance, made = random.Random(SEED), []
    for _, those in stored().items():
        for name, request, lay in chance.sample(those, min(count, len(those))):
            made.append(Drawn(name=name, request=request, lay=lay, bound_mm=bound_mm(request)))
    return made


def again_mm(request: LayRequest, seconds: float) -> float:
    """The length that the second method finds on cloth folded once."""
    nap = "with" if request.one_way else "without"
    what: list[Any] = [
        place
        for item in request.items
        for place in places(Polygon(item.outline_mm), item.item_id, item.mode, item.count, "folded", nap)
    ]
    return solved_apart(what, "folded", usable_width_mm(request.bolt_width_mm, "folded"), seed=SEED, budget_s=seconds)


def main(arguments: Sequence[str]) -> None:
    """Draw, compare, print."""
    count = int(arguments[0]) if arguments else COUNT
    seconds = float(arguments[1]) if len(arguments) > 1 else SECONDS
    lays = drawn(count)
    longer = 0
    for one in lays:
        told = f"{one.lay.length_mm:8.1f} mm, bound {one.bound_mm:8.1f}"
        if one.at_bound:
            told += ", at it"
        elif one.request.way == "folded" and all(item.mode != "single" for item in one.request.items):
            second_mm = again_mm(one.request, seconds)
            longer += second_mm < one.lay.length_mm - AT_BOUND_MM
            told += f", second method {second_mm:8.1f}: {one.lay.length_mm / second_mm - 1:+.2%}"
        print(f"{told}  {one.name}", flush=True)
    for way in WAYS:
        those = [one for one in lays if one.request.way == way]
        ruled = [one for one in those if not one.by_area]
        print(f"{way}: {len(those)} lays, {sum(one.at_bound for one in those)} at the bound; a row along the fold or "
              f"the longest piece rules {len(ruled)}, {sum(one.at_bound for one in ruled)} of them at it")  # fmt: skip
    print(f"longer than by the second method: {longer}")


if __name__ == "__main__":
    main(sys.argv[1:])
