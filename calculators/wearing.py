"""How large is the garment for this child: at which places is there too little ease, or too much?

The ease over the body chart says how the garment is drawn; what a child wears is the finished measurement less the
child's own. The designer says between which bounds that may lie (`wearing_mm`), for each kind of cloth.

>>> off(Place(name="chest", title="Chest", body="chest", finished_mm=600, ease_mm=55, meant_mm=(60, 140)))
'tight'
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from .child import HEIGHT
from .choices import completed
from .conditions import SIZE, holds
from .fragments import Said, say
from .nap import kinds_of
from .request import Sheet
from .units import measured


@dataclass(frozen=True, kw_only=True)
class Place:
    """A finished measurement beside the child's own, in mm; ``meant_mm`` is the ease that the designer allows, or
    None where she says nothing."""

    name: str
    title: str
    body: str
    finished_mm: float
    ease_mm: float
    meant_mm: tuple[float, float] | None


def off(place: Place) -> Literal["", "tight", "loose"]:
    """Whether the ease (mm) is less or more than is meant."""
    if place.meant_mm is None or place.meant_mm[0] <= place.ease_mm <= place.meant_mm[1]:
        return ""
    return "tight" if place.ease_mm < place.meant_mm[0] else "loose"


@dataclass
class Fitting:
    """The garment with some choices, tried on in all sizes.

    Arguments: the sheet; the choices as they came; the child's measurements in mm.
    """

    sheet: Sheet
    words: Mapping[str, str]
    mm: Mapping[str, float]
    _tried: dict[str, list[Place]] = field(default_factory=dict, init=False)

    def places(self, size: str) -> Sequence[Place]:
        """Every girth of the garment in this size for which the child's measurement was typed."""
        if size not in self._tried:
            chosen = completed(self.sheet["choices"], {**self.words, SIZE: size})
            self._tried[size] = [
                place
                for one in self.sheet["finished"]
                if one["body"] in self.mm and one["body"] != HEIGHT
                for place in [_tried_on(self.sheet, one, chosen, size, self.mm[one["body"]])]
                if place is not None
            ]
        return self._tried[size]

    def tight(self, size: str) -> list[Place]:
        """The places where this size leaves less ease than is meant."""
        return [place for place in self.places(size) if off(place) == "tight"]

    def loose(self, size: str) -> list[Place]:
        """The places where this size leaves more ease than is meant."""
        return [place for place in self.places(size) if off(place) == "loose"]

    def fits(self, size: str) -> bool | None:
        """Whether the ease is as meant at every place; None where no place says what is meant."""
        told = [off(place) for place in self.places(size) if place.meant_mm is not None]
        return not any(told) if told else None


def _tried_on(
    sheet: Sheet, one: Mapping[str, Any], chosen: Mapping[str, str], size: str, body_mm: float
) -> Place | None:
    finished_mm = next((case["mm"].get(size) for case in one["cases"] if holds(case["when"], chosen)), None)
    if finished_mm is None:
        return None
    meant = by_kind(sheet, one.get("wearing_mm", {}), chosen)
    return Place(
        name=one["name"],
        title=one["title"],
        body=one["body"],
        finished_mm=finished_mm,
        ease_mm=round((finished_mm - body_mm) * 10) / 10,
        meant_mm=None if meant is None else (meant[0], meant[1]),
    )


def by_kind(
    sheet: Sheet, ranges: Mapping[str, Sequence[float]], chosen: Mapping[str, str]
) -> Sequence[float] | None:
    """The range (mm) for the first of the pattern's cloths that is of a kind for which there is one, or None."""
    for cloth in sheet["cloths"]:
        for kind in kinds_of(cloth, chosen):
            if kind in ranges:
                return ranges[kind]
    return None


def place_said(place: Place) -> Said:
    """A place in words: what it measures, its ease on this child, and what is meant."""
    than = " more" if place.ease_mm >= 0 else " less"
    said = say(
        f"{place.title}: finished ", measured(place.finished_mm), ", ", measured(abs(place.ease_mm)),
        f"{than} than the child’s {place.body}",
    )  # fmt: skip
    if place.meant_mm is None:
        return say(said, ".")
    meant = say("meant are ", measured(place.meant_mm[0]), " to ", measured(place.meant_mm[1]))
    words = {"": "; ", "tight": "; too tight, ", "loose": "; loose, "}[off(place)]
    return say(said, words, meant, ".")
