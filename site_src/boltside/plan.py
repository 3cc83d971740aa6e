"""Which lays has a pattern? Those that are stored, and those still to be made."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from boltside.demands import (
    ClothDemand,
    PairKey,
    PlanKey,
    Profile,
    RepeatKey,
    demands,
    pair_demands,
    remnants_name,
    repeat_search_for,
    search_for,
    ways_of,
)
from boltside.errors import BoltsideError, covering_dear
from boltside.lay.brackets import PURCHASE_STEP_MM, CoverPlan, CoverSearch
from boltside.lay.model import Lay, Quality
from boltside.lay.remnant_search import RemnantSearch
from boltside.lay.run import LaysFailed, Progress, run_plans
from boltside.lay.store import LayStore, Receipts, StoreDamaged
from boltside.pairs import PairDemand, search_for_pair
from boltside.pattern import Pattern

LAYS_NAME: Final = "lays.json"

CACHE_FOLDER: Final = ".cache/boltside"
"""Beside the data folder; never committed."""


class LaysMissing(BoltsideError):
    """Lays are missing, stale or wrong: nothing is published."""


class LaysUnreadable(LaysMissing):
    """A file of lays can't be read or written; solving once more mends nothing."""


@dataclass(frozen=True, kw_only=True)
class PatternLays:
    """All lays of a pattern: the demand and what was found, by cloth and size; `remnants`: on narrower cloth; `pair_…`:
    of two garments, by cloth and pair."""

    demands: Mapping[PlanKey, ClothDemand] = field(default_factory=dict)
    plans: Mapping[PlanKey, CoverPlan] = field(default_factory=dict)
    remnants: Mapping[PlanKey, CoverPlan] = field(default_factory=dict)
    repeats: Mapping[RepeatKey, CoverPlan] = field(default_factory=dict)
    pair_demands: Mapping[PairKey, PairDemand] = field(default_factory=dict)
    pair_plans: Mapping[PairKey, CoverPlan] = field(default_factory=dict)

    def all_laid(self) -> list[Lay]:
        """Every lay that is there."""
        whole = (self.plans, self.remnants, self.repeats, self.pair_plans)
        return [lay for plans in whole for plan in plans.values() for lay in plan.laid.values()]


def run_pattern(
    pattern: Pattern,
    folder: Path,
    *,
    profile: Profile = "all",
    cache_dir: Path | None = None,
    quality: Quality = "full",
    only_stored: bool = False,
    verify_all: bool = False,
    workers: int | None = None,
    tell: Callable[[Progress], None] = lambda progress: None,
    note: Callable[[str], None] = lambda sentence: None,
) -> PatternLays:
    """All lays of a pattern, from `lays.json` in its folder and, unless `only_stored`, newly solved.

    Lays are made in the quality named; stored ones of a lower quality are not taken.
    With `only_stored` a lay that would refine what is there is not missed; what nothing serves is.
    `note` is called with a sentence for each stored lay that was not used.
    Raises: LaysMissing with a sentence for each lay that is not there, MeasureError.
    """
    of_key: dict[PlanKey, ClothDemand] = {}
    searches: dict[str, CoverSearch] = {}
    of_repeat: list[RepeatKey] = []
    for key, cloth, demand in demands(pattern):
        of_key[key] = demand
        searches[str(key)] = search_for(cloth, demand, profile)
        if cloth.remnant_widths_mm:
            searches[remnants_name(key)] = RemnantSearch(
                demand.items, demand.asked(), widths_mm=cloth.remnant_widths_mm
            )
        for repeat in cloth.repeats:
            of_repeat.append(RepeatKey(of=key, repeat=repeat.name))
            searches[str(of_repeat[-1])] = repeat_search_for(cloth, demand, repeat)
    of_pair: dict[PairKey, PairDemand] = {}
    for pair_key_, cloth, demand_of_pair in pair_demands(pattern, of_key):
        of_pair[pair_key_] = demand_of_pair
        searches[str(pair_key_)] = search_for_pair(
            demand_of_pair, widths_mm=cloth.widths_mm, ways=ways_of(cloth), full=profile == "all"
        )
    try:
        results = run_plans(
            searches,
            store=LayStore(folder / LAYS_NAME),
            receipts=Receipts(cache_dir),
            quality=quality,
            only_stored=only_stored,
            verify_all=verify_all,
            workers=workers,
            tell=tell,
            note=note,
        )
    except StoreDamaged as error:
        raise LaysUnreadable(str(error)) from error
    except LaysFailed as error:
        raise LaysMissing(str(error)) from error
    return PatternLays(
        demands=of_key,
        plans={key: results[str(key)] for key in of_key},
        remnants={key: results[remnants_name(key)] for key in of_key if remnants_name(key) in results},
        repeats={key: results[str(key)] for key in of_repeat},
        pair_demands=of_pair,
        pair_plans={key: results[str(key)] for key in of_pair},
    )


def drafts_used(lays: PatternLays) -> int:
    """How many lays are only drafts."""
    return sum(lay.quality == "draft" for lay in lays.all_laid())


def everyday_used(lays: PatternLays) -> int:
    """How many lays were made for a quick start."""
    plans = (*lays.plans.values(), *lays.repeats.values(), *lays.pair_plans.values())
    return sum(lay.quality == "everyday" for plan in plans for lay in plan.laid.values())


def dear_warnings(lays: PatternLays) -> list[str]:
    """A warning for each cloth whose covering costs more than a purchase step somewhere."""
    dearest: dict[tuple[str, str], tuple[float, str]] = {}
    for key, plan in lays.plans.items():
        of_cloth = (key.pattern, key.cloth)
        dearest[of_cloth] = max(dearest.get(of_cloth, (0.0, "")), (plan.largest_cost_mm, key.size))
    return [
        covering_dear(
            path=f"patterns/{pattern}/pattern.yaml", pattern=pattern, cloth=cloth, size=size, cost_mm=cost_mm
        ).told
        for (pattern, cloth), (cost_mm, size) in dearest.items()
        if cost_mm > PURCHASE_STEP_MM
    ]


SENTENCES_SHOWN: Final = 8
"""A long list of missing lays is cut here; the first ones and the count say enough."""


def short_list(name: str, text: str) -> str:
    """The first sentences of a list of missing lays, with their number and how to mend them."""
    sentences = text.splitlines()
    more = len(sentences) - SENTENCES_SHOWN
    shown = sentences[:SENTENCES_SHOWN] + ([f"… and {more} more"] if more > 0 else [])
    return "\n".join([*shown, f"{name}: {len(sentences)} lays are not there; run `boltside lay {name}`"])


def cache_of(data_dir: Path) -> Path:
    """Where receipts are kept: beside the data folder, not committed."""
    return data_dir.resolve().parent / CACHE_FOLDER
