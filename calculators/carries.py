"""Which copy of a piece carries what? Left and right are always the wearer's.

>>> copies = [{"name": "wearers-left", "carries": [{"what": "buttonholes", "when": [{"overlap": ["left"]}]}]}]
>>> carried({"copies": copies}, {"overlap": "left"}), carried({"copies": copies}, {"overlap": "right"})
([('wearers-left', ['buttonholes'])], [])
>>> carried_words({"copies": copies}, {"overlap": "left"})
["wearer's left (on your right as you look at the wearer) carries the buttonholes"]
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .conditions import ConditionJson, holds

SIDES = {
    "wearers-left": ("wearer's left", "on your right as you look at the wearer"),
    "wearers-right": ("wearer's right", "on your left as you look at the wearer"),
}
"""A copy's name in words, and where it is seen from outside, because a reader facing the garment sees it swapped."""

ItemJson = Mapping[str, Any]


def copy_words(name: str, *, seen: bool = False) -> str:
    """A copy's name as a reader says it; ``seen`` adds on which side an onlooker sees it."""
    if name not in SIDES:
        return name.replace("-", " ")
    words, side = SIDES[name]
    return f"{words} ({side})" if seen else words


def carried(item: ItemJson, chosen: Mapping[str, str]) -> list[tuple[str, list[str]]]:
    """The copies that carry something for what was chosen, in the sheet's order, with what they carry."""
    found = []
    for copy in item["copies"]:
        what = [one["what"] for one in copy["carries"] if holds(one["when"], chosen)]
        if what:
            found.append((copy["name"], what))
    return found


def carried_words(item: ItemJson, chosen: Mapping[str, str], *, seen: bool = True) -> list[str]:
    """What each copy carries, as sentences without a full stop."""
    return [
        f"{copy_words(name, seen=seen)} carries the {' and the '.join(one.replace('-', ' ') for one in what)}"
        for name, what in carried(item, chosen)
    ]


def carries_conditions(item: ItemJson) -> list[ConditionJson]:
    """The conditions on which it depends what the copies carry."""
    return [one["when"] for copy in item["copies"] for one in copy["carries"]]
