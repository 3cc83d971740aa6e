"""How is the grain line of a piece drawn that does not lie along the cloth? Across it, or at 45 degrees.

The line is the one that is printed on the pattern piece. It points forwards as printed; without nap both ends have a
head, as on paper. All in whole millimetres of the drawing, whose y runs along the cloth and x across it.

>>> forwards("crosswise", mirrored=False, turned=False), forwards("bias", mirrored=True, turned=False)
((1, 0), (-1, 1))
"""

from __future__ import annotations

from .labels import Points, arrow_run
from .lay_file import Lying

Rectangle = tuple[int, int, int, int]

LENGTHS = 6
"""An arrow is at most so many type sizes long. As for lengthwise ones."""


def forwards(grain: str, *, mirrored: bool, turned: bool) -> tuple[int, int]:
    """The way the printed grain line points in the drawing, as steps across and along.

    Crosswise it lies a quarter turn from the cloth's grain, on the bias an eighth; turning the paper over reverses
    what runs across, turning it round reverses both.
    """
    sign = -1 if turned else 1
    across = -sign if mirrored else sign
    return (across, 0) if grain == "crosswise" else (across, sign)


def off_grain_arrow(
    points: Points, grain: str, lying: Lying, size: int, taken: Rectangle | None, *, nap: bool
) -> str:
    """The grain line as an SVG path; empty where there is no room.

    Arguments: the outline in the drawing; `crosswise` or `bias`; how the piece lies; the type size; the rectangle
    that the label takes; whether the cloth has a nap.
    """
    dx, dy = forwards(grain, mirrored=lying.mirrored, turned=lying.turned)
    falling = dx * dy >= 0
    run = arrow_run([_aside(x, y, dy, falling) for x, y in points], size, _around(taken, dy, falling))
    if run is None:
        return ""
    at, low, high = run
    spare = (high - low) // 8
    low, high = low + spare, high - spare
    longest = LENGTHS * size if dy == 0 else LENGTHS * size * 14 // 10
    if high - low > longest:
        middle = (low + high) // 2
        low, high = middle - longest // 2, middle + longest // 2
    ends = sorted((_back(at, low, dy, falling), _back(at, high, dy, falling)), key=lambda end: end[0] * dx)
    (x0, y0), (x1, y1) = ends
    heads = _head(x1, y1, dx, dy, size) + ("" if nap else _head(x0, y0, -dx, -dy, size))
    width = size * 6 // 10
    return f'<path class="bs-grain" stroke-width="{width // 10}.{width % 10}" d="M{x0} {y0}L{x1} {y1}{heads}"/>'


def _aside(x: int, y: int, dy: int, falling: bool) -> list[int]:
    """The point where the grain line is upright: its distance from the line first, then how far along it is."""
    if dy == 0:
        return [y, x]
    return [x - y, x + y] if falling else [x + y, x - y]


def _back(at: int, along: int, dy: int, falling: bool) -> tuple[int, int]:
    if dy == 0:
        return along, at
    return ((at + along) // 2, (along - at) // 2) if falling else ((at + along) // 2, (at - along) // 2)


def _around(taken: Rectangle | None, dy: int, falling: bool) -> Rectangle | None:
    """The upright rectangle round what the label takes, where the grain line is upright."""
    if taken is None:
        return None
    left, top, right, bottom = taken
    corners = [_aside(x, y, dy, falling) for x in (left, right) for y in (top, bottom)]
    asides, alongs = [one for one, _ in corners], [one for _, one in corners]
    return min(asides), min(alongs), max(asides), max(alongs)


def _head(x: int, y: int, dx: int, dy: int, size: int) -> str:
    """An arrow head at this point, pointing this way."""
    wide = size // 4 if dy == 0 else size * 7 // 40
    back_x, back_y = x - 2 * wide * dx, y - 2 * wide * dy
    return (
        f"M{back_x - wide * dy} {back_y + wide * dx}L{x} {y}L{back_x + wide * dy} {back_y - wide * dx}"
    )
