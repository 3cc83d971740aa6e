"""Which way does a knit stretch most? Across the cloth, between the selvedges; so it runs across most pieces too.

>>> stretches(["knit"]), stretches(["woven", "knit"]), stretches(["woven"])
(True, False, False)
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .nap import kinds_of

CLOTH_STRETCH = "Knit: the greatest stretch runs across, between the selvedges."
STRETCH_NOTES = {
    "along": "the greatest stretch runs along its grain line",
    "slanting": "the greatest stretch runs slanting to its grain line",
}
"""Said beside a piece whose grain line does not run along the cloth; across it is what everybody expects."""


def stretches(kinds: Sequence[str]) -> bool:
    """Whether cloth of these kinds can only be a knit."""
    return list(kinds) == ["knit"]


def is_knit(cloth: Mapping[str, Any], chosen: Mapping[str, str]) -> bool:
    """Whether the cloth can only be a knit, for what was chosen."""
    return stretches(kinds_of(cloth, chosen))
