"""What does a shop get from a pattern's lays? The lengths in its spec sheet, and the files of its drawings."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass, replace
from multiprocessing import get_context
from pathlib import Path
from typing import Any, Final

from boltside.demands import PairKey, PlanKey, ways_in_step, ways_of
from boltside.lay.brackets import Cover, CoverPlan
from boltside.lay.lattice import ItemSet
from boltside.lay.model import Way
from boltside.lay_files import lay_file
from boltside.measure.model import MeasureError
from boltside.pair_lay_files import pair_lay_file
from boltside.pairs import pair_key
from boltside.pattern import Pattern, Shop
from boltside.plan import (
    LAYS_NAME,
    LaysMissing,
    LaysUnreadable,
    PatternLays,
    cache_of,
    dear_warnings,
    drafts_used,
    run_pattern,
    short_list,
)
from boltside.published_lays import Published, published_cloth
from boltside.published_pairs import PublishedPairs, published_pairs
from boltside.published_repeats import add_repeat
from boltside.read.folder import read_patterns
from boltside.read.shop import read_shop
from boltside.spec.sheet import make_sheet


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
    """What was found of a cloth in a size at all widths. Those of remnants are narrower than all others, so a lay made
    for them serves a bolt too, and answers where it is the shorter one."""
    plan, narrow = lays.plans[key], lays.remnants.get(key)
    if narrow is None:
        return plan
    shortest: dict[tuple[Way, bool, ItemSet], Cover] = {}
    for node, cover in narrow.covers.items():
        of = (node.way, node.nap, node.item_ids)
        if of not in shortest or cover.length_mm < shortest[of].length_mm:
            shortest[of] = cover
    covers = {**narrow.covers, **plan.covers}
    for node, cover in plan.covers.items():
        other = shortest.get((node.way, node.nap, node.item_ids))
        if other is not None and other.length_mm < cover.length_mm:
            covers[node] = other
    return replace(plan, covers=covers)


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
    shop, cache_dir = read_shop(data_dir), cache_of(data_dir)
    tasks = [(pattern, data_dir / "patterns" / pattern.folder, cache_dir, shop) for pattern in read_patterns(data_dir)]
    made = _side_by_side(tasks) or [_made(*task) for task in tasks]
    missing = [one for one in made if isinstance(one, str)]
    if missing:
        raise LaysMissing("\n".join(missing))
    return [one for one in made if isinstance(one, ShopPattern)]


_Task = tuple[Pattern, Path, Path, Shop]

_MANY_BYTES: Final = 500_000
"""Stored lays of this size take longer to read than processes take to start."""


def _side_by_side(tasks: Sequence[_Task]) -> list[ShopPattern | str]:
    """What becomes of each task, worked out in a process for each core; nothing where that does not pay or can't be."""
    sizes = [file.stat().st_size if (file := task[1] / LAYS_NAME).exists() else 0 for task in tasks]
    workers = min(os.cpu_count() or 1, len(tasks))
    if workers < 2 or sum(sizes) < _MANY_BYTES:
        return []
    # Begun afresh: a copy of a process that has threads may stand still.
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        try:
            largest_first = sorted(range(len(tasks)), key=lambda at: -sizes[at])
            waiting = {at: pool.submit(_made, *tasks[at]) for at in largest_first}
            return [waiting[at].result() for at in range(len(tasks))]
        except (BrokenProcessPool, OSError):
            return []


def _made(pattern: Pattern, folder: Path, cache_dir: Path, shop: Shop) -> ShopPattern | str:
    """What a shop needs of one pattern, or the sentences that say what is missing."""
    try:
        return shop_pattern(pattern, folder, cache_dir=cache_dir, shop=shop)
    except LaysUnreadable as error:
        return f"{pattern.folder}: {error}"
    except LaysMissing as error:
        return short_list(pattern.folder, str(error))
    except MeasureError as error:
        return f"{pattern.folder}: {error}"


def shop_pattern(pattern: Pattern, folder: Path, *, cache_dir: Path | None, shop: Shop | None = None) -> ShopPattern:
    """What a shop needs of one pattern, from the lays stored in `folder` alone. Raises: LaysMissing, MeasureError."""
    lays = run_pattern(
        pattern,
        folder,
        cache_dir=cache_dir,
        quality="draft",  # takes the best lay of a set and width that is there, be it only a draft
        only_stored=True,
    )
    return shop_of_lays(pattern, lays, shop)


def shop_of_lays(pattern: Pattern, lays: PatternLays, shop: Shop | None = None) -> ShopPattern:
    """As :func:`shop_pattern`, from lays that are at hand."""
    published = _published(pattern, lays)
    pairs = _published_pairs(pattern, lays, published)
    sheet = {**make_sheet(pattern, _as_json(published, pairs), shop), "draft_lays": drafts_used(lays)}
    files = _lay_files(pattern, lays, published, pairs)
    return ShopPattern(sheet=sheet, lay_files=files, warnings=tuple(dear_warnings(lays)))
