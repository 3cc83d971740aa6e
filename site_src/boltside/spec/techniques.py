"""Which of the shop's techniques does a pattern name, and which are read before one starts, for which cloth?"""

from __future__ import annotations

from boltside.calculators.conditions import names_in_all
from boltside.measure.conditions import holds, with_size
from boltside.measure.cutting_list import occurring, shortest_condition
from boltside.measure.model import MeasureError
from boltside.pattern import Cloth, Condition, Pattern, Shop
from boltside.spec.json_form import Json, condition_json


def techniques_json(pattern: Pattern, shop: Shop) -> list[Json]:
    """The techniques that steps name, and those to be read before, each once, with its short text.

    `before` says with which choices it is read before, None where it never is; it goes by the first cloth. `drawing`
    is a file of the shop's techniques, left out where there is none.
    Raises: MeasureError where a step names one that the shop does not have. A shop without any says nothing of them.
    """
    named = {name for step in pattern.steps for name in step.techniques}
    unknown = sorted(named - {one.name for one in shop.techniques})
    if unknown and shop.techniques:
        raise MeasureError(f"{pattern.folder}: the technique {unknown[0]!r} is not among those of the shop")
    found = []
    for one in shop.techniques:
        before = _cut_from(pattern, pattern.cloths[0], one.before) if one.before else None
        if one.name in named or before is not None:
            found.append({
                "name": one.name, "title": one.title, "short": one.short,
                "before": None if before is None else condition_json(before),
                **({"drawing": one.drawing} if one.drawing else {}),
            })  # fmt: skip
    return found


def _cut_from(pattern: Pattern, cloth: Cloth, kinds: tuple[str, ...]) -> Condition | None:
    """With which choices the cloth is of one of these kinds; None where it never is."""
    if not cloth.kind_cases:
        return () if set(kinds) & set(cloth.kinds) else None
    occur = occurring(pattern, sorted(names_in_all(case.when for case in cloth.kind_cases)))
    where = [
        with_size(chosen, size)
        for size, combinations in occur.items()
        for chosen in combinations
        if set(kinds) & set(_kinds_with(cloth, with_size(chosen, size)))
    ]
    return shortest_condition(pattern, occur, where) if where else None


def _kinds_with(cloth: Cloth, chosen: dict[str, str]) -> tuple[str, ...]:
    return next((case.kinds for case in cloth.kind_cases if holds(case.when, chosen)), cloth.kinds)
