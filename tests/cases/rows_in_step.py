"""Lays of a kind for stripes and checks: the rows of boxes of `rows_of_boxes.py`, each moved on to the next repeat.

Every piece has its mark at the same place of its box, so marks in rows that begin whole repeats apart are in step.
Across the cloth boxes are moved apart likewise where the repeat has a width.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .rows_of_boxes import LAYERS, SELVEDGE_MM, Spread, lie, rows_of, unfolded

MARK_MM = (60, 30)
"""Where a piece has its mark, from the corner of its box; every piece of the example has cloth there."""

Json = dict[str, Any]


def up(place: int, repeat_mm: int | None) -> int:
    """The next place that is whole repeats from the start."""
    return place if repeat_mm is None else -(-place // repeat_mm) * repeat_mm


def in_step(
    spread: Spread, members: Sequence[str], size: str, way: str, width_mm: int, repeat: Json
) -> tuple[int, list[list[Any]]] | None:
    """Length and placements with their marks; None where the pieces do not lie so on this width."""
    plain = lie(spread, members, size, way, width_mm)
    if plain is None:
        return None
    usable = (width_mm - 2 * SELVEDGE_MM) // LAYERS[way]
    names = sorted(spread.rows)
    found: list[list[Any]] = []
    start = end = across = 0
    for item, copy, _x, _y, turned, mirrored in plain[1]:
        row = spread.rows[names[item]]
        ring = unfolded(row.outlines[size]) if row.mode == "fold" and way == "flat" else row.outlines[size]
        ys = [-y if mirrored else y for _, y in ring]
        low, wide, long = min(ys), max(ys) - min(ys), max(x for x, _ in ring)
        on_fold = row.mode == "fold" and way == "folded"
        left = up(across, repeat["across_mm"])
        if left + wide > usable or (on_fold and found):
            start, left = up(end, repeat["along_mm"]), 0
        if wide > usable:
            return None
        mark = [start + MARK_MM[0], left + MARK_MM[1]]
        found.append([item, copy, start, left - low, turned, mirrored, mark])
        across, end = left + wide, max(end, start + long)
    return end, found


def ways_of(spread: Spread, repeat: Json) -> list[str]:
    """Uneven ones lie flat; checks were laid folded only, so that a way without lays in step is there to ask for."""
    if not repeat["even"]:
        return ["flat"]
    return ["folded"] if repeat["across_mm"] is not None else list(spread.ways)


def published_in_step(
    spread: Spread, repeats: Sequence[Json]
) -> tuple[dict[str, dict[str, Any]], dict[str, dict[str, Json]]]:
    """Lengths by way and `repeat:<name>`, and the lays by `<cloth>.<way>.<size>` and number."""
    told: dict[str, dict[str, Any]] = {}
    lays: dict[str, dict[str, Json]] = {}
    first = len(spread.sets) * len(spread.widths_mm) * len(spread.naps)
    for nth, repeat in enumerate(repeats):
        for way in ways_of(spread, repeat):
            key = f"repeat:{repeat['name']}"
            least: dict[tuple[int, int], int] = {}
            for size in spread.sizes:
                of_size = []
                for at, members in enumerate(spread.sets):
                    steps: list[list[int]] = []
                    for by, width in enumerate(spread.widths_mm):
                        lay = in_step(spread, members, size, way, width, repeat)
                        if lay is None:
                            continue
                        length = least[at, width] = max(lay[0], least.get((at, width), 0))
                        if steps and length >= steps[-1][1]:
                            continue
                        number = first + (nth * len(spread.sets) + at) * len(spread.widths_mm) + by
                        steps.append([width, length, number, rows_of([one[:6] for one in lay[1]])])
                        lays.setdefault(f"{spread.cloth}.{way}.{size}", {})[str(number)] = {
                            "width_mm": width, "length_mm": lay[0], "nap": not repeat["even"],
                            "repeat": repeat["name"], "at": lay[1],
                        }  # fmt: skip
                    of_size.append(steps)
                told.setdefault(way, {}).setdefault(key, {})[size] = of_size
    return told, lays


def merged(plain: Mapping[str, Any], more: Mapping[str, Mapping[str, Any]]) -> dict[str, Any]:
    """Two levels of mappings put together."""
    return {key: {**value, **more.get(key, {})} for key, value in plain.items()}
