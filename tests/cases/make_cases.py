"""Requests to the calculators, made from a seed: the same ones are answered by CPython and by Python in the browser.

They cover, for each sheet, every alternative and every pair of alternatives of different choices, sizes, typed widths,
ways of laying, measurements typed well and badly, and, over all, every code of `problems.PROBLEMS`. Some problems need
a sheet that no designer would publish; such sheets are derived from the given ones and opened under names of their own.
"""

from __future__ import annotations

import copy
import json
import random
from collections.abc import Mapping, Sequence
from typing import Any

from boltside.calculators.choices import completed
from boltside.calculators.wash import WASHES

from .make_sheet_example import lays_beside
from .shopping_cases import shopping_cases

SEED = 20261104
"""The seed that tests print; another gives other requests with the same coverage."""

EXAMPLE = "example-jacket"
"""The pattern that has lay files beside it."""

FEWEST = 200
"""At least so many requests."""

ODD_TEXTS = [
    "", "137", "137 cm", "1,37 m", "54 in", '54"', "54 1/2 in", "55½″", "1.5", "1 yd 20 in", "１３７", "１．４ ｍ",
    "۱۴۰", "abc", "-5", "− 140", "9" * 30, "1e3", "0", "1/0", "12 34", "<b>140</b>", "140\u202ecm", "\ud83d", "\x00",
    "1500 mm", "5 m", "6 m", "3' 2\"", "1.2.3", "x" * 60, "140 kg", "  150  ",
]  # fmt: skip
"""What people, and their keyboards and pasted notes, type."""

ODD_BUYING = [
    "4 %", "4,5%", "0", "0.04", "15", "15.1", "-2", "５ %", "12.90", "12,90 EUR", "€ 9.5", "9.50 per yd", "11.20/m",
    "12.999", "1.234,50", "12345678", "10 GBP", "$ 12", "7 a metre", "0.1",
]  # fmt: skip
"""What they type as losses in the wash and as prices."""

ODD_REPEATS = ["", "12", "4 1/4", '2"', "0", "-3", "9999", "wide", "0,5", "1 m", "120"]
"""What they type as a repeat."""

Sheet = dict[str, Any]
Case = tuple[str, str]


def cases(sheets: Sequence[Mapping[str, Any]], seed: int = SEED) -> list[Case]:
    """Calculator and request text, to be answered in this order; the sheets are opened first.

    Arguments: spec sheets; the seed. The texts are JSON, but for those that test what is no JSON.
    """
    draw = random.Random(seed)
    found: list[Case] = list(_no_request())
    for sheet in sheets:
        plain = copy.deepcopy(dict(sheet))
        found.append(("open", json.dumps(plain, sort_keys=True)))
        found += _choices(plain, draw)
        found += _cloths(plain, draw)
        found += _buying(plain, draw)
        found += _stripes(plain, draw)
        found += _measurements(plain, draw)
        found += _strange(plain, draw)
        found += _lays(plain, draw)
        found += _two_at_once(plain, draw)
        found += [_ask("effects", plain, draw, {}, choice=one["name"]) for one in plain["choices"]]
        if plain["cloth_plans"]:
            found += [_ask("plans", plain, draw, _any_choices(plain, draw), size=size) for size in plain["sizes"]]
        found += [_ask("closures", plain, draw, _any_choices(plain, draw), size=size) for size in plain["sizes"]]
    found += shopping_cases(sheets, random.Random(seed))
    for sheet in sheets[:1]:
        found += _never_published(copy.deepcopy(dict(sheet)))
        while len(found) < FEWEST:
            found.append(_ask("panel", dict(sheet), draw, _any_choices(dict(sheet), draw)))
    return found


def _ask(name: str, sheet: Sheet, draw: random.Random, choices: Mapping[str, str], **more: Any) -> Case:
    request = {
        "pattern": sheet["pattern"],
        "size": draw.choice(sheet["sizes"]),
        "choices": dict(choices),
        "cloths": _any_cloths(sheet, draw),
        "unit": draw.choice(["cm", "in"]),
        "cut": draw.choice(["", "fine", "coarse"]),
    }
    return name, json.dumps({**request, **more}, sort_keys=True)


def _any_choices(sheet: Sheet, draw: random.Random) -> dict[str, str]:
    return {one["name"]: draw.choice(one["alternatives"])["name"] for one in sheet["choices"]}


def _any_cloths(sheet: Sheet, draw: random.Random) -> dict[str, Any]:
    widths = ["", "", "110", "140", "152.5", "59 in"]
    return {
        cloth["name"]: {
            "width": draw.choice(widths),
            "way": draw.choice([*cloth["ways"], ""]),
            "nap": draw.choice(["with", "without", ""]),
            "wash": draw.choice([*WASHES, "", ""]),
            "along": draw.choice(["", "3", "4,5 %"]),
            "across": draw.choice(["", "0", "2.5"]),
            "price": draw.choice(["", "12.90", "9,5", "14 per yd", "11/m"]),
            **(_any_stripes(cloth, draw) if draw.random() < 0.2 else {}),
        }
        for cloth in sheet["cloths"]
    }


def _choices(sheet: Sheet, draw: random.Random) -> list[Case]:
    """Every alternative and every pair of alternatives that can be asked together; forbidden pairs too."""
    choices = sheet["choices"]
    single = [((one["name"], word["name"]),) for one in choices for word in one["alternatives"]]
    pairs = [
        (a, b) for at, (a,) in enumerate(single) for (b,) in single[at + 1 :] if a[0] != b[0]
    ]  # choices stand in the sheet's order, so each pair comes once
    left: list[tuple[tuple[str, str], ...]] = [*pairs, *single]
    found = [_ask("panel", sheet, draw, {}, size="", cloths={}, unit="cm")]
    while left:
        wanted = left[0]
        chosen = {**_any_choices(sheet, draw), **_with_askers(sheet, dict(wanted))}
        asked = set(completed(choices, chosen).items())
        done = [one for one in left if set(one) <= asked]
        left = [one for one in left if one not in done and one != wanted]
        found.append(_ask("panel", sheet, draw, chosen))
    return found


def _with_askers(sheet: Sheet, wanted: dict[str, str]) -> dict[str, str]:
    """What is wanted, with what lets it be asked; where two wants exclude each other, they stay as they are."""
    conditions = {one["name"]: one["asked_when"] for one in sheet["choices"]}
    todo = list(wanted)
    while todo:
        for mapping in conditions[todo.pop()][:1]:
            for name, words in mapping.items():
                if name in conditions and name not in wanted:
                    wanted = {**wanted, name: words[0]}
                    todo.append(name)
    return wanted


def _cloths(sheet: Sheet, draw: random.Random) -> list[Case]:
    """Widths, typed in every manner, ways and sizes, also ways that do not exist."""
    found = []
    for cloth in sheet["cloths"]:
        for text in ODD_TEXTS:
            way = draw.choice([*cloth["ways"], ""])
            asked = {cloth["name"]: {"width": text, "way": way}}
            found.append(_ask("cloth", sheet, draw, _any_choices(sheet, draw), cloths=asked))
        for width in [*cloth["widths_mm"], cloth["widths_mm"][0] - 10, cloth["widths_mm"][-1] + 1, 300]:
            for way in cloth["ways"]:
                asked = {cloth["name"]: {"width": f"{width} mm", "way": way}}
                found.append(_ask("cloth", sheet, draw, {}, cloths=asked))
        found.append(_ask("cloth", sheet, draw, {}, cloths={cloth["name"]: {"way": "sideways"}}))
        found.append(_ask("cloth", sheet, draw, {}, cloths={cloth["name"]: {"nap": "fuzzy"}}))
        found.append(_ask("cloth", sheet, draw, {}, size=sheet["sizes"][-1], cloths={cloth["name"]: {"width": "30"}}))
    for size in sheet["sizes"]:
        found.append(_ask("elastic", sheet, draw, _any_choices(sheet, draw), size=size))
    return found


def _buying(sheet: Sheet, draw: random.Random) -> list[Case]:
    """Washing, prices and how the shop cuts, typed in every manner; each cloth in each listed width."""
    found = []
    for cloth in sheet["cloths"]:
        name = cloth["name"]
        for text in ODD_TEXTS + ODD_BUYING:
            losses = {"wash": "own", "along": text, "across": draw.choice(["", "2", text])}
            found.append(_ask("cloth", sheet, draw, _any_choices(sheet, draw), cloths={name: losses}))
            found.append(_ask("cost", sheet, draw, _any_choices(sheet, draw), cloths={name: {"price": text}}))
        for wash in [*WASHES, "boiled"]:
            for width in cloth["widths_mm"]:
                asked = {name: {"width": f"{width} mm", "wash": wash, "along": "3", "way": draw.choice(cloth["ways"])}}
                found.append(_ask(draw.choice(["wider", "cloth"]), sheet, draw, {}, cloths=asked))
    found += [_ask("wider", sheet, draw, _any_choices(sheet, draw), size=size) for size in sheet["sizes"]]
    return found


def _any_stripes(cloth: Mapping[str, Any], draw: random.Random) -> dict[str, str]:
    listed = [f"repeat:{one['name']}" for one in cloth.get("repeats", [])]
    return {
        "pattern": draw.choice(["plain", "own", *listed]),
        "every": draw.choice(["12", "4 1/4", "30 mm"]),
        "uneven": draw.choice(["", "yes"]),
    }


def _stripes(sheet: Sheet, draw: random.Random) -> list[Case]:
    """Repeats, listed in every way of laying, typed in every manner, even and uneven, and one that nobody listed."""
    found = []
    for cloth in sheet["cloths"]:
        name = cloth["name"]
        for text in ODD_REPEATS:
            for uneven in ("", "yes"):
                asked = {"pattern": "own", "every": text, "uneven": uneven, "way": draw.choice(cloth["ways"])}
                found.append(_ask(draw.choice(["panel", "cloth", "wider"]), sheet, draw, {}, cloths={name: asked}))
        for repeat in [*(f"repeat:{one['name']}" for one in cloth.get("repeats", [])), "repeat:tartan", "spots"]:
            for way in cloth["ways"]:
                asked = {"pattern": repeat, "way": way, "wash": draw.choice(WASHES), "along": "3"}
                found.append(_ask("panel", sheet, draw, {}, cloths={name: asked}))
                found.append(_ask("lay", sheet, draw, {}, cloths={name: asked}, cloth=name))
    return found


def _lays(sheet: Sheet, draw: random.Random) -> list[Case]:
    """Layouts: first their files are not open, then they are; one file is of another edition."""
    files = lays_beside() if sheet["pattern"] == EXAMPLE else {}
    asked = [
        _ask("lay", sheet, draw, _any_choices(sheet, draw), cloth=cloth["name"])
        for cloth in sheet["cloths"]
        for _ in range(8 if files else 2)
    ]
    usual = json.dumps({"pattern": sheet["pattern"], "cloth": sheet["cloths"][0]["name"]}, sort_keys=True)
    found = [
        *asked[:2],
        _ask("lay", sheet, draw, {}, cloth="velvet"),
        _ask("effects", sheet, draw, {}, choice="colour"),
    ]
    for key in sorted(files):
        found += [("open-lays", json.dumps({**files[key], "lays": {}}, sort_keys=True)), ("lay", usual)]
        found.append(("open-lays", json.dumps(files[key], sort_keys=True)))
    return [*found, ("lay", usual), *asked]


def _two_at_once(sheet: Sheet, draw: random.Random) -> list[Case]:
    """Second garments: the listed pairs in either order, twins, pairs that are not listed, sizes that are none."""
    sizes = sheet["sizes"]
    pairs = [pair for listed in sheet.get("together", []) for pair in (listed, listed[::-1])]
    pairs += [[size, draw.choice(sizes)] for size in sizes]
    pairs += [[sizes[0], sizes[0]], [sizes[-1], "93"], [sizes[0], "<b>"]]
    found = []
    for size, second in pairs:
        two = {"size": size, "second": second}
        found.append(_ask("panel", sheet, draw, _any_choices(sheet, draw), **two))
        found.append(_ask("panel", sheet, draw, {}, cloths={}, **two))
        for name in ("wider", "cost", "closures", "elastic"):
            found.append(_ask(name, sheet, draw, _any_choices(sheet, draw), **two))
        for cloth in sheet["cloths"]:
            found.append(_ask("lay", sheet, draw, _any_choices(sheet, draw), cloth=cloth["name"], **two))
    return found


def _measurements(sheet: Sheet, draw: random.Random) -> list[Case]:
    """Bodies from the chart, between its rows, out of its range, and impossible ones."""
    pattern, rows, sizes = sheet["pattern"], sheet["body"]["rows"], sheet["sizes"]
    columns = [name for name in ("height", "chest", "waist", "hip") if name in sheet["body"]["columns"]]
    first, last = rows[sizes[0]], rows[sizes[-1]]

    def ask(**typed: str) -> Case:
        return "size", json.dumps({"pattern": pattern, "unit": "cm", **typed}, sort_keys=True)

    found = [
        ask(),
        ask(height="9"),
        ask(height="36"),
        ask(height="-92"),
        ask(height="tall"),
        ask(unit="in", height="36"),
    ]
    for name in columns:
        found += [ask(**{name: text}) for text in ODD_TEXTS[1::4]]
        # Twice the largest girth would be no child's, so a fifth more is taken.
        found += [ask(**{name: f"{last[name] * 1.2:g} mm"}), ask(**{name: f"{first[name] * 0.8:g} mm"})]
        found += [ask(**{name: f"{rows[size][name]} mm"}) for size in sizes]
        found += [ask(**{name: f"{rows[size][name] + draw.randint(-30, 30)} mm"}) for size in sizes]
    for _ in range(2 * len(sizes)):
        size = draw.choice(sizes)
        found.append(ask(**{name: f"{rows[size][name] + draw.randint(-25, 25)} mm" for name in columns}))
    girths = [name for name in columns if name != "height"]
    if girths and "height" in columns:
        found.append(ask(height=f"{first['height']} mm", **{girths[0]: f"{first['height'] + 10} mm"}))
        found.append(ask(height=f"{last['height']} mm", **{girths[0]: f"{first[girths[0]]} mm"}))
    found += [ask(age=age) for age in ("18 months", "2 1/2", "4", "18", "old", "")]
    for _ in range(len(sizes)):
        # A width and a length from two sizes, with choices and a cloth of its own: where to lengthen, what that takes.
        width, length = draw.choice(sizes), draw.choice(sizes)
        typed = {name: f"{rows[length if name == 'height' else width][name] - 5} mm" for name in columns}
        choices = {key: value for key, value in _any_choices(sheet, draw).items() if key != "size"}
        cloths = {cloth["name"]: {"wash": draw.choice(["", "usual"])} for cloth in sheet["cloths"]}
        request = {"pattern": pattern, "unit": "cm", "choices": choices, "cloths": cloths, "age": "3", **typed}
        found.append(("size", json.dumps(request, sort_keys=True)))
    return found


def _strange(sheet: Sheet, draw: random.Random) -> list[Case]:
    """Sizes, choices and requests that no page sends."""
    first = sheet["choices"][:1]
    found = [_ask(name, sheet, draw, {}, size=size) for name in ("panel", "cloth") for size in ("93", "<i>", "x" * 50)]
    for one in first:
        found += [_ask("panel", sheet, draw, {one["name"]: word}) for word in ("never", "", "<script>", "\ud800")]
    found += [
        ("panel", json.dumps({"pattern": sheet["pattern"], "choices": 5, "cloths": [1], "size": 92, "unit": None})),
        ("cloth", json.dumps({"pattern": sheet["pattern"], "cloths": {"outer": "140"}, "size": True})),
        ("guess", json.dumps({"pattern": sheet["pattern"]})),
        ("size", json.dumps({"pattern": sheet["pattern"], "height": 92, "chest": None, "unit": "furlong"})),
    ]
    return found


def _no_request() -> list[Case]:
    return [
        ("panel", "{"),
        ("panel", "[]"),
        ("size", '{"pattern": "nowhere"}'),
        ("open", '{"format": 99, "pattern": "later"}'),
        ("open", "null"),
        ("open-lays", '{"format": 99, "pattern": "later"}'),
    ]


def _never_published(sheet: Sheet) -> list[Case]:
    """Sheets that no build publishes: without lays, with wide lays only, never laid flat, forbidding its defaults."""
    bare = {**sheet, "pattern": f"{sheet['pattern']}-without-lays", "lays": {}, "sets": {}}
    wide = {**sheet, "pattern": f"{sheet['pattern']}-wide-lays", "lays": copy.deepcopy(sheet["lays"])}
    for ways in wide["lays"].values():
        for naps in ways.values():
            for by_size in naps.values():
                for size, rows in by_size.items():
                    by_size[size] = [[[4900, *steps[-1][1:]]] if steps else [] for steps in rows]
    strict = {**sheet, "pattern": f"{sheet['pattern']}-forbidding"}
    one, other = sheet["sizes"][0], sheet["sizes"][-1]
    silent = {"needs": None, "excludes": None, "only_sizes": None, "advice": None, "because": None}
    strict["rules"] = [*sheet["rules"], {**silent, "when": [], "only_sizes": [other], "because": "Only the largest."}]
    found: list[Case] = []
    single = {**sheet, "pattern": f"{sheet['pattern']}-never-flat"}
    single["cloths"] = [{**cloth, "ways": [way for way in cloth["ways"] if way != "flat"]} for cloth in sheet["cloths"]]
    single["lays"] = {
        name: {way: naps for way, naps in ways.items() if way != "flat"} for name, ways in sheet["lays"].items()
    }
    uneven = {single["cloths"][0]["name"]: {"pattern": "own", "every": "12", "uneven": "yes"}}
    found.append(("open", json.dumps(single, sort_keys=True)))
    found.append(("panel", json.dumps({"pattern": single["pattern"], "cloths": uneven}, sort_keys=True)))
    for made in (bare, wide, strict):
        found.append(("open", json.dumps(made, sort_keys=True)))
        for size in (one, other):
            asked = {cloth["name"]: {"width": "4000 mm"} for cloth in sheet["cloths"]}
            request = {"pattern": made["pattern"], "size": size, "cloths": asked}
            found.append(("panel", json.dumps(request, sort_keys=True)))
    return found


def main() -> None:
    """Print the requests for the example sheet, one a line."""
    from cases.make_sheet_example import make  # when run from the tests folder

    print(f"seed {SEED}")
    for name, text in cases([make()]):
        print(name, text[:200])


if __name__ == "__main__":
    main()
