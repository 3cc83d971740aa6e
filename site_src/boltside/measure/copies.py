"""Which copies does a piece have, what does each carry, and which of them come out as the outline is drawn?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boltside.pattern import Copy


def merged_copies(own: Sequence[Copy], of_roles: Sequence[Copy]) -> tuple[Copy, ...]:
    """The copies of a piece that plays roles, each name once, with `drawn` settled for all of them.

    Arguments: what the piece says of its copies, and what the roles add; both as far as they hold. What is carried
    adds up. Which copies are as drawn is the piece's own word, for only its outline knows; else the role's; else the
    first half of the names are (of two: the first).
    """
    names = list(dict.fromkeys(copy.name for copy in [*own, *of_roles]))
    said = {copy.name for copy in own if copy.drawn} or {copy.name for copy in of_roles if copy.drawn}
    drawn = said or set(names[: (len(names) + 1) // 2])
    merged = []
    for name in names:
        same = [copy for copy in [*own, *of_roles] if copy.name == name]
        carries = [thing for copy in same for thing in copy.carries]
        kept = tuple(thing for at, thing in enumerate(carries) if thing not in carries[:at])
        merged.append(replace(same[0], carries=kept, drawn=name in drawn))
    return tuple(merged)
