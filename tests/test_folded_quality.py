"""What the count of stored folded lays (`folded_quality.py`) counts."""

from __future__ import annotations

import pytest
from folded_quality import Bounds, Stored, bounds_of, share

from boltside.lay.model import Lay, LayItem, LayRequest, Way


def rectangle(item_id: str, along: float, across: float, mode: str, count: int) -> LayItem:
    outline = ((0.0, 0.0), (along, 0.0), (along, across), (0.0, across))
    return LayItem(item_id=item_id, outline_mm=outline, mode=mode, count=count)  # type: ignore[arg-type]


def stored(way: Way, length_mm: float, *items: LayItem, bolt_mm: float = 900.0) -> Stored:
    request = LayRequest(items=items, bolt_width_mm=bolt_mm, way=way, one_way=True)
    lay = Lay(length_mm=length_mm, placements=(), way=way, bolt_width_mm=bolt_mm, one_way=True)
    return Stored(name="a lay", pattern="a pattern", request=request, lay=lay, bounds=bounds_of(request))


HALVES = (rectangle("a", 300, 200, "fold", 1), rectangle("b", 200, 200, "fold", 1))
PAIR = rectangle("c", 400, 100, "pair", 2)


@pytest.mark.outside  # worked out on paper
@pytest.mark.parametrize(
    ("way", "bounds"),
    [
        # Folded in half 435 deep: two halves in a row, and 140,000 mm2 on the table.
        ("folded", Bounds(row_mm=500, longest_mm=400, area_mm=140_000 / 435)),
        # A half on each fold; in both layers 280,000 mm2, on 870 mm of cloth.
        ("middle", Bounds(row_mm=300, longest_mm=400, area_mm=280_000 / 870)),
        ("part-folded", Bounds(row_mm=500, longest_mm=400, area_mm=280_000 / 870)),
    ],
)
def test_bounds_on_paper(way: Way, bounds: Bounds) -> None:
    made = stored(way, 600, *HALVES, PAIR).bounds
    assert made.row_mm == pytest.approx(bounds.row_mm, abs=0.01)
    assert made.longest_mm == pytest.approx(bounds.longest_mm, abs=0.01)
    assert made.area_mm == pytest.approx(bounds.area_mm, abs=0.01)


def test_the_area_rules_only_where_it_is_greater_than_both_others() -> None:
    assert Bounds(row_mm=5, longest_mm=4, area_mm=5).ruled_by == "row"
    assert Bounds(row_mm=4, longest_mm=5, area_mm=3).ruled_by == "longest"
    assert Bounds(row_mm=4, longest_mm=5, area_mm=6).ruled_by == "area"


def test_what_is_counted() -> None:
    """In half 435: a pair 240 across does not fit beside halves of 200, 700 is the shortest row of all.
    The pairs take 500 x 400 mm2 of cloth 435 deep, at least 459.8 long."""
    wide = rectangle("c", 200, 240, "pair", 2)
    lays = [
        stored("folded", 500.2, *HALVES, PAIR),
        stored("folded", 510, *HALVES, PAIR),
        stored("folded", 700.2, *HALVES, wide),
        stored("folded", 505, rectangle("a", 300, 400, "pair", 2), rectangle("b", 200, 400, "pair", 2)),
    ]
    assert share(lays) == [
        "folded, a pattern: 4 lays, 1 at the bound (25.0%), the others 17.3% above it in the mean, 40.0% at most",
        "  the row along a fold rules in 3 lays, 1 at the bound (33.3%), "
        "the others 21.0% above it in the mean, 40.0% at most",
        "    cloth of that length at most 70% full: 3 lays, 1 at the bound (33.3%), "
        "the others 21.0% above it in the mean, 40.0% at most",
        "      of the others as short as a row with pieces too wide to lie beside it: 1",
        "  the area rules in 1 lays, 0 at the bound (0.0%), the others 9.8% above it in the mean, 9.8% at most",
    ]


def test_a_lay_shorter_than_a_row_of_its_pieces_is_seen() -> None:
    with pytest.raises(AssertionError, match="shorter than nothing can be"):
        assert stored("folded", 650, *HALVES, rectangle("c", 200, 240, "pair", 2)).at_wide_row
