"""Draws the small pieces of Windlass: neckband, cuffs, hem band, strip of the opening. Outlines are stitching lines."""

from __future__ import annotations

from .curves import chain_length_mm, line
from .drawing import Drawn, straight_grain
from .windlass_lines import half_of
from .windlass_measures import (
    CUFF_RATIO,
    HEM_BAND_RATIO,
    NECKBAND_MM,
    NECKBAND_RATIO,
    SHORT_CUFF_MM,
    STITCHED_ACROSS_MM,
    STRIP_MM,
    Measures,
)
from .windlass_sleeve import draw_sleeve

GRAIN_END_MM = 8.0


def half_band(half_mm: float, height_mm: float, shown_mm: float) -> Drawn:
    """Draw half of a band that is folded along its middle: fold at its centre, its upper edge is sewn on.

    Args:
        half_mm: half its length.
        height_mm: finished height.
        shown_mm: from its centre, what the little drawings show.
    """
    side, end, low = complex(shown_mm), complex(half_mm), 2j * height_mm
    fold = 1j * height_mm
    return Drawn(
        outline={
            "sewn-centre": line(0j, side),
            "sewn-side": line(side, end),
            "sewn-end": line(end, end + low),
            "inner-end": line(end + low, low),
            "inner-centre": line(low, 0j),
        },
        points={"shown": complex(GRAIN_END_MM, GRAIN_END_MM)},
        lines={
            "grain": straight_grain(2 * GRAIN_END_MM, GRAIN_END_MM, 2 * height_mm - GRAIN_END_MM),
            "lower-edge": line(fold, end + fold),
            "seen": line(fold, side + fold, side),
        },
    )


def ring(length_mm: float, height_mm: float) -> Drawn:
    """Draw a ring that is folded along its middle, opened out: its upper edge is sewn on."""
    half, low, fold = complex(length_mm / 2), 2j * height_mm, 1j * height_mm
    return Drawn(
        outline={
            "sewn-left": line(0j, half),
            "sewn-middle": line(half, 2 * half),
            "sewn-right": line(2 * half, 2 * half + low),
            "inner-right": line(2 * half + low, low),
            "inner-left": line(low, 0j),
        },
        points={"sewn-quarter": half / 2, "shown": complex(GRAIN_END_MM, GRAIN_END_MM)},
        lines={
            "grain": straight_grain(length_mm / 4, GRAIN_END_MM, 2 * height_mm - GRAIN_END_MM),
            "lower-edge": line(fold, 2 * half + fold),
            "seen": line(fold, half + fold, half),
        },
    )


def draw_neckband(m: Measures) -> Drawn:
    """Draw half of the neckband; shorter than the neck, so that it lies close."""
    half_mm = m.ring * NECKBAND_RATIO / 2
    return half_band(half_mm, NECKBAND_MM, half_mm / 2)


def draw_hem_band(m: Measures) -> Drawn:
    """Draw half of the hem band."""
    edge_mm = 2 * chain_length_mm(half_of(m, front=True).level(m.hem - m.band))
    half_mm = edge_mm * HEM_BAND_RATIO
    return half_band(half_mm, m.band, half_mm / 2)


def draw_cuff(m: Measures) -> Drawn:
    """Draw the cuff of the long sleeve."""
    return ring(chain_length_mm(draw_sleeve(m).lines["cuff"]) * CUFF_RATIO, m.band)


def draw_short_cuff(m: Measures) -> Drawn:
    """Draw the cuff of the short sleeve."""
    return ring(chain_length_mm(draw_sleeve(m).lines["short-cuff"]) * CUFF_RATIO, SHORT_CUFF_MM)


def draw_strip(m: Measures) -> Drawn:
    """Draw one strip of the opening, opened out: one long edge is sewn on, it is folded along its middle."""
    width, low = complex(STRIP_MM), 1j * m.opening
    return Drawn(
        outline={
            "sewn-neck": line(0j, width),
            "fold-neck": line(width, 2 * width),
            "inner-neck": line(2 * width, 2 * width + low),
            "inner-end": line(2 * width + low, low),
            "sewn-end": line(low, 0j),
        },
        points={
            "middle-neck": width / 2,
            "shown": width / 2 + low / 2,
            "usable-end": low - 1j * STITCHED_ACROSS_MM,
        },
        lines={
            "grain": straight_grain(STRIP_MM / 2, GRAIN_END_MM, m.opening - GRAIN_END_MM),
            "fold": line(width, width + low),
        },
    )
