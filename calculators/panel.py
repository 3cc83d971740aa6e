"""Everything of a pattern page's first screen: the whole note, for one size and set of choices."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .choices import decisive
from .closures import closures, one_closure
from .cloth import not_counted, one_cloth
from .conditions import SIZE, holds
from .cutting_list import cutting_list_fragment
from .drawing import drawing_fragment
from .finished import one_finished
from .fragments import Fragment, Said, joined, quoted, say
from .garments import garments, sizes_of, sizes_said
from .gathers import one_gather
from .goes_on import elastic_warning, one_elastic, one_ring, ring_warning
from .guide import one_word
from .mending import choices_fragment, one_choice
from .notions import elastic_caution, one_notion
from .parts import Part, several, single
from .plans import plan_parts
from .price import cost_of, cost_total
from .problems import problem
from .request import SECOND, Request, Sheet
from .spread import spread_alike
from .thread import one_thread
from .units import Shown, measured
from .why import why_closure, why_cloth, why_difficulty, why_finished, why_notion
from .wider import wider_of

HARDEST = 5
"""Difficulty runs from 1, easy, to 5, demanding."""
MINUTES_STEP = 10
"""Sewing time is an estimate, so it is said in steps of ten minutes. Our choice."""


def time_words(minutes: int) -> str:
    """A time in hours and minutes; empty for none.

    >>> time_words(400), time_words(120), time_words(50)
    ('6 h 40 min', '2 h', '50 min')
    """
    hours, rest = divmod(minutes, 60)
    return " ".join(part for part in (f"{hours} h" if hours else "", f"{rest} min" if rest else "") if part)


def panel_fragments(request: Request) -> list[Fragment]:
    """All fragments of the first screen, in the order in which they may be read.

    Where the size is not one of the pattern's, that alone is said.
    """
    wrong = wrong_size(request)
    if wrong is not None:
        return [wrong]
    return [fragment for part in panel_parts(request.sheet) for fragment in part.make(request)]


def panel_parts(sheet: Sheet) -> list[Part]:
    """What the first screen is put together from, in order: each part makes the few fragments of one thing.

    So the build can go through the choices of each thing by itself. A part's fragments have the same ids for every
    request whose size is known.
    """
    cloths, notions = sheet["cloths"], sheet["notions"]
    elastics = [notion for notion in notions if "elastic" in notion["kinds"]]
    return [
        single(drawing_fragment),
        single(size_note),
        single(choices_fragment),
        *(single(one_choice, choice) for choice in sheet["choices"]),
        *(several(one_cloth, cloth, alike=spread_alike) for cloth in cloths),
        single(not_counted),
        *(several(wider_of, cloth, alike=spread_alike) for cloth in cloths),
        *(plan_parts(sheet) if sheet["cloth_plans"] else []),
        *(several(cost_of, cloth) for cloth in cloths),
        several(cost_total),
        *(several(one_notion, notion) for notion in notions),
        several(elastic_caution, elastics),
        *(several(one_closure, notion) for notion in closures(sheet)),
        *(single(one_ring, ring) for ring in sheet["pull_on"]),
        *(single(one_elastic, notion) for notion in elastics),
        *(single(one_gather, gather) for gather in sheet["gathers"]),
        *(single(one_thread, notion) for notion in notions if notion["reel_m"] is not None),
        *(single(ring_warning, ring) for ring in sheet["pull_on"]),
        *(single(elastic_warning, notion) for notion in elastics if notion["passes"]),
        *(single(one_advice, number) for number in range(len(advices(sheet)))),
        single(difficulty_fragment),
        *(single(one_finished, measurement) for measurement in sheet["finished"]),
        single(cutting_list_fragment),
        *(single(one_word, at) for at in range(len(sheet["words"]))),
        *(single(why_cloth, cloth, alike=spread_alike) for cloth in cloths),
        *(single(why_notion, notion) for notion in notions),
        *(single(why_closure, notion) for notion in closures(sheet)),
        single(why_difficulty),
        *(single(why_finished, measurement) for measurement in sheet["finished"]),
    ]


def wrong_size(request: Request) -> Fragment | None:
    """The problem with a size, or the size of a second garment, that the pattern does not have; or None."""
    sizes = request.sheet["sizes"]
    depends_on: tuple[str, ...]
    if request.size is None:
        typed, depends_on = request.size_typed, (SIZE,)
    elif request.second is None and request.second_typed:
        typed, depends_on = request.second_typed, (SECOND, SIZE)
    else:
        return None
    said = say(f"{quoted(typed)} is not a size of this pattern. It is cut from {sizes[0]} to {sizes[-1]}.")
    return problem("chosen-size", "unknown-size", said, depends_on)


def size_note(request: Request) -> Fragment:
    """Fragment `chosen-size`: whom each size is cut for: the height it ends at and where the size before ended.

    Its data say in `shown` how the sizes stand in headings.
    """
    sizes = sizes_of(request)
    each = [_size_note(request, size) for size in dict.fromkeys(sizes)]
    data = {**_size_data(request, sizes[0]), "sizes": sizes, "shown": sizes_said(sizes)}
    said = joined(each)
    if len(sizes) > 1:
        said = joined([say("Two garments with the same options, from one length of each cloth."), said])
    return Fragment(name="chosen-size", kind="sentence", said=said, data=data, depends_on=(SECOND, SIZE))


def _size_data(request: Request, size: str) -> dict[str, Any]:
    sheet = request.sheet
    rows, at = sheet["body"]["rows"], sheet["sizes"].index(size)
    data = {"size": size, "age": sheet["body"]["ages"].get(size), "body_mm": dict(rows[size])}
    if rows[size].get("height") is not None:
        data["height_over_mm"] = rows[sheet["sizes"][at - 1]]["height"] if at else None
    return data


def _size_note(request: Request, size: str) -> Said:
    data = _size_data(request, size)
    height_mm, from_mm = data["body_mm"].get("height"), data.get("height_over_mm")
    shown: list[str | Shown] = []
    if height_mm is not None:
        shown = [measured(from_mm), " to "] if from_mm is not None else ["up to "]
        shown = [", for a height of ", *shown, measured(height_mm)]
    age = f", about {data['age']}" if data["age"] else ""
    return say(f"Size {size}", *shown, f"{age}.")


def advices(sheet: Sheet) -> list[Mapping[str, Any]]:
    """The designer's soft rules."""
    return [rule for rule in sheet["rules"] if rule.get("advice") is not None]


def one_advice(request: Request, number: int) -> Fragment:
    """Fragment `advice.<n>`: a soft rule, numbered as they stand; silent where it does not apply."""
    rule, wanted = advices(request.sheet)[number], garments(request)
    names = request.depends(rule["when"], size=False)
    held = [one for one in wanted if holds(rule["when"], one.chosen)]
    only = f"Size {held[0].size}: " if held and len(held) < len(wanted) else ""
    said = say(only, rule["advice"] if held else "")
    return Fragment(name=f"advice.{number}", kind="warning", said=said, depends_on=names)


def difficulty_fragment(request: Request) -> Fragment:
    """Fragment `difficulty`: the pattern's difficulty and sewing time with what the choices add."""
    sheet = request.sheet
    difficulty, minutes = sheet["difficulty"], sheet["minutes"]
    counting = []
    for choice in sheet["choices"]:
        if any(one["difficulty"] or one["minutes"] for one in choice["alternatives"]):
            counting.append(choice["name"])
        for one in choice["alternatives"]:
            if request.chosen.get(choice["name"]) == one["name"]:
                difficulty, minutes = difficulty + one["difficulty"], minutes + one["minutes"]
    shown = max(1, min(HARDEST, difficulty))
    about = -(-minutes // MINUTES_STEP) * MINUTES_STEP
    time = time_words(about)
    each = " each" if request.second is not None else ""
    said = say(f"Difficulty {shown} of {HARDEST}" + (f", about {time} of sewing{each}." if time else "."))
    return Fragment(
        name="difficulty",
        kind="figure",
        said=said,
        data={"difficulty": shown, "minutes": minutes},
        depends_on=tuple(sorted({*decisive(sheet["choices"], [[{name: []}] for name in counting]), SECOND})),
    )
