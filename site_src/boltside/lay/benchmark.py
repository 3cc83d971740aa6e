"""How good are the lays, against references that took far longer? `python -m boltside.lay.benchmark`

The requests (`data/benchmark/requests.json`) were drawn once, by a fixed seed, from the demo shop. A reference is the
bound that no lay can beat, where a lay comes near it; elsewhere the best of three seeds of 120 s of processor time each
(flat), or of a local search four times as long with three seeds (folded). The result is a ratio of lengths, so it
does not depend on the machine.
"""

import argparse
import json
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from .bounds import area_mm2, fold_chain_mm, longest_piece_mm, shortest_possible_mm
from .codec import request_from_json
from .flat import SOLVER, SOLVER_VERSION, solve_long
from .folded import SEED, TRIALS, solve_by_filling
from .model import LayRequest, usable_width_mm
from .pool import Order, Pool
from .slots import slots_of
from .verify import faults

FOLDER: Final = Path("data/benchmark")
AT_BOUND_MM: Final = 0.2
"""A lay this near to the bound has reached it: bounds are reckoned from outlines that are made simpler inwards, by up
to 0.3 mm, so that they are never too great."""

NEAR: Final = 1.002
"""Where the everyday lay is this near to the bound, the bound itself is the reference: the hardest there is."""

MEAN_AT_MOST: Final = 1.005
MAX_AT_MOST: Final = 1.02
"""What the lays are to reach, as ratios to the references."""

LONG_SEARCH: Final = 4
"""A folded reference tries this many times as many lays as the everyday search, with each of three seeds."""


@dataclass(frozen=True, kw_only=True)
class Row:
    """One lay of the benchmark: its length, the reference's, and the bound that rules (all mm)."""

    name: str
    way: str
    length_mm: float
    reference_mm: float
    bound_mm: float
    rules: str
    sound: bool

    @property
    def ratio(self) -> float:
        """Length over the reference's length."""
        return self.length_mm / self.reference_mm


def ruling_bound(request: LayRequest) -> str:
    """Which bound is the greatest: `fold chain`, `longest piece` or `area`."""
    slots = slots_of(request)
    bounds = {
        "fold chain": fold_chain_mm(slots),
        "longest piece": longest_piece_mm(slots),
        "area": area_mm2(slots) / usable_width_mm(request.bolt_width_mm, request.way),
    }
    return max(bounds, key=lambda name: bounds[name])


def load(folder: Path) -> tuple[list[dict[str, Any]], dict[str, dict[str, Any]]]:
    """The requests, and the references by name."""
    requests = json.loads((folder / "requests.json").read_text(encoding="utf-8"))
    references = json.loads((folder / "references.json").read_text(encoding="utf-8"))
    return requests, {reference["name"]: reference for reference in references}


def run(folder: Path, workers: int | None = None) -> list[Row]:
    """Make all lays of the benchmark and compare. Raises: RuntimeError when a lay fails."""
    listed, references = load(folder)
    requests = {one["name"]: request_from_json(one["request"]) for one in listed}
    rows = []
    with Pool(workers=workers) as pool:
        for name, request in requests.items():
            pool.submit(Order(name=name, request=request))
        lays = {}
        for outcome in pool.outcomes():
            if outcome.lay is None:
                raise RuntimeError(outcome.error)
            lays[outcome.order.name] = outcome.lay
    for name, request in requests.items():
        rows.append(
            Row(
                name=name,
                way=request.way,
                length_mm=lays[name].length_mm,
                reference_mm=references[name]["length_mm"],
                bound_mm=shortest_possible_mm(request),
                rules=ruling_bound(request),
                sound=not faults(request, lays[name]),
            )
        )
    return rows


def flat_references(folder: Path, budget_s: int) -> list[dict[str, Any]]:
    """References for the flat lays, made anew: three seeds of `budget_s` seconds each where the bound is not reached.

    Each long run has a process of its own, so that its processor time is its own.
    """
    listed = json.loads((folder / "requests.json").read_text(encoding="utf-8"))
    flat = {one["name"]: number for number, one in enumerate(listed) if one["request"]["way"] == "flat"}
    everyday = {}
    with Pool() as pool:
        for name, number in flat.items():
            pool.submit(Order(name=name, request=request_from_json(listed[number]["request"])))
        for outcome in pool.outcomes():
            if outcome.lay is None:
                raise RuntimeError(outcome.error)
            everyday[outcome.order.name] = outcome.lay.length_mm
    made = []
    for name, number in flat.items():
        request = request_from_json(listed[number]["request"])
        bound_mm = shortest_possible_mm(request)
        reference = {"name": name, "length_mm": round(bound_mm, 2), "how": f"the bound itself: {ruling_bound(request)}"}
        if everyday[name] > bound_mm * NEAR:
            runs = []
            for seed in (1, 2, 3):
                command = [sys.executable, "-m", "boltside.lay.benchmark", "--folder", str(folder)]
                command += ["--long-run", str(number), str(seed), str(budget_s)]
                runs.append(json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout))
            best = min(run["length_mm"] for run in runs)
            reference = {"name": name, "length_mm": best, "how": "best of 3 seeds", "runs": runs}
        made.append(reference)
        print(reference, file=sys.stderr, flush=True)
    return made


def long_run(folder: Path, number: int, seed: int, budget_s: int) -> dict[str, Any]:
    """One long run of the packing library: its length, its reports (events) and its processor time."""
    request = request_from_json(json.loads((folder / "requests.json").read_text(encoding="utf-8"))[number]["request"])
    started_s = time.process_time()
    length_mm, events = solve_long(request, seed=seed, budget_s=budget_s)
    return {
        "length_mm": length_mm,
        "events": events,
        "seed": seed,
        "processor_s": round(time.process_time() - started_s),
        "solver": f"{SOLVER} {SOLVER_VERSION}",
    }


def folded_references(folder: Path) -> list[dict[str, Any]]:
    """References for the folded lays, made anew; minutes of work."""
    made = []
    for one in json.loads((folder / "requests.json").read_text(encoding="utf-8")):
        request = request_from_json(one["request"])
        if request.way == "flat":
            continue
        bound_mm = shortest_possible_mm(request)
        everyday = solve_by_filling(request)
        how = f"the bound itself: {ruling_bound(request)}"
        reference = {"name": one["name"], "length_mm": round(bound_mm, 2), "how": how}
        if everyday.length_mm > bound_mm * NEAR:
            trials = TRIALS * LONG_SEARCH
            best = min(solve_by_filling(request, seed=SEED + more, trials=trials).length_mm for more in range(3))
            reference = {"name": one["name"], "length_mm": best, "how": f"best of 3 seeds of {trials} trials"}
        made.append(reference)
        print(reference, file=sys.stderr, flush=True)
    return made


def report(rows: list[Row]) -> str:
    """The table and the verdict as text."""
    lines = [f"{'ratio':>7}  {'mm':>8}  {'bound':>8}  bound that rules  lay"]
    for row in rows:
        mark = "" if row.sound else "  NOT SOUND"
        lines.append(
            f"{row.ratio:7.4f}  {row.length_mm:8.2f}  {row.bound_mm:8.2f}  {row.rules:16}  {row.name}{mark}"
        )
    for way in sorted({row.way for row in rows}):
        own = [row for row in rows if row.way == way]
        ratios = [row.ratio for row in own]
        reached = sum(row.length_mm <= row.bound_mm + AT_BOUND_MM for row in own)
        lines.append(
            f"{way}: {len(own)} lays, mean ratio {sum(ratios) / len(ratios):.4f}, "
            f"greatest {max(ratios):.4f}, {reached} at the bound"
        )
    ratios = [row.ratio for row in rows]
    lines.append(
        f"all: mean ratio {sum(ratios) / len(ratios):.4f} (at most {MEAN_AT_MOST}), "
        f"greatest {max(ratios):.4f} (at most {MAX_AT_MOST})"
    )
    chained = [row for row in rows if row.way == "folded" and row.rules == "fold chain"]
    reached = sum(row.length_mm <= row.bound_mm + AT_BOUND_MM for row in chained)
    lines.append(f"folded lays that the fold chain rules: {len(chained)}, at that bound: {reached}")
    return "\n".join(lines)


def main() -> int:
    """Run the benchmark; 1 when a target is missed or a lay is not sound."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--folder", type=Path, default=FOLDER)
    options.add_argument("--folded-references", action="store_true", help="print folded references, made anew")
    options.add_argument("--flat-references", type=int, metavar="SECONDS", help="print flat references, made anew")
    options.add_argument("--long-run", type=int, nargs=3, metavar=("NUMBER", "SEED", "SECONDS"), help="one of them")
    chosen = options.parse_args()
    if chosen.long_run:
        print(json.dumps(long_run(chosen.folder, *chosen.long_run)))
        return 0
    if chosen.flat_references:
        print(json.dumps(flat_references(chosen.folder, chosen.flat_references), indent=1))
        return 0
    if chosen.folded_references:
        print(json.dumps(folded_references(chosen.folder), indent=1))
        return 0
    rows = run(chosen.folder)
    print(report(rows))
    ratios = [row.ratio for row in rows]
    good = sum(ratios) / len(ratios) <= MEAN_AT_MOST and max(ratios) <= MAX_AT_MOST
    return 0 if good and all(row.sound for row in rows) else 1


if __name__ == "__main__":
    sys.exit(main())
