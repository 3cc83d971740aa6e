"""What is said of stripes and checks: what was counted for them, by which of two ways, and what to mind.

A listed repeat is answered by lays that keep the marks of all pieces in step; a typed one by the rule of thumb, a
repeat for each row of pieces along the length.

>>> row_words(2), row_words(1)
('2 rows', '1 row')
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .fragments import NOTHING, Fragment, Said, joined, quoted, say
from .laid import Laid
from .nap import NAP_WORDS, WITH
from .repeat import repeat_extra_mm
from .spread import ONE_LAYER, Spread
from .stripes import PLAIN, may_be_striped
from .units import measured
from .wash import WHOLE_TENTHS
from .ways import OTHER_WAYS, WIDE_ENOUGH, way_words

ONE_WAY = "all one way, so that no piece is turned head to foot"
RULE_SOURCE = "a rule of thumb, by a worked example: 2 rows × 4 1/4 in = 8 1/2 in"
UNEVEN_SOURCE = "a textbook"
ANOTHER = "“Another”"
"""The answer under which a repeat is typed, as the page calls it."""
NEAR_MM = 0.5
"""A typed repeat that is so near to a listed one is meant to be that one. Our choice."""


def row_words(rows: int) -> str:
    """A number of rows of pieces."""
    return f"{rows} row" if rows == 1 else f"{rows} rows"


def counted_rows(spread: Spread, laid: Laid) -> Said:
    """The rule of thumb with its figures: 2 rows × 12 cm."""
    return say(f"{row_words(laid.rows)} ×\u00a0", measured(spread.stripes.along_mm))


def in_note(spread: Spread) -> Said:
    """Behind the width in the note's line: nap, or the repeat that was counted."""
    stripes = spread.stripes
    nap = ", with nap" if spread.nap_used == WITH and not stripes.one_layer else ""
    if stripes.how == PLAIN or stripes.missing:
        return say(nap)
    uneven = "uneven " if stripes.uneven else ""
    step = " in step" if stripes.listed else ""
    return say(f"{nap}, {uneven}repeat of ", measured(stripes.along_mm), step)


def laid_words(spread: Spread) -> Said:
    """Behind the way of laying: with nap or without, all one way, in step with a listed repeat."""
    stripes = spread.stripes
    nap = "" if spread.nap == "never" else f", {NAP_WORDS[spread.nap_used]}"
    if stripes.one_layer and spread.nap != "always":
        nap = f", {ONE_WAY}"
    if not stripes.listed:
        return say(nap)
    return say(f"{nap}, with its notches in step every ", measured(stripes.along_mm))


def rule_words(spread: Spread, laid: Laid) -> Said:
    """What the rule of thumb adds, for the sentence about what the pieces take; nothing where it was not used."""
    if not spread.stripes.each_row_mm or not laid.rows:
        return NOTHING
    extra_mm = repeat_extra_mm(spread.stripes.each_row_mm, laid.rows)
    return say(", the repeat ", measured(extra_mm), " more (rule of thumb, ", counted_rows(spread, laid), ")")


def repeat_fragments(cloth: Mapping[str, Any], spread: Spread) -> list[Fragment]:
    """Fragments `cloth.<cloth>.repeat`, for the note: which of two ways was used, and `cloth.<cloth>.repeat.how`.

    None for cloth that can't have stripes.
    """
    if not may_be_striped(cloth["kinds"]):
        return []
    name, stripes, answer = f"cloth.{cloth['name']}.repeat", spread.stripes, spread.answer
    said, how = NOTHING, NOTHING
    if spread.demand and not spread.refused and stripes.missing:
        said = say("Stripes or checks are not counted yet.")
        how = say("Not counted yet: type how far it is along the cloth until the pattern starts again.")
    elif answer is not None and stripes.listed:
        said = say("Laid with its notches in step: “", stripes.title, "”.")
        how = joined([_one_layer(spread), _when_folded(spread), _as_cut(spread)])
    elif answer is not None and stripes.each_row_mm:
        said = say("By the rule of thumb: ", counted_rows(spread, answer), ".")
        if not answer.rows:
            said = say("By the rule of thumb this repeat takes no more.")
        how = joined([_one_layer(spread), _by_the_rule(spread, answer), _made_for_it(cloth, spread)])
    data = {"cloth": cloth["name"]}
    return [
        Fragment(name=name, kind="sentence", said=said, data=data, depends_on=spread.depends_on),
        Fragment(name=f"{name}.how", kind="sentence", said=how, data=data, depends_on=spread.depends_on),
    ]


def repeat_data(spread: Spread, laid: Laid) -> dict[str, Any]:
    """What the note's line tells of the repeat, as plain JSON; nothing for plain cloth."""
    stripes = spread.stripes
    if stripes.how == PLAIN or stripes.missing:
        return {}
    return {
        "repeat": {
            "how": "in-step" if stripes.listed else "rule",
            "along_mm": stripes.along_mm,
            "rows": laid.rows,
            "extra_mm": repeat_extra_mm(stripes.each_row_mm, laid.rows),
        }
    }


def _one_layer(spread: Spread) -> Said:
    if not spread.stripes.one_layer:
        return NOTHING
    instead = "" if spread.way_asked == spread.way else " So it is reckoned laid flat, whatever is chosen above."
    return say(ONE_LAYER, instead)


def _when_folded(spread: Spread) -> Said:
    """What to mind where two layers are cut at once: the lower one is not seen. Common practice, and symmetry: a fold
    mirrors the checks, so they only meet where it lies on the middle of one or of the space between two."""
    if spread.way == "flat":
        return NOTHING
    on = "check on check" if spread.stripes.across_mm is not None else "stripe on stripe"
    pinned = say(f"Pin the two layers together {on} before you cut.")
    if spread.stripes.across_mm is None:
        return pinned
    folds = "both folds run" if spread.way == "middle" else "the fold runs"
    return joined([say(f"Fold it so that {folds} along the middle of a check."), pinned])


def _by_the_rule(spread: Spread, laid: Laid) -> Said:
    if not laid.rows:
        return say("The pieces lie side by side, and moving them all alike takes no more cloth.")
    extra_mm = repeat_extra_mm(spread.stripes.each_row_mm, laid.rows)
    sum_up = say(", ", measured(extra_mm), " in all") if laid.rows > 1 else NOTHING
    return say("A rule of thumb, not a layout: one repeat more for each row of pieces along the cloth, here ",
               counted_rows(spread, laid), sum_up, ". Meant is the repeat as you measure it on the bolt.")  # fmt: skip


def _made_for_it(cloth: Mapping[str, Any], spread: Spread) -> Said:
    """That the pattern has layouts for just the repeat that was typed."""
    stripes = spread.stripes
    for one in cloth.get("repeats", ()):
        if one["even"] is not stripes.uneven and abs(one["along_mm"] - stripes.along_mm) <= NEAR_MM:
            return say(f"Layouts were made for such a repeat: if it fits, choose {quoted(one['title'], 80)} instead.")
    return NOTHING


def _as_cut(spread: Spread) -> Said:
    """That a listed repeat is meant as the cloth is cut, and what it then is on the bolt."""
    stripes, wash = spread.stripes, spread.wash
    cut = "Meant is the repeat as it is when you cut"
    if not wash.counts:
        return say(f"{cut}; if yours is another, choose {ANOTHER} and type it.")
    on_bolt: list[Any] = []
    if wash.along_tenths:
        on_bolt += [measured(stripes.along_mm * WHOLE_TENTHS / (WHOLE_TENTHS - wash.along_tenths)), " along it"]
    if stripes.across_mm is not None and wash.across_tenths:
        across = measured(stripes.across_mm * WHOLE_TENTHS / (WHOLE_TENTHS - wash.across_tenths))
        on_bolt += [" and " if on_bolt else "", across, " across"]
    if not on_bolt:
        return say(f"{cut}; if yours is another, choose {ANOTHER} and type it.")
    return say(f"{cut}, after the wash, for the repeat shrinks too. On the bolt that is every ", *on_bolt,
               f"; if yours is another, choose {ANOTHER} and type it.")  # fmt: skip


def not_in_step(cloth: Mapping[str, Any], spread: Spread) -> Said:
    """Why there is no lay in step, and in which way there is one."""
    stripes = spread.stripes
    why = say(ONE_LAYER) if stripes.one_layer else NOTHING
    title = quoted(stripes.title, 80)
    none = say(f"no layout keeps {title} in step, {way_words(spread.kinds, spread.way)}.")
    works = next((way for way in WIDE_ENOUGH if way in cloth["ways"] and spread.laid.get(way) is not None), "")
    other = say(f"{OTHER_WAYS[works]} there is one.") if works else say(f"Choose {ANOTHER} and type it: then it is "
                                                                        "reckoned by the rule of thumb.")  # fmt: skip
    return joined([none, why, other])
