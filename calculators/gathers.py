"""How much is gathered, and where do both edges have to be marked so that the fullness spreads evenly?

Marks: free zone z, edge of length L, at z + k/4 · (L − z) on *each* of the two edges, from a named seam (geometry).

>>> marks_mm(150, 0), marks_mm(150, 30)
([37.5, 75.0, 112.5], [30, 60.0, 90.0, 120.0])
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .conditions import holds
from .fragments import NOTHING, Fragment, Said, say
from .garments import by_garment, garments
from .request import Request
from .units import Shown, measured

QUARTERS = 4
EASED_BELOW = 1.3
"""Below this an edge is not gathered: the shorter one is stretched to it, as a rib band is. Our choice."""


def marks_mm(length_mm: float, free_mm: float) -> list[float]:
    """Where an edge is marked, in mm from the named seam: the end of the free zone, and quarters of the rest."""
    rest = length_mm - free_mm
    return [*([free_mm] if free_mm else []), *(free_mm + k * rest / QUARTERS for k in range(1, QUARTERS))]


def one_gather(request: Request, gather: Mapping[str, Any]) -> Fragment:
    """Fragment `gathers.<seam>`: both lengths, how many times as long, and the marks; silent where not sewn."""
    name, said, sizes, data = f"gathers.{gather['name']}", [], [], dict[str, Any]()
    for one in garments(request):
        size = one.size or ""
        for case in gather["cases"]:
            if size in case["join_mm"] and holds(case["when"], one.chosen):
                join, to = case["join_mm"][size], case["to_mm"][size]
                said.append(_said(gather, join, to))
                sizes.append(size)
                marks = {side: [round(at * 10) / 10 for at in marks_mm(mm, gather["free_mm"])]
                         for side, mm in (("join", join), ("to", to))}  # fmt: skip
                data = data or {"join_mm": join, "to_mm": to, "ratio": round(join / to * 100) / 100, "marks_mm": marks}
                break
    depends_on = request.depends(*(case["when"] for case in gather["cases"]))
    return Fragment(name=name, kind="sentence", said=by_garment(sizes, said) if said else say(), data=data,
                    depends_on=depends_on)  # fmt: skip


def _said(gather: Mapping[str, Any], join_mm: float, to_mm: float) -> Said:
    free_mm, ratio = gather["free_mm"], f"{join_mm / to_mm:.2f}".rstrip("0").rstrip(".")
    gathered = join_mm >= EASED_BELOW * to_mm
    begun = f"from {gather['from']}" if gather["from"] else "from one end"
    parts: list[str | Shown | Said] = [f"{gather['join']}, on {gather['to']}: ", measured(join_mm),
                                       " gathered to " if gathered else " on ", measured(to_mm),
                                       f", {ratio} times as long. "]  # fmt: skip
    parts += [] if gathered else ["The shorter edge is stretched. "]
    if free_mm:
        parts += ["Leave the first ", measured(free_mm), " plain. "]
    parts += [f"Mark {begun}, the longer edge at ", row(marks_mm(join_mm, free_mm)), ", the shorter at ",
              row(marks_mm(to_mm, free_mm)), ", and pin mark on mark. The other side alike."]  # fmt: skip
    return say(*parts)


def marks_in(gathers: Sequence[Mapping[str, Any]], side: str, chosen: Mapping[str, str], size: str) -> Said:
    """The marks of one edge as a row. Arguments: seams of one name; `join_mm` for the gathered edge, `to_mm` for the
    other one; nothing where none of them is sewn."""
    for gather in gathers:
        for case in gather["cases"]:
            if size in case[side] and holds(case["when"], chosen):
                return row(marks_mm(case[side][size], gather["free_mm"]))
    return NOTHING


def row(mm: Sequence[float]) -> Said:
    """Several lengths with the unit once."""
    shown = [measured(one) for one in mm]
    bare = [Shown(one.cm.removesuffix(" cm"), one.inch.removesuffix(" in")) for one in shown[:-1]]
    parts: list[str | Shown] = [part for one in bare for part in (one, ", ")]
    return say(*parts[:-1], " and ", shown[-1])
