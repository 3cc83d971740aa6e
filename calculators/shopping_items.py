"""Which garments are on a shopping list, and what is each of them for?

A list comes as plain JSON: `{"items": [ITEM], "cut": "fine"}`, each item a request as the panel asks it with `id`,
`edition` and `was` (the amounts as they were told when it was put on the list) beside it; for each cloth perhaps a
`bolt`: cloths that the buyer cuts from one piece have the same word there. Nothing here refuses; what makes no sense
is left out or said in words.

>>> read_items({"items": [{"id": "a1", "pattern": "cap"}, {"id": "<b>"}, 7]}, {}, {})[0].named
'“cap”'
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .cloth import cloth_fragments
from .fragments import NOTHING, Fragment, Said, joined, quoted, say
from .garments import sizes_of, sizes_said
from .mending import choice_fragments, choices_fragment
from .panel import wrong_size
from .problems import problem
from .request import Request, Sheet, mapping, read_request, word
from .shop_cuts import CUT
from .spread import Spread, spread_out
from .stripe_words import laid_words
from .units import width
from .wash import WASHED, losses
from .ways import way_words

MOST_ITEMS = 60
"""More garments than anybody sews from one errand; our choice, so that no list keeps a phone busy for minutes."""

_ID = re.compile(r"[a-z0-9]{1,16}")
_BOLT = re.compile(r"[a-z0-9.-]{1,90}")


@dataclass(frozen=True, kw_only=True)
class Item:
    """One entry of the list: a garment, or two of one pattern cut at once.

    ``request`` is what is asked, with the list's own way of cutting; ``as_told`` the same with that of the day when it
    was put on the list. Both are None where the pattern is not opened, or its size or options can't be had: then
    ``code`` and ``said`` say why. ``named`` is the garment in words.
    """

    id: str
    named: str
    asked: Mapping[str, Any]
    request: Request | None = None
    as_told: Request | None = None
    code: str = ""
    said: Said = NOTHING

    def bolt(self, cloth: str) -> str:
        """From which piece of cloth this one is cut: the buyer's word, else one of its own."""
        told = word(mapping(mapping(self.asked.get("cloths")).get(cloth)).get("bolt"))
        return told if _BOLT.fullmatch(told) else self.own_bolt(cloth)

    def own_bolt(self, cloth: str) -> str:
        """The name of a piece of cloth from which nothing else is cut."""
        return f"{self.id}.{cloth}"

    @property
    def on_its_own(self) -> str:
        """The name under which its fragments depend on it."""
        return f"item.{self.id}"


def read_items(
    asked: Mapping[str, Any], opened: Mapping[str, Sheet], shop: Mapping[str, Mapping[str, Any]]
) -> list[Item]:
    """The list's entries, each id once.

    Arguments: the list; the opened sheets by pattern; what the shop says of each of its patterns, opened or not.
    """
    listed = asked.get("items")
    found: dict[str, Item] = {}
    for one in listed[:MOST_ITEMS] if isinstance(listed, list) else ():
        name = word(mapping(one).get("id"))
        if _ID.fullmatch(name) and name not in found:
            found[name] = _item(name, one, asked, opened, shop)
    return list(found.values())


def _item(
    name: str,
    one: Mapping[str, Any],
    asked: Mapping[str, Any],
    opened: Mapping[str, Sheet],
    shop: Mapping[str, Mapping[str, Any]],
) -> Item:
    pattern = word(one.get("pattern"))
    sheet = opened.get(pattern)
    if sheet is None:
        known = pattern in shop
        title = word(mapping(shop.get(pattern)).get("name")) or quoted(pattern)
        said = say(f"The data of {title} are not here, so nothing of it is counted. They need a connection.")
        if not known:
            said = say(f"This shop has no pattern {quoted(pattern)}, so nothing of it is counted.")
        size = word(one.get("size"))
        code = "not-open" if known else "unknown-pattern"
        return Item(id=name, named=f"{title}, size {size[:20]}" if known and size else title, asked=one, code=code,
                    said=said)  # fmt: skip
    request = read_request(sheet, {**one, CUT: asked.get(CUT)})
    wrong = wrong_size(request)
    if wrong is not None:
        said = joined([wrong.said, edition_said(one, sheet["edition"])])
        return Item(id=name, named=sheet["name"], asked=one, code=wrong.data["code"], said=said)
    named = f"{sheet['name']}, {sizes_said(sizes_of(request))}"
    forbidden = choices_fragment(request)
    if forbidden.kind == "problem":
        said = joined([forbidden.said, edition_said(one, sheet["edition"])])
        return Item(id=name, named=named, asked=one, code=forbidden.data["code"], said=said)
    return Item(id=name, named=named, asked=one, request=request, as_told=read_request(sheet, one))


def edition_said(one: Mapping[str, Any], now: str) -> Said:
    """That an entry was told for another edition of its pattern than the shop has; nothing where it is the same.

    >>> edition_said({"edition": "1"}, "2").text, edition_said({}, "2").text
    ('This was told for edition “1”; the shop now has edition “2”.', '')
    """
    then = word(one.get("edition"))
    if not then or then == now:
        return NOTHING
    return say(f"This was told for edition {quoted(then)}; the shop now has edition {quoted(now)}.")


def item_fragments(item: Item) -> list[Fragment]:
    """Fragments `item.<id>` (which garment, or why it is not counted), its `.options` and its `.cloth` in words."""
    name, depends_on = f"item.{item.id}", (item.on_its_own,)
    if item.request is None:
        said = say(f"{item.named}: ", item.said)
        return [problem(name, item.code, said, depends_on, named=item.named)]
    request = item.request
    # A word that is no longer offered is told among the changes.
    options = [one.said.text for one in choice_fragments(request) if one.kind != "problem" and one.said.html]
    cloths = [cloth_words(request, cloth, spread_out(request, cloth)) for cloth in request.sheet["cloths"]]
    data = {"named": item.named, "edition": request.sheet["edition"]}
    return [
        Fragment(name=name, kind="sentence", said=say(item.named), data=data, depends_on=depends_on),
        Fragment(name=f"{name}.options", kind="sentence", said=say("; ".join(options)), depends_on=depends_on),
        Fragment(name=f"{name}.cloth", kind="sentence", said=joined(cloths), depends_on=depends_on),
    ]


def cloth_words(request: Request, cloth: Mapping[str, Any], spread: Spread) -> Said:
    """One cloth as the buyer chose it, a sentence; nothing where none of it is needed, or why it can't be."""
    if not spread.demand:
        return NOTHING
    if spread.refused or spread.answer is None:
        return no_amount(request, cloth["name"])
    washed = f"; shrinks {losses(spread.wash)}" if spread.wash.counts else ""
    if spread.wash.how == WASHED:
        washed = "; washed already"
    way = way_words(spread.kinds, spread.way)
    return say(f"{cloth['title']}: ", width(spread.width_mm), f" wide, {way}", laid_words(spread), f"{washed}.")


def no_amount(request: Request, cloth: str) -> Said:
    """Why there is no amount of this cloth, in the words of its own calculator."""
    found = (one.said for one in cloth_fragments(request) if one.name == f"cloth.{cloth}" and one.kind == "problem")
    return next(found, NOTHING)
