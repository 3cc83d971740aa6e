"""Which options fit, in the fewest words that are true?

*Variants* are numbered sets of choices; masks are whole numbers with one bit for each variant. A *term* says for some
choices which words are meant, and nothing of the others: `{"sleeves": ["none"]}`. What fits is said either as terms
that hold for it, or as terms for what does not fit, whichever is shorter; variants that are not offered may fall
under either, as nobody can choose them.

>>> table = Table(["sleeves", "collar"], [("long", "flat"), ("long", "none"), ("none", "flat"), ("none", "none")])
>>> table.said(offered=0b1111, fit=0b0101)
Fit(every=False, only=(({'collar': ['none']}, 5),), without=())
>>> table.said(offered=0b1111, fit=0b0111).without
(({'sleeves': ['long'], 'collar': ['flat']}, 8),)
>>> table.said(offered=0b0111, fit=0b0111).every
True
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

Word = str | None
"""A choice's alternative by its name; None where the choice is not asked."""
Term = dict[str, list[Word]]
Terms = tuple[tuple[Term, int], ...]
"""Terms with the variants that they hold for."""


@dataclass(frozen=True, kw_only=True)
class Fit:
    """What fits: every variant; else those of the terms ``only``; else all but those of ``without``."""

    every: bool = False
    only: Terms = ()
    without: Terms = ()


class Table:
    """The variants of a cloth, and what is said of them; equal questions are answered once."""

    def __init__(self, names: Sequence[str], variants: Sequence[Sequence[Word]]) -> None:
        """Arguments: the choices; for each variant the word of each of them. The first variant is the highest bit."""
        self.names, self.variants = list(names), list(variants)
        self.all = (1 << len(variants)) - 1
        self.masks: list[dict[Word, int]] = []
        for at in range(len(names)):
            masks: dict[Word, int] = {}
            for number, words in enumerate(variants):
                masks[words[at]] = masks.get(words[at], 0) | self.bit(number)
            self.masks.append(masks)
        self._known: dict[tuple[int, int], Fit] = {}

    def bit(self, number: int) -> int:
        """The mask of one variant."""
        return 1 << (len(self.variants) - 1 - number)

    def numbers(self, mask: int) -> Iterator[int]:
        """The variants of a mask, first ones first."""
        while mask:
            high = mask.bit_length() - 1
            yield len(self.variants) - 1 - high
            mask ^= 1 << high

    def said(self, offered: int, fit: int) -> Fit:
        """What to say. Arguments: the variants that can be chosen; those of them that fit, at least one."""
        found = self._known.get((offered, fit))
        if found is None:
            found = self._known[offered, fit] = self._said(offered, fit)
        return found

    def _said(self, offered: int, fit: int) -> Fit:
        if fit == offered:
            return Fit(every=True)
        only, without = self._cover(fit, offered & ~fit), self._cover(offered & ~fit, fit)
        if self._words(without) < self._words(only):
            return Fit(without=without)
        return Fit(only=only)

    def _cover(self, wanted: int, unwanted: int) -> Terms:
        """A few terms that hold for all wanted variants and for no unwanted one."""
        found: list[tuple[Term, int]] = []
        left = wanted
        while left:
            seeds = (next(self.numbers(left)), len(self.variants) - (left & -left).bit_length())
            grown = [self._grown(seed, order, unwanted) for seed in dict.fromkeys(seeds) for order in (1, -1)]
            best = max(grown, key=lambda one: ((one[1] & left).bit_count(), -len(one[0]), -self._length(one[0])))
            found.append(best)
            left &= ~best[1]
        return tuple(one for at, one in enumerate(found) if self._needed(at, found, wanted))

    @staticmethod
    def _needed(at: int, found: list[tuple[Term, int]], wanted: int) -> bool:
        others = 0
        for number, (_, mask) in enumerate(found):
            if number != at:
                others |= mask
        if wanted & ~others:
            return True
        found[at] = (found[at][0], 0)  # so that of two that stand for each other one stays
        return False

    def _grown(self, seed: int, order: int, unwanted: int) -> tuple[Term, int]:
        """The term of one variant, made to say as little as it can without holding for an unwanted one.

        Arguments: the variant; whether choices are let go from the first (1) or from the last (-1).
        """
        words = self.variants[seed]
        kept = [masks[word] for masks, word in zip(self.masks, words, strict=True)]
        places = range(len(kept))[::order]
        for at in places:
            if not self._meet(kept, at, self.all) & unwanted:
                kept[at] = self.all
        term: Term = {}
        for at in places:
            if kept[at] == self.all:
                continue
            others = self._meet(kept, at, self.all)
            for mask in self.masks[at].values():
                if mask & ~kept[at] and not others & (kept[at] | mask) & unwanted:
                    kept[at] |= mask
        for at, name in enumerate(self.names):
            if kept[at] != self.all:
                term[name] = [word for word, mask in self.masks[at].items() if mask & kept[at]]
        return term, self._meet(kept, 0, kept[0]) if kept else self.all

    @staticmethod
    def _meet(kept: list[int], at: int, instead: int) -> int:
        met = instead
        for number, mask in enumerate(kept):
            if number != at:
                met &= mask
        return met

    def _length(self, term: Term) -> int:
        """How many words are read: where *not asked* is meant too, those that are left out are named, after a *not*."""
        read = 0
        for name, words in term.items():
            known = len(self.masks[self.names.index(name)])
            read += 1 + known - len(words) if None in words else len(words)
        return read

    def _words(self, terms: Terms) -> tuple[int, int]:
        """About how much there is to read."""
        return sum(1 + len(term) for term, _ in terms), sum(self._length(term) for term, _ in terms)
