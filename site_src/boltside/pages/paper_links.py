"""Where does somebody find the guide on paper? Links to the PDF of the usual options in each size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from boltside.calculators.choices import completed
from boltside.pages.markup import Html, element
from boltside.pages.words import choices_in_words

Sheet = Mapping[str, Any]

OTHERWISE = "With other options: choose them above and print this page. It prints the guide for what you have chosen."


def paper_links(sheet: Sheet, guides: Sequence[tuple[str, str, int]]) -> Html:
    """The links, as seen from the pattern's page; goes into a part of that page. Nothing where there are no guides.

    Argument: size, address and length in bytes of each guide.
    """
    if not guides:
        return Html("")
    usual = choices_in_words(sheet, completed(sheet["choices"], {}))
    links = [
        element("li", element("a", f"Size {size}", href=address, type="application/pdf"), f" ({kilobytes(length)})")
        for size, address, length in guides
    ]
    return element(
        "details",
        element("summary", "The guide on paper (PDF)"),
        element("p", f"For A4 and US Letter, with the usual options: {usual}." if usual else "For A4 and US Letter."),
        element("ul", *links, class_="downloads"),
        element("p", OTHERWISE) if usual else "",
        class_="folded paper-guides",
    )


def kilobytes(length: int) -> str:
    """A file's length, rounded up.

    >>> kilobytes(46877)
    '47 kB'
    """
    return f"{-(-length // 1000)} kB"
