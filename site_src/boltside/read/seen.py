"""What does a drawing say is seen on it? Its own words are read to those who do not see it."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path
from typing import Final

LABEL: Final = re.compile(r"""<svg\b[^>]*?\saria-label=("[^"]*"|'[^']*')""", re.DOTALL)
BEGINNING: Final = 8_000
"""The first element of a drawing begins within as many letters."""
LETTERS_MAX: Final = 300
"""Longer words are cut off: they travel in the page."""


def seen_on(file: Path) -> str:
    """The words of an SVG's own `aria-label`, in one line; empty where it has none, or the file is no SVG."""
    if file.suffix.lower() != ".svg":
        return ""
    with file.open(encoding="utf-8", errors="replace") as opened:
        found = LABEL.search(opened.read(BEGINNING))
    return " ".join(unescape(found[1][1:-1]).split())[:LETTERS_MAX] if found else ""
