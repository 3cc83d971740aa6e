"""Which lays are made for cloth narrower than any bolt, so that a remnant can be asked about too?

Flat lays only, quickly made, and only of what such a piece of cloth can hold: see the constants. All else is as in
:mod:`.brackets`, in a search of its own, so that the search for the ordinary widths asks for the same lays whether
remnants are listed or not. What no lay serves here is no fault: nobody was promised that a garment can be cut from a
strip.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from .brackets import CoverPlan, CoverSearch
from .lattice import TENTHS, AskedSet, Node
from .model import LayItem

LONGEST_REMNANT_MM: Final = 1_200.0
"""What is longer is not asked for at these widths. Ends of bolts are sold off up to about a metre (common practice),
and what is left beside a garment is no longer than the garment took; a fifth is added. Our choice."""

WELL_FILLED: Final = 0.8
"""A set of pieces is asked for where it would be no longer than that if it filled so much of the cloth, which few lays
on narrow cloth do: so hardly anything that may fit is left out, and little that can't is laid. Our choice."""

REMNANT_COST_MM: Final = 100.0
"""What covering may cost at these widths: as much as for a quick start, since each lay serves few questions."""


class RemnantSearch(CoverSearch):
    """As :class:`.brackets.CoverSearch`, for flat lays on narrow cloth.

    Arguments: the pieces by name; what can be asked for; the widths in millimetres.
    """

    def __init__(
        self, items: Mapping[str, LayItem], asked: Iterable[AskedSet], *, widths_mm: Sequence[float]
    ) -> None:
        super().__init__(
            items, asked, widths_mm=widths_mm, ways=["flat"], limit_mm=REMNANT_COST_MM, quick_share=1.0
        )
        expected = np.maximum(self.lattice.bound, self.lattice.area / WELL_FILLED)
        self.lattice.asked &= expected <= LONGEST_REMNANT_MM * TENTHS

    @property
    def near_its_end(self) -> bool:
        """From the start: all lays are quickly made."""
        return True

    def quick_will_do(self, node: Node) -> bool:
        """Always."""
        return True

    @property
    def urgency(self) -> int:
        """Never more than what covering may cost here: whatever is dearer at the ordinary widths is laid first."""
        return min(super().urgency, round(REMNANT_COST_MM * TENTHS))

    def result(self) -> CoverPlan:
        """What the lays that are there come to; that some sets are not served is not told."""
        return replace(super().result(), unserved=(), wanting=self.wanting)
