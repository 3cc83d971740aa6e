"""Are the widths of remnants narrower than every bolt, in order, and can the cloth be laid flat?"""

from __future__ import annotations

from itertools import pairwise

from boltside.read import document as doc
from boltside.read.book import Book
from boltside.read.meant_number import Bounds, asked_unit
from boltside.read.yaml_tree import Path

NARROWEST_MM = 300
"""What is narrower is a ribbon; a buyer is asked for nothing narrower either. Our choice."""


def check_remnant_widths(book: Book, path: Path, cloth: doc.ClothDoc) -> None:
    """Note widths of remnants that make no sense. Argument `path`: that of the list."""
    widths_mm = cloth.remnant_widths_mm
    if not widths_mm:
        return
    if "flat" not in cloth.ways and book.checked.whole(*path[:-1], "ways"):
        book.note(
            "wrong-value",
            path,
            seen="widths of remnants of a cloth that is not laid flat",
            expected="`flat` among its `ways`, for remnants are laid flat only",
            mend="add `flat` to `ways`, or delete `remnant_widths_mm`",
            key=True,
        )
    least_mm = min(cloth.widths_mm)
    bounds = Bounds(low=NARROWEST_MM, high=least_mm, in_mm=True, whole=True)
    for at, width_mm in enumerate(widths_mm):
        if width_mm < NARROWEST_MM:
            asked = asked_unit(width_mm, bounds)
            book.note(
                "wrong-value",
                (*path, at),
                seen=f"a remnant {width_mm:g} mm wide",
                expected=f"at least {NARROWEST_MM} mm",
                mend=f"look at {width_mm:g}: {asked}" if asked else "delete it, or make it wider",
            )
        elif width_mm >= least_mm and book.checked.whole(*path[:-1], "widths_mm"):
            book.note(
                "wrong-value",
                (*path, at),
                seen=f"a remnant {width_mm:g} mm wide",
                expected=f"less than the narrowest of `widths_mm` ({least_mm:g} mm): wider ones are laid anyway",
                mend="delete it",
            )
    for at, (one, other) in enumerate(pairwise(widths_mm), start=1):
        if other <= one:
            book.note(
                "wrong-value",
                (*path, at),
                seen=f"{other:g} after {one:g}",
                expected="each width once, the narrowest first",
                mend="put the widths in order, each once",
            )
