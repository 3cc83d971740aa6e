"""What was typed of the child: measurements, and the age.

>>> read_age("18 months").months, read_age("2 1/2").months, read_age("1 year 6 months").months, read_age("3y").months
(18.0, 30.0, 18.0, 36.0)
>>> read_age("18").said.text
'An age of 18 years is too old for these sizes. If you mean months, type 18 months.'
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from .fragments import NOTHING, Said, quoted, say
from .request import Sheet, unit_of, word
from .typed import LONGEST_TEXT, Asked, Typed, Unit, plain_text, read_length

AGE = "age"
HEIGHT = "height"
TRUNK = "trunk"

OLDEST_YEARS = 14
"""Older than this nobody asks a shop of children's patterns: a bare number that is larger means months."""
MONTHS_A_YEAR = 12
WEEKS_A_MONTH = 4.348
"""A month is 30.44 days."""


def _body(thing: str, lowest_mm: float, highest_mm: float, example_cm: str, example_in: str) -> Asked:
    return Asked(
        thing=thing,
        refusal=f"can't be a child's {thing}",
        code="not-a-body",
        lowest_mm=lowest_mm,
        highest_mm=highest_mm,
        example_cm=example_cm,
        example_in=example_in,
    )


BODY = {
    HEIGHT: _body("height", 400, 2100, "92", "36"),
    "chest": _body("chest", 300, 1400, "50", "19 3/4"),
    "waist": _body("waist", 300, 1400, "47", "18 1/2"),
    "hip": _body("hip", 300, 1500, "51", "20"),
    TRUNK: _body("trunk", 500, 2200, "90", "35 1/2"),
}
"""What can be typed, with bounds in mm that leave room for every child (our choice). The trunk goes from the shoulder
through the legs and back to it."""


@dataclass(frozen=True, kw_only=True)
class Age:
    """The age in months, or None with a code and sentence; all None where nothing was typed."""

    months: float | None = None
    code: str | None = None
    said: Said = NOTHING


@dataclass(frozen=True, kw_only=True)
class Child:
    """What was typed of the child; ``columns`` are the measurements of the chart that can be typed."""

    columns: tuple[str, ...]
    unit: Unit
    typed: Mapping[str, Typed]
    age: Age
    mm: Mapping[str, float] = field(default_factory=dict)

    @property
    def depends_on(self) -> tuple[str, ...]:
        """The fields that were read."""
        return (*self.columns, AGE, "unit")


def read_child(sheet: Sheet, asked: Mapping[str, Any]) -> Child:
    """What was typed, as far as the pattern's body chart has it. Arguments: the sheet; the request."""
    unit = unit_of(asked)
    columns = tuple(name for name in BODY if name in sheet["body"]["columns"] and _wanted(sheet, name))
    typed = {name: read_length(word(asked.get(name)), unit, BODY[name]) for name in columns}
    return Child(
        columns=columns,
        unit=unit,
        typed=typed,
        age=read_age(word(asked.get(AGE))),
        mm={name: one.mm for name, one in typed.items() if one.mm is not None},
    )


def _wanted(sheet: Sheet, name: str) -> bool:
    """The trunk is asked for only where it decides: nobody knows it by heart."""
    return name != TRUNK or name in sheet["size_by"]


_PART = re.compile(r"\s*(?:([0-9]+)\s+)?([0-9]+\s*/\s*[0-9]+|[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)\s*([a-z]*)\.?")
_UNITS = {
    **dict.fromkeys(("y", "yr", "yrs", "year", "years"), float(MONTHS_A_YEAR)),
    **dict.fromkeys(("m", "mo", "mos", "mth", "mths", "month", "months"), 1.0),
    **dict.fromkeys(("w", "wk", "wks", "week", "weeks"), 1 / WEEKS_A_MONTH),
}


def read_age(text: str) -> Age:
    """The age that was typed: years where no unit stands beside the number; "1 year 6 months" will do."""
    plain = plain_text(text)
    if not plain:
        return Age()
    parts = _parts(plain)
    if parts is None:
        return Age(
            code="not-an-age",
            said=say(f"{quoted(text.strip())} is not an age. Type a number of years such as 2 1/2, or 18 months."),
        )
    months = sum(number * (_UNITS[unit] if unit else MONTHS_A_YEAR) for number, unit in parts)
    if months > OLDEST_YEARS * MONTHS_A_YEAR:
        bare = not parts[0][1]
        shown = f"{plain} years" if bare else quoted(text.strip())
        likely = bare and parts[0][0] <= OLDEST_YEARS * MONTHS_A_YEAR
        offer = f" If you mean months, type {plain} months." if likely else ""
        return Age(code="not-an-age", said=say(f"An age of {shown} is too old for these sizes.{offer}"))
    return Age(months=round(months * 10) / 10)


def _parts(plain: str) -> list[tuple[float, str]] | None:
    """Numbers with the units behind them; None where the text is something else, or its units don't grow smaller."""
    found: list[tuple[float, str]] = []
    at = 0
    while at < len(plain) and len(plain) <= LONGEST_TEXT:
        part = _PART.match(plain, at)
        if part is None or (part[3] and part[3] not in _UNITS) or (part[1] and "/" not in part[2]):
            return None
        above, _, below = part[2].replace(",", ".").partition("/")
        if below and not int(below):
            return None
        found.append((int(part[1] or 0) + (int(above) / int(below) if below else float(f"0{above}")), part[3]))
        at = part.end()
        while at < len(plain) and plain[at] in " ,":
            at += 1
    if not found or (len(found) > 1 and not all(unit for _, unit in found)):
        return None
    sizes = [_UNITS.get(unit, float(MONTHS_A_YEAR)) for _, unit in found]
    return found if sizes == sorted(set(sizes), reverse=True) and at >= len(plain) else None
