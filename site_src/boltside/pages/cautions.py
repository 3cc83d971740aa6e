"""What must somebody who sews for a child be told? Reminders only: nothing here says that a rule is met.

The texts rest on published guidance: EN 14682 as explained by a market surveillance authority, and 16 CFR 1120,
1501, 1615 and 1616 as explained by the United States Consumer Product Safety Commission.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boltside.pages.markup import Html, element, join

TEXTS: Mapping[str, tuple[str, str]] = {
    "small-parts": (
        "Small parts",
        "Buttons, snaps and pompoms can come off, and a child under three can choke on them. Sew them on firmly, "
        "look at them often, or close the garment another way.",
    ),
    "cords": (
        "Cords and ties",
        "No cord at the hood, head or neck, and nothing that ties behind the neck. In Europe EN 14682 is the standard "
        "for children up to 7 years or 134 cm: ends at the waist are 14 cm at most when the garment is open. In the "
        "United States (16 CFR 1120) hood and neck cords are out in sizes 2T to 12, and in sizes 2T to 16 ends at "
        "waist and hem are at most 3 in outside the channel, without knots or toggles, and bar-tacked.",
    ),
    "sleepwear": (
        "Not for sleep",
        "This is daywear. Nightwear has rules of its own, in the United States 16 CFR 1615 and 1616 on how cloth "
        "burns; a snug fit does not make cloth resist fire.",
    ),
    "elastic": (
        "Elastic",
        "Elastic must not mark the skin. Try it on the child before you close it, and look again as the child grows.",
    ),
}
ADDED_BY_KIND = {"elastic": "elastic", "button": "small-parts", "snap": "small-parts"}
"""Notions that bring a caution with them, whatever the pattern says."""
DEFER = (
    "These are reminders. They do not say that a garment made from this pattern meets any rule: "
    "the rules of the place where it is worn or sold come first, and they change."
)


def caution_names(sheet: Mapping[str, Any]) -> list[str]:
    """The cautions of a pattern: its own and those that its notions bring, in the order of `TEXTS`."""
    wanted = set(sheet["cautions"])
    for notion in sheet["notions"]:
        wanted |= {ADDED_BY_KIND[kind] for kind in notion["kinds"] if kind in ADDED_BY_KIND}
    return [name for name in TEXTS if name in wanted]


def cautions(sheet: Mapping[str, Any]) -> Html:
    """The cautions of a pattern as a list with the closing sentence."""
    entries = [
        element("div", element("dt", title), element("dd", words), class_="caution")
        for title, words in (TEXTS[name] for name in caution_names(sheet))
    ]
    return join([element("dl", *entries, class_="cautions") if entries else "", element("p", DEFER)])
