"""Would wider cloth save some?

Said where cloth of a wider width that the pattern lists takes much less to buy, in the same way of laying, after wash
and rounding. Of these widths the one that takes least is named, of equal ones the narrowest. A narrower width is never
proposed.

>>> worth_saying(1300, 1100), worth_saying(900, 800), worth_saying(600, 500)
(True, False, True)
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .fragments import Fragment, say
from .laid import Laid
from .request import Request
from .spread import Spread, laid_on, spread_out
from .units import MM_PER_M, Shown, mixed, width
from .wash import washed_width_mm
from .why import OURS, why_fragment
from .why_together import Reason

LEAST_SAVING_MM = 200
LEAST_SHARE_PERCENT = 15
"""A saving is said from 20 cm or 15 % on. Our choice."""


def worth_saying(buy_mm: int, wider_buy_mm: int) -> bool:
    """Whether so much less is worth a sentence. Arguments: what is bought now, and on wider cloth, in mm."""
    saves_mm = buy_mm - wider_buy_mm
    return saves_mm >= LEAST_SAVING_MM or saves_mm * 100 >= LEAST_SHARE_PERCENT * buy_mm > 0


def wider_fragments(request: Request) -> list[Fragment]:
    """Fragments `cloth.<cloth>.wider` with their `why`, silent where nothing is worth saying.

    Argument: a request whose size is known.
    """
    return [part for cloth in request.sheet["cloths"] for part in wider_of(request, cloth)]


def best_wider(request: Request, cloth: Mapping[str, Any], spread: Spread) -> tuple[int, Laid] | None:
    """The wider of the listed widths, in mm, on which least is bought, and its lay; None where none saves anything."""
    answer, best = spread.answer, None
    if answer is None:
        return None
    least_mm = spread.buy_mm(answer)
    for wide_mm in sorted(int(one) for one in cloth["widths_mm"] if one > spread.width_mm):
        laid, _ = laid_on(request.sheet, cloth, spread, spread.way, washed_width_mm(wide_mm, spread.wash))
        if laid is not None and spread.buy_mm(laid) < least_mm:
            best, least_mm = (wide_mm, laid), spread.buy_mm(laid)
    return best


def wider_of(request: Request, cloth: Mapping[str, Any]) -> list[Fragment]:
    """The fragments of one cloth."""
    spread, name = spread_out(request, cloth), f"cloth.{cloth['name']}.wider"
    depends_on = spread.amount_depends_on
    silent = [Fragment(name=name, kind="sentence", depends_on=depends_on), why_fragment(name, [], depends_on, {})]
    answer, best = spread.answer, best_wider(request, cloth, spread)
    if answer is None or best is None:
        return silent
    wide_mm, laid = best
    buy_mm, wider_buy_mm = spread.buy_mm(answer), spread.buy_mm(laid)
    if not worth_saying(buy_mm, wider_buy_mm):
        return silent
    now = Shown(f"{buy_mm / MM_PER_M:.2f} m", f"{mixed(spread.eighth_yards(answer), 8)} yd")
    then = Shown(f"{wider_buy_mm / MM_PER_M:.2f} m", f"{mixed(spread.eighth_yards(laid), 8)} yd")
    yards = spread.eighth_yards(answer) - spread.eighth_yards(laid)
    less = Shown(f", {(buy_mm - wider_buy_mm) / MM_PER_M:.2f} m less", f", {mixed(yards, 8)} yd less" if yards else "")
    for_both = " for both" if spread.alone else ""
    said = say("Of cloth ", width(wide_mm), " wide, ", then, f" would do{for_both}", less, ".")
    reasons = [
        Reason(said=say("On ", width(spread.width_mm), ": ", now)),
        Reason(said=say("On ", width(wide_mm), ", laid in the same way: ", then)),
        Reason(said=say("Said where it saves ", Shown("20 cm", "8 in"), f" or {LEAST_SHARE_PERCENT} %; of the widths "
                        "that were laid out, the one that takes least"), source=OURS),
    ]  # fmt: skip
    data = {"cloth": cloth["name"], "width_mm": wide_mm, "buy_mm": wider_buy_mm, "saves_mm": buy_mm - wider_buy_mm}
    return [
        Fragment(name=name, kind="figure", said=said, data=data, depends_on=depends_on),
        why_fragment(name, reasons, depends_on, data),
    ]
