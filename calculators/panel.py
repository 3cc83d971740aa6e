"""Everything of a pattern page's first screen: the whole note, for one size and set of choices."""

from __future__ import annotations

from typing import Any

from .choices import decisive
from .closures import closure_fragments
from .cloth import cloth_fragments
from .conditions import SIZE, holds
from .cutting_list import cutting_list_fragment
from .drawing import drawing_fragment
from .finished import finished_fragments
from .fragments import Fragment, Said, joined, quoted, say
from .garments import garments, sizes_of, sizes_said
from .mending import choice_fragments, choices_fragment
from .notions import notion_fragments
from .plans import plan_fragments
from .price import cost_fragments
from .problems import problem
from .request import SECOND, Request
from .units import Shown, measured
from .why import why_fragments
from .wider import wider_fragments

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
    return [
        drawing_fragment(request),
        size_note(request),
        choices_fragment(request),
        *choice_fragments(request),
        *cloth_fragments(request),
        *wider_fragments(request),
        *(plan_fragments(request) if request.sheet["cloth_plans"] else []),
        *cost_fragments(request),
        *notion_fragments(request),
        *closure_fragments(request),
        *advice_fragments(request),
        difficulty_fragment(request),
        *finished_fragments(request),
        cutting_list_fragment(request),
        *why_fragments(request),
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


def advice_fragments(request: Request) -> list[Fragment]:
    """Fragments `advice.<n>`: the designer's soft rules, numbered as they stand; silent where they do not apply."""
    fragments, wanted = [], garments(request)
    advice = [rule for rule in request.sheet["rules"] if rule.get("advice") is not None]
    for number, rule in enumerate(advice):
        names = request.depends(rule["when"], size=False)
        held = [one for one in wanted if holds(rule["when"], one.chosen)]
        only = f"Size {held[0].size}: " if held and len(held) < len(wanted) else ""
        said = say(only, rule["advice"] if held else "")
        fragments.append(Fragment(name=f"advice.{number}", kind="warning", said=said, depends_on=names))
    return fragments


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
