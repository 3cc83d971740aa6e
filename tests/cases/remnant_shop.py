"""Spec sheets of an invented shop, as far as the index of remnants reads them, from a seed: for size, speed and laws.

Patterns differ in options, cloths and how much they take. Every set of pieces lies better or worse in each size, width,
way and nap, as chance has it, and a lay serves what it may serve while that costs no more than ours do; published
lengths keep the laws of true ones. Names are drawn from syllables, so that packing gains little by their likeness.
"""

from __future__ import annotations

import random
from typing import Any

from boltside.calculators.choices import all_allowed
from boltside.calculators.conditions import holds

SEED = 20261125
PATTERNS, SIZES = 40, 10
WIDTHS_MM = [900, 950, 1000, 1050, 1100, 1150, 1200, 1250, 1300, 1350, 1400, 1450, 1500, 1550, 1600, 1850]
INTERFACING_MM = [500, 900, 1120, 1500]
NARROW_MM, NARROW_INTERFACING_MM = [400, 500, 600, 700, 800], [300, 400]
"""Widths of remnants, laid flat as far as they are no longer than so much:"""
LONGEST_REMNANT_MM = 1200
CLOTHS = ("outer", "lining", "contrast", "interfacing")
UNEVEN = 0.03
"""By how much of the cloth lays of one set of pieces fill it differently. Our own patterns' fill varies about so."""
LARGEST_COST_MM = 50
"""Up to so much is lost by taking the lay of more pieces, narrower cloth, or cloth with nap, or folded, as ours do."""
LARGEST_NARROW_COST_MM = 100
SYLLABLES = ("bar", "del", "fen", "gor", "hal", "kes", "lin", "mor", "nev", "ost", "pel", "quin", "ras", "sel", "tor")

Sheet = dict[str, Any]


def generated_shop(seed: int = SEED, patterns: int = PATTERNS, sizes: int = SIZES) -> list[Sheet]:
    """The sheets of a whole shop."""
    return [generated_sheet(random.Random(f"{seed} {number}"), number, sizes) for number in range(patterns)]


def words(draw: random.Random, count: int) -> str:
    """Some invented words."""
    made = ("".join(draw.choice(SYLLABLES) for _ in range(draw.randint(1, 3))) for _ in range(count))
    return " ".join(made).capitalize()


def generated_sheet(draw: random.Random, number: int, sizes: int) -> Sheet:
    """One pattern: two to seven choices, one to four cloths."""
    names = [str(62 + 6 * at) for at in range(sizes)]
    choices = [_choice(draw, at) for at in range(draw.randint(2, 7))]
    for at in range(2, len(choices)):
        if draw.random() < 0.3:
            asker = choices[draw.randrange(at)]
            choices[at]["asked_when"] = [{asker["name"]: [asker["alternatives"][-1]["name"]]}]
    rules = []
    if draw.random() < 0.6:
        one, other = draw.sample(choices, 2)
        rule = {"when": [{one["name"]: [one["alternatives"][-1]["name"]]}], "needs": None, "excludes": None,
                "only_sizes": None, "advice": None, "because": "Drawn."}  # fmt: skip
        if draw.random() < 0.5:
            rule["excludes"] = [{other["name"]: [other["alternatives"][-1]["name"]]}]
        else:
            rule["only_sizes"] = names[draw.randint(0, 3) :]
        rules.append(rule)
    cloths, items = [], []
    by_kind = draw.random() < 0.3
    for cloth in CLOTHS[: draw.choice([1, 2, 3, 4, 4])]:
        fusible = cloth == "interfacing"
        kinds = ["interfacing"] if fusible else ["woven", "knit"] if by_kind else ["woven"]
        knit = [{choices[0]["name"]: [choices[0]["alternatives"][0]["name"]]}]
        kind_cases = [{"when": knit, "kinds": ["knit"]}, {"when": [], "kinds": ["woven"]}] if len(kinds) > 1 else []
        nap = [{"when": [], "nap": "never" if fusible else "ask"}]
        if len(kinds) > 1:
            nap.insert(0, {"when": knit, "nap": "always"})
        cloths.append(
            {"name": cloth, "title": words(draw, 2), "kinds": kinds, "kind_cases": kind_cases, "nap": nap,
             "ways": ["folded", "flat"], "usual_width_mm": 1400,
             "widths_mm": INTERFACING_MM if fusible else WIDTHS_MM,
             "remnant_widths_mm": NARROW_INTERFACING_MM if fusible else NARROW_MM}
        )  # fmt: skip
        items += _items(draw, cloth, choices, names, many=8 if cloth == "outer" else 3)
    name = f"{words(draw, 1)} {number}"
    sheet: Sheet = {
        "pattern": name.lower().replace(" ", "-"), "name": name, "sizes": names, "choices": choices, "rules": rules,
        "cloths": cloths, "items": items, "sets": {}, "lays": {},
    }  # fmt: skip
    for made in cloths:
        _lays(draw, sheet, made)
    return sheet


def _choice(draw: random.Random, at: int) -> dict[str, Any]:
    alternatives = [
        {"name": f"{draw.choice(SYLLABLES)}-{number}", "title": words(draw, draw.randint(1, 4))}
        for number in range(draw.choice([2, 2, 2, 3, 3, 4]))
    ]
    usual = alternatives[draw.randrange(2)]["name"]
    return {"name": f"{draw.choice(SYLLABLES)}-{at}", "title": words(draw, draw.randint(1, 2)), "asked_when": [],
            "default": usual, "alternatives": alternatives, "steps_only": False}  # fmt: skip


def _items(
    draw: random.Random, cloth: str, choices: list[dict[str, Any]], sizes: list[str], many: int
) -> list[dict[str, Any]]:
    """Pieces: some always there unless the cloth is an extra, others with words of one choice."""
    found = []
    for at in range(draw.randint(1, many)):
        always = at == 0 and cloth != "contrast"
        choice = draw.choice(choices)
        when = [] if always else [{choice["name"]: [draw.choice(choice["alternatives"])["name"]]}]
        area = draw.randint(900, 2600) if always else draw.randint(60, 700)
        across = draw.randint(100, 400)
        cut_in = sizes if always or draw.random() < 0.9 else sizes[draw.randint(1, 3) :]
        found.append(
            {"id": f"{cloth}.{at}", "cloth": cloth, "when": when, "area_cm2": area,
             "narrowest_mm": {size: {"flat": across + 30, "folded": 2 * across + 30} for size in cut_in}}
        )  # fmt: skip
    return found


def _lays(draw: random.Random, sheet: Sheet, cloth: dict[str, Any]) -> None:
    """Sets that can be asked for, and steps that keep the laws: never more on wider cloth, never less in a larger size,
    with nap, folded, or with more pieces."""
    of_cloth = [item for item in sheet["items"] if item["cloth"] == cloth["name"]]
    demands: dict[tuple[str, ...], None] = {}
    for size in sheet["sizes"]:
        for chosen in all_allowed(sheet["choices"], sheet["rules"], size):
            demands.setdefault(tuple(item["id"] for item in of_cloth if holds(item["when"], chosen)), None)
    sets = [list(demand) for demand in sorted(demands) if demand]
    sheet["sets"][cloth["name"]] = sets
    area = {item["id"]: item["area_cm2"] for item in of_cloth}
    narrowest = {item["id"]: item["narrowest_mm"] for item in of_cloth}
    naps = ["without"] if cloth["nap"][-1]["nap"] == "never" else ["with", "without"]
    lengths: dict[str, Any] = {way: {nap: {} for nap in naps} for way in cloth["ways"]}
    larger_first = sorted(range(len(sets)), key=lambda at: (-len(sets[at]), at))
    within = {at: [one for one in larger_first if set(sets[at]) < set(sets[one])] for at in larger_first}
    fills = {(at, nap): draw.uniform(0.70, 0.84) for at in larger_first for nap in naps}
    # Drawn apart, so that the lengths on bolts are the same with widths of remnants and without.
    narrow_draw = random.Random(f"{sheet['pattern']} {cloth['name']}")
    every_width = [*cloth["remnant_widths_mm"], *cloth["widths_mm"]]
    before: dict[Any, int] = {}
    for number, size in enumerate(sheet["sizes"]):
        laid: dict[Any, int] = {}
        for way in ("folded", "flat"):
            for nap in naps:
                for at in larger_first:
                    if any(size not in narrowest[one] for one in sets[at]):
                        continue
                    grown = sum(area[one] for one in sets[at]) * (1 + 0.09 * number) * 100
                    least_mm = max(narrowest[one][size][way] for one in sets[at])
                    narrower = None
                    for width in cloth["widths_mm"]:
                        if width < least_mm:
                            continue
                        fill = fills[at, nap] + draw.uniform(-UNEVEN, UNEVEN) - (0.03 if way == "folded" else 0)
                        own = int(grown / (width - 30) / fill)
                        others = [narrower, laid.get(("folded", nap, at, width)), laid.get((way, "with", at, width))]
                        others += [laid.get((way, nap, one, width)) for one in within[at]]
                        served = min((one for one in others if one is not None), default=None)
                        narrower = own if served is None or served - own > LARGEST_COST_MM else served
                        laid[way, nap, at, width] = narrower
                    if way == "flat":
                        _narrow_lays(narrow_draw, laid, cloth, (nap, at), grown, least_mm, fills[at, nap], within[at])
        published = _raised(laid, before, every_width, naps)
        before |= published
        for way in cloth["ways"]:
            for nap in naps:
                rows = []
                for at in range(len(sets)):
                    steps: list[list[int]] = []
                    for width in every_width:
                        length = published.get((way, nap, at, width))
                        if length is not None and (not steps or length < steps[-1][1]):
                            steps.append([width, length, 0, 2])
                    rows.append(steps)
                lengths[way][nap][size] = rows
    sheet["lays"][cloth["name"]] = lengths


def _narrow_lays(
    draw: random.Random, laid: dict[Any, int], cloth: dict[str, Any], of: tuple[str, int], grown: float, least_mm: int,
    fill: float, within: list[int],
) -> None:  # fmt: skip
    """Flat lays on the widths of remnants, as far as they are short enough."""
    nap, at = of
    narrower = None
    for width in cloth["remnant_widths_mm"]:
        if width < least_mm:
            continue
        own = int(grown / (width - 30) / (fill + draw.uniform(-UNEVEN, UNEVEN)))
        others = [narrower, laid.get(("flat", "with", at, width))]
        others += [laid.get(("flat", nap, one, width)) for one in within]
        served = min((one for one in others if one is not None), default=None)
        narrower = own if served is None or served - own > LARGEST_NARROW_COST_MM else served
        if narrower <= LONGEST_REMNANT_MM:
            laid["flat", nap, at, width] = narrower
        else:
            narrower = None


def _raised(laid: dict[Any, int], before: dict[Any, int], widths: list[int], naps: list[str]) -> dict[Any, int]:
    """Lengths with the laws of published ones: never more on wider cloth, never less in a larger size, with nap or
    folded."""
    found: dict[Any, int] = {}
    for way in ("flat", "folded"):
        for nap in reversed(naps):
            least: dict[int, int] = {}
            for one in sorted((key for key in laid if key[:2] == (way, nap)), key=lambda key: -key[3]):
                at, width = one[2:]
                others = [before.get(one), found.get((way, "without", at, width)), found.get(("flat", nap, at, width))]
                found[one] = max(laid[one], least.get(at, 0), *(length or 0 for length in others))
                least[at] = found[one]
    assert {key[3] for key in found} <= set(widths)
    return found
