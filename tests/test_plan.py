"""What is published from finished lays: laws, and the demo's own figures against what was laid."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltside.lay.brackets import Cover, CoverPlan
from boltside.lay.model import Lay
from boltside.measure.cutting_list import cut_lines
from boltside.pattern import Pattern
from boltside.plan import LaysMissing, PlanKey, cloth_demand, published_lays, shop_sheets, short_list
from boltside.read.folder import read_pattern

GARMENT = Path(__file__).parent / "garment" / "data"
DATA = Path(__file__).parents[1] / "data"
MILLRACE = read_pattern(DATA / "patterns" / "millrace", DATA / "body_charts")
FULL = frozenset({"panel-full.outer", "band.outer"})
HALF = frozenset({"panel-half.outer", "band.outer"})


def made(length_mm: float, way: str = "flat") -> Lay:
    return Lay(length_mm=length_mm, placements=(), way=way, bolt_width_mm=1400, one_way=False)  # type: ignore[arg-type]


def results(pattern: Pattern, lengths: dict[tuple[str, float, frozenset[str]], float]) -> dict[PlanKey, CoverPlan]:
    found: dict[PlanKey, CoverPlan] = {}
    cloth = pattern.cloths[0]
    for size in pattern.sizes:
        for width_mm in cloth.widths_mm:
            covers = {
                ids: Cover(laid=ids, lay=made(length))
                for (of_size, of_width, ids), length in lengths.items()
                if (of_size, of_width) == (size, width_mm)
            }
            key = PlanKey(pattern=pattern.folder, cloth=cloth.name, way="flat", size=size, width_mm=width_mm)
            found[key] = CoverPlan(laid={ids: cover.lay for ids, cover in covers.items()}, covers=covers)
    return found


CELLS = [(s, w, ids) for s in MILLRACE.sizes for w in MILLRACE.cloths[0].widths_mm for ids in (FULL, HALF)]


@settings(deadline=None, max_examples=60)
@given(st.lists(st.floats(100, 3000), min_size=len(CELLS), max_size=len(CELLS)))
def test_published_never_grows_with_width_nor_shrinks_with_size_nor_falls_short_of_every_lay(mm: list[float]) -> None:
    laid = dict(zip(CELLS, mm, strict=True))
    sheet = published_lays(MILLRACE, results(MILLRACE, laid))[MILLRACE.cloths[0].name]
    sets = [frozenset(ids) for ids in sheet["sets"]]
    widths = sorted(MILLRACE.cloths[0].widths_mm)
    table = {
        (size, width, sets[number]): length
        for size, of_size in sheet["lengths"]["flat"].items()
        for width, rows in of_size.items()
        for number, length in rows
    }
    for ids in (FULL, HALF):
        for size in MILLRACE.sizes:
            row = [table[size, f"{width:g}", ids] for width in widths]
            assert row == sorted(row, reverse=True)
            for at in range(len(widths)):
                # Some lay of this size, on cloth no wider, is no longer than what is published.
                assert min(laid[size, narrower, ids] for narrower in widths[: at + 1]) <= row[at] + 1e-6
        for width in widths:
            column = [table[size, f"{width:g}", ids] for size in MILLRACE.sizes]
            assert column == sorted(column)


def test_lengths_are_rounded_up_to_whole_millimetres() -> None:
    laid = dict.fromkeys(CELLS, 500.01)
    sheet = published_lays(MILLRACE, results(MILLRACE, laid))[MILLRACE.cloths[0].name]
    assert {length for rows in sheet["lengths"]["flat"]["86"].values() for _, length in rows} == {501}
    laid = dict.fromkeys(CELLS, 500.0)
    sheet = published_lays(MILLRACE, results(MILLRACE, laid))[MILLRACE.cloths[0].name]
    assert {length for rows in sheet["lengths"]["flat"]["86"].values() for _, length in rows} == {500}


def test_a_set_that_fits_nowhere_is_absent() -> None:
    laid = {cell: 500.0 for cell in CELLS if cell[1] > 1100}
    sheet = published_lays(MILLRACE, results(MILLRACE, laid))[MILLRACE.cloths[0].name]
    assert sheet["lengths"]["flat"]["86"]["1100"] == []
    assert len(sheet["lengths"]["flat"]["86"]["1350"]) == 2


def test_each_set_that_can_be_asked_for_is_in_the_demand() -> None:
    demand = cloth_demand(MILLRACE, cut_lines(MILLRACE), MILLRACE.cloths[0].name, "86")
    assert {one.item_ids for one in demand.reachable} == {FULL, HALF}
    assert {one.choices["fullness"]: one.item_ids for one in demand.reachable} == {"full": FULL, "half": HALF}
    assert set(demand.items) == FULL | HALF


def test_without_lays_nothing_is_published_and_the_text_says_what_to_do() -> None:
    with pytest.raises(LaysMissing) as caught:
        shop_sheets(GARMENT)
    assert "not laid yet" in str(caught.value)
    assert "run `boltside lay oblong`" in str(caught.value)


def test_a_long_list_is_cut_and_counted() -> None:
    text = short_list("quay", "\n".join(f"lay {number}" for number in range(11)))
    assert text.splitlines() == [
        *(f"lay {number}" for number in range(8)),
        "… and 3 more",
        "quay: 11 lays are not there; run `boltside lay quay`",
    ]
