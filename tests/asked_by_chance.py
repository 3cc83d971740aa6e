"""Cloth requests drawn by chance: what is asked, and how it is typed."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, NamedTuple

from bought_by_hand import Wash, draw_wash, typed
from read_by_hand import Chosen, kinds_of, naps_asked
from stored_shop import LISTED, Pieces, Shop

STRIPED = ("woven", "knit")
"""Nobody asks about the stripes of interfacing."""


class Striped(NamedTuple):
    """What is said of stripes and checks: how, the fields of the request, the repeat in mm, whether uneven."""

    how: str
    fields: dict[str, str]
    along_mm: Fraction = Fraction(0)
    across_mm: float | None = None
    uneven: bool = False


class Asked(NamedTuple):
    """One request about one cloth, and what it means."""

    shop: Shop
    cloth: str
    size: str
    chosen: Chosen
    pieces: Pieces
    way: str
    nap: str
    width_mm: Fraction
    wash: Wash
    stripes: Striped
    request: dict[str, Any]

    @property
    def ids(self) -> frozenset[str]:
        """The names of its pieces in the lays."""
        return frozenset(self.pieces)

    @property
    def washed_mm(self) -> Fraction:
        """The width that is laid."""
        return self.wash.washed_mm(self.width_mm)

    @property
    def kind(self) -> str:
        """With nap or without, or in step with a listed repeat, as the lays are published."""
        return self.stripes.fields["pattern"] if self.stripes.how.startswith("listed") else self.nap

    @property
    def each_row_mm(self) -> Fraction:
        """What each row of pieces takes more: a typed repeat."""
        return self.stripes.along_mm if self.stripes.how.startswith("own") else Fraction(0)

    @property
    def ways(self) -> list[str]:
        """The ways in which this cloth may be laid: with uneven stripes and checks in a single layer (a textbook)."""
        ways: list[str] = self.shop.raw["cloths"][self.cloth]["ways"]
        return ["flat"] if self.stripes.uneven else ways

    def told(self) -> Iterator[str]:
        """Of which kinds it is, for the table."""
        yield f"way {self.way}"
        yield f"nap {self.nap}"
        yield f"wash {self.wash.how}"
        yield f"stripes {self.stripes.how}"
        yield f"page in {self.request['unit']}"
        if any("," in one for one in self.request["cloths"][self.cloth].values()):
            yield "typed with a comma"


def draw(chance: random.Random, shop: Shop, cloth: str) -> Asked:
    """A request about a cloth that the choices drawn need."""
    about = shop.raw["cloths"][cloth]
    pieces: Pieces = {}
    while not pieces:
        size = chance.choice(shop.sizes)
        chosen = chance.choice(shop.choices(size))
        pieces = shop.pieces(cloth, size, chosen)
    way = asked_way = chance.choice(about["ways"])
    said_nap, nap = chance.choice(sorted(naps_asked(shop.raw, cloth, chosen).items()))
    text, unit, width_mm = typed(chance, chance.choice([chance.randint(400, 1990), chance.randint(880, 1600)]))
    kinds = kinds_of(shop.raw, cloth, chosen)
    wash = draw_wash(chance, kinds)
    stripes = Striped("plain", {})
    if set(kinds) & set(STRIPED):
        stripes = draw_stripes(chance, about.get("repeats", {}), unit)
    if stripes.uneven:
        # Source: a textbook. Uneven stripes and checks are cut in a single layer, all one way.
        way, nap = "flat", "with"
    fields = {"width": text, "way": asked_way, "nap": said_nap, **wash.fields, **stripes.fields}
    request = {"pattern": shop.name, "size": size, "choices": chosen, "unit": unit, "cloths": {cloth: fields}}
    return Asked(shop, cloth, size, chosen, pieces, way, nap, width_mm, wash, stripes, request)


def draw_stripes(chance: random.Random, listed: Mapping[str, Any], unit: str) -> Striped:
    """Plain, a repeat that the pattern lists for this cloth, or one's own in the unit of the page."""
    how = chance.choices(["plain", "listed", "own"], [60, 40 if listed else 0, 30])[0]
    if how == "plain":
        return Striped(how, chance.choice([{}, {"pattern": "plain"}]))
    if how == "listed":
        name, one = chance.choice(sorted(listed.items()))
        uneven = one.get("even", True) is False
        return Striped(
            how, {"pattern": LISTED + name}, Fraction(str(one["along_mm"])), one.get("across_mm"), uneven
        )  # fmt: skip
    while True:
        text, of_page, along_mm = typed(chance, chance.choice([chance.randint(8, 120), chance.randint(60, 640)]))
        if of_page == unit and along_mm >= 8:
            break
    uneven = chance.random() < 0.4
    fields = {"pattern": "own", "every": text, "uneven": chance.choice(["yes"] if uneven else ["no", ""])}
    return Striped("own, uneven" if uneven else "own, even", fields, along_mm, None, uneven)
