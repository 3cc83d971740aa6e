"""How do the pieces lie on the cloth? For each cloth a drawing that is fetched when somebody opens it.

The first cloth's drawing for the usual choices stands in the page from the start, so that it is there without a
script too; the page's script fills in the others, and follows what is chosen.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from boltside.calculators.door import answer
from boltside.pages.markup import Html, element, join
from boltside.pages.slots import Slots

Sheet = Mapping[str, Any]

INTRO = (
    "How the pieces lie in the amount above. Lay them in this order or in your own: "
    "whatever fits into the same length is right."
)
NEEDS_SCRIPT = "This drawing is made for what you choose, which needs JavaScript."


def lay_part(sheet: Sheet, slots: Slots, request: Mapping[str, Any]) -> Html:
    """A line to open for each cloth; hidden for a cloth that the usual choices do not take.

    Arguments: the sheet, opened by the calculators; the default answer and its request. The drawing of the first
    cloth is filled in where its lay file has been opened too.
    """
    needed = [cloth["name"] for cloth in sheet["cloths"] if taken(slots, cloth["name"])]
    parts = []
    for cloth in sheet["cloths"]:
        name = cloth["name"]
        drawn = Slots(lay_answer(request, name) if name in needed[:1] else {"fragments": []})
        parts.append(one_lay(cloth, drawn, hidden=name not in needed))
    return join([element("p", INTRO), *parts])


def taken(slots: Slots, cloth: str) -> bool:
    """True where the answer gives an amount of this cloth."""
    found = slots.fragment(f"cloth.{cloth}")
    return bool(found and found["kind"] == "figure")


def lay_answer(request: Mapping[str, Any], cloth: str) -> dict[str, Any]:
    """The calculators' drawing of a cloth's lay; nothing where its lay file is not open."""
    made: dict[str, Any] = json.loads(answer("lay", json.dumps({**request, "cloth": cloth})))
    return made if any(part["kind"] == "drawing" for part in made["fragments"]) else {"fragments": []}


def one_lay(cloth: Mapping[str, Any], drawn: Slots, *, hidden: bool) -> Html:
    """The line that opens to one cloth's drawing, and under it what lies there, in words."""
    name = cloth["name"]
    found = drawn.fragment(f"lay.{name}")
    scale = element("span", scale_of(found["data"].get("scale")) if found else "", data_lay_scale=True)
    return element(
        "details",
        element("summary", f"Show the lay: {cloth['title']}"),
        element("p", role="status", class_="aside", data_lay_state=True, hidden=True),
        element(
            "div",
            drawn.one(f"lay.{name}", class_="lay__drawing"),
            element("p", scale, class_="aside lay__scale"),
            drawn.one(f"lay.{name}.words", class_="lay__words"),
        ),
        "" if found else element("noscript", element("p", NEEDS_SCRIPT)),
        class_="folded lay",
        data_lay=name,
        data_calculator="lay",
        hidden=hidden,
    )


def scale_of(scale: int | None) -> str:
    """The scale in which paper shows the drawing.

    >>> scale_of(10), scale_of(None)
    ('On paper 1:10.', '')
    """
    return f"On paper 1:{scale}." if scale else ""
