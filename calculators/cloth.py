"""How much cloth, in the width the shop has?

Every lay was solved beforehand for a few widths. A typed width is answered with the next narrower one, because a lay
for narrower cloth also lies on wider cloth. Among the published sets of pieces any set that contains all the pieces
asked for will do; the shortest counts.

>>> lays = {"1100": [[0, 812]], "1400": [[0, 705], [1, 640]]}
>>> shortest([["back", "front", "pocket"], ["back", "front"]], lays, {"back", "front"}, width_mm=1390)
Laid(width_mm=1100, length_mm=812, members=0)
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .conditions import holds
from .fragments import Fragment, Said, joined, quoted, say
from .problems import problem
from .request import Request, Sheet
from .typed import WIDEST_USUAL_MM, WIDTH, hint, read_length
from .units import BUY_STEP_MM, Shown, buy_mm, eighth_yards, metres, mixed, needed, width, width_up

SQUARING_MM = 30
"""Added to an amount to buy, because the ends of a cut are rarely square. Common practice."""

WAYS = {"folded": "folded once, right sides together", "flat": "laid flat, in one layer"}
"""Ways of laying in words."""

FUSIBLE_FOLDED = "folded once"
"""Interfacing has a glue side, not a right side."""


def way_words(cloth: Mapping[str, Any], way: str) -> str:
    """A way of laying this cloth, in words.

    >>> way_words({"kinds": ["interfacing"]}, "folded"), way_words({"kinds": ["woven"]}, "flat")
    ('folded once', 'laid flat, in one layer')
    """
    return FUSIBLE_FOLDED if way == "folded" and "interfacing" in cloth["kinds"] else WAYS[way]


NOT_COUNTED = "Shrinkage and one-way prints are not counted yet."
NOT_COUNTED_ONE_WAY = "Shrinkage is not counted yet."


@dataclass(frozen=True)
class Laid:
    """The lay that answers: cloth width it was made for, its length (mm), and the index of its set of pieces."""

    width_mm: int
    length_mm: int
    members: int


def shortest(
    sets: Sequence[Sequence[str]],
    lays: Mapping[str, Sequence[Sequence[int]]],
    demand: Collection[str],
    width_mm: float,
) -> Laid | None:
    """The shortest published lay on cloth of this width that holds all the pieces.

    Arguments: the sets of pieces; lays of one cloth, way and size (width to set and length in mm); the pieces that
    are needed; the cloth's width in mm. Of equal lengths the widest lay is named. None: no lay does.
    """
    wanted = set(demand)
    covering = {index for index, members in enumerate(sets) if wanted <= set(members)}
    found = [
        Laid(width_mm=int(laid_for), length_mm=length, members=index)
        for laid_for, row in lays.items()
        if int(laid_for) <= width_mm
        for index, length in row
        if index in covering
    ]
    return min(found, key=lambda lay: (lay.length_mm, -lay.width_mm, lay.members), default=None)


def cloth_fragments(request: Request) -> list[Fragment]:
    """Fragments `cloth.<cloth>` (the note), `cloth.<cloth>.how` (how it was reckoned), and once `cloth.not-counted`.

    Arguments: a request whose size is known. A cloth that these choices do not need says nothing.
    """
    fragments = []
    for cloth in request.sheet["cloths"]:
        fragments += _one_cloth(request, cloth)
    every_one_way = all(cloth["one_way"] for cloth in request.sheet["cloths"])
    said = say(NOT_COUNTED_ONE_WAY if every_one_way else NOT_COUNTED)
    fragments.append(Fragment(name="cloth.not-counted", kind="sentence", said=said))
    return fragments


def demanded(sheet: Sheet, cloth: str, chosen: Mapping[str, str]) -> list[str]:
    """Ids of the cutting list's lines that are cut from this cloth for what was chosen."""
    return [item["id"] for item in sheet["items"] if item["cloth"] == cloth and holds(item["when"], chosen)]


def narrowest_mm(sheet: Sheet, demand: Collection[str], way: str, size: str) -> int:
    """The narrowest bolt, in mm with both selvedges, on which each piece alone fits."""
    return max(item["narrowest_mm"][size][way] for item in sheet["items"] if item["id"] in demand)


def _one_cloth(request: Request, cloth: Mapping[str, Any]) -> list[Fragment]:
    sheet, name, size = request.sheet, cloth["name"], request.size
    conditions = [item["when"] for item in sheet["items"] if item["cloth"] == name]
    depends_on = (*request.depends(*conditions), f"width.{name}", f"way.{name}")
    note, how = f"cloth.{name}", f"cloth.{name}.how"
    silent = Fragment(name=how, kind="sentence", depends_on=depends_on)
    demand = demanded(sheet, name, request.chosen)
    if not demand or size is None:
        return [Fragment(name=note, kind="sentence", data={"cloth": name}, depends_on=depends_on), silent]

    def refuse(code: str, said: Said, **data: Any) -> list[Fragment]:
        titled = say(f"{cloth['title']}: ", said)
        return [problem(note, code, titled, depends_on, cloth=name, **data), silent]

    way = request.ways.get(name) or cloth["ways"][0]
    if way not in cloth["ways"]:
        offered = " or ".join(way_words(cloth, one) for one in cloth["ways"])
        return refuse("unknown-way", say(f"{quoted(way)} is not a way of laying it. It can be {offered}."))
    typed = read_length(request.widths.get(name, ""), request.unit, WIDTH)
    if typed.code is not None:
        return refuse(typed.code, typed.said)
    width_mm = cloth["usual_width_mm"] if typed.mm is None else typed.mm
    lays = {one: sheet["lays"].get(name, {}).get(one, {}).get(size, {}) for one in cloth["ways"]}
    laid = {one: shortest(sheet["sets"].get(name, []), lays[one], demand, width_mm) for one in cloth["ways"]}
    answer = laid[way]
    if answer is None:
        code, said, reasons = _why_not(request, cloth, demand, way, width_mm, lays, flat=laid.get("flat"))
        least_mm = reasons.get("reckoned_from_mm")
        offer = hint(typed, request.unit, WIDTH, least_mm, WIDEST_USUAL_MM) if least_mm else ""
        return refuse(code, say(said, offer), width_mm=width_mm, way=way, **reasons)

    buy_length_mm = answer.length_mm + SQUARING_MM
    flat = laid.get("flat")
    data = {
        "cloth": name, "width_mm": width_mm, "reckoned_width_mm": answer.width_mm, "way": way,
        "needed_mm": answer.length_mm, "buy_mm": buy_mm(buy_length_mm),
        "buy_eighth_yards": eighth_yards(buy_length_mm), "set": answer.members,
        "flat_saves_mm": _saving_mm(answer, flat) if way != "flat" else 0,
    }  # fmt: skip
    said = say(f"{cloth['title']}, ", width(width_mm), " wide: ", metres(buy_length_mm))
    near = _nearness(answer.width_mm, width_mm)
    reckoned = say("Reckoned for ", width(answer.width_mm), near, f", {way_words(cloth, way)}.")
    needs = say("The pieces take ", needed(answer.length_mm), "; the rest squares the ends and rounds up.")
    return [
        Fragment(name=note, kind="figure", said=said, data=data, depends_on=depends_on),
        Fragment(
            name=how,
            kind="sentence",
            said=joined([reckoned, needs, _flat_offer(answer, flat, data["flat_saves_mm"])]),
            data={"cloth": name},
            depends_on=depends_on,
        ),
    ]


def _nearness(reckoned_mm: float, width_mm: float) -> str:
    return "" if reckoned_mm == width_mm else ", the next narrower width"


def _saving_mm(answer: Laid, flat: Laid | None) -> int:
    """What laying it flat saves when buying by the metre, in mm, where it is worth a purchase step; else 0."""
    if flat is None or answer.length_mm - flat.length_mm < BUY_STEP_MM:
        return 0
    return buy_mm(answer.length_mm + SQUARING_MM) - buy_mm(flat.length_mm + SQUARING_MM)


def _flat_offer(answer: Laid, flat: Laid | None, saves_mm: int) -> Said:
    if flat is None or not saves_mm:
        return say()
    yards = eighth_yards(answer.length_mm + SQUARING_MM) - eighth_yards(flat.length_mm + SQUARING_MM)
    inch = f"Laid flat it takes {mixed(yards, 8)} yd less." if yards else ""
    return say(Shown(f"Laid flat it takes {saves_mm / 1000:.2f} m less.", inch))


def _why_not(
    request: Request,
    cloth: Mapping[str, Any],
    demand: Collection[str],
    way: str,
    width_mm: float,
    lays: Mapping[str, Mapping[str, Sequence[Sequence[int]]]],
    flat: Laid | None,
) -> tuple[str, Said, dict[str, Any]]:
    """Code, sentence and data for cloth on which no published lay holds the pieces."""
    sets = request.sheet["sets"].get(cloth["name"], [])
    laid_at = [w for w in sorted(int(one) for one in lays[way]) if shortest(sets, lays[way], demand, w) is not None]
    least_mm = narrowest_mm(request.sheet, demand, way, request.size or "")
    data = {"narrowest_mm": least_mm, "reckoned_from_mm": laid_at[0] if laid_at else None}
    # Rounded up, so that whoever goes by it is not sent away again.
    from_on = say("amounts are reckoned from ", width_up(laid_at[0]), " on") if laid_at else say()
    flat_works = say("Laid flat it is wide enough." if way != "flat" and flat is not None else "")
    if width_mm < least_mm:
        words = way_words(cloth, way)
        narrow = say(width(width_mm), f" is too narrow, {words}. The narrowest that works is ", width_up(least_mm))
        return "too-narrow", joined([say(narrow, "; " if laid_at else "", from_on, "."), flat_works]), data
    if laid_at and width_mm < laid_at[0]:
        fits = say("the pieces fit on ", width(width_mm), ", but ", from_on, ".")
        return "narrower-than-laid", joined([fits, flat_works]), data
    return "not-reckoned", joined([say("no amount, because these options do not go together."), flat_works]), {}
