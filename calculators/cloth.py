"""How much cloth, in the width the shop has?

Every lay was solved beforehand. For each set of pieces that may be asked for, the sheet holds steps: from this width
on, this length, this lay. A width between two steps is answered with the narrower one, because a lay for narrower
cloth also lies on wider cloth. A set that was never laid is answered by the shortest one that contains it.

>>> rows = [[[1100, 812, 0], [1400, 705, 1]], [[1100, 790, 2], [1350, 640, 3]]]
>>> shortest([["back", "front", "pocket"], ["back", "front"]], rows, {"back", "front"}, width_mm=1390)
Laid(width_mm=1350, length_mm=640, members=1, number=3)
>>> shortest([["back", "front", "pocket"], ["back", "front"]], rows, {"pocket"}, width_mm=1390)
Laid(width_mm=1100, length_mm=812, members=0, number=0)
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .conditions import holds
from .fragments import NOTHING, Fragment, Said, joined, quoted, say
from .nap import NAP_WORDS, WITH, WITHOUT, kinds_of, nap_said, nap_used
from .problems import problem
from .request import Request, Sheet
from .shop_cuts import CUT
from .strips import SELVEDGE_MM
from .typed import WIDEST_USUAL_MM, WIDTH, Typed, hint, read_length
from .units import BUY_STEP_MM, Cuts, Shown, buy_mm, eighth_yards, metres, mixed, needed, width, width_up
from .wash import (
    NOT_COUNTED_YET,
    USUAL_TENTHS,
    Wash,
    before_wash_mm,
    read_wash,
    unwashed_width_mm,
    wash_words,
    washed_width_mm,
)
from .ways import OTHER_WAYS, WIDE_ENOUGH, way_words

SQUARING_MM = 30
"""Added to an amount to buy, because the ends of a cut are rarely square. Common practice."""

FOLD_STEP_MM = 5
"""Cloth is folded over by whole half centimetres, as the lay engine does it."""

NOT_COUNTED = "Shrinkage is not counted."

ASKED_OF_CLOTH = ("width", "way", "nap", "wash", "along", "across")
"""What a buyer says of each cloth, as far as its lay depends on it."""

TOGETHER = "no amount, because these options do not go together."

Steps = Sequence[Sequence[int]]
"""Width from which it holds (mm), length (mm), number of the lay; width growing, length falling."""


@dataclass(frozen=True)
class Laid:
    """The lay that answers: cloth width it was made for, its length (mm), the index of its set, its number."""

    width_mm: int
    length_mm: int
    members: int
    number: int


def shortest(
    sets: Sequence[Sequence[str]], rows: Sequence[Steps], demand: Collection[str], width_mm: float
) -> Laid | None:
    """The published lay on cloth of this width that holds all the pieces.

    Arguments: the sets of pieces; the steps of each set (of one cloth, way, nap and size); the pieces that are needed;
    the cloth's width in mm. The set that is exactly these pieces answers; where it was never laid, the shortest of
    those that contain it, of equal lengths the widest. None: no lay does.
    """
    found = [
        Laid(width_mm=step[0], length_mm=step[1], members=index, number=step[2])
        for index in answering(sets, demand)
        if index < len(rows)
        for step in [_step_at(rows[index], width_mm)]
        if step is not None
    ]
    return min(found, key=lambda lay: (lay.length_mm, -lay.width_mm, lay.members), default=None)


def answering(sets: Sequence[Sequence[str]], demand: Collection[str]) -> list[int]:
    """The sets that may answer: the one that is exactly the pieces asked for, else all that contain them."""
    wanted = set(demand)
    covering = [index for index, members in enumerate(sets) if wanted <= set(members)]
    exact = [index for index in covering if len(set(sets[index])) == len(wanted)]
    return exact[:1] or covering


def _step_at(steps: Steps, width_mm: float) -> Sequence[int] | None:
    """The last step that is not wider than the cloth."""
    found = None
    for step in steps:
        if step[0] > width_mm:
            break
        found = step
    return found


def lay_rows(sheet: Sheet, cloth: str, way: str, nap: str, size: str) -> Sequence[Steps]:
    """The steps of every set, of one cloth, way, nap and size; where none is without nap, those with nap serve."""
    by_nap = sheet["lays"].get(cloth, {}).get(way, {})
    known = by_nap.get(nap) or (by_nap.get(WITH) if nap == WITHOUT else None) or {}
    rows: Sequence[Steps] = known.get(size, [])
    return rows


def cloth_fragments(request: Request) -> list[Fragment]:
    """Fragments `cloth.<cloth>` (the note), `cloth.<cloth>.how` (how it was reckoned), `cloth.<cloth>.wash` (what the
    first wash takes), and once `cloth.not-counted`.

    Arguments: a request whose size is known. A cloth that these choices do not need says nothing.
    """
    fragments = []
    spreads = [(cloth, spread_out(request, cloth)) for cloth in request.sheet["cloths"]]
    for cloth, spread in spreads:
        fragments += _one_cloth(request, cloth, spread)
    fragments.append(_not_counted(spreads))
    return fragments


def _not_counted(spreads: Sequence[tuple[Mapping[str, Any], Spread]]) -> Fragment:
    """That shrinkage is not counted, or of which of the cloths it is not, as far as they usually shrink."""
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


def demanded(sheet: Sheet, cloth: str, chosen: Mapping[str, str]) -> list[str]:
    """Ids of the cutting list's lines that are cut from this cloth for what was chosen."""
    return [item["id"] for item in sheet["items"] if item["cloth"] == cloth and holds(item["when"], chosen)]


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


def cut_in(sheet: Sheet, demand: Collection[str], size: str) -> bool:
    """Whether every piece is cut in this size; options that the designer forbids in it may ask for one that is not."""
    return all(size in item["narrowest_mm"] for item in sheet["items"] if item["id"] in demand)


@dataclass(frozen=True, kw_only=True)
class Spread:
    """How a cloth is spread out for a request: what is on it, its width and way, and the lays that were found.

    ``width_mm`` is the width on the bolt, ``lay_width_mm`` what the first wash leaves of it. ``laid`` holds the answer
    for each way of laying (None: no lay). Where the request makes no sense for this cloth, ``refused`` is the code and
    ``said`` the sentence; ``demand`` is empty for a cloth that is not needed. ``depends_on`` holds what the lays depend
    on, ``amount_depends_on`` what the amounts do.
    """

    demand: Sequence[str]
    depends_on: tuple[str, ...]
    kinds: Sequence[str]
    nap: str
    nap_used: str
    way: str
    width_mm: float
    lay_width_mm: float
    wash: Wash
    cuts: Cuts
    typed: Typed
    laid: Mapping[str, Laid | None]
    refused: str = ""
    said: Said = NOTHING

    @property
    def answer(self) -> Laid | None:
        """The lay in the way that was asked for."""
        return self.laid.get(self.way)

    @property
    def amount_depends_on(self) -> tuple[str, ...]:
        """What an amount to buy depends on: everything, and how the shop cuts."""
        return (*self.depends_on, CUT)

    def length_mm(self, laid: Laid) -> float:
        """The length on the bolt that this lay takes, with squared ends and with what the first wash takes."""
        return before_wash_mm(laid.length_mm + SQUARING_MM, self.wash)

    def buy_mm(self, laid: Laid) -> int:
        """The length to ask for, in mm, where cloth is sold by the metre."""
        return buy_mm(self.length_mm(laid), self.cuts)

    def eighth_yards(self, laid: Laid) -> int:
        """The length to ask for, in eighths of a yard, where cloth is sold by the yard."""
        return eighth_yards(self.length_mm(laid), self.cuts)


def spread_out(request: Request, cloth: Mapping[str, Any]) -> Spread:
    """How the cloth is spread out for this request, and the lays that answer it."""
    sheet, name, size = request.sheet, cloth["name"], request.size or ""
    conditions = [item["when"] for item in sheet["items"] if item["cloth"] == name]
    conditions += [case["when"] for key in ("nap", "kind_cases") for case in cloth[key]]
    kinds = kinds_of(cloth, request.chosen)
    nap = nap_said(cloth["nap"], request.chosen)
    used = nap_used(nap, request.naps.get(name, ""))
    way = request.ways.get(name) or cloth["ways"][0]
    typed = read_length(request.widths.get(name, ""), request.unit, WIDTH)
    width_mm = cloth["usual_width_mm"] if typed.mm is None else typed.mm
    wash = read_wash(request.washes.get(name, ""), request.alongs.get(name, ""), request.acrosses.get(name, ""), kinds)
    lay_width_mm = washed_width_mm(width_mm, wash)
    demand = demanded(sheet, name, request.chosen) if size else []
    code, said = "", NOTHING
    if way not in cloth["ways"]:
        offered = " or ".join(way_words(kinds, one) for one in cloth["ways"])
        code, said = "unknown-way", say(f"{quoted(way)} is not a way of laying it. It can be {offered}.")
    elif nap == "ask" and request.naps.get(name, "") not in ("", WITH, WITHOUT):
        asked = quoted(request.naps[name])
        code, said = "unknown-nap", say(f"{asked} can't be read. The cloth is laid with nap or without nap.")
    elif typed.code is not None:
        code, said = typed.code, typed.said
    elif wash.code:
        code, said = wash.code, wash.said
    laid = {}
    if demand and not code and cut_in(sheet, demand, size):
        sets = sheet["sets"].get(name, [])
        rows = {one: lay_rows(sheet, name, one, used, size) for one in cloth["ways"]}
        laid = {one: shortest(sets, rows[one], demand, lay_width_mm) for one in cloth["ways"]}
    return Spread(
        demand=demand,
        depends_on=(*request.depends(*conditions), *(f"{part}.{name}" for part in ASKED_OF_CLOTH)),
        kinds=kinds,
        nap=nap,
        nap_used=used,
        way=way,
        width_mm=width_mm,
        lay_width_mm=lay_width_mm,
        wash=wash,
        cuts=request.cuts,
        typed=typed,
        laid=laid,
        refused=code,
        said=said,
    )


def reckoned_width_mm(cloth: Mapping[str, Any], width_mm: float, answer: Laid) -> int:
    """The widest width that was reckoned and is no wider than the cloth as it is laid, in mm.

    The lay itself may have been made for narrower cloth still, where wider cloth saves nothing.
    """
    return max([answer.width_mm, *(int(one) for one in cloth["widths_mm"] if one <= width_mm)])


def _one_cloth(request: Request, cloth: Mapping[str, Any], spread: Spread) -> list[Fragment]:
    name = cloth["name"]
    note, how, depends_on = f"cloth.{name}", f"cloth.{name}.how", spread.amount_depends_on
    silent = Fragment(name=how, kind="sentence", depends_on=depends_on)
    nap = {"cloth": name, "nap": spread.nap, "nap_used": spread.nap_used}
    if not spread.demand:
        return [Fragment(name=note, kind="sentence", data=nap, depends_on=depends_on), silent, _washing(name, spread)]

    def refuse(code: str, said: Said, **data: Any) -> list[Fragment]:
        titled = say(f"{cloth['title']}: ", said)
        return [problem(note, code, titled, depends_on, **nap, **data), silent, _washing(name, spread)]

    if spread.refused:
        return refuse(spread.refused, spread.said)
    answer, way, width_mm = spread.answer, spread.way, spread.width_mm
    if answer is None:
        code, said, reasons = _why_not(request, cloth, spread)
        least_mm = reasons.get("reckoned_from_mm")
        least_mm = unwashed_width_mm(least_mm, spread.wash) if least_mm else 0
        offer = hint(spread.typed, request.unit, WIDTH, least_mm, WIDEST_USUAL_MM) if least_mm else ""
        return refuse(code, say(said, offer), width_mm=width_mm, way=way, **reasons)

    reckoned_mm = reckoned_width_mm(cloth, spread.lay_width_mm, answer)
    data: dict[str, Any] = nap | {
        "width_mm": width_mm, "reckoned_width_mm": reckoned_mm, "way": way, "needed_mm": answer.length_mm,
        "buy_mm": spread.buy_mm(answer), "buy_eighth_yards": spread.eighth_yards(answer), "set": answer.members,
        "lay": {"key": f"{name}.{way}.{request.size}", "number": answer.number, "width_mm": answer.width_mm},
        "flat_saves_mm": saves_mm(spread, answer, "flat"),
    }  # fmt: skip
    if set(cloth["ways"]) - {"folded", "flat"}:
        better = better_way(spread, answer)
        data["better_way"] = {"way": better[0], "saves_mm": better[1]} if better else None
    if spread.wash.counts:
        data["washed_width_mm"] = spread.lay_width_mm
        data["before_wash_mm"] = spread.length_mm(answer)
    with_nap = ", with nap" if spread.nap_used == WITH else ""
    length = metres(spread.length_mm(answer), spread.cuts)
    said = say(f"{cloth['title']}, ", width(width_mm), f" wide{with_nap}: ", length)
    return [
        Fragment(name=note, kind="figure", said=said, data=data, depends_on=depends_on),
        Fragment(
            name=how,
            kind="sentence",
            said=_how(spread, answer, reckoned_mm),
            data={"cloth": name},
            depends_on=depends_on,
        ),
        _washing(name, spread),
    ]


def _how(spread: Spread, answer: Laid, reckoned_mm: int) -> Said:
    """How an amount was reckoned: for which width, in which way, what is added, and whether flat takes less."""
    near = "" if reckoned_mm == spread.lay_width_mm else ", the next narrower width"
    nap_words = "" if spread.nap == "never" else f", {NAP_WORDS[spread.nap_used]}"
    reckoned = say("Reckoned for ", width(reckoned_mm), near, f", {way_words(spread.kinds, spread.way)}{nap_words}.")
    rest = "squares the ends, shrinks and rounds up" if spread.wash.along_tenths else "squares the ends and rounds up"
    needs = say("The pieces take ", needed(answer.length_mm), f"; the rest {rest}.")
    return joined([reckoned, needs, _offer(spread, answer)])


def _washing(name: str, spread: Spread) -> Fragment:
    """Fragment `cloth.<cloth>.wash`: what is counted for the first wash, where the buyer says anything of it."""
    said = wash_words(spread.wash, spread.width_mm) if spread.demand and not spread.refused else NOTHING
    wash = spread.wash
    data = {"cloth": name, "wash": wash.how, "along_tenths": wash.along_tenths, "across_tenths": wash.across_tenths}
    return Fragment(name=f"cloth.{name}.wash", kind="sentence", said=said, data=data, depends_on=spread.depends_on)


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
    laid, yards = OTHER_WAYS[better[0]], spread.eighth_yards(answer) - spread.eighth_yards(other)
    inch = f"{laid} it takes {mixed(yards, 8)} yd less." if yards else ""
    return say(Shown(f"{laid} it takes {better[1] / 1000:.2f} m less.", inch))


def _why_not(request: Request, cloth: Mapping[str, Any], spread: Spread) -> tuple[str, Said, dict[str, Any]]:
    """Code, sentence and data for cloth on which no published lay holds the pieces."""
    sheet, name, way, size = request.sheet, cloth["name"], spread.way, request.size or ""
    if not cut_in(sheet, spread.demand, size):
        return "not-reckoned", say(TOGETHER), {}
    rows = lay_rows(sheet, name, way, spread.nap_used, size)
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
