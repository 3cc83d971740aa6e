"""Where is a finished measurement larger or smaller than the ease that the designer means?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from boltside.calculators.conditions import names_in_all
from boltside.measure.conditions import holds, with_size
from boltside.measure.cutting_list import choices_of_piece, occurring
from boltside.measure.finished import finished_mm
from boltside.measure.garment import make_garment
from boltside.measure.model import MeasureError
from boltside.pattern import ChoiceSet, Measurement, Pattern

WITHIN_MM = 0.5
"""An ease that misses the range by less rounds to it, in whole millimetres."""


@dataclass(frozen=True, kw_only=True)
class EaseOff:
    """A finished measurement and the body under it in one size and set of choices, and the ease that was meant, mm."""

    size: str
    chosen: ChoiceSet
    kind: str
    finished_mm: float
    body_mm: float
    low_mm: float
    high_mm: float

    @property
    def ease_mm(self) -> float:
        """Finished less body, mm."""
        return self.finished_mm - self.body_mm


def ease_off(pattern: Pattern, measurement: Measurement, pieces: list[str]) -> Iterator[EaseOff]:
    """Each size and set of choices in which the ease lies outside what is meant for the cloth's kind.

    Arguments: the pattern, one of its measurements, and the pieces that it can be taken on. As on the page, the first
    of the pattern's cloths that is of a kind for which an ease is given decides. What can't be measured, or has no
    body measurement in the chart, is passed over: that is told elsewhere.
    """
    if measurement.body is None or not measurement.ease_mm:
        return
    asked = names_in_all(
        [
            measurement.when,
            *(case.when for cloth in pattern.cloths for case in cloth.kind_cases),
            *(play.when for role in pattern.roles for play in role.plays),
        ]
    )
    made_by = [choices_of_piece(pattern, piece) for piece in pattern.pieces if piece.name in pieces]
    names = {*asked, *(name for choices in made_by for name in choices)}
    for size, combinations in occurring(pattern, sorted(names)).items():
        body_mm = pattern.body_chart.rows.get(size, {}).get(measurement.body)
        if body_mm is None:
            continue
        seen: set[tuple[str, float]] = set()
        for chosen in combinations:
            kind = _kind(pattern, measurement, with_size(chosen, size))
            if kind is None or not holds(measurement.when, with_size(chosen, size)):
                continue
            try:
                mm = finished_mm(make_garment(pattern, size, chosen, only=pieces), measurement)
            except MeasureError:
                continue
            low_mm, high_mm = measurement.ease_mm[kind]
            off = not low_mm - WITHIN_MM <= mm - body_mm <= high_mm + WITHIN_MM
            if off and (kind, mm) not in seen:
                seen.add((kind, mm))
                yield EaseOff(
                    size=size, chosen=chosen, kind=kind, finished_mm=mm, body_mm=body_mm, low_mm=low_mm, high_mm=high_mm
                )


def _kind(pattern: Pattern, measurement: Measurement, chosen: ChoiceSet) -> str | None:
    """The kind of cloth by which the ease goes."""
    for cloth in pattern.cloths:
        kinds = next((case.kinds for case in cloth.kind_cases if holds(case.when, chosen)), cloth.kinds)
        for kind in kinds:
            if kind in measurement.ease_mm:
                return kind
    return None
