"""Which lays must be made so that every combination of choices has a length at every width? Brackets.

Length never shrinks when pieces are added, cloth gets narrower, or nap is asked for; so a lay of a large node serves
many, and a lay of a small one tells how much that costs at most. Where it may cost more than a purchase step, lays in
between are made (:mod:`.covering` says which).
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import log
from typing import Final

import numpy as np

from .covering import Covering
from .lattice import TENTHS, AskedSet, Index, Lattice, Node
from .model import Lay, LayItem, LayRequest, Quality, Way
from .outlines import signed_area

PURCHASE_STEP_MM: Final = 50.0
"""Cloth is bought in steps of 5 cm at best (common practice), so less than this can't be seen by a buyer."""

_LIKE: Final = 3
"""So many of the nearest finished lays are given to a search to start from. Our choice."""

LARGEST_COST_MM: Final = PURCHASE_STEP_MM
"""What covering may cost any set at most: one purchase step. With 45 mm it took a quarter more lays of Ferrylight."""

EVERYDAY_COST_MM: Final = 2 * PURCHASE_STEP_MM
"""What it may cost for a quick start: two purchase steps. Reckoned on Ferrylight: less than half as many lays as the
largest sets at six usual widths were, which left other sets 43 cm too long. Our choice."""


QUICK_SHARE: Final = 0.97
"""The shortest lay has at least so much of the length of one that was quickly made. Tried on seven flat and five folded
lays of Ferrylight: 0.6 % longer in the mean; one was 3.6 % longer, the next 1.5 %."""

QUICK_FROM_MM: Final = 3 * PURCHASE_STEP_MM
"""Once covering costs no node more than this, what is left is laid quickly. Of the lays that a full search made from
100 mm on, the middle one was 15 mm shorter than what had served it, one in eight more than a purchase step (on
Ferrylight). With 100 mm all lays of Ferrylight took 4.6 hours; so it is 150 (the handbook's figures)."""

QUICK_UP_TO_MM: Final = 1200.0
"""A longer lay is never quickly made: what quickness may cost there is near to what covering may cost."""


@dataclass(frozen=True, kw_only=True)
class Cover:
    """The lay that serves a node: the node it was made for, and the lay itself."""

    node: Node
    lay: Lay

    @property
    def length_mm(self) -> float:
        """Length of the lay in millimetres."""
        return self.lay.length_mm


@dataclass(frozen=True, kw_only=True)
class CoverPlan:
    """What was found for one cloth in one size.

    ``covers``: every node that can be asked for and is served, with the shortest lay that serves it; ``laid``: every
    lay that is there; ``unserved``: what no lay serves; ``largest_cost_mm``: the most that covering costs any served
    node; ``wanting``: how many nodes it costs more than :data:`LARGEST_COST_MM`; ``too_wide``: how many sets, ways and
    widths do not go together because a piece is wider than the cloth; ``sets``: how many sets can be asked for.
    """

    laid: Mapping[Node, Lay] = field(default_factory=dict)
    covers: Mapping[Node, Cover] = field(default_factory=dict)
    unserved: tuple[Node, ...] = ()
    largest_cost_mm: float = 0.0
    wanting: int = 0
    too_wide: int = 0
    sets: int = 0

    @property
    def covered(self) -> int:
        """How many nodes are served by a lay of another node."""
        return sum(cover.node != node for node, cover in self.covers.items())

    def summary(self) -> str:
        """One sentence for the report."""
        return (
            f"{len(self.laid)} lays for {len(self.covers) + len(self.unserved)} that can be asked for, "
            f"{self.covered} of them covered, at a cost of {self.largest_cost_mm:.0f} mm at most"
        )


class CoverSearch:
    """Finds the lays of one cloth in one size, one after the other.

    Arguments: the pieces by name; what can be asked for (an empty set needs no cloth and is left out); widths of the
    bolts in millimetres; the ways of laying; the cost in millimetres that covering may have; how much of the length of
    a lay that was quickly made a better one needs at least; the widths in millimetres at which that cost is minded,
    with nap (left out: all, with nap and without): elsewhere any lay that serves will do; whether quickly made lays
    will do from the start. Ask for :meth:`next_node`, have it laid, :meth:`take` the lay, until there is none.
    """

    def __init__(
        self,
        items: Mapping[str, LayItem],
        asked: Iterable[AskedSet],
        *,
        widths_mm: Sequence[float],
        ways: Sequence[Way],
        limit_mm: float = LARGEST_COST_MM,
        quick_share: float = QUICK_SHARE,
        minded_widths_mm: Sequence[float] | None = None,
        always_quick: bool = False,
    ) -> None:
        self.lattice = Lattice(items, asked, widths_mm, ways)
        minded = None if minded_widths_mm is None else self.lattice.at_widths(minded_widths_mm)
        self._least_share: Mapping[Quality, float] = {"full": 1.0, "everyday": quick_share, "draft": 1.0}
        self._covering = Covering(self.lattice, limit_mm=limit_mm, minded=minded)
        self._always_quick = always_quick
        self._lays: dict[Index, Lay] = {}

    def request(self, node: Node) -> LayRequest:
        """What the solver is asked for, to lay a node."""
        return self.lattice.request(node)

    def all_pieces(self) -> LayRequest:
        """All pieces of the cloth, to tell whether a stored lay may be of these."""
        return LayRequest(items=tuple(self.lattice.items.values()), bolt_width_mm=0, way="flat", one_way=True)

    def knows(self, node: Node) -> bool:
        """Whether a lay of this node is of use here and is not there yet."""
        index = self.lattice.index(node)
        return index is not None and index not in self._lays

    def next_node(self) -> Node | None:
        """What to lay next; None when all that can be asked for is covered well enough."""
        best = self._covering.next_index()
        return None if best is None else self.lattice.node(best)

    def like(self, node: Node) -> tuple[Lay, ...]:
        """The finished folded lays that are most like the one to be made, for a folded search to start from; for
        part-folded cloth the one of the very same pieces and cloth, if it is there, which is then not made again."""
        if node.way == "part-folded":
            at = self.lattice.index(replace(node, way="folded"))
            return (self._lays[at],) if at is not None and at in self._lays else ()
        if node.way != "folded":
            return ()
        items = self.lattice.items
        areas = {item_id: abs(signed_area(item.outline_mm)) * item.count for item_id, item in items.items()}
        whole = sum(areas[item_id] for item_id in node.item_ids)

        def unlike(index: Index) -> tuple[float, Index]:
            other = self.lattice.node(index)
            pieces = sum(areas[item_id] for item_id in sorted(node.item_ids ^ other.item_ids)) / whole
            return round(pieces + abs(log(node.width_mm / other.width_mm)) + (node.nap != other.nap) * 0.01, 6), index

        folded = [index for index in self._lays if self.lattice.ways[index[0]] == "folded"]
        return tuple(self._lays[index] for index in sorted(folded, key=unlike)[:_LIKE])

    def enough_mm(self, node: Node) -> float:
        """As long as the longest lay there is of a node that this one serves: no better lay need be looked for."""
        index = self.lattice.index(node)
        return 0.0 if index is None else int(self._covering.least[index]) / TENTHS

    def take(self, node: Node, lay: Lay) -> None:
        """Take a finished lay. Raises: KeyError for a node that is none of these."""
        index = self.lattice.index(node)
        if index is None:
            raise KeyError(str(node))
        if index not in self._lays:
            self._lays[index] = lay
            self._covering.lay(index, lay.length_mm, least_share=self._least_share[lay.quality])

    def give_up(self, node: Node) -> None:
        """Take note that a node could not be laid."""
        index = self.lattice.index(node)
        if index is not None:
            self._covering.given_up.add(index)

    @property
    def near_its_end(self) -> bool:
        """Whether no node can gain so much any more that each lay is worth a long search."""
        return self._always_quick or self.urgency <= QUICK_FROM_MM * TENTHS

    def quick_will_do(self, node: Node) -> bool:
        """Whether a lay that is quickly made is enough for this node."""
        index = self.lattice.index(node)
        if index is None or self._always_quick:
            return index is not None
        return self.near_its_end and bool(self._covering.length[index] <= QUICK_UP_TO_MM * TENTHS)

    @property
    def urgency(self) -> int:
        """The greatest possible cost: what is dearest is laid first."""
        return self._covering.largest_cost()

    @property
    def wanting(self) -> int:
        """How many nodes cost more than the limit."""
        return self._covering.wanting()

    def result(self) -> CoverPlan:
        """What the lays that are there come to."""
        covering, lattice = self._covering, self.lattice
        nodes = {index: lattice.node(index) for index in self._lays}
        covers = {
            lattice.node(index): Cover(node=nodes[server], lay=self._lays[server])
            for index, server in covering.servers().items()
        }
        unserved = [lattice.node((i[0], i[1], i[2], i[3])) for i in np.argwhere(covering.unserved()).tolist()]
        cost = np.where(covering.unserved(), 0, covering.cost())
        return CoverPlan(
            laid={nodes[index]: self._lays[index] for index in sorted(self._lays)},
            covers=covers,
            unserved=tuple(unserved),
            largest_cost_mm=int(cost.max(initial=0)) / TENTHS,
            wanting=int((cost > LARGEST_COST_MM * TENTHS).sum()),
            too_wide=lattice.too_wide(),
            sets=len(lattice.sets),
        )
