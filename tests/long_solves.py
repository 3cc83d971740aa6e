"""Answers drawn at random, each solved once more, for longer and by other means. Run it as a script.

Writes `data/benchmark/long_solves.json`; what is there and still fits its outlines is kept, so that an interrupted run
goes on. `test_long_solves.py` compares the answers that the shop publishes with these lengths.
"""

from __future__ import annotations

import argparse
import json
import multiprocessing
import random
import sys
from collections.abc import Iterator
from pathlib import Path
from queue import Empty
from typing import Any

import yaml
from other_solvers import Place, flat_mm, folded_mm, places
from read_by_hand import SIZE, Chosen, every_choice, naps_asked, pieces_to_cut
from shapely import Polygon

from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import lay_item
from boltside.read.folder import read_pattern

DATA = Path(__file__).parents[1] / "data"
REFERENCES = DATA / "benchmark" / "long_solves.json"
PATTERNS = ("breakwater", "ferrylight", "millrace")
WEIGHTS = (4, 5, 1)
"""How often each is drawn: a circle skirt of three pieces tells little."""
SEED, DRAWN = 4711, 20
BUDGET_S = 60.0
"""Processor time of one solve."""
STARTING_S, BUSY_MACHINE = 120.0, 20
"""How long a process may take to begin, and how many times its processor time to solve, before it is given up."""
SELVEDGE_MM = 15
"""Lost at each selvedge. Common practice."""
FEWEST_PIECES = 3
ROOM_MM = 1.0
"""The packing library gives up on pieces all but as wide as the cloth."""
SAME_MM, SAME_CM2 = 0.06, 0.5
"""Another system may round an outline's last digit the other way; a redrawn piece differs by more."""

Outlines = dict[tuple[str, str], Polygon]


def raw_pattern(name: str) -> dict[str, Any]:
    """What `pattern.yaml` says."""
    raw: dict[str, Any] = yaml.safe_load((DATA / "patterns" / name / "pattern.yaml").read_text(encoding="utf-8"))
    return raw


def outlines_of(name: str) -> Outlines:
    """Cutting outlines by name in the lays and size: x along the grain, of a piece on the fold its half above y = 0."""
    pattern = read_pattern(DATA / "patterns" / name, DATA / "body_charts")
    return {
        (line.line_id, size): Polygon(lay_item(pattern, line, size).outline_mm)
        for line in cut_lines(pattern)
        for size in line.sizes
    }


def usable_mm(width_mm: float, way: str) -> float:
    """Between the selvedges, or from the fold to them."""
    return (width_mm - 2 * SELVEDGE_MM) / (2 if way == "folded" else 1)


def across_mm(outline: Polygon, mode: str, way: str) -> float:
    """How wide a piece lies."""
    _, low, _, high = outline.bounds
    return float(2 * high if mode == "fold" and way == "flat" else high - low)


def drawn(outlines: dict[str, Outlines]) -> Iterator[dict[str, Any]]:
    """The requests that the seed draws: flat and folded in turn, each of more than two pieces, on cloth that fits."""
    chance = random.Random(SEED)
    raws = {name: raw_pattern(name) for name in PATTERNS}
    found: list[dict[str, Any]] = []
    while len(found) < DRAWN:
        name = chance.choices(PATTERNS, WEIGHTS)[0]
        raw, way = raws[name], ("flat", "folded")[len(found) % 2]
        cloth, size = chance.choice(list(raw["cloths"])), chance.choice(raw["sizes"])
        chosen: Chosen = chance.choice(every_choice(raw, size))
        asked = chance.choice(sorted(naps_asked(raw, cloth, chosen)))
        pieces = cut_of(raw, outlines[name], cloth, size, chosen)
        if sum(count for _, count in pieces.values()) < FEWEST_PIECES:
            continue
        widest_mm = max(across_mm(outlines[name][one, size], mode, way) for one, (mode, _) in pieces.items())
        widths = [one for one in raw["cloths"][cloth]["widths_mm"] if usable_mm(one, way) >= widest_mm + ROOM_MM]
        if not widths:
            continue
        request = {"pattern": name, "cloth": cloth, "size": size, "choices": chosen, "way": way, "nap": asked}
        request["width_mm"] = chance.choice(widths)
        if request not in found:
            found.append(request)
            yield request


def cut_of(
    raw: dict[str, Any], outlines: Outlines, cloth: str, size: str, chosen: Chosen
) -> dict[str, tuple[str, int]]:
    """Name to mode and count of what is cut from a cloth."""
    ids = [line_id for line_id, of_size in outlines if of_size == size]
    return pieces_to_cut(raw, ids, cloth, {**chosen, SIZE: size})


def measured(outlines: Outlines, pieces: dict[str, tuple[str, int]], size: str) -> dict[str, list[float]]:
    """Length and width (mm) and area (cm²) of each piece, by which a redrawn one is known."""
    found = {}
    for name in sorted(pieces):
        x0, y0, x1, y1 = outlines[name, size].bounds
        found[name] = [round(x1 - x0, 2), round(y1 - y0, 2), round(outlines[name, size].area / 100, 1)]
    return found


def alike(one: dict[str, list[float]], other: dict[str, list[float]]) -> bool:
    """Whether these are the same pieces, drawn alike."""
    return set(one) == set(other) and all(
        abs(a - b) <= near
        for name in one
        for a, b, near in zip(one[name], other[name], (SAME_MM, SAME_MM, SAME_CM2), strict=True)
    )


def solve(request: dict[str, Any], outlines: Outlines, seed: int, budget_s: float) -> float:
    """The length in mm that the longer solve finds. Raises: ValueError."""
    raw = raw_pattern(request["pattern"])
    way, size = request["way"], request["size"]
    nap = naps_asked(raw, request["cloth"], request["choices"])[request["nap"]]
    pieces = cut_of(raw, outlines, request["cloth"], size, request["choices"])
    what = [
        place
        for name, (mode, count) in sorted(pieces.items())
        for place in places(outlines[name, size], name, mode, count, way, nap)
    ]
    return solved_apart(what, way, usable_mm(request["width_mm"], way), seed=seed, budget_s=budget_s)


def solved_apart(what: list[Place], way: str, usable: float, *, seed: int, budget_s: float) -> float:
    """The length in mm, from a process of its own, because the packing library can't be stopped. Raises: ValueError."""
    # Begun afresh and not forked: once this process has used the library, a fork of it has its threads' locks but not
    # its threads, and waits for them for ever.
    afresh = multiprocessing.get_context("spawn")
    queue: multiprocessing.Queue[float | str] = afresh.Queue()
    worker = afresh.Process(target=_solve, args=(what, way, usable, seed, budget_s, queue), daemon=True)
    worker.start()
    try:
        found = queue.get(timeout=STARTING_S + BUSY_MACHINE * budget_s)
    except Empty:
        found = f"nothing from the process that was to solve for {budget_s} s"
    worker.kill()
    worker.join()
    if isinstance(found, str):
        raise ValueError(found)
    return found


def _solve(
    what: list[Place],
    way: str,
    usable: float,
    seed: int,
    budget_s: float,
    queue: multiprocessing.Queue[float | str],
) -> None:
    search = flat_mm if way == "flat" else folded_mm
    try:
        queue.put(search(what, usable, seed=seed, budget_s=budget_s))
    except BaseException as error:  # the library's panics are not Exceptions
        queue.put(str(error))


def write(references: list[dict[str, Any]]) -> None:
    """One line a reference."""
    lines = ",\n".join(json.dumps(one, sort_keys=True) for one in references)
    REFERENCES.write_text(f"[\n{lines}\n]\n", encoding="utf-8", newline="\n")


def main() -> int:
    """Solve what is missing; with `--again` everything, keeping the shorter length."""
    parser = argparse.ArgumentParser(description="Solve drawn answers for longer, as references.")
    parser.add_argument("--budget", type=float, default=BUDGET_S, help="processor seconds for each")
    parser.add_argument("--again", type=int, metavar="SEED", help="solve all once more with this seed")
    asked = parser.parse_args()
    outlines = {name: outlines_of(name) for name in PATTERNS}
    references = json.loads(REFERENCES.read_text(encoding="utf-8")) if REFERENCES.exists() else []
    requests = list(drawn(outlines))
    references = [one for one in references if one["request"] in requests]
    for number, request in enumerate(requests):
        of_pattern = outlines[request["pattern"]]
        raw = raw_pattern(request["pattern"])
        pieces = cut_of(raw, of_pattern, request["cloth"], request["size"], request["choices"])
        shapes = measured(of_pattern, pieces, request["size"])
        known = [one for one in references if one["request"] == request and alike(one["pieces"], shapes)]
        if known and asked.again is None:
            continue
        seed = SEED + number if asked.again is None else asked.again
        length = round(solve(request, of_pattern, seed, asked.budget), 2)
        best = min([length, *(one["length_mm"] for one in known)])
        spent_s = asked.budget + sum(one["budget_s"] for one in known)
        references = [one for one in references if one["request"] != request]
        references.append({"request": request, "pieces": shapes, "length_mm": best, "budget_s": spent_s})
        references.sort(key=lambda one: requests.index(one["request"]))
        write(references)
        print(f"{number + 1} of {len(requests)}: {length} mm, {request}", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
