"""The whole panel: its parts, their ids, its speed."""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from typing import Any

import pint
import pytest

from boltside.calculators.door import answer
from boltside.calculators.panel import time_words

Ask = Callable[..., dict[str, dict[str, Any]]]

QUICK_MS = 10
"""The default answer may take so long in CPython."""


def test_everything_of_the_first_screen_is_there_once(ask: Ask, sheet: dict[str, Any]) -> None:
    ids = [f["id"] for f in json.loads(answer("panel", '{"pattern": "example-jacket"}'))["fragments"]]
    assert len(ids) == len(set(ids))
    assert {"drawing", "chosen-size", "choices", "difficulty", "cutting-list", "advice.0", "cloth.not-counted"} <= set(
        ids
    )
    assert {f"choice.{one['name']}" for one in sheet["choices"]} <= set(ids)
    assert {f"cloth.{one['name']}{part}" for one in sheet["cloths"] for part in ("", ".how")} <= set(ids)
    assert {f"notion.{one['name']}" for one in sheet["notions"]} <= set(ids)
    assert {f"finished.{one['name']}" for one in sheet["finished"]} <= set(ids)
    assert set(ids) == set(ask("panel", size="68", choices={"length": "waist", "sleeves": "none"}))


def test_cloth_and_elastic_alone_say_what_the_panel_says(ask: Ask) -> None:
    request = {"size": "104", "choices": {"length": "waist"}, "cloths": {"outer": {"width": "150"}}}
    panel = ask("panel", **request)
    for name in ("cloth", "elastic"):
        for key, fragment in ask(name, **request).items():
            assert panel[key] == fragment


def test_usual_size_and_default_choices(ask: Ask) -> None:
    assert ask("panel") == ask("panel", size="92", choices={"length": "hip", "sleeves": "long", "sleeve-end": ""})


def test_difficulty_and_time_add_up_and_stay_within_five(ask: Ask, sheet: dict[str, Any]) -> None:
    # 2 + 1 for the length + 1 for sleeves; 240 + 40 + 60 + 30 minutes = 370, said as 6 h 10.
    said = ask("panel", choices={"length": "waist", "sleeve-end": "gathered"})["difficulty"]
    assert said["text"] == "Difficulty 4 of 5, about 6 h 10 min of sewing."
    assert said["data"] == {"difficulty": 4, "minutes": 370}
    from boltside.calculators.panel import difficulty_fragment
    from boltside.calculators.request import read_request

    hard = read_request({**sheet, "difficulty": 5, "minutes": 55}, {"choices": {"sleeves": "none"}})
    assert difficulty_fragment(hard).said.text == "Difficulty 5 of 5, about 1 h of sewing."
    harder = read_request({**sheet, "difficulty": 5}, {})
    assert difficulty_fragment(harder).data["difficulty"] == 5


def test_whom_the_size_is_for(ask: Ask) -> None:
    assert ask("panel", size="92")["chosen-size"]["text"] == "Size 92, for a height of 86 cm to 92 cm, about 2 years."
    assert ask("panel", size="68")["chosen-size"]["text"] == "Size 68, for a height of up to 68 cm, about 6 months."


def test_advice_shows_where_it_applies(ask: Ask) -> None:
    words = "Babies' shoulders cool quickly: long sleeves are kinder up to size 74."
    assert ask("panel", size="68", choices={"sleeves": "none"})["advice.0"]["text"] == words
    assert ask("panel", size="80", choices={"sleeves": "none"})["advice.0"]["text"] == ""


def test_a_size_the_pattern_does_not_have_is_all_that_is_said(ask: Ask) -> None:
    for name in ("panel", "cloth", "elastic"):
        said = ask(name, size="93")
        assert list(said) == ["chosen-size"]
        assert said["chosen-size"]["text"] == "“93” is not a size of this pattern. It is cut from 68 to 116."


def test_the_default_answer_is_quick(ask: Ask) -> None:
    ask("panel")
    taken = []
    for _ in range(20):
        start = time.perf_counter()
        answer("panel", '{"pattern": "example-jacket"}')
        taken.append(1000 * (time.perf_counter() - start))
    assert min(taken) < QUICK_MS, f"{min(taken):.1f} ms"


@pytest.mark.outside  # unit tables of pint
@pytest.mark.parametrize("minutes", [10, 50, 60, 90, 120, 400, 490])
def test_hours_and_minutes_are_those_of_pint(minutes: int) -> None:
    read = pint.UnitRegistry()
    parts = time_words(minutes).split()
    together = sum(
        (read.Quantity(int(count), {"h": "hour", "min": "minute"}[unit])
         for count, unit in zip(parts[::2], parts[1::2], strict=True)), read.Quantity(0, "minute"))  # fmt: skip
    assert together.to("minute").magnitude == pytest.approx(minutes)
    assert all(int(count) < 60 for count, unit in zip(parts[::2], parts[1::2], strict=True) if unit == "min")


@pytest.mark.outside  # EN 13402 practice: sizes go in steps of 6 cm of height, and the label is the upper height
@pytest.mark.parametrize("size", ["74", "80", "86", "92", "98", "104", "110", "116"])
def test_whom_a_size_is_cut_for(ask: Ask, size: str) -> None:
    said = ask("panel", size=size)["chosen-size"]["text"]
    assert said.startswith(f"Size {size}, for a height of {int(size) - 6} cm to {size} cm")


@pytest.mark.outside  # arithmetic on paper: 100 minutes and 60 for the sleeves are 160, 2 h 40 min
def test_time_of_a_garment_with_sleeves(on_paper: Ask) -> None:
    said = on_paper("panel", choices={"sleeves": "long"})["difficulty"]
    assert said["text"] == "Difficulty 1 of 5, about 2 h 40 min of sewing."
    assert on_paper("panel")["difficulty"]["text"] == "Difficulty 1 of 5, about 1 h 40 min of sewing."
