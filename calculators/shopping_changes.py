"""What has changed since a garment was put on the list?

With each entry of a list the amounts are kept as they were told then, each rounded as the shop cut: for a cloth the
length by the metre in mm and by the yard in eighths, for a notion the same or a number. Here they are held against
what the calculators say now, for the same choices. Options and words that are no longer there are named, and what is
reckoned with in their place.

>>> then_and_now("Cloth", (1350, 12), (1400, 13)).text
'Cloth: 1.35 m then, 1.40 m now.'
>>> then_and_now("Cloth", (1350, 12), None).text, then_and_now("Cloth", None, (700, 7)).text
('Cloth: 1.35 m then, no amount now.', 'Cloth: no amount then, 0.70 m now.')
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .conditions import SIZE
from .fragments import Fragment, Said, joined, quoted, say
from .mending import choice_fragments
from .notions import count_of, for_each
from .request import Request, mapping
from .shopping_items import Item, edition_said
from .spread import spread_out
from .units import MM_PER_M, Shown, buy_mm, eighth_yards, mixed

Amount = tuple[int, ...]
"""A length to buy in mm and in eighths of a yard, or a number of things alone."""

MOST_MM = 1_000_000
"""No amount of a list is larger; what is, was not written by it. Our choice."""


def amounts_now(request: Request) -> dict[str, dict[str, Amount]]:
    """What is bought for one entry alone, as the shop cuts: by cloth and by notion."""
    cloths: dict[str, Amount] = {}
    notions: dict[str, Amount] = {}
    for cloth in request.sheet["cloths"]:
        spread = spread_out(request, cloth)
        if spread.demand and not spread.refused and spread.answer is not None:
            cloths[cloth["name"]] = (spread.buy_mm(spread.answer), spread.eighth_yards(spread.answer))
    for notion in request.sheet["notions"]:
        each = for_each(request, notion)
        count = count_of(each)
        if any(one.cut is not None for one in each):
            total_mm = sum(one.total_mm for one in each)
            notions[notion["name"]] = (buy_mm(total_mm), eighth_yards(total_mm))
        elif count is not None:
            notions[notion["name"]] = (count,)
    return {"cloths": cloths, "notions": notions}


def changes_fragment(item: Item) -> Fragment:
    """Fragment `item.<id>.changes`: what is not as it was; in its data the amounts and the edition as they are now."""
    name, depends_on = f"item.{item.id}.changes", (item.on_its_own,)
    if item.request is None or item.as_told is None:
        return Fragment(name=name, kind="sentence", depends_on=depends_on)
    sheet = item.request.sheet
    now = amounts_now(item.as_told)
    sentences = [edition_said(item.asked, sheet["edition"]), *_options(item), *_amounts(item, now)]
    data = {
        "edition": sheet["edition"],
        "now": {part: {key: list(one) for key, one in each.items()} for part, each in now.items()},
        "choices": {key: taken for key, taken in item.request.chosen.items() if key != SIZE},
    }
    said = joined(sentences)
    return Fragment(name=name, kind="warning" if said.html else "sentence", said=said, data=data, depends_on=depends_on)


def _options(item: Item) -> list[Said]:
    """Options that are gone, words that are no longer offered, and of an older edition what nobody was asked then."""
    request = item.request
    if request is None or not mapping(item.asked.get("choices")):
        return []
    known = {choice["name"]: choice for choice in request.sheet["choices"]}
    gone = [say(f"The option {quoted(name, 60)} is no longer there.") for name in request.words if name not in known]
    unlike = [one.said for one in choice_fragments(request) if one.kind == "problem"]
    new = []
    older = bool(edition_said(item.asked, request.sheet["edition"]).html)
    for name, taken in request.chosen.items():
        choice = known.get(name)
        if older and choice is not None and name not in request.words:
            title = next(one["title"] for one in choice["alternatives"] if one["name"] == taken)
            new.append(say(f"{choice['title']} was not asked then; reckoned with “{title}”."))
    return [*gone, *unlike, *new]


def _amounts(item: Item, now: Mapping[str, Mapping[str, Amount]]) -> list[Said]:
    """Amounts that are not as they were; nothing where none was kept."""
    was, request = mapping(item.asked.get("was")), item.request
    found: list[Said] = []
    for part in ("cloths", "notions"):
        told = {key: amount for key, amount in ((key, _kept(one)) for key, one in mapping(was.get(part)).items())
                if amount is not None}  # fmt: skip
        if not mapping(was.get(part)) or request is None:
            continue
        titles = {one["name"]: one["title"] for one in request.sheet[part]}
        for key in dict.fromkeys([*titles, *told]):
            then, today = told.get(key), now[part].get(key)
            if then != today:
                found.append(then_and_now(titles.get(key, quoted(key, 60)), then, today))
    return found


def _kept(one: Any) -> Amount | None:
    """An amount as it was kept; None for what can't be one."""
    if not isinstance(one, list) or not 1 <= len(one) <= 2:
        return None
    whole = all(isinstance(number, int) and not isinstance(number, bool) and 0 <= number <= MOST_MM for number in one)
    return tuple(one) if whole else None


def then_and_now(title: str, then: Amount | None, now: Amount | None) -> Said:
    """One amount as it was and as it is."""
    return say(f"{title}: ", _words(then), " then, ", _words(now), " now.")


def _words(amount: Sequence[int] | None) -> Shown | str:
    if amount is None:
        return "no amount"
    if len(amount) == 1:
        return str(amount[0])
    return Shown(f"{amount[0] / MM_PER_M:.2f} m", f"{mixed(amount[1], 8)} yd")
