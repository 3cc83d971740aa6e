"""`boltside lay`: solve what is missing, or verify what is stored, and say how it goes."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from boltside.chosen import chosen_patterns
from boltside.demands import Profile
from boltside.lay.brackets import LARGEST_COST_MM
from boltside.lay.model import Quality
from boltside.lay.run import Progress
from boltside.plan import (
    SENTENCES_SHOWN,
    LaysMissing,
    PatternLays,
    cache_of,
    dear_warnings,
    drafts_used,
    everyday_used,
    run_pattern,
)


def lay_patterns(
    data_dir: Path,
    *,
    only: Sequence[str],
    jobs: int | None,
    draft: bool,
    say: Callable[[str], None],
    everyday: bool = False,
) -> bool:
    """Solve the lays that are missing; whether all are there in the end.

    Arguments: the folder of the data; only these patterns; how many at once; drafts only; where to say what was done;
    `everyday` for few lays, quickly made, which a build can do with. Raises: ProblemsFound, MeasureError.
    """
    profile: Profile = "everyday" if everyday else "all"
    quality: Quality = "draft" if draft else "everyday" if everyday else "full"
    fine = True
    for pattern in chosen_patterns(data_dir, only):
        notes: list[str] = []
        try:
            results = run_pattern(
                pattern,
                data_dir / "patterns" / pattern.folder,
                profile=profile,
                cache_dir=cache_of(data_dir),
                quality=quality,
                workers=jobs,
                tell=teller(pattern.folder),
                note=notes.append,
            )
        except LaysMissing as error:
            fine = False
            say(str(error))
        else:
            say(f"{pattern.folder}: {report(results)}")
            for warning in dear_warnings(results):
                say(f"warning: {warning}")
        say_notes(notes, say)
    return fine


def verify_patterns(data_dir: Path, *, only: Sequence[str], say: Callable[[str], None]) -> bool:
    """Check every stored lay against the outlines, receipts or not; whether all are right and none is missing."""
    fine = True
    for pattern in chosen_patterns(data_dir, only):
        notes: list[str] = []
        try:
            results = run_pattern(
                pattern,
                data_dir / "patterns" / pattern.folder,
                quality="draft",
                only_stored=True,
                verify_all=True,
                note=notes.append,
            )
        except LaysMissing as error:
            fine = False
            say(str(error))
        else:
            right = "every stored lay that is used is right" if notes else "every stored lay is right"
            say(f"{pattern.folder}: {right}; {report(results)}")
        say_notes(notes, say)
    return fine


def say_notes(notes: Sequence[str], say: Callable[[str], None]) -> None:
    """Say which stored lays were not used: the first ones, and how many there are."""
    for sentence in notes[:SENTENCES_SHOWN]:
        say(f"note: {sentence}")
    if len(notes) > SENTENCES_SHOWN:
        say(f"note: … and {len(notes) - SENTENCES_SHOWN} more stored lays that are not used")


def report(lays: PatternLays) -> str:
    """What is asked for, what is laid, and the most that covering costs; what is not laid yet, and what it may save."""
    plans = lays.plans.values()
    laid = sum(len(plan.laid) for plan in (*plans, *lays.pair_plans.values()))
    of_them = [
        f"{number} of them {what}"
        for number, what in ((everyday_used(lays), "quickly made"), (drafts_used(lays), "drafts"))
        if number
    ]
    asked = sum(len(plan.covers) for plan in plans)
    dearest = max((plan.largest_cost_mm for plan in plans), default=0.0)
    wanting = sum(plan.wanting for plan in plans)
    too_wide = sum(plan.too_wide for plan in plans)
    parts = [
        f"{sum(plan.sets for plan in plans)} sets of pieces, {asked} demands by way, nap, set and width",
        f"{laid} lays" + (f" ({', '.join(of_them)})" if of_them else ""),
        f"{sum(plan.covered for plan in plans)} demands served by the lay of another, "
        f"at a cost of {dearest:.0f} mm at most",
    ]
    if lays.remnants:
        narrow = lays.remnants.values()
        parts.append(
            f"{sum(len(plan.laid) for plan in narrow)} lays more for {sum(len(plan.covers) for plan in narrow)} "
            "demands on the widths of remnants"
        )
    if wanting:
        parts.append(
            f"not all laid yet: {wanting} demands may cost more than {LARGEST_COST_MM:.0f} mm, "
            f"more lays would save {dearest - LARGEST_COST_MM:.0f} mm at most"
        )
    if lays.pair_plans:
        number = sum(len(plan.laid) for plan in lays.pair_plans.values())
        pairs = len({key.pair for key in lays.pair_plans})
        parts.append(f"{number} of the lays are of two garments, for {pairs} pairs of sizes")
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
