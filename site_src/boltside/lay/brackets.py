"""Which sets of pieces must be laid so that every combination of choices has a length? Brackets.

Length never shrinks when pieces are added, so a lay of a *top* (all pieces of a family of combinations) serves
each of them, and the length of the *bottom* (the pieces that all of them have) tells how much that can cost at
most. Where it may cost more than one step of purchase, the family is split by the choice that moves most area.
"""

from collections.abc import Callable, Generator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from .bounds import shortest_possible_mm
from .model import Lay, LayItem, LayRequest, TooWide, Way, check_widths
from .outlines import signed_area
from .slots import places

PURCHASE_STEP_MM: Final = 50.0
"""Cloth is bought in steps of 5 cm at best (common practice), so less than this can't be seen by a buyer."""

FEW_SETS: Final = 12
"""In a family of so few sets only what can be asked for is laid. A top or bottom that nobody can ask for is a lay
more, and in so small a family it saves fewer than it costs: over Ferrylight's nine sets 1896 lays against 1368 sets."""

ItemSet = frozenset[str]


@dataclass(frozen=True, kw_only=True)
class ReachableSet:
    """The pieces that one combination of choices asks for of one cloth: choice to alternative, item ids."""

    choices: Mapping[str, str]
    item_ids: ItemSet


@dataclass(frozen=True, kw_only=True)
class Cover:
    """The lay that a set of pieces uses: the laid set contains it."""

    laid: ItemSet
    lay: Lay

    @property
    def length_mm(self) -> float:
        """Length of the lay in millimetres."""
        return self.lay.length_mm


@dataclass(frozen=True, kw_only=True)
class CoverPlan:
    """What brackets found for one cloth, size, width and way.

    ``laid`` are all sets that were laid, with their lays; ``covers`` the cheapest laid set for each set of
    pieces that can be asked for; ``too_wide`` the sets that do not fit between the selvedges;
    ``largest_cost_mm`` the most that covering can cost any set (0 for a set that was laid itself).
    """

    laid: Mapping[ItemSet, Lay] = field(default_factory=dict)
    covers: Mapping[ItemSet, Cover] = field(default_factory=dict)
    too_wide: Mapping[ItemSet, TooWide] = field(default_factory=dict)
    largest_cost_mm: float = 0.0

    def summary(self) -> str:
        """One sentence for the report."""
        return (
            f"{len(self.laid)} sets laid for {len(self.covers)} that can be asked for, "
            f"{len(self.covers) - len(self.laid.keys() & self.covers.keys())} of them covered, "
            f"at a cost of {self.largest_cost_mm:.0f} mm at most"
        )


PlanSteps = Generator[LayRequest, Lay, CoverPlan]
"""A plan in progress: it yields requests, takes lays, and returns what it found."""


def plan_cover(
    items: Mapping[str, LayItem],
    reachable: Sequence[ReachableSet],
    *,
    bolt_width_mm: float,
    way: Way,
    one_way: bool,
    step_mm: float = PURCHASE_STEP_MM,
) -> PlanSteps:
    """Find lays that cover all sets that can be asked for, each to within a step of purchase.

    Arguments: the pieces of one cloth in one size; what can be asked for (an empty set needs no cloth and is
    left out); width in millimetres and way; the step in millimetres. A generator, so that many plans can
    share a pool of solvers: send it the lay of each request it yields.
    """

    def request(item_ids: ItemSet) -> LayRequest:
        chosen = tuple(items[item_id] for item_id in sorted(item_ids))
        return LayRequest(items=chosen, bolt_width_mm=bolt_width_mm, way=way, one_way=one_way)

    too_wide: dict[ItemSet, TooWide] = {}
    family: list[ReachableSet] = []
    for combination in reachable:
        if not combination.item_ids:
            continue
        try:
            check_widths(request(combination.item_ids))
        except TooWide as error:
            too_wide[combination.item_ids] = error
        else:
            family.append(combination)
    wanted = {combination.item_ids for combination in family}
    laid: dict[ItemSet, Lay] = {}
    floors = {item_ids: shortest_possible_mm(request(item_ids)) for item_ids in wanted}
    areas = {item_id: _area_mm2(item, way) for item_id, item in items.items()}

    families = [family] if family else []
    while families:
        family = families.pop()
        sets = {combination.item_ids for combination in family}
        top = frozenset.union(*sets)
        if len(sets) > 1:
            bottom = frozenset.intersection(*sets)
            floor_mm = shortest_possible_mm(request(bottom)) if bottom else 0.0
            few = len(sets) <= FEW_SETS
            wasteful = top not in wanted and bool(bottom) and top not in laid
            if few and top not in wanted:
                wasteful = True
            elif wasteful:
                if bottom not in laid:
                    laid[bottom] = yield request(bottom)
                wasteful = shortest_possible_mm(request(top)) > laid[bottom].length_mm + step_mm
            if not wasteful:
                if top not in laid:
                    laid[top] = yield request(top)
                if laid[top].length_mm - floor_mm <= step_mm:
                    continue
                if bottom and not (few and bottom not in wanted):
                    if bottom not in laid:
                        laid[bottom] = yield request(bottom)
                    if laid[top].length_mm - laid[bottom].length_mm <= step_mm:
                        continue
            families += reversed(_split(family, areas))
        elif top not in laid:
            laid[top] = yield request(top)
    covers = {item_ids: _cheapest(item_ids, laid) for item_ids in sorted(wanted, key=sorted)}
    return CoverPlan(
        laid=laid,
        covers=covers,
        too_wide=too_wide,
        largest_cost_mm=max((_cost_mm(s, cover, laid, floors[s]) for s, cover in covers.items()), default=0.0),
    )


def plan(
    items: Mapping[str, LayItem],
    reachable: Sequence[ReachableSet],
    *,
    bolt_width_mm: float,
    way: Way,
    one_way: bool,
    solve: Callable[[LayRequest], Lay],
    step_mm: float = PURCHASE_STEP_MM,
) -> CoverPlan:
    """:func:`plan_cover` driven to its end with a solver called on the spot."""
    steps = plan_cover(items, reachable, bolt_width_mm=bolt_width_mm, way=way, one_way=one_way, step_mm=step_mm)
    try:
        request = next(steps)
        while True:
            request = steps.send(solve(request))
    except StopIteration as end:
        result: CoverPlan = end.value
        return result


def _area_mm2(item: LayItem, way: Way) -> float:
    """Area on the table."""
    sides = 2 if item.mode == "fold" and way == "flat" else 1
    return abs(signed_area(item.outline_mm)) * places(item, way) * sides


def _split(family: Sequence[ReachableSet], areas: Mapping[str, float]) -> list[list[ReachableSet]]:
    """Split by the choice whose alternatives differ most in area, into families that differ in their pieces.

    A choice that some combinations are not asked counts as an alternative of its own there.
    """
    best: tuple[float, str, dict[str, list[ReachableSet]]] | None = None
    for choice in sorted({name for combination in family for name in combination.choices}):
        groups: dict[str, list[ReachableSet]] = {}
        for combination in family:
            groups.setdefault(combination.choices.get(choice, ""), []).append(combination)
        if len(groups) < 2:
            continue
        tops = [frozenset.union(*(c.item_ids for c in group)) for group in groups.values()]
        sizes = [sum(areas[item_id] for item_id in top) for top in tops]
        spread = max(sizes) - min(sizes)
        if best is None or spread > best[0]:
            best = (spread, choice, groups)
    if best is None or best[0] == 0.0:
        return _split_by_sets(family)
    return [best[2][alternative] for alternative in sorted(best[2])]


def _split_by_sets(family: Sequence[ReachableSet]) -> list[list[ReachableSet]]:
    """One family a set of pieces: for combinations that no choice tells apart by area."""
    groups: dict[ItemSet, list[ReachableSet]] = {}
    for combination in family:
        groups.setdefault(combination.item_ids, []).append(combination)
    return [groups[item_ids] for item_ids in sorted(groups, key=sorted)]


def _cheapest(item_ids: ItemSet, laid: Mapping[ItemSet, Lay]) -> Cover:
    """The shortest lay among the sets that contain this one; the smallest such set among equals."""
    containing = [other for other in laid if other >= item_ids]
    other = min(containing, key=lambda other: (laid[other].length_mm, len(other), sorted(other)))
    return Cover(laid=other, lay=laid[other])


def _cost_mm(item_ids: ItemSet, cover: Cover, laid: Mapping[ItemSet, Lay], floor_mm: float) -> float:
    """How much longer than its own best lay the cover may be, at most."""
    if item_ids in laid:
        return 0.0
    below = [lay.length_mm for other, lay in laid.items() if other <= item_ids]
    return max(0.0, cover.length_mm - max([floor_mm, *below]))


def never_more_when_wider(lengths: Mapping[float, float]) -> dict[float, tuple[float, float]]:
    """A lay serves every wider cloth laid in the same way, so length need never grow with width.

    Argument: bolt width to length, both in millimetres. Returns for each width the length to publish and the
    bolt width whose lay it comes from (itself, or a narrower one).
    """
    published: dict[float, tuple[float, float]] = {}
    best: tuple[float, float] | None = None
    for width in sorted(lengths):
        if best is None or lengths[width] < best[0]:
            best = (lengths[width], width)
        published[width] = best
    return published


def never_less_with_size(lengths: Sequence[float]) -> list[float]:
    """A larger size's lay serves a smaller one whose pieces it contains, so a larger size need never take less.

    Argument: lengths in the order of the sizes, smallest first. Returns the lengths to publish: the least of a
    size's own and all larger ones'. True only where each piece fits into the larger size's piece.
    """
    published: list[float] = []
    for length in reversed(lengths):
        published.append(min(length, published[-1]) if published else length)
    return published[::-1]
