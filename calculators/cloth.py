"""How much cloth, in the width the shop has? What is said of it.

Which lay answers is asked of `laid`, how the cloth is spread out of `spread`, why there is no lay of `too_narrow`.

>>> less("flat", 250, 2).text, less("flat", 50, 0).text_inch
('Laid flat it takes 0.25 m less.', '')
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .fragments import NOTHING, Fragment, Said, joined, say
from .laid import Laid, reckoned_width_mm
from .lay_named import lay_of
from .problems import problem
from .request import Request
from .spread import Spread, spread_out
from .stripe_words import in_note, laid_words, repeat_data, repeat_fragments, rule_words
from .together_words import for_whom, together_said, wanted_sizes
from .too_narrow import why_not_both
from .typed import WIDEST_USUAL_MM, WIDTH, hint
from .units import BUY_STEP_MM, Shown, metres, mixed, needed, width
from .wash import NOT_COUNTED_YET, USUAL_TENTHS, unwashed_width_mm, wash_words
from .ways import OTHER_WAYS, way_words

NOT_COUNTED = "Shrinkage is not counted."


def cloth_fragments(request: Request) -> list[Fragment]:
    """The fragments of every cloth, and once `cloth.not-counted`. Arguments: a request whose size is known."""
    each = [part for cloth in request.sheet["cloths"] for part in one_cloth(request, cloth)]
    return [*each, not_counted(request)]


def one_cloth(request: Request, cloth: Mapping[str, Any]) -> list[Fragment]:
    """Fragments `cloth.<cloth>` (the note), `cloth.<cloth>.how` (how it was reckoned), `cloth.<cloth>.wash` (what the
    first wash takes), `cloth.<cloth>.less` (another way of laying takes much less), `cloth.<cloth>.repeat` with its
    `how` (what stripes take).

    Arguments: a request whose size is known. A cloth that these choices do not need says nothing.
    """
    spread = spread_out(request, cloth)
    fragments = _one_cloth(request, cloth, spread)
    fragments += [_washing(cloth["name"], spread), _much_less(cloth["name"], spread)]
    return [*fragments, *repeat_fragments(cloth, spread)]


def not_counted(request: Request) -> Fragment:
    """That shrinkage is not counted, or of which of the cloths it is not, as far as they usually shrink.

    As long as nothing is said of any cloth's wash it depends on that alone.
    """
    spreads = [(cloth, spread_out(request, cloth)) for cloth in request.sheet["cloths"]]
    if all(spread.wash.how == NOT_COUNTED_YET and not spread.wash.code for _, spread in spreads):
        silent_on = tuple(sorted(f"wash.{cloth['name']}" for cloth, _ in spreads))
        return Fragment(name="cloth.not-counted", kind="sentence", said=say(NOT_COUNTED), depends_on=silent_on)
    depends_on = tuple(sorted({name for _, spread in spreads for name in spread.depends_on}))
    wanted = [(cloth, spread) for cloth, spread in spreads if spread.demand]
    silent = [
        cloth["title"]
        for cloth, spread in wanted
        if spread.wash.how == NOT_COUNTED_YET and any(USUAL_TENTHS.get(kind, 0) for kind in spread.kinds)
    ]
    said = NOTHING
    if all(spread.wash.how == NOT_COUNTED_YET for _, spread in wanted):
        said = say(NOT_COUNTED)
    elif silent:
        said = say(f"{NOT_COUNTED.removesuffix('.')} for: {', '.join(silent)}.")
    return Fragment(name="cloth.not-counted", kind="sentence", said=said, depends_on=depends_on)


def _one_cloth(request: Request, cloth: Mapping[str, Any], spread: Spread) -> list[Fragment]:
    name = cloth["name"]
    note, how, depends_on = f"cloth.{name}", f"cloth.{name}.how", spread.amount_depends_on
    silent = Fragment(name=how, kind="sentence", depends_on=depends_on)
    nap = {"cloth": name, "nap": spread.nap, "nap_used": spread.nap_used}
    if not spread.demand:
        return [Fragment(name=note, kind="sentence", data=nap, depends_on=depends_on), silent]

    def refuse(code: str, said: Said, **data: Any) -> list[Fragment]:
        titled = say(f"{cloth['title']}: ", said)
        return [problem(note, code, titled, depends_on, **nap, **data), silent]

    if spread.refused:
        return refuse(spread.refused, spread.said)
    answer, way, width_mm = spread.answer, spread.way, spread.width_mm
    if answer is None:
        code, said, reasons = why_not_both(request, cloth, spread)
        least_mm = reasons.get("reckoned_from_mm")
        least_mm = unwashed_width_mm(least_mm, spread.wash) if least_mm else 0
        offer = hint(spread.typed, request.unit, WIDTH, least_mm, WIDEST_USUAL_MM) if least_mm else ""
        return refuse(code, say(said, offer), width_mm=width_mm, way=way, **reasons)

    reckoned_mm = reckoned_width_mm(cloth, spread.lay_width_mm, answer)
    data: dict[str, Any] = nap | {
        "width_mm": width_mm, "reckoned_width_mm": reckoned_mm, "way": way, "needed_mm": answer.length_mm,
        "buy_mm": spread.buy_mm(answer), "buy_eighth_yards": spread.eighth_yards(answer), "set": answer.members,
        "lay": lay_of(spread, name, answer),
        "flat_saves_mm": saves_mm(spread, answer, "flat"),
    }  # fmt: skip
    if set(cloth["ways"]) - {"folded", "flat"}:
        better = better_way(spread, answer)
        data["better_way"] = {"way": better[0], "saves_mm": better[1]} if better else None
    if spread.wash.counts:
        data["washed_width_mm"] = spread.lay_width_mm
        data["before_wash_mm"] = spread.length_mm(answer)
    data |= repeat_data(spread, answer)
    if spread.alone:
        data |= {"sizes": list(wanted_sizes(spread)), "together": spread.together[way]}
    length = metres(spread.length_mm(answer), spread.cuts)
    said = say(f"{cloth['title']}, ", width(width_mm), " wide", in_note(spread), f"{for_whom(spread)}: ", length)
    return [
        Fragment(name=note, kind="figure", said=said, data=data, depends_on=depends_on),
        Fragment(
            name=how,
            kind="sentence",
            said=_how(spread, answer, reckoned_mm),
            data={"cloth": name},
            depends_on=depends_on,
        ),
    ]


def _how(spread: Spread, answer: Laid, reckoned_mm: int) -> Said:
    """How an amount was reckoned: for which width, in which way, what is added, and whether flat takes less."""
    near = "" if reckoned_mm == spread.lay_width_mm else ", the next narrower width"
    way = way_words(spread.kinds, spread.way)
    reckoned = say("Reckoned for ", width(reckoned_mm), near, f", {way}", laid_words(spread), ".")
    rest = "squares the ends, shrinks and rounds up" if spread.wash.along_tenths else "squares the ends and rounds up"
    also = rule_words(spread, answer)
    if spread.alone:
        return joined([reckoned, together_said(spread, answer, also, rest), _offer(spread, answer)])
    needs = say("The pieces take ", needed(answer.length_mm), also, f"; the rest {rest}.")
    return joined([reckoned, needs, _offer(spread, answer)])


def _washing(name: str, spread: Spread) -> Fragment:
    """Fragment `cloth.<cloth>.wash`: what is counted for the first wash, where the buyer says anything of it."""
    said = wash_words(spread.wash, spread.width_mm) if spread.demand and not spread.refused else NOTHING
    wash = spread.wash
    data = {"cloth": name, "wash": wash.how, "along_tenths": wash.along_tenths, "across_tenths": wash.across_tenths}
    return Fragment(name=f"cloth.{name}.wash", kind="sentence", said=said, data=data, depends_on=spread.depends_on)


MUCH_MM = 200
"""What another way of laying saves is told beside the amount itself from here on, as with wider cloth; our choice."""


def _much_less(name: str, spread: Spread) -> Fragment:
    """Fragment `cloth.<cloth>.less`: that another way of laying takes much less, where the amount is read."""
    answer = spread.answer if spread.demand and not spread.refused else None
    better = better_way(spread, answer) if answer is not None else None
    said = _offer(spread, answer) if answer is not None and better is not None and better[1] >= MUCH_MM else NOTHING
    return Fragment(
        name=f"cloth.{name}.less",
        kind="sentence",
        said=said,
        data={"cloth": name},
        depends_on=spread.amount_depends_on,
    )


def saves_mm(spread: Spread, answer: Laid, way: str) -> int:
    """What laying it in this way saves when buying by the metre, in mm, reckoned after wash and rounding; else 0.

    Worth saying from a purchase step on, both of what the lays take and of what is bought.
    """
    other = spread.laid.get(way)
    if spread.way == way or other is None or spread.length_mm(answer) - spread.length_mm(other) < BUY_STEP_MM:
        return 0
    return spread.buy_mm(answer) - spread.buy_mm(other)


def better_way(spread: Spread, answer: Laid) -> tuple[str, int] | None:
    """The other way of laying that saves most, and how much in mm; None where none is worth saying."""
    saving = [(way, saves_mm(spread, answer, way)) for way in OTHER_WAYS if way in spread.laid]
    most = max(saving, key=lambda one: one[1], default=("", 0))
    return most if most[1] > 0 else None


def _offer(spread: Spread, answer: Laid) -> Said:
    better = better_way(spread, answer)
    other = spread.laid.get(better[0]) if better else None
    if better is None or other is None:
        return say()
    return less(better[0], better[1], spread.eighth_yards(answer) - spread.eighth_yards(other))


def less(way: str, less_mm: int, eighths: int) -> Said:
    """That another way of laying takes less: by so many mm, by so many eighths of a yard."""
    laid = OTHER_WAYS[way]
    inch = f"{laid} it takes {mixed(eighths, 8)} yd less." if eighths else ""
    return say(Shown(f"{laid} it takes {less_mm / 1000:.2f} m less.", inch))
