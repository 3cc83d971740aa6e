"""Makes sheets for a shop with many patterns, by varying the example sheet: for tests of size and speed.

    python -m tests.pages.many_patterns FOLDER [COUNT]

writes COUNT sheets (200 unless said) into FOLDER. Names, garments, sizes, kinds of cloth, difficulty and prices differ;
the drawings are stretched, so that no two are alike and packing them gains nothing unfair. All invented.
"""

from __future__ import annotations

import copy
import json
import sys
from pathlib import Path
from typing import Any

EXAMPLE = Path(__file__).parents[1] / "cases" / "sheet_example.json"
COUNT = 200
FIRST = ("Alder", "Brine", "Clover", "Drift", "Eider", "Fern", "Gannet", "Heather", "Islet", "Juniper", "Kelp", "Larch",
         "Marram", "Nettle", "Osier", "Pebble", "Quill", "Rowan", "Sorrel", "Tansy")  # fmt: skip
SECOND = ("brook", "cove", "fold", "gate", "haven", "lane", "mere", "pool", "ridge", "stile")
GARMENTS = ("jacket", "dress", "trousers", "shirt", "romper", "skirt", "coat", "vest")
KINDS = (["woven"], ["knit"], ["woven", "knit"])
SUMMARIES = (
    "With a collar that lies flat and cuffs to fold over.",
    "Gathered below a yoke, with a button band at the back.",
    "Straight and roomy, with a pocket that holds a stone or two.",
    "For cold mornings: lined, with sleeves that may be rolled up.",
    "Light, with a facing all round and no closures.",
)

Json = dict[str, Any]


def sheet_number(number: int, example: Json) -> Json:
    """The example sheet turned into another pattern; the same for the same number."""
    sheet: Json = copy.deepcopy(example)
    name = FIRST[number % len(FIRST)] + SECOND[number // len(FIRST) % len(SECOND)]
    sheet["name"] = name if number < len(FIRST) * len(SECOND) else f"{name} {number}"
    sheet["pattern"] = sheet["name"].lower().replace(" ", "-")
    sheet["garment"] = GARMENTS[number * 5 % len(GARMENTS)]
    sheet["summary"] = SUMMARIES[number % len(SUMMARIES)]
    sheet["difficulty"] = 1 + number * 7 % 5
    sheet["cloths"][0]["kinds"] = KINDS[number // 2 % len(KINDS)]
    sizes = sheet["sizes"]
    start = number // 8 % 4
    sheet["sizes"] = sizes[start : start + 5]
    free = number % 9 == 0
    sheet["sale"] = {
        "price": None if free else f"{6 + number % 5}.50", "free": free, "download": None, "formats": ["A4 pages"],
        "checkout": None if free else f"https://checkout.example/{sheet['pattern']}", "languages": ["en"],
    }  # fmt: skip
    wide, high = 80 + number * 13 % 45, 75 + number * 29 % 50
    for view in ("front", "back"):
        for part in sheet["drawing"][view]:
            part["outline"] = [[x * wide // 100, y * high // 100] for x, y in part["outline"]]
    return sheet


def write(folder: Path, count: int = COUNT) -> list[Path]:
    """Write the sheets; returns their paths."""
    folder.mkdir(parents=True, exist_ok=True)
    example = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    paths = []
    for number in range(count):
        sheet = sheet_number(number, example)
        path = folder / f"{sheet['pattern']}.json"
        path.write_text(json.dumps(sheet), encoding="utf-8")
        paths.append(path)
    return paths


if __name__ == "__main__":
    write(Path(sys.argv[1]), *(int(word) for word in sys.argv[2:]))
