"""What lies where on the cloth? A lay file, opened, and one lay of it for the pieces that were asked for.

A file holds all lays of one cloth, way of laying and size. In it x runs along the grain, from the cut end, and y
across the usable cloth, from the fold or from the first selvedge. A place in it is applied to each point of the
outline in this order: mirrored (y becomes -y), turned ((x, y) becomes (-x, -y)), moved.

>>> placed([[0, 0], [30, 0], [30, 10]], x=5, y=20, turned=False, mirrored=True)
[[5, 20], [35, 20], [35, 10]]
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

FORMAT = 1
"""The format of lay files that is read here."""

KEYS = {"pattern": str, "cloth": str, "way": str, "size": str, "items": list, "outlines": list, "lays": dict}

LayFile = Mapping[str, Any]
Points = Sequence[Sequence[int]]


@dataclass(frozen=True, kw_only=True)
class Lying:
    """One outline as it lies: the line of the cutting list, its points (x along, y across, mm), how it was put.

    ``mark`` is the place that is in step with those of the other pieces, in a lay for stripes or checks; ``garment``,
    in a lay of two garments, of which it is, 0 or 1.
    """

    line_id: str
    copy: int
    points: Points
    turned: bool
    mirrored: bool
    mark: Sequence[int] | None = None
    garment: int | None = None


def is_lay_file(value: Mapping[str, Any]) -> bool:
    """Whether this has the form of a lay file; what is in it was made and verified by the build."""
    return value.get("format") == FORMAT and all(isinstance(value.get(key), kind) for key, kind in KEYS.items())


def key_of(file: LayFile) -> str:
    """The file's name in requests: cloth, way and size."""
    return f"{file['cloth']}.{file['way']}.{file['size']}"


def placed(outline: Points, *, x: int, y: int, turned: bool, mirrored: bool) -> list[list[int]]:
    """The outline as it lies on the cloth."""
    across = -1 if mirrored else 1
    sign = -1 if turned else 1
    return [[sign * px + x, sign * across * py + y] for px, py in outline]


def laid_in(file: LayFile, number: int) -> list[Mapping[str, Any]]:
    """The lays under one number: one, or two of which the second lies behind the first. Raises: KeyError."""
    lay = file["lays"][str(number)]
    return list(lay.get("behind", [lay]))


def lying(file: LayFile, number: int, wanted: Collection[str]) -> list[Lying]:
    """The pieces of one lay, of which only those that are wanted; in the file's order.

    A lay may hold more than was asked for, because it serves several sets. Raises: KeyError for a lay that is not in
    the file.
    """
    return lying_in(file, laid_in(file, number)[0], wanted)


def lying_in(file: LayFile, lay: Mapping[str, Any], wanted: Collection[str]) -> list[Lying]:
    """As :func:`lying`, of a lay that is at hand."""
    whose = file.get("garments")
    found = []
    for item, copy, x, y, turned, mirrored, *mark in lay["at"]:
        line_id = file["items"][item]
        if line_id in wanted:
            points = placed(file["outlines"][item], x=x, y=y, turned=bool(turned), mirrored=bool(mirrored))
            found.append(Lying(line_id=line_id, copy=copy, points=points, turned=bool(turned), mirrored=bool(mirrored),
                               mark=mark[0] if mark else None, garment=whose[item] if whose else None))  # fmt: skip
    return found
