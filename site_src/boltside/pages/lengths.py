"""How does a length stand in a table? Without its unit, which the heading names; both systems, the page shows one."""

from __future__ import annotations

from boltside.calculators.fragments import say
from boltside.calculators.units import Shown, measured, width
from boltside.pages.markup import Html

NO_FIGURE = Html("–")


def figure(mm: float | None) -> Html:
    """A measurement for a table cell.

    >>> figure(612.4)
    '<span class="in-cm">61.2</span><span class="in-inch">24 1/8</span>'
    """
    if mm is None:
        return NO_FIGURE
    shown = measured(mm)
    return Html(say(Shown(shown.cm.removesuffix(" cm"), shown.inch.removesuffix(" in"))).html)


def width_heading(mm: float) -> Html:
    """A cloth's width with its unit, for a heading."""
    return Html(say(width(mm)).html)


def unit_names() -> Html:
    """The unit that the page is set to, for a caption."""
    return Html(say(Shown("cm", "inches")).html)
