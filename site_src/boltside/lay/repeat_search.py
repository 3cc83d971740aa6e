"""Which lays must be made so that every combination of choices has a length on striped or checked cloth?

The same search as for other cloth (:mod:`.brackets`): a lay in step with more pieces, or on narrower cloth, is in step
with fewer, and on wider. It is always laid one way, so nap makes no difference. Across the cloth a fold turns the
pattern over: with a repeat across, unfolded marks mirror each other, and each way of laying has lays of its own.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Final

from .brackets import EVERYDAY_COST_MM, CoverSearch
from .lattice import AskedSet, Node
from .model import Lay, LayError, LayItem, LayRequest, Repeat, Way
from .spread_in_step import check_folds
from .spread_model import plain, to_the_middle
from .spread_repeats import FillerInStep
from .spread_search import no_fit_table
from .spread_slots import fits, spread_slots

REPEAT_COST_MM: Final = EVERYDAY_COST_MM
"""What covering may cost: two purchase steps. In step, lengths differ by repeats anyway. Our choice."""


class RepeatSearch(CoverSearch):
    """Finds the lays in step of one cloth in one size. Arguments as of the search; the repeat with all marks."""

    def __init__(
        self,
        items: Mapping[str, LayItem],
        asked: Iterable[AskedSet],
        *,
        widths_mm: Sequence[float],
        ways: Sequence[Way],
        repeat: Repeat,
        limit_mm: float = REPEAT_COST_MM,
    ) -> None:
        one_way = [AskedSet(item_ids=one.item_ids, naps=frozenset({True})) for one in asked]
        super().__init__(items, one_way, widths_mm=widths_mm, ways=ways, limit_mm=limit_mm)
        self.repeat = repeat
        self._leave_out()

    def request(self, node: Node) -> LayRequest:
        """What the solver is asked for, to lay a node: with the repeat and the marks of its pieces."""
        marks = {item_id: mark for item_id, mark in self.repeat.marks.items() if item_id in node.item_ids}
        return replace(super().request(node), repeat=replace(self.repeat, marks=marks))

    def all_pieces(self) -> LayRequest:
        """All pieces of the cloth with their marks."""
        return replace(super().all_pieces(), repeat=self.repeat)

    def like(self, node: Node) -> tuple[Lay, ...]:
        """No lay to start from: places in step are few, and moving one piece moves the others."""
        return ()

    def _leave_out(self) -> None:
        """Nobody can ask for what can't be in step: folds or halves that meet the pattern at different places."""
        lattice = self.lattice
        if self.repeat.across_mm is None:
            return
        for way_at, way in enumerate(lattice.ways):
            for other_at, other in enumerate(lattice.ways):
                lattice.way_serves[way_at, other_at] &= way == other or (way, other) == ("folded", "part-folded")
            if way == "flat":
                continue
            for set_at, item_ids in enumerate(lattice.sets):
                pieces = [lattice.items[item_id] for item_id in sorted(item_ids)]
                for width_at, width_mm in enumerate(lattice.widths_mm):
                    if not can_be_in_step(pieces, way, width_mm, self.repeat):
                        lattice.fits[way_at, :, set_at, width_at] = False
                        lattice.asked[way_at, :, set_at, width_at] = False


def can_be_in_step(items: Iterable[LayItem], way: Way, bolt_width_mm: float, repeat: Repeat) -> bool:
    """Whether folds, the halves that lie on them, and every other piece beside them can be in step across the cloth.

    Halves can't choose where they lie across it: all their marks have to be at the same place of the pattern, and what
    is nearly as wide as the cloth may find no place in step with them. Cloth folded over in part has the one fold that
    cloth folded in half has.
    """
    if way == "flat" or repeat.across_mm is None:
        return True
    try:
        spread = to_the_middle(bolt_width_mm) if way == "middle" else plain(bolt_width_mm, "folded")
        check_folds(spread, repeat)
        slots = spread_slots(tuple(items), spread, one_way=True)
        return fits(slots) and FillerInStep(slots, spread, no_fit_table(), repeat).each_has_a_place()
    except LayError:
        return False
