"""Which stretches of a line are free of polygons? For places that may lie on certain lines only."""

from collections.abc import Sequence

from .nofit import Path


def free_at(blocked: Sequence[Path], x: int, high: int) -> list[tuple[int, int]]:
    """The stretches from y = 0 to ``high`` on the line across the cloth at ``x`` that lie inside no polygon.

    Arguments and answer in fine steps; a stretch may be a single place.
    """
    return _gaps([stretch for path in blocked for stretch in _inside(path, x, 0)], high)


def free_along(blocked: Sequence[Path], y: int, far: int) -> list[int]:
    """The beginnings of the stretches from x = 0 to ``far`` on the line along the cloth at ``y`` that lie inside no
    polygon; in fine steps."""
    return [low for low, _ in _gaps([stretch for path in blocked for stretch in _inside(path, y, 1)], far)]


def _inside(path: Path, at: int, axis: int) -> list[tuple[int, int]]:
    """Stretches of the line where the axis' coordinate is ``at`` that lie inside a polygon, rounded outwards."""
    crossings = []
    for one, other in zip(path, path[1:] + path[:1], strict=True):
        if (one[axis] <= at) != (other[axis] <= at):
            share = (at - one[axis]) / (other[axis] - one[axis])
            crossings.append(one[1 - axis] + share * (other[1 - axis] - one[1 - axis]))
    crossings.sort()
    return [(int(low // 1), int(-(-top // 1))) for low, top in zip(crossings[::2], crossings[1::2], strict=True)]


def _gaps(stretches: Sequence[tuple[int, int]], high: int) -> list[tuple[int, int]]:
    """What is left of 0 to ``high`` beside the insides of stretches."""
    gaps = []
    low = 0
    for start, end in sorted(stretches):
        if start >= low and start <= high:
            gaps.append((low, start))
        low = max(low, end)
    if low <= high:
        gaps.append((low, high))
    return gaps
