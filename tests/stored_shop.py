"""What can be asked of a pattern of the shop, and what do its stored lays answer? Worked out by hand.

Which pieces are cut is read from `pattern.yaml` (`read_by_hand.py`), lays are looked at with shapely. Only the outlines
are taken from the engine, and the places of the pieces, which are what is looked at.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from functools import cache
from math import ceil
from pathlib import Path
from typing import Any, NamedTuple

import yaml
from read_by_hand import SIZE, Chosen, every_choice, naps_asked, pieces_to_cut
from shapely import Polygon, STRtree
from shapely.affinity import scale, translate
from shapely.geometry.base import BaseGeometry

from boltside.demands import PlanKey
from boltside.lay.model import Lay
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import lay_item
from boltside.plan import PatternLays, cache_of, run_pattern
from boltside.read.folder import read_pattern
from boltside.shop_lays import lay_files, published_lays
from boltside.spec.sheet import make_sheet

DATA = Path(__file__).parents[1] / "data"
PATTERNS = ("breakwater", "ferrylight", "millrace")
SELVEDGE_MM = 15
"""Lost at each selvedge. Common practice."""
HAIR_MM = 0.02
"""Placements are stored to 0.01 mm."""
SHARED_MM2 = 1.0

Pieces = dict[str, tuple[str, int]]
"""Name in the lays to mode and count."""


class Laid(NamedTuple):
    """A stored lay: what it holds, how it lies, and how long it says it is."""

    ids: frozenset[str]
    way: str
    with_nap: bool
    width_mm: float
    length_mm: float
    at: Sequence[tuple[str, float, float, bool, bool]]


def _narrow(lays: PatternLays, key: PlanKey) -> list[Lay]:
    """The lays for remnants of a cloth in a size."""
    return list(lays.remnants[key].laid.values()) if key in lays.remnants else []


class Shop:
    """A pattern as its folder says it, its sheet as published, and its lays."""

    def __init__(self, folder: Path) -> None:
        self.name = folder.name
        self.raw: dict[str, Any] = yaml.safe_load((folder / "pattern.yaml").read_text(encoding="utf-8"))
        pattern = read_pattern(folder, folder.parents[1] / "body_charts")
        lays = run_pattern(pattern, folder, only_stored=True, quality="draft", cache_dir=cache_of(DATA))
        self.sheet = make_sheet(pattern, published_lays(pattern, lays))
        # As the page gets them.
        self.files: dict[str, Any] = json.loads(json.dumps(lay_files(pattern, lays)))
        self.outlines = {
            (line.line_id, size): Polygon(lay_item(pattern, line, size).outline_mm)
            for line in cut_lines(pattern)
            for size in line.sizes
        }
        self.sizes: list[str] = self.raw["sizes"]
        self.laid: dict[tuple[str, str], list[Laid]] = {}
        for key, plan in lays.plans.items():
            self.laid[key.cloth, key.size] = sorted(
                (
                    Laid(
                        frozenset(place.item_id for place in lay.placements),
                        lay.way,
                        lay.one_way,
                        lay.bolt_width_mm,
                        lay.length_mm,
                        [(p.item_id, p.x_mm, p.y_mm, p.turned, p.mirrored) for p in lay.placements],
                    )
                    for lay in (*plan.laid.values(), *_narrow(lays, key))
                ),
                key=lambda one: one.length_mm,
            )
        self.needed = cache(self._needed)
        self.choices = cache(self._choices)
        self.cut = cache(self._cut)
        self.modes = cache(self._modes)
        self.asked = cache(self._asked)

    def _choices(self, size: str) -> list[Chosen]:
        return every_choice(self.raw, size)

    def pieces(self, cloth: str, size: str, chosen: Chosen) -> Pieces:
        """What is cut from a cloth for these choices."""
        return self.cut(cloth, size, tuple(chosen.items()))

    def _cut(self, cloth: str, size: str, chosen: tuple[tuple[str, str], ...]) -> Pieces:
        ids = [line_id for line_id, of_size in self.outlines if of_size == size]
        return pieces_to_cut(self.raw, ids, cloth, {**dict(chosen), SIZE: size})

    def _modes(self, cloth: str, size: str) -> Pieces:
        """Everything that any choices ask for: modes and counts are the same in all of them."""
        found: Pieces = {}
        for chosen in self.choices(size):
            for name, how in self.pieces(cloth, size, chosen).items():
                assert found.setdefault(name, how) == how
        return found

    def across_mm(self, cloth: str, size: str, way: str, ids: Iterable[str]) -> float:
        """How wide a bolt the pieces need, both selvedges included."""
        widest = 0.0
        for name in ids:
            mode, _ = self.modes(cloth, size)[name]
            _, low, _, high = self.outlines[name, size].bounds
            layers = 2 if way == "folded" or mode == "fold" else 1
            widest = max(widest, (high if mode == "fold" else high - low) * layers)
        return widest + 2 * SELVEDGE_MM

    def _asked(self, cloth: str, size: str) -> dict[frozenset[str], set[str]]:
        """The sets of pieces that can be asked for, and with which nap."""
        found: dict[frozenset[str], set[str]] = {}
        for chosen in self.choices(size):
            ids = frozenset(self.pieces(cloth, size, chosen))
            if ids:
                found.setdefault(ids, set()).update(naps_asked(self.raw, cloth, chosen).values())
        return found

    def own(self, cloth: str, size: str, way: str, nap: str, ids: frozenset[str], width_mm: float) -> Laid | None:
        """The shortest lay that holds the pieces: on cloth no wider, with nap where it is asked for; a folded lay,
        unfolded, lies on flat cloth too."""
        for one in self.laid.get((cloth, size), []):
            serves = one.ids >= ids and one.width_mm <= width_mm and one.with_nap >= (nap == "with")
            if serves and (way == "flat" or one.way == "folded"):
                return one
        return None

    def _needed(self, cloth: str, size: str, way: str, nap: str, ids: frozenset[str], width_mm: float) -> int | None:
        """The length to publish in whole mm: that of the shortest lay, raised to what a smaller size, fewer pieces,
        wider cloth, no nap, or flat cloth takes. None: not asked for, or no lay."""
        if nap not in self.asked(cloth, size).get(ids, set()):
            return None
        own = self.own(cloth, size, way, nap, ids, width_mm)
        if own is None or self.across_mm(cloth, size, way, ids) > width_mm:
            return None
        others = [self.needed(cloth, size, way, nap, one, width_mm) for one in self.asked(cloth, size) if one < ids]
        if nap == "with":
            others.append(self.needed(cloth, size, way, "without", ids, width_mm))
        if way == "folded":
            others.append(self.needed(cloth, size, "flat", nap, ids, width_mm))
        wider = [one for one in self.widths_mm(cloth) if one > width_mm]
        others += [self.needed(cloth, size, way, nap, ids, min(wider))] if wider else []
        for smaller in reversed(self.sizes[: self.sizes.index(size)]):
            found = self.needed(cloth, smaller, way, nap, ids, width_mm)
            if found is not None:
                others.append(found)
                break
        return max([ceil(own.length_mm - 1e-6), *(one for one in others if one is not None)])

    def widths_mm(self, cloth: str) -> list[int]:
        """All widths that are laid: of remnants and of bolts."""
        return [*self.raw["cloths"][cloth].get("remnant_widths_mm", []), *self.raw["cloths"][cloth]["widths_mm"]]

    def expected_mm(self, cloth: str, size: str, way: str, nap: str, ids: frozenset[str], width_mm: Any) -> int | None:
        """For cloth of any width: what the next narrower width in the list needs."""
        listed = [one for one in self.widths_mm(cloth) if one <= width_mm]
        return self.needed(cloth, size, way, nap, ids, max(listed)) if listed else None


def look_at(
    shop: Shop, size: str, lay: Laid, pieces: Pieces, usable_mm: float, hair_mm: float, apart_mm: float
) -> float:
    """The length that a lay truly takes, in mm, after all that makes a lay right was looked at.

    Arguments: `hair_mm`: so much may a piece stand out, for places are rounded; `apart_mm`: by so much each piece is
    made smaller before overlaps are looked for.
    """
    laid: list[BaseGeometry] = []
    come_out = dict.fromkeys(pieces, 0)
    handed: dict[str, list[bool]] = {}
    for name, x_mm, y_mm, turned, mirrored in lay.at:
        mode, _ = pieces[name]
        assert not (turned and lay.with_nap), f"{name}: head to foot"
        shape: BaseGeometry = shop.outlines[name, size]
        if mode == "fold" and lay.way == "flat":
            shape = shape.union(scale(shape, yfact=-1, origin=(0, 0)).buffer(1e-6))
            assert not mirrored, f"{name}: wrong side up"
        if mirrored:
            shape = scale(shape, yfact=-1, origin=(0, 0))
        if turned:
            shape = scale(shape, xfact=-1, yfact=-1, origin=(0, 0))
        shape = translate(shape, x_mm, y_mm)
        x0, y0, x1, y1 = shape.bounds
        assert x0 >= -hair_mm and x1 <= lay.length_mm + hair_mm, name
        assert y0 >= -hair_mm and y1 <= usable_mm + hair_mm, name
        if mode == "fold" and lay.way == "folded":
            # The half lies with its fold edge on the fold of the cloth.
            assert abs(y0) <= HAIR_MM and mirrored == turned
        come_out[name] += 2 if lay.way == "folded" and mode == "pair" else 1
        handed.setdefault(name, []).append(mirrored)
        laid.append(shape)
    assert come_out == {name: count for name, (_, count) in pieces.items()}
    if lay.way == "flat":
        for name, (mode, count) in pieces.items():
            assert mode != "pair" or sum(handed[name]) == count / 2, f"{name}: half of them mirrored"
    length_mm = max(shape.bounds[2] for shape in laid)
    if apart_mm:
        laid = [shape.buffer(-apart_mm, join_style="mitre") for shape in laid]
    for one, other in STRtree(laid).query(laid, predicate="intersects").T:
        if one < other:
            assert laid[one].intersection(laid[other]).area <= SHARED_MM2
    return float(length_mm)
