"""Does a condition hold? The calculators know; here the choices and the size are put together for them."""

from __future__ import annotations

from collections.abc import Iterable

from boltside.calculators.conditions import SIZE, holds
from boltside.pattern import Case, ChoiceSet


def with_size(chosen: ChoiceSet, size: str) -> dict[str, str]:
    """The choices with the size among them, as conditions ask for it."""
    return {**chosen, SIZE: size}


def first_holding(cases: Iterable[Case], chosen: ChoiceSet) -> float | None:
    """The length in mm of the first case that holds, or None."""
    for case in cases:
        if holds(case.when, chosen):
            return case.mm
    return None


__all__ = ["SIZE", "first_holding", "holds", "with_size"]
