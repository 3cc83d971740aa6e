"""A stored lay whose key differs by rounding only is found, verified and used; a changed piece is laid anew."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltside.lay.brackets import CoverSearch
from boltside.lay.lattice import AskedSet
from boltside.lay.model import LayItem, LayRequest
from boltside.lay.run import LaysFailed, run_plans
from boltside.lay.solve import alike, lay_key, likeness
from boltside.lay.store import LayStore, Receipts

Corner = tuple[float, float]
CORNERS: tuple[Corner, ...] = ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (0.0, 200.0))


def item(moved_mm: float = 0.0) -> LayItem:
    """A rectangle whose last corner is moved a little."""
    corners = (*CORNERS[:3], (moved_mm, 200.0 - moved_mm))
    return LayItem(item_id="front.outer", outline_mm=corners, mode="single", count=1)


def run(folder: Path, moved_mm: float, *, only_stored: bool) -> float:
    asked = [AskedSet(item_ids=frozenset({"front.outer"}), naps=frozenset({False}))]
    search = CoverSearch({"front.outer": item(moved_mm)}, asked, widths_mm=[1030], ways=["folded"])
    found = run_plans(
        {"quay, outer, size 92": search},
        store=LayStore(folder / "lays.json"),
        receipts=Receipts(None),
        only_stored=only_stored,
        workers=1,
    )
    return next(iter(found["quay, outer, size 92"].covers.values())).length_mm


def request(moved_mm: float) -> LayRequest:
    return LayRequest(items=(item(moved_mm),), bolt_width_mm=1030, way="folded", one_way=False)


def test_a_hair_of_rounding_changes_the_key_but_not_the_lay(tmp_path: Path) -> None:
    length_mm = run(tmp_path, 0.0, only_stored=False)
    assert lay_key(request(0.0), "full") != lay_key(request(0.01), "full")
    assert run(tmp_path, 0.01, only_stored=True) == length_mm


@pytest.mark.parametrize("moved_mm", [0.5, 5.0])
def test_a_changed_piece_is_not_laid_from_the_store(tmp_path: Path, moved_mm: float) -> None:
    run(tmp_path, 0.0, only_stored=False)
    with pytest.raises(LaysFailed, match="not laid yet, and no other lay serves it"):
        run(tmp_path, moved_mm, only_stored=True)


def test_alike_looks_at_maker_items_sides_and_area() -> None:
    like = likeness(request(0.0), "full")
    assert alike(like, likeness(request(0.01), "full"))
    assert not alike(like, likeness(request(0.0), "draft"))
    other = {**like, "shapes": {"back.outer": like["shapes"]["front.outer"]}}
    assert not alike(like, other)
    length, width, area = like["shapes"]["front.outer"]
    for changed in ([length + 4, width, area], [length, width - 4, area], [length, width, area + 6]):
        assert not alike(like, {**like, "shapes": {"front.outer": changed}}), changed
