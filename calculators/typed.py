"""What length did the buyer type?

People type "137", "137 cm", "1,37 m", '54"', "54 1/2 in", "1 yd 4 in"; some keyboards give wide digits or curly
marks. A bare number is in the unit that the page is set to. What can't be read, or can't be, gets a sentence.

>>> read_length("1,37 m", "cm", WIDTH).mm, read_length("54½″", "cm", WIDTH).mm
(1370.0, 1384.3)
>>> read_length("1.5", "cm", WIDTH).said.text
'1.5 cm is not a width that cloth is sold in. If you mean metres, type 1.5 m.'
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from .fragments import NOTHING, Said, quoted, say
from .units import MM_PER_CM, MM_PER_FT, MM_PER_IN, MM_PER_M, MM_PER_YD

Unit = Literal["cm", "in"]

LONGEST_TEXT = 40
"""Longer texts are not read as a length at all; our choice."""

WIDEST_USUAL_MM = 2000
"""Wider dress cloth is rare, so a bare number that would make it so is asked about. Common practice."""

UNITS: dict[str, tuple[float, str, str]] = {
    "mm": (1.0, "mm", "millimetres"),
    "cm": (MM_PER_CM, "cm", "centimetres"),
    "m": (MM_PER_M, "m", "metres"),
    "in": (MM_PER_IN, "in", "inches"),
    "ft": (MM_PER_FT, "ft", "feet"),
    "yd": (MM_PER_YD, "yd", "yards"),
}
"""Millimetres in one, short name, name in words."""

_SPELLINGS = {
    "mm": ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
    "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
    "m": ("m", "metre", "metres", "meter", "meters"),
    "in": ("in", "inch", "inches", '"', "''"),
    "ft": ("ft", "foot", "feet", "'"),
    "yd": ("yd", "yds", "yard", "yards"),
}
_UNIT_OF = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings}

_SIGNS = {0xFF01 + at: 0x21 + at for at in range(0x5E)} | {0x3000: 0x20, 0xA0: 0x20, 0x202F: 0x20, 0x2009: 0x20}
_SIGNS |= {start + digit: 0x30 + digit for start in (0x660, 0x6F0) for digit in range(10)}
_WORDS = {"″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "‘": "'", "−": "-", "–": "-", "٫": ".", "⁄": "/"}
_WORDS |= {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
_PLAIN = str.maketrans(_SIGNS | {ord(sign): text for sign, text in _WORDS.items()})

_SYSTEMS = (("m", "cm", "mm"), ("yd", "ft", "in"))
"""Units that may follow one another in one length, the larger first: 1 yd 4 in, never 140 cm 55 in."""

_RANGE = re.compile(r"([0-9]{2,3})\s*(?:/|-|to)\s*([0-9]{2,3})(?![0-9.,/])")
"""Labels such as 44/45" or 140-150 cm; the halves of a fraction are shorter, or the larger comes first."""

_NUMBER = r"(?:(?:[0-9]+(?:\s+|\s*-\s*))?[0-9]+\s*/\s*[0-9]+|[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)"
_NAME = "|".join(re.escape(spelling) for spelling in sorted(_UNIT_OF, key=lambda word: (-len(word), word)))
_PART = re.compile(rf"\s*({_NUMBER})\s*({_NAME})?(?![a-z])\.?")


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What a field is about: its words, and the bounds in mm between which a value makes sense (our choice).

    ``usual_mm``: a bare number that comes out larger, but not in centimetres or inches, is asked about.
    """

    thing: str
    refusal: str
    code: str
    lowest_mm: float
    highest_mm: float
    example_cm: str
    example_in: str
    usual_mm: float | None = None


WIDTH = Asked(
    thing="width",
    refusal="is not a width that cloth is sold in",
    code="not-a-width",
    lowest_mm=300,
    highest_mm=5000,
    example_cm="140",
    example_in="55",
    usual_mm=WIDEST_USUAL_MM,
)


@dataclass(frozen=True, kw_only=True)
class Typed:
    """The length in mm, or None with a code and sentence; all None where nothing was typed.

    ``bare`` is the number as typed where it came without a unit, else empty; ``number`` its value.
    """

    mm: float | None = None
    code: str | None = None
    said: Said = NOTHING
    bare: str = ""
    number: float = 0.0

    @property
    def empty(self) -> bool:
        """True when nothing was typed."""
        return self.mm is None and self.code is None


def plain_text(text: str) -> str:
    """What was typed, in plain digits and signs and small letters, without spaces at the ends.

    >>> plain_text(" １２,90 € "), plain_text("٣ %")
    ('12,90 €', '3 %')
    """
    return text.translate(_PLAIN).strip().lower()


def read_length(text: str, unit: Unit, asked: Asked) -> Typed:
    """The length that was typed.

    Arguments: the text as typed; the unit in which a bare number is meant; what the field is about.
    Returns: millimetres, rounded to a hundredth; or a code of `PROBLEMS` with a sentence; or nothing for an empty
    field.
    """
    plain = plain_text(text)
    if not plain:
        return Typed()
    example = asked.example_in if unit == "in" else asked.example_cm
    such_as = f" Type a number such as {example}, or with its unit: {asked.example_cm} cm, {asked.example_in} in."
    unread = Typed(code="not-a-length", said=say(f"{quoted(text.strip())} is not a {asked.thing}.{such_as}"))
    if len(plain) > LONGEST_TEXT:
        return unread
    two = _RANGE.match(plain)
    if two is not None and int(two[1]) < int(two[2]):
        said = say(f"{quoted(text.strip())} is more than one {asked.thing}. Type the smaller: {two[1]}, with its unit.")
        return Typed(code="not-a-length", said=said)
    minus = plain.startswith("-")
    parts = _parts(plain.removeprefix("-").removeprefix("+"))
    if parts is None or (len(parts) > 1 and not _follow([name for _, name in parts])):
        return unread
    if minus:
        said = say(f"A {asked.thing} can't be less than nothing: {quoted(text.strip())}.{such_as}")
        return Typed(code="negative", said=said)
    total = sum(number * UNITS[name or unit][0] for number, name in parts)
    mm = int(total * 100 + 0.5) / 100
    bare = "" if parts[0][1] else plain.removeprefix("+").strip()
    read = Typed(mm=mm, bare=bare, number=parts[0][0])
    shown = f"{bare} {unit}" if bare else quoted(text.strip())
    if asked.lowest_mm <= mm <= asked.highest_mm:
        likelier = _likelier(read, unit, asked)
        if not likelier:
            return read
        said = say(f"{shown} is wider than cloth usually is. Type {likelier} or {shown}, whichever you mean.")
        return Typed(code=asked.code, said=said)
    offer = hint(read, unit, asked) or such_as
    return Typed(code=asked.code, said=say(f"{shown} {asked.refusal}.{offer}"))


def hint(typed: Typed, unit: Unit, asked: Asked, lowest_mm: float = 0, highest_mm: float | None = None) -> str:
    """A sentence offering the first other unit in which a bare number would make sense, or nothing.

    Arguments: what was typed (with its own unit nothing is offered); the unit it was read in; what the field is
    about; ``lowest_mm`` and ``highest_mm`` narrow its bounds.
    """
    most_mm = asked.highest_mm if highest_mm is None else highest_mm
    for name in ("cm", "in", "m", "mm") if typed.bare else ():
        fits = max(asked.lowest_mm, lowest_mm) <= typed.number * UNITS[name][0] <= most_mm
        if fits and name != unit:
            return f" If you mean {UNITS[name][2]}, type {typed.bare} {name}."
    return ""


def _likelier(read: Typed, unit: Unit, asked: Asked) -> str:
    """The number with the other of centimetres and inches, where only that is as large as usual; else nothing."""
    other = "cm" if unit == "in" else "in"
    if not read.bare or asked.usual_mm is None or (read.mm or 0.0) <= asked.usual_mm:
        return ""
    fits = asked.lowest_mm <= read.number * UNITS[other][0] <= asked.usual_mm
    return f"{read.bare} {other}" if fits else ""


def _follow(names: list[str]) -> bool:
    """Whether the units belong to one system and grow smaller, so that their amounts may be added."""
    for system in _SYSTEMS:
        if all(name in system for name in names):
            at = [system.index(name) for name in names]
            return at == sorted(set(at))
    return False


def _parts(plain: str) -> list[tuple[float, str]] | None:
    """Numbers with the units behind them ("" where there is none); None where the text is something else."""
    found: list[tuple[float, str]] = []
    at = 0
    while at < len(plain):
        match = _PART.match(plain, at)
        if match is None:
            return None
        number = _number(match.group(1))
        if number is None:
            return None
        found.append((number, _UNIT_OF.get(match.group(2) or "", "")))
        at = match.end()
        if not plain[at:].strip():
            break
    return found or None


def _number(text: str) -> float | None:
    if "/" not in text:
        return float(text.replace(",", "."))
    above, below = text.split("/")
    *ones, above = above.replace("-", " ").split()
    if int(below) == 0:
        return None
    return (int(ones[0]) if ones else 0) + int(above) / int(below)
