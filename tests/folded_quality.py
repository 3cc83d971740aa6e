"""How good are lays on folded cloth? On stored lays of all patterns:

    python tests/folded_quality.py --share              how many are at a bound that nothing can beat, of all of them
    python tests/folded_quality.py [COUNT] [SECONDS]    lay some of the others once more, by a second method
    python tests/folded_quality.py --nudge 24 8         nudge pieces of lays folded once across the cloth (`nudged.py`)

For the second, so many full lays of every folded way that are not within `AT_BOUND_MM` of the bound are drawn by a
fixed seed (all, where there are fewer) and laid again by a search that shares nothing with the engine
(`other_zones.py`), for so many seconds of processor time each.
"""

from __future__ import annotations

import argparse
import random
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from statistics import mean

from nudged import Placed, nudged_mm
from other_zones import Piece, all_units, part_folded_mm, strips_of, zones_mm
from shapely import Polygon
from shapely.affinity import rotate, scale, translate
from wide_rows import wide_row_mm

from boltside.lay.bounds import area_mm2, fold_chain_mm, longest_piece_mm
from boltside.lay.model import Lay, LayRequest, usable_width_mm
from boltside.lay.slots import slots_of
from boltside.lay.spread_bounds import FOLDS, cloth_area_mm2, first_of, fold_rows, shortest_spread_mm, wide_slots
from boltside.plan import run_pattern
from boltside.read.folder import read_patterns

DATA = Path(__file__).parents[1] / "data"
SEED, COUNT, SECONDS = 20261126, 20, 40.0
WAYS = ("folded", "middle", "part-folded")
RIGHT_MM = 0.05
"""A lay is right to within this."""
ALL = "all patterns"
RULES = {"row": "the row along a fold", "longest": "the longest piece", "area": "the area"}
AT_BOUND_MM = 0.3
"""No ruler shows what is left. The search stops as near."""
EASILY_FILLED = 0.7
"""Where pieces take no more of the cloth than this at the bound, there is room for the others beside the row, unless
they are too wide for it: these lays are held against the row with wide pieces too (`wide_rows.py`)."""


@dataclass(frozen=True, kw_only=True)
class Bounds:
    """Lengths in mm that nothing can beat: the row of halves along the fold (the longer one of two folds), the longest
    piece, the area."""

    row_mm: float
    longest_mm: float
    area_mm: float

    @property
    def greatest_mm(self) -> float:
        """What no lay is shorter than."""
        return max(self.row_mm, self.longest_mm, self.area_mm)

    @property
    def ruled_by(self) -> str:
        """Which of them is the greatest; the area only if it is greater than both others, for it is not reached."""
        if self.area_mm > max(self.row_mm, self.longest_mm):
            return "area"
        return "row" if self.row_mm >= self.longest_mm else "longest"


@dataclass(frozen=True, kw_only=True)
class Stored:
    """A stored lay, what it was made for, and its bounds."""

    name: str
    pattern: str
    request: LayRequest
    lay: Lay
    bounds: Bounds

    @property
    def at_bound(self) -> bool:
        """Whether no ruler could tell the lay from the bound."""
        return self.lay.length_mm <= self.bounds.greatest_mm + AT_BOUND_MM

    @property
    def easily_filled(self) -> bool:
        """Whether a piece rules and leaves much room at the bound."""
        return self.bounds.ruled_by != "area" and self.bounds.area_mm <= EASILY_FILLED * self.bounds.greatest_mm

    @property
    def pieces(self) -> list[Piece]:
        """The cutting list, for the second methods."""
        return [(Polygon(one.outline_mm), str(one.mode), one.count, str(one.face)) for one in self.request.items]

    @property
    def at_wide_row(self) -> bool:
        """Whether no ruler could tell the lay from the shortest row of halves and pieces too wide to lie beside it."""
        request = self.request
        row_mm = wide_row_mm(self.pieces, request.way, request.bolt_width_mm, nap=request.one_way)
        assert row_mm <= self.lay.length_mm + RIGHT_MM, f"{self.name} is shorter than nothing can be: {row_mm}"
        return self.lay.length_mm <= row_mm + AT_BOUND_MM

    @property
    def above(self) -> float:
        """By which share the lay is longer than the bound."""
        return self.lay.length_mm / self.bounds.greatest_mm - 1


@cache
def bounds_of(request: LayRequest) -> Bounds:
    """The bounds of a lay on folded cloth."""
    way, items, bolt_mm = request.way, request.items, request.bolt_width_mm
    if way == "middle" or way == "part-folded":
        slots = wide_slots(items, way, one_way=request.one_way)
        row_mm = fold_rows(slots, FOLDS[way])[0]
        longest_mm = longest_piece_mm([first_of(slot) for slot in slots])
        all_mm = shortest_spread_mm(items, bolt_mm, way, one_way=request.one_way)
        cloth_mm = cloth_area_mm2(items) / usable_width_mm(bolt_mm, "flat")
        return Bounds(
            row_mm=row_mm,
            longest_mm=longest_mm,
            # Waste in second layers counts as well, to the middle: then the greatest of all is none of the others.
            area_mm=all_mm if all_mm > max(row_mm, longest_mm) + 1e-9 else cloth_mm,
        )
    places = slots_of(request)
    return Bounds(
        row_mm=fold_chain_mm(places),
        longest_mm=longest_piece_mm(places),
        area_mm=area_mm2(places) / usable_width_mm(bolt_mm, way),
    )


def stored() -> Iterator[Stored]:
    """All full lays on folded cloth, but for those in step with stripes."""
    for pattern in read_patterns(DATA):
        lays = run_pattern(pattern, DATA / "patterns" / pattern.folder, only_stored=True, quality="draft")
        of_singles = [(key, lays.demands[key].items, plan) for key, plan in lays.plans.items()]
        of_pairs = [(key, lays.pair_demands[key].items, plan) for key, plan in lays.pair_plans.items()]
        for key, items, plan in (*of_singles, *of_pairs):
            for node, lay in plan.laid.items():
                if node.way not in WAYS or lay.quality != "full":
                    continue
                request = LayRequest(
                    items=tuple(items[one] for one in sorted(node.item_ids)),
                    bolt_width_mm=lay.bolt_width_mm,
                    way=lay.way,
                    one_way=lay.one_way,
                )
                yield Stored(
                    name=f"{key}, {node}",
                    pattern=pattern.folder,
                    request=request,
                    lay=lay,
                    bounds=bounds_of(request),
                )


def share(lays: Iterable[Stored]) -> list[str]:
    """By way and by what rules: how many lays are at the bound, and by how much the others are above it."""
    lines = []
    groups: dict[tuple[str, str], list[Stored]] = defaultdict(list)
    for one in lays:
        groups[one.request.way, one.pattern].append(one)
        groups[one.request.way, ALL].append(one)
    for way in WAYS:
        patterns = sorted((pattern for of_way, pattern in groups if of_way == way), key=lambda one: (one == ALL, one))
        for pattern in patterns if len(patterns) > 2 else patterns[:1]:
            those = groups[way, pattern]
            lines.append(f"{way}, {pattern}: {told(those)}")
            for rule, words in RULES.items():
                ruled = [one for one in those if one.bounds.ruled_by == rule]
                if ruled:
                    lines.append(f"  {words} rules in {told(ruled)}")
                easy = [one for one in ruled if one.easily_filled]
                if easy:
                    lines.append(f"    cloth of that length at most {EASILY_FILLED:.0%} full: {told(easy)}")
                    wide = sum(one.at_wide_row for one in easy if not one.at_bound)
                    lines.append(f"      of the others as short as a row with pieces too wide to lie beside it: {wide}")
    return lines


def told(those: Sequence[Stored]) -> str:
    """How many lays, how many of them at the bound, and the others' distance."""
    others = [one.above for one in those if not one.at_bound]
    at = len(those) - len(others)
    if not those:
        return "0 lays"
    line = f"{len(those)} lays, {at} at the bound ({at / len(those):.1%})"
    return line + (f", the others {mean(others):.1%} above it in the mean, {max(others):.1%} at most" if others else "")


def again_mm(one: Stored, seconds: float) -> float:
    """The length in mm that the second method finds."""
    request, nap = one.request, one.request.one_way
    pieces = one.pieces
    if request.way == "part-folded":
        over_mm = one.lay.fold_over_mm or request.bolt_width_mm / 2
        return part_folded_mm(pieces, request.bolt_width_mm, over_mm, nap=nap, seed=SEED, budget_s=seconds)
    strips = strips_of(request.way, request.bolt_width_mm)
    return zones_mm(all_units(pieces, strips, nap=nap), strips, seed=SEED, budget_s=seconds)


def compare(lays: Sequence[Stored], ways: Sequence[str], count: int, seconds: float) -> None:
    """Draw, lay again, print."""
    for way in ways:
        those = [one for one in lays if one.request.way == way and not one.at_bound]
        ratios = []
        for one in random.Random(SEED).sample(those, min(count, len(those))):
            second_mm = again_mm(one, seconds)
            ratios.append(one.lay.length_mm / second_mm)
            longer = "LONGER, " if second_mm < one.lay.length_mm - AT_BOUND_MM else ""
            print(
                f"{longer}{one.lay.length_mm:.1f} mm, bound {one.bounds.greatest_mm:.1f} by {one.bounds.ruled_by}, "
                f"second method {second_mm:.1f}: {ratios[-1] - 1:+.2%}  {one.name}",
                flush=True,
            )
        if ratios:
            print(
                f"{way}: {len(ratios)} of {len(those)} lays above the bound, to the second method's {mean(ratios):.4f} "
                f"in the mean, {min(ratios):.4f} to {max(ratios):.4f}",
                flush=True,
            )


def placed(one: Stored) -> list[Placed]:
    """Where the outlines of a stored lay lie."""
    items = {item.item_id: item for item in one.request.items}
    found = []
    for place in one.lay.placements:
        item = items[place.item_id]
        shape = Polygon(item.outline_mm)
        if place.mirrored:
            shape = scale(shape, yfact=-1, origin=(0, 0))
        if place.turned:
            shape = rotate(shape, 180, origin=(0, 0))
        found.append((translate(shape, place.x_mm, place.y_mm), item.mode == "fold"))
    return found


def nudge(lays: Sequence[Stored], count: int, seconds: float) -> None:
    """Draw lays folded once that are above the bound, nudge, print."""
    those = [one for one in lays if one.request.way == "folded" and not one.at_bound]
    gained_mm = []
    for one in random.Random(SEED).sample(those, min(count, len(those))):
        depth_mm = strips_of("folded", one.request.bolt_width_mm)[0].depth_mm
        length_mm = nudged_mm(placed(one), depth_mm, seed=SEED, budget_s=seconds)
        gained_mm.append(one.lay.length_mm - length_mm)
        print(f"{one.lay.length_mm:.1f} mm, nudged {length_mm:.1f}: {gained_mm[-1]:.1f} less  {one.name}", flush=True)
    shorter = sum(mm > AT_BOUND_MM for mm in gained_mm)
    print(f"{shorter} of {len(gained_mm)} shorter by more than {AT_BOUND_MM} mm; in the mean of all "
          f"{mean(gained_mm):.1f} mm, {max(gained_mm):.1f} mm at most")  # fmt: skip


def main() -> None:
    """Count, compare or nudge."""
    parser = argparse.ArgumentParser(description="Stored lays on folded cloth against bounds and a second method.")
    parser.add_argument("count", type=int, nargs="?", default=COUNT, help="lays of each way to lay again")
    parser.add_argument("seconds", type=float, nargs="?", default=SECONDS, help="processor time for each")
    parser.add_argument("--way", choices=WAYS, help="only this way of laying")
    parser.add_argument("--share", action="store_true", help="count all stored lays that are at the bound instead")
    parser.add_argument("--nudge", action="store_true", help="nudge pieces of finished lays folded once instead")
    asked = parser.parse_args()
    lays = list(stored())
    if asked.share:
        print("\n".join(share(lays)))
    elif asked.nudge:
        nudge(lays, asked.count, asked.seconds)
    else:
        compare(lays, [asked.way] if asked.way else WAYS, asked.count, asked.seconds)


if __name__ == "__main__":
    main()
