"""What must somebody who sews for a child be told? Reminders only: nothing here says that a rule is met.

The texts rest on published guidance: EN 14682 as explained by a market surveillance authority, and 16 CFR 1120,
1501, 1615 and 1616 as explained by the United States Consumer Product Safety Commission.

>>> caution_names({"cautions": [], "notions": [{"kinds": ["elastic"]}]})
['elastic']
>>> caution_names({"cautions": [], "notions": [{"kinds": ["snap"], "when": [{"opening": ["none"]}]}]}, [{}])
[]
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .conditions import holds
from .fragments import Fragment, Said, say
from .garments import garments
from .request import Request

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


def caution_names(sheet: Mapping[str, Any], sewn: Sequence[Mapping[str, str]] | None = None) -> list[str]:
    """The cautions of a pattern: its own and those that its notions bring, in the order of `TEXTS`.

    Argument `sewn`: what is chosen for each garment; of the notions only those count that one of them needs. Left out:
    all.
    """
    wanted = set(sheet["cautions"])
    for notion in sheet["notions"]:
        if sewn is None or any(holds(notion["when"], chosen) for chosen in sewn):
            wanted |= {ADDED_BY_KIND[kind] for kind in notion["kinds"] if kind in ADDED_BY_KIND}
    return [name for name in TEXTS if name in wanted]


def caution_fragment(requests: Sequence[Request], depends_on: tuple[str, ...]) -> Fragment:
    """Fragment `buy.cautions`: what goes for any of these garments, each once, and that local rules come first.

    Arguments: what is sewn; what it depends on which these are.
    """
    wanted = {name for of in requests for name in caution_names(of.sheet, [one.chosen for one in garments(of)])}
    rows = [say(f"{title}. {words}") for name, (title, words) in TEXTS.items() if name in wanted]
    said = Said(
        text=" ".join(row.text for row in [*rows, say(DEFER)]),
        text_inch=" ".join(row.text_inch for row in [*rows, say(DEFER)]),
        html="".join(f"<p>{row.html}</p>" for row in [*rows, say(DEFER)]),
    )
    shown = said if requests else say()
    return Fragment(name="buy.cautions", kind="warning", said=shown, data={"of": sorted(wanted)}, depends_on=depends_on)
