"""Finished measurements and their ease."""

from __future__ import annotations

from collections.abc import Callable
from math import pi
from typing import Any

import pytest

from boltside.calculators.finished import case_mm, one_finished
from boltside.calculators.request import read_request
from tests.cases.real_sheets import real_sheet

Ask = Callable[..., dict[str, dict[str, Any]]]


def test_the_first_case_that_holds_is_taken() -> None:
    cases: list[dict[str, Any]] = [
        {"when": [{"length": ["hip"]}], "mm": {"92": 330.0}},
        {"when": [], "mm": {"92": 240.0}},
    ]
    assert case_mm(cases, {"length": "hip"}, "92") == 330.0
    assert case_mm(cases, {"length": "waist"}, "92") == 240.0
    assert case_mm(cases[:1], {"length": "waist"}, "92") is None
    assert case_mm(cases, {}, "68") is None


def test_ease_over_the_body_is_said(ask: Ask) -> None:
    said = ask("panel", size="92")["finished.chest"]
    # The sheet: 4 × (503 // 4) + 92.4 = 592.4 mm finished over a chest of 503 mm.
    assert said["text"] == "Chest, finished: 59.2 cm, 8.9 cm more than the body"
    assert said["data"] == {
        "measurement": "chest",
        "mm": 592.4,
        "body": "chest",
        "body_mm": 503,
        "ease_mm": 89.4,
        "ease_meant_mm": [60, 140],
    }


def test_the_ease_that_is_meant_follows_the_cloth(ask: Ask) -> None:
    assert ask("panel", choices={"cloth": "knit"})["finished.chest"]["data"]["ease_meant_mm"] == [20, 110]
    assert ask("panel")["finished.back-length"]["data"].get("ease_meant_mm") is None


def test_less_than_the_body_is_said_as_such(ask: Ask, sheet: dict[str, Any]) -> None:
    from boltside.calculators.finished import one_finished
    from boltside.calculators.request import read_request

    tight = {**sheet["finished"][0], "cases": [{"when": [], "mm": {"92": 483}}]}
    said = one_finished(read_request({**sheet, "finished": [tight]}, {"size": "92"}), tight)
    assert said.said.text == "Chest, finished: 48.3 cm, 2 cm less than the body"


def test_a_measurement_that_is_not_there_is_silent(ask: Ask) -> None:
    assert ask("panel", choices={"sleeves": "none"})["finished.sleeve"]["text"] == ""


@pytest.mark.outside  # geometry: a ring's outer edge is longer than its inner one by the angle times the width
@pytest.mark.parametrize(("fullness", "angle"), [("full", 2 * pi), ("half", pi)])
def test_the_hem_of_a_circle_skirt_follows_from_waist_and_length(fullness: str, angle: float) -> None:
    sheet = real_sheet("millrace")
    for size in sheet["sizes"]:
        request = read_request(sheet, {"size": size, "choices": {"fullness": fullness}})
        said = {one["name"]: one_finished(request, one).data for one in sheet["finished"]}
        waist, length, hem = (said[name]["mm"] for name in ("waist", f"length-{fullness}", f"hem-{fullness}"))
        assert hem == pytest.approx(waist + angle * length, abs=0.5)
        assert said["waist"]["ease_mm"] == pytest.approx(waist - sheet["body"]["rows"][size]["hip"], abs=0.05)
