"""Draws the body of Windlass: front and back. Outlines are stitching lines."""

from __future__ import annotations

from .curves import Chain, backwards, line, split_at
from .drawing import Drawn, straight_grain
from .windlass_lines import Half, half_of, marked
from .windlass_measures import STRIP_MM, Measures
from .windlass_shown import neckband_shown, snaps_shown

GRAIN_END_MM = 30.0
"""Grain lines stop this far from the ends of the piece."""
GRAIN_FROM_CENTRE_MM = 30.0
BEHIND_STRIP_MM = 10.0
"""The interfacing behind the slit reaches this far beyond the seams of the strips and below the slit's end."""
BEYOND_EDGE_MM = 12.0
"""Interfaced areas are drawn this far beyond the stitching line, so that they reach the cutting line where they may."""


def slit_corner(half: Half, beside_mm: float) -> complex:
    """Return the point of the neck at a distance beside the centre."""
    return split_at(half.neck, lambda p: abs(p.real) - beside_mm)[1][0].start


def shared_points(half: Half, m: Measures) -> dict[str, complex]:
    """Return the marks that front and back have alike: the end of the slit, and how wide the strips are at the neck."""
    return {
        "slit-end": half.neck_centre + 1j * m.opening,
        "slit-neck": slit_corner(half, STRIP_MM / 2),
    }


def shared_lines(half: Half, m: Measures) -> dict[str, Chain]:
    """Return the lines that front and back have alike.

    `slit` is where the opening is cut, `box` the seam of the strips beside it, `band` where the hem band is sewn on,
    `lengthen` half-way from the underarm to there.
    """
    corner, end = slit_corner(half, STRIP_MM / 2), half.neck_centre + 1j * m.opening
    side = half.outward * STRIP_MM / 2
    return {
        "grain": straight_grain(
            half.outward * GRAIN_FROM_CENTRE_MM, m.front_neck + GRAIN_END_MM, m.hem - 2 * GRAIN_END_MM
        ),
        "slit": line(half.neck_centre, end),
        "box": line(corner, end + side, end),
        "band": half.level(m.hem - m.band),
        "lengthen": half.level((half.underarm.imag + m.hem - m.band) / 2),
    }


def slit_area(half: Half, m: Measures) -> Chain:
    """Return half of the area round the slit that is interfaced."""
    top, bottom = half.neck_centre.imag - BEYOND_EDGE_MM, half.neck_centre.imag + m.opening + BEHIND_STRIP_MM
    x = half.outward * (STRIP_MM / 2 + BEHIND_STRIP_MM)
    return line(complex(0, top), complex(x, top), complex(x, bottom), complex(0, bottom), complex(0, top))


def draw_front(m: Measures) -> Drawn:
    """Draw the front: one half, fold at centre front."""
    half = half_of(m, front=True)
    hem, band = half.level(m.hem), half.level(m.hem - m.band)
    chest, at_band = complex(0, m.underarm), complex(0, m.hem - m.band)
    outline: dict[str, Chain] = {
        "neck-centre": line(half.neck_centre, chest),
        "chest-centre": line(chest, at_band),
        "band-centre": line(at_band, hem[0].start),
        "hem-centre": hem,
        "hem-side": line(hem[-1].end, band[-1].end),
        "band-side": line(band[-1].end, half.underarm),
    }
    parts = marked(half.raglan, half, m)
    starts = ["underarm", *(name for name, _ in reversed(parts) if name)]
    outline |= {start: backwards(part) for start, (_, part) in zip(starts, reversed(parts), strict=True)}
    outline["neck-raglan"] = backwards(half.neck)
    neckband, points = neckband_shown(m, half_of(m, front=False))
    return Drawn(
        outline=outline,
        points=shared_points(half, m) | points,
        lines=shared_lines(half, m) | {"neckband": neckband},
        areas={"slit": slit_area(half, m)},
    )


def draw_back(m: Measures) -> Drawn:
    """Draw the back: one half, fold at centre back."""
    half = half_of(m, front=False)
    hem, band = half.level(m.hem), half.level(m.hem - m.band)
    chest, at_band = complex(0, m.underarm), complex(0, m.hem - m.band)
    outline: dict[str, Chain] = {"neck-centre": half.neck}
    outline |= {name or "neck-raglan": part for name, part in marked(half.raglan, half, m)}
    outline |= {
        "underarm": line(half.underarm, band[-1].end),
        "band-side": line(band[-1].end, hem[-1].end),
        "hem-side": backwards(hem),
        "hem-centre": line(hem[0].start, at_band),
        "band-centre": line(at_band, chest),
        "chest-centre": line(chest, half.neck_centre),
    }
    neckband, points = neckband_shown(m, half_of(m, front=True))
    snaps, snap_points = snaps_shown(m)
    return Drawn(
        outline=outline,
        points=shared_points(half, m) | points | snap_points,
        lines=shared_lines(half, m) | {"neckband": neckband, "snaps": snaps},
        areas={"slit": slit_area(half, m)},
    )
