"""How are requests and lays written as JSON? Whole numbers of 0.01 mm throughout."""

import hashlib
import json
from typing import Any, Final, get_args

from .model import GRID_PER_MM, Face, Lay, LayItem, LayMode, LayRequest, Placement, Quality, Repeat, Way

Json = dict[str, Any]

FOLD_OVER: Final = "fold_over"
"""How much of part-folded cloth is folded over, in steps; no other lay has it."""

REPEAT: Final = "repeat"
"""The repeat along and across the cloth with which a lay is in step, in steps, 0 for none; no other lay has it."""

MOST_STEPS: Final = 1_000_000_000
"""No coordinate of a lay is larger, in steps of 0.01 mm: ten kilometres. Our choice."""

_SIZES: Final = 3
"""A likeness has length, width and area of a piece, then its mark if it has one."""

_SHOWN: Final = 40
"""So many letters of something odd are shown in a message."""


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


def repeat_to_json(repeat: Repeat) -> Json:
    """A repeat with its marks as plain JSON data."""
    return {
        "mm": _repeat_steps(repeat.lengths_mm),
        "marks": {item_id: [on_grid(x), on_grid(y)] for item_id, (x, y) in repeat.marks.items()},
    }


def _repeat_from_json(data: Json) -> Repeat:
    along_mm, across_mm = _repeat_mm(data["mm"])
    marks = {str(item_id): (from_grid(x), from_grid(y)) for item_id, (x, y) in data["marks"].items()}
    return Repeat(marks=marks, along_mm=along_mm, across_mm=across_mm)


def _repeat_steps(repeat_mm: tuple[float | None, float | None]) -> list[int]:
    return [0 if one is None else on_grid(one) for one in repeat_mm]


def _repeat_mm(steps: Any) -> tuple[float | None, float | None]:
    """Raises: TypeError or ValueError."""
    along, across = steps
    if min(_steps(along), _steps(across)) < 0:
        raise ValueError("a repeat is below 0")
    return from_grid(along) or None, from_grid(across) or None


def request_to_json(request: LayRequest) -> Json:
    """A request as plain JSON data; only one that is to be in step says with which repeat."""
    return {
        **({} if request.repeat is None else {REPEAT: repeat_to_json(request.repeat)}),
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
        repeat=_repeat_from_json(data[REPEAT]) if REPEAT in data else None,
    )


def lay_to_json(lay: Lay) -> Json:
    """A lay as plain JSON data; a placement is [item, copy, x, y, turned, mirrored]. Only part-folded cloth says how
    much is folded over, and only a lay in step with which repeat."""
    return {
        **({} if lay.repeat_mm is None else {REPEAT: _repeat_steps(lay.repeat_mm)}),
        **({} if lay.fold_over_mm is None else {FOLD_OVER: on_grid(lay.fold_over_mm)}),
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
    """The lay of :func:`lay_to_json`. Takes nothing that it would not have written: a lay may come from a file that
    others changed, or from a process that went wrong.

    Raises: KeyError, TypeError or ValueError.
    """
    way: Way = _one_of(data["way"], Way)
    if FOLD_OVER in data and way != "part-folded":
        raise ValueError(f"a {way} lay can't be folded over in part")
    return Lay(
        length_mm=from_grid(_steps(data["length"])),
        placements=tuple(
            Placement(
                item_id=_words(item_id),
                copy=_steps(copy),
                x_mm=from_grid(_steps(x)),
                y_mm=from_grid(_steps(y)),
                turned=_yes_or_no(turned),
                mirrored=_yes_or_no(mirrored),
            )
            for item_id, copy, x, y, turned, mirrored in data["placements"]
        ),
        way=way,
        bolt_width_mm=from_grid(_steps(data["width"])),
        one_way=_yes_or_no(data["one_way"]),
        quality=_one_of(data["quality"], Quality),
        fold_over_mm=from_grid(_steps(data[FOLD_OVER])) if way == "part-folded" else None,
        repeat_mm=_repeat_mm(data[REPEAT]) if REPEAT in data else None,
    )


def check_likeness(like: object) -> None:
    """Refuse what is no likeness as :func:`.solve.likeness` makes it. Raises: TypeError or ValueError."""
    if not isinstance(like, dict) or set(like) != {"made", "shapes"} or not isinstance(like["shapes"], dict):
        raise ValueError("what it was made for is not written as it should be")
    _words(like["made"])
    for item_id, shape in like["shapes"].items():
        length, width, area = shape[:_SIZES]
        mark = shape[_SIZES:]
        for number in (length, width, area):
            if _steps(number) < 0:
                raise ValueError(f"{item_id!r} has a size below 0")
        if len(mark) not in (0, 2) or not all(isinstance(_steps(number), int) for number in mark):
            raise ValueError(f"{item_id!r} has a mark that is no place")


def one_line(data: Json) -> str:
    """Compact JSON on one line, keys sorted, so that equal data gives equal bytes."""
    return json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def digest(data: Json) -> str:
    """A short name for JSON data: the first 32 hexadecimal digits of its SHA-256."""
    return hashlib.sha256(one_line(data).encode()).hexdigest()[:32]


def _one_of(value: object, kind: Any) -> Any:
    """The value if it is among the words of a Literal type."""
    if value not in get_args(kind):
        raise ValueError(f"{_shown(value)} is none of {', '.join(get_args(kind))}")
    return value


def _steps(value: object) -> int:
    """A whole number that a length in steps may have."""
    if type(value) is not int or abs(value) > MOST_STEPS:
        raise ValueError(f"{_shown(value)} is no whole number of at most {MOST_STEPS}")
    return value


def _yes_or_no(value: object) -> bool:
    if value not in (0, 1) or not isinstance(value, int):
        raise ValueError(f"{_shown(value)} is neither 0 nor 1")
    return bool(value)


def _words(value: object) -> str:
    """A name that can be written again."""
    if not isinstance(value, str):
        raise ValueError(f"{_shown(value)} is no name")
    value.encode()  # half of a surrogate pair is no text: UnicodeEncodeError is a ValueError
    return value


def _shown(value: object) -> str:
    """Something odd as a message shows it; lists without what is in them, for they may be deep without end."""
    if value is None or isinstance(value, (str, int, float)):
        return repr(value)[:_SHOWN]
    return f"a {type(value).__name__}"
