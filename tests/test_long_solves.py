"""Twenty answers drawn at random, against a longer solve of each by other means (`long_solves.py`, `other_solvers.py`).

An answer may be longer than its reference by 3 % or 5 cm, whichever is more: a purchase step. It may be shorter: the
references of folded cloth are made on a grid.
"""

from __future__ import annotations

import json
from functools import cache
from typing import Any

import pytest
from long_solves import (
    DATA,
    DRAWN,
    FEWEST_PIECES,
    PATTERNS,
    REFERENCES,
    Outlines,
    alike,
    cut_of,
    drawn,
    measured,
    outlines_of,
    raw_pattern,
    solved_apart,
)
from other_solvers import CELL_MM, Grid, Place, faults, folded_mm, places, pushed
from read_by_hand import naps_asked
from shapely import Polygon, box
from shapely.affinity import translate

from boltside.calculators.door import answer
from boltside.plan import LaysMissing, cache_of, run_pattern
from boltside.read.folder import read_pattern
from boltside.shop_lays import shop_pattern

LONGER_BY, LONGER_BY_MM = 0.03, 50.0
"""What covering and solving together may cost, against a longer solve. Our target."""


@cache
def outlines() -> dict[str, Outlines]:
    return {name: outlines_of(name) for name in PATTERNS}


def references() -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(REFERENCES.read_text(encoding="utf-8"))
    return found


def test_references_are_those_of_the_requests_that_the_seed_draws() -> None:
    requests = list(drawn(outlines()))
    assert [one["request"] for one in references()] == requests
    assert len(requests) == DRAWN
    assert sum(one["way"] == "flat" for one in requests) == DRAWN / 2
    for one in references():
        request = one["request"]
        shapes, size = outlines()[request["pattern"]], request["size"]
        raw = raw_pattern(request["pattern"])
        pieces = cut_of(raw, shapes, request["cloth"], size, request["choices"])
        assert sum(count for _, count in pieces.values()) >= FEWEST_PIECES
        assert alike(one["pieces"], measured(shapes, pieces, size)), f"{request}: redrawn; run long_solves.py"


@pytest.mark.outside  # the packing library itself, and a search on a grid; see the head of the file
@pytest.mark.parametrize("number", range(DRAWN))
def test_answer_is_near_a_longer_solve(number: int) -> None:
    one = references()[number]
    request = one["request"]
    sheet = opened(request["pattern"])
    dear = dear_nodes(request["pattern"]).get((request["cloth"], request["size"]), 0)
    if dear:
        # A shop can be built before all lays are made; it says so, and what that costs at most.
        pytest.skip(f"lays of {request['pattern']} are still to be made: {dear} demands cost more than they may")
    asked = {key: request[key] for key in ("pattern", "size", "choices")} | {"unit": "cm"}
    cloth = request["cloth"]
    asked["cloths"] = {cloth: {"width": f"{request['width_mm']} mm", "way": request["way"], "nap": request["nap"]}}
    said = {fragment["id"]: fragment for fragment in json.loads(answer("cloth", json.dumps(asked)))["fragments"]}
    data = said[f"cloth.{cloth}"]["data"]
    raw = raw_pattern(sheet)
    assert data["nap_used"] == naps_asked(raw, cloth, request["choices"])[request["nap"]]
    reference_mm = one["length_mm"]
    print(f"{data['needed_mm']} mm, longer solve {reference_mm} mm: {data['needed_mm'] / reference_mm - 1:+.1%}")
    assert data["needed_mm"] <= reference_mm + max(LONGER_BY * reference_mm, LONGER_BY_MM)


@cache
def dear_nodes(name: str) -> dict[tuple[str, str], int]:
    """By cloth and size: how many demands cost more than covering may, because lays are still to be made."""
    folder = DATA / "patterns" / name
    try:
        lays = run_pattern(
            read_pattern(folder, DATA / "body_charts"),
            folder,
            quality="everyday",  # a full run lays quickly what is left at its end
            only_stored=True,
            cache_dir=cache_of(DATA),
        )
    except LaysMissing:
        return {}  # the next test says which
    return {(key.cloth, key.size): plan.wanting for key, plan in lays.plans.items()}


@cache
def opened(name: str) -> str:
    """The pattern's name, its sheet being open to the calculators."""
    folder = DATA / "patterns" / name
    try:
        made = shop_pattern(read_pattern(folder, DATA / "body_charts"), folder, cache_dir=cache_of(DATA))
    except LaysMissing:
        if (folder / "lays.journal").exists():
            pytest.skip(f"{name}: the lays are being solved")
        raise
    assert json.loads(answer("open", json.dumps(made.sheet))) == {"opened": name}
    return name


# The search on the grid itself, on lays that are right on paper.

HALF = Polygon([(0, 0), (200, 0), (200, 300), (0, 300)])
TRIANGLE = Polygon([(0, 0), (400, 0), (0, 300)])


@pytest.mark.outside
@pytest.mark.parametrize(
    ("what", "usable_mm", "paper_mm"),
    [
        # Halves as wide as the cloth, in a row on the fold: 2 x 200.
        (places(HALF, "a", "fold", 2, "folded", "without"), 300.0, 400.0),
        # A half and beside it, away from the fold, the one place of a pair: 600 across.
        (places(HALF, "a", "fold", 1, "folded", "with") + places(HALF, "b", "pair", 2, "folded", "with"), 610.0, 200.0),
        # Two halves would lie above each other, but both must touch the fold: 2 x 200.
        (places(HALF, "a", "fold", 2, "folded", "without"), 610.0, 400.0),
        # Two pairs with nap: turned over, not round, so the second begins where the first one's side ends.
        (places(TRIANGLE, "a", "pair", 4, "folded", "with"), 300.0, 800.0),
    ],
)
def test_grid_search_on_paper_lays(what: list[Place], usable_mm: float, paper_mm: float) -> None:
    assert folded_mm(what, usable_mm, seed=1, budget_s=0.3) == pytest.approx(paper_mm, abs=0.2)


@pytest.mark.outside
@pytest.mark.parametrize(
    ("what", "usable_mm", "paper_mm"),
    [
        # Unfolded the half is 600 across: two in a row.
        (places(HALF, "a", "fold", 2, "flat", "without"), 602.0, 400.0),
        # Both of a pair beside each other.
        (places(HALF, "a", "pair", 2, "flat", "with"), 602.0, 200.0),
        # Of a mirrored pair each is 400 long at one selvedge: in a row.
        (places(TRIANGLE, "a", "pair", 2, "flat", "without"), 301.0, 800.0),
    ],
)
def test_packing_library_on_paper_lays(what: list[Place], usable_mm: float, paper_mm: float) -> None:
    found_mm = solved_apart(what, "flat", usable_mm, seed=1, budget_s=0.5)
    assert found_mm == pytest.approx(paper_mm, rel=0.005)


def test_a_pair_on_flat_cloth_is_drawn_and_mirrored_and_nap_leaves_one_pose() -> None:
    free, napped = (places(TRIANGLE, "a", "pair", 4, "flat", nap) for nap in ("without", "with"))
    assert [len(one.poses) for one in free] == [2] * 4
    assert [len(one.poses) for one in napped] == [1] * 4
    assert sorted(one.poses[0].bounds[1] for one in napped) == [-300, -300, 0, 0]


def test_wrong_lays_are_seen_and_pieces_pushed_together() -> None:
    square = box(0, 0, 100, 100)
    assert faults([square, translate(square, 100)], 100) == ""
    assert "overlap" in faults([square, translate(square, 99)], 100)
    assert "reaches" in faults([translate(square, 0, 1)], 100)
    apart = pushed([translate(square, 30), translate(square, 190)])
    assert max(one.bounds[2] for one in apart) == pytest.approx(200, abs=0.2)
    grid = Grid(usable_mm=100 + 2 * CELL_MM, columns=100)
    assert grid.cells(square)[0].shape == (34, 34)
