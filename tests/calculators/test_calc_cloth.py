"""Cloth: covering, next narrower width, rounding up, and what is said when nothing fits."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.cloth import Laid, demanded, narrowest_mm, shortest

Ask = Callable[..., dict[str, dict[str, Any]]]
LAYS = {"1100": [[0, 812], [1, 700]], "1400": [[0, 705], [1, 640]]}
SETS = [["back", "front", "pocket"], ["back", "front"]]
WAIST = {"length": "waist", "sleeves": "none"}


def test_a_set_that_contains_the_pieces_will_do() -> None:
    assert shortest(SETS, LAYS, {"pocket"}, 1400) == Laid(1400, 705, 0)
    assert shortest(SETS, LAYS, {"front"}, 1400) == Laid(1400, 640, 1)
    assert shortest(SETS, LAYS, {"front", "collar"}, 1400) is None


def test_the_next_narrower_width_answers() -> None:
    assert shortest(SETS, LAYS, {"front"}, 1399) == Laid(1100, 700, 1)
    assert shortest(SETS, LAYS, {"front"}, 9000) == Laid(1400, 640, 1)
    assert shortest(SETS, LAYS, {"front"}, 1099) is None


def test_of_equal_lengths_the_widest_lay_is_named() -> None:
    lays = {"1100": [[0, 700]], "1400": [[0, 700]]}
    assert shortest([["front"]], lays, {"front"}, 1500) == Laid(1400, 700, 0)


PIECES = ["back", "front", "pocket", "sleeve"]
SETS_OF = st.lists(st.lists(st.sampled_from(PIECES), unique=True, min_size=1), min_size=1, max_size=4)


@given(SETS_OF, st.data())
def test_law_more_pieces_never_need_less(sets: list[list[str]], data: st.DataObject) -> None:
    lengths = st.lists(st.tuples(st.integers(0, len(sets) - 1), st.integers(1, 3000)).map(list), max_size=4)
    lays = data.draw(st.dictionaries(st.sampled_from(["900", "1100", "1400"]), lengths))
    some = data.draw(st.sets(st.sampled_from(PIECES)))
    more = some | data.draw(st.sets(st.sampled_from(PIECES)))
    width = data.draw(st.integers(500, 2000))
    few, many = shortest(sets, lays, some, width), shortest(sets, lays, more, width)
    if many is not None:
        assert few is not None and few.length_mm <= many.length_mm
    wider = shortest(sets, lays, some, width + 300)
    if few is not None:
        assert wider is not None and wider.length_mm <= few.length_mm


def test_the_note_and_how_it_was_reckoned(ask: Ask, sheet: dict[str, Any]) -> None:
    said = ask("cloth", size="92", choices=WAIST, cloths={"outer": {"width": "137"}})
    # Worked out by hand from the sheet: 306 mm on 1350 flat; folded the band needs 1400.
    assert said["cloth.outer"]["kind"] == "problem"
    flat = ask("cloth", size="92", choices=WAIST, cloths={"outer": {"width": "137", "way": "flat"}})
    assert sheet["lays"]["outer"]["flat"]["92"]["1350"][3] == [3, 306]
    assert flat["cloth.outer"]["text"] == "Outer cloth, 137 cm wide: 0.35 m"
    assert flat["cloth.outer"]["text_inch"] == "Outer cloth, 54 in wide: 3/8 yd"
    assert flat["cloth.outer"]["data"] == {
        "cloth": "outer",
        "width_mm": 1370,
        "reckoned_width_mm": 1350,
        "way": "flat",
        "needed_mm": 306,
        "buy_mm": 350,
        "buy_eighth_yards": 3,
        "set": 3,
        "flat_saves_mm": 0,
    }
    assert flat["cloth.outer.how"]["text"] == (
        "Reckoned for 135 cm, the next narrower width, laid flat, in one layer. "
        "The pieces take 0.31 m; the rest squares the ends and rounds up."
    )


def test_folded_once_is_the_default_and_flat_is_offered_with_its_saving(ask: Ask, sheet: dict[str, Any]) -> None:
    said = ask("cloth", size="116", cloths={"outer": {"width": "110"}})
    folded = dict(map(tuple, sheet["lays"]["outer"]["folded"]["116"]["1100"]))
    flat = dict(map(tuple, sheet["lays"]["outer"]["flat"]["116"]["1100"]))
    need, less = min(folded[0], folded[4]), min(flat[0], flat[4])
    up = [-(-(mm + 30) // 50) * 50 for mm in (need, less)]
    assert said["cloth.outer"]["data"]["buy_mm"] == up[0]
    assert said["cloth.outer"]["data"]["flat_saves_mm"] == up[0] - up[1] >= 50
    how = said["cloth.outer.how"]["text"]
    assert "folded once, right sides together" in how
    assert how.endswith(f"Laid flat it takes {(up[0] - up[1]) / 1000:.2f} m less.")


def test_a_saving_below_a_purchase_step_is_not_offered(ask: Ask) -> None:
    said = ask("cloth", size="68")["cloth.lining"]["data"]
    assert said["flat_saves_mm"] == 0


def test_each_cloth_has_its_own_width(ask: Ask) -> None:
    said = ask("cloth", cloths={"outer": {"width": "150"}, "lining": {"width": "110 cm"}})
    widths = {name: said[name]["data"]["reckoned_width_mm"] for name in ("cloth.outer", "cloth.lining")}
    assert widths == {"cloth.outer": 1500, "cloth.lining": 1100}
    assert said["cloth.interfacing"]["data"]["reckoned_width_mm"] == 900


def test_too_narrow_names_the_narrowest_that_works(ask: Ask, sheet: dict[str, Any]) -> None:
    said = ask("cloth", size="92", choices=WAIST, cloths={"outer": {"width": "110"}})["cloth.outer"]
    demand = demanded(sheet, "outer", {"size": "92", **WAIST, "pockets": "none", "hem": "plain"})
    assert demand == ["front.outer.waist", "back.outer.waist", "waist-band.outer", "facing.outer"]
    least = narrowest_mm(sheet, demand, "folded", "92")
    band = max(x for x, _ in sheet["outlines"]["waist-band.outer"]["92"])
    assert least == 2 * band + 30 == 1390
    assert said["data"]["code"] == "too-narrow" and said["data"]["narrowest_mm"] == 1390
    assert said["text"] == (
        "Outer cloth: 110 cm is too narrow, folded once, right sides together. The narrowest that works is 139 cm; "
        "amounts are reckoned from 140 cm on. Laid flat it is wide enough."
    )


def test_wide_enough_for_the_pieces_but_no_lay_made(ask: Ask) -> None:
    said = ask("cloth", cloths={"interfacing": {"width": "60"}})["cloth.interfacing"]
    assert said["data"]["code"] == "narrower-than-laid"
    assert said["text"] == (
        "Fusible interfacing: the pieces fit on 60 cm, but amounts are reckoned from 90 cm on. "
        "If you mean inches, type 60 in."
    )


def test_who_types_the_width_that_was_offered_gets_an_amount(ask: Ask) -> None:
    # 110 cm are 43.3 in. Offered as 43 1/4 in, which is less, they would be refused again.
    refused = ask("cloth", unit="in", cloths={"lining": {"width": "43"}})["cloth.lining"]
    offered = refused["text_inch"].split("reckoned from ")[1].split(" in on")[0]
    assert refused["data"]["code"] == "narrower-than-laid" and offered == "43 1/2"
    assert ask("cloth", unit="in", cloths={"lining": {"width": offered}})["cloth.lining"]["kind"] == "figure"


def test_choices_that_no_lay_holds(ask: Ask) -> None:
    said = ask(
        "cloth", choices={"length": "waist", "pockets": "two", "sleeves": "none"}, cloths={"outer": {"width": "150"}}
    )
    assert said["cloth.outer"]["data"]["code"] == "not-reckoned"
    assert said["cloth.outer"]["text"] == "Outer cloth: no amount, because these options do not go together."


def test_a_way_that_does_not_exist(ask: Ask) -> None:
    said = ask("cloth", cloths={"outer": {"way": "rolled"}})["cloth.outer"]
    assert said["text"] == (
        "Outer cloth: “rolled” is not a way of laying it. It can be folded once, right sides together or laid flat, "
        "in one layer."
    )


def test_what_is_not_counted_is_said_once(ask: Ask) -> None:
    said = ask("cloth")
    assert [f["text"] for f in said.values()].count("Shrinkage and one-way prints are not counted yet.") == 1


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_law_larger_sizes_and_narrower_cloth_never_need_less(ask: Ask, sheet: dict[str, Any], unit: str) -> None:
    def need(size: str, width_mm: int) -> int:
        width = f"{width_mm / 10}" if unit == "cm" else f"{width_mm / 25.4:.3f}"
        said = ask("cloth", size=size, unit=unit, cloths={"outer": {"width": width}})["cloth.outer"]
        return int(said["data"]["needed_mm"])

    table = [[need(size, width) for width in (1101, 1391, 1451, 1501)] for size in sheet["sizes"]]
    assert all(row == sorted(row, reverse=True) for row in table)
    assert all(list(column) == sorted(column) for column in zip(*table, strict=True))
