"""A spec sheet made by hand, with its lay files, for tests and for building pages before any real pattern exists.

Invented throughout: a little jacket with plausible numbers. Outlines are blocks of a few points; the lays put them in
rows, each piece in its box (`rows_of_boxes.py`): true lays, but not good ones. Run this file as
`python -m cases.make_sheet_example` in the folder `tests` to write `sheet_example.json` and `lay_files.json` beside
it; a test keeps files and script alike. Longer than 400 lines because a whole sheet is written out here.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from .rows_in_step import merged, published_in_step
from .rows_of_boxes import Row, Spread, lay_files, published
from .two_of_boxes import published_pair

SIZES = ["68", "74", "80", "86", "92", "98", "104", "110", "116"]
PATH = Path(__file__).with_name("sheet_example.json")
LAYS_PATH = Path(__file__).with_name("lay_files.json")
HIP = {"length": ["hip"]}
WAIST = {"length": ["waist"]}
LONG = {"sleeves": ["long"]}
GATHERED = {"sleeve-end": ["gathered"]}
POCKETS = {"pockets": ["two"]}
WIDTHS = [1100, 1350, 1400, 1500]
KNIT = {"cloth": ["knit"]}

Json = dict[str, Any]
Points = list[list[int]]

LEFT_OVER = {"overlap": ["left-over-right"]}
RIGHT_OVER = {"overlap": ["right-over-left"]}


def body(size: str) -> dict[str, int]:
    """A plausible body at the label's height, in mm."""
    steps = (int(size) - 92) / 6
    girths = {"chest": 503 + 22.7 * steps, "waist": 475 + 16.7 * steps, "hip": 510 + 25.5 * steps}
    return {"height": int(size) * 10} | {name: round(value) for name, value in girths.items()}


def blocks(size: str) -> dict[str, Points]:
    """Cutting outlines of a few points each, in mm, y up; halves for pieces on the fold."""
    girth = body(size)
    wide, high = girth["chest"] // 4 + 35, int(size) * 4
    cut, arm = high * 62 // 100, int(size) * 3

    def trunk(bottom: int, over: int, dip: int) -> Points:
        return [
            [-over, bottom], [wide, bottom], [wide, high - wide * 9 // 10], [wide - 24, high - wide // 2],
            [wide - 18, high - 22], [wide // 3, high], [wide // 6, high - dip * 3 // 4], [-over, high - dip],
        ]  # fmt: skip

    sleeve = [
        [0, 0],
        [wide + 44, 0],
        [wide + 70, arm],
        [wide * 7 // 10, arm + 62],
        [wide * 3 // 10, arm + 62],
        [-26, arm],
    ]
    return {
        "front.outer.hip": trunk(0, 25, 62),
        "front.outer.waist": trunk(high - cut, 25, 62),
        "back.outer.hip": trunk(0, 0, 18),
        "back.outer.waist": trunk(high - cut, 0, 18),
        "sleeve.outer": sleeve,
        "sleeve-band.outer": [[0, 0], [130 + int(size), 0], [130 + int(size), 70], [0, 70]],
        "waist-band.outer": [[0, 0], [4 * wide + 40, 0], [4 * wide + 40, 80], [0, 80]],
        "pocket.outer": [[0, 18], [18, 0], [82, 0], [100, 18], [100, 130], [0, 130]],
        "facing.outer": [[0, 0], [68, 0], [68, high - 80], [20, high - 62], [0, high - 62]],
        "front.lining.hip": trunk(20, -40, 62),
        "front.lining.waist": trunk(high - cut, -40, 62),
        "back.lining.hip": trunk(20, 0, 18),
        "back.lining.waist": trunk(high - cut, 0, 18),
        "sleeve.lining": [[x, max(y, 20)] for x, y in sleeve],
        "front.interfacing.front-edge": [[-25, 0], [25, 0], [25, high - 60], [-25, high - 60]],
    }


def item(line_id: str, title: str, cloth: str, mode: str, count: int, when: list[Json], *notes: str) -> Json:
    """One line of the cutting list."""
    kind = "interfacing" if cloth == "interfacing" else "cut"
    narrowest = {}
    for size in SIZES:
        xs = [x for x, _ in blocks(size)[line_id]]
        across = max(xs) - min(xs)
        if mode == "fold":
            narrowest[size] = {"flat": 2 * across + 30, "folded": 2 * across + 30}
        else:
            narrowest[size] = {"flat": across + 30, "folded": 2 * across + 30}
    return {
        "id": line_id, "piece": line_id.split(".")[0], "title": title, "cloth": cloth, "mode": mode, "count": count,
        "face": "up", "kind": kind, "when": when, "notes": list(notes), "narrowest_mm": narrowest,
        "grain": "lengthwise", "stretch": "across" if kind == "cut" else "none", "copies": [],
        "area_mm2": {size: area_mm2(line_id, mode, count, size) for size in SIZES},
    }  # fmt: skip


def area_mm2(line_id: str, mode: str, count: int, size: str) -> int:
    """The area within the cutting lines of all copies."""
    ring = blocks(size)[line_id]
    twice = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1], strict=True)))
    return twice * count * (2 if mode == "fold" else 1) // 2


def fronts() -> list[Json]:
    """The two copies of a front: what they carry follows the way it overlaps."""
    holes, buttons = {"what": "buttonholes"}, {"what": "buttons"}
    return [
        {"name": "wearers-left", "drawn": True,
         "carries": [holes | {"when": [LEFT_OVER]}, buttons | {"when": [RIGHT_OVER]}]},
        {"name": "wearers-right", "drawn": False,
         "carries": [holes | {"when": [RIGHT_OVER]}, buttons | {"when": [LEFT_OVER]}]},
    ]  # fmt: skip


def items() -> list[Json]:
    """The cutting list over all choices."""
    return [
        item("front.outer.hip", "Front", "outer", "pair", 2, [HIP]) | {"copies": fronts()},
        item("front.outer.waist", "Front", "outer", "pair", 2, [WAIST]) | {"copies": fronts()},
        item("back.outer.hip", "Back", "outer", "fold", 1, [HIP]),
        item("back.outer.waist", "Back", "outer", "fold", 1, [WAIST]),
        item("sleeve.outer", "Sleeve", "outer", "pair", 2, [LONG]),
        item("sleeve-band.outer", "Sleeve band", "outer", "single", 2, [GATHERED]),
        item("waist-band.outer", "Waistband", "outer", "single", 1, [WAIST]),
        item("pocket.outer", "Patch pocket", "outer", "single", 2, [POCKETS]),
        item("facing.outer", "Front facing", "outer", "pair", 2, []),
        item("front.lining.hip", "Front", "lining", "pair", 2, [HIP]),
        item("front.lining.waist", "Front", "lining", "pair", 2, [WAIST]),
        item("back.lining.hip", "Back", "lining", "fold", 1, [HIP]),
        item("back.lining.waist", "Back", "lining", "fold", 1, [WAIST]),
        item("sleeve.lining", "Sleeve", "lining", "pair", 2, [LONG]),
        item("front.interfacing.front-edge", "Front edge", "interfacing", "pair", 2, [], "only the front edge"),
    ]


SETS = {
    "outer": [
        ["back.outer.hip", "facing.outer", "front.outer.hip", "pocket.outer", "sleeve-band.outer", "sleeve.outer"],
        ["back.outer.hip", "facing.outer", "front.outer.hip", "pocket.outer"],
        [
            "back.outer.waist",
            "facing.outer",
            "front.outer.waist",
            "sleeve-band.outer",
            "sleeve.outer",
            "waist-band.outer",
        ],
        ["back.outer.waist", "facing.outer", "front.outer.waist", "waist-band.outer"],
        ["back.outer.hip", "facing.outer", "front.outer.hip", "sleeve.outer"],
    ],
    "lining": [
        ["back.lining.hip", "front.lining.hip", "sleeve.lining"],
        ["back.lining.hip", "front.lining.hip"],
        ["back.lining.waist", "front.lining.waist", "sleeve.lining"],
        ["back.lining.waist", "front.lining.waist"],
    ],
    "interfacing": [["front.interfacing.front-edge"]],
}


def outline_for_lay(line_id: str, size: str) -> Points:
    """The outline as it lies on the cloth: turned so that its y runs along the grain, which is the lay's x."""
    ring = blocks(size)[line_id]
    top = max(y for _, y in ring)
    left = 0 if ".".join(line_id.split(".")[:2]) in ("back.outer", "back.lining") else min(x for x, _ in ring)
    return [[top - y, x - left] for x, y in ring]


PAIR = ("92", "104")
"""Two sizes that are also laid together."""


def spreads() -> list[Spread]:
    """Every cloth with what lies on it."""
    lines = items()
    return [
        Spread(
            pattern="example-jacket",
            cloth=cloth["name"],
            ways=cloth["ways"],
            naps=cloth["asked_naps"],
            widths_mm=cloth["widths_mm"],
            sizes=SIZES,
            sets=SETS[cloth["name"]],
            rows={
                line["id"]: Row(
                    mode=line["mode"],
                    count=line["count"],
                    outlines={size: outline_for_lay(line["id"], size) for size in SIZES},
                )
                for line in lines
                if line["cloth"] == cloth["name"]
            },
        )
        for cloth in CLOTHS
    ]


ASK, NEVER = {"when": [], "nap": "ask"}, {"when": [], "nap": "never"}
WOVEN = {"when": [], "kinds": ["woven"]}
CLOTHS: list[Json] = [
    {"name": "outer", "title": "Outer cloth", "kinds": ["woven", "knit"], "usual_width_mm": 1400,
     "widths_mm": WIDTHS, "ways": ["folded", "flat"], "nap": [{"when": [KNIT], "nap": "always"}, ASK],
     "kind_cases": [{"when": [KNIT], "kinds": ["knit"]}, WOVEN], "asked_naps": ["with", "without"],
     "repeats": [
         {"name": "stripes-40", "title": "Stripes across, every 4 cm", "along_mm": 40, "across_mm": None, "even": True},
         {"name": "checks-60", "title": "Checks of 6 cm", "along_mm": 60, "across_mm": 60, "even": True},
         {"name": "uneven-70", "title": "Uneven stripes, every 7 cm", "along_mm": 70, "across_mm": None, "even": False},
     ]},
    {"name": "lining", "title": "Lining", "kinds": ["woven"], "usual_width_mm": 1400,
     "widths_mm": WIDTHS, "ways": ["folded", "flat"], "nap": [ASK], "kind_cases": [WOVEN], "repeats": [],
     "asked_naps": ["with", "without"]},
    {"name": "interfacing", "title": "Fusible interfacing", "kinds": ["interfacing"], "usual_width_mm": 900,
     "widths_mm": [900], "ways": ["folded", "flat"], "nap": [NEVER],
     "kind_cases": [{"when": [], "kinds": ["interfacing"]}], "repeats": [], "asked_naps": ["without"]},
]  # fmt: skip


DRAWN = "92"


def drawing() -> Json:
    """Front and back views, placed: x = 0 is the centre line."""
    at = blocks(DRAWN)
    wide, high, tip = body(DRAWN)["chest"] // 4 + 35, int(DRAWN) * 4, int(DRAWN) * 4 - 22
    left = {name: [[-x, y] for x, y in ring] for name, ring in at.items()}
    sleeve = [
        [-(wide - 22), tip],
        [-(wide + 30), tip - 60],
        [-(wide + 150), 130],
        [-(wide + 86), 96],
        [-wide, high - 150],
    ]
    band = [[-(wide + 158), 136], [-(wide + 76), 92], [-(wide + 88), 62], [-(wide + 174), 106]]
    pocket = [[-(wide - 30) + x, 45 + y] for x, y in at["pocket.outer"]]
    waist = at["front.outer.waist"][0][1]
    band_low = [[-wide, waist - 42], [wide, waist - 42], [wide, waist + 4], [-wide, waist + 4]]

    def part(piece: str, when: list[Json], outline: Points, both_sides: bool = True) -> Json:
        return {"piece": piece, "when": when, "both_sides": both_sides, "outline": outline}

    def whole(name: str) -> Points:
        ring = left[name]
        return ring + [[-x, y] for x, y in reversed(ring) if x != 0]

    arms = [part("sleeve", [LONG], sleeve), part("sleeve-band", [GATHERED], band)]
    return {
        "size": DRAWN,
        "front": [
            *arms,
            part("front", [HIP], left["front.outer.hip"]),
            part("front", [WAIST], left["front.outer.waist"]),
            part("pocket", [POCKETS], pocket),
            part("waist-band", [WAIST], band_low, False),
        ],
        "back": [
            *arms,
            part("back", [HIP], whole("back.outer.hip"), False),
            part("back", [WAIST], whole("back.outer.waist"), False),
            part("waist-band", [WAIST], band_low, False),
        ],
    }


def choice(name: str, title: str, default: str, alternatives: list[Json], **more: Any) -> Json:
    """A choice with its alternatives."""
    return {
        "name": name, "title": title, "default": default, "steps_only": False, "asked_when": [],
        "about": "", "alternatives": [{"difficulty": 0, "minutes": 0, "about": ""} | one for one in alternatives],
    } | more  # fmt: skip


def rule(when: list[Json], **more: Any) -> Json:
    """A rule; what it does not say is null."""
    return {"when": when, "needs": None, "excludes": None, "only_sizes": None, "advice": None, "because": None} | more


def make() -> Json:
    """The whole example sheet."""
    per_size = {size: body(size) for size in SIZES}
    ages = ["6 months", "9 months", "12 months", "18 months", "2 years", "3 years", "4 years", "5 years", "6 years"]
    return {
        "format": 3,
        "pattern": "example-jacket",
        "name": "Example jacket",
        "summary": "A lined little jacket, made up for trying things out.",
        "garment": "jacket",
        "edition": "1",
        "difficulty": 2,
        "minutes": 240,
        "sizes": SIZES,
        "together": [list(PAIR)],
        "lengthen": [],
        "gathers": [gather(per_size)],
        "pull_on": pull_on(),
        "sewn": [
            {"when": [], "mm": {size: int(size) * 50 for size in SIZES}},
            {"when": [LONG], "mm": {size: int(size) * 12 for size in SIZES}},
        ],
        "pressed": {},
        "size_by": ["chest", "height"],
        "body": {
            "chart": "example",
            "columns": ["height", "chest", "waist", "hip"],
            "rows": per_size,
            "ages": dict(zip(SIZES, ages, strict=True)),
            "sources": ["Invented for tests."],
        },
        "choices": [
            choice("length", "Length", "hip", [
                {"name": "waist", "title": "To the waist, with a band", "difficulty": 1, "minutes": 40,
                 "about": "A band with elastic ends it at the waist."},
                {"name": "hip", "title": "To the hip", "about": "A straight hem ends it at the hip."},
            ], about="How long the body of the jacket is."),
            choice("sleeves", "Sleeves", "long", [
                {"name": "none", "title": "None"},
                {"name": "long", "title": "Set in, long", "difficulty": 1, "minutes": 60},
            ]),
            choice("sleeve-end", "Sleeve end", "hemmed", [
                {"name": "hemmed", "title": "Hemmed"},
                {"name": "gathered", "title": "Gathered into a band", "minutes": 30},
            ], asked_when=[LONG]),
            choice("pockets", "Patch pockets", "none", [
                {"name": "none", "title": "None"},
                {"name": "two", "title": "Two", "minutes": 30},
            ]),
            choice("hem", "Top-stitching", "plain", [
                {"name": "plain", "title": "None"},
                {"name": "stitched", "title": "Along all edges", "minutes": 20},
            ], steps_only=True),
            choice("cloth", "Cloth", "woven", [
                {"name": "woven", "title": "Woven"},
                {"name": "knit", "title": "Sweat knit", "minutes": -20, "about": "Laid all one way, as knits are."},
            ]),
            choice("overlap", "Overlap", "left-over-right", [
                {"name": "left-over-right", "title": "Left over right, as worn"},
                {"name": "right-over-left", "title": "Right over left, as worn"},
            ], steps_only=True),
        ],
        "rules": [
            rule([POCKETS], needs=[HIP], because="Patch pockets need the hip length."),
            rule([{"hem": ["stitched"]}], excludes=[GATHERED | WAIST],
                 because="Two bands leave no edge to stitch along."),
            rule([GATHERED], only_sizes=SIZES[1:], because="In size 68 the band would be too short to sew."),
            rule([{"sleeves": ["none"], "size": ["68", "74"]}],
                 advice="Babies' shoulders cool quickly: long sleeves are kinder up to size 74."),
        ],
        "cloths": [{key: value for key, value in cloth.items() if key != "asked_naps"} for cloth in CLOTHS],
        "items": items(),
        "sets": SETS,
        "lays": {spread.cloth: merged(with_pair(spread), in_step(spread)[0]) for spread in spreads()},
        "finished": finished(per_size),
        "notions": notions(per_size),
        "drawing": drawing(),
        "steps": [
            {"title": "Press the interfacing on", "html": "<p>Onto the wrong side of both fronts.</p>", "when": [],
             "up": "wrong side", "sews": [["front"]]},
            {"title": "Sew the pockets on", "html": "<p>Turn the top in <em>twice</em>.</p>", "when": [POCKETS]},
            {"title": "Set the sleeves in", "html": "<p>Notch to notch.</p>", "when": [LONG],
             "techniques": ["set-in-sleeve"], "up": "right side of the {0}", "sews": [["sleeve"]], "minutes": 20},
            {"title": "Sew the waistband", "html": "<p>Cut {1} of the elastic, draw it in.</p>", "when": [WAIST]},
            {"title": "Top-stitch", "html": "<p>5 mm beside the edge of {2}.</p>", "when": [{"hem": ["stitched"]}]},
        ],
        "techniques": [
            {"name": "before-woven", "title": "Woven cloth", "short": "Wash and press it first.", "before": []},
            {"name": "set-in-sleeve", "title": "Set a sleeve in", "short": "Pin the notches first.", "before": None,
             "drawing": "set-in-sleeve.svg"},
        ],
        "words": [
            {"show": "text", "cases": [{"when": [], "all": "sleeve"}]},
            {"show": "cm", "take": "cut", "notion": "waist-elastic"},
            {"show": "cm", "cases": [{"when": [HIP], "of": {size: int(size) * 4 - 38 for size in SIZES}},
                                     {"when": [WAIST], "all": 210.5}]},
        ],
        "introduction_html": "<p>Wash the cloth first.</p>",
        "cautions": [],
        "label": "Thistle Quay",
        "currency": "EUR",
        "sale": {"price": "8.50", "free": False, "checkout": "https://checkout.example/example-jacket",
                 "download": None, "formats": ["A4 pages", "A0 sheet"], "languages": ["en"]},
        "photographs": [],
        "cloth_plans": [],
    }  # fmt: skip


def part(words: str, times: int, mm: dict[str, float], view: str, line: Points) -> Json:
    """One part of a length: an edge with its length (one time) and where it is in the drawing."""
    return {"words": words, "times": times, "mm": mm, "trace": {"view": view, "line": line}}


def case(when: list[Json], *parts: Json) -> Json:
    """A length with its parts, of which it is the sum."""
    mm = {size: round(sum(one["mm"][size] * one["times"] for one in parts), 1) for size in SIZES}
    return {"when": when, "mm": mm, "parts": list(parts)}


def finished(per_size: dict[str, dict[str, int]]) -> list[Json]:
    """Finished measurements with the edges they are the sum of."""
    wide, high = body(DRAWN)["chest"] // 4 + 35, int(DRAWN) * 4
    arm = high - wide * 9 // 10
    quarter = {s: float(per_size[s]["chest"] // 4) for s in SIZES}
    chest = case(
        [],
        part("Front, straight from front edge to underarm", 2, {s: mm + 28.2 for s, mm in quarter.items()}, "front",
             [[-wide, arm], [0, arm]]),
        part("Back, straight from centre to underarm", 2, {s: mm + 18.0 for s, mm in quarter.items()}, "back",
             [[-wide, arm], [0, arm]]),
    )  # fmt: skip
    down = [[0, high - 18], [0, high - high * 62 // 100]]
    return [
        {"name": "chest", "title": "Chest, finished", "body": "chest",
         "ease_mm": {"woven": [60, 140], "knit": [20, 110]}, "wearing_mm": {}, "cases": [chest]},
        {"name": "back-length", "title": "Back length", "body": None, "ease_mm": {}, "wearing_mm": {}, "cases": [
            case([HIP], part("Back, edge centre", 1, {s: int(s) * 4 - 38.0 for s in SIZES}, "back",
                             [[0, high - 18], [0, 0]])),
            case([WAIST], part("Back, edge centre", 1, {s: round(int(s) * 2.48 + 12.0, 1) for s in SIZES}, "back",
                               down)),
        ]},
        {"name": "sleeve", "title": "Sleeve length", "body": None, "ease_mm": {}, "wearing_mm": {}, "cases": [
            case([LONG], part("Sleeve, straight from crown to end", 1, {s: int(s) * 3 + 40.0 for s in SIZES}, "front",
                              [[-(wide - 22), high - 22], [-(wide + 118), 113]])),
        ]},
    ]  # fmt: skip


def notions(per_size: dict[str, dict[str, int]]) -> list[Json]:
    """Buttons, elastic, tape; one of each way in which an amount comes about."""
    wide = body(DRAWN)["chest"] // 4 + 35
    bare = {"width_mm": None, "diameter_mm": None, "count": None, "tabled_count": {}, "tabled_mm": {}, "rule": None,
            "when": [], "edge_cases": [], "thickness_mm": None, "needs": "", "carried_by": None,
            "placed": None, "passes": [], "channel_cases": [], "reel_m": None}  # fmt: skip
    hem = case(
        [HIP],
        part("Front, edge hem", 1, {s: per_size[s]["chest"] / 4 + 35.5 for s in SIZES}, "front", [[-wide, 0], [0, 0]]),
        part("Back, edge hem", 1, {s: per_size[s]["chest"] / 4 + 35.0 for s in SIZES}, "back", [[-wide, 0], [0, 0]]),
    )
    return [
        bare | {"name": "closure", "title": "Buttons, 13 mm, or snaps", "kinds": ["button", "snap"], "diameter_mm": 13,
                "thickness_mm": 3, "count": 5, "tabled_count": {"68": 4, "74": 4},
                "needs": "A square of firm cloth behind each snap.", "placed": placed()},
        bare | {"name": "waist-elastic", "title": "Elastic, 20 mm wide", "kinds": ["elastic"], "width_mm": 20,
                "tabled_mm": {"86": 470, "92": 480}, "when": [WAIST],
                "rule": {"take": "ring", "body": "waist", "factor": 1, "minus_mm": 20, "overlap_mm": 20},
                "passes": ["hip"], "channel_cases": [{"when": [WAIST], "mm": dict.fromkeys(SIZES, 26)}]},
        bare | {"name": "hem-tape", "title": "Hem tape, 12 mm", "kinds": ["ribbon"], "width_mm": 12, "when": [HIP],
                "rule": {"take": "edge", "times": 2, "factor": 1, "plus_mm": 30}, "edge_cases": [hem]},
        bare | {"name": "thread", "title": "Thread, reels of 200 m", "kinds": ["thread"], "count": 1,
                "reel_m": 200},
    ]  # fmt: skip


def gather(per_size: dict[str, dict[str, int]]) -> Json:
    """The sleeve gathered to its band, 1.5 times."""
    to = {size: round(per_size[size]["chest"] * 0.3) for size in SIZES}
    case = {"when": [GATHERED], "join_mm": {size: mm * 3 / 2 for size, mm in to.items()}, "to_mm": to}
    return {"name": "sleeve-band", "join": "Sleeve", "to": "Sleeve band", "from": "the sleeve seam", "free_mm": 0,
            "cases": [case]}  # fmt: skip


def pull_on() -> list[Json]:
    """The neck without an opening, which is wide enough in a knit."""
    mm = {size: 500 + 2 * int(size) for size in SIZES}
    head = {size: 440 + int(size) for size in SIZES}
    return [{"name": "neck", "title": "The neck", "over": "head", "room_mm": 10, "body_mm": head,
             "cases": [{"when": [KNIT], "mm": mm}]}]  # fmt: skip


def placed() -> Json:
    """Where the closures sit: the first 15 mm below the neck, the last 40 mm above the lower edge, equal spaces."""

    def row(size: str, line_mm: int) -> Json:
        count = 4 if size in ("68", "74") else 5
        gap = (line_mm - 55) / (count - 1)
        return {"mm": [round(15 + at * gap, 1) for at in range(count)], "line_mm": line_mm, "seams_mm": [],
                "edge_mm": 18, "gave": []}  # fmt: skip

    sides = {"piece": "Front", "right": {"wearers-left": False, "wearers-right": True}}
    return {
        "from": "below the neck seam", "each": "", "holes": "across", "rows": 1, "spacing_mm": None, "clear_mm": 5,
        "cases": [
            {**sides, "when": [HIP], "sizes": {size: row(size, int(size) * 3) for size in SIZES}},
            {**sides, "when": [WAIST], "sizes": {size: row(size, int(size) * 2 + 60) for size in SIZES}},
        ],
    }  # fmt: skip


def with_pair(spread: Spread) -> Json:
    """The published lengths of a cloth, those of the pair beside those of the sizes."""
    lengths, of_pair = published(spread), published_pair(spread, PAIR)[0]
    for way, by_nap in of_pair.items():
        for nap, steps in by_nap.items():
            lengths[way][nap]["+".join(PAIR)] = steps
    return lengths


def lays_beside() -> dict[str, Json]:
    """The lay files, by `<cloth>.<way>.<size>`."""
    alone = {
        key: {**made, "lays": {**made["lays"], **in_step(spread)[1].get(key, {})}}
        for spread in spreads()
        for key, made in lay_files(spread).items()
    }
    return alone | {key: made for spread in spreads() for key, made in published_pair(spread, PAIR)[1].items()}


def in_step(spread: Spread) -> tuple[Json, Json]:
    """The lays for the cloth's listed repeats: lengths, and files."""
    repeats = next(cloth.get("repeats", []) for cloth in CLOTHS if cloth["name"] == spread.cloth)
    return published_in_step(spread, repeats)


def text() -> str:
    """The sheet's text, the same each time."""
    return json.dumps(make(), sort_keys=True, indent=1, ensure_ascii=False) + "\n"


def lays_text() -> str:
    """The lay files' text, one a line, the same each time."""
    lines = [f"{json.dumps(key)}:{_short(made)}" for key, made in sorted(lays_beside().items())]
    return "{\n" + ",\n".join(lines) + "\n}\n"


def _short(value: Json) -> str:
    return json.dumps(value, sort_keys=True, separators=(",", ":"))


if __name__ == "__main__":
    PATH.write_text(text(), encoding="utf-8")
    LAYS_PATH.write_text(lays_text(), encoding="utf-8")
