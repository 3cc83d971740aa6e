"""How short can a lay on cloth get that lies double in strips? A search that shares nothing with the lay engine.

Every strip of the spread cloth is a grid of its own, so nothing crosses from one to the next; distances across are
measured from a strip's fold, so in a strip whose fold is at its far edge what is drawn lies turned over. Pieces are put
down one after the other at the free place nearest the cut end, on any strip that takes them, halves at a fold; a local
search changes order, poses, strips, and which pairs are cut apart in single cloth. Free places come from a correlation
of the grid's cells (numpy), in turns with cells that a piece touches (it keeps up to two cells away from others) and
cells whose middle it covers (it may lie a cell too near). Lays that may be better than the best are then laid from the
outlines: piece by piece at about its place, moved a little across where that helps, as near to the cut end as it goes.

Weakness: some thousand trials, where a search on outlines makes ten thousand. A reference for gross errors, no bound.
Longer than 400 lines, so that it shares nothing with what it is held against.
"""

from __future__ import annotations

import random
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import shapely
from numpy.typing import NDArray
from other_solvers import FINEST_MM, TIP_MM2, Free, even, faults, length_of, pushed
from shapely import Polygon
from shapely.affinity import rotate, scale, translate

SELVEDGE_MM = 15.0
"""Lost at each selvedge. Common practice."""
OVER_STEP_MM = 5.0
ROW_MM, COLUMN_MM = 2.0, 4.0
"""A cell across and along the cloth: what lies too far along is pushed together afterwards, what lies across is not."""
ACROSS_MM, ACROSS_STEP_MM = 3.0, 0.5
"""How far, and in which steps, a piece is moved across when it is laid from the outlines."""
GIVEN_UP_MM = 60.0
"""A place so far behind the one on the grid is not looked for where another distance across does."""
LONGER_FOR_A_WHILE = 1.01
"""The local search goes on from a lay so much longer than the last."""
RUNS = 4
LAID_AGAIN = 0.05
"""Share of the other lays gone on from that are laid from the outlines too."""


@dataclass(frozen=True, kw_only=True)
class Strip:
    """A strip of the spread cloth; `over`: its fold is at the far edge, so it is measured the other way."""

    depth_mm: float
    double: bool
    over: bool = False


@dataclass(frozen=True, kw_only=True)
class Part:
    """One outline to lay: for each strip the shapes that it may have there; `on_fold`: its y = 0 stays on the fold."""

    shapes: tuple[tuple[Polygon, ...], ...]
    on_fold: bool = False

    @property
    def fits(self) -> bool:
        """Whether a strip takes it."""
        return any(self.shapes)


@dataclass(frozen=True, kw_only=True)
class Unit:
    """One garment piece, or two that come from one place; `apart`: the two, where single cloth takes them."""

    whole: Part
    apart: tuple[Part, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Turn:
    """What is laid at one point of an order: a part of a unit, in a pose, in a strip (None: whichever is nearest)."""

    unit: int
    part: Part
    pose: int = 0
    strip: int | None = None


@dataclass(frozen=True, kw_only=True)
class Put:
    """Where a part came to lie: strip, and shape in the strip's own measure."""

    strip: int
    shape: Polygon
    on_fold: bool


def strips_of(way: str, bolt_width_mm: float, over_mm: float | None = None) -> tuple[Strip, ...]:
    """How the cloth lies. Folded in half; to the middle: each flap a quarter of the width; folded over in part: single
    beyond the flap's selvedge, as far as the cloth's own. Each flap's selvedge is lost in both layers."""
    if way == "folded":
        return (Strip(depth_mm=bolt_width_mm / 2 - SELVEDGE_MM, double=True),)
    if way == "middle":
        depth_mm = bolt_width_mm / 4 - SELVEDGE_MM
        return (Strip(depth_mm=depth_mm, double=True), Strip(depth_mm=depth_mm, double=True, over=True))
    assert way == "part-folded" and over_mm is not None
    double = Strip(depth_mm=over_mm - SELVEDGE_MM, double=True)
    beside_mm = bolt_width_mm - 2 * over_mm - SELVEDGE_MM
    return (double, Strip(depth_mm=beside_mm, double=False)) if beside_mm > 0 else (double,)


def units(
    outline: Polygon, mode: str, count: int, strips: Sequence[Strip], *, nap: bool, face: str = "up"
) -> list[Unit]:
    """What is to be laid for one line of the cutting list.

    A half lies on a fold. A pair comes from one place where cloth is double, either way over, or is cut apart where it
    is single, the second one turned over. Singles come two from one place only if they are their own mirror image;
    nothing else is turned over, and with nap nothing is turned round. Raises: ValueError for what fits nowhere.
    """
    over = scale(outline, yfact=-1, origin=(0, 0))

    def part(*drawn: Polygon, double: bool, single: bool) -> Part:
        shapes = []
        for strip in strips:
            taken = (double if strip.double else single) and fits(outline, strip)
            ways = [scale(one, yfact=-1, origin=(0, 0)) if strip.over else one for one in drawn] if taken else []
            shapes.append(tuple(turned for one in ways for turned in (one, *([] if nap else [round_about(one)]))))
        return Part(shapes=tuple(shapes))

    if mode == "fold":
        flipped = scale(outline, xfact=-1, origin=(0, 0))
        poses = (outline,) if nap else (outline, flipped)
        shapes = tuple(poses if strip.double and fits(outline, strip) else () for strip in strips)
        found = [Unit(whole=Part(shapes=shapes, on_fold=True))] * count
    elif mode == "pair":
        cut = tuple(part(one, double=False, single=True) for one in (outline, over))
        found = [Unit(whole=part(outline, over, double=True, single=False), apart=cut)] * (count // 2)
    else:
        drawn = over if face == "down" else outline
        alone = Unit(whole=part(drawn, double=True, single=True))
        twice = count // 2 if own_mirror_image(outline) else 0
        single = part(drawn, double=False, single=True)
        two = Unit(whole=part(drawn, double=True, single=False), apart=(single, single))
        found = [two] * twice + [alone] * (count - 2 * twice)
    for one in found:
        if not one.whole.fits and not (one.apart and one.apart[0].fits):
            raise ValueError("a piece fits on no strip of the cloth")
    return [one if one.apart and one.apart[0].fits else replace(one, apart=()) for one in found]


def fits(outline: Polygon, strip: Strip) -> bool:
    """Whether a strip is deep enough for an outline."""
    _, low, _, high = outline.bounds
    return bool(high - low <= strip.depth_mm + 1e-6)


def round_about(shape: Polygon) -> Polygon:
    """Turned by half a turn."""
    return rotate(shape, 180, origin=(0, 0))


def own_mirror_image(outline: Polygon) -> bool:
    """Whether an outline turned over along its length is the same."""
    _, low, _, high = outline.bounds
    over = scale(outline, yfact=-1, origin=(0, (low + high) / 2))
    return bool(outline.symmetric_difference(over).area <= 1e-6 * outline.area)


@dataclass(kw_only=True)
class StripGrid:
    """A strip in cells, rows across and columns along; `touched`: a shape takes each cell that it touches, otherwise
    those whose middle it covers."""

    depth_mm: float
    columns: int
    touched: bool
    known: dict[bytes, tuple[Free, NDArray[np.complex128]]] = field(default_factory=dict)

    @property
    def rows(self) -> int:
        """As many as begin on the strip: a shape that stands out is moved back when it is laid from the outlines."""
        return int(np.ceil(self.depth_mm / ROW_MM - 1e-6))

    def cells(self, shape: Polygon) -> tuple[Free, NDArray[np.complex128]]:
        """The cells that a shape takes when its lowest point lies at 0, and their transform."""
        key = shape.wkb
        if key not in self.known:
            x0, y0, x1, y1 = shape.bounds
            high, long = int(np.ceil((y1 - y0) / ROW_MM - 1e-6)), int(np.ceil((x1 - x0) / COLUMN_MM - 1e-6))
            ys, xs = np.mgrid[0:high, 0:long]
            xs, ys = x0 + xs * COLUMN_MM, y0 + ys * ROW_MM
            shapely.prepare(shape)
            if self.touched:
                boxes = shapely.box(xs, ys, xs + COLUMN_MM, ys + ROW_MM)
                taken = shapely.intersects(shape, boxes) & ~shapely.touches(shape, boxes)
            else:
                taken = shapely.contains_xy(shape, xs + COLUMN_MM / 2, ys + ROW_MM / 2)
                if high > 1 and not taken[-1].any():
                    taken = taken[:-1]
            padded = np.zeros((self.rows, self.columns))
            padded[: taken.shape[0], : taken.shape[1]] = taken
            self.known[key] = taken, np.conj(np.fft.rfft2(padded))
        return self.known[key]


class Cloth:
    """All strips of the cloth as grids."""

    def __init__(self, strips: Sequence[Strip], length_mm: float, *, touched: bool) -> None:
        columns = even(int(length_mm / COLUMN_MM) + 2)
        self._grids = [StripGrid(depth_mm=one.depth_mm, columns=columns, touched=touched) for one in strips]
        self._columns = columns

    def lay(self, order: Sequence[Turn], stop_mm: float) -> list[Put] | None:
        """Each part at the free place nearest the cut end; None when one ends at `stop_mm` or beyond."""
        taken = [np.zeros((grid.rows, self._columns)) for grid in self._grids]
        spectra: list[NDArray[np.complex128] | None] = [None] * len(taken)
        laid = []
        for turn in order:
            best: tuple[int, int, int, Polygon] | None = None
            for strip in range(len(taken)) if turn.strip is None else (turn.strip,):
                poses = turn.part.shapes[strip]
                if not poses:
                    continue
                shape = poses[turn.pose % len(poses)]
                spot = self._nearest(strip, shape, spectra[strip], on_fold=turn.part.on_fold)
                if spot is not None and (best is None or spot < best[:2]):
                    best = (*spot, strip, shape)
            if best is None or (best[0] * COLUMN_MM) >= stop_mm:
                return None
            end, row, strip, shape = best
            cells, _ = self._grids[strip].cells(shape)
            high, long = cells.shape
            column = end - long
            taken[strip][row : row + high, column : column + long] += cells
            spectra[strip] = np.fft.rfft2(taken[strip])
            x0, y0, _, _ = shape.bounds
            moved = translate(shape, column * COLUMN_MM - x0, row * ROW_MM - y0)
            laid.append(Put(strip=strip, shape=moved, on_fold=turn.part.on_fold))
        return laid

    def _nearest(
        self, strip: int, shape: Polygon, spectrum: NDArray[np.complex128] | None, *, on_fold: bool
    ) -> tuple[int, int] | None:
        """Column of the far end and row of the free place nearest the cut end."""
        grid = self._grids[strip]
        cells, transform = grid.cells(shape)
        high, long = cells.shape
        if spectrum is None:
            return long, 0
        shared = np.fft.irfft2(spectrum * transform, s=(grid.rows, self._columns))
        free = shared[: 1 if on_fold else grid.rows - high + 1, : self._columns - long + 1] < 0.5
        nearest = np.where(free.any(axis=1), free.argmax(axis=1), self._columns)
        row = int(nearest.argmin())
        return (int(nearest[row]) + long, row) if nearest[row] < self._columns else None


def from_outlines(laid: Sequence[Put], strips: Sequence[Strip]) -> list[list[Polygon]]:
    """The lay of the grid laid once more from the outlines, strip by strip, the nearest to the cut end first."""
    found = []
    for number, strip in enumerate(strips):
        done: list[Polygon] = []
        of_strip = [one for one in laid if one.strip == number]
        for one in sorted(of_strip, key=lambda one: float(one.shape.bounds[0])):
            spots = [spot for dy in moves_across(one, done, strip) if (spot := free_spot(one.shape, dy, done))]
            if not spots:
                x0, low, _, high = one.shape.bounds
                behind = max((other.bounds[2] for other in done), default=0.0)
                dy = -low if one.on_fold else min(max(low, 0.0), strip.depth_mm - (high - low)) - low
                spots = [translate(one.shape, behind - x0, dy)]
            done.append(min(spots, key=lambda spot: (round(spot.bounds[2], 1), spot.bounds[1])))
        found.append(pushed(done) if done else [])
    return found


def moves_across(one: Put, done: Sequence[Polygon], strip: Strip) -> Iterator[float]:
    """Small moves across (mm) that keep a piece on its strip: none from a fold; flush with edge or neighbour too."""
    _, low, _, high = one.shape.bounds
    if one.on_fold:
        yield -low
        return
    last_mm = strip.depth_mm - (high - low)
    steps = int(ACROSS_MM / ACROSS_STEP_MM)
    wished = [low + step * ACROSS_STEP_MM for step in range(-steps, steps + 1)]
    wished += [other.bounds[3] for other in done] + [other.bounds[1] - (high - low) for other in done] + [0.0, last_mm]
    near = {round(min(max(to, 0.0), last_mm), 4) for to in wished if abs(to - low) <= ACROSS_MM + ROW_MM}
    for to in sorted(near):
        yield to - low


def free_spot(shape: Polygon, dy: float, done: Sequence[Polygon]) -> Polygon | None:
    """The free place nearest the cut end at about the shape's own and so far across; None if there is none near."""
    x0, low, x1, high = shape.bounds
    near = [other for other in done if other.bounds[1] < high + dy and other.bounds[3] > low + dy]

    def free(to_mm: float) -> bool:
        moved = translate(shape, to_mm - x0, dy)
        beside = [one for one in near if one.bounds[0] < to_mm + x1 - x0 and one.bounds[2] > to_mm]
        return all(moved.intersection(one).area < TIP_MM2 for one in beside)

    first_mm = to_mm = max(0.0, x0 - 2 * COLUMN_MM)
    while not free(to_mm):
        to_mm += 2.0
        if to_mm > x0 + GIVEN_UP_MM:
            return None
    step_mm = 1.0
    while step_mm >= FINEST_MM and to_mm > first_mm:
        if to_mm >= step_mm and free(to_mm - step_mm):
            to_mm -= step_mm
        step_mm /= 2
    return translate(shape, to_mm - x0, dy)


def end_mm(laid: Sequence[Put]) -> float:
    """The far end of a lay on the grid."""
    return float(max(one.shape.bounds[2] for one in laid))


def zones_mm(what: Sequence[Unit], strips: Sequence[Strip], *, seed: int, budget_s: float) -> float:
    """Length in mm of the best lay that the search finds in so much processor time. Raises: ValueError."""
    chance = random.Random(seed)
    began_s = time.process_time()
    best_mm, problems = float("inf"), ""
    for run in range(RUNS):
        order = first_order(what)
        if run >= 2:
            chance.shuffle(order)
        touched = run % 2 == 0
        row_mm = sum(longest_mm(turn.part) + 2 * COLUMN_MM for turn in (*order, *order))
        now = Cloth(strips, row_mm, touched=touched).lay(order, float("inf"))
        if now is None:
            raise ValueError("no first lay on the grid")
        # No lay of use is longer: fewer cells, quicker transforms.
        cloth = Cloth(strips, end_mm(now) * 1.1, touched=touched)
        now_mm = least_mm = float("inf")
        while time.process_time() - began_s < budget_s * (run + 1) / RUNS or least_mm == float("inf"):
            tried = changed(order, what, chance, len(strips)) if now_mm < float("inf") else order
            laid = cloth.lay(tried, now_mm * LONGER_FOR_A_WHILE)
            if laid is None:
                continue
            order, now_mm = tried, end_mm(laid)
            if now_mm >= least_mm and chance.random() > LAID_AGAIN:
                continue
            least_mm = min(least_mm, now_mm)
            if now_mm > best_mm + 4 * COLUMN_MM:
                continue
            exact = from_outlines(laid, strips)
            wrong = [
                fault
                for of_strip, strip in zip(exact, strips, strict=True)
                if of_strip and (fault := faults(of_strip, strip.depth_mm))
            ]
            if wrong:
                problems = wrong[0]
            else:
                best_mm = min(best_mm, max(length_of(of_strip) for of_strip in exact if of_strip))
    if best_mm == float("inf"):
        raise ValueError(problems)
    return best_mm


Piece = tuple[Polygon, str, int, str]
"""Outline, mode, count and face of one line of the cutting list."""


def all_units(pieces: Sequence[Piece], strips: Sequence[Strip], *, nap: bool) -> list[Unit]:
    """What is to be laid of a whole cutting list. Raises: ValueError."""
    return [
        unit
        for outline, mode, count, face in pieces
        for unit in units(outline, mode, count, strips, nap=nap, face=face)
    ]


def overs_to_try(pieces: Sequence[Piece], bolt_width_mm: float, stored_mm: float) -> list[float]:
    """How far to fold over (mm): as in the stored lay, as little as the halves (or the narrowest piece) allow, in half,
    and two depths in between. By whole half centimetres, which a tape shows."""
    across_mm = [(mode, float(outline.bounds[3] - outline.bounds[1])) for outline, mode, _, _ in pieces]
    halves = [mm for mode, mm in across_mm if mode == "fold"]
    deepest_mm = max(halves, default=min(mm for _, mm in across_mm))
    least_mm = OVER_STEP_MM * np.ceil((deepest_mm + SELVEDGE_MM) / OVER_STEP_MM - 1e-6)
    half_mm = bolt_width_mm / 2
    between = [least_mm + (half_mm - least_mm) * share for share in (1 / 3, 2 / 3)]
    wished = [stored_mm, least_mm, half_mm, *(OVER_STEP_MM * round(mm / OVER_STEP_MM) for mm in between)]
    return list(dict.fromkeys(float(over_mm) for over_mm in wished if over_mm <= half_mm))


def part_folded_mm(
    pieces: Sequence[Piece], bolt_width_mm: float, stored_mm: float, *, nap: bool, seed: int, budget_s: float
) -> float:
    """Length in mm of the best lay on cloth folded over in part: half of the time goes to the depth of the stored lay,
    the rest to the others. Raises: ValueError."""
    found, (first, *others) = [], overs_to_try(pieces, bolt_width_mm, stored_mm)
    for over_mm in (first, *others):
        strips = strips_of("part-folded", bolt_width_mm, over_mm)
        try:
            what = all_units(pieces, strips, nap=nap)
        except ValueError:
            continue
        share = 0.5 if over_mm == first else 0.5 / len(others)
        found.append(zones_mm(what, strips, seed=seed, budget_s=budget_s * share))
    if not found:
        raise ValueError("a piece fits on no strip, however far the cloth is folded over")
    return min(found)


def longest_mm(part: Part) -> float:
    """Length along the grain."""
    return max(float(one.bounds[2] - one.bounds[0]) for shapes in part.shapes for one in shapes)


def first_order(what: Sequence[Unit]) -> list[Turn]:
    """Large pieces first; a pair is cut apart only where it must be."""
    turns = [
        Turn(unit=number, part=part)
        for number, unit in enumerate(what)
        for part in ((unit.whole,) if unit.whole.fits else unit.apart)
    ]
    return sorted(turns, key=lambda turn: -max(one.area for shapes in turn.part.shapes for one in shapes))


def changed(order: Sequence[Turn], what: Sequence[Unit], chance: random.Random, strips: int) -> list[Turn]:
    """Another order, pose, strip or cut."""
    tried = list(order)
    one, other = chance.randrange(len(tried)), chance.randrange(len(tried))
    move = chance.random()
    turn = tried[one]
    unit = what[turn.unit]
    if move < 0.3:
        tried[one], tried[other] = tried[other], tried[one]
    elif move < 0.55:
        tried.insert(other, tried.pop(one))
    elif move < 0.7 and strips > 1:
        takes = [number for number, shapes in enumerate(turn.part.shapes) if shapes]
        tried[one] = replace(turn, strip=chance.choice([None, *takes]))
    elif move < 0.8 and unit.apart and unit.whole.fits:
        if turn.part is unit.whole:
            first, second = (Turn(unit=turn.unit, part=part, pose=chance.randrange(4)) for part in unit.apart)
            tried[one] = first
            tried.insert(other, second)
        else:
            tried = [each for each in tried if each.unit != turn.unit]
            tried.insert(chance.randrange(len(tried) + 1), Turn(unit=turn.unit, part=unit.whole))
    else:
        tried[one] = replace(turn, pose=chance.randrange(4))
    return tried
