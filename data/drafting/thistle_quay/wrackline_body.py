"""Draws the body of Wrackline: front, back, their linings and facings. Outlines are stitching lines."""

from __future__ import annotations

from .curves import Chain, backwards, line
from .drawing import Drawn, straight_grain
from .wrackline_lines import Half, half_of
from .wrackline_measures import (
    BELT_REACH_PART,
    FACING_DOWN_SIDE_MM,
    LINING_SHORTER_MM,
    POUCH_BASE_PART,
    POUCH_HIGH_PART,
    POUCH_LOW_PART,
    Measures,
)

GRAIN_END_MM = 30.0
"""Grain lines stop this far from the ends of the piece."""
GRAIN_FROM_CENTRE_MM = 25.0
BEYOND_EDGE_MM = 12.0
"""Interfaced areas are drawn this far beyond the stitching line, so that they reach the cutting line where they may."""
PATCH_BELOW_BUTTON_PART = 0.85
"""The interfaced end of the front's strap reaches this part of the strap's width below the button."""


def strap_area(half: Half, m: Measures, end_mm: float, stop_mm: float) -> Chain:
    """Return a strip across the strap between two distances from the shoulder line, wider than the strap."""
    edges = (
        half.shoulder_inner - half.along_shoulder * BEYOND_EDGE_MM,
        half.shoulder_outer + half.along_shoulder * BEYOND_EDGE_MM,
    )
    inner_end, outer_end = (edge + half.down_strap * end_mm for edge in edges)
    inner_stop, outer_stop = (edge + half.down_strap * stop_mm for edge in edges)
    return line(inner_end, outer_end, outer_stop, inner_stop, inner_end)


def side_point(half: Half, m: Measures, part: float) -> complex:
    """Return the point at a part of the side seam, from the underarm to the hem."""
    return half.underarm + (half.level(m.hem)[-1].end - half.underarm) * part


def half_width_mm(half: Half, depth_mm: float) -> float:
    """Return the width of the half at a depth below the underarm (mm)."""
    return abs(half.side_at(depth_mm).real)


def front_outline(half: Half, lower: Chain, name: str) -> dict[str, Chain]:
    """Return the outline of a front piece that ends at such a line: down the centre, up the side, over the strap."""
    low = f"{name}-centre"
    return {
        "neck-centre": line(half.neck_centre, lower[0].start),
        low: lower,
        f"{name}-side": line(lower[-1].end, half.underarm),
        "underarm": backwards(half.armhole),
        "strap-outer": half.end,
        "strap-inner": half.neck,
    }


def back_outline(half: Half, lower: Chain, name: str) -> dict[str, Chain]:
    """Return the outline of a back piece that ends at a hem-like line: up the neck, over the tab, down the side."""
    neck, point, armhole = backwards(half.neck), backwards(half.end), half.armhole
    return {
        "neck-centre": neck[:-1],
        "shoulder-inner": neck[-1:],
        "tab-inner": point[:1],
        "tab-point": point[1:],
        "tab-outer": armhole[:1],
        "shoulder-outer": armhole[1:],
        "underarm": line(half.underarm, lower[-1].end),
        f"{name}-side": backwards(lower),
        f"{name}-centre": line(lower[0].start, half.neck_centre),
    }


def draw_front(m: Measures) -> Drawn:
    """Draw the front: one half, fold at centre front, with the pouch's place at the side."""
    half = half_of(m, front=True)
    hem = half.level(m.hem)
    high, low, base = (side_point(half, m, part) for part in (POUCH_HIGH_PART, POUCH_LOW_PART, POUCH_BASE_PART))
    base_line = half.level_up_from(base)
    outline = front_outline(half, hem, "hem")
    outline["neck-centre"] = line(half.neck_centre, complex(0, m.underarm), hem[0].start)[:1]
    names = list(outline)
    stretches = dict(outline)
    stretches["chest-centre"] = line(complex(0, m.underarm), hem[0].start)
    stretches["hem-side"] = line(hem[-1].end, base)
    stretches["pouch-base"] = line(base, low)
    stretches["pouch-low"] = line(low, high)
    stretches["pouch-high"] = line(high, half.underarm)
    order = ["neck-centre", "chest-centre", "hem-centre", "hem-side", "pouch-base", "pouch-low", "pouch-high"]
    order += [name for name in names if name not in order]
    return Drawn(
        outline={name: stretches[name] for name in order},
        points={"button": half.button, "pouch-middle": base_line[0].start},
        lines={
            "grain": straight_grain(-GRAIN_FROM_CENTRE_MM, m.front_neck + GRAIN_END_MM, m.hem - GRAIN_END_MM),
            "pouch": base_line,
        },
        areas={"strap-end": strap_area(half, m, -BEYOND_EDGE_MM, m.button + m.strap * PATCH_BELOW_BUTTON_PART)},
    )


def draw_back(m: Measures) -> Drawn:
    """Draw the back: one half, fold at centre back, its strap running on as a tab."""
    half = half_of(m, front=False)
    hem = half.level(m.hem)
    outline = back_outline(half, hem, "hem")
    chest = complex(0, m.underarm)
    outline["hem-centre"] = line(hem[0].start, chest)
    outline["chest-centre"] = line(chest, half.neck_centre)
    over = m.button + m.strap / 2 + BEYOND_EDGE_MM
    return Drawn(
        outline=outline,
        points={
            "button": half.button,
            "belt-button": complex(half_width_mm(half, m.waist) * BELT_REACH_PART, m.waist),
            "belt-middle": complex(0, m.waist),
            # As deep as the middle of the pouch in front: there stripes and checks go on round the sides.
            "pouch-level": half.level_up_from(side_point(half, m, POUCH_BASE_PART))[0].start,
        },
        lines={
            "grain": straight_grain(GRAIN_FROM_CENTRE_MM, m.back_neck + GRAIN_END_MM, m.hem - GRAIN_END_MM),
            "shoulder": line(half.shoulder_inner, half.shoulder_outer),
            "tab-middle": line(*half.tab_middle),
        },
        areas={"tab": strap_area(half, m, -over, 0)},
    )


def draw_front_lining(m: Measures) -> Drawn:
    """Draw the front lining: the front, shorter."""
    half = half_of(m, front=True)
    return Drawn(
        outline=front_outline(half, half.level(m.hem - LINING_SHORTER_MM), "hem"),
        lines={"grain": straight_grain(-GRAIN_FROM_CENTRE_MM, m.front_neck + GRAIN_END_MM, m.hem - 2 * GRAIN_END_MM)},
    )


def draw_back_lining(m: Measures) -> Drawn:
    """Draw the back lining: the back with its tab, shorter."""
    half = half_of(m, front=False)
    return Drawn(
        outline=back_outline(half, half.level(m.hem - LINING_SHORTER_MM), "hem"),
        lines={"grain": straight_grain(GRAIN_FROM_CENTRE_MM, m.back_neck + GRAIN_END_MM, m.hem - 2 * GRAIN_END_MM)},
    )


def draw_front_facing(m: Measures) -> Drawn:
    """Draw the front facing: neck, strap and armhole in one, to below the underarm."""
    half = half_of(m, front=True)
    lower = half.level_up_from(half.underarm + half.down_side * FACING_DOWN_SIDE_MM)
    low = lower[0].start.imag
    return Drawn(
        outline=front_outline(half, lower, "lower"),
        lines={"grain": straight_grain(-GRAIN_FROM_CENTRE_MM, m.front_neck + GRAIN_END_MM, low - GRAIN_END_MM / 3)},
    )


def draw_back_facing(m: Measures) -> Drawn:
    """Draw the back facing: neck, tab and armhole in one, to below the underarm."""
    half = half_of(m, front=False)
    lower = half.level_up_from(half.underarm + half.down_side * FACING_DOWN_SIDE_MM)
    low = lower[0].start.imag
    return Drawn(
        outline=back_outline(half, lower, "lower"),
        lines={
            "grain": straight_grain(GRAIN_FROM_CENTRE_MM, m.back_neck + GRAIN_END_MM, low - GRAIN_END_MM / 3),
            "tab-middle": line(*half.tab_middle),
        },
    )
