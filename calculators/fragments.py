"""What an answer is made of: fragments, each with the choices it depends on.

A fragment holds a figure or a sentence four times: as data (millimetres), as plain text in metric and in inch words,
and as ready HTML in which both stand and the page shows one. Everything from outside is escaped here and nowhere
else. A fragment whose text is empty has nothing to say for what was chosen.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from .units import Shown

Kind = Literal["figure", "sentence", "warning", "problem", "drawing", "list", "why", "needs"]

_SPECIAL = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#x27;"})


def escaped(text: str) -> str:
    """The text as it may stand in HTML, between tags or in a quoted attribute.

    >>> escaped('<b class="x">')
    '&lt;b class=&quot;x&quot;&gt;'
    """
    return text.translate(_SPECIAL)


def quoted(text: str, longest: int = 24) -> str:
    """What somebody typed, in quotation marks, shortened, without control signs or half characters.

    >>> quoted("abc"), quoted("x" * 30)
    ('“abc”', '“xxxxxxxxxxxxxxxxxxxxxxxx…”')
    """
    plain = "".join(" " if _unfit(ord(sign)) else sign for sign in text)
    return f"“{plain[:longest]}…”" if len(plain) > longest else f"“{plain}”"


def _unfit(code: int) -> bool:
    """Control signs, signs that turn the reading direction, halves of surrogate pairs."""
    return (
        code < 0x20
        or 0x7F <= code <= 0x9F
        or code == 0x61C
        or 0x200B <= code <= 0x200F
        or 0x2028 <= code <= 0x202E
        or 0x2060 <= code <= 0x206F
        or 0xD800 <= code <= 0xDFFF
    )


@dataclass(frozen=True, kw_only=True)
class Said:
    """The same words as plain text in metric, as plain text in inches, and as HTML with both."""

    text: str
    text_inch: str
    html: str


NOTHING = Said(text="", text_inch="", html="")


def say(*parts: str | Shown | Said) -> Said:
    """Put words together; a :class:`Shown` appears in the system that the reader has chosen.

    >>> say("Buy ", Shown("1 m", "1 1/8 yd"), ".").html
    'Buy <span class="in-cm">1 m</span><span class="in-inch">1 1/8 yd</span>.'
    """
    cm, inch, html = [], [], []
    for part in parts:
        if isinstance(part, str):
            cm.append(part)
            inch.append(part)
            html.append(escaped(part))
        elif isinstance(part, Said):
            cm.append(part.text)
            inch.append(part.text_inch)
            html.append(part.html)
        else:
            cm.append(part.cm)
            inch.append(part.inch)
            html.append(_both(part))
    return Said(text="".join(cm), text_inch="".join(inch), html="".join(html))


def counted(count: int) -> Said:
    """A number of things, marked so that the page can show it as it shows a length.

    >>> counted(5).html
    '<span class="count">5</span>'
    """
    return Said(text=f"{count}", text_inch=f"{count}", html=f'<span class="count">{count}</span>')


def joined(parts: Iterable[Said], between: str = " ") -> Said:
    """Sentences one after the other; empty ones are left out."""
    said: list[str | Said] = []
    for part in parts:
        if part.html:
            said += [between, part] if said else [part]
    return say(*said)


def _both(shown: Shown) -> str:
    if shown.cm == shown.inch:
        return escaped(shown.cm)
    pair = (("in-cm", shown.cm), ("in-inch", shown.inch))
    return "".join(f'<span class="{name}">{escaped(text)}</span>' for name, text in pair if text)


@dataclass(frozen=True, kw_only=True)
class Fragment:
    """One figure or sentence of an answer.

    Arguments: ``name`` is the stable id; ``said`` the words; ``data`` plain JSON with lengths in mm;
    ``depends_on`` the choices, and typed fields, that it was made from: two requests that agree on these get the
    same fragment. ``width.outer`` and ``price.outer`` stand for the text typed there *and* the unit it is typed in.
    """

    name: str
    kind: Kind
    said: Said = NOTHING
    data: Mapping[str, Any] = field(default_factory=dict)
    depends_on: tuple[str, ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The fragment as plain JSON."""
        return {
            "id": self.name,
            "kind": self.kind,
            "text": self.said.text,
            "text_inch": self.said.text_inch,
            "html": self.said.html,
            "data": dict(self.data),
            "depends_on": list(self.depends_on),
        }
