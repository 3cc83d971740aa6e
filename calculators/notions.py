"""What else to buy, and how many: elastic, buttons, tape.

>>> count_in({"count": 5, "tabled_count": {"68": 4}}, "68"), count_in({"count": 5, "tabled_count": {}}, "92")
(4, 5)
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .conditions import holds
from .elastic import CAUTION, Cut, NotionJson, cut_length
from .fragments import Fragment, Said, counted, say
from .request import Request
from .units import buy_mm, eighth_yards, lignes, measured, metres


def count_in(notion: NotionJson, size: str) -> int | None:
    """How many pieces in this size: the designer's figure for the size, else the usual count, else None."""
    count = notion["tabled_count"].get(size, notion["count"])
    return None if count is None else int(count)


def notion_fragments(request: Request, *, only_kind: str | None = None) -> list[Fragment]:
    """Fragments `notion.<name>` (what to buy), `notion.<name>.cut` (how to cut it) and, with elastic, its caution.

    Arguments: a request whose size is known; ``only_kind`` leaves out notions that are not of this kind.
    A notion that these choices do not need says nothing.
    """
    notions = [one for one in request.sheet["notions"] if only_kind is None or only_kind in one["kinds"]]
    fragments = []
    for notion in notions:
        fragments += _one_notion(request, notion)
    elastics = [notion for notion in notions if "elastic" in notion["kinds"]]
    if elastics:
        conditions = [notion["when"] for notion in elastics]
        needed = any(holds(condition, request.chosen) for condition in conditions)
        fragments.append(
            Fragment(
                name="caution.elastic",
                kind="warning",
                said=say(CAUTION if needed else ""),
                depends_on=request.depends(*conditions, size=False),
            )
        )
    return fragments


def _one_notion(request: Request, notion: Mapping[str, Any]) -> list[Fragment]:
    size = request.size or ""
    name, cut_name = f"notion.{notion['name']}", f"notion.{notion['name']}.cut"
    depends_on = request.depends(notion["when"], *(case["when"] for case in notion["edge_cases"]))
    if not holds(notion["when"], request.chosen):
        return [Fragment(name=one, kind="sentence", depends_on=depends_on) for one in (name, cut_name)]
    count = count_in(notion, size)
    cut = cut_length(notion, request.sheet["body"]["rows"][size], size, request.chosen)
    data: dict[str, Any] = {"notion": notion["name"], "kinds": list(notion["kinds"]), "count": count}
    if cut is None:
        said = say(notion["title"]) if count is None else say(f"{notion['title']}: ", counted(count))
        return [
            Fragment(name=name, kind="figure", said=said, data=data, depends_on=depends_on),
            Fragment(name=cut_name, kind="sentence", said=_in_lignes(notion), depends_on=depends_on),
        ]
    total_mm = cut.total_mm * (count or 1)
    data |= {"total_mm": _tidy(total_mm), "buy_mm": buy_mm(total_mm), "buy_eighth_yards": eighth_yards(total_mm)}
    lengths = {
        "notion": notion["name"],
        "count": count or 1,
        "cut_mm": _tidy(cut.total_mm),
        "closed_mm": _tidy(cut.closed_mm),
        "overlap_mm": _tidy(cut.overlap_mm),
        "tabled": cut.rule_mm is None or size in notion["tabled_mm"],
        "tabled_less_rule_mm": None if cut.rule_mm is None else _tidy(cut.total_mm - cut.rule_mm),
    }
    return [
        Fragment(
            name=name,
            kind="figure",
            said=say(f"{notion['title']}: ", metres(total_mm)),
            data=data,
            depends_on=depends_on,
        ),
        Fragment(name=cut_name, kind="figure", said=_cut_sentence(cut, count), data=lengths, depends_on=depends_on),
    ]


def _in_lignes(notion: NotionJson) -> Said:
    """The size in the unit that buttons are sold by in some countries; nothing for what is no button."""
    diameter_mm = notion["diameter_mm"]
    if diameter_mm is None or "button" not in notion["kinds"]:
        return say()
    return say(f"A button of {diameter_mm:g} mm is {lignes(diameter_mm)} ligne.")


def _cut_sentence(cut: Cut, count: int | None) -> Said:
    first = "Cut " if count in (None, 1) else f"Cut {count} pieces, each "
    if not cut.overlap_mm:
        return say(first, measured(cut.total_mm), ".")
    parts = (measured(cut.closed_mm), " closed and ", measured(cut.overlap_mm), " overlap.")
    return say(first, measured(cut.total_mm), ": ", *parts)


def _tidy(mm: float) -> float:
    """Millimetres to a hundredth, without the dust of floating point."""
    return round(mm * 100) / 100
