"""How much more does a repeat take: stripes, checks, a large print?

Published rule (a worked example and a textbook): one repeat for each row of pieces along the length; pieces that lie
side by side take none. A repeat of 4 1/4 in and two rows make 8 1/2 in. Stripes or checks that are uneven count as
one-way (nap) and are cut in a single layer (flat).

Not asked in the page yet: the rows of the lay that answers are not among the published figures, and nothing that is
published bounds them well.

>>> repeat_extra_mm(4.25 * 25.4, 2) / 25.4, repeat_extra_mm(108, 1)
(8.5, 0)
>>> rows_along([(0, 300), (320, 600), (280, 500)])
2
"""

from __future__ import annotations

from collections.abc import Iterable

TOUCHING_MM = 2
"""Published places are whole millimetres; pieces that share less than this across do not follow one another."""


def rows_along(extents_mm: Iterable[tuple[float, float]]) -> int:
    """The greatest number of pieces that one line along the grain can meet.

    Argument: for each piece of the lay the least and the greatest place across the cloth that it reaches, in mm. A
    piece is in one part, so a line between its ends meets it.
    """
    ends = []
    for low, high in extents_mm:
        if high - low > TOUCHING_MM:
            ends += [(low, 1), (high - TOUCHING_MM, -1)]
    most = now = 0
    for _, step in sorted(ends):
        now += step
        most = max(most, now)
    return most


def repeat_extra_mm(repeat_mm: float, rows: int) -> float:
    """What the repeat adds to the length of the lay, in mm, as the cloth is on the bolt.

    Arguments: the length of the repeat; the rows of pieces along the length. Raises: ValueError where one of them is
    below nothing.
    """
    if repeat_mm < 0 or rows < 0:
        raise ValueError(f"repeat {repeat_mm} mm in {rows} rows: neither can be below nothing")
    return repeat_mm * rows if rows > 1 else 0
