"""Where pieces on the fold overlap: against shapely, and on paper."""

import random

import pytest
from pieces_for_lays import half_back, sleeve
from shapely import Polygon
from shapely.affinity import translate

from boltside.lay.fold_steps import overlaps_along
from boltside.lay.model import Outline
from boltside.lay.nofit import FINE_PER_MM, Shape, shape_of

HOOK: Outline = ((0, 0), (200, 0), (200, 200), (0, 200), (0, 120), (120, 120), (120, 80), (0, 80))
"""A half with a bay open to its left, 40 wide."""
FINGER: Outline = ((0, 0), (50, 0), (50, 90), (150, 90), (150, 110), (0, 110))
"""A half with a finger to its right, 20 wide, that fits into the bay."""


def in_mm(shape: Shape) -> Polygon:
    return Polygon([(x / FINE_PER_MM, y / FINE_PER_MM) for x, y in shape])


@pytest.mark.outside  # shapely
@pytest.mark.parametrize("seed", range(12))
def test_offsets_are_told_exactly_where_shapely_sees_an_overlap(seed: int) -> None:
    chance = random.Random(seed)
    first, second = (shape_of(chance.choice([half_back(), sleeve(), HOOK, FINGER]))[0] for _ in range(2))
    still, moving = in_mm(first), in_mm(second)
    stretches = overlaps_along(first, second)
    ends = [end for stretch in stretches for end in stretch]
    tried = [round(chance.uniform(-1000, 1000) * FINE_PER_MM) for _ in range(40)]
    tried += [end + off for end in chance.sample(ends, min(20, len(ends))) for off in (-500, 500)]
    for step in tried:
        shared_mm2 = still.intersection(translate(moving, step / FINE_PER_MM)).area
        told = any(start <= step < end for start, end in stretches)
        assert told == (shared_mm2 > 1e-6), (step, shared_mm2)


def test_a_finger_rests_in_a_bay() -> None:
    """The bay is 120 deep and the finger stands out by 100, so the two bodies meet first: 50 on."""
    stretches = overlaps_along(shape_of(FINGER)[0], shape_of(HOOK)[0])
    assert not any(start <= 50 * FINE_PER_MM < end for start, end in stretches)
    assert any(start <= 49.99 * FINE_PER_MM < end for start, end in stretches)
