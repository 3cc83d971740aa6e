"""How is a cloth spread out for what was asked: its width, its way, its nap, its wash, and the lays that answer?

>>> on_the_bolt_mm(950, Wash()), on_the_bolt_mm(950, Wash(along_tenths=50))
(980, 1031.6)
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from .fragments import NOTHING, Said, quoted, say
from .garments import garments
from .laid import Laid, cut_in, demanded, lay_rows, shortest
from .nap import WITH, WITHOUT, kinds_of, nap_said, nap_used
from .repeat import repeat_extra_mm
from .request import Request, Sheet
from .shop_cuts import CUT
from .stripes import Stripes, read_stripes
from .together import ONE_ONLY, laid_together
from .typed import WIDTH, Typed, read_length
from .units import Cuts, buy_mm, eighth_yards
from .wash import Wash, before_wash_mm, read_wash, washed_width_mm
from .ways import way_words

SQUARING_MM = 30
"""Added to an amount to buy, because the ends of a cut are rarely square. Common practice."""

FLAT = "flat"
ONE_LAYER = "Uneven stripes and checks are laid in one layer, all one way, so that they can be matched."

ASKED_OF_CLOTH = ("width", "way", "nap", "wash", "along", "across", "pattern", "every", "uneven")
"""What a buyer says of each cloth, as far as its lay depends on it."""


@dataclass(frozen=True, kw_only=True)
class Spread:
    """How a cloth is spread out for a request: what is on it, its width and way, and the lays that were found.

    ``width_mm`` is the width on the bolt, ``lay_width_mm`` what the first wash leaves of it. ``way`` is the way of
    laying that answers; uneven stripes are laid flat whatever was asked (``way_asked``). ``lays_for`` is the nap or the
    listed repeat whose lays answer. ``laid`` holds the answer for each way of laying (None: no lay). Where the request
    makes no sense for this cloth, ``refused`` is the code and ``said`` the sentence; ``demand`` is empty for a cloth
    that is not needed. ``depends_on`` holds what the lays depend on, ``amount_depends_on`` what the amounts do.

    For two garments ``alone`` holds how each would be spread out alone, the smaller size first, and ``together`` for
    each way of laying what its answer is (:mod:`.together`); ``sizes`` names the garments.
    """

    demand: Sequence[str]
    depends_on: tuple[str, ...]
    kinds: Sequence[str]
    nap: str
    nap_used: str
    lays_for: str
    way: str
    way_asked: str
    width_mm: float
    lay_width_mm: float
    wash: Wash
    stripes: Stripes
    cuts: Cuts
    typed: Typed
    laid: Mapping[str, Laid | None]
    refused: str = ""
    said: Said = NOTHING
    sizes: tuple[str, ...] = ()
    alone: tuple[Spread, ...] = ()
    together: Mapping[str, str] = field(default_factory=dict)

    @property
    def answer(self) -> Laid | None:
        """The lay in the way that was asked for."""
        return self.laid.get(self.way)

    @property
    def amount_depends_on(self) -> tuple[str, ...]:
        """What an amount to buy depends on: everything, and how the shop cuts."""
        return (*self.depends_on, CUT)

    def length_mm(self, laid: Laid) -> float:
        """The length on the bolt that this lay takes, with squared ends, what the first wash takes, and repeats."""
        return on_the_bolt_mm(laid.length_mm, self.wash) + self.repeats_mm(laid)

    def repeats_mm(self, laid: Laid) -> float:
        """What a typed repeat adds to the length on the bolt, in tenths of a millimetre rounded up."""
        return -(-round(repeat_extra_mm(self.stripes.each_row_mm, laid.rows) * 100) // 10) / 10

    def buy_mm(self, laid: Laid) -> int:
        """The length to ask for, in mm, where cloth is sold by the metre."""
        return buy_mm(self.length_mm(laid), self.cuts)

    def eighth_yards(self, laid: Laid) -> int:
        """The length to ask for, in eighths of a yard, where cloth is sold by the yard."""
        return eighth_yards(self.length_mm(laid), self.cuts)


def spread_out(request: Request, cloth: Mapping[str, Any]) -> Spread:
    """How the cloth is spread out for this request, for one garment or for two, and the lays that answer it.

    Found once for each cloth of a request: the amount, its reasons and its price all ask for it.
    """
    kept: dict[str, Spread] = request.kept.setdefault("spread", {})
    name = cloth["name"]
    if name not in kept:
        kept[name] = _spread_out(request, cloth)
    return kept[name]


def spread_alike(request: Request, cloth: Mapping[str, Any]) -> int:
    """The same for requests that share what they find and for which the cloth is spread out the same."""
    return id(spread_out(request, cloth))


def _spread_out(request: Request, cloth: Mapping[str, Any]) -> Spread:
    wanted = garments(request)
    # One piece of cloth for both: where their kinds differ, it is reckoned with the one that loses most in the wash.
    kinds = list(dict.fromkeys(kind for one in wanted for kind in kinds_of(cloth, one.chosen)))
    alone = tuple(_for_one(one, cloth, kinds) for one in wanted)
    return alone[0] if len(alone) == 1 else _for_both(request.sheet, cloth, alone)


def _for_both(sheet: Sheet, cloth: Mapping[str, Any], alone: tuple[Spread, ...]) -> Spread:
    """The cloth spread out for two garments. Arguments: how it is spread out for each of them alone."""
    first = next((one for one in alone if one.demand), alone[0])
    wanted = [one for one in alone if one.demand] or [first]
    with_nap = next((one for one in wanted if one.nap_used == WITH), first)
    both = replace(
        first,
        demand=list(dict.fromkeys(line for one in alone for line in one.demand)),
        nap=first.nap if len({one.nap for one in wanted}) == 1 else "ask",
        nap_used=with_nap.nap_used,
        lays_for=with_nap.lays_for,
        refused=next((one.refused for one in alone if one.refused), ""),
        said=next((one.said for one in alone if one.refused), NOTHING),
        sizes=tuple(size for one in alone for size in one.sizes),
        alone=alone,
        laid={},
    )
    if not both.demand or both.refused:
        return both
    found = {way: laid_on(sheet, cloth, both, way, both.lay_width_mm) for way in _ways(cloth, both)}
    return replace(
        both,
        laid={way: answer for way, (answer, _) in found.items()},
        together={way: kind for way, (_, kind) in found.items()},
    )


def _ways(cloth: Mapping[str, Any], spread: Spread) -> Sequence[str]:
    """The ways in which this cloth may be laid; uneven stripes lie flat."""
    return [FLAT] if spread.stripes.one_layer else cloth["ways"]


def laid_on(
    sheet: Sheet, cloth: Mapping[str, Any], spread: Spread, way: str, width_mm: float
) -> tuple[Laid | None, str]:
    """The lay of the same pieces in some way on cloth of some width as it is laid (mm), and for two garments what the
    answer is (:mod:`.together`)."""
    name, each_row_mm = cloth["name"], spread.stripes.each_row_mm
    if not spread.alone:
        size = spread.sizes[0]
        if not spread.demand or not cut_in(sheet, spread.demand, size):
            return None, ""
        rows = lay_rows(sheet, name, way, spread.lays_for, size)
        return shortest(sheet["sets"].get(name, []), rows, spread.demand, width_mm, each_row_mm), ""
    wanted = [one for one in spread.alone if one.demand]
    each = [laid_on(sheet, cloth, one, way, width_mm)[0] for one in wanted]
    if len(wanted) == 1:
        return each[0], ONE_ONLY
    found = laid_together(
        sheet, name, way, spread.lays_for, spread.sizes, spread.demand, width_mm, each, each_row_mm=each_row_mm
    )
    return found or (None, "")


def _for_one(request: Request, cloth: Mapping[str, Any], kinds: Sequence[str]) -> Spread:
    """The cloth spread out for one garment; ``kinds`` of cloth will do. Options that come to the same pieces and the
    same nap are spread out once."""
    sheet, name, size = request.sheet, cloth["name"], request.size or ""
    nap = nap_said(cloth["nap"], request.chosen)
    demand = demanded(sheet, name, request.chosen) if size else []
    said = tuple(part.get(name, "") for part in (
        request.widths, request.ways, request.naps, request.washes, request.alongs, request.acrosses, request.repeats,
        request.everys, request.unevens,
    ))  # fmt: skip
    found_from = (name, size, nap, tuple(demand), tuple(kinds), said, request.unit, request.cuts)
    if found_from not in request.shared:
        request.shared[found_from] = _laid_out(request, cloth, kinds, nap, demand)
    spread: Spread = request.shared[found_from]
    return spread


def _depends_on(request: Request, cloth: Mapping[str, Any]) -> tuple[str, ...]:
    name = cloth["name"]
    conditions = [item["when"] for item in request.sheet["items"] if item["cloth"] == name]
    conditions += [case["when"] for key in ("nap", "kind_cases") for case in cloth[key]]
    return (*request.depends(*conditions), *(f"{part}.{name}" for part in ASKED_OF_CLOTH))


def _laid_out(
    request: Request, cloth: Mapping[str, Any], kinds: Sequence[str], nap: str, demand: Sequence[str]
) -> Spread:
    sheet, name, size = request.sheet, cloth["name"], request.size or ""
    used = nap_used(nap, request.naps.get(name, ""))
    way = asked_way = request.ways.get(name) or cloth["ways"][0]
    typed = read_length(request.widths.get(name, ""), request.unit, WIDTH)
    width_mm = cloth["usual_width_mm"] if typed.mm is None else typed.mm
    wash = read_wash(request.washes.get(name, ""), request.alongs.get(name, ""), request.acrosses.get(name, ""), kinds)
    lay_width_mm = washed_width_mm(width_mm, wash)
    stripes = read_stripes(
        kinds, cloth.get("repeats", ()), request.repeats.get(name, ""), request.everys.get(name, ""),
        request.unevens.get(name, ""), request.unit,
    )  # fmt: skip
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
    elif stripes.code:
        code, said = stripes.code, stripes.said
    elif stripes.one_layer:
        way, used = FLAT, WITH
        if not stripes.listed and not lay_rows(sheet, name, FLAT, WITH, size):
            code, said = "not-in-one-layer", say(ONE_LAYER, " This cloth was not laid so; please ask the designer.")
    lays_for = stripes.how if stripes.listed else used
    spread = Spread(
        demand=demand,
        depends_on=request.always(f"depends_on {name}", lambda: _depends_on(request, cloth)),
        kinds=kinds,
        nap=nap,
        nap_used=used,
        lays_for=lays_for,
        way=way,
        way_asked=asked_way,
        width_mm=width_mm,
        lay_width_mm=lay_width_mm,
        wash=wash,
        stripes=stripes,
        cuts=request.cuts,
        typed=typed,
        laid={},
        refused=code,
        said=said,
        sizes=(size,),
    )
    if not demand or code or not cut_in(sheet, demand, size):
        return spread
    found = {one: laid_on(sheet, cloth, spread, one, lay_width_mm)[0] for one in _ways(cloth, spread)}
    return replace(spread, laid=found)


def on_the_bolt_mm(lay_mm: int, wash: Wash) -> float:
    """The length on the bolt that a lay so long takes, in mm: its ends squared, and with what the first wash takes."""
    return before_wash_mm(lay_mm + SQUARING_MM, wash)
