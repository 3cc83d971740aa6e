"""Is a lay for striped or checked cloth in step? Looked at with shapely alone, from outlines, marks and places.

Nothing is shared with the search but the model.
"""

from collections.abc import Sequence
from typing import Final

from shapely import Point as Spot
from shapely import Polygon, affinity

from .model import Lay, LayRequest, Placement

_OFF_MM: Final = 0.05
"""Marks may be out of step by so much: places are kept on a grid of 0.01 mm, and a lay that was made on another system
has marks rounded otherwise. Far less than a thread."""

_IN_PIECE_MM: Final = 0.1
"""A mark may lie so far outside of its piece: outlines are rounded."""


def step_faults(request: LayRequest, lay: Lay) -> list[str]:
    """What is wrong with a lay as far as the cloth's repeat goes, as plain sentences.

    Checks: the lay is for this repeat, or for none; each mark lies in its piece; all marks lie whole repeats apart,
    along the cloth and across the table; with both selvedges to the middle the two folds, half a bolt apart, can both
    lie where the pattern has two equal sides.
    """
    repeat = request.repeat
    if repeat is None or lay.repeat_mm is None or repeat.lengths_mm != lay.repeat_mm:
        same = repeat is None and lay.repeat_mm is None
        return [] if same else ["the lay was made for another repeat of the cloth's pattern"]
    found = []
    for item in request.items:
        if item.item_id in repeat.marks:
            outline = Polygon(item.outline_mm)
            if outline.is_valid and outline.distance(Spot(repeat.marks[item.item_id])) > _IN_PIECE_MM:
                found.append(f"the mark of {item.item_id!r} lies outside of it")
    marks = [(one, _mark(one, repeat.marks[one.item_id])) for one in lay.placements if one.item_id in repeat.marks]
    for name, repeat_mm, axis in (("along", repeat.along_mm, 0), ("across", repeat.across_mm, 1)):
        if repeat_mm is not None:
            found += _apart(name, repeat_mm, [(one, spot[axis]) for one, spot in marks])
    if lay.way == "middle" and repeat.across_mm is not None:
        off_mm = _off_mm(lay.bolt_width_mm, repeat.across_mm)
        if off_mm > _OFF_MM:
            found.append(f"both folds can't lie in the middle of a pattern that repeats every {repeat.across_mm:g} mm")
    return found


def _mark(one: Placement, mark_mm: tuple[float, float]) -> tuple[float, float]:
    """Where a mark lies on the table."""
    spot = Spot(mark_mm)
    if one.mirrored:
        spot = affinity.scale(spot, xfact=1.0, yfact=-1.0, origin=(0, 0))
    if one.turned:
        spot = affinity.rotate(spot, 180, origin=(0, 0))
    return spot.x + one.x_mm, spot.y + one.y_mm


def _off_mm(length_mm: float, repeat_mm: float) -> float:
    """How far a length is from whole repeats."""
    return abs(length_mm - round(length_mm / repeat_mm) * repeat_mm)


def _apart(name: str, repeat_mm: float, at: Sequence[tuple[Placement, float]]) -> list[str]:
    """Marks that do not lie whole repeats from the first one."""
    return [
        f"{one.item_id!r} copy {one.copy} is {off_mm:.2f} mm out of step {name} the cloth"
        for one, place_mm in at[1:]
        if (off_mm := _off_mm(place_mm - at[0][1], repeat_mm)) > _OFF_MM
    ]
