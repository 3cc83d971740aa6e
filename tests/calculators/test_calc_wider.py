"""Wider cloth: proposed where it saves enough, never a narrower one."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import floor
from typing import Any

import pytest
from cases.paper_sheet import make_paper

from boltside.calculators.request import read_request
from boltside.calculators.wider import wider_fragments, worth_saying

Ask = Callable[..., dict[str, dict[str, Any]]]


@pytest.mark.parametrize(
    ("buy_mm", "wider_mm", "said"),
    [(2000, 1800, True), (2000, 1850, False), (1000, 850, True), (1000, 900, False), (0, 0, False), (900, 900, False)],
)
def test_from_twenty_centimetres_or_fifteen_per_cent_on(buy_mm: int, wider_mm: int, said: bool) -> None:
    assert worth_saying(buy_mm, wider_mm) == said


def test_the_width_that_takes_least_is_named(ask: Ask, sheet: dict[str, Any]) -> None:
    # Published for size 92, flat, without nap: 706 mm from 110 cm on, 674 from 135, 368 from 140: 75, 75 and 40 cm;
    # in eighths of a yard 736 / 114.3 = 6.4, so 7, and 398 / 114.3 = 3.5, so 4: 3 less.
    assert sheet["lays"]["outer"]["flat"]["without"]["92"][4] == [
        [1100, 706, 33, 2], [1350, 674, 35, 2], [1400, 368, 37, 1],
    ]
    said = ask("panel", size="92", cloths={"outer": {"width": "110", "way": "flat"}})
    wider = said["cloth.outer.wider"]
    assert wider["text"] == "Of cloth 140 cm wide, 0.40 m would do, 0.35 m less."
    assert wider["text_inch"] == "Of cloth 55 in wide, 1/2 yd would do, 3/8 yd less."
    assert wider["data"] == {"cloth": "outer", "width_mm": 1400, "buy_mm": 400, "saves_mm": 350}
    assert said["why.cloth.outer.wider"]["text"] == (
        "On 110 cm: 0.75 m. On 140 cm, laid in the same way: 0.40 m. "
        "Said where it saves 20 cm or 15 %; of the widths that were laid out, the one that takes least (our choice)."
    )


def test_on_the_widest_and_on_refused_cloth_nothing_is_said(ask: Ask) -> None:
    for width in ("140", "150", "400", "60"):
        said = ask("wider", size="92", cloths={"outer": {"width": width, "way": "flat"}})
        assert said["cloth.outer.wider"]["text"] == "" and said["why.cloth.outer.wider"]["html"] == ""


def test_it_is_reckoned_after_the_wash(ask: Ask) -> None:
    # A loss of 5 % leaves 133.2 cm of 140, so only 150 cm ((1500 - 30) x 0.95 + 30 = 142.7) reaches the lay for 140.
    asked = {"width": "110", "way": "flat", "wash": "own", "along": "0", "across": "5"}
    refused = ask("wider", size="92", cloths={"outer": asked})["cloth.outer.wider"]
    assert refused["text"] == ""  # 110 cm are too narrow for any lay once washed
    said = ask("wider", size="92", cloths={"outer": {**asked, "width": "120"}})["cloth.outer.wider"]
    assert said["text"] == "Of cloth 150 cm wide, 0.40 m would do, 0.35 m less."


def test_law_it_is_wider_and_saves_what_it_says(ask: Ask, sheet: dict[str, Any]) -> None:
    told = 0
    for size in sheet["sizes"]:
        for width in ("1100", "1200", "1360", "1400"):
            for cut in ("fine", "coarse"):
                asked = {"width": f"{width} mm", "way": "flat"}
                said = ask("panel", size=size, cut=cut, cloths={"outer": asked})
                wider = said["cloth.outer.wider"]
                if wider["kind"] != "figure":
                    continue
                told += 1
                data = wider["data"]
                there = {**asked, "width": f"{data['width_mm']} mm"}
                on_it = ask("panel", size=size, cut=cut, cloths={"outer": there})["cloth.outer"]["data"]
                assert data["width_mm"] > int(width) and data["buy_mm"] == on_it["buy_mm"]
                assert data["saves_mm"] == said["cloth.outer"]["data"]["buy_mm"] - on_it["buy_mm"]
    assert told >= 10


CHART = """
1 3/4 | 1 1/2 | 1 1/2 | 1 3/8 | 1 1/4 | 1 1/8 | 1
2 1/4 | 2 | 2 | 1 3/4 | 1 5/8 | 1 1/2 | 1 3/8
3 1/8 | 2 3/4 | 2 3/4 | 2 1/2 | 2 1/4 | 2 | 1 7/8
4 1/2 | 3 3/4 | 3 5/8 | 3 3/8 | 3 | 2 3/4 | 2 5/8
"""
"""Rows of the trade's chart of widths, in yards, on cloth of 36, 39, 42, 45, 50, 54 and 60 in."""
INCHES = (36, 39, 42, 45, 50, 54, 60)


@pytest.mark.outside  # a width conversion chart of the trade, seen in two independent places
@pytest.mark.parametrize(
    ("row", "then", "less"), [(0, "1 yd", "3/4 yd"), (1, "1 3/8 yd", "7/8 yd"), (2, "1 7/8 yd", "1 1/4 yd"),
                              (3, "2 5/8 yd", "1 7/8 yd")]
)  # fmt: skip
def test_what_wider_cloth_saves_is_what_the_trades_chart_says(row: int, then: str, less: str) -> None:
    # Lays that make the chart's first column on 36 in and so on: 3 cm to square the ends less. On 60 in, which is the
    # last column, least is bought: 1 3/4 - 1 = 3/4, 2 1/4 - 1 3/8 = 7/8, 3 1/8 - 1 7/8 = 1 1/4, 4 1/2 - 2 5/8 = 1 7/8.
    cells = CHART.strip().splitlines()[row].split("|")
    yards = [sum(Fraction(part) for part in cell.split()) for cell in cells]
    sheet = make_paper()
    outer = next(cloth for cloth in sheet["cloths"] if cloth["name"] == "outer")
    outer["widths_mm"] = [round(inch * 25.4) for inch in INCHES]
    outer["usual_width_mm"] = outer["widths_mm"][0]
    steps = [[wide, floor(yard * Fraction("914.4")) - 30, at, 1]
             for at, (wide, yard) in enumerate(zip(outer["widths_mm"], yards, strict=True))]  # fmt: skip
    sheet["lays"]["outer"]["flat"]["without"]["92"] = [[], steps]
    wider = {one.name: one for one in wider_fragments(read_request(sheet, {}))}["cloth.outer.wider"]
    assert wider.said.text_inch == f"Of cloth 60 in wide, {then} would do, {less} less."


@pytest.mark.outside  # geometry, on paper
def test_three_rectangles_beside_each_other_save_a_row_of_two(on_paper: Ask) -> None:
    # Six rectangles 45 cm across, 70 along: on 100 cm (97 between the selvedges) two and two, three rows, 2.10 m; on
    # 140 cm three and three, 1.40 m. With 3 cm for the ends and up to 5 cm: 2.15 and 1.45 m. Of four rectangles
    # 140 cm hold three, so the fourth makes a second row there too, and nothing is saved.
    said = on_paper("wider", choices={"sleeves": "long"})["cloth.outer.wider"]
    assert said["text"] == "Of cloth 140 cm wide, 1.45 m would do, 0.70 m less."
    assert on_paper("wider")["cloth.outer.wider"]["text"] == ""
