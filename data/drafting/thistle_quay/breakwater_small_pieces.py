"""Draws Breakwater's waist band, rib cuff, knee patch and snap strips. Outlines are stitching lines."""

from __future__ import annotations

import math

from .breakwater_measures import BAND_MM, CUFF_PER_EDGE
from .curves import Chain, arc, joined, line
from .drawing import Drawn, straight_grain

STRIP_MM = 20.0
"""Finished width of a snap strip, folded along its middle: a snap of 11 mm with 4.5 mm beside it."""
PATCH_HEIGHT_PER_WIDTH = 1.15
PATCH_CORNER_PART = 0.36
"""Radius of the patch's corners as part of its width; an edge turned under goes round it without pleats."""
QUARTER_TURN_RAD = math.pi / 2
GRAIN_END_MM = 8.0


def draw_band(front_mm: float, back_mm: float) -> Drawn:
    """Draw half of the waist band: fold at centre front, seam at centre back; its lower edge is sewn on.

    Args:
        front_mm, back_mm: waist lines of one front and one back.
    """
    length_mm, height_mm = front_mm + back_mm, 2 * BAND_MM
    top = line(0j, complex(front_mm, 0), complex(length_mm, 0))
    bottom = line(complex(length_mm, height_mm), complex(front_mm, height_mm), complex(0, height_mm))
    fold = complex(front_mm, BAND_MM)
    return Drawn(
        outline={
            "inner-fold": top[:1],
            "inner-side": top[1:],
            "inner-end": line(top[-1].end, bottom[0].start),
            "outer-end": bottom[:1],
            "outer-side": bottom[1:],
            "outer-fold": line(bottom[-1].end, 0j),
        },
        lines={
            "grain": straight_grain(25, GRAIN_END_MM, height_mm - GRAIN_END_MM),
            "top-edge": line(complex(0, BAND_MM), complex(length_mm, BAND_MM)),
            "front-shown": line(complex(0, BAND_MM), fold, complex(front_mm, height_mm)),
            "back-shown": line(complex(length_mm, BAND_MM), fold, complex(front_mm, height_mm)),
        },
    )


def draw_cuff(edge_mm: float, cuff_mm: float) -> Drawn:
    """Draw the rib cuff, opened out: its upper edge is sewn to the leg, stretched; the ribs run down.

    Args:
        edge_mm: length of the leg's edge all round.
        cuff_mm: finished height of the cuff.
    """
    length_mm, height_mm = edge_mm * CUFF_PER_EDGE, 2 * cuff_mm
    half_mm = length_mm / 2
    top = line(0j, complex(half_mm, 0), complex(length_mm, 0))
    return Drawn(
        outline={
            "outer-left": top[:1],
            "outer-middle": top[1:],
            "outer-right": line(top[-1].end, complex(length_mm, height_mm)),
            "inner-right": line(complex(length_mm, height_mm), complex(0, height_mm)),
            "inner-left": line(complex(0, height_mm), 0j),
        },
        points={"outer-quarter": complex(half_mm / 2, 0)},
        lines={
            "grain": straight_grain(25, GRAIN_END_MM, height_mm - GRAIN_END_MM),
            "lower-edge": line(complex(0, cuff_mm), complex(length_mm, cuff_mm)),
            "shown": line(complex(0, cuff_mm), complex(half_mm, cuff_mm), complex(half_mm, 0)),
        },
    )


def patch_path(centre: complex, width_mm: float) -> Chain:
    """Return the outline of a knee patch round its centre, clockwise from the middle of its left side."""
    height_mm, radius_mm = width_mm * PATCH_HEIGHT_PER_WIDTH, width_mm * PATCH_CORNER_PART
    x_mm, y_mm = width_mm / 2, height_mm / 2
    left, top, right, bottom = centre - x_mm, centre - 1j * y_mm, centre + x_mm, centre + 1j * y_mm
    corners = [
        arc(centre + complex(sx * (x_mm - radius_mm), sy * (y_mm - radius_mm)), radius_mm, start, start + turn, 1)
        for sx, sy, start, turn in (
            (-1, -1, math.pi, QUARTER_TURN_RAD),
            (1, -1, -QUARTER_TURN_RAD, QUARTER_TURN_RAD),
            (1, 1, 0.0, QUARTER_TURN_RAD),
            (-1, 1, QUARTER_TURN_RAD, QUARTER_TURN_RAD),
        )
    ]
    stops = (top, right, bottom, left)
    at, path = left, []
    for corner, stop in zip(corners, stops, strict=True):
        path += [*line(at, corner[0].start), *corner, *line(corner[-1].end, stop)]
        at = stop
    return joined(path)


def draw_patch(width_mm: float) -> Drawn:
    """Draw the knee patch, finished size; its width in mm."""
    height_mm = width_mm * PATCH_HEIGHT_PER_WIDTH
    path = patch_path(complex(width_mm / 2, height_mm / 2), width_mm)
    quarter = len(path) // 4
    names = ("left", "top", "right", "bottom")
    return Drawn(
        outline={name: path[i * quarter : (i + 1) * quarter] for i, name in enumerate(names)},
        lines={"grain": straight_grain(width_mm / 2, 2 * GRAIN_END_MM, height_mm - 2 * GRAIN_END_MM)},
    )


def draw_snap_strip(inseam_mm: float) -> Drawn:
    """Draw the strip of one inseam, opened out, from the crotch point to the hem; its grain line stands upright.

    It is cut on the bias: the inseam is hollow, most of all in the smallest sizes, and the strip has to lie round it.
    """
    width_mm = 2 * STRIP_MM
    corners = (0j, complex(0, inseam_mm), complex(width_mm, inseam_mm), complex(width_mm, 0))
    return Drawn(
        outline={
            "outer-crotch": line(corners[0], corners[1]),
            "outer-hem": line(corners[1], corners[2]),
            "inner-hem": line(corners[2], corners[3]),
            "inner-crotch": line(corners[3], corners[0]),
        },
        lines={
            "grain": straight_grain(STRIP_MM / 2, GRAIN_END_MM, inseam_mm - GRAIN_END_MM),
            "edge": line(complex(STRIP_MM, 0), complex(STRIP_MM, inseam_mm)),
        },
    )
