"""The guide for one size and set of choices: its shown steps, numbered afresh, with all words filled in.

The paper guide, the golden texts and the chapters of films are made from it; the pattern's page fills the same places
by its own script.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from html import unescape
from typing import Any, Literal

from boltside.calculators.conditions import holds
from boltside.calculators.fragments import Said
from boltside.calculators.guide import one_word
from boltside.calculators.request import Request, read_request
from boltside.pages.unbroken import unbroken

Sheet = Mapping[str, Any]
Units = Literal["cm", "inch", "both"]

PLACE = re.compile(r"\{(\d+)\}")
"""A word of the sheet's list, by its number."""

_OTHER_UNIT = {
    "cm": re.compile(r'<span class="in-inch">[^<]*</span>'),
    "inch": re.compile(r'<span class="in-cm">[^<]*</span>'),
}
_TAG = re.compile(r"<[^>]*>")
_BLOCK_END = re.compile(r"</(?:p|li|h[3-6]|tr|pre|blockquote)>|<br>|<hr>")


class Unresolved(ValueError):
    """A word of a shown step says nothing for these choices; `boltside check` tells the designer before."""


@dataclass(frozen=True, kw_only=True)
class ShownStep:
    """A step that these choices have. `number` counts from 1; `place` is its place in the sheet's list of steps.

    `title` and `up` (the face that is up, or "") are plain text; `html` is the text, ready for a page.
    `sews` names pieces or `as:<role>`, `uses` notions, each as a set of which whichever is there is meant;
    `techniques` the shop's techniques; `drawing` and `film` are as
    in the sheet, or None; `seen` what the drawing says is seen on it, or ""; `minutes` None where nothing is said.
    """

    number: int
    place: int
    title: str
    html: str
    up: str
    sews: tuple[tuple[str, ...], ...]
    uses: tuple[tuple[str, ...], ...]
    techniques: tuple[str, ...]
    drawing: str | None
    seen: str = ""
    film: Mapping[str, Any] | None
    minutes: int | None


@dataclass(frozen=True, kw_only=True)
class Guide:
    """A guide for one size and set of choices. `title` is plain text, `introduction_html` may be empty."""

    title: str
    size: str
    chosen: Mapping[str, str]
    introduction_html: str
    steps: tuple[ShownStep, ...]


def guide_of(sheet: Sheet, size: str, choices: Mapping[str, str], units: Units = "cm") -> Guide:
    """The guide of a pattern.

    Arguments: the sheet; one of its sizes; what was chosen (choices left out are as they begin); `units`: with `both`
    lengths stand in both systems, in elements of the classes `in-cm` and `in-inch`, as in pages.
    Raises: :class:`Unresolved`; ValueError where the size is not one of the sheet's.
    """
    request = read_request(sheet, {"size": size, "choices": dict(choices)})
    if request.size is None:
        raise ValueError(f"{size!r} is not a size of {sheet['name']}")
    words = _Words(request, units)
    steps: list[ShownStep] = []
    for place, step in enumerate(sheet["steps"]):
        if not holds(step["when"], request.chosen):
            continue
        steps.append(
            ShownStep(
                number=len(steps) + 1,
                place=place,
                title=words.plain(step["title"]),
                html=words.html(step["html"]),
                up=words.plain(step.get("up", "")),
                sews=tuple(tuple(one) for one in step.get("sews", ())),
                uses=tuple(tuple(one) for one in step.get("uses", ())),
                techniques=tuple(step.get("techniques", ())),
                drawing=step.get("drawing"),
                seen=step.get("seen", ""),
                film=step.get("film"),
                minutes=step.get("minutes"),
            )
        )
    return Guide(
        title=f"How to sew {sheet['name']}",
        size=request.size,
        chosen={name: word for name, word in request.chosen.items() if name != "size"},
        introduction_html=words.html(sheet["introduction_html"]),
        steps=tuple(steps),
    )


def plain_text(html: str) -> str:
    """The words of a step's HTML, a line for each paragraph and list entry.

    >>> plain_text("<p>Sew <em>10&nbsp;mm</em>.</p><p>Press.</p>")
    'Sew 10 mm.\\nPress.'
    """
    parts = _BLOCK_END.sub("\n", html.replace("\n", " ")).split("\n")
    lines = (unescape(_TAG.sub("", part)) for part in parts)
    return "\n".join(line for line in (" ".join(one.split()) for one in lines) if line)


class _Words:
    """The words for one request, each found once."""

    def __init__(self, request: Request, units: Units) -> None:
        self._request = request
        self._units = units
        self._known: dict[int, Said] = {}

    def html(self, text: str) -> str:
        """HTML with its words filled in, in the wanted units."""
        filled = PLACE.sub(lambda found: self._said(int(found[1])).html, text)
        if self._units in _OTHER_UNIT:
            filled = _OTHER_UNIT[self._units].sub("", filled)
        return unbroken(filled)

    def plain(self, text: str) -> str:
        """A plain text with its words filled in."""
        inches = self._units == "inch"
        return PLACE.sub(lambda found: self._plain(self._said(int(found[1])), inches), text)

    @staticmethod
    def _plain(said: Said, inches: bool) -> str:
        return said.text_inch if inches else said.text

    def _said(self, at: int) -> Said:
        if at not in self._known:
            said = one_word(self._request, at).said
            if not said.html:
                raise Unresolved(
                    f"word {self._request.sheet['words'][at]} of {self._request.sheet['name']} in size "
                    f"{self._request.size} with {dict(self._request.chosen)}"
                )
            self._known[at] = said
        return self._known[at]
