"""Draws Ferrylight's armhole facings, for the jacket without sleeves and lining. Outlines are stitching lines."""

from __future__ import annotations

from .curves import Chain, backwards, line
from .drawing import Drawn, straight_grain
from .ferrylight_lines import Half, curve_of_armhole, half_of, notched_armhole
from .ferrylight_measures import Measures

WIDTH_PART = 0.36
"""Width of the armhole facings as part of the shoulder seam, 23 to 36 mm; the neck facings have room beside them."""
GRAIN_HALF_MM = 20.0


def facing_width_mm(m: Measures) -> float:
    """Return the width of the armhole facings (mm)."""
    return m.shoulder * WIDTH_PART


def inner_edge(half: Half, width_mm: float) -> Chain:
    """Return the facing's inner edge from the shoulder seam to the side seam, square to both, beside the armhole."""
    into_body = half.along_shoulder * 1j * half.outward
    side = half.underarm + half.down_side * width_mm
    return curve_of_armhole(
        half.shoulder_tip - half.along_shoulder * width_mm,
        into_body,
        half.armhole[0].end - half.outward * width_mm,
        side,
        half.down_side * (-1j if half.outward > 0 else 1j),
    )


def draw_front_armhole_facing(m: Measures) -> Drawn:
    """Draw the front armhole facing as it lies on the wearer's right front, right side of the front up."""
    half, width_mm = half_of(m, front=True), facing_width_mm(m)
    upper, lower, _ = notched_armhole(half)
    inner = inner_edge(half, width_mm)
    return Drawn(
        outline={
            "side-inner": line(inner[-1].end, half.underarm),
            "underarm": backwards(lower),
            "notch": backwards(upper),
            "shoulder-tip": line(half.shoulder_tip, inner[0].start),
            "shoulder-inner": inner,
        },
        lines={"grain": _grain(half, width_mm)},
    )


def draw_back_armhole_facing(m: Measures) -> Drawn:
    """Draw the back armhole facing as it lies on the wearer's right half of the back."""
    half, width_mm = half_of(m, front=False), facing_width_mm(m)
    upper, lower, _ = notched_armhole(half)
    inner = inner_edge(half, width_mm)
    return Drawn(
        outline={
            "shoulder-inner": line(inner[0].start, half.shoulder_tip),
            "shoulder-tip": upper,
            "notch": lower,
            "underarm": line(half.underarm, inner[-1].end),
            "side-inner": backwards(inner),
        },
        lines={"grain": _grain(half, width_mm)},
    )


def _grain(half: Half, width_mm: float) -> Chain:
    """Return a grain line half way across the facing at the middle of the armhole."""
    middle = half.armhole[0].end - half.outward * width_mm / 2
    return straight_grain(middle.real, middle.imag - GRAIN_HALF_MM, middle.imag + GRAIN_HALF_MM)
