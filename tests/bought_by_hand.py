"""What is typed at the cloth counter, and what is then bought? Worked out with fractions, by the trade's order.

The order is common practice: (width - selvedges) x (1 - loss across), the lay for that width, + squaring of the ends,
÷ (1 - loss along), rounded up last. A yard is 0.9144 m, an inch 25.4 mm (international agreement, 1959).
"""

from __future__ import annotations

import random
import re
from collections.abc import Collection
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from look_at_lays import SELVEDGE_MM

SQUARING_MM = 30
"""Squaring of the ends. Common practice."""
STEP_MM, EIGHTH_YARD_MM = Fraction(50), Fraction(9144, 80)
"""Cloth is sold in steps of 5 cm, or of an eighth of a yard. Common practice."""
INCH_MM = Fraction(254, 10)
TENTH_MM = Fraction(1, 10)
"""Lengths may be rounded up to it before they are added: no shop cuts finer."""
USUAL = {"woven": Fraction(5, 100), "knit": Fraction(8, 100), "interfacing": Fraction(0)}
"""What the first wash usually takes: the upper ends of 2 to 5 % and 5 to 8 %. From memory; common practice."""


def stepped(length_mm: Fraction) -> tuple[int, int]:
    """To buy: mm in steps of 5 cm, and eighths of a yard."""
    return ceil(length_mm / STEP_MM) * 50, ceil(length_mm / EIGHTH_YARD_MM)


def typed(chance: random.Random, mm: int) -> tuple[str, str, Fraction]:
    """A length as people type it, the unit of the page, and what it is in mm."""
    tenths = Fraction(mm, 10)
    quarters = round(mm / INCH_MM * 4)
    ones, rest = divmod(quarters, 4)
    words = f"{ones} {rest}/4" if rest else f"{ones}"
    inches = Fraction(quarters, 4) * INCH_MM
    return chance.choice(
        [
            (f"{float(tenths):g}", "cm", Fraction(mm)),
            (f"{float(tenths):g} cm".replace(".", ","), "in", Fraction(mm)),
            (f"{mm / 1000:.3f} m", "cm", Fraction(mm)),
            (f"{mm} mm", "in", Fraction(mm)),
            (f'{words}"', "cm", inches),
            (words, "in", inches) if inches <= 2000 else (f"{words} in", "in", inches),
        ]
    )


def mixed(text: str) -> Fraction:
    """A whole number, a decimal or a mixed one."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def yards(text: str) -> int:
    """Eighths in a mixed number of yards."""
    return int(mixed(text) * 8)


class Wash(NamedTuple):
    """What is said of the first wash: how, the fields of the request, the parts lost along and across the cloth."""

    how: str
    fields: dict[str, str]
    along: Fraction = Fraction(0)
    across: Fraction = Fraction(0)

    def washed_mm(self, width_mm: Fraction) -> Fraction:
        """The width that holds as much after the wash: only what lies between the selvedges shrinks."""
        return (width_mm - 2 * SELVEDGE_MM) * (1 - self.across) + 2 * SELVEDGE_MM

    def on_bolt_mm(self, washed_mm: Fraction) -> Fraction:
        """The width on the bolt that is so wide after the wash."""
        return (washed_mm - 2 * SELVEDGE_MM) / (1 - self.across) + 2 * SELVEDGE_MM

    def bought_mm(self, lay_mm: int, more_mm: Fraction = Fraction(0)) -> Fraction:
        """The length on the bolt for a lay so long, before it is rounded; `more_mm` is measured on the bolt."""
        return Fraction(lay_mm + SQUARING_MM) / (1 - self.along) + more_mm


def draw_wash(chance: random.Random, kinds: Collection[str]) -> Wash:
    """What a buyer says of the first wash of cloth of these kinds."""
    how = chance.choices(["silent", "not-counted", "washed", "usual", "own"], [20, 5, 10, 25, 40])[0]
    if how == "silent":
        return Wash(how, {})
    if how == "usual":
        most = max(USUAL[kind] for kind in kinds)
        return Wash(how, {"wash": how}, most, most)
    if how != "own":
        return Wash(how, {"wash": how})
    along, across = (_percent(chance) for _ in range(2))
    said = chance.choice(["along", "across", "both", "both", "neither" if chance.random() < 0.3 else "both"])
    fields = {"wash": how}
    if said in ("along", "both"):
        fields["along"] = along[0]
    if said in ("across", "both"):
        fields["across"] = across[0]
    if said == "neither":  # announced, but not typed yet
        return Wash("own, not typed", fields)
    # One of them alone stands for both.
    return Wash(
        "own" if said == "both" else f"own, only {said}",
        fields,
        across[1] if said == "across" else along[1],
        along[1] if said == "along" else across[1],
    )


def _percent(chance: random.Random) -> tuple[str, Fraction]:
    """Per cent as people type it, from none to 15, and the part that it is."""
    tenths = chance.choice([0, chance.randint(2, 150), 10 * chance.randint(1, 15)])
    number = f"{tenths / 10:g}"
    text = chance.choice([number, number.replace(".", ","), f"{number} %", f"{number.replace('.', ',')}%"])
    return text, Fraction(tenths, 1000)


def width_said(text: str, unit: str) -> tuple[Fraction, Fraction]:
    """The width in a note, in mm, and by how much it may be rounded: to a millimetre, to a quarter of an inch."""
    found = re.search(rf", ([0-9 /.]+) {unit} wide", text)
    assert found is not None, text
    if unit == "cm":
        return mixed(found[1]) * 10, Fraction(1, 2)
    return mixed(found[1]) * INCH_MM, INCH_MM / 8
