"""Does the cloth have stripes or checks that are to meet at the seams, and what is known of them?

The buyer says that it is plain, picks a repeat for which the pattern has layouts of its own, or types how far it is
along the cloth until the pattern starts again. A typed repeat is meant as it is on the bolt; a listed one as it is when
the cloth is cut. Layouts for a listed one are laid all one way, so they answer with nap and without. Nothing is asked
of interfacing.

>>> read_stripes(["woven"], [], "own", "12", "", "cm").along_mm
120.0
>>> read_stripes(["interfacing"], [], "own", "12", "", "cm").how
'plain'
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .fragments import NOTHING, Said, quoted, say
from .typed import Asked, Unit, read_length

PLAIN, OWN = "plain", "own"
LISTED = "repeat:"
"""Before the name of a listed repeat: in what is asked, and in the sheet where its lays stand."""
YES = "yes"

ASKED_OF = ("woven", "knit")
"""Kinds of cloth that may have stripes which matter."""

REPEAT = Asked(
    thing="repeat",
    refusal="is no repeat to lay for: those are from 0.5 cm to 1 m (1/4 in to 39 in). What is smaller counts as plain",
    code="not-a-repeat",
    lowest_mm=5,
    highest_mm=1000,
    example_cm="12",
    example_in="4 3/4",
)
"""A pattern that starts again within 5 mm is not matched; none starts again after more than a metre. Our choice."""


@dataclass(frozen=True, kw_only=True)
class Stripes:
    """What is counted for one cloth: plain, a listed repeat (``how`` is then its name behind :data:`LISTED`) or an own.

    ``along_mm`` is how far along the cloth the pattern starts again; ``across_mm`` the same across it, None where it
    runs through or nobody said. ``missing``: an own repeat was announced but not typed yet. Where what was asked can't
    be, ``code`` and ``said`` say so.
    """

    how: str = PLAIN
    title: str = ""
    along_mm: float = 0.0
    across_mm: float | None = None
    uneven: bool = False
    missing: bool = False
    code: str = ""
    said: Said = NOTHING

    @property
    def listed(self) -> bool:
        """Whether the pattern has layouts of its own for it."""
        return self.how.startswith(LISTED)

    @property
    def each_row_mm(self) -> float:
        """What each row of pieces takes more, in mm: a repeat, where it was typed; else nothing."""
        return self.along_mm if self.how == OWN else 0.0

    @property
    def one_layer(self) -> bool:
        """Whether it has to be cut in a single layer, all one way. Source: a textbook (uneven stripes and checks)."""
        return self.uneven and not self.missing


def read_stripes(
    kinds: Collection[str], listed: Sequence[Mapping[str, Any]], asked: str, every: str, uneven: str, unit: Unit
) -> Stripes:
    """What was said of a cloth's stripes.

    Arguments: the kinds of cloth that will do; the repeats that the pattern lists for it; what was asked: empty or
    :data:`PLAIN`, a listed one's name behind :data:`LISTED`, or :data:`OWN`; and for that the repeat as typed, whether
    it is uneven, and the unit of a bare number.
    """
    if asked in ("", PLAIN) or not may_be_striped(kinds):
        return Stripes()
    for one in listed:
        if asked == LISTED + one["name"]:
            return Stripes(how=asked, title=one["title"], along_mm=one["along_mm"], across_mm=one["across_mm"],
                           uneven=not one["even"])  # fmt: skip
    if asked != OWN:
        return Stripes(code="unknown-repeat", said=say(f"{quoted(asked)} is no pattern of cloth that is known here."))
    typed = read_length(every, unit, REPEAT)
    if typed.code is not None:
        return Stripes(how=OWN, code=typed.code, said=typed.said)
    return Stripes(how=OWN, along_mm=typed.mm or 0.0, uneven=uneven == YES, missing=typed.empty)


def may_be_striped(kinds: Collection[str]) -> bool:
    """Whether cloth of one of these kinds may have stripes that matter.

    >>> may_be_striped(["knit", "interfacing"]), may_be_striped(["interfacing"])
    (True, False)
    """
    return bool(set(kinds) & set(ASKED_OF))
