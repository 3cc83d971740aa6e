"""Which size for this child: by what the designer says decides, by the ease at every place, by height for the length.

* `size_by` says which measurements decide; the first of them that was typed gives the size of the *width*;
* a size that would leave less ease than the designer means, at any place that was measured, gives way to the next one;
  one that would leave more gives way to the one before, as long as that is nowhere too tight;
* the largest size will do beyond its chart where it is nowhere too tight, the smallest below it where it is not too
  loose for what decides;
* the height gives the size of the *length*, wherever the garment has a length at all;
* without any measurement the age does, by the median height: the weakest guide.

>>> rows = {"86": {"chest": 485, "height": 860}, "92": {"chest": 501, "height": 920}}
>>> sheet = {"sizes": ["86", "92"], "size_by": ["chest"], "choices": [], "finished": [], "cloths": [],
...          "body": {"columns": ["chest", "height"], "rows": rows}}
>>> found = advise(sheet, {"chest": 480.0, "height": 900.0}, {})
>>> found.size, found.length_of
('86', '92')
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from .child import AGE, HEIGHT
from .growth import median_height_mm
from .request import Sheet
from .size_by_body import Found, Side, size_for
from .wearing import Fitting, Place


@dataclass(frozen=True, kw_only=True)
class Advice:
    """The size for a child.

    ``size`` is that of the width, "" where there is none (``beyond`` says on which side); ``length_of`` that of the
    height, "" where it was not typed or has no size; ``decides`` the measurement that decided; ``by`` what the chart
    says of each; ``before`` the size that the deciding measurement alone would give, where ease at ``moved`` asked for
    a larger or a smaller one; ``stretched`` whether the chart ends before, and the ease alone lets it fit; ``other`` a
    neighbour that would do too, on its ``side``; ``tight`` places where even this size leaves less than is meant.
    """

    size: str
    decides: str
    by: Mapping[str, Found]
    length_of: str = ""
    before: str = ""
    moved: tuple[Place, ...] = ()
    stretched: bool = False
    other: str = ""
    side: Side = ""
    tight: tuple[Place, ...] = ()
    beyond: Side = ""


def advise(
    sheet: Sheet, mm: Mapping[str, float], words: Mapping[str, str], age_months: float | None = None
) -> Advice | None:
    """The size for a child, or None where nothing was measured and no age is known.

    Arguments: the sheet; measurements in mm, by the chart's columns; the choices that were made; the age in months.
    """
    sizes, rows = sheet["sizes"], sheet["body"]["rows"]
    order = [name for name in dict.fromkeys([*sheet["size_by"], *mm]) if name in mm]
    by = {name: size_for(mm[name], sizes, [rows[size][name] for size in sizes]) for name in order}
    if not order:
        if age_months is None or HEIGHT not in sheet["body"]["columns"]:
            return None
        found = size_for(median_height_mm(age_months), sizes, [rows[size][HEIGHT] for size in sizes])
        return Advice(size=found.size, decides=AGE, by={AGE: found}, length_of=found.size, beyond=_beyond(found))
    decides = order[0]
    fitting = Fitting(sheet, words, mm)
    first = by[decides]
    start = first.size or _at_the_end(sizes, first, decides, fitting)
    length_of = by[HEIGHT].size if HEIGHT in by else ""
    if not start:
        return Advice(size="", decides=decides, by=by, length_of=length_of, beyond=first.side)
    size, moved = _as_meant(sizes, start, fitting)
    other, side = _neighbour(sizes, first, size, fitting)
    return Advice(
        size=size,
        decides=decides,
        by=by,
        length_of=length_of,
        before=start if moved else "",
        moved=moved,
        stretched=not first.size,
        other=other,
        side=side,
        tight=tuple(fitting.tight(size)),
    )


def _beyond(found: Found) -> Side:
    return "" if found.size else found.side


def _at_the_end(sizes: Sequence[str], found: Found, decides: str, fitting: Fitting) -> str:
    """The first or last size, where a girth is beyond the chart and this size is not too loose or too tight for it."""
    end = sizes[0] if found.side == "lower" else sizes[-1]
    if not any(place.body == decides and place.meant_mm is not None for place in fitting.places(end)):
        return ""
    if found.side == "lower":
        return "" if any(place.body == decides for place in fitting.loose(end)) else end
    return "" if fitting.tight(end) else end


def _as_meant(sizes: Sequence[str], start: str, fitting: Fitting) -> tuple[str, tuple[Place, ...]]:
    """The size from this one on, up or down, at which the ease is as meant, and the places where it was not.

    Upwards to the first size that is nowhere tight, or the largest; else downwards while a place is loose and the size
    before is nowhere tight. So more of the child never gives a smaller size, and a little more never two sizes more.
    """
    at = sizes.index(start)
    if fitting.tight(start):
        larger = (size for size in sizes[at:] if not fitting.tight(size))
        return next(larger, sizes[-1]), tuple(fitting.tight(start))
    while at > 0 and fitting.loose(sizes[at]) and not fitting.tight(sizes[at - 1]):
        at -= 1
    return sizes[at], tuple(fitting.loose(start)) if sizes[at] != start else ()


def _neighbour(sizes: Sequence[str], found: Found, size: str, fitting: Fitting) -> tuple[str, Side]:
    """The size beside this one that would do as well: within a centimetre by the deciding measurement, and with the
    ease that is meant wherever something is."""
    if not found.other or found.size != size or fitting.fits(found.other) is False:
        return "", ""
    return found.other, found.side


def far_apart(sheet: Sheet, by: Mapping[str, Found]) -> int:
    """How many sizes lie between what the measurements say by which the pattern goes; out of range is one beyond. The
    others vary too much from child to child: a slim waist is three sizes smaller, and no mistake."""
    sizes = sheet["sizes"]
    at = [
        sizes.index(one.size) if one.size else (-1 if one.side == "lower" else len(sizes))
        for name, one in by.items()
        if name in sheet["size_by"]
    ]
    return max(at) - min(at) if at else 0
