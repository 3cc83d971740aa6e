"""Which kinds of cloth have a nap? The one list that the panel's question and the pages about cloth go by.

All of it is common practice: corduroy, velvet, fleece, many knits and one-way prints are laid with all pieces the same
way up. A list can't know a single bolt, so it ends with how to find out.

>>> [kind.title for kind in KINDS if kind.nap][:2]
['Corduroy, needlecord', 'Velvet, velveteen, velour']
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class NapKind:
    """A kind of cloth as it is called in a shop, whether it is laid with nap, and why. Common practice."""

    title: str
    nap: bool
    why: str


KINDS = (
    NapKind(title="Corduroy, needlecord", nap=True, why="The pile shades: upside down it looks lighter or darker."),
    NapKind(title="Velvet, velveteen, velour", nap=True, why="The pile shades, more than any other."),
    NapKind(title="Fleece, plush, faux fur", nap=True, why="The hairs lie one way."),
    NapKind(title="Brushed cotton, flannel", nap=True, why="Where it is brushed one way; stroke it to find out."),
    NapKind(title="Jersey, interlock, sweatshirt", nap=True, why="Loops show a direction, on many knits."),
    NapKind(title="A print with a top and a bottom", nap=True, why="Figures would stand on their heads."),
    NapKind(title="Poplin, lawn, linen", nap=False, why="Looks the same from both ends."),
    NapKind(title="Denim, twill, canvas", nap=False, why="Looks the same from both ends, where it is not brushed."),
    NapKind(title="A print that looks the same upside down", nap=False, why="Turning it round changes nothing."),
)
"""The kinds that have one first."""

NOT_LISTED = "Not listed? Stroke it lengthwise: smooth one way and rough the other is nap. Common practice."


def yes_or_no(kind: NapKind) -> str:
    """The answer to the question about nap, as one word."""
    return "yes" if kind.nap else "no"
