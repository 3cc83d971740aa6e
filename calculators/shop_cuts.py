"""To what does the shop cut cloth?

Asked once for all cloths. The two answers stand for a step in metres and one in yards, so that the page can be
switched between them. Whatever else is asked counts as the finer one, which most shops cut to (common practice).

>>> cuts_of("coarse").step_mm, cuts_of("").step_mm, cuts_of("by the mile").eighths
(100, 50, 1)
"""

from __future__ import annotations

from collections.abc import Mapping

from .units import COARSE, FINE, MM_PER_CM, Cuts, Shown, mixed

CUT = "cut"
"""The name under which a fragment declares that it depends on how the shop cuts."""

FINER, COARSER = "fine", "coarse"

CUTS: Mapping[str, Cuts] = {FINER: FINE, COARSER: COARSE}
"""What can be asked for, the usual first."""


def cuts_of(asked: str) -> Cuts:
    """The steps that were asked for, else the usual ones."""
    return CUTS.get(asked, FINE)


def step_words(cuts: Cuts) -> Shown:
    """The step in words of both systems.

    >>> step_words(COARSE)
    Shown(cm='10 cm', inch='1/4 yd')
    """
    return Shown(f"{cuts.step_mm // MM_PER_CM} cm", f"{mixed(cuts.eighths, 8)} yd")
