"""The shop's own sheets with their stored lays: every combination that is offered gets an amount of cloth."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from boltside.calculators.choices import all_allowed
from boltside.calculators.conditions import holds
from boltside.calculators.door import answer
from boltside.plan import shop_sheets

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def shop() -> list[dict[str, Any]]:
    """The sheets as they are published."""
    sheets = shop_sheets(DATA)
    for sheet in sheets:
        answer("open", json.dumps(sheet))
    return sheets


def need_mm(sheet: dict[str, Any], chosen: dict[str, str], cloth: str, width_mm: int, way: str) -> int | None:
    """What the cloth calculator says is needed; None where these choices do not need the cloth."""
    asked = {"pattern": sheet["pattern"], "size": chosen["size"], "choices": chosen}
    asked |= {"cloths": {cloth: {"width": f"{width_mm} mm", "way": way}}}
    for fragment in json.loads(answer("cloth", json.dumps(asked)))["fragments"]:
        if fragment["id"] == f"cloth.{cloth}":
            assert fragment["kind"] != "problem" or fragment["data"]["code"] == "too-narrow", (asked, fragment["text"])
            return fragment["data"].get("needed_mm")
    raise AssertionError(cloth)


def test_law_every_offered_combination_has_an_amount_and_wider_cloth_never_needs_more(
    shop: list[dict[str, Any]],
) -> None:
    for sheet in shop:
        for cloth in sheet["cloths"]:
            of_cloth = [item for item in sheet["items"] if item["cloth"] == cloth["name"]]
            for size in sheet["sizes"]:
                for chosen in all_allowed(sheet["choices"], sheet["rules"], size, steps_too=False):
                    for way in cloth["ways"]:
                        row = [need_mm(sheet, chosen, cloth["name"], w, way) for w in sorted(cloth["widths_mm"])]
                        told = [mm for mm in row if mm is not None]
                        assert told == sorted(told, reverse=True)
                        if way == "flat" and any(holds(i["when"], chosen) for i in of_cloth):
                            assert told, (cloth["name"], chosen)


def test_law_larger_sizes_never_need_less(shop: list[dict[str, Any]]) -> None:
    compared = 0
    for sheet in shop:
        for cloth in sheet["cloths"]:
            width, way = cloth["usual_width_mm"], cloth["ways"][0]
            for chosen in all_allowed(sheet["choices"], sheet["rules"], sheet["sizes"][0], steps_too=False):
                row = [need_mm(sheet, {**chosen, "size": size}, cloth["name"], width, way) for size in sheet["sizes"]]
                told = [mm for mm in row if mm is not None]
                assert told == sorted(told)
                compared += len(told) > 1
    assert compared >= 20
