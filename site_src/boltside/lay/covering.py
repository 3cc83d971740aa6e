"""How well do the lays that are there serve all nodes, and which node is worth laying next?

What covering costs a node is the length it is given less what its own lay would need: that is at least the bound, and
at least as much as any lay of a node that it serves. Area alone is a weak bound: no lay fills the cloth. So a node is
also taken to need what the best filled lay of the same way of laying would need (`Covering.own`): not proven, but
seen, and held to account by longer solves of answers drawn at random. Where that is more than the limit, more must be
laid. The next node is the one whose lay is expected to take most of that excess away, over all nodes, from above (it
serves others) and from below (it shows that others need their length). Only the lays there so far decide, not the
order in which they came; so an interrupted run goes on to the very same lays.
"""

from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from .lattice import TENTHS, Bools, Index, Ints, Lattice, tenths_up

NOT_SERVED: Final = 200_000
"""Length of a node that no lay serves, in tenths of a millimetre: longer than any cloth for a small child."""

FEWEST_SEEN: Final = 8
"""So many lays whose length the area rules, of one way of laying, tell how close to their area lays of it can come."""

RULED_BY_AREA: Final = 1.03
"""A lay so much longer than its longest piece and its row along the fold is ruled by its area."""

CLOSER_YET: Final = 0.985
"""A lay not made yet may come closer to its area than all that were made, by so much."""

EXPECTED_SHARE: Final = 5
"""A lay is expected at a fifth of the way from the least to the greatest length it can have: most lie near the bound.
Tried on the lengths of 1,300 finished lays: 0.1 to 0.4 hardly differ, the middle takes a fifth more lays."""


Places = tuple[NDArray[np.intp], ...]
"""Where nodes stand in the arrays."""


def _grid(ways: Any, naps: Any, sets: Any, widths: Any) -> Places:
    """All nodes of these ways, naps, sets and widths."""
    return np.ix_(ways, naps, sets, widths)


class Covering:
    """The state of one lattice: which nodes are laid, at which length, and what that means for all the others.

    Arguments: the lattice; the limit in millimetres; which nodes are *minded* (left out: all that are asked): what
    covering costs them is to be within the limit. The others only have to be served.
    """

    def __init__(self, lattice: Lattice, *, limit_mm: float, minded: Bools | None = None) -> None:
        self.lattice = lattice
        self.minded: Bools = lattice.asked if minded is None else lattice.asked & minded
        self.limit = round(limit_mm * TENTHS)
        self.length: Ints = np.full(lattice.shape, NOT_SERVED, dtype=np.int32)
        self.least: Ints = lattice.bound.copy()
        self.laid: dict[Index, int] = {}
        self.given_up: set[Index] = set()
        self._serving: Bools | None = None
        self._closest: dict[int, list[float]] = {}
        self.fill: Ints = np.zeros(lattice.shape, dtype=np.int32)

    def lay(self, index: Index, length_mm: float, *, least_share: float = 1.0) -> None:
        """Take note of a finished lay; the shortest there is has at least ``least_share`` of its length."""
        way, nap, item_set, width = index
        length = tenths_up(length_mm)
        self.laid[index] = length
        self._see(index, length)
        served = self._served_by(index)
        self.length[served] = np.minimum(self.length[served], length)
        serving = _grid(
            np.flatnonzero(self.lattice.way_serves[:, way]),
            np.arange(nap + 1),
            np.flatnonzero(self.lattice.contains[:, item_set]),
            np.arange(width + 1),
        )
        self.least[serving] = np.maximum(self.least[serving], int(length * least_share))

    def _see(self, index: Index, length: int) -> None:
        """Learn from a finished lay how close to its area a lay of its way can come."""
        area, bound = int(self.lattice.area[index]), int(self.lattice.bound[index])
        if area < bound or length < RULED_BY_AREA * bound:
            return
        seen = self._closest.setdefault(index[0], [])
        seen.append(length / area)
        if len(seen) >= FEWEST_SEEN:
            self.fill[index[0]] = np.floor(self.lattice.area[index[0]] * max(1.0, min(seen) * CLOSER_YET))

    def own(self) -> Ints:
        """What each node's own lay is expected to need at least."""
        return np.maximum(self.least, self.fill)

    def servers(self) -> dict[Index, Index]:
        """For each asked node that is served the laid node whose lay is the shortest for it.

        Among equals the one with the fewest pieces, then on the widest cloth.
        """

        def rank(at: Index) -> tuple[object, ...]:
            return self.laid[at], len(self.lattice.sets[at[2]]), -at[3], -at[0], -at[1], at

        order = sorted(self.laid, key=rank)
        number: Ints = np.full(self.lattice.shape, -1, dtype=np.int32)
        for at, index in enumerate(order):
            served = self._served_by(index)
            number[served] = np.where(number[served] < 0, at, number[served])
        found = np.argwhere(self.lattice.asked & (number >= 0))
        return {(w, n, s, k): order[number[w, n, s, k]] for w, n, s, k in found.tolist()}

    def _served_by(self, index: Index) -> Places:
        """Where the nodes are that a lay serves."""
        way, nap, item_set, width = index
        _, naps, _, widths = self.lattice.shape
        ways = np.flatnonzero(self.lattice.way_serves[way])
        sets = np.flatnonzero(self.lattice.contains[item_set])
        return _grid(ways, np.arange(nap, naps), sets, np.arange(width, widths))

    def cost(self) -> Ints:
        """What covering costs each node that is minded at most, in tenths of a millimetre; 0 for the others."""
        cost: Ints = np.maximum(np.where(self.minded, self.length - self.own(), 0), 0).astype(np.int32)
        return cost

    def unserved(self) -> Bools:
        """The asked nodes that no lay serves."""
        unserved: Bools = self.lattice.asked & (self.length == NOT_SERVED)
        return unserved

    def largest_cost(self) -> int:
        """The most that covering costs any node that is minded, in tenths of a millimetre."""
        return int(self.cost().max(initial=0))

    def wanting(self) -> int:
        """How many nodes that are minded cost more than the limit."""
        return int((self.cost() > self.limit).sum())

    def next_index(self) -> Index | None:
        """The node to lay next, or None when every cost is within the limit (or nothing more can be laid)."""
        cost = self.cost().ravel()
        excess = np.flatnonzero(cost > self.limit)
        open_to = self.lattice.asked.copy()
        for index in (*self.laid, *self.given_up):
            open_to[index] = False
        candidates = np.flatnonzero(open_to.ravel() & (cost > 0))
        if not excess.size or not candidates.size:
            return None
        if self._serving is None:
            self._serving = self.lattice.serving()
        length, least = self.length.ravel(), np.minimum(self.own(), self.length).ravel()
        expected = (least + (length - least) // EXPECTED_SHARE)[candidates][:, None]
        serves = self._serving[np.ix_(candidates, excess)]
        is_served = self._serving[np.ix_(excess, candidates)].T
        after = np.where(serves, np.minimum(length[excess], expected), length[excess])
        after -= np.where(is_served, np.maximum(least[excess], expected), least[excess])
        own = np.searchsorted(excess, candidates)
        own_at = np.flatnonzero(excess[np.minimum(own, len(excess) - 1)] == candidates)
        after[own_at, own[own_at]] = 0
        left = self._weight(after).sum(axis=1)
        way, nap, item_set, width = np.unravel_index(candidates[int(np.argmin(left))], self.lattice.shape)
        return int(way), int(nap), int(item_set), int(width)

    def _weight(self, cost: Ints) -> Ints:
        """How bad a cost is: nothing within the limit, beyond it as much as it is in all."""
        weight: Ints = np.where(cost > self.limit, cost, 0)
        return weight
