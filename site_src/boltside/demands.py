"""What can be asked for of a pattern's cloths, and which search finds the lays for it?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, Literal, get_args

from boltside.calculators.conditions import SIZE, holds, names_in_all
from boltside.errors import BoltsideError
from boltside.lay.brackets import EVERYDAY_COST_MM, LARGEST_COST_MM, QUICK_SHARE, CoverSearch
from boltside.lay.lattice import AskedSet, ItemSet
from boltside.lay.model import LayItem, Repeat, Way
from boltside.lay.repeat_search import RepeatSearch
from boltside.measure.combinations import combinations
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import lay_item, lay_mark
from boltside.measure.model import CutLine
from boltside.pairs import Pair, PairDemand, pair_demand, pair_words
from boltside.pattern import Cloth, ClothRepeat, Pattern


@dataclass(frozen=True, kw_only=True)
class PlanKey:
    """Which lays one plan is about; `str` is the name people read."""

    pattern: str
    cloth: str
    size: str

    def __str__(self) -> str:
        return f"{self.pattern}, {self.cloth}, size {self.size}"


@dataclass(frozen=True, kw_only=True)
class RepeatKey:
    """Which lays in step one plan is about; `str` is the name people read.

    >>> str(RepeatKey(of=PlanKey(pattern="quay", cloth="outer", size="92"), repeat="checks-60"))
    'quay, outer, size 92, in step with checks-60'
    """

    of: PlanKey
    repeat: str

    def __str__(self) -> str:
        return f"{self.of}, in step with {self.repeat}"


@dataclass(frozen=True, kw_only=True)
class PairKey:
    """Which lays of two garments one plan is about; `str` is the name people read."""

    pattern: str
    cloth: str
    pair: Pair

    def __str__(self) -> str:
        return f"{self.pattern}, {self.cloth}, {pair_words(self.pair)}"


@dataclass(frozen=True, kw_only=True)
class ReachableSet:
    """The pieces that one combination of choices asks for of one cloth, and whether with nap, without, or either."""

    choices: Mapping[str, str]
    item_ids: ItemSet
    naps: frozenset[bool]


@dataclass(frozen=True, kw_only=True)
class ClothDemand:
    """What can be asked for of one cloth in one size: the pieces, the sets of them by choices, and the marks of those
    that have to be in step with stripes and checks."""

    items: Mapping[str, LayItem]
    reachable: tuple[ReachableSet, ...]
    marks: Mapping[str, tuple[float, float]] = field(default_factory=dict)

    def asked(self) -> list[AskedSet]:
        """The sets as the lay engine takes them."""
        return [AskedSet(item_ids=one.item_ids, naps=one.naps) for one in self.reachable]


NAPS: Final = {"always": frozenset({True}), "never": frozenset({False}), "ask": frozenset({True, False})}
"""With nap (True) or without, by the word of the cloth."""


def cloth_demand(pattern: Pattern, lines: Sequence[CutLine], cloth: Cloth, size: str) -> ClothDemand:
    """The pieces cut from a cloth in a size, and every set of them that some allowed combination of choices asks for.

    Only choices on which these pieces, or the nap, depend are gone through. Raises: MeasureError.
    """
    of_cloth = [line for line in lines if line.cloth == cloth.name and size in line.made_with]
    conditions = [line.when for line in of_cloth] + [case.when for case in cloth.nap]
    names = [name for name in names_in_all(conditions) if name != SIZE]
    reachable = []
    for chosen in combinations(pattern, names, size):
        here = {**chosen, SIZE: size}
        ids = frozenset(line.line_id for line in of_cloth if holds(line.when, here))
        nap = next(case.nap for case in cloth.nap if holds(case.when, here))
        reachable.append(ReachableSet(choices=chosen, item_ids=ids, naps=NAPS[nap]))
    marks = {line.line_id: lay_mark(pattern, line, size) for line in of_cloth if cloth.repeats}
    return ClothDemand(
        items={line.line_id: lay_item(pattern, line, size) for line in of_cloth},
        reachable=tuple(reachable),
        marks={line_id: mark for line_id, mark in marks.items() if mark is not None},
    )


def demands(pattern: Pattern) -> Iterator[tuple[PlanKey, Cloth, ClothDemand]]:
    """What can be asked for of each cloth in each size. Raises: MeasureError."""
    lines = cut_lines(pattern)
    for cloth in pattern.cloths:
        for size in pattern.sizes:
            demand = cloth_demand(pattern, lines, cloth, size)
            if demand.items and any(one.item_ids for one in demand.reachable):
                yield PlanKey(pattern=pattern.folder, cloth=cloth.name, size=size), cloth, demand


def pair_demands(
    pattern: Pattern, of_key: Mapping[PlanKey, ClothDemand]
) -> Iterator[tuple[PairKey, Cloth, PairDemand]]:
    """What can be asked for of each cloth for each listed pair of sizes, of which both take that cloth."""
    for cloth in pattern.cloths:
        of_size = {key.size: demand for key, demand in of_key.items() if key.cloth == cloth.name}
        published = {one.item_ids for demand in of_size.values() for one in demand.reachable}
        for pair in pattern.together:
            both = [of_size[size] for size in pair if size in of_size]
            if len(both) < len(pair):
                continue
            reached = [[(one.choices, one.item_ids, one.naps) for one in demand.reachable] for demand in both]
            demand = pair_demand(pair, [demand.items for demand in both], reached, published)
            if demand.naps:
                yield PairKey(pattern=pattern.folder, cloth=cloth.name, pair=pair), cloth, demand


Profile = Literal["all", "everyday"]
"""How much is laid: everything to within one purchase step, or, for a quick start, to within two."""

LIMIT_MM: Final[dict[Profile, float]] = {"all": LARGEST_COST_MM, "everyday": EVERYDAY_COST_MM}
"""What covering may cost at most."""

EVERYDAY_WIDTHS_MM: Final = (900, 1100, 1200, 1300, 1400, 1500)
"""At these widths, and at each cloth's usual one, a quick start minds what covering costs. Common practice."""


def search_for(cloth: Cloth, demand: ClothDemand, profile: Profile = "all") -> CoverSearch:
    """The search for the lays of one cloth in one size."""
    return CoverSearch(
        demand.items,
        demand.asked(),
        widths_mm=cloth.widths_mm,
        ways=ways_of(cloth),
        limit_mm=LIMIT_MM[profile],
        quick_share=QUICK_SHARE if profile == "all" else 1.0,
        minded_widths_mm=None if profile == "all" else (*EVERYDAY_WIDTHS_MM, cloth.usual_width_mm),
    )


def remnants_name(key: PlanKey) -> str:
    """The name of the plan of the lays on narrow cloth.

    >>> remnants_name(PlanKey(pattern="quay", cloth="outer", size="92"))
    'quay, outer, size 92, remnants'
    """
    return f"{key}, remnants"


def repeat_search_for(cloth: Cloth, demand: ClothDemand, repeat: ClothRepeat) -> RepeatSearch:
    """The search for the lays of one cloth in one size that are in step with a repeat."""
    return RepeatSearch(
        demand.items,
        demand.asked(),
        widths_mm=cloth.widths_mm,
        ways=ways_in_step(cloth, repeat),
        repeat=Repeat(marks=demand.marks, along_mm=repeat.along_mm, across_mm=repeat.across_mm),
    )


def ways_in_step(cloth: Cloth, repeat: ClothRepeat) -> tuple[Way, ...]:
    """The ways of laying in which a repeat can be kept to: an uneven one only in one layer."""
    return tuple(way for way in ways_of(cloth) if repeat.even or way == "flat")


def ways_of(cloth: Cloth) -> tuple[Way, ...]:
    """The ways in which the cloth is laid. Raises: BoltsideError for a way this version does not lay."""
    known: dict[str, Way] = {way: way for way in get_args(Way)}
    unknown = [way for way in cloth.ways if way not in known]
    if unknown:
        raise BoltsideError(f"cloth {cloth.name!r}: this version does not lay {', '.join(unknown)}")
    return tuple(known[way] for way in cloth.ways)
