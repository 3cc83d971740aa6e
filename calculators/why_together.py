"""Why a figure for two garments is what it is: what holds for each of them, and what comes of both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .fragments import Said, say
from .spread import Spread
from .together import ADDED, NO_SHORTER
from .together_words import wanted_sizes
from .units import measured, needed, width


@dataclass(frozen=True, kw_only=True)
class Reason:
    """One step of an explanation: a sentence without a full stop, and the source or custom it rests on, if any."""

    said: Said
    source: str = ""


def in_turn(sizes: Sequence[str | None], each: Sequence[Sequence[Reason]]) -> list[Reason]:
    """The reasons of each garment, marked with its size; once where they are the same for both.

    >>> [one.said.text for one in in_turn(["92", "98"], [[Reason(said=say("A"))], [Reason(said=say("B"))]])]
    ['Size 92: A', 'Size 98: B']
    >>> [one.said.text for one in in_turn(["92", "92"], [[Reason(said=say("A"))], [Reason(said=say("A"))]])]
    ['For each garment: A']
    """
    if len(each) == 1:
        return list(each[0])
    if each[0] == each[1]:
        return [replace(one, said=say("For each garment: ", one.said)) for one in each[0]]
    return [
        replace(one, said=say(f"Size {size}: ", one.said))
        for size, reasons in zip(sizes, each, strict=True)
        for one in reasons
    ]


def summed(lengths_mm: Sequence[float]) -> list[Reason]:
    """Lengths of two garments added; nothing for one."""
    if len(lengths_mm) < 2:
        return []
    one, other = lengths_mm
    return [Reason(said=say("Both together: ", measured(one), " + ", measured(other), ": ", measured(one + other)))]


def counted_up(counts: Sequence[int | None]) -> list[Reason]:
    """Numbers of pieces for two garments added; nothing for one, or where nothing is counted."""
    if len(counts) < 2 or None in counts:
        return []
    known = [count for count in counts if count is not None]
    return [Reason(said=say(f"Both together: {' + '.join(map(str, known))}: {sum(known)}"))]


def two_behind(spread: Spread) -> list[Reason]:
    """Why the lays of two garments are added; nothing where one lay holds both, or one garment takes none."""
    kind = spread.together.get(spread.way)
    if kind not in (ADDED, NO_SHORTER):
        return []
    reasons = [
        Reason(said=say(f"Size {size}, laid out beforehand on cloth ", width(answer.width_mm), " wide: ",
                        needed(answer.length_mm)))
        for size, answer in zip(wanted_sizes(spread), [one.answer for one in spread.alone], strict=True)
        if answer is not None
    ]  # fmt: skip
    why = "No layout of both was made for these two sizes" if kind == ADDED else "No layout of both is shorter"
    told = f"{why}: one lies behind the other, and the lengths are added. It is one cut of cloth, with two ends"
    return [*reasons, Reason(said=say(told))]
