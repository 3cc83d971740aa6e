"""How much cloth: the note, how it was reckoned, rounding up, what is offered."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any

import pytest

from boltside.calculators.door import answer

Ask = Callable[..., dict[str, dict[str, Any]]]
WAIST = {"length": "waist", "sleeves": "none"}


def test_the_note_and_how_it_was_reckoned(ask: Ask, sheet: dict[str, Any]) -> None:
    said = ask("cloth", size="92", choices=WAIST, cloths={"outer": {"width": "137"}})
    # Worked out by hand from the sheet: 386 mm from 1100 on, flat; folded the band needs 1400.
    assert said["cloth.outer"]["kind"] == "problem"
    flat = ask("cloth", size="92", choices=WAIST, cloths={"outer": {"width": "137", "way": "flat"}})
    assert sheet["lays"]["outer"]["flat"]["without"]["92"][3] == [[1100, 386, 25, 2]]
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


@pytest.mark.parametrize(("longer_mm", "beside_the_amount"), [(50, False), (150, False), (250, True)])
def test_a_large_saving_is_told_beside_the_amount_itself(
    sheet: dict[str, Any], longer_mm: int, beside_the_amount: bool
) -> None:
    made = copy.deepcopy(sheet)
    of_way = made["lays"]["outer"]
    for steps, flat in zip(of_way["folded"]["without"]["92"], of_way["flat"]["without"]["92"], strict=True):
        steps[:] = [[step[0], flat[0][1] + longer_mm, *step[2:]] for step in steps[:1]]
        flat[:] = flat[:1]
    answer("open", json.dumps(made))
    said = ask_again("cloth", size="92", cloths={"outer": {"width": "150"}})
    answer("open", json.dumps(sheet))
    assert said["cloth.outer"]["data"]["way"] == "folded"
    less = said["cloth.outer.less"]["text"]
    assert bool(less) == beside_the_amount == (said["cloth.outer"]["data"]["flat_saves_mm"] >= 200)
    assert said["cloth.outer.how"]["text"].endswith(less)
    assert less.startswith("Laid flat it takes 0.") == beside_the_amount


def ask_again(name: str, **request: Any) -> dict[str, dict[str, Any]]:
    """Ask about the sheet that is open now."""
    said = json.loads(answer(name, json.dumps({"pattern": "example-jacket", **request})))
    return {fragment["id"]: fragment for fragment in said["fragments"]}


def test_a_saving_below_a_purchase_step_is_not_offered(ask: Ask) -> None:
    said = ask("cloth", size="68")["cloth.lining"]["data"]
    assert said["flat_saves_mm"] == 0


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
