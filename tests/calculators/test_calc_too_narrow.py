"""What is said where no lay holds the pieces."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from cases.make_sheet_example import blocks

from boltside.calculators.laid import demanded
from boltside.calculators.too_narrow import narrowest_mm

Ask = Callable[..., dict[str, dict[str, Any]]]
WAIST = {"length": "waist", "sleeves": "none"}


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


def test_a_piece_that_is_not_cut_in_the_size_has_no_amount(ask: Ask, sheet: dict[str, Any]) -> None:
    from boltside.calculators.cloth import cloth_fragments
    from boltside.calculators.request import read_request

    bands = [{**one, "narrowest_mm": {"92": one["narrowest_mm"]["92"]}} for one in sheet["items"]]
    (note, *_) = cloth_fragments(read_request({**sheet, "items": bands}, {"size": "110"}))
    assert (note.data["code"], note.said.text) == (
        "not-reckoned",
        "Outer cloth: no amount, because these options do not go together.",
    )
