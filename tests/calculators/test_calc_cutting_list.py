"""The cutting list in words."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from boltside.calculators.cutting_list import cutting_list_fragment, how_cut
from boltside.calculators.request import read_request

Ask = Callable[..., dict[str, dict[str, Any]]]


@pytest.mark.parametrize(
    ("mode", "count", "face", "words"),
    [
        ("pair", 2, "up", "1 mirrored pair"),
        ("pair", 4, "up", "2 mirrored pairs"),
        ("fold", 1, "up", "1 on the fold"),
        ("single", 2, "up", "2"),
        ("single", 1, "down", "1, wrong side up"),
    ],
)
def test_how_it_is_cut(mode: str, count: int, face: str, words: str) -> None:
    assert how_cut({"kind": "cut", "mode": mode, "count": count, "face": face}) == words


def test_the_list_holds_what_was_chosen(ask: Ask) -> None:
    said = ask("panel", choices={"length": "waist", "sleeves": "none"})["cutting-list"]
    assert [row["id"] for row in said["data"]["rows"]] == [
        "front.outer.waist",
        "back.outer.waist",
        "waist-band.outer",
        "facing.outer",
        "front.lining.waist",
        "back.lining.waist",
        "front.interfacing.front-edge",
    ]
    assert said["text"].startswith(
        "Outer cloth. Front: 1 mirrored pair (wearer's left (on your right as you look at the wearer) carries the "
        "buttonholes; wearer's right (on your left as you look at the wearer) carries the buttons; "
        "with interfacing: Front edge). Back: 1 on the fold. Waistband: 1. Front facing: 1 mirrored pair. Lining. "
    )
    assert '<span class="bs-how">1 mirrored pair</span>' in said["html"] and "wearer&#x27;s left" in said["html"]


def test_of_a_knit_it_says_which_way_it_stretches(ask: Ask, sheet: dict[str, Any]) -> None:
    said = ask("panel", choices={"cloth": "knit"})["cutting-list"]
    words = "Knit: the greatest stretch runs across, between the selvedges."
    assert said["text"].startswith(f"Outer cloth. {words} Front: ")
    assert said["html"].count(words) == 1, "the lining is no knit"
    assert "stretch" not in ask("panel", choices={"cloth": "woven"})["cutting-list"]["text"]


def test_a_piece_across_the_grain_says_where_its_stretch_runs(ask: Ask, sheet: dict[str, Any]) -> None:
    items = [
        item | {"grain": "crosswise", "stretch": "along"} if item["id"] == "facing.outer" else item
        for item in sheet["items"]
    ]
    request = read_request({**sheet, "items": items}, {"choices": {"cloth": "knit"}})
    rows = cutting_list_fragment(request).data["rows"]
    notes = {row["id"]: row["notes"] for row in rows}
    assert notes["facing.outer"] == ["the greatest stretch runs along its grain line"]
    assert notes["back.outer.hip"] == []


def test_which_copy_carries_what_follows_the_choices(ask: Ask) -> None:
    rows = ask("panel", choices={"overlap": "right-over-left"})["cutting-list"]["data"]["rows"]
    front = next(row for row in rows if row["id"] == "front.outer.hip")
    assert front["notes"][0].startswith("wearer's left") and front["notes"][0].endswith("carries the buttons")
    assert front["interfaced"] == ["front.interfacing.front-edge"]


def test_only_the_first_cloth_of_a_piece_is_interfaced(ask: Ask) -> None:
    rows = ask("panel")["cutting-list"]["data"]["rows"]
    assert [row["id"] for row in rows if row["interfaced"]] == ["front.outer.hip"]


@pytest.mark.outside  # common practice, counted by hand
def test_a_lined_jacket_is_cut_as_the_trade_says(ask: Ask) -> None:
    # Open in front: a pair of fronts and a pair of facings, one back on the fold, a pair of sleeves: 2 + 2 + 1 + 2 = 7
    # of outer cloth. The lining has fronts, back and sleeves: 5; the front edges get interfacing: 2. A fold or a pair
    # is never both, and what is on the fold counts once.
    rows = ask("panel")["cutting-list"]["data"]["rows"]
    told = {(row["cloth"], row["piece"]): row["how"] for row in rows}
    assert told == {
        ("outer", "front"): "1 mirrored pair", ("outer", "back"): "1 on the fold",
        ("outer", "sleeve"): "1 mirrored pair", ("outer", "facing"): "1 mirrored pair",
        ("lining", "front"): "1 mirrored pair", ("lining", "back"): "1 on the fold",
        ("lining", "sleeve"): "1 mirrored pair", ("interfacing", "front"): "1 mirrored pair",
    }  # fmt: skip
    counts = {cloth: sum(row["count"] for row in rows if row["cloth"] == cloth) for cloth, _ in told}
    assert counts == {"outer": 7, "lining": 5, "interfacing": 2}


@pytest.mark.outside  # geometry, on paper: two mirrored pairs are four pieces; cutting everything twice doubles each
def test_counts_of_pieces_in_words() -> None:
    for pieces, words in ((2, "1 mirrored pair"), (4, "2 mirrored pairs"), (6, "3 mirrored pairs")):
        assert how_cut({"mode": "pair", "count": pieces, "face": "up"}) == words
