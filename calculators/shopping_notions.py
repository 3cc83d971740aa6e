"""What else is to be bought for all garments of a list together, and how many?

Notions are one purchase where their kinds and their size are alike: the width of elastic and tape, the diameter of
buttons and snaps. What has no size (thread, a cord) is one purchase where it has the same name. Lengths are added
before they are rounded up once; pieces are counted.

>>> key_of({"kinds": ["elastic"], "width_mm": 20, "diameter_mm": None, "title": "Elastic"})
'elastic-w20'
>>> key_of({"kinds": ["snap", "button"], "width_mm": None, "diameter_mm": 12.5, "title": "Closure"})
'button-snap-d12.5'
>>> key_of({"kinds": ["thread"], "width_mm": None, "diameter_mm": None, "title": "Thread, 200 m"})
'thread-thread-200-m'
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from .elastic import NotionJson
from .fragments import Fragment, Said, counted, joined, say
from .notions import OfOne, count_of, for_each
from .shopping_cloths import ITEMS
from .shopping_items import Item
from .units import buy_mm, eighth_yards, lignes, measured, metres

LONGEST_KEY = 80
"""Of a name in a key, in signs; our choice."""


@dataclass(frozen=True, kw_only=True)
class Taken:
    """A notion that one entry of the list takes: for each of its garments how many and how long."""

    item: Item
    notion: NotionJson
    each: tuple[OfOne, ...]

    @property
    def total_mm(self) -> float:
        """The length of all pieces, in mm."""
        return sum(one.total_mm for one in self.each)


def key_of(notion: NotionJson) -> str:
    """What tells whether two notions are one purchase: kinds and size, or kinds and name."""
    kinds = "-".join(sorted(notion["kinds"]))
    width_mm, diameter_mm = notion["width_mm"], notion["diameter_mm"]
    if width_mm is not None or diameter_mm is not None:
        sizes = ((f"-w{width_mm:g}" if width_mm is not None else ""), (f"-d{diameter_mm:g}" if diameter_mm else ""))
        return kinds + "".join(sizes)
    slug = re.sub(r"[^a-z0-9]+", "-", notion["title"].lower()).strip("-")
    return f"{kinds}-{slug}"[:LONGEST_KEY]


def notion_fragments_of(items: Sequence[Item]) -> list[Fragment]:
    """Fragments `buy.notion.<key>` and its `.whose`, in the order in which the list first takes them.

    What is bought by length and what is counted are never one purchase.
    """
    groups: dict[str, list[Taken]] = {}
    for item in items:
        if item.request is None:
            continue
        for notion in item.request.sheet["notions"]:
            each = tuple(for_each(item.request, notion))
            if each:
                by_length = "" if any(one.cut is not None for one in each) else "-counted"
                groups.setdefault(key_of(notion) + by_length, []).append(Taken(item=item, notion=notion, each=each))
    return [fragment for key, taken in groups.items() for fragment in _purchase(key, taken)]


def _purchase(key: str, taken: Sequence[Taken]) -> list[Fragment]:
    name, first = f"buy.notion.{key}", taken[0].notion
    title = " / ".join(dict.fromkeys(one.notion["title"] for one in taken))
    data: dict[str, Any] = {"key": key, "kinds": list(first["kinds"])}
    whose = joined((_whose(one) for one in taken), between="; ")
    if key.endswith("-counted"):
        count = count_of([one for each in taken for one in each.each])
        said = say(f"{title}: ", counted(count)) if count is not None else say(title)
        data["count"] = count
        whose = joined([whose, _lignes(first)], between=". ")
    else:
        total_mm = sum(one.total_mm for one in taken)
        said = say(f"{title}: ", metres(total_mm))
        data |= {"buy_mm": buy_mm(total_mm), "buy_eighth_yards": eighth_yards(total_mm)}
    return [
        Fragment(name=name, kind="figure", said=said, data=data, depends_on=(ITEMS,)),
        Fragment(name=f"{name}.whose", kind="sentence", said=whose, depends_on=(ITEMS,)),
    ]


def _whose(taken: Taken) -> Said:
    """Who takes it, and how much: pieces that are cut to a length, or a number."""
    cuts = [one for one in taken.each if one.cut is not None]
    if not cuts:
        count = count_of(taken.each)
        return say(taken.item.named, f": {count}" if count is not None else "")
    pieces = [
        say(f"{one.count} pieces of " if one.count not in (None, 1) else "", measured(one.cut.total_mm))
        for one in cuts
        if one.cut is not None
    ]
    return say(f"{taken.item.named}: ", joined(pieces, between=" and "))


def _lignes(notion: NotionJson) -> Said:
    """The size of a button in ligne; nothing for what is no button."""
    if notion["diameter_mm"] is None or "button" not in notion["kinds"]:
        return say()
    return say(f"{notion['diameter_mm']:g} mm is {lignes(notion['diameter_mm'])} ligne")
