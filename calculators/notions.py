"""What else to buy, and how many: elastic, buttons, tape.

>>> count_in({"count": 5, "tabled_count": {"68": 4}}, "68"), count_in({"count": 5, "tabled_count": {}}, "92")
(4, 5)
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .conditions import ConditionJson, holds
from .elastic import CAUTION, Cut, NotionJson, cut_length
from .fragments import Fragment, Said, counted, say
from .garments import FOR_BOTH, by_garment, garments
from .places import placed_count, places_conditions
from .request import Request
from .units import buy_mm, eighth_yards, lignes, measured, metres, millimetres


def count_in(notion: NotionJson, size: str) -> int | None:
    """How many pieces in this size: the designer's figure for the size, else the usual count, else None."""
    count = notion["tabled_count"].get(size, notion["count"])
    return None if count is None else int(count)


def counted_by_places(notion: NotionJson) -> list[ConditionJson]:
    """The conditions on which the number depends where it follows from the wished space."""
    return [] if notion["count"] is not None or notion["tabled_count"] else places_conditions(notion)


def notion_fragments(request: Request, *, only_kind: str | None = None) -> list[Fragment]:
    """Fragments `notion.<name>` (what to buy), `notion.<name>.cut` (how to cut it) and, with elastic, its caution.

    Arguments: a request whose size is known; ``only_kind`` leaves out notions that are not of this kind.
    A notion that these choices do not need says nothing.
    """
    notions = [one for one in request.sheet["notions"] if only_kind is None or only_kind in one["kinds"]]
    fragments = []
    for notion in notions:
        fragments += one_notion(request, notion)
    elastics = [notion for notion in notions if "elastic" in notion["kinds"]]
    return [*fragments, *elastic_caution(request, elastics)]


def elastic_caution(request: Request, elastics: Sequence[NotionJson]) -> list[Fragment]:
    """Fragment `caution.elastic`, for a pattern that has any. Arguments: the request; the sheet's elastics."""
    if not elastics:
        return []
    conditions = [notion["when"] for notion in elastics]
    needed = any(holds(condition, one.chosen) for one in garments(request) for condition in conditions)
    said, depends_on = say(CAUTION if needed else ""), request.depends(*conditions, size=False)
    return [Fragment(name="caution.elastic", kind="warning", said=said, depends_on=depends_on)]


@dataclass(frozen=True, kw_only=True)
class OfOne:
    """A notion for one garment: its size, how many pieces (None: not counted), and what is cut of each (None: nothing).
    """

    size: str
    count: int | None
    cut: Cut | None

    @property
    def total_mm(self) -> float:
        """The length of all pieces, in mm."""
        return self.cut.total_mm * (self.count or 1) if self.cut is not None else 0


def for_each(request: Request, notion: NotionJson) -> list[OfOne]:
    """The notion for each garment that was asked for and takes it."""
    found = []
    for one in garments(request):
        if holds(notion["when"], one.chosen):
            size = one.size or ""
            cut = cut_length(notion, request.sheet["body"]["rows"][size], size, one.chosen)
            count = count_in(notion, size)
            count = placed_count(notion, one.chosen, size) if count is None else count
            found.append(OfOne(size=size, count=count, cut=cut))
    return found


def whom(request: Request, each: Sequence[OfOne]) -> str:
    """Before an amount: that it is for both garments, or for which of them; nothing where one was asked for."""
    if request.second is None:
        return ""
    return FOR_BOTH if len(each) > 1 else f", for size {each[0].size} only"


def count_of(each: Sequence[OfOne]) -> int | None:
    """How many pieces in all; None where they are not counted."""
    counts = [one.count for one in each if one.count is not None]
    return sum(counts) if counts else None


def one_notion(request: Request, notion: Mapping[str, Any]) -> list[Fragment]:
    """The fragments of one notion."""
    name, cut_name = f"notion.{notion['name']}", f"notion.{notion['name']}.cut"
    edges = [case["when"] for case in notion["edge_cases"]]
    depends_on = request.depends(notion["when"], *edges, *counted_by_places(notion))
    each = for_each(request, notion)
    if not each:
        return [Fragment(name=one, kind="sentence", depends_on=depends_on) for one in (name, cut_name)]
    count, for_whom = count_of(each), whom(request, each)
    data: dict[str, Any] = {"notion": notion["name"], "kinds": list(notion["kinds"]), "count": count}
    cut = next((one.cut for one in each if one.cut is not None), None)
    if cut is None:
        said = say(notion["title"], for_whom)
        if count is not None:
            said = say(f"{notion['title']}{for_whom}: ", counted(count))
        return [
            Fragment(name=name, kind="figure", said=said, data=data, depends_on=depends_on),
            Fragment(name=cut_name, kind="sentence", said=_in_lignes(notion), depends_on=depends_on),
        ]
    # One length is bought for both garments, so it is rounded once.
    total_mm = sum(one.total_mm for one in each)
    data |= {"total_mm": _tidy(total_mm), "buy_mm": buy_mm(total_mm), "buy_eighth_yards": eighth_yards(total_mm)}
    cuts = [_cut_sentence(one.cut, one.count) for one in each if one.cut is not None]
    lengths = {
        "notion": notion["name"],
        "count": each[0].count or 1,
        "cut_mm": _tidy(cut.total_mm),
        "closed_mm": _tidy(cut.closed_mm),
        "overlap_mm": _tidy(cut.overlap_mm),
        "tabled": cut.rule_mm is None or each[0].size in notion["tabled_mm"],
        "tabled_less_rule_mm": None if cut.rule_mm is None else _tidy(cut.total_mm - cut.rule_mm),
    }
    if request.second is not None:
        lengths["each"] = [
            {"size": one.size, "count": one.count or 1, "cut_mm": _tidy(one.cut.total_mm)}
            for one in each
            if one.cut is not None
        ]
    return [
        Fragment(
            name=name,
            kind="figure",
            said=say(f"{notion['title']}{for_whom}: ", metres(total_mm)),
            data=data,
            depends_on=depends_on,
        ),
        Fragment(
            name=cut_name,
            kind="figure",
            said=by_garment([one.size for one in each], cuts),
            data=lengths,
            depends_on=depends_on,
        ),
    ]


def _in_lignes(notion: NotionJson) -> Said:
    """The size in the unit that buttons are sold by in some countries; nothing for what is no button."""
    diameter_mm = notion["diameter_mm"]
    if diameter_mm is None or "button" not in notion["kinds"]:
        return say()
    return say(f"A button of {diameter_mm:g} mm is {lignes(diameter_mm)} ligne.")


def _cut_sentence(cut: Cut, count: int | None) -> Said:
    first = "Cut " if count in (None, 1) else f"Cut {count} pieces, each "
    if cut.tail_mm:
        return say(first, measured(cut.total_mm), ": mark ", measured(cut.closed_mm), " on it, and leave ",
                   millimetres(cut.tail_mm), " at either end, to be caught in the seams.")  # fmt: skip
    if not cut.overlap_mm:
        return say(first, measured(cut.total_mm), ".")
    parts = (measured(cut.closed_mm), " closed and ", measured(cut.overlap_mm), " overlap.")
    return say(first, measured(cut.total_mm), ": ", *parts)


def _tidy(mm: float) -> float:
    """Millimetres to a hundredth, without the dust of floating point."""
    return round(mm * 100) / 100
