"""How large is the finished garment, and how much larger than the body?

>>> case_mm([{"when": [{"length": ["hip"]}], "mm": {"92": 330.0}}], {"length": "hip"}, "92")
330.0
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .conditions import holds
from .fragments import NOTHING, Fragment, Said, joined, say
from .garments import garments
from .nap import kinds_of
from .request import Request
from .units import measured


def case_mm(cases: Sequence[Mapping[str, Any]], chosen: Mapping[str, str], size: str) -> float | None:
    """The length of the first case that holds, in mm; None where none does, or not in this size."""
    for case in cases:
        if holds(case["when"], chosen):
            return case["mm"].get(size)
    return None


def ease_meant_mm(request: Request, measurement: Mapping[str, Any]) -> list[float] | None:
    """The ease that the designer means, from and to, in mm, for the cloth that was chosen; None where she says nothing.

    It goes by the first of the pattern's cloths that is of a kind for which an ease is given.
    """
    for cloth in request.sheet["cloths"]:
        for kind in kinds_of(cloth, request.chosen):
            if kind in measurement["ease_mm"]:
                return list(measurement["ease_mm"][kind])
    return None


def one_finished(request: Request, one: Mapping[str, Any]) -> Fragment:
    """Fragment `finished.<name>`: a finished measurement with its ease over the body.

    Arguments: a request whose size is known. A measurement that these choices do not have says nothing.
    """
    conditions = [case["when"] for case in one["cases"]]
    conditions += [case["when"] for cloth in request.sheet["cloths"] for case in cloth["kind_cases"]]
    depends_on = request.depends(*conditions)
    name = f"finished.{one['name']}"
    each = [(wanted.size or "", *_of_one(wanted, one)) for wanted in garments(request)]
    each = [part for part in each if part[1].html]
    if not each:
        return Fragment(name=name, kind="sentence", depends_on=depends_on)
    parts = [words if request.second is None else say(f"size {size} ", words) for size, words, _ in each]
    parts = parts if len(set(parts)) == len(parts) else parts[:1]
    said = say(f"{one['title']}: ", joined(parts, "; "))
    data = each[0][2] if request.second is None else {**each[0][2], "each": [part[2] for part in each]}
    return Fragment(name=name, kind="figure", said=said, data=data, depends_on=depends_on)


def _of_one(request: Request, one: Mapping[str, Any]) -> tuple[Said, dict[str, Any]]:
    """The measurement of one garment in words and as data; no words where these choices do not have it."""
    size = request.size or ""
    mm = case_mm(one["cases"], request.chosen, size)
    if mm is None:
        return NOTHING, {}
    body_mm = request.sheet["body"]["rows"][size].get(one["body"]) if one["body"] else None
    data: dict[str, Any] = {"measurement": one["name"], "mm": mm, "body": one["body"], "body_mm": body_mm}
    said = say(measured(mm))
    if body_mm is not None:
        ease_mm = round((mm - body_mm) * 10) / 10
        data |= {"ease_mm": ease_mm, "ease_meant_mm": ease_meant_mm(request, one)}
        than = " more than the body" if ease_mm >= 0 else " less than the body"
        said = say(said, ", ", measured(abs(ease_mm)), than)
    return said, data
