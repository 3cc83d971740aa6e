"""In which lay file is the drawing of an answer?

>>> named("outer.flat.92", Laid(1400, 700, 0, 3, rows=2))
{'key': 'outer.flat.92', 'number': 3, 'width_mm': 1400}
"""

from __future__ import annotations

from typing import Any

from .garments import pair_key
from .laid import Laid
from .spread import Spread
from .together import NO_NUMBER
from .together_words import wanted_sizes


def lay_of(spread: Spread, cloth: str, answer: Laid) -> dict[str, Any]:
    """The lay file, the lay's number in it, and the width it was made for.

    Of two garments that lie one behind the other, each in a lay of its own, the second one's stands under `behind`.
    """
    sizes = wanted_sizes(spread)
    if len(sizes) < 2:
        return named(f"{cloth}.{spread.way}.{sizes[0]}", answer)
    if answer.number != NO_NUMBER:
        return named(f"{cloth}.{spread.way}.{pair_key(sizes)}", answer)
    each = [
        named(f"{cloth}.{spread.way}.{size}", one.answer)
        for size, one in zip(sizes, spread.alone, strict=True)
        if one.answer is not None
    ]
    return {**each[0], "behind": each[1]}


def named(key: str, laid: Laid) -> dict[str, Any]:
    """A lay by its file and number."""
    return {"key": key, "number": laid.number, "width_mm": laid.width_mm}
