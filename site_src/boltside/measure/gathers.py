"""How long are the two edges of gathers, on the stitching line, in every size and set of choices?"""

from __future__ import annotations

from boltside.measure.cases import ValueCase, value_cases
from boltside.measure.model import Garment
from boltside.measure.seams import edge_length_mm
from boltside.pattern import Pattern, Seam

DIGITS = 1


def gather_cases(pattern: Pattern, seam: Seam) -> tuple[ValueCase[tuple[float, float]], ...]:
    """The longer and the shorter edge (join and to), mm, where the seam is sewn. Raises: MeasureError."""

    def value(garment: Garment) -> tuple[float, float]:
        join, to = (sum(edge_length_mm(garment, part) for part in side) for side in (seam.join, seam.to))
        return round(join, DIGITS), round(to, DIGITS)

    return value_cases(pattern, seam.when, [part.piece for part in (*seam.join, *seam.to)], value)
