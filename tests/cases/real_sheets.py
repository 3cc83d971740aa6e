"""Spec sheets of the shop's own patterns, with stand-in lay lengths, for tests of the calculators.

The true lengths take hours to solve and are tested where they are made; here only their form matters: sets, ways,
sizes, widths. A stand-in length is the pieces' area over the usable width, at least the longest piece; each piece
counts as a row.
"""

from __future__ import annotations

from functools import cache
from math import ceil
from pathlib import Path
from typing import Any

from shapely import Polygon

from boltside.calculators.choices import all_allowed
from boltside.calculators.conditions import holds
from boltside.lay.model import usable_width_mm, width_on_cloth_mm
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import lay_item
from boltside.measure.model import CutLine
from boltside.pattern import Cloth, Pattern
from boltside.read.folder import read_pattern
from boltside.spec.json_form import choice_json, rule_json
from boltside.spec.sheet import make_sheet

DATA = Path(__file__).parents[2] / "data"


def pattern_names() -> list[str]:
    """The folders of the shop's patterns."""
    return sorted(path.parent.name for path in (DATA / "patterns").glob("*/pattern.yaml"))


@cache
def pattern(name: str) -> Pattern:
    """One of the shop's patterns, read once."""
    return read_pattern(DATA / "patterns" / name, DATA / "body_charts")


@cache
def real_sheet(name: str) -> dict[str, Any]:
    """Its spec sheet, with stand-in lays."""
    return make_sheet(pattern(name), stand_in_lays(pattern(name)))


def real_sheets() -> list[dict[str, Any]]:
    """The spec sheets of all the shop's patterns."""
    return [real_sheet(name) for name in pattern_names()]


def stand_in_lays(pattern: Pattern) -> dict[str, Any]:
    """Lay lengths from areas, in the form in which the true ones are published."""
    lines = cut_lines(pattern)
    choices = [choice_json(choice) for choice in pattern.choices]
    rules = [rule_json(rule) for rule in pattern.rules]
    chosen = [one for size in pattern.sizes for one in all_allowed(choices, rules, size, steps_too=False)]
    published: dict[str, Any] = {}
    for cloth in pattern.cloths:
        of_cloth = [line for line in lines if line.cloth == cloth.name]
        demands = {tuple(line.line_id for line in of_cloth if holds(line.when, one)) for one in chosen}
        sets = sorted(demand for demand in demands if demand)
        lengths: dict[str, Any] = {way: {} for way in cloth.ways}
        for way in cloth.ways:
            for nap in naps_of(cloth):
                lengths[way][nap] = {size: _steps(pattern, of_cloth, sets, cloth, way, size) for size in pattern.sizes}
        published[cloth.name] = {"sets": [list(members) for members in sets], "lengths": lengths}
    return published


def naps_of(cloth: Cloth) -> list[str]:
    """With or without nap, whichever can be asked of the cloth."""
    asked = {case.nap for case in cloth.nap}
    return [nap for nap, words in (("with", {"always", "ask"}), ("without", {"never", "ask"})) if words & asked]


def _steps(
    pattern: Pattern, lines: list[CutLine], sets: list[tuple[str, ...]], cloth: Cloth, way: str, size: str
) -> list[list[list[int]]]:
    items = {line.line_id: lay_item(pattern, line, size) for line in lines if size in line.sizes}
    found: list[list[list[int]]] = []
    for members in sets:
        laid = [items[name] for name in members if name in items]
        steps: list[list[int]] = []
        for width in sorted(cloth.widths_mm):
            usable = usable_width_mm(width, "flat")
            if not laid:
                continue  # none of them exists in this size
            across = max(width_on_cloth_mm(item, "folded" if way == "folded" else "flat") for item in laid)
            if across > usable / (2 if way == "folded" else 1):
                continue
            each = [Polygon(item.outline_mm).area * item.count for item in laid]
            doubled = [2 if item.mode == "fold" else 1 for item in laid]
            area = sum(one * by for one, by in zip(each, doubled, strict=True))
            longest = max(max(x for x, _ in item.outline_mm) for item in laid)
            length = ceil(max(longest, area / usable))
            if not steps or length < steps[-1][1]:
                steps.append([int(width), length, 0, len(laid)])
        found.append(steps)
    return found
