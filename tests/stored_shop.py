"""What can be asked of a pattern of the shop, and what do its stored lays answer? Worked out by hand.

Which pieces are cut is read from `pattern.yaml` (`read_by_hand.py`); what makes a lay right is looked at in
`look_at_lays.py`. Only the outlines and the marks for stripes are taken from the engine, and the places of the pieces,
which are what is looked at.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterable
from functools import cache
from math import ceil
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
import yaml
from look_at_lays import SELVEDGE_MM, Laid
from read_by_hand import SIZE, Chosen, areas_off_the_fold, every_choice, naps_asked, pieces_to_cut
from shapely import Polygon

from boltside.demands import PlanKey
from boltside.lay.model import Lay
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import lay_item, lay_mark
from boltside.plan import LaysMissing, PatternLays, cache_of, run_pattern
from boltside.read.folder import read_pattern
from boltside.shop_lays import shop_of_lays

DATA = Path(__file__).parents[1] / "data"
PATTERNS = ("breakwater", "ferrylight", "millrace", "windlass", "wrackline")
LISTED = "repeat:"
"""Before the name of a repeat, where otherwise `with` or `without` nap stands."""
MADE_IN = {
    "flat": ("flat", "folded", "middle", "part-folded"),
    "folded": ("folded",),
    "middle": ("middle",),
    "part-folded": ("part-folded", "folded"),
}
"""In which ways a lay may have been made that lies in this one. Source: geometry. Unfolded, every lay is a flat one;
folded in half is folded over by half."""
NEVER_LESS = {"flat": (), "folded": ("part-folded", "flat"), "middle": ("flat",), "part-folded": ("flat",)}
"""Ways that never need more than this one, for the same reason."""
FOLD_STEP_MM = 5
"""How far cloth is folded over is told in half centimetres. Our choice."""

Pieces = dict[str, tuple[str, int]]
"""Name in the lays to mode and count."""


def as_laid(lay: Lay) -> Laid:
    """A lay as the store has it."""
    at = [(p.item_id, p.x_mm, p.y_mm, p.turned, p.mirrored) for p in lay.placements]
    ids = frozenset(name for name, *_ in at)
    return Laid(ids, lay.way, lay.one_way, lay.bolt_width_mm, lay.length_mm, at, lay.fold_over_mm)


def _narrow(lays: PatternLays, key: PlanKey) -> list[Lay]:
    """The lays for remnants of a cloth in a size."""
    return list(lays.remnants[key].laid.values()) if key in lays.remnants else []


class Shop:
    """A pattern as its folder says it, its sheet as published, and its lays."""

    def __init__(self, folder: Path) -> None:
        self.name = folder.name
        self.raw: dict[str, Any] = yaml.safe_load((folder / "pattern.yaml").read_text(encoding="utf-8"))
        self.off_fold = areas_off_the_fold(self.raw, (folder / "pieces.svg").read_text(encoding="utf-8"))
        pattern = read_pattern(folder, folder.parents[1] / "body_charts")
        lays = run_pattern(pattern, folder, only_stored=True, quality="draft", cache_dir=cache_of(DATA))
        made = shop_of_lays(pattern, lays)
        self.sheet = made.sheet
        # As the page gets them.
        self.files: dict[str, Any] = json.loads(json.dumps(dict(made.lay_files)))
        self.outlines: dict[tuple[str, str], Polygon] = {}
        self.marks: dict[tuple[str, str], tuple[float, float]] = {}
        for line in cut_lines(pattern):
            for size in line.sizes:
                self.outlines[line.line_id, size] = Polygon(lay_item(pattern, line, size).outline_mm)
                mark = lay_mark(pattern, line, size)
                if mark is not None:
                    self.marks[line.line_id, size] = mark
        self.sizes: list[str] = self.raw["sizes"]
        self.laid = {
            (key.cloth, key.size): self._sorted([*plan.laid.values(), *_narrow(lays, key)])
            for key, plan in lays.plans.items()
        }
        self.in_step = {
            (key.of.cloth, key.of.size, LISTED + key.repeat): self._sorted(list(plan.laid.values()))
            for key, plan in lays.repeats.items()
        }
        self.of_pairs = {
            (key.cloth, key.pair): self._sorted(list(plan.laid.values())) for key, plan in lays.pair_plans.items()
        }
        self.needed = cache(self._needed)
        self.choices = cache(self._choices)
        self.cut = cache(self._cut)
        self.modes = cache(self._modes)
        self.asked = cache(self._asked)

    def _sorted(self, lays: list[Lay]) -> list[Laid]:
        """The shortest first."""
        return sorted((as_laid(lay) for lay in lays), key=lambda one: one.length_mm)

    def _choices(self, size: str) -> list[Chosen]:
        return every_choice(self.raw, size)

    def pieces(self, cloth: str, size: str, chosen: Chosen) -> Pieces:
        """What is cut from a cloth for these choices."""
        return self.cut(cloth, size, tuple(chosen.items()))

    def _cut(self, cloth: str, size: str, chosen: tuple[tuple[str, str], ...]) -> Pieces:
        ids = [line_id for line_id, of_size in self.outlines if of_size == size]
        return pieces_to_cut(self.raw, ids, cloth, {**dict(chosen), SIZE: size}, self.off_fold)

    def _modes(self, cloth: str, size: str) -> Pieces:
        """Everything that any choices ask for: modes and counts are the same in all of them."""
        found: Pieces = {}
        for chosen in self.choices(size):
            for name, how in self.pieces(cloth, size, chosen).items():
                assert found.setdefault(name, how) == how
        return found

    def of_lay(self, cloth: str, size: str, lay: Laid) -> Pieces:
        """The pieces of a lay, which may hold more than was asked for."""
        return {name: self.modes(cloth, size)[name] for name in lay.ids}

    def across_mm(self, cloth: str, size: str, way: str, ids: Iterable[str]) -> float:
        """How wide a bolt the pieces need, both selvedges included; folded over in part, beside each other."""
        halves, others = [0.0], [0.0]
        doubled = []
        for name in ids:
            mode, _ = self.modes(cloth, size)[name]
            _, low, _, high = self.outlines[name, size].bounds
            (halves if mode == "fold" else others).append(high if mode == "fold" else high - low)
            doubled += [high - low] if mode == "pair" else []
        widest = max(halves + others)
        if way == "flat":
            return max(2 * max(halves), max(others)) + 2 * SELVEDGE_MM
        least = (4 if way == "middle" else 2) * (widest + SELVEDGE_MM)
        if way != "part-folded":
            return least
        for over_mm in range(FOLD_STEP_MM, ceil(widest) + SELVEDGE_MM, FOLD_STEP_MM):
            flap_mm = over_mm - SELVEDGE_MM
            if max(halves) > flap_mm or (max(halves) == 0 and min(doubled, default=widest) > flap_mm):
                continue  # folded over for nothing, or not far enough
            if max(others) > flap_mm:
                least = min(least, 2 * over_mm + SELVEDGE_MM + max(others))
        return least

    def _asked(self, cloth: str, size: str) -> dict[frozenset[str], set[str]]:
        """The sets of pieces that can be asked for, and with which nap."""
        found: dict[frozenset[str], set[str]] = {}
        for chosen in self.choices(size):
            ids = frozenset(self.pieces(cloth, size, chosen))
            if ids:
                found.setdefault(ids, set()).update(naps_asked(self.raw, cloth, chosen).values())
        return found

    def repeat(self, cloth: str, kind: str) -> dict[str, Any] | None:
        """What the pattern lists under a repeat's name; None for cloth with or without nap."""
        found: dict[str, Any] | None = None
        if kind.startswith(LISTED):
            found = self.raw["cloths"][cloth]["repeats"][kind.removeprefix(LISTED)]
        return found

    def own(self, cloth: str, size: str, way: str, kind: str, ids: frozenset[str], width_mm: float) -> Laid | None:
        """The shortest lay that holds the pieces: on cloth no wider, with nap or in step where that is asked for, in a
        way that lies in this one. Unfolded, a pattern that repeats across the cloth is out of step."""
        repeat = self.repeat(cloth, kind)
        lays = self.laid.get((cloth, size), []) if repeat is None else self.in_step.get((cloth, size, kind), [])
        made_in = MADE_IN[way] if repeat is None or "across_mm" not in repeat or way != "flat" else ("flat",)
        for one in lays:
            if one.way in made_in and one.ids >= ids and one.width_mm <= width_mm and one.with_nap >= (kind == "with"):
                return one
        return None

    def _needed(self, cloth: str, size: str, way: str, kind: str, ids: frozenset[str], width_mm: float) -> int | None:
        """The length to publish in whole mm: that of the shortest lay, raised to what a smaller size, fewer pieces,
        wider cloth, no nap, no repeat, or cloth folded less takes. None: not asked for, or no lay."""
        naps = self.asked(cloth, size).get(ids, set())
        repeat = self.repeat(cloth, kind)
        own = self.own(cloth, size, way, kind, ids, width_mm)
        if own is None or not naps or (repeat is None and kind not in naps):
            return None
        if way != "part-folded" and self.across_mm(cloth, size, way, ids) > width_mm:
            return None
        others = [self.needed(cloth, size, way, kind, one, width_mm) for one in self.asked(cloth, size) if one < ids]
        if kind == "with":
            others.append(self.needed(cloth, size, way, "without", ids, width_mm))
        if repeat is not None:
            others.append(self.needed(cloth, size, way, "with" if "with" in naps else "without", ids, width_mm))
        if repeat is None or "across_mm" not in repeat:
            less = [one for one in NEVER_LESS[way] if one in self.raw["cloths"][cloth]["ways"]]
            others += [self.needed(cloth, size, one, kind, ids, width_mm) for one in less]
        wider = [one for one in self.reckoned_mm(cloth, way, kind) if one > width_mm]
        others += [self.needed(cloth, size, way, kind, ids, min(wider))] if wider else []
        for smaller in reversed(self.sizes[: self.sizes.index(size)]):
            found = self.needed(cloth, smaller, way, kind, ids, width_mm)
            if found is not None:
                others.append(found)
                break
        return max([ceil(own.length_mm - 1e-6), *(one for one in others if one is not None)])

    def widths_mm(self, cloth: str) -> list[int]:
        """All widths that are laid: of remnants and of bolts."""
        return [*self.raw["cloths"][cloth].get("remnant_widths_mm", []), *self.raw["cloths"][cloth]["widths_mm"]]

    def reckoned_mm(self, cloth: str, way: str, kind: str) -> list[int]:
        """The widths for which there is an answer of their own: with two folds, half a bolt apart, both have to be in
        the middle of a pattern that repeats across the cloth."""
        across_mm = (self.repeat(cloth, kind) or {}).get("across_mm")
        widths = self.widths_mm(cloth)
        return widths if across_mm is None or way != "middle" else [one for one in widths if one % across_mm == 0]

    def expected_mm(self, cloth: str, size: str, way: str, kind: str, ids: frozenset[str], width_mm: Any) -> int | None:
        """For cloth of any width: what the next narrower width in the list needs."""
        listed = [one for one in self.reckoned_mm(cloth, way, kind) if one <= width_mm]
        return self.needed(cloth, size, way, kind, ids, max(listed)) if listed else None


@cache
def _copied() -> TemporaryDirectory[str]:
    """A copy of the data, so that a run of the solver beside it disturbs nothing; gone when Python ends."""
    folder = TemporaryDirectory(prefix="boltside-")
    shutil.copytree(DATA, Path(folder.name) / "data", ignore=shutil.ignore_patterns("*.new", "drafting", "benchmark"))
    return folder


@cache
def shop_of(name: str) -> Shop:
    """A pattern of the shop. The test that asks is skipped while its lays are being solved. Raises: LaysMissing."""
    folder = Path(_copied().name) / "data" / "patterns" / name
    try:
        return Shop(folder)
    except LaysMissing:
        if (folder / "lays.journal").exists():
            pytest.skip(f"{name}: the lays are being solved")
        raise
