"""Every seam of the shop's own patterns, in every size and every combination of choices that is offered."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltside.measure.combinations import combinations
from boltside.measure.garment import make_garment
from boltside.measure.seams import check_seams
from boltside.read.folder import read_pattern

DATA = Path(__file__).parents[1] / "data"


@pytest.mark.parametrize("name", ["breakwater", "ferrylight", "millrace", "windlass", "wrackline"])
def test_every_seam_of_the_demos_fits_in_every_allowed_combination(name: str) -> None:
    pattern = read_pattern(DATA / "patterns" / name, DATA / "body_charts")
    named = {seam.name for seam in pattern.seams}
    misses = []
    checked = 0
    for size in pattern.sizes:
        for chosen in combinations(pattern, [choice.name for choice in pattern.choices], size):
            for seam in check_seams(make_garment(pattern, size, chosen)):
                checked += 1
                named.discard(seam.name)
                if not seam.holds:
                    misses.append(f"{size} {chosen} {seam.name}: {seam.problem}")
    assert checked > 0
    assert misses == []
    assert named == set(), "every seam is sewn in some combination"
