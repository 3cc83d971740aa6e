"""Where do the figures come from? Said to the buyer in plain words, at the end of a pattern's page."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from boltside.calculators.fragments import say
from boltside.calculators.lay_svg import SELVEDGE_MM
from boltside.calculators.spread import SQUARING_MM
from boltside.calculators.units import measured
from boltside.calculators.why import BUY_STEP
from boltside.pages.markup import Html, element, join
from boltside.pages.words import upper_first

OUTLINES = (
    "Every amount and every finished measurement on this page was computed from the pattern's own outlines, in every "
    "size. Body measurements are those of the size chart."
)
LINES = (
    "Fit and seams are measured on the stitching line. Cloth is laid on the cutting line, seam allowances included: "
    "for each size, width and way of laying the pieces were laid as close as they go, along the grain and never "
    "turned over, and a second program checked that no two lie on each other."
)
NOT_COUNTED = (
    "Where the cloth has a nap, or a print that points one way, no piece is turned head to foot. The tables count no "
    "shrinkage; the panel counts it once you say how the cloth is washed. Prints that must match are not counted yet: "
    "buy more for those."
)


def rounding() -> Html:
    """What is left out at the selvedges, added at the ends, and how the sum is rounded."""
    said = say("The width is the one written on the bolt; ", measured(SELVEDGE_MM), " at each selvedge are left out. "
               "To the length of the lay ", measured(SQUARING_MM), " are added for squaring the ends, and the sum is "
               "rounded up to full ", BUY_STEP, ".")  # fmt: skip
    return Html(said.html)


def why(sheet: Mapping[str, Any]) -> Html:
    """The explanation, and the sources of the size chart as the chart itself names them."""
    sources = sheet["body"]["sources"]
    chart = [
        element("h3", "The size chart's sources"),
        element("ul", *(element("li", upper_first(plain(source))) for source in sources)),
    ]
    words = [element("p", said) for said in (OUTLINES, LINES, rounding(), NOT_COUNTED)]
    return join([*words, *(chart if sources else [])])


def plain(source: str) -> str:
    """A line of the chart's header with its column names as words.

    >>> plain("back_length_mm (nape to waist): drafted by us")
    'back length (nape to waist): drafted by us'
    """
    return re.sub(r"\b([a-z_]+)_mm\b", lambda column: column[1].replace("_", " "), source)
