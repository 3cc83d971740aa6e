"""Rows of pieces along the cloth: on paper, and the law that a repeat for each row brings every lay in step."""

import math
import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, affinity

from boltside.lay import rows
from boltside.lay.folded import solve_by_filling
from boltside.lay.model import GRID_PER_MM, Lay, LayItem, LayRequest, Outline, Placement
from boltside.lay.rows import rows_in_turn
from boltside.lay.slide import edges_facing, slide_room

BOX = ((0, 0), (100, 0), (100, 100), (0, 100))
HOOK = ((0, 0), (100, 0), (100, 100), (70, 100), (70, 30), (0, 30))
"""An L: its foot is 100 along the cloth, its stem, at the far end, 100 across."""


def lay_of(*at: tuple[str, float, float], turned: tuple[str, ...] = ()) -> Lay:
    placements = tuple(
        Placement(item_id=item_id, copy=copy, x_mm=x, y_mm=y, turned=item_id in turned, mirrored=False)
        for copy, (item_id, x, y) in enumerate(at)
    )
    return Lay(length_mm=1000, placements=placements, way="flat", bolt_width_mm=1000, one_way=True)


def items(**outlines: Outline) -> dict[str, LayItem]:
    return {
        name: LayItem(item_id=name, outline_mm=outline, mode="single", count=9) for name, outline in outlines.items()
    }


@pytest.mark.outside  # source: counted on paper
@pytest.mark.parametrize(
    ("lay", "rows"),
    [
        (lay_of(("a", 0, 0)), 0),
        (lay_of(("a", 0, 0), ("a", 0, 100), ("a", 0, 200)), 0),  # side by side and alike: in step as they lie
        (lay_of(("a", 0, 0), ("a", 10, 100)), 1),  # alike, and 10 out of step
        (lay_of(("a", 0, 0), ("b", 0, 100)), 1),  # two different ones side by side
        (lay_of(("a", 0, 0), ("b", 0, 99.96)), 1),  # they share a hair of rounding
        (lay_of(("a", 0, 0), ("b", 100, 0)), 2),
        (lay_of(("a", 0, 0), ("b", 250, 0)), 2),
        (lay_of(("a", 0, 0), ("a", 0, 100), ("b", 100, 50)), 2),
        # A staircase: no line meets more than two, yet each pushes the next.
        (lay_of(("a", 0, 0), ("a", 100, 50), ("a", 200, 100), ("a", 300, 150)), 4),
        # Two rows apart from each other: the longer one counts.
        (lay_of(("a", 0, 0), ("a", 100, 0), ("b", 0, 300), ("b", 100, 300), ("b", 200, 300)), 3),
    ],
)
def test_rows_of_boxes(lay: Lay, rows: int) -> None:
    assert rows_in_turn(lay, items(a=BOX, b=BOX)) == rows


@pytest.mark.outside  # source: counted on paper
def test_pieces_hooked_into_one_another_follow_each_other_both_ways() -> None:
    """The stem of the turned L lies between the other's stem and a third piece's: neither can move without the other.

    The first: foot at y 0 to 30, stem at x 70 to 100 and y 0 to 100. Turned, at (100, 135): stem at x 0 to 30 and y 35
    to 135, foot at y 105 to 135. So the first's stem lies beyond the turned one's, and nothing else does.
    """
    pieces = items(a=HOOK, b=HOOK, c=BOX)
    assert rows_in_turn(lay_of(("a", 0, 0), ("b", 100, 135), turned=("b",)), pieces) == 2
    # Now a U holds a box: moved on, each meets the other.
    pieces |= items(u=((0, 0), (200, 0), (200, 150), (170, 150), (170, 30), (30, 30), (30, 150), (0, 150)))
    assert rows_in_turn(lay_of(("u", 0, 0), ("c", 40, 40)), pieces) == 2
    assert rows_in_turn(lay_of(("u", 0, 0), ("c", 40, 40), ("c", 200, 0)), pieces) == 3


def random_items(chance: random.Random) -> dict[str, LayItem]:
    """Pieces without hollows: boxes, triangles and the like, singles, pairs and halves."""
    made = {}
    for number in range(chance.randint(1, 4)):
        long, wide, cut = chance.randint(40, 250), chance.randint(40, 200), chance.uniform(0, 0.9)
        outline = ((0, 0), (long, 0), (long * (1 - cut), wide), (0, wide))
        mode, count = chance.choice([("single", 1), ("single", 2), ("pair", 2), ("fold", 1)])
        name = f"p{number}"
        made[name] = LayItem(item_id=name, outline_mm=outline, mode=mode, count=count)  # type: ignore[arg-type]
    return made


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6))
def test_a_repeat_for_each_row_brings_every_lay_in_step(seed: int) -> None:
    """Pieces are moved on one after the other, no further than they must, wherever their marks are; looked at with
    shapely. A piece is moved once all that it would be pushed by have been. Where the pattern begins is anybody's
    choice: here chance's, but where nothing is to move it begins at the first mark."""
    chance = random.Random(seed)
    pieces = random_items(chance)
    way = chance.choice(["flat", "folded"])
    request = LayRequest(items=tuple(pieces.values()), bolt_width_mm=630, way=way, one_way=True)  # type: ignore[arg-type]
    lay = solve_by_filling(request, trials=3)
    repeat_mm = chance.choice([15.0, 40.0, 107.95, 320.0])
    marks = {name: chance.uniform(0, 250) for name in pieces}
    shapes = [(marks[one.item_id], _lying(pieces[one.item_id], one, way)) for one in lay.placements]
    rows = rows_in_turn(lay, pieces)
    begins_mm = chance.uniform(0, repeat_mm) if rows else shapes[0][0] + shapes[0][1].bounds[0]
    assert _brought_in_step(shapes, repeat_mm, begins_mm) <= lay.length_mm + repeat_mm * rows + 0.1


def _lying(item: LayItem, at: Placement, way: str) -> Polygon:
    shape = Polygon(item.outline_mm)
    if item.mode == "fold" and way == "flat":
        shape = shape.union(affinity.scale(shape, yfact=-1, origin=(0, 0)))
    if at.mirrored:
        shape = affinity.scale(shape, yfact=-1, origin=(0, 0))
    if at.turned:
        shape = affinity.rotate(shape, 180, origin=(0, 0))
    return affinity.translate(shape, at.x_mm, at.y_mm)


def _brought_in_step(shapes: list[tuple[float, Polygon]], repeat_mm: float, begins_mm: float) -> float:
    """The length when each mark, told from where its piece begins, lies whole repeats from a place."""
    left = list(range(len(shapes)))
    done: list[Polygon] = []
    while left:
        now = next(one for one in left if not any(_lies_behind(shapes[o][1], shapes[one][1]) for o in left if o != one))
        left.remove(now)
        mark, shape = shapes[now]
        moved = affinity.translate(shape, (begins_mm - mark - shape.bounds[0]) % repeat_mm)
        while any(moved.intersection(other).area > 1 for other in done):
            moved = affinity.translate(moved, repeat_mm)
        done.append(moved)
    return max(float(shape.bounds[2]) for shape in done)


def _lies_behind(one: Polygon, other: Polygon) -> bool:
    """Whether the first, moved on, pushes the second. Without hollows, any line that both lie on tells."""
    low, high = max(one.bounds[1], other.bounds[1]), min(one.bounds[3], other.bounds[3])
    if high - low < 0.1:
        return False
    line = LineString([(-9999, (low + high) / 2), (9999, (low + high) / 2)])
    return bool(one.intersection(line).centroid.x < other.intersection(line).centroid.x)


def test_what_pushes_what_is_the_same_as_by_sliding_one_up_to_the_other() -> None:
    chance = random.Random(7)
    outlines: list[Outline] = [
        ((0, 0), (300, 0), (300, 200), (200, 200), (200, 80), (100, 80), (100, 200), (0, 200)),
        ((0, 0), (250, 40), (180, 160), (60, 210), (10, 120)),
        HOOK,
    ]
    seen = {True: 0, False: 0}
    while min(seen.values()) < 100:
        one, other = chance.choice(outlines), chance.choice(outlines)
        along, across = chance.randint(-300, 300), chance.randint(-220, 220)
        if Polygon(one).intersects(affinity.translate(Polygon(other), along, across)):
            continue
        on, back = (
            edges_facing(np.rint(np.array(outline) * GRID_PER_MM), axis=0, forward=forward)
            for outline, forward in ((one, True), (other, False))
        )
        offset = round(along * GRID_PER_MM), round(across * GRID_PER_MM)
        meets = rows._meets(rows._Side(on, np.argmin), rows._Side(back, np.argmax), *offset)
        assert meets == (not math.isinf(slide_room(back, on, *offset))), (one, other, along, across)
        seen[meets] += 1
