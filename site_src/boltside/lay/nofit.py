"""Where would two outlines overlap? No-fit polygons on whole numbers, made once for each two shapes.

A shape is an outline moved so that its bounding box starts at (0, 0). The no-fit polygon of a still and a
moving shape holds all offsets at which the two overlap; on its edge they touch. Source: Minkowski sum of the
still shape and the moving one turned by 180 degrees, a textbook construction.
"""

from typing import Final

import pyclipper  # type: ignore[import-untyped]

from .model import Outline

FINE_PER_MM: Final = 10_000
"""Whole-number steps a millimetre: fine enough that its rounding can be ignored, small enough for the
clipping library's fast range (coordinates below 2^30, that is 107 m)."""

SLACK: Final = 2
"""Steps by which no-fit polygons shrink, so that slots a piece fits exactly do not vanish: 0.0002 mm."""

Path = list[tuple[int, int]]
Shape = tuple[tuple[int, int], ...]


def shape_of(outline: Outline) -> tuple[Shape, tuple[float, float]]:
    """The outline as a shape in fine steps, and the corner of its bounding box in millimetres."""
    low_x = min(x for x, _ in outline)
    low_y = min(y for _, y in outline)
    steps = [(round((x - low_x) * FINE_PER_MM), round((y - low_y) * FINE_PER_MM)) for x, y in outline]
    first = steps.index(min(steps))
    return tuple(steps[first:] + steps[:first]), (low_x, low_y)


def extent(shape: Shape) -> tuple[int, int]:
    """Length and width of a shape's bounding box, in fine steps."""
    return max(x for x, _ in shape), max(y for _, y in shape)


_MOST_KEPT: Final = 12_000
"""Polygons kept before they are forgotten: some 100 MB, enough for all pieces of a few sizes of a rich garment."""


class NoFitTable:
    """No-fit polygons of a set of shapes, made when first asked for and kept."""

    def __init__(self) -> None:
        self._paths: dict[tuple[Shape, Shape], list[Path]] = {}

    def paths(self, still: Shape, moving: Shape) -> list[Path]:
        """Outer contours of the offsets at which ``moving`` overlaps ``still``.

        Places inside a closed hollow of the still shape are given up: a piece could not be slid there.
        """
        key = (still, moving)
        if key not in self._paths:
            if len(self._paths) >= _MOST_KEPT:
                self._paths.clear()
            opposite = self._paths.get((moving, still))
            if opposite is not None:
                self._paths[key] = [[(-x, -y) for x, y in path] for path in opposite]
            else:
                self._paths[key] = _no_fit(still, moving)
        return self._paths[key]


def _no_fit(still: Shape, moving: Shape) -> list[Path]:
    turned = [(-x, -y) for x, y in moving]
    swept = pyclipper.MinkowskiSum(turned, list(still), True)
    outer = [path for path in swept if pyclipper.Orientation(path)]
    shrunk = pyclipper.PyclipperOffset()
    shrunk.AddPaths(outer, pyclipper.JT_MITER, pyclipper.ET_CLOSEDPOLYGON)
    return [[(x, y) for x, y in path] for path in shrunk.Execute(-SLACK)]
