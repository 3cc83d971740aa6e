"""Why is there no lay: is the cloth too narrow, or was none laid for it?

>>> back = {"id": "back", "mode": "fold", "narrowest_mm": {"92": {"folded": 620, "flat": 310}}}
>>> narrowest_mm({"items": [back]}, ["back"], "folded", "92")
620
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Any

from .fragments import NOTHING, Said, joined, say
from .garments import garments
from .laid import answering, cut_in, lay_rows
from .request import Request, Sheet
from .spread import Spread
from .stripe_words import not_in_step
from .strips import SELVEDGE_MM
from .units import width, width_up
from .wash import unwashed_width_mm
from .ways import OTHER_WAYS, WIDE_ENOUGH, way_words

FOLD_STEP_MM = 5
"""Cloth is folded over by whole half centimetres, as the lay engine does it."""

TOGETHER = "no amount, because these options do not go together."


def narrowest_mm(sheet: Sheet, demand: Collection[str], way: str, size: str) -> int:
    """The narrowest bolt, in mm with both selvedges, on which each piece alone fits.

    Where cloth is folded over in part: on which they fit beside each other.
    """
    items = [item for item in sheet["items"] if item["id"] in demand]
    each_mm = [item["narrowest_mm"][size][way] for item in items]
    least_mm: int = max(each_mm)
    if way != "part-folded":
        return least_mm
    # Folded over is as much as one piece needs that is cut double; what is wider lies beside it.
    halves_mm = max((mm for mm, item in zip(each_mm, items, strict=True) if item["mode"] == "fold"), default=0)
    for over_mm, item in zip(each_mm, items, strict=True):
        if item["mode"] == "single" or over_mm < halves_mm:
            continue
        folded_over_mm = -(-over_mm // (2 * FOLD_STEP_MM)) * FOLD_STEP_MM
        beside_mm = max((-(-mm // 2) - SELVEDGE_MM for mm in each_mm if mm > over_mm), default=0)
        least_mm = min(least_mm, 2 * folded_over_mm + SELVEDGE_MM + beside_mm)
    return least_mm


def why_not_both(request: Request, cloth: Mapping[str, Any], spread: Spread) -> tuple[str, Said, dict[str, Any]]:
    """As :func:`why_not`; of two garments the one that needs the wider cloth is told, by its size."""
    if not spread.alone:
        return why_not(request, cloth, spread)
    found = [
        (one, *why_not(wanted, cloth, replace(one, laid=spread.laid)))
        for wanted, one in zip(garments(request), spread.alone, strict=True)
        if one.demand and one.answer is None
    ]
    one, code, said, data = max(found, key=lambda each: each[3].get("narrowest_mm", 0))
    return code, say(f"size {one.sizes[0]}: ", said), {**data, "size": one.sizes[0]}


def why_not(request: Request, cloth: Mapping[str, Any], spread: Spread) -> tuple[str, Said, dict[str, Any]]:
    """Code, sentence and data for cloth on which no published lay holds the pieces."""
    sheet, name, way, size = request.sheet, cloth["name"], spread.way, request.size or ""
    if not cut_in(sheet, spread.demand, size):
        return "not-reckoned", say(TOGETHER), {}
    rows = lay_rows(sheet, name, way, spread.lays_for, size)
    if spread.stripes.listed and not any(rows):
        return "not-in-step", not_in_step(cloth, spread), {}
    sets = answering(sheet["sets"].get(name, []), spread.demand)
    laid_at = sorted(rows[index][0][0] for index in sets if index < len(rows) and rows[index])
    least_mm = narrowest_mm(sheet, spread.demand, way, size)
    if way == "part-folded" and laid_at:
        least_mm = min(least_mm, laid_at[0])  # two of a kind may come from one place, which the sheet does not tell
    data = {"narrowest_mm": least_mm, "reckoned_from_mm": laid_at[0] if laid_at else None}
    # Rounded up, so that whoever goes by it is not sent away again; and on the bolt, as the width is typed.
    laid_on = width_up(unwashed_width_mm(laid_at[0], spread.wash)) if laid_at else ""
    from_on = say("amounts are reckoned from ", laid_on, " on") if laid_at else say()
    works_so = next((one for one in WIDE_ENOUGH if spread.laid.get(one) is not None), "")
    other_works = say(f"{OTHER_WAYS[works_so]} it is wide enough." if works_so else "")
    shrinks = spread.wash.across_tenths > 0
    washed = say(", as good as ", width(spread.lay_width_mm), " after the wash,") if shrinks else NOTHING
    before = ", before the wash," if shrinks else ""
    if spread.lay_width_mm < least_mm:
        works = width_up(unwashed_width_mm(least_mm, spread.wash))
        narrow = say(width(spread.width_mm), washed, f" is too narrow, {way_words(spread.kinds, way)}. "
                     f"The narrowest that works{before} is ", works)  # fmt: skip
        return "too-narrow", joined([say(narrow, "; " if laid_at else "", from_on, "."), other_works]), data
    if laid_at and spread.lay_width_mm < laid_at[0]:
        fits = say("the pieces fit on ", width(spread.width_mm), washed, " but " if shrinks else ", but ", from_on,
                   before.removesuffix(","), ".")  # fmt: skip
        return "narrower-than-laid", joined([fits, other_works]), data
    return "not-reckoned", joined([say(TOGETHER), other_works]), {}
