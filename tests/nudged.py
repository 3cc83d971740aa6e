"""Does a finished lay get shorter when its pieces are nudged across the cloth? A third method, for cloth folded once.

The engine puts each piece where it touches others; a lay may need one that floats between two. So a few pieces are
moved across by a few millimetres, all are pushed towards the cut end once more, in the order in which they begin, and
what is not longer is kept. No order and no pose is changed. Shares no code with the engine.
"""

from __future__ import annotations

import random
import time
from collections.abc import Sequence

from other_solvers import faults, length_of, pushed
from other_zones import GIVEN_UP_MM, free_spot
from shapely import Polygon
from shapely.affinity import translate

NUDGES_MM = (1.0, 4.0, 12.0)
"""Spreads of the moves across, taken in turns by chance."""
FARTHEST_MM = 400.0
"""A nudge that pushes a piece back further is given up."""
AS_LONG_MM = 0.01

Placed = tuple[Polygon, bool]
"""Where an outline lies, and whether it stays on the fold."""


def nudged_mm(placed: Sequence[Placed], depth_mm: float, *, seed: int, budget_s: float) -> float:
    """The least length in mm that is found in so much processor time, starting from a lay that is right."""
    chance = random.Random(seed)
    now = list(placed)
    best_mm = length_of([shape for shape, _ in now])
    began_s = time.process_time()
    while time.process_time() - began_s < budget_s:
        tried = list(now)
        for _ in range(chance.choice((1, 1, 2))):
            at = chance.randrange(len(tried))
            shape, on_fold = tried[at]
            if not on_fold:
                _, low, _, high = shape.bounds
                dy = min(max(chance.gauss(0.0, chance.choice(NUDGES_MM)), -low), depth_mm - high)
                tried[at] = (translate(shape, 0.0, dy), on_fold)
        tried.sort(key=lambda one: float(one[0].bounds[0]))
        laid = along([shape for shape, _ in tried])
        if laid is None or faults(laid, depth_mm):
            continue
        length_mm = length_of(laid)
        if length_mm <= best_mm + AS_LONG_MM:
            best_mm = min(best_mm, length_mm)
            now = [(shape, on_fold) for shape, (_, on_fold) in zip(laid, tried, strict=True)]
    return best_mm


def along(shapes: Sequence[Polygon]) -> list[Polygon] | None:
    """Each piece as near to the cut end as those before let it; None where one would be pushed back too far."""
    done: list[Polygon] = []
    for shape in shapes:
        back_mm, spot = 0.0, None
        while spot is None:
            if back_mm > FARTHEST_MM:
                return None
            spot = free_spot(translate(shape, back_mm), 0.0, done)
            back_mm += GIVEN_UP_MM - 10.0
        done.append(spot)
    return pushed(done)
