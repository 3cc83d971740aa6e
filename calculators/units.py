"""How is a length shown: in centimetres and metres, or in inches and yards?

Inside, every length is millimetres. Here it becomes words, in both systems at once. Amounts to buy are rounded
upwards only; everything else to the nearest step. The arithmetic is done in whole tenths of a millimetre, so that
every Python gives the same digits.

>>> metres(1321), width(1371.6)
(Shown(cm='1.35 m', inch='1 1/2 yd'), Shown(cm='137.2 cm', inch='54 in'))
"""

from __future__ import annotations

from dataclasses import dataclass

MM_PER_CM = 10
MM_PER_M = 1000
MM_PER_IN = 25.4
"""Exact. Source: international yard and pound agreement, 1959."""
MM_PER_FT = 12 * MM_PER_IN
MM_PER_YD = 36 * MM_PER_IN
EIGHTH_YARD_MM = MM_PER_YD / 8
"""114.3 mm: the step in which shops that sell by the yard cut cloth. Common practice."""
BUY_STEP_MM = 50
"""The step in which shops that sell by the metre cut cloth. Common practice."""

MINUS = "\N{MINUS SIGN}"
"""Before a length below nothing: a hyphen is too short, and lines break after it."""


@dataclass(frozen=True, kw_only=True)
class Cuts:
    """To what a shop cuts cloth: ``step_mm`` where it sells by the metre, ``eighths`` of a yard where by the yard."""

    step_mm: int
    eighths: int


FINE = Cuts(step_mm=BUY_STEP_MM, eighths=1)
COARSE = Cuts(step_mm=2 * BUY_STEP_MM, eighths=2)
"""Shops that cut to 10 cm or a quarter of a yard. Common practice."""

LIGNES_PER_IN = 40
"""Buttons are sold by the ligne: 40 ligne = 25.4 mm. Source: unit tables."""

_TENTHS_PER_IN = 254
_TENTHS_PER_EIGHTH_YARD = 1143


@dataclass(frozen=True)
class Shown:
    """The same amount in words of both systems; an empty text says nothing in that system."""

    cm: str
    inch: str

    def __str__(self) -> str:
        return self.cm


def tenths(mm: float) -> int:
    """Whole tenths of a millimetre, halves away from zero.

    >>> tenths(12.34), tenths(-0.05), tenths(114.3)
    (123, -1, 1143)
    """
    return int(mm * 10 + 0.5) if mm >= 0 else -int(0.5 - mm * 10)


def mixed(parts: int, whole: int) -> str:
    """A mixed number: so many parts of which `whole` make one, in lowest terms.

    >>> mixed(12, 8), mixed(6, 8), mixed(16, 8), mixed(0, 8)
    ('1 1/2', '3/4', '2', '0')
    """
    ones, rest = divmod(parts, whole)
    below = whole
    while rest and rest % 2 == 0 and below % 2 == 0:
        rest, below = rest // 2, below // 2
    if not rest:
        return str(ones)
    return f"{ones} {rest}/{below}" if ones else f"{rest}/{below}"


def buy_mm(length_mm: float, cuts: Cuts = FINE) -> int:
    """The length to ask for where cloth is sold by the metre, in mm: rounded up to 5 cm, or as the shop cuts.

    >>> buy_mm(1300), buy_mm(1300.1), buy_mm(0), buy_mm(1300.1, COARSE)
    (1300, 1350, 0, 1400)
    """
    return -(-tenths(length_mm) // (cuts.step_mm * 10)) * cuts.step_mm


def eighth_yards(length_mm: float, cuts: Cuts = FINE) -> int:
    """The length to ask for where cloth is sold by the yard, in eighths of a yard, rounded up as the shop cuts.

    >>> eighth_yards(114.3), eighth_yards(114.4), eighth_yards(914.4), eighth_yards(914.5, COARSE)
    (1, 2, 8, 10)
    """
    return -(-tenths(length_mm) // (cuts.eighths * _TENTHS_PER_EIGHTH_YARD)) * cuts.eighths


def metres(mm: float, cuts: Cuts = FINE) -> Shown:
    """A length to buy by the metre, and the same in yards, each rounded up in its own step."""
    return Shown(f"{buy_mm(mm, cuts) / MM_PER_M:.2f} m", f"{mixed(eighth_yards(mm, cuts), 8)} yd")


def width(mm: float) -> Shown:
    """A width of cloth: centimetres, with a decimal only where it is needed; inches to the nearest quarter."""
    return Shown(f"{_trimmed(tenths(mm), 1)} cm", f"{mixed(_nearest_inches(mm, 4), 4)} in")


def width_up(mm: float) -> Shown:
    """A least width of cloth, rounded up to a centimetre and to a quarter of an inch.

    >>> width_up(1001)
    Shown(cm='101 cm', inch='39 1/2 in')
    """
    return Shown(f"{-(-tenths(mm) // 100)} cm", f"{mixed(-(-tenths(mm) * 4 // _TENTHS_PER_IN), 4)} in")


def measured(mm: float) -> Shown:
    """A measurement: centimetres to the millimetre, without a needless zero; inches to the nearest eighth.

    >>> measured(612.4), measured(470), measured(-20)
    (Shown(cm='61.2 cm', inch='24 1/8 in'), Shown(cm='47 cm', inch='18 1/2 in'), Shown(cm='−2 cm', inch='−3/4 in'))
    """
    whole = (tenths(abs(mm)) + 5) // 10
    sign = MINUS if mm < 0 and whole else ""
    return Shown(f"{sign}{_trimmed(whole * 10, 1)} cm", f"{sign}{mixed(_nearest_inches(abs(mm), 8), 8)} in")


def millimetres(mm: float) -> Shown:
    """A small thing: millimetres with a decimal only where it is needed; inches to the nearest sixteenth.

    >>> millimetres(13), millimetres(11.5)
    (Shown(cm='13 mm', inch='1/2 in'), Shown(cm='11.5 mm', inch='7/16 in'))
    """
    return Shown(f"{_trimmed(tenths(mm) * 10, 1)} mm", f"{mixed(_nearest_inches(mm, 16), 16)} in")


def millimetres_up(mm: float) -> Shown:
    """A small length that must be there: rounded up to a millimetre, and to a sixteenth of an inch.

    >>> millimetres_up(9.75), millimetres_up(16)
    (Shown(cm='10 mm', inch='7/16 in'), Shown(cm='16 mm', inch='11/16 in'))
    """
    fine = int(mm * 100 + 0.5)
    return Shown(f"{-(-fine // 100)} mm", f"{mixed(-(-fine * 16 // (10 * _TENTHS_PER_IN)), 16)} in")


def needed(mm: float) -> Shown:
    """A length that must be there: rounded up to a centimetre, and to a quarter of an inch.

    >>> needed(1291)
    Shown(cm='1.30 m', inch='51 in')
    """
    centimetres = -(-tenths(mm) // 100)
    quarters = -(-tenths(mm) * 4 // _TENTHS_PER_IN)
    return Shown(f"{centimetres / 100:.2f} m", f"{mixed(quarters, 4)} in")


def lignes(mm: float) -> int:
    """A button's diameter in ligne, to the nearest whole one.

    >>> lignes(25.4), lignes(13), lignes(11.5)
    (40, 20, 18)
    """
    return _nearest_inches(mm, LIGNES_PER_IN)


def _nearest_inches(mm: float, parts: int) -> int:
    return (tenths(mm) * parts * 2 + _TENTHS_PER_IN) // (2 * _TENTHS_PER_IN)


def _trimmed(tenths_mm: int, decimals: int) -> str:
    """Centimetres from tenths of a millimetre, rounded to `decimals` and without trailing zeros."""
    unit = 10 ** (2 - decimals)
    parts = (tenths_mm + unit // 2) // unit
    ones, rest = divmod(parts, 10**decimals)
    return f"{ones}.{rest:0{decimals}d}".rstrip("0").rstrip(".")
