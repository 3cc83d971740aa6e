"""How do stripes and checks look in the drawing of a lay: a faint line for each repeat, and a notch at each mark?

Lines are drawn where the marks are, and a repeat apart from there on, so that a mark which was out of step would be
seen beside its line.

>>> repeats_at(130, 40, 100), repeats_at(-10, 40, 100)
([10, 50, 90], [30, 70])
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Repeat:
    """A repeat of the cloth as it is cut, in mm: along it, and across it (None: the stripes run through)."""

    along_mm: float
    across_mm: float | None = None


def repeats_at(mark_mm: float, repeat_mm: float, end_mm: float) -> list[int]:
    """Every place from 0 to the end, in whole mm, that is whole repeats away from the mark."""
    at = mark_mm % repeat_mm
    found = []
    while at <= end_mm:
        found.append(round(at))
        at += repeat_mm
    return found


def stripe_lines(
    repeat: Repeat,
    marks: Iterable[Sequence[int]],
    *,
    left: int,
    top: int,
    wide: int,
    long: int,
    from_mm: int,
    thin: str,
) -> str:
    """The lines of the repeats on the cloth, as SVG; nothing where no piece has a mark.

    Arguments: the repeat; the marks (x along, y across, in the lay's measure); where the cloth begins in the drawing,
    how wide and how long it is, from where on the lay's places across are measured; the width of a line.
    """
    first = next(iter(marks), None)
    if first is None:
        return ""
    lines = [f"M{left} {top + at}h{wide}" for at in repeats_at(first[0], repeat.along_mm, long)]
    if repeat.across_mm is not None:
        across = repeats_at(first[1] + from_mm, repeat.across_mm, wide)
        lines += [f"M{left + at} {top}v{long}" for at in across]
    return f'<path class="bs-repeat" stroke-width="{thin}" stroke-opacity="0.35" d="{"".join(lines)}"/>'


def mark_notch(mark: Sequence[int], *, left: int, top: int, size: int) -> str:
    """A notch where a piece's mark lies: a small filled diamond. ``left`` is where the lay's places across begin."""
    x, y, half = left + mark[1], top + mark[0], size * 3 // 10
    d = f"M{x - half} {y}L{x} {y - half}L{x + half} {y}L{x} {y + half}Z"
    return f'<path class="bs-mark" d="{d}" fill="currentColor" stroke="none"/>'
