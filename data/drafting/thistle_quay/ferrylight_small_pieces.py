"""Draws Ferrylight's pockets and bands. Outlines are stitching lines."""

from __future__ import annotations

from .curves import Chain, arc, joined, line
from .drawing import Drawn, straight_grain
from .ferrylight_measures import Measures

POCKET_WIDTH_PART = 0.52
"""Pocket width as part of a quarter of the finished chest."""
POCKET_HEIGHT_PART = 1.05
POCKET_CORNER_PART = 0.28
"""Radius of the lower corners as part of the width."""
POCKET_FACING_MM = 15.0
"""The pocket's top is turned in this far; there the pocket lining begins. The allowance of the top is 10 more."""
WAIST_BAND_MM, SLEEVE_BAND_MM = 35.0, 30.0
"""Finished heights; both bands are folded along their middle."""
HAND_ROOM_MM = 45.0
"""The closed sleeve band is this much longer than the wrist, so that the hand passes (our custom)."""
QUARTER_TURN_RAD = 1.5707963267948966
GRAIN_END_MM = 8.0


def pocket_width_mm(m: Measures) -> float:
    """Return the finished width of a patch pocket (mm)."""
    return m.quarter_chest * POCKET_WIDTH_PART


def pocket_height_mm(m: Measures) -> float:
    """Return the finished height of a patch pocket (mm)."""
    return pocket_width_mm(m) * POCKET_HEIGHT_PART


def pocket_path(m: Measures, corner: complex, height_mm: float) -> Chain:
    """Return sides and rounded bottom of a pocket, from the top right corner to the top left one, `corner`."""
    width_mm = pocket_width_mm(m)
    radius_mm = width_mm * POCKET_CORNER_PART
    right, bottom = corner.real + width_mm, corner.imag + height_mm
    right_centre = complex(right - radius_mm, bottom - radius_mm)
    left_centre = complex(corner.real + radius_mm, bottom - radius_mm)
    return joined(
        line(corner + width_mm, complex(right, right_centre.imag)),
        arc(right_centre, radius_mm, 0, QUARTER_TURN_RAD, 1),
        line(complex(right_centre.real, bottom), complex(left_centre.real, bottom)),
        arc(left_centre, radius_mm, QUARTER_TURN_RAD, 2 * QUARTER_TURN_RAD, 1),
        line(complex(corner.real, left_centre.imag), corner),
    )


def draw_pocket(m: Measures) -> Drawn:
    """Draw the patch pocket; its top edge is the fold of its facing."""
    width_mm, height_mm = pocket_width_mm(m), pocket_height_mm(m)
    sides = pocket_path(m, 0j, height_mm)
    right, left = complex(width_mm, POCKET_FACING_MM), complex(0, POCKET_FACING_MM)
    return Drawn(
        outline={
            "top-left": line(0j, complex(width_mm, 0)),
            "top-right": line(complex(width_mm, 0), right),
            "facing-right": joined(line(right, sides[0].end), sides[1:-1], line(sides[-1].start, left)),
            "facing-left": line(left, 0j),
        },
        lines={"grain": straight_grain(width_mm / 2, GRAIN_END_MM * 2, height_mm - GRAIN_END_MM * 2)},
    )


def draw_pocket_lining(m: Measures) -> Drawn:
    """Draw the pocket's lining: the pocket below its facing."""
    width_mm, height_mm = pocket_width_mm(m), pocket_height_mm(m) - POCKET_FACING_MM
    return Drawn(
        outline={"top-left": line(0j, complex(width_mm, 0)), "top-right": pocket_path(m, 0j, height_mm)},
        points={"bottom": complex(width_mm / 2, height_mm)},
        lines={"grain": straight_grain(width_mm / 2, GRAIN_END_MM * 2, height_mm - GRAIN_END_MM * 2)},
    )


def draw_waist_band(back_mm: float, front_mm: float) -> Drawn:
    """Draw half of the waist band: fold at centre back, front end at the front edge; its upper edge is sewn on.

    Args:
        back_mm, front_mm: lengths of the waist seam of the back half and of one front, overlap included.
    """
    length_mm, height_mm, middle_mm = back_mm + front_mm, 2 * WAIST_BAND_MM, WAIST_BAND_MM
    middle = line(complex(0, middle_mm), complex(length_mm, middle_mm))
    top = line(0j, complex(back_mm, 0), complex(length_mm, 0))
    return Drawn(
        outline={
            "outer-centre": top[:1],
            "outer-side": top[1:],
            "outer-front": line(complex(length_mm, 0), complex(length_mm, height_mm)),
            "inner-front": line(complex(length_mm, height_mm), complex(back_mm, height_mm)),
            "inner-side": line(complex(back_mm, height_mm), complex(0, height_mm)),
            "inner-centre": line(complex(0, height_mm), 0j),
        },
        lines={
            "grain": straight_grain(25, GRAIN_END_MM, height_mm - GRAIN_END_MM),
            "lower-edge": middle,
            "back-shown": line(complex(0, middle_mm), complex(back_mm, middle_mm), complex(back_mm, 0)),
            "front-shown": line(complex(length_mm, middle_mm), complex(back_mm, middle_mm), complex(back_mm, 0)),
        },
        areas={
            "outer-half": line(0j, complex(length_mm, 0), middle[-1].end, middle[0].start, 0j),
        },
    )


def sleeve_band_ring_mm(m: Measures) -> float:
    """Return the length of the closed sleeve band (mm)."""
    return m.wrist + HAND_ROOM_MM


def draw_sleeve_band(m: Measures) -> Drawn:
    """Draw the sleeve band, opened out: its upper edge is sewn to the gathered sleeve."""
    length_mm, height_mm, middle_mm = sleeve_band_ring_mm(m), 2 * SLEEVE_BAND_MM, SLEEVE_BAND_MM
    middle = line(complex(0, middle_mm), complex(length_mm, middle_mm))
    half_mm, grain_mm = length_mm / 2, 3 * GRAIN_END_MM
    return Drawn(
        outline={
            "outer-left": line(0j, complex(half_mm, 0)),
            "outer-middle": line(complex(half_mm, 0), complex(length_mm, 0)),
            "outer-right": line(complex(length_mm, 0), complex(length_mm, height_mm)),
            "inner-right": line(complex(length_mm, height_mm), complex(0, height_mm)),
            "inner-left": line(complex(0, height_mm), 0j),
        },
        points={"outer-quarter": complex(half_mm / 2, 0)},
        lines={
            "grain": line(complex(grain_mm, middle_mm + 10), complex(length_mm - grain_mm, middle_mm + 10)),
            "lower-edge": middle,
            "shown": line(complex(0, middle_mm), complex(half_mm, middle_mm), complex(half_mm, 0)),
        },
        areas={"outer-half": line(0j, complex(length_mm, 0), middle[-1].end, middle[0].start, 0j)},
    )
