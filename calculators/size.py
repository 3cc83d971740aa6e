"""Which size, from the child's measurements?

A size's row in the chart is the body it is cut for at its *upper* end: height-coded size 92 is for children over 86 and
up to 92 cm (common practice). The same is taken for girths. So:

* the size for a measurement is the smallest whose chart value is at least the measurement;
* the pattern says which measurements decide (`size_by`); the first of them that was typed decides;
* a measurement within a sixth of a step of a border between two sizes (1 cm where the steps are 6 cm, less for
  girths, whose steps are smaller) is "between two": the smaller fits now, or is just outgrown;
* below the smallest size there is a size's step of room, above the largest there is none.

>>> size_for(910, ["86", "92", "98"], [860, 920, 980])
Found(size='92', other='98', side='upper')
>>> size_for(900, ["86", "92", "98"], [860, 920, 980])
Found(size='92', other='', side='')
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from .fragments import Fragment, Said, joined, say
from .problems import problem
from .request import Sheet, unit_of, word
from .typed import Asked, Typed, Unit, hint, read_length
from .units import measured

BETWEEN_SHARE = 6
"""Between two sizes: nearer to the border than this part of the step. Our choice."""
ONLY_SIZE_SHARE = 16
"""Step of a pattern with one size, as part of the chart's value: 6 cm in 96 of height. Our choice."""
FAR_APART = 3
"""Measurements that point to sizes this many steps apart are worth measuring again. Our choice."""

Side = Literal["", "upper", "lower"]


def _body(thing: str, lowest_mm: float, highest_mm: float, example_cm: str, example_in: str) -> Asked:
    return Asked(
        thing=thing,
        refusal=f"can't be a child's {thing}",
        code="not-a-body",
        lowest_mm=lowest_mm,
        highest_mm=highest_mm,
        example_cm=example_cm,
        example_in=example_in,
    )


BODY = {
    "height": _body("height", 400, 2100, "92", "36"),
    "chest": _body("chest", 300, 1400, "50", "19 3/4"),
    "waist": _body("waist", 300, 1400, "47", "18 1/2"),
    "hip": _body("hip", 300, 1500, "51", "20"),
}
"""What can be typed, with bounds in mm that leave room for every child (our choice)."""


@dataclass(frozen=True)
class Found:
    """A size ("" where none fits), and the neighbour if the measurement lies near the border to it.

    ``side``: ``upper`` near the upper end of the size, the next one leaves room; ``lower`` just above the one before;
    without a size, ``lower`` means too small for the smallest and ``upper`` too large for the largest.
    """

    size: str
    other: str = ""
    side: Side = ""


def size_for(mm: float, sizes: Sequence[str], chart_mm: Sequence[float]) -> Found:
    """The size for one measurement.

    Arguments: the measurement in mm; the sizes; the chart's value for each, growing, in mm.
    """
    steps = [chart_mm[min(at + 1, len(sizes) - 1)] - chart_mm[max(at, 1) - 1] for at in range(len(sizes))]
    # The first and last sizes have one neighbour, so one step; the others' is the mean of two.
    steps = [step / (2 if 0 < at < len(sizes) - 1 else 1) for at, step in enumerate(steps)]
    if len(sizes) == 1:
        steps = [chart_mm[0] / ONLY_SIZE_SHARE]
    if mm <= chart_mm[0] - steps[0]:
        return Found("", side="lower")
    if mm > chart_mm[-1]:
        return Found("", side="upper")
    at = next(at for at, value in enumerate(chart_mm) if mm <= value)
    near_mm = steps[at] / BETWEEN_SHARE
    if at + 1 < len(sizes) and chart_mm[at] - mm <= near_mm:
        return Found(sizes[at], sizes[at + 1], "upper")
    if at > 0 and mm - chart_mm[at - 1] <= near_mm:
        return Found(sizes[at], sizes[at - 1], "lower")
    return Found(sizes[at])


def size_fragments(sheet: Sheet, asked: Mapping[str, Any]) -> list[Fragment]:
    """Fragments `size` (the size, or why there is none), `size.why` and `size.again` (when to measure again).

    Arguments: the sheet; the request with height, chest, waist and hip as typed, and the unit of bare numbers.
    """
    unit = unit_of(asked)
    columns = [name for name in BODY if name in sheet["body"]["columns"]]
    depends_on = (*columns, "unit")
    typed = {name: read_length(word(asked.get(name)), unit, BODY[name]) for name in columns}
    wrong = _impossible(typed, depends_on)
    if wrong is not None:
        return [wrong, *_silent(depends_on, "size.why", "size.again")]
    order = [*(name for name in sheet["size_by"] if name in columns), *columns]
    given = [name for name in dict.fromkeys(order) if typed[name].mm is not None]
    if not given:
        said = say(f"Type the {_either([name for name in sheet['size_by'] if name in columns] or columns)}.")
        return [
            problem("size", "nothing-typed", said, depends_on),
            *_silent(depends_on, "size.why", "size.again"),
        ]
    found = {name: _found(sheet, name, typed[name].mm or 0.0) for name in given}
    return [
        _answer(sheet, typed, found, unit, depends_on),
        Fragment(
            name="size.why",
            kind="list",
            said=_why(sheet, typed, found),
            data={"by": {name: one.size for name, one in found.items()}, "decides": given[0]},
            depends_on=depends_on,
        ),
        _again(sheet, found, depends_on),
    ]


def _found(sheet: Sheet, column: str, mm: float) -> Found:
    rows = sheet["body"]["rows"]
    return size_for(mm, sheet["sizes"], [rows[size][column] for size in sheet["sizes"]])


def _silent(depends_on: tuple[str, ...], *names: str) -> list[Fragment]:
    return [Fragment(name=name, kind="sentence", depends_on=depends_on) for name in names]


def _impossible(typed: Mapping[str, Typed], depends_on: tuple[str, ...]) -> Fragment | None:
    """The first thing that can't be, with the field it was typed in."""
    for name, one in typed.items():
        if one.code is not None:
            return problem("size", one.code, say(f"{name.capitalize()}: ", one.said), depends_on, field=name)
    height_mm = typed["height"].mm if "height" in typed else None
    for name, one in typed.items():
        if name != "height" and height_mm is not None and one.mm is not None and one.mm >= height_mm:
            said = say(f"A {name} of ", measured(one.mm), " and a height of ", measured(height_mm),
                       " can't both be right. Measure again, or look which field is which.")  # fmt: skip
            return problem("size", "girth-over-height", said, depends_on, field=name)
    return None


def _answer(
    sheet: Sheet, typed: Mapping[str, Typed], found: Mapping[str, Found], unit: Unit, depends_on: tuple[str, ...]
) -> Fragment:
    decides = next(iter(found))
    best = found[decides]
    if not best.size:
        too_small = best.side == "lower"
        end = sheet["sizes"][0 if too_small else -1]
        said = say(f"{decides.capitalize()} ", measured(typed[decides].mm or 0.0))
        if too_small:
            said = say(said, f": too small for the smallest size, {end}.")
        else:
            limit_mm = sheet["body"]["rows"][end][decides]
            said = say(said, f": too large for the largest size, {end}, cut for up to ", measured(limit_mm), ".")
        code = "below-smallest" if too_small else "above-largest"
        return problem("size", code, say(said, _other_unit(sheet, typed, decides, unit)), depends_on, nearest=end)
    parts = [say(f"Size {best.size}.")]
    if best.other:
        small, large = (best.size, best.other) if best.side == "upper" else (best.other, best.size)
        room = "fits now" if best.side == "upper" else "is just outgrown"
        parts.append(say(f"Between two sizes: {small} {room}, {large} leaves room to grow."))
    if decides not in sheet["size_by"]:
        parts.append(say(f"By {decides} alone; this pattern goes by {', then '.join(sheet['size_by'])}."))
    parts += [_disagreeing(name, found[name], best) for name in sheet["size_by"] if name in found and name != decides]
    length = found["height"].size if "height" in found and decides != "height" else ""
    if length and length != best.size:
        parts.append(say(f"Width of {best.size}, length of {length}."))
    data = {"size": best.size, "between": best.other or None, "decides": decides, "length_of": length or None}
    return Fragment(name="size", kind="figure", said=joined(parts), data=data, depends_on=depends_on)


def _disagreeing(name: str, one: Found, best: Found) -> Said:
    """What a measurement that matters, but does not decide, says otherwise; of a fitting height the length speaks."""
    if not one.size:
        return say(f"The {name} is {'smaller' if one.side == 'lower' else 'larger'} than every size.")
    return say() if name == "height" or one.size == best.size else say(f"By {name} it would be {one.size}.")


def _other_unit(sheet: Sheet, typed: Mapping[str, Typed], column: str, unit: Unit) -> str:
    """The offer to take a bare number in another unit, where some size would then fit."""
    return hint(typed[column], unit, BODY[column], *_range_mm(sheet, column))


def _range_mm(sheet: Sheet, column: str) -> tuple[float, float]:
    """The chart's smallest and largest value of a measurement, in mm."""
    values = [sheet["body"]["rows"][size][column] for size in sheet["sizes"]]
    return min(values), max(values)


def _why(sheet: Sheet, typed: Mapping[str, Typed], found: Mapping[str, Found]) -> Said:
    reasons = []
    for name, one in found.items():
        mm = typed[name].mm or 0.0
        said = say(f"{name.capitalize()} ", measured(mm))
        if not one.size:
            reasons.append(
                say(said, ": smaller than every size" if one.side == "lower" else ": larger than every size")
            )
        else:
            up_to = sheet["body"]["rows"][one.size][name]
            reasons.append(say(said, f": size {one.size}, cut for up to ", measured(up_to)))
    return say(joined(reasons, "; "), ".")


def _again(sheet: Sheet, found: Mapping[str, Found], depends_on: tuple[str, ...]) -> Fragment:
    """A warning where the measurements point to sizes far from each other; out of range counts as one beyond."""
    sizes = list(sheet["sizes"])
    at = [sizes.index(one.size) if one.size else (-1 if one.side == "lower" else len(sizes)) for one in found.values()]
    apart = max(at) - min(at)
    if apart < FAR_APART:
        return _silent(depends_on, "size.again")[0]
    said = say(f"These measurements lie {apart} sizes apart. Measure once more before you cut.")
    data = {"code": "far-apart", "apart": apart}
    return Fragment(name="size.again", kind="warning", said=said, data=data, depends_on=depends_on)


def _either(names: Sequence[str]) -> str:
    return " or the ".join([", the ".join(names[:-1]), names[-1]]) if len(names) > 1 else names[0]
