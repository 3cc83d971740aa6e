"""Draws Wrackline's pouch, its binding and the half-belt. Outlines are stitching lines."""

from __future__ import annotations

import cmath
import math

from .curves import Chain, backwards, bow, chain_length_mm, joined, line, split_at
from .drawing import Drawn, straight_grain
from .wrackline_body import half_width_mm, side_point
from .wrackline_lines import half_of
from .wrackline_measures import (
    BELT_MM,
    BELT_POINT_MM,
    BELT_REACH_PART,
    BELT_SHORTER_MM,
    BELT_STRAIGHT_MM,
    BINDING_MM,
    BINDING_PARTS,
    POUCH_BASE_PART,
    POUCH_HIGH_PART,
    POUCH_LOW_PART,
    Measures,
)

POUCH_LEAVING_RAD, POUCH_ARRIVING_RAD = math.radians(20), math.radians(1)
"""The pouch's edge falls this steeply at its high end and at its low end: a hollow curve."""
POUCH_HANDLE = 0.60
GRAIN_END_MM = 12.0


def mirrored(chain: Chain) -> Chain:
    """Return the chain mirrored in the centre line."""
    return tuple(
        type(s)(
            start=-s.start.conjugate(),
            first_handle=-s.first_handle.conjugate(),
            second_handle=-s.second_handle.conjugate(),
            end=-s.end.conjugate(),
        )
        for s in chain
    )


def pouch_edge(high: complex, low: complex) -> Chain:
    """Return the slanting edge from its high to its low end."""
    return bow(
        high, cmath.rect(1, POUCH_LEAVING_RAD), POUCH_HANDLE, low, cmath.rect(1, POUCH_ARRIVING_RAD), POUCH_HANDLE
    )


def pouch_corners(m: Measures) -> tuple[complex, complex, complex, complex]:
    """Return high end, low end, and the base's ends below them. High is the wearer's right, drawn on the left."""
    half = half_of(m, front=True)
    high, low, base = (side_point(half, m, part) for part in (POUCH_HIGH_PART, POUCH_LOW_PART, POUCH_BASE_PART))
    return high, -low.conjugate(), base, -base.conjugate()


def draw_pouch(m: Measures) -> Drawn:
    """Draw the pouch as it lies on the front, right side up. Its upper edge is the seam of the binding."""
    high, low, base_high, base_low = pouch_corners(m)
    edge = pouch_edge(high, low)
    to_middle = half_of(m, front=True).level_up_from(base_high)
    base = joined(mirrored(backwards(to_middle)), to_middle)
    middle_top = split_at(edge, lambda point: point.real)[1][0].start
    middle_base = to_middle[0].start
    bound = [at + (below - at) / abs(below - at) * BINDING_MM for at, below in ((high, base_high), (low, base_low))]
    return Drawn(
        outline={
            "high": edge,
            "low": line(low, base_low),
            "base-low": base,
            "base-high": line(base_high, high),
        },
        points={"base-middle": middle_base},
        lines={
            "grain": straight_grain(GRAIN_END_MM, middle_top.imag + GRAIN_END_MM, middle_base.imag - GRAIN_END_MM),
            "middle": line(middle_top, middle_base),
            "bound": pouch_edge(*bound),
        },
    )


def draw_binding(m: Measures) -> Drawn:
    """Draw the pouch's binding: one long edge is sewn to the pouch, the other is turned in."""
    high, low, *_ = pouch_corners(m)
    length_mm, height_mm = chain_length_mm(pouch_edge(high, low)), (BINDING_PARTS - 2) * BINDING_MM
    corners = (0j, complex(length_mm, 0), complex(length_mm, height_mm), complex(0, height_mm))
    names = ("sewn-high", "sewn-low", "turned-low", "turned-high")
    sides = line(*corners, corners[0])
    middle_mm = height_mm / 2
    return Drawn(
        outline={name: (side,) for name, side in zip(names, sides, strict=True)},
        lines={
            "grain": line(complex(GRAIN_END_MM, middle_mm), complex(length_mm - GRAIN_END_MM, middle_mm)),
        },
    )


def belt_between_buttons_mm(m: Measures) -> float:
    """Return the length of the half-belt between its buttonholes (mm)."""
    return 2 * half_width_mm(half_of(m, front=False), m.waist) * BELT_REACH_PART - BELT_SHORTER_MM


def draw_belt(m: Measures) -> Drawn:
    """Draw one layer of the half-belt: straight, with a blunt point at both ends, a button shortly before each."""
    button, half_mm = belt_between_buttons_mm(m) / 2, BELT_MM / 2
    right = button + BELT_STRAIGHT_MM
    tip = right + BELT_POINT_MM
    corners = {
        "top-left": complex(-right, -half_mm),
        "top-right": complex(right, -half_mm),
        "right": complex(tip),
        "bottom-right": complex(right, half_mm),
        "bottom-left": complex(-right, half_mm),
        "left": complex(-tip),
    }
    sides = line(*corners.values(), corners["top-left"])
    return Drawn(
        outline={name: (side,) for name, side in zip(corners, sides, strict=True)},
        points={"middle": 0j, "button-left": complex(-button), "button-right": complex(button)},
        lines={
            "grain": line(complex(GRAIN_END_MM - right), complex(right - GRAIN_END_MM)),
            "end-middle": line(complex(-tip), 0j),
        },
    )
