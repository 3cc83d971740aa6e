"""Lays of a kind, for the example sheet: pieces in rows, each in its box, the longest first.

Nobody would cut so, but every lay is true: no two pieces overlap, halves lie on the fold, and the published lengths
keep the laws of published lays (never growing with the width, never shrinking with the size, nap never less).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

SELVEDGE_MM = 15
LAYERS = {"flat": 1, "folded": 2}

Points = list[list[int]]
Step = list[int]
Placed = list[int]


@dataclass(frozen=True, kw_only=True)
class Row:
    """A line of the cutting list: how it is cut, and its outline by size, x along the grain, in mm."""

    mode: str
    count: int
    outlines: Mapping[str, Points]


@dataclass(frozen=True, kw_only=True)
class Spread:
    """One cloth with all that may lie on it."""

    pattern: str
    cloth: str
    ways: Sequence[str]
    naps: Sequence[str]
    widths_mm: Sequence[int]
    sizes: Sequence[str]
    sets: Sequence[Sequence[str]]
    rows: Mapping[str, Row]


def unfolded(outline: Points) -> Points:
    """The whole of a half whose fold is y = 0."""
    return outline + [[x, -y] for x, y in reversed(outline) if y != 0]


def lie(spread: Spread, members: Sequence[str], size: str, way: str, width_mm: int) -> tuple[int, list[Placed]] | None:
    """Length and placements, as a lay file has them: item index, copy, x, y, turned, mirrored. None: too narrow."""
    usable = (width_mm - 2 * SELVEDGE_MM) // LAYERS[way]
    boxes: list[tuple[int, int, int, int, int, Points]] = []
    for at, name in enumerate(sorted(spread.rows)):
        if name not in members:
            continue
        row = spread.rows[name]
        outline, copies = row.outlines[size], row.count
        if row.mode == "fold" and way == "flat":
            outline = unfolded(outline)
        if row.mode == "pair" and way == "folded":
            copies = row.count // 2
        for copy in range(copies):
            mirrored = int(row.mode == "pair" and way == "flat" and copy % 2 == 1)
            ring = [[x, -y] for x, y in outline] if mirrored else outline
            on_fold = int(row.mode == "fold" and way == "folded")
            boxes.append((-on_fold, -max(x for x, _ in ring), at, copy, mirrored, ring))
    placed: list[Placed] = []
    start = end = across = 0
    for on_fold, minus_long, at, copy, mirrored, ring in sorted(boxes, key=lambda box: box[:4]):
        low, high = min(y for _, y in ring), max(y for _, y in ring)
        if high - low > usable:
            return None
        if on_fold or across + high - low > usable:
            start, across = end, 0
        placed.append([at, copy, start, across - low, 0, mirrored])
        across, end = across + high - low, max(end, start - minus_long)
    return end, placed


def _solved(spread: Spread) -> dict[tuple[str, str, int, int], tuple[int, list[Placed]]]:
    """Every lay: way, size, set and width to length and placements."""
    found = {}
    for way in spread.ways:
        for size in spread.sizes:
            for at, members in enumerate(spread.sets):
                for width in spread.widths_mm:
                    lay = lie(spread, members, size, way, width)
                    if lay is not None:
                        found[way, size, at, width] = lay
    return found


def published(spread: Spread) -> dict[str, Any]:
    """Published lengths: way, nap and size to the steps of each set; nap takes a twentieth more, as an example."""
    solved = _solved(spread)
    told: dict[str, Any] = {way: {nap: {} for nap in spread.naps} for way in spread.ways}
    for way in spread.ways:
        for nap in spread.naps:
            least: dict[tuple[int, int], int] = {}
            most_rows: dict[tuple[int, int], int] = {}
            for size in spread.sizes:
                told[way][nap][size] = []
                for at, members in enumerate(spread.sets):
                    steps: list[Step] = []
                    rows = 0
                    for width in reversed(spread.widths_mm):
                        if _served(spread, solved, way, size, members, width) is not None:
                            _, placed = _own(spread, solved, way, size, at, width)
                            rows = max(rows, rows_of(placed), most_rows.get((at, width), 0))
                            most_rows[at, width] = rows
                    for width in spread.widths_mm:
                        length = _served(spread, solved, way, size, members, width)
                        if length is None:
                            continue
                        length = max(length + (length // 20 if nap == "with" else 0), least.get((at, width), 0))
                        least[at, width] = length
                        if not steps or length < steps[-1][1]:
                            steps.append([width, length, _number(spread, nap, at, width), most_rows[at, width]])
                    told[way][nap][size].append(steps)
    return told


def rows_of(placed: Sequence[Placed]) -> int:
    """How many rows of boxes there are; none where copies of one piece lie side by side and nothing else does."""
    starts = {start for _, _, start, *_ in placed}
    return len(starts) if len(starts) > 1 or len({item for item, *_ in placed}) > 1 else 0


def _served(
    spread: Spread,
    solved: Mapping[tuple[str, str, int, int], tuple[int, list[Placed]]],
    way: str,
    size: str,
    members: Sequence[str],
    width: int,
) -> int | None:
    """The set's own length, or that of a set it is part of, if that is less; narrower cloth may do too."""
    lengths = [
        length
        for (by, of, at, narrower), (length, _) in solved.items()
        if by == way and of == size and narrower <= width and set(members) <= set(spread.sets[at])
    ]
    return min(lengths, default=None)


def _number(spread: Spread, nap: str, at: int, width: int) -> int:
    """The lay's number in its file."""
    naps = list(spread.naps).index(nap)
    return (at * len(spread.widths_mm) + list(spread.widths_mm).index(width)) * len(spread.naps) + naps


def lay_files(spread: Spread) -> dict[str, dict[str, Any]]:
    """The lay files, by `<cloth>.<way>.<size>`: every lay that the published lengths name, and no other."""
    solved, told = _solved(spread), published(spread)
    files = {}
    for way in spread.ways:
        for size in spread.sizes:
            names = sorted(spread.rows)
            lays = {}
            for nap in spread.naps:
                for at, steps in enumerate(told[way][nap][size]):
                    for width, _length, number, _rows in steps:
                        length, placed = _own(spread, solved, way, size, at, width)
                        lays[str(number)] = {
                            "width_mm": width,
                            "length_mm": length + (length // 20 if nap == "with" else 0),
                            "nap": nap == "with",
                            "at": placed,
                        }
            outlines = [spread.rows[name].outlines[size] for name in names]
            whole = [
                unfolded(ring) if way == "flat" and spread.rows[name].mode == "fold" else ring
                for name, ring in zip(names, outlines, strict=True)
            ]
            files[f"{spread.cloth}.{way}.{size}"] = {
                "format": 1, "pattern": spread.pattern, "cloth": spread.cloth, "way": way, "size": size,
                "items": names, "outlines": whole, "lays": lays,
            }  # fmt: skip
    return files


def _own(
    spread: Spread,
    solved: Mapping[tuple[str, str, int, int], tuple[int, list[Placed]]],
    way: str,
    size: str,
    at: int,
    width: int,
) -> tuple[int, list[Placed]]:
    """The lay that serves the set: the shortest of its own and those it is part of."""
    members = set(spread.sets[at])
    fitting = [
        (solved[by, of, other, narrower], other, narrower)
        for by, of, other, narrower in solved
        if by == way and of == size and narrower <= width and members <= set(spread.sets[other])
    ]
    return min(fitting, key=lambda one: (one[0][0], one[1], one[2]))[0]
