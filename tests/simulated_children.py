"""Children drawn by chance from published figures: what does the advice on sizes come to?

    python tests/simulated_children.py

Height evenly over the bands of the survey of 1977 as far as the pattern is cut for them; girths around the medians of
the band, their spread from its 5th and 95th percentile, each side by itself, between bands in proportion. At one height
girths go together: the correlation is from memory, no source. Single records of an open survey of children's girths
would be better; a short search of package registries has found none yet. Below 83 cm the survey of 1977
has no girths, so smaller sizes are not simulated.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from math import sqrt
from pathlib import Path
from typing import Any

from boltside.calculators.advice import advise
from boltside.calculators.wearing import Fitting, off
from boltside.read.folder import read_patterns
from boltside.spec.sheet import make_sheet

SEED = 20261126
CHILDREN = 6000
TOGETHER = 0.7
"""Correlation of two girths of children of one height. From memory."""
P95_SIGMAS = 1.645

SURVEY: Mapping[int, Mapping[str, tuple[float, float, float]]] = {
    86: {"chest": (48.4, 45.0, 52.1), "waist": (46.2, 42.3, 50.8), "hip": (50.1, 44.3, 56.3)},
    92: {"chest": (50.3, 46.3, 53.1), "waist": (47.3, 42.7, 51.5), "hip": (50.7, 47.2, 55.1)},
    98: {"chest": (51.8, 48.9, 55.5), "waist": (48.9, 44.7, 53.2), "hip": (52.2, 48.2, 57.0)},
    104: {"chest": (53.3, 49.9, 56.9), "waist": (49.8, 45.6, 54.2), "hip": (53.9, 50.4, 59.2)},
    110: {"chest": (55.6, 51.5, 60.1), "waist": (51.0, 45.9, 56.9), "hip": (56.5, 52.8, 62.5)},
    116: {"chest": (57.4, 53.7, 61.2), "waist": (52.0, 48.0, 58.0), "hip": (58.8, 54.4, 64.2)},
    122: {"chest": (60.1, 55.0, 66.5), "waist": (54.3, 49.3, 63.4), "hip": (61.5, 57.4, 69.4)},
    128: {"chest": (62.7, 57.8, 68.4), "waist": (55.8, 51.1, 65.7), "hip": (64.2, 59.6, 72.0)},
}
"""Median, P5, P95 in cm by height. Source: Snyder et al. 1977, as the trade's table has them (height ± 3 cm)."""
GIRTHS = ("chest", "waist", "hip")
LOWEST_CM = 83


def children(lowest_mm: float, highest_mm: float) -> Iterator[dict[str, float]]:
    """Height, chest, waist and hip in whole mm, as a tape has them."""
    chance = random.Random(SEED)
    for _ in range(CHILDREN):
        height_cm = chance.uniform(max(lowest_mm / 10, LOWEST_CM), min(highest_mm / 10, max(SURVEY) + 3))
        shared = chance.gauss(0.0, 1.0)
        child = {"height": float(round(height_cm * 10))}
        for girth in GIRTHS:
            sigmas = sqrt(TOGETHER) * shared + sqrt(1 - TOGETHER) * chance.gauss(0.0, 1.0)
            median, low, high = _at(height_cm, girth)
            spread = (high - median if sigmas > 0 else median - low) / P95_SIGMAS
            child[girth] = float(round((median + sigmas * spread) * 10))
        yield child


def _at(height_cm: float, girth: str) -> tuple[float, float, float]:
    bands = sorted(SURVEY)
    low = max((band for band in bands if band <= height_cm), default=bands[0])
    high = min((band for band in bands if band > low), default=low)
    low = low if high > low else bands[-2]
    share = (height_cm - low) / (high - low)
    one, other = SURVEY[low][girth], SURVEY[high][girth]
    found = tuple(a + (b - a) * share for a, b in zip(one, other, strict=True))
    return found[0], found[1], found[2]


@dataclass
class Count:
    """What came out: children, those told no size (and how many of them are shorter than the largest size is for),
    those whose height is not covered, those whose height is and whose ease is as meant at every place; by place how
    many were tried on, too tight and too loose; of those with elastic at the waist whom it does not grip."""

    children: int = 0
    no_size: int = 0
    no_size_though_short: int = 0
    height_not_covered: int = 0
    all_well: int = 0
    no_grip: int = 0
    places: dict[str, list[int]] = field(default_factory=dict)

    @property
    def advised(self) -> int:
        """Children who were told a size."""
        return self.children - self.no_size


def advised(sheet: Mapping[str, Any], choices: Mapping[str, str]) -> Count:
    """The advice for all children, all measured."""
    rows, sizes = sheet["body"]["rows"], sheet["sizes"]
    step_mm = rows[sizes[1]]["height"] - rows[sizes[0]]["height"]
    count = Count()
    rings = ring_by_size(sheet, choices)
    for child in children(rows[sizes[0]]["height"] - step_mm + 1, rows[sizes[-1]]["height"]):
        count.children += 1
        advice = advise(sheet, child, choices)
        if advice is None or not advice.size:
            count.no_size += 1
            count.no_size_though_short += child["height"] <= rows[sizes[-2]]["height"]
            continue
        covered = bool(advice.length_of) and child["height"] <= rows[advice.length_of]["height"]
        count.height_not_covered += not covered
        fitting = Fitting(sheet, choices, child)
        well = covered
        for place in fitting.places(advice.size):
            if place.meant_mm is None:
                continue
            one = count.places.setdefault(place.name, [0, 0, 0])
            one[0] += 1
            one[1] += off(place) == "tight"
            one[2] += off(place) == "loose"
            well = well and not off(place)
        count.all_well += well
        count.no_grip += bool(rings) and rings[advice.size] > child["waist"]
    return count


def ring_by_size(sheet: Mapping[str, Any], choices: Mapping[str, str]) -> dict[str, float]:
    """Length in mm round the waist of the closed elastic, its overlap taken off; empty where there is none."""
    for notion in sheet["notions"]:
        rule = notion["rule"] or {}
        if "elastic" in notion["kinds"] and rule.get("body") == "waist":
            rows = sheet["body"]["rows"]
            reckoned = {size: rows[size]["waist"] * rule["factor"] - rule["minus_mm"] for size in sheet["sizes"]}
            tabled = {size: mm - rule["overlap_mm"] for size, mm in notion["tabled_mm"].items()}
            return reckoned | tabled
    return {}


CASES: tuple[tuple[str, dict[str, str]], ...] = (
    ("breakwater", {"cloth": "woven"}),
    ("breakwater", {"cloth": "knit"}),
    ("ferrylight", {"length": "hip"}),
    ("ferrylight", {"length": "waist"}),
    ("millrace", {}),
    ("windlass", {"ends": "hemmed"}),
    ("wrackline", {}),
)
"""Patterns with the choices that decide where their ease is told, or how much of it is meant."""


def sheets(data: Path) -> dict[str, dict[str, Any]]:
    """The spec sheets of the shop's patterns, without lays."""
    return {pattern.folder: make_sheet(pattern, {}) for pattern in read_patterns(data)}


def main() -> None:
    """Print the counts for the shop's patterns."""
    made = sheets(Path(__file__).parents[1] / "data")
    for pattern, choices in CASES:
        count = advised(made[pattern], choices)
        places = "; ".join(f"{name} tight {tight / tried:.1%}, loose {loose / tried:.1%}"
                           for name, (tried, tight, loose) in count.places.items())  # fmt: skip
        none, short = count.no_size / count.children, count.no_size_though_short / count.children
        high, well, grip = (one / count.advised for one in (count.height_not_covered, count.all_well, count.no_grip))
        print(
            f"{pattern} {' '.join(choices.values())}: {count.children} children, no size {none:.1%} (shorter than the "
            f"largest {short:.1%}); of the others height not covered {high:.1%}, all as meant {well:.1%}, elastic of "
            f"the size does not grip {grip:.1%}; {places}"
        )


if __name__ == "__main__":
    main()
