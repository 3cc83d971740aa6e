"""What do flat lays cost, and what do they gain, against the library's first failure? In one run, as ratios.

`python -m boltside.lay.flat_benchmark`: the flat lays of :mod:`.benchmark`, each made by today's rule and by the
library stopped at its first failure. Lengths are compared with the committed references.
"""

import argparse
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from .benchmark import FOLDER, load
from .codec import request_from_json
from .flat import FIRST_FAILURE, FULL_RULE, FlatRule, solve_flat
from .model import LayRequest
from .verify import faults

MEAN_AT_MOST: Final = 1.003
MAX_AT_MOST: Final = 1.012
TIMES_AT_MOST: Final = 2.0
"""What the lays are to reach: ratios to the references, and processor time as a multiple of the first failure's."""


@dataclass(frozen=True, kw_only=True)
class FlatRow:
    """One lay by both rules: ratio to the reference and processor time in seconds."""

    name: str
    ratio: float
    first_ratio: float
    spent_s: float
    first_s: float
    sound: bool


def timed(request: LayRequest, rule: FlatRule, reference_mm: float) -> tuple[float, float, bool]:
    """Ratio to the reference, processor time in seconds, and whether the lay passes the verifier."""
    began_s = time.process_time()
    lay = solve_flat(request, rule=rule)
    spent_s = time.process_time() - began_s
    return lay.length_mm / reference_mm, spent_s, not faults(request, lay)


def run(folder: Path) -> list[FlatRow]:
    """All flat lays of the benchmark by both rules."""
    listed, references = load(folder)
    rows = []
    for one in listed:
        request = request_from_json(one["request"])
        if request.way != "flat":
            continue
        reference_mm = references[one["name"]]["length_mm"]
        first_ratio, first_s, _ = timed(request, FIRST_FAILURE, reference_mm)
        ratio, spent_s, sound = timed(request, FULL_RULE, reference_mm)
        rows.append(
            FlatRow(
                name=one["name"], ratio=ratio, first_ratio=first_ratio, spent_s=spent_s, first_s=first_s, sound=sound
            )
        )
        print(line(rows[-1]), file=sys.stderr, flush=True)
    return rows


def line(row: FlatRow) -> str:
    """One lay as text."""
    mark = "" if row.sound else "  NOT SOUND"
    return f"{row.ratio:7.4f}  {row.spent_s:6.2f}  {row.first_ratio:7.4f}  {row.first_s:6.2f}  {row.name}{mark}"


def times(rows: list[FlatRow]) -> float:
    """The ratio of the processor time of today's rule to that of the first failure, of all lays together."""
    return sum(row.spent_s for row in rows) / sum(row.first_s for row in rows)


def report(rows: list[FlatRow]) -> str:
    """The table and the verdict as text."""
    lines = [f"{'ratio':>7}  {'s':>6}  {'first':>7}  {'s':>6}  lay"]
    lines += [line(row) for row in rows]
    for said, ratios in (("today", [row.ratio for row in rows]), ("first failure", [row.first_ratio for row in rows])):
        lines.append(f"{said}: mean ratio {sum(ratios) / len(ratios):.4f}, greatest {max(ratios):.4f}")
    lines.append(
        f"targets: mean at most {MEAN_AT_MOST}, greatest at most {MAX_AT_MOST}; "
        f"processor time {times(rows):.2f} of the first failure's (at most {TIMES_AT_MOST:g})"
    )
    return "\n".join(lines)


def reached(rows: list[FlatRow]) -> bool:
    """Whether every target is met and every lay is right."""
    ratios = [row.ratio for row in rows]
    near = sum(ratios) / len(ratios) <= MEAN_AT_MOST and max(ratios) <= MAX_AT_MOST
    return near and times(rows) <= TIMES_AT_MOST and all(row.sound for row in rows)


def main() -> int:
    """Run the benchmark; 1 when a target is missed or a lay is not sound."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--folder", type=Path, default=FOLDER)
    rows = run(options.parse_args().folder)
    print(report(rows))
    return 0 if reached(rows) else 1


if __name__ == "__main__":
    sys.exit(main())
