"""The third method for folded cloth (`nudged.py`), on lays that are right on paper."""

from __future__ import annotations

import pytest
from nudged import along, nudged_mm
from other_solvers import faults
from shapely import box
from shapely.affinity import translate

pytestmark = pytest.mark.outside  # worked out on paper, beside each


def test_a_piece_that_a_nudge_brings_past_the_half_lies_beside_it() -> None:
    """Cloth 435 deep. A pair of 235 lies a millimetre too low to pass the half of 200: 600; pushed up, 300."""
    placed = [(box(0, 0, 300, 200), True), (box(300, 199, 600, 434), False)]
    assert nudged_mm(placed, 435.0, seed=1, budget_s=1.0) == pytest.approx(300, abs=0.2)


def test_a_half_is_not_moved_from_the_fold() -> None:
    """Two halves of 200 on 435 would lie above each other."""
    placed = [(box(0, 0, 300, 200), True), (box(300, 0, 600, 200), True)]
    assert nudged_mm(placed, 435.0, seed=1, budget_s=0.2) == pytest.approx(600, abs=0.2)


def test_pieces_go_along_as_far_as_those_before_let_them() -> None:
    square = box(0, 0, 100, 100)
    laid = along([translate(square, 20), translate(square, 150), translate(square, 40, 120)])
    assert laid is not None and faults(laid, 220) == ""
    assert [round(one.bounds[2]) for one in laid] == [100, 200, 100]
