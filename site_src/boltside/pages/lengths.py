"""How does a length stand in a table? Without its unit, which the caption names; both systems, the page shows one."""

from __future__ import annotations

import math
from collections.abc import Iterable

from boltside.calculators.fragments import say
from boltside.calculators.spread import SQUARING_MM
from boltside.calculators.units import Shown, measured, metres, width
from boltside.pages.markup import Html

NO_FIGURE = Html("–")


def column_of_figures(lengths_mm: Iterable[float | None]) -> list[Html]:
    """Measurements for the cells of one column, all with a decimal if any has one.

    >>> column_of_figures([480, 503])[0], column_of_figures([860, None])
    ('<span class="in-cm">48.0</span><span class="in-inch">18 7/8</span>', ['<span class="in-cm">86</span><span class="in-inch">33 7/8</span>', '–'])
    """  # noqa: E501 - the answer as it is
    shown = [None if mm is None or math.isnan(mm) else measured(mm) for mm in lengths_mm]
    decimal = any(one is not None and "." in one.cm for one in shown)
    cells = []
    for one in shown:
        if one is None:
            cells.append(NO_FIGURE)
            continue
        cm = one.cm.removesuffix(" cm")
        cells.append(both(cm + ".0" if decimal and "." not in cm else cm, one.inch.removesuffix(" in")))
    return cells


def amount_to_buy(lay_mm: float | None) -> Html:
    """What to buy for a lay of this length (mm), in metres and yards without their names.

    >>> amount_to_buy(1270)
    '<span class="in-cm">1.30</span><span class="in-inch">1 1/2</span>'
    """
    return NO_FIGURE if lay_mm is None or math.isnan(lay_mm) else length_to_buy(lay_mm + SQUARING_MM)


def length_to_buy(length_mm: float) -> Html:
    """A length (mm) as a shop cuts it, in metres and yards without their names; a dash for none.

    >>> length_to_buy(690)
    '<span class="in-cm">0.70</span><span class="in-inch">7/8</span>'
    """
    if math.isnan(length_mm):
        return NO_FIGURE
    shown = metres(length_mm)
    return both(shown.cm.removesuffix(" m"), shown.inch.removesuffix(" yd"))


def width_heading(mm: float) -> Html:
    """A cloth's width with its unit, for a heading."""
    return Html(say(width(mm)).html)


def measuring_units() -> Html:
    """The unit of measurements, for a caption."""
    return both("cm", "inches")


def buying_units() -> Html:
    """The unit in which cloth is bought, for a sentence."""
    return both("metres", "yards")


def both(cm: str, inch: str) -> Html:
    """Two words for the two systems, of which the page shows one."""
    return Html(say(Shown(cm, inch)).html)
