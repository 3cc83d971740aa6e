"""Many pieces at once: our method against the bare packing library. `python -m boltside.lay.hard_benchmark`

The sets (`data/benchmark/hard.json`) are of 20 to 99 garment pieces, in the manner of those that the literature on
irregular strip packing compares methods with, drawn once from our own garments (`tests/hard_sets.py`). Both methods get
the same budget, a number of the library's reports that was some 20 s of processor time on the machine that the handbook
tells of, so that the lengths repeat exactly. Each run has a process of its own, so that its processor time is its own.

Ours is one run on outlines made simpler, settled on the true outlines. (The shortest of three runs with different
seeds, a third of the time each, was tried first and is longer.) Bare means: the library with the outlines as they are,
its own simplifying, one thread, and its length as it says it.
"""

import argparse
import json
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from .benchmark import FOLDER
from .bounds import shortest_possible_mm
from .codec import one_line, request_from_json
from .flat import NEVER, WIDTH_ALLOWANCE, bare_length_mm, solve_in_reports
from .model import usable_width_mm
from .packing import Stop, packed
from .slots import slots_of
from .verify import faults

SEEDS: Final = (1,)
"""Ours: the shortest of so many runs, each with an equal share of the time."""

METHODS: Final = ("bare", "ours")
MEAN_AT_MOST: Final = 0.98
"""What ours is to reach, as the mean ratio to the bare library's lengths; and no set longer than that."""


@dataclass(frozen=True, kw_only=True)
class HardRow:
    """One set: the lengths (mm) and processor times (s) of both methods, and the length that nothing can beat."""

    name: str
    bare_mm: float
    ours_mm: float
    bare_s: float
    ours_s: float
    bound_mm: float
    sound: bool

    @property
    def ratio(self) -> float:
        """Our length over the bare library's."""
        return self.ours_mm / self.bare_mm


def load(folder: Path) -> list[dict[str, Any]]:
    """The sets: name, request, and for each method the budget, seed to number of reports."""
    sets: list[dict[str, Any]] = json.loads((folder / "hard.json").read_text(encoding="utf-8"))
    return sets


def one(folder: Path, number: int, method: str) -> dict[str, Any]:
    """One set by one method: length, processor time, and whether the lay passes the verifier (ours)."""
    chosen = load(folder)[number]
    request, reports = request_from_json(chosen["request"]), chosen["reports"][method]
    began_s = time.process_time()
    if method == "bare":
        length_mm, sound = bare_length_mm(request, stop=Stop(failures=NEVER, reports=reports["1"])), True
        spent_s = time.process_time() - began_s
    else:
        lay = solve_in_reports(request, reports={int(seed): most for seed, most in reports.items()})
        spent_s = time.process_time() - began_s
        length_mm, sound = lay.length_mm, not faults(request, lay)
    return {"length_mm": round(length_mm, 2), "processor_s": round(spent_s, 2), "sound": sound}


def run(folder: Path) -> list[HardRow]:
    """All sets by both methods. Raises: CalledProcessError when a run breaks off."""
    rows = []
    for number, chosen in enumerate(load(folder)):
        made = {}
        for method in METHODS:
            command = [sys.executable, "-m", "boltside.lay.hard_benchmark", "--folder", str(folder)]
            command += ["--one", str(number), method]
            said = subprocess.run(command, check=True, capture_output=True, text=True).stdout
            made[method] = json.loads(said)
        rows.append(
            HardRow(
                name=chosen["name"],
                bare_mm=made["bare"]["length_mm"],
                ours_mm=made["ours"]["length_mm"],
                bare_s=made["bare"]["processor_s"],
                ours_s=made["ours"]["processor_s"],
                bound_mm=shortest_possible_mm(request_from_json(chosen["request"])),
                sound=made["ours"]["sound"],
            )
        )
        print(line(rows[-1]), file=sys.stderr, flush=True)
    return rows


class _Timed(Stop):
    """Ends a run after so much processor time (s): does not repeat exactly, tells how many reports there were."""

    def __init__(self, budget_s: float) -> None:
        super().__init__(failures=NEVER)
        self._until_s = time.process_time() + budget_s

    def enough(self, *, failed: bool, shortest_mm: float | None) -> bool:
        super().enough(failed=failed, shortest_mm=shortest_mm)
        return shortest_mm is not None and time.process_time() >= self._until_s


def note_budgets(folder: Path, budget_s: float) -> None:
    """Write into the file of sets how many reports each run gives in its share of so much processor time.

    Once, on the machine whose figures the handbook tells. A run ends at the first report after its time, so it is the
    report before that counts. Methods of a set that have theirs keep them.
    """
    sets = load(folder)
    for chosen in sets:
        reports = chosen.setdefault("reports", {})
        if all(method in reports for method in METHODS):
            continue
        request = request_from_json(chosen["request"])
        slots, usable_mm = slots_of(request), usable_width_mm(request.bolt_width_mm, request.way)
        if "bare" not in reports:
            bare = _Timed(budget_s)
            bare_length_mm(request, stop=bare)
            reports["bare"] = {"1": bare.seen - 1}
        if "ours" not in reports:
            reports["ours"] = {}
            for seed in SEEDS:
                own = _Timed(budget_s / len(SEEDS))
                packed(slots, usable_mm * WIDTH_ALLOWANCE, seed=seed, stop=own)
                reports["ours"][str(seed)] = own.seen - 1
        print(chosen["name"], chosen["reports"], file=sys.stderr, flush=True)
        (folder / "hard.json").write_text("[\n" + ",\n".join(map(one_line, sets)) + "\n]\n", encoding="utf-8")


def line(row: HardRow) -> str:
    """One set as text."""
    mark = "" if row.sound else "  NOT SOUND"
    return (
        f"{row.ratio:7.4f}  {row.bare_mm:8.1f}  {row.ours_mm:8.1f}  {row.bound_mm:8.1f}  "
        f"{row.bare_s:6.1f}  {row.ours_s:6.1f}  {row.name}{mark}"
    )


def report(rows: list[HardRow]) -> str:
    """The table and the verdict as text."""
    lines = [f"{'ratio':>7}  {'bare mm':>8}  {'ours mm':>8}  {'bound mm':>8}  {'bare s':>6}  {'ours s':>6}  set"]
    lines += [line(row) for row in rows]
    ratios = [row.ratio for row in rows]
    spent = sum(row.ours_s for row in rows) / sum(row.bare_s for row in rows)
    lines.append(
        f"{len(rows)} sets: mean ratio {sum(ratios) / len(ratios):.4f} (at most {MEAN_AT_MOST}), greatest "
        f"{max(ratios):.4f} (at most 1), processor time {spent:.2f} of the bare library's"
    )
    return "\n".join(lines)


def main() -> int:
    """Run the benchmark; 1 when a target is missed or a lay is not sound."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--folder", type=Path, default=FOLDER)
    options.add_argument("--budget", type=float, metavar="SECONDS", help="note budgets of so much processor time")
    options.add_argument("--one", nargs=2, metavar=("NUMBER", "METHOD"), help="one set by one method, as JSON")
    chosen = options.parse_args()
    if chosen.one:
        print(json.dumps(one(chosen.folder, int(chosen.one[0]), chosen.one[1])))
        return 0
    if chosen.budget:
        note_budgets(chosen.folder, chosen.budget)
        return 0
    without = sum("reports" not in one for one in load(chosen.folder))
    if without:
        print(f"{without} sets have no budget yet; on a machine that does nothing else: --budget 20", file=sys.stderr)
        return 1
    rows = run(chosen.folder)
    print(report(rows))
    ratios = [row.ratio for row in rows]
    good = sum(ratios) / len(ratios) <= MEAN_AT_MOST and max(ratios) <= 1.0
    return 0 if good and all(row.sound for row in rows) else 1


if __name__ == "__main__":
    sys.exit(main())
