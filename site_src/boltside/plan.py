"""Which sets of pieces have to be laid for a pattern, and which length of each cloth is published?"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from pathlib import Path
from typing import Any, Final

from boltside.calculators.conditions import SIZE, holds, names_in_all
from boltside.errors import BoltsideError
from boltside.lay.brackets import CoverPlan, PlanSteps, ReachableSet, plan_cover
from boltside.lay.model import Lay, LayItem, Quality, Way
from boltside.lay.run import LaysFailed, Progress, run_plans
from boltside.lay.store import LayStore, Receipts, StoreDamaged
from boltside.measure.combinations import combinations
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import lay_item
from boltside.measure.model import CutLine, MeasureError
from boltside.pattern import Cloth, Pattern, Shop
from boltside.read.folder import read_patterns
from boltside.read.shop import read_shop
from boltside.spec.sheet import make_sheet

LAYS_NAME: Final = "lays.json"
CACHE_FOLDER: Final = ".cache/boltside"
"""Beside the data folder; never committed."""

WHOLE_MM_SLACK: Final = 1e-6
"""Lengths are rounded up to whole millimetres; so much above a whole one is still that one."""

Lengths = dict[str, dict[str, dict[str, list[list[int]]]]]
"""Way, size, bolt width to pairs of set number and length, in whole mm."""


class LaysMissing(BoltsideError):
    """Lays are missing, stale or wrong: nothing is published."""


@dataclass(frozen=True, kw_only=True)
class PlanKey:
    """Which lays one plan is about; `str` is the name people read."""

    pattern: str
    cloth: str
    way: Way
    size: str
    width_mm: float

    def __str__(self) -> str:
        return f"{self.pattern}, {self.cloth}, {self.way}, size {self.size}, {self.width_mm / 10:g} cm wide"


@dataclass(frozen=True, kw_only=True)
class ClothDemand:
    """What can be asked for of one cloth in one size: the pieces, and the sets of them by choices."""

    items: Mapping[str, LayItem]
    reachable: tuple[ReachableSet, ...]


def cloth_demand(pattern: Pattern, lines: Sequence[CutLine], cloth: str, size: str) -> ClothDemand:
    """The pieces cut from a cloth in a size, and every set of them that some allowed combination of choices asks for.

    Only choices on which these pieces depend are gone through. Raises: MeasureError.
    """
    of_cloth = [line for line in lines if line.cloth == cloth and size in line.made_with]
    names = [name for name in names_in_all(line.when for line in of_cloth) if name != SIZE]
    reachable = []
    for chosen in combinations(pattern, names, size):
        here = {**chosen, SIZE: size}
        ids = frozenset(line.line_id for line in of_cloth if holds(line.when, here))
        reachable.append(ReachableSet(choices=chosen, item_ids=ids))
    return ClothDemand(
        items={line.line_id: lay_item(pattern, line, size) for line in of_cloth}, reachable=tuple(reachable)
    )


def lay_plans(pattern: Pattern) -> Iterator[tuple[PlanKey, PlanSteps]]:
    """A plan for each cloth, size, way and width of the pattern. Raises: MeasureError."""
    lines = cut_lines(pattern)
    for cloth in pattern.cloths:
        for size in pattern.sizes:
            demand = cloth_demand(pattern, lines, cloth.name, size)
            if not demand.items:
                continue
            for way in ways_of(cloth):
                for width_mm in cloth.widths_mm:
                    key = PlanKey(
                        pattern=pattern.folder, cloth=cloth.name, way=way, size=size, width_mm=width_mm
                    )
                    yield key, plan_cover(
                        demand.items, demand.reachable, bolt_width_mm=width_mm, way=way, one_way=cloth.one_way
                    )


def ways_of(cloth: Cloth) -> tuple[Way, ...]:
    """The ways in which the cloth is laid. Raises: BoltsideError for a way this version does not lay."""
    known: dict[str, Way] = {"flat": "flat", "folded": "folded"}
    unknown = [way for way in cloth.ways if way not in known]
    if unknown:
        raise BoltsideError(f"cloth {cloth.name!r}: this version does not lay {', '.join(unknown)}")
    return tuple(known[way] for way in cloth.ways)


def run_pattern(
    pattern: Pattern,
    folder: Path,
    *,
    cache_dir: Path | None = None,
    quality: Quality = "full",
    only_stored: bool = False,
    verify_all: bool = False,
    workers: int | None = None,
    tell: Callable[[Progress], None] = lambda progress: None,
) -> dict[PlanKey, CoverPlan]:
    """All lays of a pattern, from `lays.json` in its folder and, unless `only_stored`, newly solved.

    Raises: LaysMissing with a sentence for each lay that is not there, MeasureError.
    """
    plans = dict(lay_plans(pattern))
    by_name = {str(key): key for key in plans}
    try:
        results = run_plans(
            {str(key): steps for key, steps in plans.items()},
            store=LayStore(folder / LAYS_NAME),
            receipts=Receipts(cache_dir),
            quality=quality,
            only_stored=only_stored,
            verify_all=verify_all,
            workers=workers,
            tell=tell,
        )
    except (LaysFailed, StoreDamaged) as error:
        raise LaysMissing(str(error)) from error
    return {by_name[name]: result for name, result in results.items()}


def published_lays(pattern: Pattern, results: Mapping[PlanKey, CoverPlan]) -> dict[str, Any]:
    """The lengths that the spec sheet carries: for each set that can be asked for, never growing with the width
    (a lay serves every wider cloth) and never shrinking with the size (the smaller size's figure is raised to).

    Returns: cloth to `sets` and `lengths`, as `boltside.spec.sheet` takes them; lengths rounded up to whole mm.
    """
    published: dict[str, Any] = {}
    for cloth in pattern.cloths:
        plans = {key: plan for key, plan in results.items() if key.cloth == cloth.name}
        if not plans:
            continue
        sets = sorted({ids for plan in plans.values() for ids in plan.covers}, key=sorted)
        lengths: Lengths = {}
        for way in ways_of(cloth):
            floor: dict[tuple[frozenset[str], float], int] = {}
            lengths[way] = {}
            for size in pattern.sizes:
                narrower: dict[frozenset[str], int] = {}
                of_size: dict[str, list[list[int]]] = {}
                for width_mm in sorted(cloth.widths_mm):
                    key = PlanKey(pattern=pattern.folder, cloth=cloth.name, way=way, size=size, width_mm=width_mm)
                    plan = plans.get(key)
                    rows: list[list[int]] = []
                    for number, ids in enumerate(sets):
                        found = [narrower[ids]] if ids in narrower else []
                        if plan is not None and ids in plan.covers:
                            found.append(ceil(plan.covers[ids].length_mm - WHOLE_MM_SLACK))
                        if not found:
                            continue
                        narrower[ids] = min(found)
                        length = max(narrower[ids], floor.get((ids, width_mm), 0))
                        floor[ids, width_mm] = length
                        rows.append([number, length])
                    of_size[f"{width_mm:g}"] = rows
                lengths[way][size] = of_size
        published[cloth.name] = {"sets": [sorted(ids) for ids in sets], "lengths": lengths}
    return published


def drafts_used(results: Mapping[PlanKey, CoverPlan]) -> int:
    """How many published lays are only drafts."""
    lays: list[Lay] = [lay for plan in results.values() for lay in plan.laid.values()]
    return sum(lay.quality == "draft" for lay in lays)


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
        except LaysMissing as error:
            missing.append(short_list(pattern.folder, str(error)))
        except MeasureError as error:
            missing.append(f"{pattern.folder}: {error}")
    if missing:
        raise LaysMissing("\n".join(missing))
    return sheets


def shop_pattern(pattern: Pattern, folder: Path, *, cache_dir: Path | None, shop: Shop | None = None) -> ShopPattern:
    """What a shop needs of one pattern, from the lays stored in `folder` alone. Raises: LaysMissing, MeasureError."""
    results = run_pattern(
        pattern,
        folder,
        cache_dir=cache_dir,
        quality="draft",  # takes a full lay where there is one, else a draft
        only_stored=True,
    )
    sheet = {**make_sheet(pattern, published_lays(pattern, results), shop), "draft_lays": drafts_used(results)}
    return ShopPattern(sheet=sheet, lay_files={})


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
