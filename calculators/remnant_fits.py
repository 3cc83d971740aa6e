"""What can be cut from a piece of cloth? For one cloth of one pattern: sizes, ways of laying, variants.

A statement says for a size and a way of laying which variants fit. Where one way takes all that fits in any way, that
way alone is named, the cloth's first one if it does; so the fewest statements say it.

>>> from .remnant_index import written
>>> cloth = {"name": "outer", "title": "Cloth", "ways": ["folded", "flat"], "naps": ["without"], "rows": 2,
...          "names": [0], "variants": "01", "nap": "k", "kinds": [["woven"]], "kind": "0", "groups": ["01"],
...          "group": "00", "also": {}, "widths": [900], "high": "",
...          "lengths": written([50, 60, 70, 80, 50, 55, 65, 75], sizes=2, planes=2)}
>>> choices = [{"name": "legs", "title": "Legs", "usual": 0, "words": [["short", "Short"], ["long", "Long"]]}]
>>> shelf = Shelf(cloth, choices, sizes=2)
>>> [(one.size, one.way, bin(one.fit), one.most_cm) for one in shelf.fits(Piece(900, 72, "woven", "without"))]
[(0, 'folded', '0b11', 70), (1, 'folded', '0b10', 60)]
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .nap import FORCED, WITH, WITHOUT
from .remnant_index import NOT_TAKEN, ClothJson, Lengths, fitting, number_of
from .remnant_terms import Table, Word

NAPS = {"a": "always", "n": "never", "k": "ask"}
"""The signs of the index for how a variant is laid."""


@dataclass(frozen=True)
class Piece:
    """A remnant as it is reckoned with: width (mm), length (whole cm), kind of cloth, `with` nap or `without`."""

    width_mm: float
    length_cm: int
    kind: str
    nap: str


@dataclass(frozen=True, kw_only=True)
class Statement:
    """In one size and way of laying: the variants offered, those that fit, and the most that these take, in cm."""

    size: int
    way: str
    offered: int
    fit: int
    most_cm: int


class Shelf:
    """One cloth of one pattern; what can be worked out before the remnant is known is kept."""

    def __init__(self, cloth: ClothJson, choices: Sequence[Mapping[str, Any]], sizes: int) -> None:
        """Arguments: the cloth and its pattern's choices as the index holds them; the number of its sizes."""
        self.cloth, self.sizes = cloth, sizes
        self.choices = [choices[at] for at in cloth["names"]]
        self.lengths = Lengths(cloth, sizes)
        self.count = len(cloth["groups"][0]) if cloth["groups"] else 0
        self._table: Table | None = None
        self._unusual: list[int] = []

    @property
    def table(self) -> Table:
        """The variants, in words."""
        if self._table is None:
            wide, signs = len(self.choices), self.cloth["variants"]
            starts = range(0, self.count * wide, wide) if wide else [0] * self.count
            variants = [[self._word(at, signs[start + at]) for at in range(wide)] for start in starts]
            self._table = Table([choice["name"] for choice in self.choices], variants)
            usual = [str(choice["words"][choice["usual"]][0]) for choice in self.choices]
            self._unusual = [
                sum(word is not None and word != wanted for word, wanted in zip(words, usual, strict=True))
                for words in variants
            ]
        return self._table

    def _word(self, at: int, sign: str) -> Word:
        return None if sign == NOT_TAKEN else str(self.choices[at]["words"][number_of(sign)][0])

    def of_kind(self, kind: str) -> bool:
        """Whether any variant can be made of this kind of cloth."""
        return any(kind in kinds for kinds in self.cloth["kinds"])

    def kinds(self, number: int) -> list[str]:
        """The kinds of cloth that will do for a variant."""
        signs = self.cloth["kind"]
        return list(self.cloth["kinds"][number_of(signs[number] if len(signs) > 1 else signs)])

    def nap(self, number: int) -> str:
        """`always`, `never` or `ask`: how a variant is laid."""
        signs = self.cloth["nap"]
        return NAPS[signs[number] if len(signs) > 1 else signs]

    def rows(self, size: int) -> list[int]:
        """The number of the set of pieces of each variant in a size; less than nothing where none is cut."""
        signs = self.cloth["groups"][number_of(self.cloth["group"][size])]
        return [-1 if sign == NOT_TAKEN else number_of(sign) for sign in signs]

    def laid_with(self, kind: str, nap: str) -> dict[str, list[int]]:
        """The variants that can be made of this kind of cloth, by how they are then laid: with nap or without."""
        found: dict[str, list[int]] = {WITH: [], WITHOUT: []}
        for number in range(self.count):
            if kind in self.kinds(number):
                found[FORCED.get(self.nap(number)) or nap].append(number)
        return found

    def fits(self, piece: Piece) -> Iterator[Statement]:
        """What fits, by size, the smallest first; a size in which nothing fits is left out."""
        laid_with = {nap: numbers for nap, numbers in self.laid_with(piece.kind, piece.nap).items() if numbers}
        known: dict[str, tuple[list[int], dict[str, list[tuple[int, int]]], int]] = {}
        for size in range(self.sizes):
            group = self.cloth["group"][size]
            if group not in known:
                known[group] = self._by_row(self.rows(size), laid_with)
            _, by_nap, offered = known[group]
            yield from self._in_size(piece, size, by_nap, offered)

    def _by_row(
        self, rows: list[int], laid_with: Mapping[str, list[int]]
    ) -> tuple[list[int], dict[str, list[tuple[int, int]]], int]:
        """For each nap the sets of pieces with the mask of the variants that take them; and all of these variants."""
        highest = self.count - 1
        by_nap: dict[str, list[tuple[int, int]]] = {}
        offered = 0
        for nap, numbers in laid_with.items():
            masks: dict[int, int] = {}
            for number in numbers:
                row = rows[number]
                if row >= 0:
                    masks[row] = masks.get(row, 0) | 1 << (highest - number)
            by_nap[nap] = list(masks.items())
            for mask in masks.values():
                offered |= mask
        return rows, by_nap, offered

    def _in_size(
        self, piece: Piece, size: int, by_nap: Mapping[str, list[tuple[int, int]]], offered: int
    ) -> Iterator[Statement]:
        found: dict[str, int] = {}
        for way in self.cloth["ways"]:
            fit = 0
            for nap, masks in by_nap.items():
                enough = fitting(*self.lengths.column(way, nap, piece.width_mm, size), piece.length_cm)
                if enough and b"1" in enough:
                    for row, mask in masks:
                        if enough[row] == 49:
                            fit |= mask
            found[way] = fit
        left = 0
        for fit in found.values():
            left |= fit
        while left:
            way = max(found, key=lambda one: (found[one] & left).bit_count())
            fit = found[way]
            left &= ~fit
            yield Statement(
                size=size, way=way, offered=offered, fit=fit, most_cm=self._most(piece, size, way, by_nap, fit)
            )

    def _most(
        self, piece: Piece, size: int, way: str, by_nap: Mapping[str, list[tuple[int, int]]], fit: int
    ) -> int:
        """The most that any of the variants takes, in cm."""
        most = 0
        for nap, masks in by_nap.items():
            if any(mask & fit for _, mask in masks):
                lengths = self.lengths.at(way, nap, piece.width_mm, size)
                most = max([most, *(lengths[row] or 0 for row, mask in masks if mask & fit)])
        return most

    def least_cm(self, piece: Piece, only_size: int | None = None) -> tuple[int, int] | None:
        """The least length that anything here takes of cloth this wide, with the size; None where nothing is laid."""
        found: list[tuple[int, int]] = []
        laid_with = {nap: numbers for nap, numbers in self.laid_with(piece.kind, piece.nap).items() if numbers}
        for size in range(self.sizes) if only_size is None else (only_size,):
            rows = self.rows(size)
            for way in self.cloth["ways"]:
                for nap, numbers in laid_with.items():
                    lengths = self.lengths.at(way, nap, piece.width_mm, size)
                    known = [lengths[rows[number]] for number in numbers if rows[number] >= 0]
                    found += [(one, size) for one in known if one is not None]
        return min(found, default=None)

    def usual_example(self, among: int) -> int:
        """Of some variants the one that differs from the usual choices in the fewest; the first of equals."""
        return min(self.table.numbers(among), key=self._unusual.__getitem__)
