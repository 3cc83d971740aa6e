"""Cloth on the table, held against what folding can't change: how wide it is in all."""

from __future__ import annotations

import pytest

from boltside.calculators.strips import on_table


@pytest.mark.outside  # geometry, on paper: all layers together are as wide as the bolt
@pytest.mark.parametrize(
    ("way", "fold_over"),
    [("flat", None), ("folded", None), ("middle", None), ("part-folded", 320), ("part-folded", 55), ("part-folded", 2)],
)
@pytest.mark.parametrize("width", [900, 1100, 1400, 1500])
def test_layers_are_together_as_wide_as_the_bolt(way: str, fold_over: int | None, width: int) -> None:
    table = on_table(way, width, fold_over)
    each = [table.layers(place - table.from_mm) for place in range(table.cloth_mm)]
    assert sum(each) == width


@pytest.mark.outside  # geometry, on paper
@pytest.mark.parametrize(
    ("way", "fold_over", "wide", "folds", "selvedges"),
    # A bolt of 1400. Flat: selvedges at both edges. Folded once: 700, a fold and both selvedges on it. Both selvedges
    # to the middle: 700, a fold at each edge, the selvedges at 350. 320 folded over: 1400 - 320 = 1080, the turned
    # selvedge at 320, the other at 1080. From half on that is folding once.
    [
        ("flat", None, 1400, (), (0, 1400)), ("folded", None, 700, (0,), (700,)),
        ("middle", None, 700, (0, 700), (350,)),
        ("part-folded", 320, 1080, (0,), (320, 1080)), ("part-folded", 700, 700, (0,), (700,)),
    ],
)  # fmt: skip
def test_folds_and_selvedges_lie_where_they_do_on_paper(
    way: str, fold_over: int | None, wide: int, folds: tuple[int, ...], selvedges: tuple[int, ...]
) -> None:
    table = on_table(way, 1400, fold_over)
    assert (table.cloth_mm, table.folds_mm, table.selvedges_mm) == (wide, folds, selvedges)
    # Paper folded in the same way: how many layers lie 10 mm beside the left edge, and beside the right one.
    beside = (table.layers(10), table.layers(wide - 10 - table.from_mm))
    assert beside == {"flat": (1, 1), "part-folded": (2, 1)}.get(way if wide != 700 else "", (2, 2))
