"""Shopping lists for the calculators, from a seed: sound ones, and what a damaged store or a forged link may hold."""

from __future__ import annotations

import json
import random
from collections.abc import Mapping, Sequence
from typing import Any

from boltside.calculators.wash import WASHES

Case = tuple[str, str]
Sheet = Mapping[str, Any]

ODD: tuple[Any, ...] = (
    None, True, -1, 1.5, "", "<b>", "x" * 200, [], {}, "__proto__", {"__proto__": 1}, [[]], "\u202e", "\ud83d",
)  # fmt: skip
"""What stands where something else is meant to."""


def shop_of(sheets: Sequence[Sheet]) -> dict[str, Any]:
    """The list of a shop's patterns, with one whose sheet is never opened."""
    patterns = {sheet["pattern"]: {"name": sheet["name"], "edition": sheet["edition"]} for sheet in sheets}
    return {"format": 1, "currency": "EUR", "patterns": {**patterns, "not-fetched": {"name": "Far away"}}}


def item(sheet: Sheet, draw: random.Random, number: int) -> dict[str, Any]:
    """One entry of a list, drawn."""
    cloths = {}
    for cloth in sheet["cloths"]:
        cloths[cloth["name"]] = {
            "width": draw.choice(["", "", "140", "150", "59 in"]),
            "way": draw.choice(["", *cloth["ways"]]),
            "nap": draw.choice(["", "", "with"]),
            "wash": draw.choice(["", *WASHES]),
            "price": draw.choice(["", "12.90 per m", "9 per yd", "dear"]),
            "bolt": draw.choice(["", "b1", "b1", "b2"]),
        }
    return {
        "id": f"g{number}",
        "pattern": sheet["pattern"],
        "edition": draw.choice(["1", "0", sheet["edition"]]),
        "size": draw.choice(sheet["sizes"]),
        "second": draw.choice(["", "", *sheet["sizes"]]),
        "choices": {one["name"]: draw.choice(one["alternatives"])["name"] for one in sheet["choices"]},
        "cloths": cloths,
        "unit": draw.choice(["cm", "in"]),
        "cut": draw.choice(["", "fine", "coarse"]),
        "was": draw.choice([{}, {"cloths": {sheet["cloths"][0]["name"]: [1350, 12]}, "notions": {"gone": [4]}}]),
    }


def shopping_cases(sheets: Sequence[Sheet], draw: random.Random) -> list[Case]:
    """Calculator and request text, to be answered once the sheets are open."""
    lists: list[Any] = []
    for length in (1, 2, 2, 3, 4, 6, 9):
        items = [item(draw.choice(sheets), draw, number) for number in range(length)]
        lists.append({"items": items, "cut": draw.choice(["", "fine", "coarse"])})
    plain = item(sheets[0], draw, 1)
    lists += [{"items": [{**plain, name: odd}]} for name in plain for odd in ODD]
    lists += [{"items": odd} for odd in ODD] + [{"items": [odd]} for odd in ODD]
    lists.append({"items": [{**plain, "pattern": "not-fetched"}, {**plain, "id": "g2", "pattern": "not-in-the-shop"}]})
    asked = [("shopping", json.dumps(one, sort_keys=True)) for one in lists]
    return [asked[0], ("open-shop", '{"format": 99}'), ("open-shop", json.dumps(shop_of(sheets))), *asked]
