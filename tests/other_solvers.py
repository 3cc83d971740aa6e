"""How short can a lay get? Two searches that share nothing with the lay engine, for `long_solves.py`.

Flat cloth: the packing library itself, given the whole outlines, for a fixed processor time and with a seed of its own
(the engine uses the same library, but stops at its second failure).

Folded cloth: pieces are put down one after the other on a grid, each at the free place nearest the cut end, halves at
the fold; a local search changes order and poses. Free places come from a correlation of the grid's cells (numpy).
Weakness: a piece takes every cell it touches, so pieces keep up to two cells apart across the cloth (along it they are
pushed together exactly afterwards); and it makes some hundred trials, where a search on outlines makes thousands. So
its lays are often a little longer than the best: a reference for gross errors, no bound.
"""

from __future__ import annotations

import random
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import shapely
import spyrrow
from numpy.typing import NDArray
from shapely import Polygon, STRtree
from shapely.affinity import rotate, scale, translate

CELL_MM = 3.0
SHARED_MM2 = 1.0
"""Pieces may share so much: less than a chalk line covers."""
TIP_MM2 = 0.01
"""Pushed together, they share no more than this."""
FINEST_MM = 0.05
"""Pieces are pushed together to within this."""
LONGER_FOR_A_WHILE = 1.01
"""The local search goes on from a lay so much longer than the last."""
RESTARTS = 3

Free = NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True)
class Place:
    """One outline to lay, in each of the poses it may have; `on_fold`: its y = 0 stays on the fold."""

    name: str
    poses: tuple[Polygon, ...]
    on_fold: bool = False


def places(outline: Polygon, name: str, mode: str, count: int, way: str, nap: str) -> list[Place]:
    """The outlines to lay for one line of the cutting list.

    Turning by 180 degrees needs cloth without nap. Of a pair half are mirrored; on folded cloth one place gives both,
    and may lie either way over. A half on the fold may be flipped along it.
    """
    over = scale(outline, yfact=-1, origin=(0, 0))
    turns: list[Callable[[Polygon], Polygon]] = [lambda one: one]
    if nap == "without":
        turns.append(lambda one: rotate(one, 180, origin=(0, 0)))
    if way == "folded":
        if mode == "fold":
            flipped = scale(outline, xfact=-1, origin=(0, 0))
            poses = (outline, flipped) if nap == "without" else (outline,)
            return [Place(name=name, poses=poses, on_fold=True)] * count
        assert mode == "pair", "the demos cut no single pieces"
        return [Place(name=name, poses=tuple(turn(one) for one in (outline, over) for turn in turns))] * (count // 2)
    if mode == "fold":
        # A hair wider than its half, so that both halves make one.
        whole = Polygon(shapely.get_coordinates(outline.union(over.buffer(1e-6))))
        return [Place(name=name, poses=tuple(turn(whole) for turn in turns))] * count
    assert mode == "pair"
    drawn, mirrored = (Place(name=name, poses=tuple(turn(one) for turn in turns)) for one in (outline, over))
    return [drawn] * (count // 2) + [mirrored] * (count // 2)


def faults(laid: Sequence[Polygon], usable_mm: float) -> str:
    """What is wrong with a lay; nothing, if it is right."""
    for shape in laid:
        _, low, _, high = shape.bounds
        if low < -0.02 or high > usable_mm + 0.02:
            return f"a piece reaches from {low} to {high}"
    for one, other in STRtree(laid).query(laid, predicate="intersects").T:
        if one < other and laid[one].intersection(laid[other]).area > SHARED_MM2:
            return "two pieces overlap"
    return ""


def length_of(laid: Sequence[Polygon]) -> float:
    """Along the grain, from the first to the last point."""
    return float(max(one.bounds[2] for one in laid) - min(one.bounds[0] for one in laid))


def pushed(laid: Sequence[Polygon]) -> list[Polygon]:
    """The lay with every piece pushed towards the cut end as far as it goes, the nearest first."""
    start = min(one.bounds[0] for one in laid)
    shapes = [translate(one, -start) for one in laid]
    for _ in range(3):
        for at in sorted(range(len(shapes)), key=lambda at: float(shapes[at].bounds[0])):
            others = STRtree([one for other, one in enumerate(shapes) if other != at])
            step = 16.0
            while step >= FINEST_MM:
                moved = translate(shapes[at], -step)
                near = others.query(moved, predicate="intersects")
                free = all(moved.intersection(others.geometries[one]).area < TIP_MM2 for one in near)
                if moved.bounds[0] >= 0 and free:
                    shapes[at] = moved
                else:
                    step /= 2
    return shapes


def flat_mm(what: Sequence[Place], usable_mm: float, *, seed: int, budget_s: float) -> float:
    """Length of the best flat lay that the packing library finds in so much processor time.

    Its thread can't be stopped: call this in a process that ends afterwards. Raises: ValueError.
    """
    kinds: dict[tuple[str, bytes], int] = {}
    for one in what:
        key = (one.name, one.poses[0].wkb)
        kinds[key] = kinds.get(key, 0) + 1
    shapes = [Polygon(shapely.get_coordinates(shapely.from_wkb(wkb))) for _, wkb in kinds]
    angles = [0.0, 180.0] if len(what[0].poses) == 2 else [0.0]
    items = [
        spyrrow.Item(str(at), [(x, y) for x, y in shape.exterior.coords[:-1]], count, angles)
        for at, (shape, count) in enumerate(zip(shapes, kinds.values(), strict=True))
    ]
    instance = spyrrow.StripPackingInstance("lay", usable_mm, items)
    config = spyrrow.StripPackingConfig(early_termination=False, num_workers=1, seed=seed, total_computation_time=7200)
    queue = spyrrow.ProgressQueue()
    threading.Thread(target=instance.solve, args=(config, queue), daemon=True).start()
    found: list[Any] = []
    began_s = time.process_time()
    while time.process_time() - began_s < budget_s or not found:
        time.sleep(0.1)
        found += [one for kind, one in queue.drain() if kind == spyrrow.ReportType.ExplFeas]
    lengths = []
    for solution in sorted(found, key=lambda one: float(one.width))[:3]:
        laid: list[Polygon] = [
            translate(rotate(shapes[int(one.id)], one.rotation, origin=(0, 0)), *one.translation)
            for one in solution.placed_items
        ]
        laid = pushed(laid)
        if not faults(laid, usable_mm):
            lengths.append(length_of(laid))
    if not lengths:
        raise ValueError("no lay of the packing library is right")
    return min(lengths)


@dataclass(kw_only=True)
class Grid:
    """The cloth in cells, rows across and columns along, and the transforms of the pieces' cells."""

    usable_mm: float
    columns: int
    known: dict[bytes, tuple[Free, NDArray[np.complex64]]] = field(default_factory=dict)

    @property
    def rows(self) -> int:
        return int(self.usable_mm / CELL_MM + 1e-6)

    def cells(self, shape: Polygon) -> tuple[Free, NDArray[np.complex64]]:
        """The cells that a shape touches when its lowest point lies at 0, and their transform."""
        if shape.wkb not in self.known:
            x0, y0, x1, y1 = shape.bounds
            high, long = (int(np.ceil((b - a) / CELL_MM - 1e-6)) for a, b in ((y0, y1), (x0, x1)))
            ys, xs = np.mgrid[0:high, 0:long] * CELL_MM
            boxes = shapely.box(x0 + xs, y0 + ys, x0 + xs + CELL_MM, y0 + ys + CELL_MM)
            shapely.prepare(shape)
            touched = shapely.intersects(shape, boxes) & ~shapely.touches(shape, boxes)
            padded = np.zeros((self.rows, self.columns), dtype=np.float32)
            padded[:high, :long] = touched
            self.known[shape.wkb] = touched, np.conj(np.fft.rfft2(padded)).astype(np.complex64)
        return self.known[shape.wkb]

    def lay(self, order: Sequence[tuple[Place, Polygon]], stop_mm: float) -> list[Polygon] | None:
        """The pieces one after the other, each at the free place nearest the cut end; None beyond `stop_mm`."""
        taken = np.zeros((self.rows, self.columns), dtype=np.float32)
        laid = []
        for place, shape in order:
            touched, transform = self.cells(shape)
            high, long = touched.shape
            shared = np.fft.irfft2(np.fft.rfft2(taken) * transform, s=taken.shape)
            last = 1 if place.on_fold else self.rows - high + 1
            free = shared[:last, : self.columns - long + 1] < 0.5
            nearest = np.where(free.any(axis=1), free.argmax(axis=1), self.columns)
            row = int(nearest.argmin())
            column = int(nearest[row])
            if column == self.columns or (column + long) * CELL_MM >= stop_mm:
                return None
            taken[row : row + high, column : column + long] += touched
            x0, y0, _, _ = shape.bounds
            laid.append(translate(shape, column * CELL_MM - x0, row * CELL_MM - y0))
        return laid


def folded_mm(what: Sequence[Place], usable_mm: float, *, seed: int, budget_s: float) -> float:
    """Length of the best folded lay that the search on the grid finds in so much processor time."""
    chance = random.Random(seed)
    # Long enough for a first lay: all pieces in a row.
    row_mm = sum(one.poses[0].bounds[2] - one.poses[0].bounds[0] + 2 * CELL_MM for one in what)
    grid = Grid(usable_mm=usable_mm, columns=int(row_mm / CELL_MM) + 1)
    order = sorted(((one, one.poses[0]) for one in what), key=lambda one: -float(one[1].area))
    best = grid.lay(order, float("inf"))
    assert best is not None, "a row is long enough"
    # No lay of use is longer: fewer cells, quicker transforms.
    grid = Grid(usable_mm=usable_mm, columns=even(int(length_of(best) * 1.2 / CELL_MM) + 1))
    began_s = time.process_time()
    for run in range(RESTARTS):
        now_mm = float("inf")
        while time.process_time() - began_s < budget_s * (run + 1) / RESTARTS:
            tried = changed(order, chance)
            if now_mm == float("inf"):
                chance.shuffle(tried)
            laid = grid.lay(tried, now_mm * LONGER_FOR_A_WHILE)
            if laid is not None:
                order, now_mm = tried, length_of(laid)
                best = min(best, laid, key=length_of)
    laid = pushed(best)
    wrong = faults(laid, usable_mm)
    if wrong:
        raise ValueError(wrong)
    return length_of(laid)


def even(columns: int) -> int:
    """The next number of columns that is quick to transform: 2, 3 and 5 are its only factors."""
    while True:
        rest = columns
        for factor in (2, 3, 5):
            while rest % factor == 0:
                rest //= factor
        if rest == 1:
            return columns
        columns += 1


def changed(order: Sequence[tuple[Place, Polygon]], chance: random.Random) -> list[tuple[Place, Polygon]]:
    """Another order, or another pose."""
    tried = list(order)
    one, other = chance.randrange(len(tried)), chance.randrange(len(tried))
    move = chance.random()
    if move < 0.4:
        tried[one], tried[other] = tried[other], tried[one]
    elif move < 0.7:
        tried.insert(other, tried.pop(one))
    else:
        place = tried[one][0]
        tried[one] = (place, chance.choice(place.poses))
    return tried
