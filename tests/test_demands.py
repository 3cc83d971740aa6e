"""Every set of pieces that choices can ask for is in the demand, with the nap that they say."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from boltside.demands import PlanKey, cloth_demand, demands, search_for
from boltside.measure.cutting_list import cut_lines
from boltside.pattern import NapCase
from boltside.read.folder import read_pattern

DATA = Path(__file__).parents[1] / "data"
MILLRACE = read_pattern(DATA / "patterns" / "millrace", DATA / "body_charts")
FULL = frozenset({"panel-full.outer", "band.outer"})
HALF = frozenset({"panel-half.outer", "band.outer"})


def test_each_set_that_can_be_asked_for_is_in_the_demand() -> None:
    demand = cloth_demand(MILLRACE, cut_lines(MILLRACE), MILLRACE.cloths[0], "86")
    assert {one.item_ids for one in demand.reachable} == {FULL, HALF}
    assert {one.choices["fullness"]: one.item_ids for one in demand.reachable} == {"full": FULL, "half": HALF}
    assert set(demand.items) == FULL | HALF


@pytest.mark.parametrize(
    ("cases", "naps"),
    [
        ([NapCase(nap="ask")], {"full": {True, False}, "half": {True, False}}),
        ([NapCase(nap="always")], {"full": {True}, "half": {True}}),
        ([NapCase(nap="never")], {"full": {False}, "half": {False}}),
        (
            [NapCase(nap="always", when=({"fullness": ("full",)},)), NapCase(nap="ask")],
            {"full": {True}, "half": {True, False}},
        ),
    ],
)
def test_a_set_is_asked_with_the_nap_that_its_choices_say(cases: list[NapCase], naps: dict[str, set[bool]]) -> None:
    cloth = replace(MILLRACE.cloths[0], nap=tuple(cases))
    demand = cloth_demand(MILLRACE, cut_lines(MILLRACE), cloth, "86")
    assert {one.choices["fullness"]: set(one.naps) for one in demand.reachable} == naps
    lattice = search_for(cloth, demand).lattice
    for ids, word in ((FULL, "full"), (HALF, "half")):
        asked = lattice.asked[:, :, lattice.sets.index(ids), :].any(axis=(0, 2))
        assert {nap for nap, any_asked in zip(lattice.naps, asked, strict=True) if any_asked} == naps[word]


def test_the_plan_has_a_name_that_people_read() -> None:
    assert str(PlanKey(pattern="millrace", cloth="outer", size="86")) == "millrace, outer, size 86"
    assert [str(key) for key, _, _ in demands(MILLRACE)] == [f"millrace, outer, size {size}" for size in MILLRACE.sizes]
