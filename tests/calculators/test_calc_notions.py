"""Counted notions and those by the metre."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

Ask = Callable[..., dict[str, dict[str, Any]]]


def test_counts_may_depend_on_the_size(ask: Ask) -> None:
    assert ask("panel", size="68")["notion.closure"]["text"] == "Buttons, 13 mm, or snaps: 4"
    assert ask("panel", size="92")["notion.closure"]["text"] == "Buttons, 13 mm, or snaps: 5"


@pytest.mark.outside  # unit tables: 40 ligne are an inch
def test_buttons_are_named_in_ligne_too(ask: Ask) -> None:
    # 13 mm ÷ 25.4 mm × 40 = 20.5, which is nearest to 20.
    assert ask("panel")["notion.closure.cut"]["text"] == "A button of 13 mm is 20 ligne."


@pytest.mark.outside  # arithmetic on paper
def test_tape_along_an_edge_is_bought_in_steps(ask: Ask, sheet: dict[str, Any]) -> None:
    said = ask("panel", size="92", choices={"length": "hip"})["notion.hem-tape"]
    # Half of chest 503 is 251.5, + 70.5 = 322; twice that + 30 = 674 mm.
    assert said["data"]["total_mm"] == 674
    assert said["text"] == "Hem tape, 12 mm: 0.70 m"
    assert said["text_inch"] == "Hem tape, 12 mm: 3/4 yd"


def test_a_notion_that_is_not_needed_says_nothing(ask: Ask) -> None:
    said = ask("panel", choices={"length": "waist"})
    assert said["notion.hem-tape"]["text"] == said["notion.hem-tape"]["html"] == ""


def test_only_elastic_answers_the_elastic_calculator(ask: Ask) -> None:
    assert set(ask("elastic")) == {"notion.waist-elastic", "notion.waist-elastic.cut", "caution.elastic"}
