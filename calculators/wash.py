"""What does the first wash take from the cloth, in length and in width?

The order is the trade's (common practice): the width between the selvedges loses its part; the lay for the width that
is left answers; the squaring of the ends is added; the sum is divided by what is left of each length; only then is it
rounded up. Nothing is counted unless the buyer says so.

>>> wash = read_wash("usual", "", "", ["woven"])
>>> washed_width_mm(1400, wash), before_wash_mm(950 + 30, wash)
(1331.5, 1031.6)
>>> read_wash("own", "4,5", "", ["knit"]).along_tenths, read_wash("own", "40", "", ["knit"]).code
(45, 'not-a-loss')
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from .fragments import NOTHING, Said, quoted, say
from .lay_svg import SELVEDGE_MM
from .typed import LONGEST_TEXT, plain_text
from .units import Shown, width

NOT_COUNTED_YET, WASHED, USUAL, OWN = "not-counted", "washed", "usual", "own"
WASHES = (NOT_COUNTED_YET, WASHED, USUAL, OWN)
"""What a buyer can say of a cloth; the first where nothing is said."""

USUAL_TENTHS: Mapping[str, int] = {"woven": 50, "knit": 80, "interfacing": 0}
"""Loss by kind of cloth in tenths of a per cent: the upper ends of 2 to 5 % for woven cotton and 5 to 8 % for knits.
From memory; common practice, no standard. Interfacing is usually not washed before it is fused."""
USUAL_WORDS: Mapping[str, tuple[str, str]] = {
    "woven": ("woven cotton", "2 to 5\u00a0%"),
    "knit": ("knits", "5 to 8\u00a0%"),
    "interfacing": ("interfacing", "nothing"),
}
"""Each kind as a reader says it, and what it usually loses."""

MOST_TENTHS = 150
"""A cloth that lost more would not be sold for clothes; our choice."""
LEAST_TENTHS = 2
"""A smaller figure above nothing is likelier a share of one (0.04 for 4 %); our choice."""
WHOLE_TENTHS = 1000

_PERCENT = re.compile(r"([0-9]{1,6}(?:[.,][0-9]*)?|[.,][0-9]+)\s*(?:%|per ?cent)?\.?")


@dataclass(frozen=True, kw_only=True)
class Wash:
    """What is counted for one cloth: losses in tenths of a per cent, and on whose word (one of :data:`WASHES`).

    ``kind`` is the kind of cloth whose usual loss it is. Where what was typed can't be, ``code`` and ``said`` say so;
    ``missing`` is true where an own figure was announced but not typed yet.
    """

    how: str = NOT_COUNTED_YET
    along_tenths: int = 0
    across_tenths: int = 0
    kind: str = ""
    missing: bool = False
    code: str = ""
    said: Said = NOTHING

    @property
    def counts(self) -> bool:
        """Whether anything is lost by it."""
        return self.along_tenths > 0 or self.across_tenths > 0


def read_wash(asked: str, along: str, across: str, kinds: Collection[str]) -> Wash:
    """What was said of a cloth's first wash.

    Arguments: one of :data:`WASHES`, or empty; the losses in length and in width as typed, in per cent, which count
    only for :data:`OWN` (an empty one is taken to be like the other); the kinds of cloth that will do, of which the
    one that loses most counts.
    """
    if asked in ("", NOT_COUNTED_YET):
        return Wash()
    if asked == WASHED:
        return Wash(how=WASHED)
    if asked == USUAL:
        kind = max(sorted(kinds), key=lambda one: USUAL_TENTHS.get(one, 0), default="")
        tenths = USUAL_TENTHS.get(kind, 0)
        return Wash(how=USUAL, along_tenths=tenths, across_tenths=tenths, kind=kind)
    if asked != OWN:
        return Wash(code="unknown-wash", said=say(f"{quoted(asked)} says nothing about the first wash."))
    read = [_tenths(along, "length"), _tenths(across, "width")]
    for one in read:
        if isinstance(one, Said):
            return Wash(how=OWN, code="not-a-loss", said=one)
    typed = [one for one in read if isinstance(one, int)]
    if not typed:
        return Wash(how=OWN, missing=True)
    one, other = (tenths if isinstance(tenths, int) else typed[0] for tenths in read)
    return Wash(how=OWN, along_tenths=one, across_tenths=other)


def _tenths(text: str, where: str) -> int | Said | None:
    """Tenths of a per cent, to the nearest; a sentence for what can't be; None where nothing was typed."""
    plain = plain_text(text)
    if not plain:
        return None
    loss = f"loss in {where}"
    found = _PERCENT.fullmatch(plain) if len(plain) <= LONGEST_TEXT else None
    if found is None:
        return say(f"{quoted(text.strip())} can't be read as the {loss}. Type it in per cent, such as 4.")
    value = float(found[1].replace(",", "."))
    tenths = int(value * 10 + 0.5)
    if tenths > MOST_TENTHS:
        return say(f"{quoted(text.strip())} is more than cloth for clothes loses in the wash: the {loss} is from 0 to "
                   f"{MOST_TENTHS // 10} per cent.")  # fmt: skip
    if value > 0 and tenths < LEAST_TENTHS:
        return say(f"{quoted(text.strip())} is hardly a {loss}. Type 4 for 4 per cent, 0 for none.")
    return tenths


def washed_width_mm(width_mm: float, wash: Wash) -> float:
    """The width of cloth, selvedges included, that holds as much after the wash: only what lies between them counts.

    Source of the formula: (width - selvedges) x (1 - loss across), common practice.
    """
    if not wash.across_tenths:
        return width_mm
    between = (width_mm - 2 * SELVEDGE_MM) * (WHOLE_TENTHS - wash.across_tenths) / WHOLE_TENTHS
    return int((between + 2 * SELVEDGE_MM) * 100 + 0.5) / 100


def unwashed_width_mm(width_mm: int, wash: Wash) -> float:
    """The least width on the bolt, in tenths of a millimetre rounded up, that is this wide after the wash."""
    if not wash.across_tenths:
        return width_mm
    parts = (width_mm - 2 * SELVEDGE_MM) * 10 * WHOLE_TENTHS
    return -(-parts // (WHOLE_TENTHS - wash.across_tenths)) / 10 + 2 * SELVEDGE_MM


def before_wash_mm(length_mm: int, wash: Wash) -> float:
    """The length on the bolt, in tenths of a millimetre rounded up, that is this long after the wash.

    Source of the formula: length / (1 - loss along), common practice.
    """
    if not wash.along_tenths:
        return length_mm
    return -(-length_mm * 10 * WHOLE_TENTHS // (WHOLE_TENTHS - wash.along_tenths)) / 10


def percent(tenths: int) -> str:
    """Tenths of a per cent in words.

    >>> percent(50), percent(45)
    ('5\xa0%', '4.5\xa0%')
    """
    ones, rest = divmod(tenths, 10)
    return f"{ones}.{rest}\u00a0%" if rest else f"{ones}\u00a0%"


def losses(wash: Wash) -> str:
    """What is lost, in words.

    >>> losses(Wash(along_tenths=50, across_tenths=50)), losses(Wash(along_tenths=45, across_tenths=20))
    ('5\xa0% in length and in width', '4.5\xa0% in length and 2\xa0% in width')
    """
    along, across = percent(wash.along_tenths), percent(wash.across_tenths)
    return f"{along} in length and in width" if along == across else f"{along} in length and {across} in width"


def wash_words(wash: Wash, width_mm: float) -> Said:
    """What is counted for a cloth of this width on the bolt, as a sentence; nothing where nothing was said of it."""
    if wash.how == WASHED:
        return say("Taken as washed already: nothing more is counted. Type the width that it has now.")
    if wash.missing:
        return say("Its shrinkage is not counted yet: type by how many per cent it shrinks.")
    if wash.how == NOT_COUNTED_YET:
        return NOTHING
    left: list[str | Shown] = [" The cloth is then as good as ", width(washed_width_mm(width_mm, wash)), " wide."]
    rest = left if wash.across_tenths else []
    if wash.how == OWN:
        return say(f"Counted by your own figures: it loses {losses(wash)}.", *rest)
    words, between = USUAL_WORDS.get(wash.kind, ("this kind of cloth", "nothing"))
    if not wash.counts:
        return say(f"Nothing is counted: {words} is usually not washed beforehand.")
    return say(f"Counted: a loss of {losses(wash)}. Usual for {words} is {between}, a custom and no promise for "
               "your cloth; wash it before you cut.", *rest)  # fmt: skip
