"""Which number was meant: by text that is nearly one, and by a number that is out of its bounds?"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Final

NUMBER: Final = re.compile(r'([-+]?[0-9]{1,9}(?:[.,][0-9]{1,9})?)\s*([A-Za-z°%"]*)\.?')

THOUSANDS: Final = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
"""What can as well be a whole number with its thousands set off."""

UNITS_MM: Final = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "inch": 25.4, "inches": 25.4, '"': 25.4}
"""Millimetres in a unit. The international inch is 25.4 mm exactly (1959 agreement)."""

TAKEN_FOR_MM: Final = (("centimetres", UNITS_MM["cm"]), ("inches", UNITS_MM["in"]))
"""What people measure in who forget that all lengths are in millimetres."""

DIGITS: Final = 9
"""So many digits show every number that a file holds and none of the rounding by the machine."""


@dataclass(frozen=True, kw_only=True)
class Bounds:
    """From where to where a number may be; `in_mm` when it is a length in mm, `whole` when it has no fraction."""

    low: float
    high: float
    low_is_in: bool = True
    in_mm: bool = False
    whole: bool = False

    def hold(self, value: float) -> bool:
        """True when the number lies within."""
        return (self.low <= value if self.low_is_in else self.low < value) and value <= self.high

    def __str__(self) -> str:
        """The bounds as messages name them."""
        what = "a length" if self.in_mm else "a whole number" if self.whole else "a number"
        return f"{what} {self.reach}" + (" mm" if self.in_mm else "")

    @property
    def reach(self) -> str:
        """From where to where, in words."""
        between = f"from {_plain(self.low)}" if self.low_is_in else f"above {_plain(self.low)} and up"
        return f"{between} to {_plain(self.high)}"


def mend_of_text(text: str, bounds: Bounds) -> str | None:
    """How to write the number that this text nearly is, or None when that can't be told."""
    match = NUMBER.fullmatch(text.strip())
    if match is None:
        return None
    value, unit = float(match[1].replace(",", ".")), match[2].lower()
    if unit and (not bounds.in_mm or unit not in UNITS_MM):
        return None
    thousands = float(match[1].replace(",", ""))
    if THOUSANDS.fullmatch(match[1]) and not unit and bounds.hold(thousands):
        without = f"write {_plain(thousands)} without the comma"
        return without if bounds.whole else f"{without}, or {_plain(value)} with a point"
    value_mm = value * UNITS_MM.get(unit, 1.0)
    if unit and not bounds.hold(value_mm):
        return f"lengths are in mm: write a number {bounds.reach}"
    if not bounds.hold(value_mm) or (bounds.whole and value_mm != int(value_mm)):
        return None
    if UNITS_MM.get(unit, 1.0) != 1.0:
        return f"lengths are in mm: write {_plain(value_mm)}"
    if "," in match[1]:
        return f"write {_plain(value)} with a point" + (" and without the unit" if unit else "")
    return f"leave the unit out: {_plain(value)}" if unit else None


def mend_of_number(value: float, bounds: Bounds, key: str) -> str:
    """How to mend a number that is out of its bounds.

    Arguments: `key` is the key it stands at.
    """
    if value < 0 and bounds.hold(-value):
        return f"did you mean {_plain(-value)}, without the minus?"
    return f"write {'a whole number' if bounds.whole else 'a number'} {bounds.reach} for `{key}`"


def asked_unit(value: float, bounds: Bounds) -> str | None:
    """The question whether the number was meant in cm or inches; None when it would fit in neither.

    Arguments: `bounds` are in mm.
    """
    asked = [
        f"in {unit} (then write {_plain(math.floor(value * factor + 0.5) if bounds.whole else value * factor)})"
        for unit, factor in TAKEN_FOR_MM
        if bounds.hold(value * factor)
    ]
    return f"was it meant {' or '.join(asked)}?" if asked else None


def _plain(value: float) -> str:
    """The number without trailing zeros and powers of ten."""
    return f"{round(value, DIGITS):.{DIGITS}f}".rstrip("0").rstrip(".")
