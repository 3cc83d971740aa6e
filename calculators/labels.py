"""Where in a piece does its name fit, so that it can be read, and where the grain arrow?

Everything is whole millimetres of the drawing. A piece is looked at along lines across it, a quarter of a text's height
apart; between two lines a coarse outline has nothing to hide.

>>> square = [[0, 0], [100, 0], [100, 60], [0, 60]]
>>> runs(square, 30)
[(0, 100)]
>>> room(rooms(square, 20, 2, free=1), 90), room(rooms(square, 20, 2), 110)
(Room(middle=50, top=10, width=100), None)
>>> wrapped("Back neck facing", 9)
['Back neck', 'facing']
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

Points = Sequence[Sequence[int]]

PER_SIGN = (58, 100)
"""Mean width of a sign as part of the type size, for sans-serif type; measured on names in plain system type."""

IN_A_LINE = 4
"""Looks at the piece in the height of one line of text. Our choice."""


@dataclass(frozen=True)
class Room:
    """A rectangle inside a piece: the middle of its width, its top, and its width, in mm."""

    middle: int
    top: int
    width: int


def text_width(text: str, size: int) -> int:
    """About how wide a text is, in mm, set in type of this size (mm), with a little to spare.

    >>> text_width("Front", 50)
    145
    """
    return -(-len(text) * size * PER_SIGN[0] // PER_SIGN[1])


def runs(points: Points, across: int) -> list[tuple[int, int]]:
    """The stretches of the line y = across (in truth half a millimetre beside it) inside an outline: from x to x."""
    twice = 2 * across + 1
    met = []
    for at, here in enumerate(points):
        before = points[at - 1]
        if (2 * before[1] < twice) != (2 * here[1] < twice):
            met.append(before[0] + (here[0] - before[0]) * (twice - 2 * before[1]) // (2 * (here[1] - before[1])))
    met.sort()
    return list(zip(met[::2], met[1::2], strict=False))


def rooms(points: Points, size: int, lines: int, *, free: int = 0) -> list[Room]:
    """The places for so many lines of text, each ``size`` mm high, from the middle of the piece outwards.

    Above and below each ``free`` quarters of a line stay empty, and the place is as wide as all of that is.
    """
    step = max(1, size // IN_A_LINE)
    low, high = min(y for _, y in points), max(y for _, y in points)
    rows = range(low + step // 2, high, step)
    widest = [max(runs(points, y), key=lambda run: run[1] - run[0], default=(0, 0)) for y in rows]
    need = IN_A_LINE * lines + 2 * free
    found = []
    starts = range(len(widest) - need + 1)
    for start in sorted(starts, key=lambda at: abs(2 * at + need - len(widest))):
        left = max(run[0] for run in widest[start : start + need])
        right = min(run[1] for run in widest[start : start + need])
        if right > left:
            top = rows[start] - step // 2 + free * step
            found.append(Room(middle=(left + right) // 2, top=top, width=right - left))
    return found


def room(places: Sequence[Room], width: int) -> Room | None:
    """The place nearest to the middle that is so wide, in mm; None where none is."""
    return next((place for place in places if place.width >= width), None)


def wrapped(text: str, signs: int) -> list[str]:
    """The text in lines of at most so many signs, where words allow it."""
    lines: list[str] = []
    for word in text.split(" "):
        if lines and len(lines[-1]) + 1 + len(word) <= signs:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def ways_to_wrap(text: str) -> list[list[str]]:
    """The text on one line, on two, and so on, down to a word a line; each with lines as short as can be."""
    found: list[list[str]] = []
    longest = max((len(word) for word in text.split(" ")), default=0)
    for signs in range(len(text), longest - 1, -1):
        lines = wrapped(text, signs)
        if found and len(lines) == len(found[-1]):
            found[-1] = lines
        else:
            found.append(lines)
    return found


def arrow_run(points: Points, size: int, taken: tuple[int, int, int, int] | None) -> tuple[int, int, int] | None:
    """Where a grain arrow has most room: x, and from y to y, in mm; None where there is hardly any.

    Arguments: the outline; the type size, which is the measure of what can be seen; the rectangle that the label
    takes (left, top, right, bottom), if any.
    """
    turned = [[y, x] for x, y in points]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    best: tuple[int, int, int] | None = None
    for part in (3, 5, 2, 1, 6, 7, 4):
        x = left + (right - left) * part // 8
        for low, high in runs(turned, x):
            for start, end in _without(low, high, taken, x, size // 3):
                if end - start > size // 2 and (best is None or end - start > best[2] - best[1]):
                    best = (x, start, end)
    return best


def _without(low: int, high: int, taken: tuple[int, int, int, int] | None, x: int, gap: int) -> list[tuple[int, int]]:
    """What the label leaves of a vertical stretch."""
    if taken is None or not taken[0] - gap <= x <= taken[2] + gap:
        return [(low, high)]
    return [(low, min(high, taken[1] - gap)), (max(low, taken[3] + gap), high)]
