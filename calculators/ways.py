"""In which words is a way of laying told?"""

from __future__ import annotations

from collections.abc import Collection

WAYS = {
    "folded": "folded once, right sides together",
    "flat": "laid flat, in one layer",
    "middle": "both selvedges folded to the middle, right sides together",
    "part-folded": "folded over in part, right sides together, the rest single",
}
"""Ways of laying in words."""

RIGHT_SIDES = ", right sides together"
"""Not said of interfacing: it has a glue side, not a right side."""

OTHER_WAYS = {
    "folded": "Folded once",
    "part-folded": "Folded over in part",
    "middle": "With both selvedges folded to the middle",
    "flat": "Laid flat",
}
"""How another way is offered; of ways that save the same the first one, which is the least work."""

WIDE_ENOUGH = ("flat", "part-folded", "folded", "middle")
"""Ways in which narrow cloth may still be wide enough, those that ask least first."""


def way_words(kinds: Collection[str], way: str) -> str:
    """A way of laying cloth of these kinds, in words.

    >>> way_words(["interfacing"], "folded"), way_words(["woven"], "flat")
    ('folded once', 'laid flat, in one layer')
    """
    return WAYS[way].replace(RIGHT_SIDES, "") if "interfacing" in kinds else WAYS[way]
