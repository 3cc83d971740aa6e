"""The example sheet with cloth plans: pockets and sleeve bands may be cut from a contrast cloth. Invented for tests.

The lengths of the contrast cloth, and of the outer cloth without these pieces, are written out here, so that every
amount can be worked out by hand.
"""

from __future__ import annotations

import copy
from typing import Any

from .make_sheet_example import GATHERED, POCKETS, SIZES, choice, make

Json = dict[str, Any]

PATTERN = "example-plans"
CONTRAST_MM = {"pocket": 131, "band": 231, "both": 366}
"""Lengths of contrast cloth in every size, from 110 cm on; folded and flat alike."""
OUTER_MM = {"with both": 940, "with bands": 905, "with pockets": 868, "with neither": 806}
"""Lengths of outer cloth in every size to the hip with long sleeves, from 140 cm on; folded and flat alike."""

_BODY = ["back.outer.hip", "facing.outer", "front.outer.hip", "sleeve.outer"]
SETS: dict[str, dict[str, list[str]]] = {
    "outer": {
        "with both": [*_BODY, "pocket.outer", "sleeve-band.outer"],
        "with bands": [*_BODY, "sleeve-band.outer"],
        "with pockets": [*_BODY, "pocket.outer"],
        "with neither": _BODY,
    },
    "contrast": {
        "pocket": ["pocket.contrast"],
        "band": ["sleeve-band.contrast"],
        "both": ["pocket.contrast", "sleeve-band.contrast"],
    },
}


def make_plans() -> Json:
    """The sheet; its size-independent amounts stand in the constants above."""
    sheet = copy.deepcopy(make())
    sheet["pattern"], sheet["name"] = PATTERN, "Example with plans"
    same_or_not = [{"name": "same", "title": "Outer cloth"}, {"name": "contrast", "title": "Contrast cloth"}]
    sheet["choices"] += [
        choice("pocket-cloth", "Cloth of the pockets", "same", same_or_not, asked_when=[POCKETS]),
        choice("band-cloth", "Cloth of the bands", "same", same_or_not, asked_when=[GATHERED]),
    ]
    contrast = copy.deepcopy(next(cloth for cloth in sheet["cloths"] if cloth["name"] == "outer"))
    contrast |= {"name": "contrast", "title": "Contrast cloth", "widths_mm": [1100, 1400]}
    for cloth in (contrast, next(cloth for cloth in sheet["cloths"] if cloth["name"] == "outer")):
        cloth["repeats"] = []
    sheet["cloths"].insert(1, contrast)
    for piece, name in (("pocket", "pocket-cloth"), ("sleeve-band", "band-cloth")):
        line = next(item for item in sheet["items"] if item["id"] == f"{piece}.outer")
        other = copy.deepcopy(line) | {"id": f"{piece}.contrast", "cloth": "contrast"}
        for item, word in ((line, "same"), (other, "contrast")):
            item["when"] = [{**mapping, name: [word]} for mapping in item["when"]]
        sheet["items"].append(other)
    for cloth, lengths_mm, from_mm in (("outer", OUTER_MM, 1400), ("contrast", CONTRAST_MM, 1100)):
        sheet["sets"][cloth] = list(SETS[cloth].values())
        rows = [[[from_mm, lengths_mm[name], at, 2]] for at, name in enumerate(SETS[cloth])]
        by_size = dict.fromkeys(SIZES, rows)
        sheet["lays"][cloth] = {way: {"with": by_size, "without": by_size} for way in ("folded", "flat")}
    sheet["cloth_plans"] = [
        plan("one", "All from one cloth", pockets="same", bands="same"),
        plan("pockets", "Contrast pockets", pockets="contrast", bands="same"),
        plan("both", "Contrast pockets and bands", pockets="contrast", bands="contrast"),
    ]
    return sheet


def plan(name: str, title: str, *, pockets: str, bands: str) -> Json:
    """A plan of the example."""
    return {"name": name, "title": title, "choices": {"pocket-cloth": [pockets], "band-cloth": [bands]}}
