"""At which offsets along the fold do two pieces overlap? Exact, strip by strip across the fold."""

from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from .nofit import SLACK, Shape

_Strips = NDArray[np.float64]
"""One row a strip: its lower and upper y; left and right end of the inside at the lower one, then at the upper one."""


def overlaps_along(first: Shape, second: Shape) -> list[tuple[int, int]]:
    """Stretches of offsets at which ``second``, moved along the x axis only, overlaps ``first``; by their starts.

    In fine steps, rounded inwards; stretches may overlap each other. Where two strips share a range of y, the inside of
    each is a stretch of x whose ends change linearly with y; the offsets at which these meet are one stretch, for it
    changes without a jump, and its ends are reached at an end of the range.
    """
    one, other = _strips(first), _strips(second)
    low = np.maximum(one[:, None, 0], other[None, :, 0])
    high = np.minimum(one[:, None, 1], other[None, :, 1])
    rows, columns = np.nonzero(high > low)
    here, there = one[rows], other[columns]
    starts, ends = [], []
    for at in (low[rows, columns], high[rows, columns]):
        left, right = _inside(here, at)
        other_left, other_right = _inside(there, at)
        starts.append(left - other_right)
        ends.append(right - other_left)
    from_step = np.floor(np.minimum(*starts)).astype(np.int64) + 1 + SLACK
    to_step = np.floor(np.maximum(*ends)).astype(np.int64) - SLACK
    return sorted((start, end) for start, end in zip(from_step.tolist(), to_step.tolist(), strict=True) if start < end)


def _inside(strips: _Strips, at: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Left and right end of the inside of each strip at its y."""
    share = (at - strips[:, 0]) / (strips[:, 1] - strips[:, 0])
    return strips[:, 2] + share * (strips[:, 4] - strips[:, 2]), strips[:, 3] + share * (strips[:, 5] - strips[:, 3])


@lru_cache(maxsize=512)
def _strips(shape: Shape) -> _Strips:
    """The inside of a shape, cut along y through every corner."""
    points = np.array(shape, dtype=np.float64)
    nexts = np.roll(points, -1, axis=0)
    sloped = points[:, 1] != nexts[:, 1]
    points, nexts = points[sloped], nexts[sloped]
    rows: list[tuple[float, ...]] = []
    levels = np.unique(points[:, 1])
    for low, high in pairwise(levels):
        across = (np.minimum(points[:, 1], nexts[:, 1]) <= low) & (np.maximum(points[:, 1], nexts[:, 1]) >= high)
        start, end = points[across], nexts[across]
        slope = (end[:, 0] - start[:, 0]) / (end[:, 1] - start[:, 1])
        at_low = start[:, 0] + (low - start[:, 1]) * slope
        at_high = start[:, 0] + (high - start[:, 1]) * slope
        order = np.argsort(at_low + at_high, kind="stable")
        at_low, at_high = at_low[order], at_high[order]
        rows += zip(
            *np.broadcast_arrays(low, high, at_low[::2], at_low[1::2], at_high[::2], at_high[1::2]), strict=True
        )
    return np.array(rows, dtype=np.float64).reshape(-1, 6)
