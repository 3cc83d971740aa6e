"""How long would all lays of a pattern take from nothing? Reckoned from one size, laid from nothing.

    python -m tests.cold_time PATTERN [SIZE] [WORKERS]

lays everything of one size (left out: the middle one) in a folder of its own, as `boltside lay` does, and multiplies
its processor time by what the stored lays of all sizes are to those of this size. Processor time, because a busy
machine is not a slow one. Making single lays once more was tried before: it can't tell, for in a run most lays stop
early, because a lay that is there serves as well, and use what earlier ones have worked out about the same pieces.
"""

from __future__ import annotations

import resource
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from boltside.plan import PatternLays, run_pattern
from boltside.read.folder import read_patterns

DATA = Path(__file__).parents[1] / "data"


def count(lays: PatternLays, size: str | None = None) -> int:
    """How many lays there are, of one size or of all."""
    return sum(len(plan.laid) for key, plan in lays.plans.items() if size in (None, key.size))


def spent_s() -> float:
    """Processor seconds of this process and of all that have ended below it."""
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(one.ru_utime + one.ru_stime for one in used)


def main(arguments: Sequence[str]) -> None:
    """Lay one size, multiply, print."""
    name = arguments[0]
    pattern = next(one for one in read_patterns(DATA) if one.folder == name)
    size = arguments[1] if len(arguments) > 1 else pattern.sizes[len(pattern.sizes) // 2]
    workers = int(arguments[2]) if len(arguments) > 2 else None
    stored = run_pattern(pattern, DATA / "patterns" / name, only_stored=True, quality="draft")
    began_s, before_s = time.monotonic(), spent_s()
    with tempfile.TemporaryDirectory() as folder:
        laid = run_pattern(replace(pattern, sizes=(size,), together=()), Path(folder), workers=workers)
    took_s, wall_s = spent_s() - before_s, time.monotonic() - began_s
    whole_s = took_s * count(stored) / count(stored, size)
    print(f"{name}, size {size}: {count(laid)} lays from nothing, {took_s:.0f} s of processor time in {wall_s:.0f} s")
    print(f"stored: {count(stored)} lays, {count(stored, size)} of them of this size")
    print(f"so in all {whole_s / 3600:.2f} h of processor time, {whole_s / 7200:.2f} h on two cores")


if __name__ == "__main__":
    main(sys.argv[1:])
