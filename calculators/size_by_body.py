"""Which size of the chart is for one measurement?

A size's row in the chart is the body it is cut for at its *upper* end: height-coded size 92 is for children over 86 and
up to 92 cm (common practice). The same is taken for girths. So the size for a measurement is the smallest whose chart
value is at least the measurement; below the smallest size there is a size's step of room, above the largest there is
none. Within 1 cm of the border to the next size, or to the one before, a child is between two sizes.

>>> size_for(910, ["86", "92", "98"], [860, 920, 980])
Found(size='92', other='98', side='upper')
>>> size_for(900, ["86", "92", "98"], [860, 920, 980])
Found(size='92', other='', side='')
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

BETWEEN_MM = 10
"""Between two sizes: as near to the border, or nearer. Our choice."""
ONLY_SIZE_SHARE = 16
"""Step of a pattern with one size, as part of the chart's value: 6 cm in 96 of height. Our choice."""

Side = Literal["", "upper", "lower"]


@dataclass(frozen=True)
class Found:
    """A size ("" where none fits), and the neighbour if the measurement lies near the border to it.

    ``side``: ``upper`` near the upper end of the size, the next one leaves room; ``lower`` just above the one before;
    without a size, ``lower`` means too small for the smallest and ``upper`` too large for the largest.
    """

    size: str
    other: str = ""
    side: Side = ""


def size_for(mm: float, sizes: Sequence[str], chart_mm: Sequence[float]) -> Found:
    """The size for one measurement.

    Arguments: the measurement in mm; the sizes; the chart's value for each, growing, in mm.
    """
    step_mm = chart_mm[1] - chart_mm[0] if len(sizes) > 1 else chart_mm[0] / ONLY_SIZE_SHARE
    if mm <= chart_mm[0] - step_mm:
        return Found("", side="lower")
    if mm > chart_mm[-1]:
        return Found("", side="upper")
    at = next(at for at, value in enumerate(chart_mm) if mm <= value)
    above_mm = chart_mm[at] - mm if at + 1 < len(sizes) else None
    below_mm = mm - chart_mm[at - 1] if at > 0 else None
    # Girths differ by so little from size to size that both borders may be near: the nearer one counts.
    if above_mm is not None and above_mm <= BETWEEN_MM and (below_mm is None or above_mm <= below_mm):
        return Found(sizes[at], sizes[at + 1], "upper")
    if below_mm is not None and below_mm <= BETWEEN_MM:
        return Found(sizes[at], sizes[at - 1], "lower")
    return Found(sizes[at])
