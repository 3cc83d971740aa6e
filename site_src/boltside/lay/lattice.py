"""Which lays could serve which demands? The nodes of one cloth in one size, and how they stand to each other.

A node is a way of laying, with nap or without, a set of pieces and a width of cloth. A lay of one node *serves* every
node with fewer pieces, wider cloth, no nap, or a way of laying that asks less (:data:`SERVED_BY_WAY`: unfolded it is a
flat lay of the same length). So length never falls from a node to one that it serves, and the nodes form a product of
four orders. That of the ways is a partial one.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import floor
from typing import Final

import numpy as np
from numpy.typing import NDArray

from .bounds import area_mm2, fold_chain_mm, longest_piece_mm
from .model import GRID_PER_MM, LayItem, LayRequest, Way, usable_width_mm, width_on_cloth_mm
from .slots import Slot, slots_of
from .spread_bounds import cloth_area_mm2, first_of, fold_rows, places_area_mm2, wide_slots
from .spread_part import narrowest_part_folded_mm

ItemSet = frozenset[str]
Index = tuple[int, int, int, int]
"""Way, nap, set and width of a node as numbers."""

TENTHS: Final = 10
"""Lengths are compared in whole tenths of a millimetre, so that every machine decides alike."""

SERVED_BY_WAY: Final[dict[Way, frozenset[Way]]] = {
    "folded": frozenset({"folded", "part-folded", "flat"}),
    "part-folded": frozenset({"part-folded", "flat"}),
    "middle": frozenset({"middle", "flat"}),
    "flat": frozenset({"flat"}),
}
"""Which ways a lay serves: unfolded it is flat, and cloth folded in half is folded over by half its width. Between
cloth with its selvedges to the middle and cloth folded in half there is no order: each has a fold that the other has
not."""

WAYS_SERVED: Final[tuple[Way, ...]] = ("folded", "part-folded", "middle", "flat")
"""All ways, each before those that it serves."""

_GRID_MM: Final = 1.0 / GRID_PER_MM
_HAIR: Final = 1e-6
"""Zones end on the grid, and no later than the cloth."""

Ints = NDArray[np.int32]
Bools = NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True)
class AskedSet:
    """A set of pieces that some choices ask for, and whether it is asked with nap (True), without, or both."""

    item_ids: ItemSet
    naps: frozenset[bool]


@dataclass(frozen=True, kw_only=True)
class Node:
    """One lay that could be made. ``nap``: no piece is turned by 180 degrees."""

    way: Way
    nap: bool
    item_ids: ItemSet
    width_mm: float

    def __str__(self) -> str:
        nap = ", with nap" if self.nap else ""
        return f"{self.way}, {self.width_mm / 10:g} cm wide{nap} ({', '.join(sorted(self.item_ids))})"


@dataclass(frozen=True, kw_only=True)
class _Size:
    """Of one piece in a way of laying: length along the grain, width across, area of all its places on the table; on
    part-folded cloth, whose layers differ, of all that is cut."""

    along_mm: float
    across_mm: float
    area_mm2: float


class Lattice:
    """All nodes of one cloth in one size.

    Arguments: the pieces by name; the sets that can be asked for; the widths of the bolts in millimetres; the ways.
    Arrays are indexed by way, nap, set and width, each in serving order but the sets.

    Attributes: ``fits``: the pieces fit between the selvedges; ``asked``: that, and somebody can ask for it;
    ``bound``: what no lay can beat, in whole tenths of a millimetre, and ``area``: the part of it that the pieces' area
    over the width makes out; ``contains``: one set contains another; ``way_serves``: one way serves another.
    """

    def __init__(
        self, items: Mapping[str, LayItem], asked: Iterable[AskedSet], widths_mm: Sequence[float], ways: Sequence[Way]
    ) -> None:
        naps_of: dict[ItemSet, frozenset[bool]] = {}
        for one in asked:
            if one.item_ids:
                naps_of[one.item_ids] = naps_of.get(one.item_ids, frozenset()) | one.naps
        self.items = items
        self._sizes: dict[tuple[str, Way], _Size] = {}
        self._chains: dict[tuple[ItemSet, int, bool], float] = {}
        self.sets = tuple(sorted(naps_of, key=sorted))
        self.ways = tuple(way for way in WAYS_SERVED if way in ways)
        self.naps = tuple(nap for nap in (True, False) if any(nap in naps for naps in naps_of.values()))
        self.widths_mm = tuple(sorted(widths_mm))
        self.shape = (len(self.ways), len(self.naps), len(self.sets), len(self.widths_mm))
        self.way_serves: Bools = np.array(
            [[other in SERVED_BY_WAY[one] for other in self.ways] for one in self.ways], dtype=bool
        ).reshape(len(self.ways), len(self.ways))
        self.contains: Bools = np.array([[one >= other for other in self.sets] for one in self.sets], dtype=bool)
        self.contains = self.contains.reshape(len(self.sets), len(self.sets))
        self.fits: Bools = np.zeros(self.shape, dtype=bool)
        self.asked: Bools = np.zeros(self.shape, dtype=bool)
        self.bound: Ints = np.zeros(self.shape, dtype=np.int32)
        self.area: Ints = np.zeros(self.shape, dtype=np.int32)
        self._numbers = {item_ids: at for at, item_ids in enumerate(self.sets)}
        for way_at, way in enumerate(self.ways):
            for at, item_ids in enumerate(self.sets):
                self._measure(way_at, way, at, naps_of[item_ids])
        del self._sizes, self._chains

    def _measure(self, way_at: int, way: Way, at: int, naps: frozenset[bool]) -> None:
        """Bounds and area of a set in a way of laying, at all widths: as :func:`.bounds.shortest_possible_mm` and
        :func:`.spread_bounds.shortest_spread_mm`."""
        chosen = [self._size(item_id, way) for item_id in self.sets[at]]
        usable_mm = np.array([usable_width_mm(width_mm, way) for width_mm in self.widths_mm])
        fits = usable_mm >= max(size.across_mm for size in chosen)
        over_mm = usable_mm
        if way == "middle":
            over_mm = 2 * np.floor(usable_mm / _GRID_MM + _HAIR) * _GRID_MM
        elif way == "part-folded":
            over_mm = np.array([usable_width_mm(width_mm, "flat") for width_mm in self.widths_mm])
            narrowest_mm = narrowest_part_folded_mm([self.items[item_id] for item_id in sorted(self.sets[at])])
            fits |= np.array(self.widths_mm) >= narrowest_mm
        area_mm = sum(sorted(size.area_mm2 for size in chosen)) / np.maximum(over_mm, 1.0)
        longest_mm = max(size.along_mm for size in chosen)
        for nap_at, nap in enumerate(self.naps):
            least_mm = max(longest_mm, self._chain_mm(self.sets[at], way, nap))
            self.fits[way_at, nap_at, at] = fits
            self.asked[way_at, nap_at, at] = fits & (nap in naps)
            self.bound[way_at, nap_at, at] = np.floor(np.maximum(least_mm, area_mm) * TENTHS)
            self.area[way_at, nap_at, at] = np.floor(area_mm * TENTHS)

    def _size(self, item_id: str, way: Way) -> "_Size":
        if (item_id, way) not in self._sizes:
            item = self.items[item_id]
            if way == "middle" or way == "part-folded":
                spread = wide_slots([item], way, one_way=False)
                slots: Sequence[Slot] = [first_of(slot) for slot in spread]
                area = places_area_mm2(spread) if way == "middle" else cloth_area_mm2([item])
            else:
                slots = self._slots([item_id], way, nap=False)
                area = area_mm2(slots)
            self._sizes[item_id, way] = _Size(
                along_mm=longest_piece_mm(slots), across_mm=width_on_cloth_mm(item, way), area_mm2=area
            )
        return self._sizes[item_id, way]

    def _chain_mm(self, item_ids: ItemSet, way: Way, nap: bool) -> float:
        """The shortest row of halves along the fold, or rows along two folds; other pieces have no part in it."""
        halves = frozenset(item_id for item_id in item_ids if self.items[item_id].mode == "fold")
        if not halves or way == "flat":
            return 0.0
        folds = 2 if way == "middle" else 1
        known = self._chains.get((halves, folds, nap))
        if known is None:
            if way == "middle":
                items = [self.items[item_id] for item_id in sorted(halves)]
                known = fold_rows(wide_slots(items, way, one_way=nap), folds)[0]
            else:
                known = fold_chain_mm(self._slots(sorted(halves), "folded", nap=nap))
            self._chains[halves, folds, nap] = known
        return known

    def _slots(self, item_ids: Sequence[str], way: Way, *, nap: bool) -> tuple[Slot, ...]:
        items = tuple(self.items[item_id] for item_id in item_ids)
        return slots_of(LayRequest(items=items, bolt_width_mm=self.widths_mm[-1], way=way, one_way=nap))

    def at_widths(self, widths_mm: Iterable[float]) -> Bools:
        """The nodes at these widths and at the narrowest on which their pieces fit, with nap where that can be asked:
        lays of these serve all the others."""
        found: Bools = np.zeros(self.shape, dtype=bool)
        found[:, :, :, np.isin(self.widths_mm, list(widths_mm))] = True
        found |= self.fits & (np.cumsum(self.fits, axis=3) == 1)
        if len(self.naps) > 1:
            found[:, 1] &= ~self.asked[:, 0]
        return found

    def node(self, index: Index) -> Node:
        """The node of an index."""
        way, nap, item_set, width = index
        return Node(
            way=self.ways[way], nap=self.naps[nap], item_ids=self.sets[item_set], width_mm=self.widths_mm[width]
        )

    def index(self, node: Node) -> Index | None:
        """The index of a node, or None where it is none of these, or does not fit."""
        at = self._numbers.get(node.item_ids)
        if at is None or node.way not in self.ways or node.nap not in self.naps or node.width_mm not in self.widths_mm:
            return None
        found = (
            self.ways.index(node.way), self.naps.index(node.nap), at, self.widths_mm.index(node.width_mm)
        )  # fmt: skip
        return found if self.fits[found] else None

    def request(self, node: Node) -> LayRequest:
        """What the solver is asked for."""
        return LayRequest(
            items=tuple(self.items[item_id] for item_id in sorted(node.item_ids)),
            bolt_width_mm=node.width_mm,
            way=node.way,
            one_way=node.nap,
        )

    def too_wide(self) -> int:
        """How many sets, ways and widths do not go together because a piece is wider than the cloth."""
        return int((~self.fits.any(axis=1)).sum())

    def serving(self) -> Bools:
        """Node by node (flattened): whether the first serves the second."""
        way, nap, item_set, width = (axis.ravel() for axis in np.indices(self.shape))
        return (
            self.way_serves[way[:, None], way]
            & (nap[:, None] <= nap)
            & (width[:, None] <= width)
            & self.contains[item_set[:, None], item_set]
        )


def tenths_up(length_mm: float) -> int:
    """A length in whole tenths of a millimetre, rounded up."""
    return -floor(-length_mm * TENTHS + 1e-6)
