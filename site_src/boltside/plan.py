"""Which lays has a pattern, and what does a shop get from them?

Longer than 400 lines since repeats, pairs and narrow widths have plans of their own; they are to be split off.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, Final, Literal, get_args

from boltside.calculators.conditions import SIZE, holds, names_in_all
from boltside.errors import BoltsideError, covering_dear
from boltside.lay.brackets import (
    EVERYDAY_COST_MM,
    LARGEST_COST_MM,
    PURCHASE_STEP_MM,
    QUICK_SHARE,
    CoverPlan,
    CoverSearch,
)
from boltside.lay.lattice import AskedSet, ItemSet
from boltside.lay.model import Lay, LayItem, Quality, Repeat, Way
from boltside.lay.remnant_search import RemnantSearch
from boltside.lay.repeat_search import RepeatSearch
from boltside.lay.run import LaysFailed, Progress, run_plans
from boltside.lay.store import LayStore, Receipts, StoreDamaged
from boltside.lay_files import lay_file
from boltside.measure.combinations import combinations
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import lay_item, lay_mark
from boltside.measure.model import CutLine, MeasureError
from boltside.pair_lay_files import pair_lay_file
from boltside.pairs import Pair, PairDemand, pair_demand, pair_key, pair_words, search_for_pair
from boltside.pattern import Cloth, ClothRepeat, Pattern, Shop
from boltside.published_lays import Published, published_cloth
from boltside.published_pairs import PublishedPairs, published_pairs
from boltside.published_repeats import add_repeat
from boltside.read.folder import read_patterns
from boltside.read.shop import read_shop
from boltside.spec.sheet import make_sheet

LAYS_NAME: Final = "lays.json"
CACHE_FOLDER: Final = ".cache/boltside"
"""Beside the data folder; never committed."""

Profile = Literal["all", "everyday"]
"""How much is laid: everything to within one purchase step, or, for a quick start, to within two."""

LIMIT_MM: Final[dict[Profile, float]] = {"all": LARGEST_COST_MM, "everyday": EVERYDAY_COST_MM}
"""What covering may cost at most."""


class LaysMissing(BoltsideError):
    """Lays are missing, stale or wrong: nothing is published."""


class LaysUnreadable(LaysMissing):
    """A file of lays can't be read or written; solving once more mends nothing."""


@dataclass(frozen=True, kw_only=True)
class PlanKey:
    """Which lays one plan is about; `str` is the name people read."""

    pattern: str
    cloth: str
    size: str

    def __str__(self) -> str:
        return f"{self.pattern}, {self.cloth}, size {self.size}"


@dataclass(frozen=True, kw_only=True)
class RepeatKey:
    """Which lays in step one plan is about; `str` is the name people read.

    >>> str(RepeatKey(of=PlanKey(pattern="quay", cloth="outer", size="92"), repeat="checks-60"))
    'quay, outer, size 92, in step with checks-60'
    """

    of: PlanKey
    repeat: str

    def __str__(self) -> str:
        return f"{self.of}, in step with {self.repeat}"


@dataclass(frozen=True, kw_only=True)
class PairKey:
    """Which lays of two garments one plan is about; `str` is the name people read."""

    pattern: str
    cloth: str
    pair: Pair

    def __str__(self) -> str:
        return f"{self.pattern}, {self.cloth}, {pair_words(self.pair)}"


@dataclass(frozen=True, kw_only=True)
class ReachableSet:
    """The pieces that one combination of choices asks for of one cloth, and whether with nap, without, or either."""

    choices: Mapping[str, str]
    item_ids: ItemSet
    naps: frozenset[bool]


@dataclass(frozen=True, kw_only=True)
class ClothDemand:
    """What can be asked for of one cloth in one size: the pieces, the sets of them by choices, and the marks of those
    that have to be in step with stripes and checks."""

    items: Mapping[str, LayItem]
    reachable: tuple[ReachableSet, ...]
    marks: Mapping[str, tuple[float, float]] = field(default_factory=dict)

    def asked(self) -> list[AskedSet]:
        """The sets as the lay engine takes them."""
        return [AskedSet(item_ids=one.item_ids, naps=one.naps) for one in self.reachable]


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


NAPS: Final = {"always": frozenset({True}), "never": frozenset({False}), "ask": frozenset({True, False})}
"""With nap (True) or without, by the word of the cloth."""


def cloth_demand(pattern: Pattern, lines: Sequence[CutLine], cloth: Cloth, size: str) -> ClothDemand:
    """The pieces cut from a cloth in a size, and every set of them that some allowed combination of choices asks for.

    Only choices on which these pieces, or the nap, depend are gone through. Raises: MeasureError.
    """
    of_cloth = [line for line in lines if line.cloth == cloth.name and size in line.made_with]
    conditions = [line.when for line in of_cloth] + [case.when for case in cloth.nap]
    names = [name for name in names_in_all(conditions) if name != SIZE]
    reachable = []
    for chosen in combinations(pattern, names, size):
        here = {**chosen, SIZE: size}
        ids = frozenset(line.line_id for line in of_cloth if holds(line.when, here))
        nap = next(case.nap for case in cloth.nap if holds(case.when, here))
        reachable.append(ReachableSet(choices=chosen, item_ids=ids, naps=NAPS[nap]))
    marks = {line.line_id: lay_mark(pattern, line, size) for line in of_cloth if cloth.repeats}
    return ClothDemand(
        items={line.line_id: lay_item(pattern, line, size) for line in of_cloth},
        reachable=tuple(reachable),
        marks={line_id: mark for line_id, mark in marks.items() if mark is not None},
    )


def demands(pattern: Pattern) -> Iterator[tuple[PlanKey, Cloth, ClothDemand]]:
    """What can be asked for of each cloth in each size. Raises: MeasureError."""
    lines = cut_lines(pattern)
    for cloth in pattern.cloths:
        for size in pattern.sizes:
            demand = cloth_demand(pattern, lines, cloth, size)
            if demand.items and any(one.item_ids for one in demand.reachable):
                yield PlanKey(pattern=pattern.folder, cloth=cloth.name, size=size), cloth, demand


EVERYDAY_WIDTHS_MM: Final = (900, 1100, 1200, 1300, 1400, 1500)
"""At these widths, and at each cloth's usual one, a quick start minds what covering costs. Common practice."""


def pair_demands(
    pattern: Pattern, of_key: Mapping[PlanKey, ClothDemand]
) -> Iterator[tuple[PairKey, Cloth, PairDemand]]:
    """What can be asked for of each cloth for each listed pair of sizes, of which both take that cloth."""
    for cloth in pattern.cloths:
        of_size = {key.size: demand for key, demand in of_key.items() if key.cloth == cloth.name}
        published = {one.item_ids for demand in of_size.values() for one in demand.reachable}
        for pair in pattern.together:
            both = [of_size[size] for size in pair if size in of_size]
            if len(both) < len(pair):
                continue
            reached = [[(one.choices, one.item_ids, one.naps) for one in demand.reachable] for demand in both]
            demand = pair_demand(pair, [demand.items for demand in both], reached, published)
            if demand.naps:
                yield PairKey(pattern=pattern.folder, cloth=cloth.name, pair=pair), cloth, demand


def search_for(cloth: Cloth, demand: ClothDemand, profile: Profile = "all") -> CoverSearch:
    """The search for the lays of one cloth in one size."""
    return CoverSearch(
        demand.items,
        demand.asked(),
        widths_mm=cloth.widths_mm,
        ways=ways_of(cloth),
        limit_mm=LIMIT_MM[profile],
        quick_share=QUICK_SHARE if profile == "all" else 1.0,
        minded_widths_mm=None if profile == "all" else (*EVERYDAY_WIDTHS_MM, cloth.usual_width_mm),
    )


def remnants_name(key: PlanKey) -> str:
    """The name of the plan of the lays on narrow cloth.

    >>> remnants_name(PlanKey(pattern="quay", cloth="outer", size="92"))
    'quay, outer, size 92, remnants'
    """
    return f"{key}, remnants"


def repeat_search_for(cloth: Cloth, demand: ClothDemand, repeat: ClothRepeat) -> RepeatSearch:
    """The search for the lays of one cloth in one size that are in step with a repeat."""
    return RepeatSearch(
        demand.items,
        demand.asked(),
        widths_mm=cloth.widths_mm,
        ways=ways_in_step(cloth, repeat),
        repeat=Repeat(marks=demand.marks, along_mm=repeat.along_mm, across_mm=repeat.across_mm),
    )


def ways_in_step(cloth: Cloth, repeat: ClothRepeat) -> tuple[Way, ...]:
    """The ways of laying in which a repeat can be kept to: an uneven one only in one layer."""
    return tuple(way for way in ways_of(cloth) if repeat.even or way == "flat")


def ways_of(cloth: Cloth) -> tuple[Way, ...]:
    """The ways in which the cloth is laid. Raises: BoltsideError for a way this version does not lay."""
    known: dict[str, Way] = {way: way for way in get_args(Way)}
    unknown = [way for way in cloth.ways if way not in known]
    if unknown:
        raise BoltsideError(f"cloth {cloth.name!r}: this version does not lay {', '.join(unknown)}")
    return tuple(known[way] for way in cloth.ways)


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


def _published(pattern: Pattern, lays: PatternLays) -> dict[str, Published]:
    found: dict[str, Published] = {}
    for cloth in pattern.cloths:
        plans = {key.size: _with_remnants(lays, key) for key in lays.plans if key.cloth == cloth.name}
        if plans:
            items = {key.size: demand.items for key, demand in lays.demands.items() if key.cloth == cloth.name}
            widths_mm = (*cloth.remnant_widths_mm, *cloth.widths_mm)
            found[cloth.name] = published_cloth(plans, ways_of(cloth), widths_mm, items)
        for repeat in cloth.repeats:
            in_step = {
                key.of.size: plan
                for key, plan in lays.repeats.items()
                if (key.of.cloth, key.repeat) == (cloth.name, repeat.name)
            }
            if in_step:
                found[cloth.name] = add_repeat(
                    found[cloth.name], repeat.name, in_step, ways_in_step(cloth, repeat), items,
                    folds_alike=repeat.across_mm is None,
                )  # fmt: skip
    return found


def _with_remnants(lays: PatternLays, key: PlanKey) -> CoverPlan:
    """What was found of a cloth in a size at all widths; the widths of remnants are none of the others."""
    plan, narrow = lays.plans[key], lays.remnants.get(key)
    return plan if narrow is None else replace(plan, covers={**narrow.covers, **plan.covers})


def _published_pairs(
    pattern: Pattern, lays: PatternLays, published: Mapping[str, Published]
) -> dict[str, PublishedPairs]:
    found: dict[str, PublishedPairs] = {}
    for cloth in pattern.cloths:
        plans = {
            key.pair: (lays.pair_demands[key], plan)
            for key, plan in lays.pair_plans.items()
            if key.cloth == cloth.name
        }
        if plans:
            found[cloth.name] = published_pairs(
                published[cloth.name], plans, sizes=pattern.sizes, ways=ways_of(cloth), widths_mm=cloth.widths_mm
            )
    return found


def published_lays(pattern: Pattern, lays: PatternLays) -> dict[str, Any]:
    """The lengths that the spec sheet carries, by cloth: see :mod:`boltside.published_lays` and
    :mod:`boltside.published_pairs`."""
    published = _published(pattern, lays)
    return _as_json(published, _published_pairs(pattern, lays, published))


def _as_json(published: Mapping[str, Published], pairs: Mapping[str, PublishedPairs]) -> dict[str, Any]:
    """Lengths of sizes and of pairs of sizes, side by side."""
    made = {cloth: one.as_json() for cloth, one in published.items()}
    for cloth, of_pairs in pairs.items():
        for way, by_nap in of_pairs.lengths.items():
            for nap, by_pair in by_nap.items():
                made[cloth]["lengths"][way][nap] |= by_pair
    return made


def lay_files(pattern: Pattern, lays: PatternLays) -> dict[str, dict[str, Any]]:
    """The lays that the published lengths name, for drawings, by `<cloth>.<way>.<size>`, size or pair of sizes."""
    published = _published(pattern, lays)
    return _lay_files(pattern, lays, published, _published_pairs(pattern, lays, published))


def _lay_files(
    pattern: Pattern,
    lays: PatternLays,
    published: Mapping[str, Published],
    pairs: Mapping[str, PublishedPairs],
) -> dict[str, dict[str, Any]]:
    files: dict[str, dict[str, Any]] = {}
    for cloth, of_pairs in pairs.items():
        for (way, pair), answers in of_pairs.lays.items():
            alone = [lays.demands[PlanKey(pattern=pattern.folder, cloth=cloth, size=size)].items for size in pair]
            of_pair = lays.pair_demands[PairKey(pattern=pattern.folder, cloth=cloth, pair=pair)]
            files[f"{cloth}.{way}.{pair_key(pair)}"] = pair_lay_file(
                pattern.folder, cloth, way, of_pair, alone, answers
            )
    for cloth, of_cloth in published.items():
        for (way, size), of_file in of_cloth.lays.items():
            demand = lays.demands[PlanKey(pattern=pattern.folder, cloth=cloth, size=size)]
            repeats = next(one.repeats for one in pattern.cloths if one.name == cloth)
            names: dict[tuple[float | None, float | None], str] = {
                (one.along_mm, one.across_mm): one.name for one in repeats
            }
            files[f"{cloth}.{way}.{size}"] = lay_file(
                pattern.folder, cloth, way, size, demand.items, of_file, marks=demand.marks, repeats=names
            )
    return files


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


@dataclass(frozen=True, kw_only=True)
class ShopPattern:
    """What a shop needs of one pattern: its spec sheet; its lay files, for drawings, by their key
    `<cloth>.<way>.<size>` (plain JSON, never a part of the sheet); and sentences for the designer that do not stop
    a build."""

    sheet: dict[str, Any]
    lay_files: Mapping[str, dict[str, Any]]
    warnings: tuple[str, ...] = ()


def shop_sheets(data_dir: Path) -> list[ShopPattern]:
    """Spec sheets and lay files of all patterns under `data_dir`, from stored lays alone.

    Raises: ProblemsFound (all problems of all patterns), LaysMissing (all missing lays of all patterns).
    """
    sheets: list[ShopPattern] = []
    missing: list[str] = []
    shop = read_shop(data_dir)
    for pattern in read_patterns(data_dir):
        try:
            folder = data_dir / "patterns" / pattern.folder
            sheets.append(shop_pattern(pattern, folder, cache_dir=cache_of(data_dir), shop=shop))
        except LaysUnreadable as error:
            missing.append(f"{pattern.folder}: {error}")
        except LaysMissing as error:
            missing.append(short_list(pattern.folder, str(error)))
        except MeasureError as error:
            missing.append(f"{pattern.folder}: {error}")
    if missing:
        raise LaysMissing("\n".join(missing))
    return sheets


def shop_pattern(pattern: Pattern, folder: Path, *, cache_dir: Path | None, shop: Shop | None = None) -> ShopPattern:
    """What a shop needs of one pattern, from the lays stored in `folder` alone. Raises: LaysMissing, MeasureError."""
    lays = run_pattern(
        pattern,
        folder,
        cache_dir=cache_dir,
        quality="draft",  # takes the best lay of a set and width that is there, be it only a draft
        only_stored=True,
    )
    published = _published(pattern, lays)
    pairs = _published_pairs(pattern, lays, published)
    sheet = {**make_sheet(pattern, _as_json(published, pairs), shop), "draft_lays": drafts_used(lays)}
    files = _lay_files(pattern, lays, published, pairs)
    return ShopPattern(sheet=sheet, lay_files=files, warnings=tuple(dear_warnings(lays)))


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
