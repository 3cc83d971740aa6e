"""How much more does a repeat take: stripes, checks, a large print?

Published rule (a worked example and a textbook): one repeat for each row of pieces along the length; pieces that lie
side by side take none. A repeat of 4 1/4 in and two rows make 8 1/2 in. Stripes or checks that are uneven count as
one-way (nap) and are cut in a single layer (flat).

The rows are the fourth number of a published step. They are counted so that the rule is enough for the lay that
is drawn: pieces that push one another when they are moved on make a row; copies of one piece side by side make none;
different pieces side by side make one, for their marks may lie at different places. Of pieces hooked into one another
each counts as a row, which is likely enough but not proven.

>>> repeat_extra_mm(4.25 * 25.4, 2) / 25.4, repeat_extra_mm(108, 0)
(8.5, 0)
"""

from __future__ import annotations


def repeat_extra_mm(repeat_mm: float, rows: int) -> float:
    """What the repeat adds to the length of the lay, in mm, as the cloth is on the bolt.

    Arguments: the length of the repeat; the rows of pieces along the length. Raises: ValueError where one of them is
    below nothing.
    """
    if repeat_mm < 0 or rows < 0:
        raise ValueError(f"repeat {repeat_mm} mm in {rows} rows: neither can be below nothing")
    return repeat_mm * rows
