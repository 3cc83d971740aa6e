"""Two garments from one length of cloth: one lay of both, or the two lays one behind the other?

For the pairs of sizes that the pattern lists, lays of both garments were made beforehand. For all others the two
single lengths are added, which is always enough: the second lay begins where the first one ends. It is still one cut
from the bolt, with two ends to be squared and one first wash, so these are counted once, and the sum is rounded once;
only the lays are added.

>>> one, other = Laid(1400, 700, 0, 3, rows=2), Laid(1350, 760, 0, 1, rows=3)
>>> added(one, other)
Laid(width_mm=1400, length_mm=1460, members=0, number=-1, rows=5)
>>> nearer(Laid(1400, 1300, 0, 0, rows=4), added(one, other))
(Laid(width_mm=1400, length_mm=1300, members=0, number=0, rows=4), 'joint')
>>> nearer(None, added(one, other))[1], nearer(Laid(1400, 1460, 0, 0, rows=4), added(one, other))[1]
('added', 'no-shorter')
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from .garments import pair_key
from .laid import Laid, lay_rows, shortest
from .repeat import repeat_extra_mm
from .request import Sheet

JOINT, NO_SHORTER, ADDED, ONE_ONLY = "joint", "no-shorter", "added", "one-only"
"""A lay of both; lays of both were made, but none is shorter than the two behind each other; none was made; only one
of the garments takes of this cloth."""

NO_NUMBER = -1
"""Two lays one behind the other have no number of their own."""


def added(one: Laid, other: Laid) -> Laid:
    """The two lays one behind the other."""
    return Laid(
        width_mm=max(one.width_mm, other.width_mm),
        length_mm=one.length_mm + other.length_mm,
        members=one.members,
        number=NO_NUMBER,
        rows=one.rows + other.rows,
    )


def nearer(joint: Laid | None, behind: Laid, each_row_mm: float = 0) -> tuple[Laid, str]:
    """The lay that answers for both, and which kind it is.

    Arguments: the lay of both garments, if one was made; the two single lays one behind the other; what each row of
    pieces takes more for a repeat, in mm.
    """
    if joint is None:
        return behind, ADDED
    joint_mm, behind_mm = (one.length_mm + repeat_extra_mm(each_row_mm, one.rows) for one in (joint, behind))
    if joint_mm > behind_mm:
        return behind, NO_SHORTER
    return joint, JOINT if joint_mm < behind_mm else NO_SHORTER


def laid_together(
    sheet: Sheet,
    cloth: str,
    way: str,
    nap: str,
    sizes: Sequence[str],
    demand: Collection[str],
    width_mm: float,
    alone: Sequence[Laid | None],
    *,
    each_row_mm: float = 0,
) -> tuple[Laid, str] | None:
    """The lay of two garments on cloth of this width, and which kind it is; None where one of them has none.

    Arguments: sheet, cloth, way and nap (or listed repeat); the two sizes; the lines of both garments; the width in mm;
    the lays of each garment alone; what each row of pieces takes more for a repeat, in mm.
    """
    one, other = alone
    if one is None or other is None:
        return None
    rows = lay_rows(sheet, cloth, way, nap, pair_key(sizes))
    joint = shortest(sheet["sets"].get(cloth, []), rows, demand, width_mm, each_row_mm)
    return nearer(joint, added(one, other), each_row_mm)

