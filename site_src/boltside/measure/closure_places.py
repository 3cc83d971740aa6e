"""Where along a line do buttons or snaps sit? Wishes, cross seams and spaces, in their order of precedence.

No hole lies on a cross seam; then the distances from the ends hold; then the spaces are equal; then they are as wide as
wished. What gives way is told. Plain numbers along the line, from its upper end, in mm; no geometry.

>>> wish = Wish(length_mm=300, first_mm=12, last_mm=40, count=5, reach=Reach(up_mm=2.5, down_mm=2.5), apart_mm=18)
>>> place(wish).mm
(12, 74.0, 136.0, 198.0, 260)
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from boltside.calculators.closures import BEYOND_CENTRE_MM, buttonhole_mm
from boltside.measure.model import MeasureError

CLEAR_MM = 5.0
"""The whole hole, bars included, clears a cross seam by so much; so does the cap of a snap, unless the designer says
more or less. Common practice."""

BAR_MM = 2.0
"""A bar at either end of a buttonhole reaches so far beyond the hole. From memory."""

HOLE_WIDE_MM = 5.0
"""A worked buttonhole is so wide, both rows of stitches together. From memory."""

NEAR_WISHED = (2 / 3, 3 / 2)
"""Another number of equal spaces is taken only where each is between these parts of the wished one. Our choice."""

STEP_MM = 0.5
"""Places are tried out in steps of this. Our choice."""

SAME_MM = 0.01
"""What computing may add."""


class NoRoom(MeasureError):
    """Nothing fits: the words say what is in the way, ``mend`` what to change."""

    def __init__(self, why: str, mend: str) -> None:
        super().__init__(why)
        self.mend = mend


@dataclass(frozen=True, kw_only=True)
class Reach:
    """How far a hole with its bars, or a snap's cap, reaches along the line above and below its place, in mm."""

    up_mm: float
    down_mm: float


@dataclass(frozen=True, kw_only=True)
class Wish:
    """What is wished for on a line of this length, mm: the places of the first and the last one from either end, and
    either how many or how far apart; where cross seams are; how near two may come (from middle to middle)."""

    length_mm: float
    first_mm: float
    last_mm: float
    reach: Reach
    apart_mm: float
    count: int | None = None
    spacing_mm: float | None = None
    clear_mm: float = CLEAR_MM
    crossings_mm: tuple[float, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Places:
    """The places from the upper end, in mm; whether the spaces are equal; what had to give way to a cross seam."""

    mm: tuple[float, ...]
    equal: bool = True
    first_moved: bool = False
    last_moved: bool = False
    other_number: bool = False


def reach_of(kinds: Sequence[str], diameter_mm: float, thickness_mm: float, holes: str | None) -> Reach:
    """How far one reaches along its line. Arguments: kinds of the notion, sizes in mm, `across` or `along`.

    A hole along the line begins 3 mm above its button's place, for the button sits near its upper end (from memory).
    Where either may be used the further reach counts.
    """
    up, down = 0.0, 0.0
    if "snap" in kinds:
        up = down = diameter_mm / 2
    if "button" in kinds:
        if holes == "along":
            up = max(up, BEYOND_CENTRE_MM + BAR_MM)
            down = max(down, buttonhole_mm(diameter_mm, thickness_mm) - BEYOND_CENTRE_MM + BAR_MM)
        else:
            up, down = max(up, HOLE_WIDE_MM / 2), max(down, HOLE_WIDE_MM / 2)
    return Reach(up_mm=up, down_mm=down)


def free(wish: Wish, at_mm: float) -> bool:
    """Whether one at this place is clear of every cross seam and of both ends."""
    return all(not low + SAME_MM < at_mm < high - SAME_MM for low, high in _barred(wish))


def place(wish: Wish) -> Places:
    """The places, in mm from the upper end. Raises: :class:`NoRoom`."""
    top, bottom = wish.first_mm, wish.length_mm - wish.last_mm
    first, last = _next_free(wish, top, 1), _next_free(wish, bottom, -1)
    moved = {"first_moved": first != top, "last_moved": last != bottom}
    if wish.count == 1 and first <= wish.length_mm - wish.reach.down_mm - wish.clear_mm + SAME_MM:
        return Places(mm=(first,), first_moved=first != top)
    room = last - first
    numbers = _numbers(wish, room)
    if not numbers:
        raise NoRoom(
            f"{wish.length_mm:.0f} mm, of which {max(0.0, room):.0f} mm lie between the first and the last place, "
            f"too little for {wish.count or 2} at least {wish.apart_mm:g} mm apart",
            "take fewer or smaller ones, or let the first and the last come nearer to the ends",
        )
    for number in numbers:
        mm = _equal(first, last, number)
        if all(free(wish, at) for at in mm):
            return Places(mm=mm, other_number=number != numbers[0], **moved)
    for number in numbers:
        found = _unequal(wish, first, last, number)
        if found is not None:
            return Places(mm=found, equal=False, other_number=number != numbers[0], **moved)
    at_mm = next(at for at in _equal(first, last, numbers[0]) if not free(wish, at))
    raise NoRoom(
        f"no place that is clear of the cross seams for the one that would sit {at_mm:.0f} mm below the upper end",
        "take another number, or move the first or the last place",
    )


def _barred(wish: Wish) -> list[tuple[float, float]]:
    """Where no place may be: round every cross seam and at both ends, which are seams or edges themselves."""
    up, down = wish.reach.up_mm + wish.clear_mm, wish.reach.down_mm + wish.clear_mm
    ends = [(float("-inf"), up), (wish.length_mm - down, float("inf"))]
    return [*ends, *((at - down, at + up) for at in wish.crossings_mm)]


def _next_free(wish: Wish, at_mm: float, step: int) -> float:
    """The place itself, or the next free one further in; beyond the line where there is none."""
    barred = sorted(_barred(wish), reverse=step < 0)
    for low, high in barred:
        if low + SAME_MM < at_mm < high - SAME_MM:
            at_mm = high if step > 0 else low
    return at_mm


def _numbers(wish: Wish, room_mm: float) -> list[int]:
    """The numbers to try, best first: the designer's own, or those whose spaces come nearest to the wished one."""
    if wish.count is not None:
        fits = room_mm >= (wish.count - 1) * wish.apart_mm - SAME_MM and room_mm >= -SAME_MM
        return [wish.count] if fits else []
    wished = wish.spacing_mm or wish.apart_mm
    most = int((room_mm + SAME_MM) / wish.apart_mm) + 1 if room_mm >= 0 else 0
    numbers = sorted(range(2, most + 1), key=lambda number: (abs(room_mm / (number - 1) - wished), number))
    low, high = NEAR_WISHED
    near = [number for number in numbers if low * wished <= room_mm / (number - 1) <= high * wished]
    return near or numbers[:1]


def _equal(first: float, last: float, number: int) -> tuple[float, ...]:
    gap = (last - first) / (number - 1)
    return (first, *(first + at * gap for at in range(1, number - 1)), last)


def _unequal(wish: Wish, first: float, last: float, number: int) -> tuple[float, ...] | None:
    """Places between the fixed ends that are free and whose spaces differ as little as can be; None: there are none.

    Tries every row of places near the equal ones; the sum of the squared differences is least.
    """
    gap = (last - first) / (number - 1)
    edges = [at for pair in _barred(wish) for at in pair]
    best: list[tuple[float, tuple[float, ...]]] = [(0.0, (first,))]
    for number_of in range(1, number):
        middle = first + number_of * gap
        if number_of == number - 1:
            tried = [last]
        else:
            steps = int(gap / 2 / STEP_MM)
            tried = [middle + step * STEP_MM for step in range(-steps, steps + 1)]
            tried += [at for at in edges if abs(at - middle) <= gap / 2]
        rows = []
        for at in sorted(at for at in tried if free(wish, at)):
            from_each = [
                (harm + (at - row[-1] - gap) ** 2, row) for harm, row in best if at - row[-1] >= wish.apart_mm - SAME_MM
            ]
            if from_each:
                harm, row = min(from_each)
                rows.append((harm, (*row, at)))
        best = rows
        if not best:
            return None
    return min(best)[1]


def spaces_mm(places: Places) -> list[float]:
    """The spaces from one to the next, in mm."""
    return [b - a for a, b in pairwise(places.mm)]
