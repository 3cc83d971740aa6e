"""Harder sets of garment pieces for `python -m boltside.lay.hard_benchmark`, drawn once. Run it as a script.

Writes `data/benchmark/hard.json`: sets in the manner of those that the literature on irregular strip packing compares
methods with (20 to 99 garment pieces on one cloth, several sizes or many copies of few, turned round by 180 degrees or
not at all), but of our own garments. Kept beside the benchmark, so that a redrawn garment does not change it.
"""

from __future__ import annotations

import random
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from long_solves import raw_pattern
from read_by_hand import SIZE, every_choice, pieces_to_cut

from boltside.lay.codec import item_to_json, on_grid, one_line
from boltside.lay.model import LayItem, LayRequest
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import lay_item
from boltside.measure.model import CutLine
from boltside.pattern import Pattern
from boltside.read.folder import read_pattern

DATA = Path(__file__).parents[1] / "data"
HARD = DATA / "benchmark" / "hard.json"
SEED = 20261126

SETS: tuple[tuple[int, int, tuple[str, ...], int, bool], ...] = (
    (20, 2, ("ferrylight",), 1400, False),
    (24, 2, ("ferrylight", "breakwater"), 1100, False),
    (28, 3, ("breakwater",), 1400, False),
    (30, 3, ("ferrylight", "breakwater"), 1400, True),
    (36, 4, ("ferrylight", "breakwater"), 1500, False),
    (48, 4, ("ferrylight", "breakwater"), 1400, False),
    (64, 3, ("breakwater", "ferrylight"), 1400, False),
    (80, 6, ("ferrylight", "breakwater"), 1500, True),
    (99, 1, ("ferrylight",), 1500, False),
)
"""Pieces, different garments, from which patterns, on a bolt how wide (mm), and whether it is one-way cloth."""

CLOTH = "outer"


@cache
def read(name: str) -> tuple[Pattern, dict[str, CutLine], dict[str, Any]]:
    """A pattern, its lines of the cutting list by name, and what its file says."""
    pattern = read_pattern(DATA / "patterns" / name, DATA / "body_charts")
    return pattern, {line.line_id: line for line in cut_lines(pattern)}, raw_pattern(name)


def garment(name: str, chance: random.Random) -> list[LayItem]:
    """The pieces of one garment in a size and with choices drawn by chance, cut from its outer cloth."""
    pattern, lines, raw = read(name)
    size = chance.choice(raw["sizes"])
    choices = chance.choice(every_choice(raw, size))
    there = [line_id for line_id, line in lines.items() if size in line.sizes]
    asked = pieces_to_cut(raw, there, CLOTH, {**choices, SIZE: size})
    items = {line_id: lay_item(pattern, lines[line_id], size) for line_id in sorted(asked)}
    return [replace(item, item_id=f"{name} {size} {line_id}") for line_id, item in items.items()]


def drawn(pieces: int, garments: int, patterns: tuple[str, ...], chance: random.Random) -> list[LayItem]:
    """So many pieces of so many garments, each as often as the others or once less often; the last one is cut short."""
    chosen: list[list[LayItem]] = []
    while len(chosen) < garments:
        one = garment(patterns[len(chosen) % len(patterns)], chance)
        if one not in chosen:
            chosen.append(one)
    counts: dict[str, int] = {}
    items: dict[str, LayItem] = {}
    left = pieces
    while left:
        for one in chosen:
            for item in one:
                more = min(item.count, left)
                if item.mode == "pair" and more % 2:
                    continue
                items[item.item_id] = item
                counts[item.item_id] = counts.get(item.item_id, 0) + more
                left -= more
    return [replace(item, count=counts[item_id]) for item_id, item in items.items()]


def hard_sets() -> list[dict[str, Any]]:
    """All sets, as the benchmark reads them."""
    chance = random.Random(SEED)
    found = []
    for pieces, garments, patterns, width_mm, one_way in SETS:
        items = drawn(pieces, garments, patterns, chance)
        request = LayRequest(items=tuple(items), bolt_width_mm=float(width_mm), way="flat", one_way=one_way)
        found.append(
            {
                "name": f"{pieces} pieces, {len(items)} kinds, {width_mm / 10:g} cm" + (", nap" if one_way else ""),
                "request": {
                    "items": [item_to_json(item) for item in request.items],
                    "one_way": one_way,
                    "way": "flat",
                    "width": on_grid(request.bolt_width_mm),
                },
            }
        )
    return found


if __name__ == "__main__":
    HARD.write_text("[\n" + ",\n".join(map(one_line, hard_sets())) + "\n]\n", encoding="utf-8")
