"""Buttons and snaps: size, buttonhole, overlap, who carries what."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from boltside.calculators.closures import buttonhole_mm, closures, overlap_mm
from boltside.calculators.units import lignes

Ask = Callable[..., dict[str, dict[str, Any]]]


@pytest.mark.outside
def test_a_buttonhole_is_diameter_and_thickness() -> None:
    # Source: Extension Bulletin 57, 1965: the diameter and the thickness of the button together.
    assert buttonhole_mm(13, 3) == 16


@pytest.mark.outside
def test_the_edge_laps_three_quarters_of_the_diameter() -> None:
    # Source: sewing textbook: at least 3/4 of the button's diameter beyond the centre line.
    assert overlap_mm(12) == 9


@pytest.mark.outside
def test_forty_ligne_are_an_inch() -> None:
    # Source: unit tables. Common practice calls 9 to 13 mm buttons 14 to 20 ligne.
    assert [lignes(mm) for mm in (25.4, 9, 13)] == [40, 14, 20]


def test_count_size_and_ligne(ask: Ask) -> None:
    said = ask("closures", size="68")
    assert said["closure.closure"]["text"] == "Buttons, 13 mm, or snaps: 4 (20 ligne)"
    data = said["closure.closure"]["data"]
    assert (data["count"], data["ligne"], data["buttonhole_mm"], data["overlap_mm"]) == (4, 20, 16, 9.75)


def test_what_they_need_is_said(ask: Ask) -> None:
    how = ask("closures")["closure.closure.how"]
    for words in (
        "Buttonhole 16 mm long: diameter 13 mm and thickness 3 mm together (Extension Bulletin 57, 1965).",
        "In bulky cloth 3 mm longer.",
        "laps at least 10 mm beyond the centre line",
        "Backed with Fusible interfacing: Front edge (only the front edge).",
        "Snaps need a firm backing in both layers.",
        "A square of firm cloth behind each snap.",
        "a child under three can choke",
    ):
        assert words in how["text"], words
    assert "compl" not in how["text"] and "certif" not in how["text"]


@pytest.mark.parametrize(("overlap", "holes"), [("left-over-right", "left"), ("right-over-left", "right")])
def test_left_and_right_are_the_wearers_and_where_they_are_seen(ask: Ask, overlap: str, holes: str) -> None:
    how = ask("closures", choices={"overlap": overlap})["closure.closure.how"]["text"]
    seen = {"left": "right", "right": "left"}[holes]
    assert f"wearer's {holes} (on your {seen} as you look at the wearer) carries the buttonholes" in how
    assert f"wearer's {seen} (on your {holes} as you look at the wearer) carries the buttons" in how


def test_the_panel_says_the_same(ask: Ask) -> None:
    panel = ask("panel", size="104")
    for key, fragment in ask("closures", size="104").items():
        assert panel[key] == fragment


def test_without_a_thickness_the_rule_alone_is_said(ask: Ask, sheet: dict[str, Any]) -> None:
    from boltside.calculators.closures import closure_fragments
    from boltside.calculators.request import read_request

    thin = {**closures(sheet)[0], "thickness_mm": None}
    (figure, _places, how) = closure_fragments(read_request({**sheet, "notions": [thin]}, {}))
    assert figure.data["buttonhole_mm"] is None
    assert "Buttonhole: the button's diameter and thickness together" in how.said.text


def test_what_is_not_needed_says_nothing(sheet: dict[str, Any]) -> None:
    from boltside.calculators.closures import closure_fragments
    from boltside.calculators.request import read_request

    rare = {**closures(sheet)[0], "when": [{"length": ["waist"]}]}
    assert [one.said.text for one in closure_fragments(read_request({**sheet, "notions": [rare]}, {}))] == ["", "", ""]
