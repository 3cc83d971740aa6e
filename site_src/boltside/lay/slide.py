"""How far can one outline slide along an axis before it meets another? Exact, edge against edge."""

import math
from typing import Final

import numpy as np
from numpy.typing import NDArray

from .model import GRID_PER_MM

Edges = NDArray[np.float64]
"""One row an edge, in steps of the grid of 0.01 mm; the columns are those of :func:`edges_facing`."""

TOUCHING: Final = 0.05 * GRID_PER_MM
"""A neighbour that reaches this far into a piece still counts as lying before it, not beside it."""


def edges_facing(points: NDArray[np.float64], *, axis: int, forward: bool) -> Edges:
    """Edges of an anticlockwise outline whose outer side looks along the axis, forwards or backwards.

    Columns: position along the axis and across it of the end that is lower across, then of the other end.
    """
    nexts = np.roll(points, -1, axis=0)
    across = 1 - axis
    rise = nexts[:, across] - points[:, across]
    outward = rise if axis == 0 else -rise
    chosen = outward > 0 if forward else outward < 0
    starts, ends = points[chosen], nexts[chosen]
    swap = starts[:, across] > ends[:, across]
    lower = np.where(swap[:, None], ends, starts)
    upper = np.where(swap[:, None], starts, ends)
    return np.column_stack((lower[:, axis], lower[:, across], upper[:, axis], upper[:, across]))


def slide_room(moving: Edges, still: Edges, offset_along: float, offset_across: float) -> float:
    """How far ``moving`` can go backwards along the axis before it meets ``still``; infinite if never.

    Offsets are those of the moving piece against the still one. Exact: on the stretch that two edges share
    across the axis, their distance changes linearly, so its least value is at one end of the stretch.
    """
    if not len(moving) or not len(still):
        return math.inf
    low = np.maximum(moving[:, None, 1] + offset_across, still[None, :, 1])
    high = np.minimum(moving[:, None, 3] + offset_across, still[None, :, 3])
    shared = high > low
    if not shared.any():
        return math.inf
    rows, columns = np.nonzero(shared)
    first, second = moving[rows], still[columns]
    gaps = []
    for at in (low[rows, columns], high[rows, columns]):
        along_moving = _along(first, at - offset_across) + offset_along
        gaps.append(along_moving - _along(second, at))
    least = np.minimum(gaps[0], gaps[1])
    before = np.maximum(gaps[0], gaps[1]) >= -TOUCHING
    before &= least >= -TOUCHING
    return float(least[before].min()) if before.any() else math.inf


def _along(edges: Edges, across: NDArray[np.float64]) -> NDArray[np.float64]:
    """Position along the axis of each edge at a position across it."""
    share = (across - edges[:, 1]) / (edges[:, 3] - edges[:, 1])
    return edges[:, 0] + share * (edges[:, 2] - edges[:, 0])
