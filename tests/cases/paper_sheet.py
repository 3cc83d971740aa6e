"""A garment of rectangles and triangles whose shortest lays are right on paper. Invented for tests.

Outer cloth is laid flat, with 15 mm beside each selvedge left alone. Every piece of it is a rectangle of 450 mm across
and 700 (size 92) or 720 mm (98) along: four panels, and two sleeves. On 1000 mm there is room for two beside each
other (2 x 450 + 30 = 930), on 1400 for three (3 x 450 + 30 = 1380), and never for one more. So any line across the
cloth meets two, or three, pieces at most, and n of them can't take less than their rows of two, or three:

    on 1000 mm    4 panels: 2 rows    4 panels and 2 sleeves: 3 rows    2 sleeves: 1 row
    on 1400 mm    4 panels: 2 rows    4 panels and 2 sleeves: 2 rows

Of two garments without sleeves in 92 the eight panels take, on 1400 mm, 3 rows together, and 2 + 2 one behind the
other.

The lining is two right triangles, 450 mm across and 700 along, on 480 mm of cloth: turned round, the second one makes
a rectangle of 450 x 700 with the first. Where no piece may be turned, the edge along the selvedge is 700 mm long in
both and can't be shared, so they take 1400.
"""

from __future__ import annotations

import copy
from typing import Any

from .make_sheet_example import choice, make

Json = dict[str, Any]

PATTERN = "paper-rectangles"
ACROSS, SELVEDGES = 450, 30
ALONG = {"92": 700, "98": 720}
GROWS_MM = 20
"""So much longer is each piece in 98 than in 92."""
PANELS, SLEEVES = 4, 2
LONG = {"sleeves": ["long"]}
NUMBERS = {"panels 1000": 1, "all 1000": 2, "all 1400": 3, "sleeves 1000": 4, "two 1000": 5, "two 1400": 6,
           "with": 7, "without": 8}  # fmt: skip


def lay(width: int, rows: int, name: str, size: str = "92") -> list[int]:
    """A step of the sheet: so many rows of rectangles."""
    return [width, rows * ALONG[size], NUMBERS[name], rows]


def line(line_id: str, title: str, cloth: str, count: int, when: list[Json]) -> Json:
    """A line of the cutting list."""
    half = 2 if cloth == "lining" else 1
    return {
        "id": line_id, "piece": line_id.split(".")[0], "title": title, "cloth": cloth, "mode": "single", "count": count,
        "face": "up", "kind": "cut", "when": when, "notes": [], "grain": "lengthwise", "stretch": "across",
        "copies": [], "narrowest_mm": {size: {"flat": ACROSS + SELVEDGES} for size in ALONG},
        "area_mm2": {size: ACROSS * along * count // half for size, along in ALONG.items()},
    }  # fmt: skip


def make_paper() -> Json:
    """The sheet."""
    sheet = copy.deepcopy(make())
    sheet |= {"pattern": PATTERN, "name": "Paper rectangles", "sizes": list(ALONG), "rules": [], "notions": [],
              "gathers": [], "pull_on": [], "sewn": [], "words": [], "steps": [], "cautions": [], "together": [],
              "drawing": {"size": "92", "front": [], "back": []}, "minutes": 100, "difficulty": 1}  # fmt: skip
    for part in ("rows", "ages"):
        sheet["body"][part] = {size: sheet["body"][part][size] for size in ALONG}
    sheet["choices"] = [
        choice("sleeves", "Sleeves", "none", [{"name": "none", "title": "None"},
                                              {"name": "long", "title": "Long", "minutes": 60}]),
        choice("sleeve-cloth", "Cloth of the sleeves", "same", [{"name": "same", "title": "Outer cloth"},
               {"name": "contrast", "title": "Contrast cloth"}], asked_when=[LONG]),
    ]  # fmt: skip
    outer = next(cloth for cloth in sheet["cloths"] if cloth["name"] == "outer")
    plain = {"nap": [{"when": [], "nap": "ask"}], "kinds": ["woven"], "kind_cases": [{"when": [], "kinds": ["woven"]}],
             "repeats": [], "ways": ["flat"], "widths_mm": [1000, 1400], "usual_width_mm": 1000}  # fmt: skip
    sheet["cloths"] = [
        {**outer, **plain},
        {**outer, **plain, "name": "contrast", "title": "Contrast cloth"},
        {**outer, **plain, "name": "lining", "title": "Lining", "widths_mm": [480], "usual_width_mm": 480},
    ]
    same, other = {**LONG, "sleeve-cloth": ["same"]}, {**LONG, "sleeve-cloth": ["contrast"]}
    sheet["items"] = [
        line("panel.outer", "Panel", "outer", PANELS, []),
        line("sleeve.outer", "Sleeve", "outer", SLEEVES, [same]),
        line("sleeve.contrast", "Sleeve", "contrast", SLEEVES, [other]),
        line("half.lining", "Half", "lining", 2, []),
    ]
    sheet["sets"] = {"outer": [["panel.outer", "sleeve.outer"], ["panel.outer"]], "contrast": [["sleeve.contrast"]],
                     "lining": [["half.lining"]]}  # fmt: skip
    each = {
        size: [[lay(1000, 3, "all 1000", size), lay(1400, 2, "all 1400", size)], [lay(1000, 2, "panels 1000", size)]]
        for size in ALONG
    }
    both = {"92+92": [[], [lay(1000, 4, "two 1000"), lay(1400, 3, "two 1400")]]}
    sheet["lays"] = {
        "outer": {"flat": {"with": each | both, "without": each | both}},
        "contrast": {"flat": {nap: {size: [[lay(1000, 1, "sleeves 1000", size)]] for size in ALONG}
                              for nap in ("with", "without")}},
        "lining": {"flat": {nap: {size: [[[480, rows * along, NUMBERS[nap], rows]]] for size, along in ALONG.items()}
                            for nap, rows in (("with", 2), ("without", 1))}},
    }  # fmt: skip
    body = {"when": [], "mm": {size: float(along - 100) for size, along in ALONG.items()}, "parts": []}
    sheet["finished"] = [{"name": "body-length", "title": "Body, finished", "body": None, "ease_mm": {},
                          "wearing_mm": {}, "cases": [body]}]  # fmt: skip
    sheet["lengthen"] = [{"when": [], "by": "body-length", "title": "Body", "where": "at the line in the middle",
                          "pieces": ["panel", "sleeve"]}]  # fmt: skip
    sheet["cloth_plans"] = [
        {"name": "one", "title": "All from one cloth", "choices": {"sleeve-cloth": ["same"]}},
        {"name": "contrast", "title": "Contrast sleeves", "choices": {"sleeve-cloth": ["contrast"]}},
    ]
    return sheet


def rectangles(count: int, beside: int, item: int, first: int = 0, along: int = 700) -> list[list[int]]:
    """Places in a lay file: rectangles one after the other, so many beside each other, from the first place on."""
    return [
        [item, at, (at + first) // beside * along, (at + first) % beside * ACROSS, 0, 0] for at in range(count)
    ]


def lay_files() -> dict[str, Json]:
    """The lay files, by key."""
    rectangle = {size: [[0, 0], [along, 0], [along, ACROSS], [0, ACROSS]] for size, along in ALONG.items()}
    found = {}
    for size, along in ALONG.items():
        lays = {
            "panels 1000": (1000, 2, rectangles(PANELS, 2, 0, along=along)),
            "all 1000": (1000, 3, rectangles(PANELS, 2, 0, along=along)
                         + rectangles(SLEEVES, 2, 1, PANELS, along=along)),
            "all 1400": (1400, 2, rectangles(PANELS, 3, 0, along=along)
                         + rectangles(SLEEVES, 3, 1, PANELS, along=along)),
        }  # fmt: skip
        found[f"outer.flat.{size}"] = {
            "format": 1, "pattern": PATTERN, "cloth": "outer", "way": "flat", "size": size,
            "items": ["panel.outer", "sleeve.outer"], "outlines": [rectangle[size]] * 2,
            "lays": {str(NUMBERS[name]): {"at": at, "length_mm": rows * along, "nap": False, "width_mm": width}
                     for name, (width, rows, at) in lays.items()},
        }  # fmt: skip
    twice = {
        name: rectangles(PANELS, beside, 0) + rectangles(PANELS, beside, 1, PANELS)
        for name, beside in (("two 1000", 2), ("two 1400", 3))
    }
    found["outer.flat.92+92"] = {
        "format": 1, "pattern": PATTERN, "cloth": "outer", "way": "flat", "size": "92+92", "sizes": ["92", "92"],
        "items": ["panel.outer"] * 2, "outlines": [rectangle["92"]] * 2, "garments": [0, 1],
        "lays": {str(NUMBERS[name]): {"at": at, "length_mm": max(one[2] for one in at) + 700, "nap": False,
                                      "width_mm": int(name.split()[1])} for name, at in twice.items()},
    }  # fmt: skip
    triangle = [[0, 0], [700, 0], [0, ACROSS]]
    # The second one stands behind the first, or is turned round about the middle of the rectangle.
    places = {"with": [[0, 0, 0, 0, 0, 0], [0, 1, 700, 0, 0, 0]], "without": [[0, 0, 0, 0, 0, 0],
                                                                              [0, 1, 700, ACROSS, 1, 0]]}  # fmt: skip
    found["lining.flat.92"] = {
        "format": 1, "pattern": PATTERN, "cloth": "lining", "way": "flat", "size": "92", "items": ["half.lining"],
        "outlines": [triangle],
        "lays": {str(NUMBERS[nap]): {"at": at, "length_mm": 1400 if nap == "with" else 700, "nap": nap == "with",
                                     "width_mm": 480} for nap, at in places.items()},
    }  # fmt: skip
    return found
