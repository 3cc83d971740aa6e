"""With which orders does the search on spread cloth begin, and what does it change in them?"""

import random
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from .slots import Pose
from .spread_trial import Choice, Rows, Trial, Wish

Start = tuple[tuple[int, ...], tuple[Wish, ...]]
"""An order of slots and a wish for each slot."""

_SWAP: Final = 0.35
_MOVE: Final = 0.35
"""Shares of the changes that swap two slots or move one in the order, as in :mod:`.fill`; the rest changes a wish."""

_CUT_OTHERWISE: Final = 0.3
"""Share of the changed wishes that cut a pair apart, or no longer. Our choice."""

Choices = Sequence[Sequence[Choice]]
"""What each slot may choose from."""


def starts(choices: Choices, rows: Rows) -> list[Start]:
    """Orders a cutter would try: large pieces first, long ones, wide ones; halves first or last, or in the given rows
    along the folds; each with all pairs together and with all that can be cut apart."""
    numbers = range(len(choices))
    size = [(of_slot[0].variant.length, of_slot[0].variant.width) for of_slot in choices]
    on_fold = [any(choice.on_fold for choice in of_slot) for of_slot in choices]
    orders = [
        sorted(numbers, key=lambda n: -size[n][0] * size[n][1]),
        sorted(numbers, key=lambda n: -size[n][0]),
        sorted(numbers, key=lambda n: -size[n][1]),
    ]
    fold_first = [sorted(order, key=lambda n: not on_fold[n]) for order in orders]
    fold_last = [sorted(order, key=lambda n: on_fold[n]) for order in orders]
    in_rows = {number: _choice_in(choices[number], zone, pose) for zone, row in enumerate(rows) for number, pose in row}
    row_first = [[*in_rows, *(number for number in order if number not in in_rows)] for order in orders]
    found: list[Start] = []
    for apart in (False, True):
        wishes = tuple(Wish(apart=may_be(of_slot, apart)) for of_slot in choices)
        found += [(tuple(order), wishes) for order in (*orders, *fold_first, *fold_last)]
        rowed = tuple(replace(wish, choice=in_rows.get(number)) for number, wish in enumerate(wishes))
        found += [(tuple(order), rowed) for order in row_first]
    return list(dict.fromkeys(found))


def changed(current: Trial, choices: Choices, chance: random.Random, changes: int) -> Start:
    """The order and wishes of a trial with so many changes made by chance."""
    order, wishes = list(current.order), list(current.wishes)
    for _ in range(changes):
        what = chance.random()
        if what < _SWAP and len(order) > 1:
            first, second = chance.sample(range(len(order)), 2)
            order[first], order[second] = order[second], order[first]
        elif what < _SWAP + _MOVE and len(order) > 1:
            order.insert(chance.randrange(len(order)), order.pop(chance.randrange(len(order))))
        else:
            slot = chance.randrange(len(wishes))
            wishes[slot] = Wish(
                choice=chance.choice((None, *range(len(choices[slot])))),
                apart=may_be(choices[slot], wishes[slot].apart != (chance.random() < _CUT_OTHERWISE)),
                first=chance.choice((0, 0, 1)),
                high=chance.random() < 0.5,
            )
    return tuple(order), tuple(wishes)


def may_be(of_slot: Sequence[Choice], apart: bool) -> bool:
    """Whether a slot is cut apart from its partner: as wished, if it can be."""
    return apart if any(choice.apart == apart for choice in of_slot) else not apart


def _choice_in(of_slot: Sequence[Choice], zone: int, pose: Pose) -> int | None:
    for at, choice in enumerate(of_slot):
        if choice.zone == zone and choice.variant.pose == pose:
            return at
    return None
