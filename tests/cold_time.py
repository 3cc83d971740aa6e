"""How long would all lays of a pattern take from nothing? Reckoned from a sample of the stored ones, made again.

    python -m tests.cold_time PATTERN [COUNT] [SEED]

draws lays of each quality from `lays.json`, makes each again in a process of its own, as a run would with all the
other lays there to start from, and adds up: for each quality its number of lays times the mean of the drawn ones.
Processor time, because a busy machine is not a slow one. A run from nothing has fewer lays to start from at its
beginning, and plans between the lays; starting a process for each folded lay, which a run does not, counts for that.
"""

from __future__ import annotations

import random
import resource
import statistics
import sys
from collections.abc import Sequence
from pathlib import Path

from boltside.demands import demands, search_for
from boltside.lay.pool import Order, Pool
from boltside.plan import run_pattern
from boltside.read.folder import read_patterns

DATA = Path(__file__).parents[1] / "data"
COUNT, SEED = 60, 20261126
PATIENCE_S = 3600.0
"""A busy machine may take its time; only processor time is measured."""
QUALITIES = ("full", "everyday")


def seconds_of(order: Order) -> float:
    """Processor seconds of a process that makes this one lay."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    with Pool(workers=1, time_out_s=PATIENCE_S) as pool:
        pool.submit(order)
        outcome = pool.next_outcome()
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if outcome.lay is None:
        raise SystemExit(outcome.error)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main(arguments: Sequence[str]) -> None:
    """Draw, make again, add up, print."""
    name = arguments[0]
    count = int(arguments[1]) if len(arguments) > 1 else COUNT
    seed = int(arguments[2]) if len(arguments) > 2 else SEED
    pattern = next(one for one in read_patterns(DATA) if one.folder == name)
    stored = run_pattern(pattern, DATA / "patterns" / name, only_stored=True, quality="draft").plans
    searches = {key: search_for(cloth, demand) for key, cloth, demand in demands(pattern)}
    known = [(key, node, lay) for key, plan in stored.items() for node, lay in plan.laid.items()]
    for key, node, lay in known:
        searches[key].take(node, lay)
    print(f"{name}: {len(known)} lays; seed {seed}")
    total = error = 0.0
    for quality in QUALITIES:
        those = [one for one in known if one[2].quality == quality]
        drawn = random.Random(seed).sample(those, min(len(those), round(count * len(those) / len(known)) or 1))
        took = []
        for key, node, lay in drawn:
            others = tuple(one for one in searches[key].like(node) if one != lay)
            order = Order(name=f"{key}, {node}", request=searches[key].request(node), quality=quality, like=others)
            took.append(seconds_of(order))
        if len(took) > 1:
            mean, spread = statistics.mean(took), statistics.stdev(took) / len(took) ** 0.5
            print(f"{quality}: {len(those)} lays, {len(took)} made again, {mean:.1f} s each, ± {spread:.1f} s")
            total += mean * len(those)
            error += (spread * len(those)) ** 2
    print(f"in all {total / 3600:.2f} ± {error**0.5 / 3600:.2f} h of processor time, half of it on two cores")


if __name__ == "__main__":
    main(sys.argv[1:])
