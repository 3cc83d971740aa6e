"""Where does each piece lie, for drawings? One small file for a cloth, a way and a size, in whole millimetres.

The lays are the true ones; the outlines are as coarse as those of the spec sheet, so that nobody can sew from them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any, Final

from boltside.lay.lattice import Node
from boltside.lay.model import Lay, LayItem, Outline, Placement, Point, Way
from boltside.lay.outlines import laid_outline, posed
from boltside.lay.spread_stored import in_half, stored_lay
from boltside.lay.unfold import unfolded
from boltside.spec.simplify import GRID_MM, coarse

FILE_FORMAT: Final = 1


def lay_file(
    pattern: str,
    cloth: str,
    way: Way,
    size: str,
    items: Mapping[str, LayItem],
    lays: Sequence[tuple[Node, Lay]],
    *,
    marks: Mapping[str, Point] | None = None,
    repeats: Mapping[tuple[float | None, float | None], str] | None = None,
) -> dict[str, Any]:
    """The lays of one cloth, way and size as plain JSON.

    Arguments: names; the pieces by name; the lays in the order of their numbers. Folded lays are unfolded for flat
    cloth; on part-folded cloth one on cloth folded in half is folded over by half, and each lay says in `fold_over_mm`
    how far it is folded over. There and with both selvedges to the middle y is measured from the table's first fold.
    `at` holds number of the piece, copy, x, y, turned, mirrored (:class:`boltside.lay.model.Placement`). A lay in step
    with a repeat says its name in `repeat`, and then a seventh thing is the piece's mark on the table, if it has one.
    Arguments for these: marks by piece; names of repeats by what they are along and across, in mm.
    """
    used = sorted({placement.item_id for _, lay in lays for placement in lay.placements})
    numbers = {item_id: at for at, item_id in enumerate(used)}
    rows: dict[str, Any] = {}
    for number, (node, lay) in enumerate(lays):
        laid = _in_way(lay, way, items)
        name = None if lay.repeat_mm is None else (repeats or {})[lay.repeat_mm]
        shown = {} if name is None else marks or {}
        rows[str(number)] = {
            **({} if name is None else {"repeat": name}),
            **({} if laid.fold_over_mm is None else {"fold_over_mm": round(laid.fold_over_mm)}),
            "width_mm": round(lay.bolt_width_mm),
            "length_mm": -int(-lay.length_mm // 1),
            "nap": node.nap,
            "at": [
                [numbers[p.item_id], p.copy, round(p.x_mm), round(p.y_mm), int(p.turned), int(p.mirrored),
                 *_mark_of(p, shown)]
                for p in laid.placements
            ],
        }  # fmt: skip
    return {
        "format": FILE_FORMAT,
        "pattern": pattern,
        "cloth": cloth,
        "way": way,
        "size": size,
        "items": used,
        "outlines": [drawn_outline(items[item_id], way) for item_id in used],
        "lays": rows,
    }


def _mark_of(placement: Placement, marks: Mapping[str, Point]) -> list[list[int]]:
    """Where the mark of a piece lies on the table, in whole mm; nothing where it has none."""
    if placement.item_id not in marks:
        return []
    ((x, y),) = posed((marks[placement.item_id],), turned=placement.turned, mirrored=placement.mirrored)
    return [[round(x + placement.x_mm), round(y + placement.y_mm)]]


def _in_way(lay: Lay, way: Way, items: Mapping[str, LayItem]) -> Lay:
    """The lay as it lies in a way of laying that it serves."""
    if way == "flat":
        return unfolded(lay, items)
    if way == "part-folded" and lay.way == "folded":
        return stored_lay(in_half(lay, items))
    return lay


def drawn_outline(item: LayItem, way: Way) -> list[list[int]]:
    """The outline of a piece for show, as it lies: a half above y = 0 on cloth with a fold, the whole on flat."""
    return [list(point) for point in _drawn(laid_outline(item, way))]


@lru_cache(maxsize=4096)
def _drawn(outline: Outline) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(point) for point in coarse(outline, GRID_MM))
