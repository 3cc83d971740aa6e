"""Does it go on, and does it hold? Rings that are pulled over the head or the hip, and elastic.

Over the head a ring opens at least 10 mm more than a head at the 97th percentile, over another part of the body 20 mm
more (common practice); elastic stretches to about 1.8 times its length (from memory).

>>> missing_mm(500, 491, 10), missing_mm(542, 517, 10)
(1, 0)
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from .conditions import holds
from .elastic import STRETCHED, NotionJson
from .fragments import NOTHING, Fragment, Kind, Said, joined, say
from .garments import by_garment, garments
from .notions import for_each
from .request import Request
from .units import measured, millimetres, millimetres_up

HEAD = "head"
SOURCE = "common practice"
MORE = '<a href="#made-with">How that is reckoned</a>'
"""Leads to the section that says how far it opens and what is needed."""


def missing_mm(opens_mm: float, body_mm: float, room_mm: float) -> float:
    """By how much a ring is too small, in mm; 0 where it is not, or by less than half a millimetre."""
    missing = body_mm + room_mm - opens_mm
    return missing if missing >= 0.5 else 0


def one_ring(request: Request, ring: Mapping[str, Any]) -> Fragment:
    """Fragment `pull-on.<ring>`: how far it opens and what is needed, a warning with the missing millimetres."""
    said, sizes, data = list[Said](), list[str](), dict[str, Any]()
    for size, opens, body, missing in _rings(request, ring):
        said.append(_ring_said(ring, opens, body, missing))
        sizes.append(size)
        if not data or missing > data["missing_mm"]:
            data = {"opens_mm": opens, "body_mm": body, "missing_mm": round(missing * 10) / 10}
    depends_on = request.depends(*(case["when"] for case in ring["cases"]))
    kind: Kind = "warning" if data.get("missing_mm") else "sentence"
    return Fragment(name=f"pull-on.{ring['name']}", kind=kind, said=by_garment(sizes, said) if said else say(),
                    data=data, depends_on=depends_on)  # fmt: skip


def _rings(request: Request, ring: Mapping[str, Any]) -> Iterator[tuple[str, float, float, float]]:
    """Of each garment that has the ring its size, what it opens to, the body there, and what is missing, in mm."""
    for one in garments(request):
        size = one.size or ""
        for case in ring["cases"]:
            if size in case["mm"] and size in ring["body_mm"] and holds(case["when"], one.chosen):
                opens, body = case["mm"][size], ring["body_mm"][size]
                yield size, opens, body, missing_mm(opens, body, ring["room_mm"])
                break


def ring_warning(request: Request, ring: Mapping[str, Any]) -> Fragment:
    """Fragment `advice.on.<ring>`: that it does not go on, for the note at the top; nothing where it does."""
    found = [(size, _short(ring["title"], missing)) for size, _, _, missing in _rings(request, ring)]
    return _warning(ring["name"], found, request.depends(*(case["when"] for case in ring["cases"])))


def elastic_warning(request: Request, notion: NotionJson) -> Fragment:
    """Fragment `advice.on.<notion>`: that an elastic does not pass what it is pulled over, for the note at the top."""
    wanted = [one for one in garments(request) if holds(notion["when"], one.chosen)]
    found = []
    for one, of in zip(wanted, for_each(request, notion), strict=True):
        body = one.sheet["body"]["rows"][one.size]
        over = max((body[name] for name in notion["passes"] if name in body), default=0)
        closed_mm = of.cut.closed_mm if of.cut else over
        found.append((one.size or "", _short(notion["title"], missing_mm(closed_mm * STRETCHED, over, 0))))
    conditions = [case["when"] for case in notion["edge_cases"]]
    return _warning(notion["name"], found, request.depends(notion["when"], *conditions))


def _short(title: str, missing: float) -> Said:
    if not missing:
        return NOTHING
    said = say(f"{title}: ", millimetres_up(missing), " too little to pull it on. ")
    return Said(text=said.text.rstrip(), text_inch=said.text_inch.rstrip(), html=f"{said.html}{MORE}")


def _warning(name: str, found: Sequence[tuple[str, Said]], depends_on: tuple[str, ...]) -> Fragment:
    said = by_garment([size for size, _ in found], [one for _, one in found]) if found else NOTHING
    return Fragment(name=f"advice.on.{name}", kind="warning", said=said, depends_on=depends_on)


def _ring_said(ring: Mapping[str, Any], opens_mm: float, body_mm: float, missing: float) -> Said:
    whose = "a head as large as 97 of 100 children have at most" if ring["over"] == HEAD else f"the {ring['over']}"
    needed_mm = body_mm + ring["room_mm"]
    said = say(f"{ring['title']}: ", measured(opens_mm), " round. Needed are ", measured(needed_mm), ": ",
               measured(body_mm), f" for {whose}, and ", measured(ring["room_mm"]), f" more ({SOURCE}).")  # fmt: skip
    if not missing:
        return said
    return say(said, " That is ", millimetres_up(missing), " too little: try on before you finish the edge.")


def one_elastic(request: Request, notion: NotionJson) -> Fragment:
    """Fragment `elastic.<notion>`: whether it passes what it is pulled over, whether it holds, and its channel."""
    cases = notion["channel_cases"]
    depends_on = request.depends(notion["when"], *(case["when"] for case in (*cases, *notion["edge_cases"])))
    name = f"elastic.{notion['name']}"
    each = for_each(request, notion)
    wanted = [one for one in garments(request) if holds(notion["when"], one.chosen)]
    said = [_elastic_said(one, notion, of.cut.closed_mm) for one, of in zip(wanted, each, strict=True) if of.cut]
    if not said:
        return Fragment(name=name, kind="sentence", depends_on=depends_on)
    closed = each[0].cut.closed_mm if each[0].cut else 0
    data = {"closed_mm": closed, "stretched_mm": round(closed * STRETCHED)}
    return Fragment(name=name, kind="sentence", said=by_garment([one.size for one in each], said), data=data,
                    depends_on=depends_on)  # fmt: skip


def _elastic_said(request: Request, notion: NotionJson, closed_mm: float) -> Said:
    body, rule = request.sheet["body"]["rows"][request.size], notion["rule"]
    said = [_passes(closed_mm * STRETCHED, name, body[name]) for name in notion["passes"] if name in body]
    if rule is not None and rule["take"] == "ring" and rule["factor"] == 1 and rule["body"] in body:
        limb = body[rule["body"]]
        if closed_mm <= limb:
            said.append(say("Closed it is ", measured(closed_mm), f" round, the {rule['body']} ", measured(limb),
                            ": so it holds."))  # fmt: skip
        else:
            said.append(say("Closed it is longer than the ", f"{rule['body']}, ", measured(limb), ": take it in."))
    rows = joined([*said, *_channel(request, notion)])
    return say(f"{notion['title']}: ", rows) if rows.html else rows


def _passes(stretched_mm: float, name: str, body_mm: float) -> Said:
    does = "passes" if stretched_mm >= body_mm else "does not pass"
    return say("Stretched to about ", measured(stretched_mm), f", {STRETCHED:g} times its length, it {does} the "
               f"{name}, ", measured(body_mm), ".")  # fmt: skip


def _channel(request: Request, notion: NotionJson) -> Sequence[Said]:
    """How high the channel is, where the designer says how it is measured."""
    for case in notion["channel_cases"]:
        if request.size in case["mm"] and holds(case["when"], request.chosen):
            return [say("Its channel is ", millimetres(case["mm"][request.size]), " high.")]
    return []
