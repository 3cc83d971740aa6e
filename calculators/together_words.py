"""What is said of an amount of cloth that is for two garments?

>>> each_takes(("92", "98"), [700, 760]).text, each_takes(("92", "92"), [700, 700]).text
('size 92 takes 0.70 m, size 98 0.76 m', 'each takes 0.70 m')
"""

from __future__ import annotations

from collections.abc import Sequence

from .fragments import Said, say
from .garments import FOR_BOTH
from .laid import Laid
from .spread import Spread
from .together import ADDED, JOINT, ONE_ONLY
from .units import needed


def wanted_sizes(spread: Spread) -> tuple[str, ...]:
    """The sizes of the garments that take of this cloth."""
    if not spread.alone:
        return spread.sizes
    return tuple(one.sizes[0] for one in spread.alone if one.demand)


def for_whom(spread: Spread) -> str:
    """Before an amount of cloth: that it is for both garments, or for which one."""
    if not spread.alone:
        return ""
    wanted = wanted_sizes(spread)
    return FOR_BOTH if len(wanted) > 1 else f", for size {wanted[0]} only"


def together_said(spread: Spread, answer: Laid, also: str | Said, rest: str) -> Said:
    """What the pieces of two garments take, and whether one lay holds them or two follow each other.

    Arguments: the cloth and its answer; what a repeat adds, and what else is done to the length, in words.
    """
    kind, wanted = spread.together[spread.way], wanted_sizes(spread)
    takes = needed(answer.length_mm)
    if kind == ONE_ONLY:
        return say(f"Only size {wanted[0]} takes of it; its pieces take ", takes, also, f"; the rest {rest}.")
    each = [one.answer.length_mm for one in spread.alone if one.answer is not None]
    added_mm = sum(each)
    if kind == JOINT:
        return say("Both garments are laid out together: their pieces take ", takes, ", where the two alone take ",
                   needed(added_mm), " one behind the other", also, f"; the rest {rest}, once for both.")  # fmt: skip
    alone = each_takes(spread.sizes, each)
    if kind == ADDED:
        return say("These two were not laid out together, so their lengths are added, which is always enough: ",
                   alone, ", together ", takes, also, f"; the rest {rest}, once for both.")  # fmt: skip
    return say("No layout of both together was shorter than one behind the other: ", alone, ", together ", takes,
               also, f"; the rest {rest}, once for both.")  # fmt: skip


def each_takes(sizes: Sequence[str], lengths_mm: Sequence[int]) -> Said:
    """How long the two lays are alone."""
    if sizes[0] == sizes[1]:
        return say("each takes ", needed(lengths_mm[0]))
    first, second = sizes
    return say(f"size {first} takes ", needed(lengths_mm[0]), f", size {second} ", needed(lengths_mm[1]))
