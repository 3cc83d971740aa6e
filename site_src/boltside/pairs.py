"""Which pieces lie on one length of cloth when two garments are cut from it together?

One pattern in two sizes, or twice in one size, with the same options for both. A piece of such a lay is named after its
line of the cutting list and the garment that it belongs to: `front@86` and `front@92`, `front@92.1` and `front@92.2`.
Only the pieces that a size has get such names.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import Final

from boltside.lay.brackets import QUICK_SHARE, CoverSearch
from boltside.lay.lattice import AskedSet, ItemSet
from boltside.lay.model import LayItem, Way

Pair = tuple[str, str]
"""Two sizes in the order of the run; the same one twice for twins."""

AT: Final = "@"
"""Between the line and the garment; neither has one in its name."""

PAIR_COST_MM: Final = 100.0
"""What covering may cost two garments at most: two purchase steps, as everyday lays may; and their lays are quickly
made (0.6 % longer in the mean, see QUICK_SHARE). A lay of two garments has twice the pieces, and there are as many
sets, widths and ways to serve; with 45 mm and long searches a few pairs would be most of a pattern's solving. What this
costs stays within the safe sum, which is published wherever no joint lay is shorter."""

Reached = tuple[Mapping[str, str], ItemSet, frozenset[bool]]
"""Some choices, the pieces that they ask for in one size, and whether with nap, without, or either."""


@dataclass(frozen=True, kw_only=True)
class PairDemand:
    """What can be asked for of one cloth for two garments.

    ``items`` are the pieces by their names in joint lays; ``naps`` holds the sets of cutting-list lines, as single
    garments have them, and with which nap each can be asked for.
    """

    pair: Pair
    items: Mapping[str, LayItem]
    naps: Mapping[ItemSet, frozenset[bool]]

    def joint(self, lines: ItemSet) -> ItemSet:
        """The names of all pieces of both garments that these lines of the cutting list stand for."""
        names = {name_in_pair(line, self.pair, garment) for line in lines for garment in (0, 1)}
        return frozenset(names & set(self.items))

    def alone(self, lines: ItemSet, garment: int) -> ItemSet:
        """Those of the lines that one of the garments has, 0 or 1."""
        return frozenset(line for line in lines if name_in_pair(line, self.pair, garment) in self.items)

    def asked(self) -> list[AskedSet]:
        """The sets as the lay engine takes them."""
        return [AskedSet(item_ids=self.joint(lines), naps=naps) for lines, naps in self.naps.items()]


def pair_key(pair: Pair) -> str:
    """How a pair stands in the spec sheet, beside the sizes.

    >>> pair_key(("86", "92"))
    '86+92'
    """
    return "+".join(pair)


def pair_words(pair: Pair) -> str:
    """How people call a pair.

    >>> pair_words(("86", "92")), pair_words(("92", "92"))
    ('size 86 with 92', 'size 92 twice')
    """
    return f"size {pair[0]} twice" if pair[0] == pair[1] else f"size {pair[0]} with {pair[1]}"


def name_in_pair(line: str, pair: Pair, garment: int) -> str:
    """A line's name in a lay of two garments; ``garment`` is 0 for the first, 1 for the second.

    >>> name_in_pair("front.outer", ("86", "92"), 1), name_in_pair("front.outer", ("92", "92"), 0)
    ('front.outer@92', 'front.outer@92.1')
    """
    twin = f".{garment + 1}" if pair[0] == pair[1] else ""
    return f"{line}{AT}{pair[garment]}{twin}"


def line_in_pair(name: str, pair: Pair) -> tuple[str, int]:
    """The line of the cutting list and the garment (0 or 1) of a piece in a lay of two garments.

    >>> line_in_pair("front.outer@92", ("86", "92")), line_in_pair("front.outer@92.2", ("92", "92"))
    (('front.outer', 1), ('front.outer', 1))
    """
    line = name.rpartition(AT)[0]
    return line, int(name == name_in_pair(line, pair, 1))


def pair_demand(
    pair: Pair,
    items: Sequence[Mapping[str, LayItem]],
    reached: Sequence[Iterable[Reached]],
    published: Iterable[ItemSet],
) -> PairDemand:
    """What can be asked for of one cloth for two garments with the same options.

    Arguments: the pair; for each of the two garments its pieces by line, and what its choices ask for; the sets of
    lines that are published for single garments, of which only these are. Options that ask for different lines in the
    two sizes are served by the set that holds both, where there is one.
    """
    sets = set(published)
    naps: dict[ItemSet, frozenset[bool]] = {}
    for (chosen, ids, of_one), (other_chosen, other_ids, of_other) in product(*(list(each) for each in reached)):
        if any(other_chosen.get(name, word) != word for name, word in chosen.items()):
            continue
        lines = ids | other_ids
        if lines and lines in sets:
            either = frozenset(one or other for one in of_one for other in of_other)
            naps[lines] = naps.get(lines, frozenset()) | either
    named = {
        name_in_pair(line, pair, garment): replace(item, item_id=name_in_pair(line, pair, garment))
        for garment in (0, 1)
        for line, item in items[garment].items()
    }
    return PairDemand(pair=pair, items=named, naps=dict(sorted(naps.items(), key=lambda one: sorted(one[0]))))


def search_for_pair(demand: PairDemand, *, widths_mm: Sequence[float], ways: Sequence[Way], full: bool) -> CoverSearch:
    """The search for the lays of two garments on one cloth, all of them quickly made (:data:`PAIR_COST_MM` says why).

    ``full``: not only for a quick start.
    """
    return CoverSearch(
        demand.items,
        demand.asked(),
        widths_mm=widths_mm,
        ways=ways,
        limit_mm=PAIR_COST_MM,
        quick_share=QUICK_SHARE if full else 1.0,
        always_quick=True,
    )
