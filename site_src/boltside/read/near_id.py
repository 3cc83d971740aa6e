"""Is there an id in the drawing that was probably meant to be the one that is missing?"""

from __future__ import annotations

from boltside.read.collect import nearest, quoted
from boltside.read.document import PatternDoc
from boltside.read.drawn import Drawing
from boltside.read.svg_file import OUR_ID


def near_id(wanted: str, drawing: Drawing, document: PatternDoc) -> str | None:
    """The id most like the wanted one: of the same kind, and at home nowhere else; None when there is none.

    Arguments: `wanted` reads as `handbook/pattern-format.md` says, like `front.92.point.neck`.
    """
    parts = wanted.split(".")
    like = [one for one in drawing.ids if _alike(one.split("."), parts) and not _at_home(one, drawing, document)]
    return nearest(wanted, like)


def rename(near: str, wanted: str) -> str:
    """The mend that offers the near id."""
    return f"there is {quoted(near)}; did you mean that? then rename it to `{wanted}`"


def _alike(parts: list[str], wanted: list[str]) -> bool:
    """True when the id has as many words and they are the wanted ones, but for one that is nearly so."""
    if len(parts) != len(wanted):
        return False
    different = [pair for pair in zip(parts, wanted, strict=True) if pair[0].lower() != pair[1].lower()]
    return len(different) <= 1 and all(nearest(one, [other]) is not None for one, other in different)


def _at_home(element_id: str, drawing: Drawing, document: PatternDoc) -> bool:
    """True when the id is right as it is: an outline of a piece, or a name that is drawn in every size."""
    match = OUR_ID.fullmatch(element_id)
    if match is None:
        return False
    piece, size, outline, kind, name = match.groups()
    if piece not in document.pieces or size not in document.sizes:
        return False
    return bool(outline) or all(f"{piece}.{one}.{kind}.{name}" in drawing.ids for one in document.sizes)
