"""How are requests and lays written as JSON? Whole numbers of 0.01 mm throughout."""

import hashlib
import json
from typing import Any, get_args

from .model import GRID_PER_MM, Face, Lay, LayItem, LayMode, LayRequest, Placement, Quality, Way

Json = dict[str, Any]


def on_grid(length_mm: float) -> int:
    """Millimetres as whole steps of the grid."""
    return round(length_mm * GRID_PER_MM)


def from_grid(steps: int) -> float:
    """Steps of the grid as millimetres."""
    return steps / GRID_PER_MM


def item_to_json(item: LayItem) -> Json:
    """An item as plain JSON data."""
    return {
        "id": item.item_id,
        "mode": item.mode,
        "count": item.count,
        "face": item.face,
        "outline": [[on_grid(x), on_grid(y)] for x, y in item.outline_mm],
    }


def item_from_json(data: Json) -> LayItem:
    """The item of :func:`item_to_json`."""
    return LayItem(
        item_id=str(data["id"]),
        outline_mm=tuple((from_grid(x), from_grid(y)) for x, y in data["outline"]),
        mode=_one_of(data["mode"], LayMode),
        count=int(data["count"]),
        face=_one_of(data["face"], Face),
    )


def request_to_json(request: LayRequest) -> Json:
    """A request as plain JSON data."""
    return {
        "width": on_grid(request.bolt_width_mm),
        "way": request.way,
        "one_way": request.one_way,
        "items": [item_to_json(item) for item in request.items],
    }


def request_from_json(data: Json) -> LayRequest:
    """The request of :func:`request_to_json`."""
    return LayRequest(
        items=tuple(item_from_json(item) for item in data["items"]),
        bolt_width_mm=from_grid(data["width"]),
        way=_one_of(data["way"], Way),
        one_way=bool(data["one_way"]),
    )


def lay_to_json(lay: Lay) -> Json:
    """A lay as plain JSON data; a placement is [item, copy, x, y, turned, mirrored]."""
    return {
        "length": on_grid(lay.length_mm),
        "width": on_grid(lay.bolt_width_mm),
        "way": lay.way,
        "one_way": lay.one_way,
        "quality": lay.quality,
        "placements": [
            [p.item_id, p.copy, on_grid(p.x_mm), on_grid(p.y_mm), int(p.turned), int(p.mirrored)]
            for p in lay.placements
        ],
    }


def lay_from_json(data: Json) -> Lay:
    """The lay of :func:`lay_to_json`."""
    return Lay(
        length_mm=from_grid(data["length"]),
        placements=tuple(
            Placement(
                item_id=str(item_id),
                copy=int(copy),
                x_mm=from_grid(x),
                y_mm=from_grid(y),
                turned=bool(turned),
                mirrored=bool(mirrored),
            )
            for item_id, copy, x, y, turned, mirrored in data["placements"]
        ),
        way=_one_of(data["way"], Way),
        bolt_width_mm=from_grid(data["width"]),
        one_way=bool(data["one_way"]),
        quality=_one_of(data["quality"], Quality),
    )


def one_line(data: Json) -> str:
    """Compact JSON on one line, keys sorted, so that equal data gives equal bytes."""
    return json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def digest(data: Json) -> str:
    """A short name for JSON data: the first 32 hexadecimal digits of its SHA-256."""
    return hashlib.sha256(one_line(data).encode()).hexdigest()[:32]


def _one_of(value: object, kind: Any) -> Any:
    """The value if it is among the words of a Literal type."""
    if value not in get_args(kind):
        raise ValueError(f"{value!r} is none of {', '.join(get_args(kind))}")
    return value
