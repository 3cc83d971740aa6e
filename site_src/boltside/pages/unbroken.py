"""Which spaces may not break? Those between a number and its unit: "15" at the end of a line says nothing."""

from __future__ import annotations

import re

NO_BREAK = "\u00a0"
UNITS = ("mm", "cm", "m", "in", "yd", "min", "h", "months", "years")
"""Units as the shop's sentences have them."""
_NUMBER_AND_UNIT = re.compile(rf"(?<=[\d½¼¾]) (?=(?:{'|'.join(UNITS)})\b(?![^<>]*>))")
"""Not inside a tag, where a space separates attributes."""


def unbroken(html: str) -> str:
    """The HTML with each number tied to its unit.

    >>> unbroken('<p>Sew 10 mm, then 5 minutes.</p>') == '<p>Sew 10\u00a0mm, then 5 minutes.</p>'
    True
    """
    return _NUMBER_AND_UNIT.sub(NO_BREAK, html)
