"""Which values does something take over all sizes and choices, and in which choices each? Equal ones are one case."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from boltside.calculators.conditions import names_in_all
from boltside.measure.conditions import holds, with_size
from boltside.measure.cutting_list import choices_of_piece, occurring, shortest_condition
from boltside.measure.garment import make_garment
from boltside.measure.model import Garment
from boltside.pattern import Condition, Pattern

Value = TypeVar("Value")


@dataclass(frozen=True, kw_only=True)
class ValueCase(Generic[Value]):
    """In these choices, this value in each size."""

    when: Condition
    by_size: Mapping[str, Value]


def value_cases(
    pattern: Pattern,
    when: Condition,
    pieces: Iterable[str],
    value: Callable[[Garment], Value],
    *,
    asked: Sequence[Condition] = (),
) -> tuple[ValueCase[Value], ...]:
    """The different values over all choices, by size, where ``when`` holds; the cases' conditions include it.

    Arguments: the pieces (or roles) that the value is taken from, of a garment that has only these; further
    conditions that it depends on. Values that agree in every size are one case. Raises: what ``value`` raises.
    """
    players = {role.role: [play.piece for play in role.plays] for role in pattern.roles}
    named = {player for name in pieces for player in players.get(name.removeprefix("as:"), [name])}
    names = set(names_in_all([when, *asked, *(play.when for role in pattern.roles for play in role.plays)]))
    for piece in pattern.pieces:
        if piece.name in named:
            names |= set(choices_of_piece(pattern, piece))
    occur = occurring(pattern, sorted(names))
    found: list[tuple[dict[str, Value], list[dict[str, str]]]] = []
    by_choices: dict[tuple[tuple[str, str], ...], dict[str, Value]] = {}
    for size, combinations in occur.items():
        for one in combinations:
            if holds(when, with_size(one, size)):
                by_choices.setdefault(tuple(one.items()), {})[size] = value(
                    make_garment(pattern, size, one, only=named)
                )
    for items, by_size in by_choices.items():
        # Combinations that exist in some sizes only go with those that agree with them there.
        agree = (one for one in found if all(one[0].get(size, at) == at for size, at in by_size.items()))
        same, where = next(agree, ({}, []))
        if not where:
            found.append((same, where))
        same.update(by_size)
        where += [with_size(dict(items), size) for size in by_size]
    return tuple(
        ValueCase(
            when=shortest_condition(pattern, occur, where),
            by_size={size: same[size] for size in pattern.sizes if size in same},
        )
        for same, where in found
    )
