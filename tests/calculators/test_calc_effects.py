"""What an alternative changes: cloth, looks, difficulty, and what it goes with."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

Ask = Callable[..., dict[str, dict[str, Any]]]


def test_every_alternative_is_told_once(ask: Ask, sheet: dict[str, Any]) -> None:
    for choice in sheet["choices"]:
        said = ask("effects", choice=choice["name"])
        assert list(said) == [f"effect.{one['name']}" for one in choice["alternatives"]]
        for one in choice["alternatives"]:
            effect = said[f"effect.{one['name']}"]
            assert effect["data"]["default"] == (one["name"] == choice["default"])
            assert "<svg" in effect["html"] and "style=" not in effect["html"]


def test_cloth_added_is_the_difference_of_two_answers_of_the_panel(ask: Ask) -> None:
    effect = ask("effects", choice="length", size="86")["effect.waist"]["data"]
    before, after = ask("cloth", size="86"), ask("cloth", size="86", choices={"length": "waist"})
    for cloth in ("outer", "lining", "interfacing"):
        bought = [said[f"cloth.{cloth}"]["data"]["buy_mm"] for said in (before, after)]
        assert effect["cloths"][cloth]["adds_mm"] == bought[1] - bought[0]
        assert effect["cloths"][cloth]["buy_mm"] == bought[1]


def test_cloth_that_is_too_narrow_for_it_is_said_to_be(ask: Ask) -> None:
    # The waistband of size 104 needs more than 140 cm folded.
    effect = ask("effects", choice="length", size="104")["effect.waist"]
    assert (effect["data"]["cloths"]["outer"]["buy_mm"], effect["data"]["cloths"]["outer"]["adds_mm"]) == (None, None)
    assert "Outer cloth, 140 cm wide: too narrow." in effect["text"]


def test_what_lets_it_be_asked_is_chosen_too(ask: Ask, sheet: dict[str, Any]) -> None:
    from boltside.calculators.effects import effect_fragments
    from boltside.calculators.request import read_request

    bare = [{**one, "default": "none"} if one["name"] == "sleeves" else one for one in sheet["choices"]]
    request = read_request({**sheet, "choices": bare}, {})
    (_, gathered) = effect_fragments(request, "sleeve-end")
    assert gathered.data["cloths"]["outer"]["adds_mm"] > 0
    assert (gathered.data["with"], gathered.data["default"]) == ({}, False)


def test_what_it_needs_is_chosen_too_and_said(ask: Ask, sheet: dict[str, Any]) -> None:
    from boltside.calculators.effects import effect_fragments
    from boltside.calculators.request import read_request

    short = [{**one, "default": "waist"} if one["name"] == "length" else one for one in sheet["choices"]]
    (_, two) = effect_fragments(read_request({**sheet, "choices": short}, {}), "pockets")
    assert two.data["with"] == {"length": "hip"}
    assert "with Length: To the hip" in two.said.text
    assert two.data["needs"] == ["Needs Length: To the hip. Patch pockets need the hip length."]


def test_rules_in_words(ask: Ask) -> None:
    gathered = ask("effects", choice="sleeve-end")["effect.gathered"]["data"]
    assert gathered["also"] == ["Only in sizes 74 to 116. In size 68 the band would be too short to sew."]
    assert gathered["excludes"] == [
        "With Length: To the waist, with a band. Not with Top-stitching: Along all edges. "
        "Two bands leave no edge to stitch along."
    ]


def test_what_else_was_chosen_does_not_matter(ask: Ask) -> None:
    assert ask("effects", choice="pockets") == ask("effects", choice="pockets", choices={"length": "waist"})


def test_a_choice_that_is_not_there(ask: Ask) -> None:
    assert ask("effects", choice="colour")["effect"]["data"]["code"] == "unknown-choice"


@pytest.mark.outside  # geometry, on paper
def test_sleeves_take_the_row_that_they_take_on_paper(on_paper: Ask) -> None:
    # Four panels two by two: 2 x 70 + 3 = 143, bought 145 cm. Two sleeves of the same size make a third row: 213,
    # bought 215: 70 cm more, in inches 27.56, said as the half inch below. They are no part of the lining.
    long = on_paper("effects", choice="sleeves")["effect.long"]
    assert "Outer cloth, 100 cm wide: 0.70 m more. Lining, 48 cm wide: no\xa0more." in long["text"]
    assert "27 1/2 in more" in long["text_inch"]
    assert long["data"]["cloths"]["outer"] == {
        "name": "outer", "title": "Outer cloth", "width_mm": 1000, "buy_mm": 2150, "adds_mm": 700,
    }  # fmt: skip


@pytest.mark.outside  # geometry, on paper
def test_sleeves_of_another_cloth_leave_the_outer_cloth_as_it_was(on_paper: Ask) -> None:
    # Compared with long sleeves of the outer cloth: a row less of that, 70 cm; two rectangles beside each other are a
    # row of the other cloth, 70 + 3, bought 75.
    contrast = on_paper("effects", choice="sleeve-cloth")["effect.contrast"]["data"]["cloths"]
    assert {name: one["adds_mm"] for name, one in contrast.items()} == {"outer": -700, "contrast": 750, "lining": 0}
