"""Does it go on? How large a ring opens, and how large it has to open, in every size.

A ring that goes over the head: stitching line times its stretch, and both sides of each slit, at least the head at P97
and 10 mm. Over any other part of the body: at least that of the body chart and 20 mm. Both are common practice.
"""

from __future__ import annotations

from boltside.measure.cases import ValueCase, value_cases
from boltside.measure.conditions import holds, with_size
from boltside.measure.finished import part_mm
from boltside.measure.heads import head_of_size_mm
from boltside.measure.model import Garment
from boltside.pattern import Pattern, PullOn

HEAD = "head"
HEAD_ROOM_MM = 10.0
BODY_ROOM_MM = 20.0
"""More than the head, or another part of the body. Common practice."""
SIDES = 2
"""A slit opens the ring by both its sides."""
DIGITS = 1


def opens_to_mm(garment: Garment, ring: PullOn) -> float:
    """How far the ring opens, in mm. Raises: :class:`boltside.measure.model.MeasureError`."""
    asked = with_size(garment.chosen, garment.size)
    stretch = next((case.times for case in ring.stretches_to if holds(case.when, asked)), 1.0)
    slit_mm = sum(part_mm(garment, part) for part in ring.slit)
    return stretch * sum(part_mm(garment, part) for part in ring.parts) + SIDES * slit_mm


def pull_on_cases(pattern: Pattern, ring: PullOn) -> tuple[ValueCase[float], ...]:
    """How far it opens over all choices where it is asked, in mm by size. Raises: MeasureError."""

    def value(garment: Garment) -> float:
        return round(opens_to_mm(garment, ring), DIGITS)

    pieces = [part.piece for part in (*ring.parts, *ring.slit)]
    return value_cases(pattern, ring.when, pieces, value, asked=[case.when for case in ring.stretches_to])


def body_mm(pattern: Pattern, ring: PullOn, size: str) -> float | None:
    """What the ring has to go over in this size, in mm: the head at P97, or the chart's measurement; None: unknown."""
    if ring.over == HEAD:
        return head_of_size_mm(pattern.body_chart, size)
    return pattern.body_chart.rows[size].get(ring.over)


def room_mm(ring: PullOn) -> float:
    """How much more than that it has to open, in mm."""
    return HEAD_ROOM_MM if ring.over == HEAD else BODY_ROOM_MM
