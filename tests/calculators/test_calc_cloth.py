"""Cloth: covering, next narrower width, rounding up, and what is said when nothing fits."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from cases.make_sheet_example import blocks
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.cloth import Laid, demanded, narrowest_mm, shortest

Ask = Callable[..., dict[str, dict[str, Any]]]
SETS = [["back", "front", "pocket"], ["back", "front"]]
ROWS = [[[1100, 812, 0], [1400, 705, 1]], [[1100, 700, 2], [1400, 640, 3]]]
WAIST = {"length": "waist", "sleeves": "none"}


def test_the_set_that_is_exactly_the_pieces_answers() -> None:
    assert shortest(SETS, ROWS, {"front", "back"}, 1400) == Laid(1400, 640, 1, 3)
    assert shortest(SETS, ROWS, {"front", "back", "pocket"}, 1400) == Laid(1400, 705, 0, 1)


def test_a_set_that_was_never_laid_is_answered_by_the_shortest_that_contains_it() -> None:
    assert shortest(SETS, ROWS, {"pocket"}, 1400) == Laid(1400, 705, 0, 1)
    assert shortest(SETS, ROWS, {"front"}, 1400) == Laid(1400, 640, 1, 3)
    assert shortest(SETS, ROWS, {"front", "collar"}, 1400) is None


def test_the_next_narrower_width_answers() -> None:
    assert shortest(SETS, ROWS, {"front"}, 1399) == Laid(1100, 700, 1, 2)
    assert shortest(SETS, ROWS, {"front"}, 9000) == Laid(1400, 640, 1, 3)
    assert shortest(SETS, ROWS, {"front"}, 1099) is None


def test_of_equal_lengths_the_widest_lay_is_named() -> None:
    rows = [[[1100, 700, 0]], [[1400, 700, 1]]]
    assert shortest([["front", "back"], ["front", "pocket"]], rows, {"front"}, 1500) == Laid(1400, 700, 1, 1)


PIECES = ["back", "front", "pocket", "sleeve"]
SETS_OF = st.lists(st.lists(st.sampled_from(PIECES), unique=True, min_size=1), min_size=1, max_size=4)


@st.composite
def published(draw: st.DrawFn, sets: list[list[str]]) -> list[list[list[int]]]:
    """Steps for each set, as the build publishes them: width growing, length falling, a part never longer."""
    lengths = {}
    for at in sorted(range(len(sets)), key=lambda at: -len(set(sets[at]))):
        own = draw(st.lists(st.integers(1, 3000), min_size=3, max_size=3))
        wholes = [lengths[other] for other in lengths if set(sets[at]) <= set(sets[other])]
        row = [min([own[step], *(whole[step] for whole in wholes)]) for step in range(3)]
        lengths[at] = [min(row[: step + 1]) for step in range(3)]
    rows = []
    for at in range(len(sets)):
        steps: list[list[int]] = []
        for width, length in zip((900, 1100, 1400), lengths[at], strict=True):
            if not steps or length < steps[-1][1]:
                steps.append([width, length, 0])
        rows.append(steps)
    return rows


@given(SETS_OF, st.data())
def test_law_more_pieces_and_narrower_cloth_never_need_less(sets: list[list[str]], data: st.DataObject) -> None:
    rows = data.draw(published(sets))
    some = data.draw(st.sets(st.sampled_from(PIECES)))
    more = some | data.draw(st.sets(st.sampled_from(PIECES)))
    width = data.draw(st.integers(500, 2000))
    few, many = shortest(sets, rows, some, width), shortest(sets, rows, more, width)
    if many is not None:
        assert few is not None and few.length_mm <= many.length_mm
    wider = shortest(sets, rows, some, width + 300)
    if few is not None:
        assert wider is not None and wider.length_mm <= few.length_mm


def test_the_note_and_how_it_was_reckoned(ask: Ask, sheet: dict[str, Any]) -> None:
    said = ask("cloth", size="92", choices=WAIST, cloths={"outer": {"width": "137"}})
    # Worked out by hand from the sheet: 386 mm from 1100 on, flat; folded the band needs 1400.
    assert said["cloth.outer"]["kind"] == "problem"
    flat = ask("cloth", size="92", choices=WAIST, cloths={"outer": {"width": "137", "way": "flat"}})
    assert sheet["lays"]["outer"]["flat"]["without"]["92"][3] == [[1100, 386, 25]]
    assert flat["cloth.outer"]["text"] == "Outer cloth, 137 cm wide: 0.45 m"
    assert flat["cloth.outer"]["text_inch"] == "Outer cloth, 54 in wide: 1/2 yd"
    assert flat["cloth.outer"]["data"] == {
        "cloth": "outer",
        "nap": "ask",
        "nap_used": "without",
        "width_mm": 1370,
        "reckoned_width_mm": 1350,
        "way": "flat",
        "needed_mm": 386,
        "buy_mm": 450,
        "buy_eighth_yards": 4,
        "set": 3,
        "lay": {"key": "outer.flat.92", "number": 25, "width_mm": 1100},
        "flat_saves_mm": 0,
    }
    assert flat["cloth.outer.how"]["text"] == (
        "Reckoned for 135 cm, the next narrower width, laid flat, in one layer, without nap. "
        "The pieces take 0.39 m; the rest squares the ends and rounds up."
    )


def test_folded_once_is_the_default_and_flat_is_offered_with_its_saving(ask: Ask, sheet: dict[str, Any]) -> None:
    said = ask("cloth", size="116", choices={"sleeve-end": "gathered"}, cloths={"outer": {"width": "110"}})
    need, less = (sheet["lays"]["outer"][way]["without"]["116"][0][0][1] for way in ("folded", "flat"))
    up = [-(-(mm + 30) // 50) * 50 for mm in (need, less)]
    assert said["cloth.outer"]["data"]["buy_mm"] == up[0]
    assert said["cloth.outer"]["data"]["flat_saves_mm"] == up[0] - up[1] >= 50
    how = said["cloth.outer.how"]["text"]
    assert "folded once, right sides together" in how
    assert how.endswith(f"Laid flat it takes {(up[0] - up[1]) / 1000:.2f} m less.")


def test_nap_is_asked_forced_or_never(ask: Ask, sheet: dict[str, Any]) -> None:
    asked = {"outer": {"nap": "with"}, "lining": {"nap": "with"}, "interfacing": {"nap": "with"}}
    plain, napped = ask("cloth"), ask("cloth", cloths=asked)
    knit = ask("cloth", choices={"cloth": "knit"}, cloths={"outer": {"nap": "without"}})
    used = [said["cloth.outer"]["data"]["nap_used"] for said in (plain, napped, knit)]
    assert used == ["without", "with", "with"]
    assert [said["cloth.outer"]["data"]["nap"] for said in (plain, napped, knit)] == ["ask", "ask", "always"]
    longer = sheet["lays"]["outer"]["folded"]["with"]["92"][4][-1]
    assert napped["cloth.outer"]["data"]["needed_mm"] == longer[1] > plain["cloth.outer"]["data"]["needed_mm"]
    assert napped["cloth.outer"]["text"] == "Outer cloth, 140 cm wide, with nap: 0.45 m"
    assert knit["cloth.outer"]["data"]["needed_mm"] == longer[1]
    assert (napped["cloth.interfacing"], napped["cloth.lining"]["data"]["nap_used"]) == (
        plain["cloth.interfacing"],
        "with",
    )
    assert "nap" not in plain["cloth.interfacing.how"]["text"]


def test_nap_in_other_words_is_refused_where_it_is_asked(ask: Ask) -> None:
    said = ask("cloth", cloths={"outer": {"nap": "fuzzy"}, "interfacing": {"nap": "fuzzy"}})
    assert said["cloth.outer"]["data"]["code"] == "unknown-nap"
    assert said["cloth.interfacing"]["kind"] == "figure"


def test_where_only_lays_with_nap_were_made_they_serve(sheet: dict[str, Any]) -> None:
    from boltside.calculators.cloth import lay_rows

    only = {"lays": {"outer": {"flat": {"with": {"92": [[[1100, 5, 0]]]}}}}}
    assert lay_rows(only, "outer", "flat", "without", "92") == [[[1100, 5, 0]]]
    other = {"lays": {"outer": {"flat": {"without": {"92": [[[1100, 5, 0]]]}}}}}
    assert lay_rows(other, "outer", "flat", "with", "92") == []


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
    band = max(x for x, _ in blocks("92")["waist-band.outer"])
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
    assert [f["text"] for f in said.values()].count("Shrinkage is not counted.") == 1
    one = ask("cloth", cloths={"outer": {"wash": "usual"}})
    assert one["cloth.not-counted"]["text"] == "Shrinkage is not counted for: Lining."
    both = ask("cloth", cloths={"outer": {"wash": "usual"}, "lining": {"wash": "washed"}})
    assert both["cloth.not-counted"]["text"] == ""


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_law_larger_sizes_and_narrower_cloth_never_need_less(ask: Ask, sheet: dict[str, Any], unit: str) -> None:
    def need(size: str, width_mm: int) -> int:
        width = f"{width_mm / 10}" if unit == "cm" else f"{width_mm / 25.4:.3f}"
        said = ask("cloth", size=size, unit=unit, cloths={"outer": {"width": width}})["cloth.outer"]
        return int(said["data"]["needed_mm"])

    table = [[need(size, width) for width in (1101, 1391, 1451, 1501)] for size in sheet["sizes"]]
    assert all(row == sorted(row, reverse=True) for row in table)
    assert all(list(column) == sorted(column) for column in zip(*table, strict=True))


def test_a_piece_that_is_not_cut_in_the_size_has_no_amount(ask: Ask, sheet: dict[str, Any]) -> None:
    from boltside.calculators.cloth import cloth_fragments
    from boltside.calculators.request import read_request

    bands = [{**one, "narrowest_mm": {"92": one["narrowest_mm"]["92"]}} for one in sheet["items"]]
    (note, *_) = cloth_fragments(read_request({**sheet, "items": bands}, {"size": "110"}))
    assert (note.data["code"], note.said.text) == (
        "not-reckoned",
        "Outer cloth: no amount, because these options do not go together.",
    )
