"""Lays of two garments for the example sheet: the boxes of both in rows, or one lay behind the other.

As in `rows_of_boxes`: nobody would cut so, but every lay is true, and the published lengths keep their laws.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from .rows_of_boxes import Row, Spread, Step, lay_files, lie, published

Json = dict[str, Any]


def both(spread: Spread, pair: Sequence[str]) -> Spread:
    """One spread with the pieces of both garments, `0 ` and `1 ` before their names."""
    rows = {
        f"{garment} {name}": Row(mode=row.mode, count=row.count, outlines={"both": row.outlines[size]})
        for garment, size in enumerate(pair)
        for name, row in spread.rows.items()
    }
    sets = [[f"{garment} {name}" for garment in (0, 1) for name in members] for members in spread.sets]
    return replace(spread, rows=rows, sets=sets, sizes=["both"])


def step_at(steps: Sequence[Step], width: int) -> Step | None:
    """The last step that is not wider."""
    return next((step for step in reversed(steps) if step[0] <= width), None)


def published_pair(spread: Spread, pair: Sequence[str]) -> tuple[dict[str, Any], dict[str, Json]]:
    """The lengths of a pair by way and nap, and its lay files by key. The pieces are in no set that is part of another
    one but shares their cloth, so the raising of published lengths is done by hand: wider, fewer pieces, no nap."""
    singles, files = published(spread), lay_files(spread)
    together, key = both(spread, pair), "+".join(pair)
    told: dict[str, Any] = {way: {} for way in spread.ways}
    made: dict[str, Json] = {}
    for way in spread.ways:
        of_size = [files[f"{spread.cloth}.{way}.{size}"] for size in pair]
        names = of_size[0]["items"]
        file: Json = {
            **of_size[0], "size": key, "sizes": list(pair), "items": [*names, *names],
            "garments": [garment for garment in (0, 1) for _ in names],
            "outlines": [*of_size[0]["outlines"], *of_size[1]["outlines"]], "lays": {},
        }  # fmt: skip
        for nap in spread.naps:
            told[way][nap] = []
            for at, members in enumerate(spread.sets):
                steps: list[Step] = []
                for width in spread.widths_mm:
                    alone = [step_at(singles[way][nap][size][at], width) for size in pair]
                    if alone[0] is None or alone[1] is None:
                        continue
                    lays = [one["lays"][str(step[2])] for one, step in zip(of_size, alone, strict=True) if step]
                    joint = lie(together, [f"{garment} {name}" for garment in (0, 1) for name in members], "both",
                                way, width)  # fmt: skip
                    joint_mm = joint[0] + (joint[0] // 20 if nap == "with" else 0) if joint else 10**6
                    behind_mm = sum(lay["length_mm"] for lay in lays)
                    least_mm = max(alone[0][1], alone[1][1], min(joint_mm, behind_mm))
                    if steps and least_mm >= steps[-1][1]:
                        continue
                    number = len(file["lays"])
                    if joint is not None and joint_mm < behind_mm:
                        file["lays"][str(number)] = {
                            "width_mm": width, "length_mm": joint_mm, "nap": nap == "with", "at": joint[1]
                        }  # fmt: skip
                    else:
                        moved = [[[at_ + garment * len(names), *rest] for at_, *rest in lay["at"]]
                                 for garment, lay in enumerate(lays)]  # fmt: skip
                        file["lays"][str(number)] = {
                            "behind": [{**lay, "at": places} for lay, places in zip(lays, moved, strict=True)],
                            "width_mm": max(lay["width_mm"] for lay in lays), "length_mm": behind_mm,
                            "nap": nap == "with",
                        }  # fmt: skip
                    rest = [sum(each) for each in zip(alone[0][3:], alone[1][3:], strict=True)]
                    steps.append([width, least_mm, number, *rest])
                told[way][nap].append(steps)
        made[f"{spread.cloth}.{way}.{key}"] = file
    return told, made
