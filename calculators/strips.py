"""Where are fold, selvedges and single cloth when a bolt lies on the table? In mm across the table, from its left.

Cloth lies flat, folded once, with both selvedges folded to the middle, or folded over along one side only as far as
needed, the rest single. A lay's places across are measured from the first fold, on flat cloth from where the selvedge
ends (the lay engine reckons alike).

>>> table = on_table("part-folded", 1400, 320)
>>> table.cloth_mm, table.folds_mm, table.selvedges_mm, table.layers(100), table.layers(400)
(1080, (0,), (320, 1080), 2, 1)
>>> on_table("middle", 1400).folds_mm, on_table("middle", 1400).selvedges_mm
((0, 700), (350,))
"""

from __future__ import annotations

from dataclasses import dataclass

SELVEDGE_MM = 15
"""Not cut from, at each selvedge. Common practice; the lay engine reckons with the same."""


@dataclass(frozen=True, kw_only=True)
class Table:
    """Cloth on the table: how wide it lies there, where its folds and selvedges are, from where on it is single (None:
    nowhere), and where a lay's places are measured from."""

    cloth_mm: int
    folds_mm: tuple[int, ...]
    selvedges_mm: tuple[int, ...]
    single_from_mm: int | None
    from_mm: int = 0

    def layers(self, place_mm: int) -> int:
        """How many layers lie where a lay has a place so far across."""
        single = self.single_from_mm is not None and place_mm + self.from_mm >= self.single_from_mm
        return 1 if single else 2


def on_table(way: str, width_mm: int, fold_over_mm: int | None = None) -> Table:
    """How a bolt of this width lies on the table.

    Arguments: the way of laying; the whole width in mm; on part-folded cloth how much is folded over, selvedge
    included. From half the width on that is folding once.
    """
    half_mm = -(-width_mm // 2)
    if way == "flat":
        return Table(cloth_mm=width_mm, folds_mm=(), selvedges_mm=(0, width_mm), single_from_mm=0, from_mm=SELVEDGE_MM)
    if way == "middle":
        return Table(cloth_mm=half_mm, folds_mm=(0, half_mm), selvedges_mm=(-(-half_mm // 2),), single_from_mm=None)
    if way == "part-folded" and fold_over_mm is not None and 2 * fold_over_mm < width_mm - 1:
        rest_mm = width_mm - fold_over_mm
        return Table(cloth_mm=rest_mm, folds_mm=(0,), selvedges_mm=(fold_over_mm, rest_mm), single_from_mm=fold_over_mm)
    return Table(cloth_mm=half_mm, folds_mm=(0,), selvedges_mm=(half_mm,), single_from_mm=None)
