"""`boltside lay`: solve what is missing, or verify what is stored, and say how it goes."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from boltside.chosen import chosen_patterns
from boltside.lay.brackets import CoverPlan
from boltside.lay.run import Progress
from boltside.plan import LaysMissing, PlanKey, cache_of, run_pattern


def lay_patterns(
    data_dir: Path, *, only: Sequence[str], jobs: int | None, draft: bool, say: Callable[[str], None]
) -> bool:
    """Solve the lays that are missing; whether all are there in the end. Raises: ProblemsFound, MeasureError."""
    fine = True
    for pattern in chosen_patterns(data_dir, only):
        try:
            results = run_pattern(
                pattern,
                data_dir / "patterns" / pattern.folder,
                cache_dir=cache_of(data_dir),
                quality="draft" if draft else "full",
                workers=jobs,
                tell=teller(pattern.folder),
            )
        except LaysMissing as error:
            fine = False
            say(str(error))
        else:
            say(f"{pattern.folder}: {report(results)}")
    return fine


def verify_patterns(data_dir: Path, *, only: Sequence[str], say: Callable[[str], None]) -> bool:
    """Check every stored lay against the outlines, receipts or not; whether all are right and none is missing."""
    fine = True
    for pattern in chosen_patterns(data_dir, only):
        try:
            results = run_pattern(
                pattern,
                data_dir / "patterns" / pattern.folder,
                quality="draft",
                only_stored=True,
                verify_all=True,
            )
        except LaysMissing as error:
            fine = False
            say(str(error))
        else:
            say(f"{pattern.folder}: every lay is there and right; {report(results)}")
    return fine


def report(results: Mapping[PlanKey, CoverPlan]) -> str:
    """How many sets were laid, how many covered, and the most that covering costs."""
    laid = sum(len(plan.laid) for plan in results.values())
    drafts = sum(lay.quality == "draft" for plan in results.values() for lay in plan.laid.values())
    asked = sum(len(plan.covers) for plan in results.values())
    covered = sum(len(plan.covers.keys() - plan.laid.keys()) for plan in results.values())
    dearest = max((plan.largest_cost_mm for plan in results.values()), default=0.0)
    too_wide = sum(len(plan.too_wide) for plan in results.values())
    parts = [
        f"{laid} sets laid" + (f" ({drafts} of them drafts)" if drafts else ""),
        f"{asked} can be asked for, {covered} of them covered by a larger set at a cost of {dearest:.0f} mm at most",
    ]
    if too_wide:
        parts.append(f"{too_wide} do not fit between the selvedges")
    return "; ".join(parts)


def teller(name: str) -> Callable[[Progress], None]:
    """Progress on one moving line where a person watches, on a line now and then elsewhere."""
    moving = sys.stderr.isatty()
    told = 0.0
    every_s = 30.0

    def tell(progress: Progress) -> None:
        nonlocal told
        done = progress.finished == progress.expected
        if moving:
            end = "\n" if done else ""
            print(f"\r\033[K{name}: {progress}", end=end, file=sys.stderr, flush=True)
        elif done or progress.elapsed_s - told >= every_s:
            told = progress.elapsed_s
            print(f"{name}: {progress}", file=sys.stderr, flush=True)

    return tell
