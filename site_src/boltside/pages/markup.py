"""How does text become HTML? Everything that a person wrote goes through here, so that it stays text."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

EMPTY_ELEMENTS = frozenset({"input", "br", "hr", "meta", "link", "img"})


class Html(str):
    """Text that is HTML already. Made only by this module and from the calculators' ready HTML."""

    __slots__ = ()


def text(words: object) -> Html:
    """The words as HTML text, also fit for an attribute.

    >>> text('5 < 6 & "so"')
    '5 &lt; 6 &amp; &quot;so&quot;'
    """
    return words if isinstance(words, Html) else Html(escape(str(words)))


def join(parts: Iterable[object], between: str = "") -> Html:
    """The parts one after the other; what is not HTML yet is escaped."""
    return Html(between.join(text(part) for part in parts))


def element(tag: str, *children: object, **attributes: object) -> Html:
    """One element. `class_` stands for class, `data_x` for data-x; None and False leave an attribute out.

    >>> element("a", "Size & fit", href="#x", class_="quiet", hidden=True, title=None)
    '<a href="#x" class="quiet" hidden>Size &amp; fit</a>'
    """
    written = []
    for name, value in attributes.items():
        if value is None or value is False:
            continue
        name = name.rstrip("_").replace("_", "-")
        written.append(f" {name}" if value is True else f' {name}="{text(value)}"')
    opened = f"<{tag}{''.join(written)}>"
    return Html(opened if tag in EMPTY_ELEMENTS else f"{opened}{join(children)}</{tag}>")
