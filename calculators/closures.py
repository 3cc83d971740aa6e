"""Which buttons or snaps, how many, how long a buttonhole, and what else do they need?

A buttonhole is as long as the button's diameter and thickness together (Extension Bulletin 57, 1965).

>>> buttonhole_mm(13, 3), overlap_mm(13)
(16, 9.75)
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .carries import carried, carried_words, carries_conditions
from .conditions import ConditionJson, holds
from .elastic import NotionJson
from .fragments import Fragment, Said, counted, say
from .garments import by_garment, garments
from .notions import count_of, for_each, whom
from .places import case_of, places_conditions, places_said
from .request import Request
from .units import Shown, lignes, millimetres, millimetres_up

CLOSURES = ("button", "snap")
"""Kinds of notions that this calculator is about."""

BULKY_MM = 3
"""Added to a buttonhole in bulky cloth: 1/8 in. Source: Extension Bulletin 57, 1965."""
BUTTONHOLE_SOURCE = "Extension Bulletin 57, 1965"
TAPE_SOURCE = "New Mexico State University, Guide C-231"
TEXTBOOK = "sewing textbook"
OVERLAP_PARTS = (3, 4)
"""An edge laps at least this part of the button's diameter beyond the centre line. Source: sewing textbook."""
BEYOND_HALF_MM = (6, 13)
"""Another handbook: half of the diameter and so much more (1/4 to 1/2 in). Source: Extension Bulletin 57, 1965."""
BEYOND_CENTRE_MM = 3
"""A hole across the edge starts so far beyond the centre line, towards the edge. Source: sewing textbook."""

SMALL_PARTS = (
    "Buttons and snaps come off, and a child under three can choke on one: sew them firmly and check them often."
)
"""Source: the trade's own caution, common practice."""

BACKING = "Snaps need a firm backing in both layers."
"""Common practice."""


def buttonhole_mm(diameter_mm: float, thickness_mm: float) -> float:
    """The length of a buttonhole, in mm. Source: :data:`BUTTONHOLE_SOURCE`."""
    return diameter_mm + thickness_mm


def overlap_mm(diameter_mm: float) -> float:
    """How far the edge laps at least beyond the centre line, in mm. Source: :data:`TEXTBOOK`."""
    return diameter_mm * OVERLAP_PARTS[0] / OVERLAP_PARTS[1]


def closures(sheet: Mapping[str, Any]) -> list[NotionJson]:
    """The sheet's buttons and snaps."""
    return [one for one in sheet["notions"] if any(kind in CLOSURES for kind in one["kinds"])]


def closure_fragments(request: Request) -> list[Fragment]:
    """Fragments `closure.<notion>` (how many of which size), `….places` (where) and `….how` (what they need).

    Arguments: a request whose size is known. Closures that these choices do not need say nothing.
    """
    return [part for notion in closures(request.sheet) for part in one_closure(request, notion)]


def one_closure(request: Request, notion: NotionJson) -> list[Fragment]:
    """The fragments of one closure."""
    name = f"closure.{notion['name']}"
    depends_on = closure_depends_on(request, notion)
    each = for_each(request, notion)
    if not each:
        return [Fragment(name=f"{name}{part}", kind="sentence", depends_on=depends_on) for part in _PARTS]
    count, diameter_mm = count_of(each), notion["diameter_mm"]
    data: dict[str, Any] = {"notion": notion["name"], "kinds": list(notion["kinds"]), "count": count,
                            "diameter_mm": diameter_mm, "thickness_mm": notion["thickness_mm"],
                            "overlap_mm": None, "ligne": None, "buttonhole_mm": None}  # fmt: skip
    if diameter_mm is not None:
        data |= {"ligne": lignes(diameter_mm), "overlap_mm": overlap_mm(diameter_mm)}
        if "button" in notion["kinds"] and notion["thickness_mm"] is not None:
            data["buttonhole_mm"] = buttonhole_mm(diameter_mm, notion["thickness_mm"])
    wanted = [one for one in garments(request) if holds(notion["when"], one.chosen)]
    rows = list(dict.fromkeys(row for one in wanted for row in _how(one, notion, data)))
    sizes = list(dict.fromkeys(one.size or "" for one in wanted))
    places = [listed(_places(one, notion), "bs-closure") for one in wanted[: len(sizes)]]
    return [
        Fragment(name=name, kind="figure", said=_said(notion, data, whom(request, each)), data=data,
                 depends_on=depends_on),
        Fragment(name=f"{name}.places", kind="list", said=by_garment(sizes, places),
                 data=_places_data(wanted[0], notion), depends_on=depends_on),
        Fragment(name=f"{name}.how", kind="list", said=listed(rows, "bs-closure"), data={"notion": notion["name"]},
                 depends_on=depends_on),
    ]  # fmt: skip


_PARTS = ("", ".places", ".how")


def _places(request: Request, notion: NotionJson) -> list[Said]:
    """Where they sit, as sentences; nothing where the designer does not say along which line."""
    case = case_of(notion, request.chosen, request.size or "")
    return places_said(notion, case, request.size or "", holed(request, notion)) if case is not None else []


def _places_data(request: Request, notion: NotionJson) -> dict[str, Any]:
    case = case_of(notion, request.chosen, request.size or "")
    return {} if case is None else {**case["sizes"][request.size], "rows": notion["placed"]["rows"]}


def holed(request: Request, notion: NotionJson) -> str | None:
    """The copy that carries what the notion names (holes, upper halves of snaps), or None."""
    for item in _items(request, notion):
        if holds(item["when"], request.chosen):
            for copy, what in carried(item, request.chosen):
                if notion["carried_by"] in what:
                    return copy
    return None


def closure_depends_on(request: Request, notion: NotionJson) -> tuple[str, ...]:
    """What a closure depends on: its own condition, and the pieces that carry it or are interfaced."""
    conditions: list[ConditionJson] = [notion["when"], *places_conditions(notion)]
    for item in _items(request, notion):
        conditions += [item["when"], *carries_conditions(item)]
        conditions += [one["when"] for one in _backings(request, item)]
    return request.depends(*conditions)


def _items(request: Request, notion: NotionJson) -> list[Mapping[str, Any]]:
    """The lines whose copies may carry this closure: those that carry what it names, or what no closure names."""
    word = notion["carried_by"]
    others = {one["carried_by"] for one in request.sheet["notions"]} - {None}
    return [item for item in request.sheet["items"]
            if any(one["what"] == word if word else one["what"] not in others
                   for copy in item["copies"] for one in copy["carries"])]  # fmt: skip


def _backings(request: Request, item: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    """The interfacing of that piece."""
    return [one for one in request.sheet["items"] if one["kind"] == "interfacing" and one["piece"] == item["piece"]]


def _said(notion: NotionJson, data: Mapping[str, Any], for_whom: str) -> Said:
    parts: list[str | Shown | Said] = [f"{notion['title']}{for_whom}: "]
    if data["count"] is not None:
        parts.append(counted(data["count"]))
    if data["diameter_mm"] is not None:
        # Many a title says the size already.
        if f"{data['diameter_mm']:g} mm" not in notion["title"].replace("\u00a0", " "):
            parts += [" of " if data["count"] is not None else "", millimetres(data["diameter_mm"]), " across"]
        parts.append(f" ({data['ligne']} ligne)" if len(parts) > 1 else f"{data['ligne']} ligne")
    return say(*parts)


def _how(request: Request, notion: NotionJson, data: Mapping[str, Any]) -> list[Said]:
    """Sentences: the hole, the overlap, who carries what, what lies behind, what to beware of."""
    rows: list[Said] = []
    placed = notion.get("placed") or {}
    if "button" in notion["kinds"]:
        rows += _holes(data, placed.get("holes"))
    rows += _laps(data, case_of(notion, request.chosen, request.size or ""), request.size or "")
    for item in _items(request, notion):
        if holds(item["when"], request.chosen) and carried(item, request.chosen):
            rows.append(say(f"{item['title']}: {'; '.join(carried_words(item, request.chosen))}."))
            for one in _backings(request, item):
                if holds(one["when"], request.chosen):
                    cloth = next(c["title"] for c in request.sheet["cloths"] if c["name"] == one["cloth"])
                    notes = f" ({'; '.join(one['notes'])})" if one["notes"] else ""
                    rows.append(say(f"Backed with {cloth}: {one['title']}{notes}."))
    if "snap" in notion["kinds"]:
        rows.append(say(BACKING))
    if notion["needs"]:
        rows.append(say(notion["needs"]))
    rows.append(say(SMALL_PARTS))
    return rows


def _laps(data: Mapping[str, Any], case: Mapping[str, Any] | None, size: str) -> list[Said]:
    """How far the edge has to lap beyond the line by two handbooks, and how far it does where that was measured."""
    edge_mm = None if case is None else case["sizes"][size]["edge_mm"]
    # Along a seam, as in an opening with snaps, there is no line to lap over.
    if data["overlap_mm"] is None or (case is not None and edge_mm is None):
        return []
    low, high = (data["diameter_mm"] / 2 + more for more in BEYOND_HALF_MM)
    said = say("The edge laps at least ", millimetres_up(data["overlap_mm"]), " beyond the centre line: three quarters"
               f" of the diameter ({TEXTBOOK}); by another handbook half of it and ", millimetres(BEYOND_HALF_MM[0]),
               " to ", millimetres(BEYOND_HALF_MM[1]), " more, ", millimetres_up(low), " to ", millimetres_up(high),
               f" ({BUTTONHOLE_SOURCE}).")  # fmt: skip
    return [said if edge_mm is None else say(said, " Here it laps ", millimetres(edge_mm), ".")]


def _holes(data: Mapping[str, Any], holes: str | None) -> list[Said]:
    """How long a hole is and where it begins; `holes` says whether they run across the edge or along it, None: either.
    """
    rows: list[Said] = []
    if data["buttonhole_mm"] is not None:
        rows.append(
            say("Buttonhole ", millimetres_up(data["buttonhole_mm"]), " long: diameter ",
                millimetres(data["diameter_mm"]), " and thickness ", millimetres(data["thickness_mm"]),
                f" together ({BUTTONHOLE_SOURCE}). In bulky cloth ", millimetres(BULKY_MM), " longer.")
        )  # fmt: skip
    else:
        rows.append(say(f"Buttonhole: the button's diameter and thickness together ({BUTTONHOLE_SOURCE})."))
    rows.append(
        say("Measured another way: half of a tape laid round the button, and ", millimetres(BULKY_MM),
            f" ({TAPE_SOURCE}). Try one on a scrap.")
    )  # fmt: skip
    start: list[str | Shown] = ["starts ", millimetres(BEYOND_CENTRE_MM), " beyond the centre line, towards the edge"]
    if holes == "across":
        rows.append(say("The holes run across the edge. Each ", *start, f" ({TEXTBOOK})."))
    elif holes == "along":
        rows.append(say(f"The holes run along the edge and lie on the centre line ({TEXTBOOK})."))
    else:
        along = f"; one along the edge lies on the centre line ({TEXTBOOK})."
        rows.append(say("A hole across the edge ", *start, along))
    return rows


def listed(rows: Sequence[Said], kind: str) -> Said:
    """Sentences as a list of this class, in HTML; one after the other in text."""
    html = "".join(f"<li>{row.html}</li>" for row in rows)
    return Said(
        text=" ".join(row.text for row in rows),
        text_inch=" ".join(row.text_inch for row in rows),
        html=f'<ul class="{kind}">{html}</ul>' if rows else "",
    )
