"""Does the paper come out true to scale? A line of 100 mm, to be measured on the sheet."""

from __future__ import annotations

from typing import Final

from boltside.calculators.fragments import say
from boltside.calculators.units import Shown
from boltside.pages.markup import Html, element

LENGTH_MM: Final = 100
SAYS = (
    "This line is ", Shown("100 mm (10 cm)", "100 mm (3 15/16 in)"),
    " long on paper. If yours is not, print at 100 % (“actual size”).",
)  # fmt: skip


def scale_line() -> Html:
    """The line between two ticks, with what to do where it comes out otherwise.

    It is given in millimetres; a page whose text is narrower than it is shrinks, and the line shows that.
    """
    path = f"M0 1V5M0 3H{LENGTH_MM}M{LENGTH_MM} 1V5"
    # The box is wider than the line, so that half the width of a tick is not cut off.
    drawn = element(
        "svg", element("path", d=path, fill="none", stroke="#211d1a", stroke_width=".25"),
        class_="scale-line__drawn", xmlns="http://www.w3.org/2000/svg", width=f"{LENGTH_MM + 2}mm", height="6mm",
        viewBox=f"-1 0 {LENGTH_MM + 2} 6", aria_hidden="true",
    )  # fmt: skip
    return element("div", drawn, element("p", Html(say(*SAYS).html)), class_="scale-line")
