"""Which paper strips belong to a guide? Those of its closures, for its size and options, each on its own sheet."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from boltside.calculators.closures import closures, holed
from boltside.calculators.conditions import holds
from boltside.calculators.places import case_of
from boltside.calculators.request import Request
from boltside.pages.closure_strip import strip_svg
from boltside.pages.markup import Html, element, join

SQUEEZED = re.compile(' textLength="[^"]*" lengthAdjust="[^"]*"')


def strips(sheet: Mapping[str, Any], request: Request) -> Html:
    """The strips, true to scale; nothing where no closure of this set has places along a line."""
    sheets = []
    for notion in closures(sheet):
        size = request.size or ""
        case = case_of(notion, request.chosen, size) if holds(notion["when"], request.chosen) else None
        if case is not None:
            drawn = strip_svg(sheet, notion, case, size, holed(request, notion))
            # In the guide's own face, so that what the system has does not matter; in it no line is too long.
            drawn = SQUEEZED.sub("", drawn.replace('font-family="sans-serif"', 'font-family="Guide Text"'))
            sheets.append(element("section", Html(drawn), class_="strip-sheet"))
    return join(sheets)
