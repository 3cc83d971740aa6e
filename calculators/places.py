"""Where does each button or snap sit, along the line that the designer names?

The build works the places out from the outlines; here they are chosen and said. Precedence: no hole on a cross seam;
then the distances from the ends; then equal spaces; then the wished number or space.

>>> placed = {"cases": [{"when": [{"length": ["hip"]}], "sizes": {"92": {"mm": [12, 74.6, 137.2]}}, "right": {}}]}
>>> case = case_of({"placed": placed}, {"length": "hip"}, "92")
>>> in_a_row(case["sizes"]["92"]["mm"]).text
'12, 75 and 137 mm'
>>> strip_name({"name": "buttons", "placed": placed}, case, "92", "wearers-left")
'buttons-92-left'
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .carries import SIDES, copy_words
from .conditions import ConditionJson, holds
from .fragments import Said, escaped, say
from .units import Shown, millimetres

NotionJson = Mapping[str, Any]
CaseJson = Mapping[str, Any]

STRIPS = "strips"
"""The folder of the paper strips, as seen from the pattern's page."""
ALONG_ABOVE_MM = 3
"""A hole along the edge begins so far above its button's place. From memory; 3 mm as for holes across (textbook)."""
GAVE = {
    "first": "The first sits further in than usual, to keep clear of what lies above it.",
    "last": "The last sits further in than usual, to keep clear of what lies below it.",
    "number": "Their number is another than the wished space would give, so that none lies on a seam.",
    "equal": "The spaces differ a little, so that none lies on a seam.",
}
"""What is said where something had to give way."""


def case_of(notion: NotionJson, chosen: Mapping[str, str], size: str) -> CaseJson | None:
    """The case of the places for these choices and this size, or None where they are not told."""
    cases = (notion.get("placed") or {"cases": ()})["cases"]
    return next((one for one in cases if size in one["sizes"] and holds(one["when"], chosen)), None)


def placed_count(notion: NotionJson, chosen: Mapping[str, str], size: str) -> int | None:
    """How many there are in all rows, or None where the places are not told."""
    case = case_of(notion, chosen, size)
    return None if case is None else len(case["sizes"][size]["mm"]) * int(notion["placed"]["rows"])


def places_conditions(notion: NotionJson) -> list[ConditionJson]:
    """The conditions on which it depends where they sit."""
    return [one["when"] for one in (notion.get("placed") or {"cases": ()})["cases"]]


def strip_name(notion: NotionJson, case: CaseJson, size: str, copy: str | None) -> str:
    """The name of the paper strip: notion, size, which case where there are several, which copy where it matters."""
    cases = [one for one in notion["placed"]["cases"] if size in one["sizes"]]
    number = f"-{cases.index(case) + 1}" if len(cases) > 1 else ""
    side = f"-{copy.removeprefix('wearers-')}" if copy in SIDES else ""
    return f"{notion['name']}-{size}{number}{side}"


def in_a_row(mm: Sequence[float]) -> Said:
    """Several small lengths with the unit once."""
    shown = [Shown(f"{round(one)} mm", millimetres(one).inch) for one in mm]
    words: list[str | Shown] = []
    for number, one in enumerate(shown):
        between = "" if not number else " and " if number == len(shown) - 1 else ", "
        last = number == len(shown) - 1
        words += [between, one if last else Shown(one.cm.removesuffix(" mm"), one.inch.removesuffix(" in"))]
    return say(*words)


def places_said(notion: NotionJson, case: CaseJson, size: str, copy: str | None) -> list[Said]:
    """Sentences: the places, the spaces, what gave way, the paper strip.

    Arguments: the notion, the case, the size, and which copy carries the holes (or upper halves), None where no copy
    of its own does.
    """
    placed, found = notion["placed"], case["sizes"][size]
    mm, each = found["mm"], placed["each"]
    many = f"{len(mm)} place{'s' if len(mm) > 1 else ''}: "
    rows = f"{each[:1].upper()}{each[1:]} {many}" if each else many
    middle = "to where each button sits" if placed["holes"] == "along" else "to the middle of each"
    said = [say(rows, in_a_row(mm), f" {placed['from']}, {middle}.")]
    if len(mm) > 2 and "equal" not in found["gave"]:
        said.append(say("The spaces between them are equal: ", millimetres((mm[-1] - mm[0]) / (len(mm) - 1)), "."))
    said += [say(GAVE[one]) for one in found["gave"]]
    if placed["holes"] == "along":
        said.append(say("A button sits near the upper end of its hole: each hole begins ", millimetres(ALONG_ABOVE_MM),
                        " above that."))  # fmt: skip
    return [*said, strip_said(notion, case, size, copy)]


def strip_said(notion: NotionJson, case: CaseJson, size: str, copy: str | None) -> Said:
    """The paper strip as a link and a picture, and what to do with it."""
    side = f", {copy_words(copy)}" if copy in SIDES else ""
    title = f"Paper strip, size {size}: {case['piece']}{side}"
    address = escaped(f"{STRIPS}/{strip_name(notion, case, size, copy)}.svg")
    link = Said(text=title, text_inch=title, html=f'<a href="{address}">{escaped(title)}</a>')
    picture = Said(text="", text_inch="", html=f'<img src="{address}" alt="" loading="lazy">')
    return say(link, ", true to scale. Print it at 100 %, check its 100 mm, and lay it along the line.", picture)
