"""The bound of rows with wide pieces (`wide_rows.py`), on paper and beside the engine's row of halves."""

from __future__ import annotations

import pytest
from other_zones import Piece
from shapely import Polygon, box
from wide_rows import wide_row_mm

from boltside.lay.bounds import fold_chain_mm
from boltside.lay.model import LayItem, LayRequest
from boltside.lay.slots import slots_of

pytestmark = pytest.mark.outside  # worked out on paper, beside each

TRIANGLE = Polygon([(0, 0), (400, 0), (0, 300)])


def half(along_mm: float, across_mm: float) -> Piece:
    return (box(0, 0, along_mm, across_mm), "fold", 1, "up")


def pair(along_mm: float, across_mm: float) -> Piece:
    return (box(0, 0, along_mm, across_mm), "pair", 2, "up")


@pytest.mark.parametrize(
    ("pieces", "way", "bolt_mm", "paper_mm"),
    [
        # In half 435: 200 + 236 do not lie beside each other.
        ([half(300, 200), pair(250, 236)], "folded", 900, 550),
        # 200 + 235 just do, but two of 235 do not: one of them beside the half, one behind the other.
        ([half(300, 200), pair(250, 235), pair(240, 235)], "folded", 900, 490),
        # Nothing is too wide.
        ([half(300, 200), pair(250, 100)], "folded", 900, 0),
        # To the middle, 210: the pair goes beside the shorter half's strip, or rather behind it.
        ([half(300, 200), half(200, 200), pair(250, 150)], "middle", 900, 450),
        # Folded over 21.5 cm, at least, 455 are left single at most: what is wider lies behind the half.
        ([half(300, 200), (box(0, 0, 250, 430), "single", 1, "up")], "part-folded", 900, 0),
        ([half(300, 260), (box(0, 0, 250, 350), "single", 1, "up")], "part-folded", 890, 550),
    ],
)
def test_rows_on_paper(pieces: list[Piece], way: str, bolt_mm: float, paper_mm: float) -> None:
    assert wide_row_mm(pieces, way, bolt_mm, nap=False) == pytest.approx(paper_mm, abs=0.1)


def test_wide_triangles_nest_head_to_foot_and_with_nap_in_part() -> None:
    """Cloth of 300 in half, pieces as wide. Turned round, both begin together; with nap the second, whichever way over,
    begins where the first one's side ends."""
    two = [(TRIANGLE, "pair", 4, "up")]
    assert wide_row_mm(two, "folded", 630.0, nap=False) == pytest.approx(400, abs=0.1)
    assert wide_row_mm(two, "folded", 630.0, nap=True) == pytest.approx(800, abs=0.1)
    # On 30 more across the second may lie 30 higher and, there, the first one's slope is 40 further back.
    assert wide_row_mm(two, "folded", 690.0, nap=True) == pytest.approx(760, abs=0.1)


def test_halves_alone_are_the_engines_row() -> None:
    """With a strip too wide to lie beside anything the row is that of the halves and the strip's length more."""
    items = [
        LayItem(item_id="a", outline_mm=((0, 0), (200, 0), (400, 300), (0, 300)), mode="fold", count=1),
        LayItem(item_id="b", outline_mm=((100, 0), (300, 0), (200, 350), (0, 250)), mode="fold", count=2),
    ]
    chain_mm = fold_chain_mm(slots_of(LayRequest(items=tuple(items), bolt_width_mm=800, way="folded", one_way=True)))
    pieces = [(Polygon(one.outline_mm), str(one.mode), one.count, "up") for one in items]
    whole_mm = wide_row_mm([*pieces, pair(50, 370)], "folded", 770.0, nap=True)
    assert whole_mm == pytest.approx(chain_mm + 50, abs=0.1)
