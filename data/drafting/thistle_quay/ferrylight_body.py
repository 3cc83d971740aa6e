"""Draws the body of Ferrylight: back, front, facings and their linings. Outlines are stitching lines."""

from __future__ import annotations

from .curves import Chain, backwards, chain_length_mm, joined, line
from .drawing import Drawn, straight_grain
from .ferrylight_lines import (
    Half,
    back_facing_curve,
    facing_shoulder_point,
    front_facing_curve,
    front_level,
    half_of,
    notched_armhole,
)
from .ferrylight_measures import (
    BAND_LINING_PLUS_MM,
    FACING_BEHIND_CENTRE_MM,
    LINING_SHORTER_MM,
    OVERLAP_MM,
    PLEAT_MM,
    Measures,
)
from .ferrylight_small_pieces import pocket_height_mm, pocket_path, pocket_width_mm
from .ferrylight_stand_collar import SHOWN_POINT, stand_height_mm, stand_shown

POCKET_FROM_FACING_MM = 10.0
"""The pocket's front edge lies this far behind the front facing's inner edge."""
POCKET_ABOVE_WAIST_MM = 12.0
CLOSURE_STRIP_BEHIND_CENTRE_MM = 12.0
"""The strip behind the snaps reaches this far behind the centre line: the snap and some room beside it."""
GRAIN_END_MM = 30.0
"""Grain lines stop this far from the ends of the piece."""


def draw_back(m: Measures) -> Drawn:
    """Draw the back: one half, fold at centre back."""
    half = half_of(m, front=False)
    upper, lower, _ = notched_armhole(half)
    waist, hem = half.level(m.waist_seam, 0), half.level(m.hip_hem, 0)
    fold_waist, fold_hem = complex(0, m.waist_seam), complex(0, m.hip_hem)
    return Drawn(
        outline={
            "neck-centre": half.neck,
            "neck-shoulder": line(half.neck_shoulder, half.shoulder_tip),
            "shoulder-tip": upper,
            "notch": lower,
            "underarm": line(half.underarm, waist[-1].end),
            "waist-side": line(waist[-1].end, hem[-1].end),
            "hem-side": backwards(hem),
            "hem-centre": line(fold_hem, fold_waist),
            "waist-centre": line(fold_waist, complex(0, half.underarm.imag)),
            "chest-centre": line(complex(0, half.underarm.imag), half.neck_centre),
        },
        points={"collar-foot": half.neck_centre + SHOWN_POINT},
        lines={"grain": straight_grain(25, GRAIN_END_MM, m.hip_hem - GRAIN_END_MM), "waist": waist},
    )


def facing_inner_edge(half: Half, m: Measures, end_mm: float) -> Chain:
    """Return the front facing's inner edge from the shoulder to a depth."""
    curved = front_facing_curve(half, m)
    return joined(curved, line(curved[-1].end, complex(-FACING_BEHIND_CENTRE_MM, end_mm)))


def front_edge_area(half: Half, m: Measures) -> Chain:
    """Return the interfaced strip of the front: the shape of the front facing."""
    inner = facing_inner_edge(half, m, m.hip_hem)
    edge_x = OVERLAP_MM
    return joined(
        inner,
        line(
            inner[-1].end, complex(edge_x, m.hip_hem), complex(edge_x, half.neck_centre.imag), half.neck_centre
        ),
        half.neck,
        line(half.neck_shoulder, inner[0].start),
    )


def draw_front(m: Measures) -> Drawn:
    """Draw the wearer's right front with overlap, pocket placement and interfaced front edge."""
    half = half_of(m, front=True)
    upper, lower, _ = notched_armhole(half)
    (waist_facing, waist_side), (hem_facing, hem_side) = (
        front_level(half, depth) for depth in (m.waist_seam, m.hip_hem)
    )
    neck_front = complex(OVERLAP_MM, half.neck_centre.imag)
    pocket_corner = complex(-FACING_BEHIND_CENTRE_MM - POCKET_FROM_FACING_MM, m.waist - POCKET_ABOVE_WAIST_MM)
    pocket_corner -= pocket_width_mm(m)
    return Drawn(
        outline={
            "neck-front": line(neck_front, waist_facing[0].start),
            "waist-front": line(waist_facing[0].start, hem_facing[0].start),
            "hem-front": line(hem_facing[0].start, complex(0, m.hip_hem)),
            "hem-centre": line(complex(0, m.hip_hem), hem_side[0].start),
            "hem-facing": hem_side,
            "hem-side": line(hem_side[-1].end, waist_side[-1].end),
            "waist-side": line(waist_side[-1].end, half.underarm),
            "underarm": backwards(lower),
            "notch": backwards(upper),
            "shoulder-tip": line(half.shoulder_tip, half.neck_shoulder),
            "neck-shoulder": backwards(half.neck),
            "neck-centre": line(half.neck_centre, neck_front),
        },
        points={
            "chest-centre": complex(0, half.underarm.imag),
            "waist-centre": complex(0, m.waist_seam),
            "pocket-front": pocket_corner + pocket_width_mm(m),
            "pocket-side": pocket_corner,
        },
        lines={
            "grain": straight_grain(
                (half.shoulder_tip.real + half.neck_shoulder.real) / 2, GRAIN_END_MM * 2, m.hip_hem - GRAIN_END_MM
            ),
            "waist": joined(waist_facing, waist_side),
            "button-line": line(half.neck_centre, complex(0, m.hip_hem)),
            "pocket": pocket_path(m, pocket_corner, pocket_height_mm(m)),
        },
        areas={"front-edge": front_edge_area(half, m)},
    )


def closure_strip(half: Half, m: Measures) -> Chain:
    """Return the strip of the front facing that is interfaced behind snaps: along the front edge, to behind centre."""
    top, left, right = half.neck_centre.imag, -CLOSURE_STRIP_BEHIND_CENTRE_MM, OVERLAP_MM
    corners = (complex(left, top), complex(right, top), complex(right, m.hip_hem), complex(left, m.hip_hem))
    return line(*corners, corners[0])


def draw_front_facing(m: Measures) -> Drawn:
    """Draw the front facing of the wearer's right front as it lies on the front, right side of the front up."""
    half = half_of(m, front=True)
    inner = backwards(facing_inner_edge(half, m, m.waist_seam))
    x_mm = -FACING_BEHIND_CENTRE_MM
    neck_front = complex(OVERLAP_MM, half.neck_centre.imag)
    waist_front, waist_inner = complex(OVERLAP_MM, m.waist_seam), complex(x_mm, m.waist_seam)
    hem_front, hem_inner = complex(OVERLAP_MM, m.hip_hem), complex(x_mm, m.hip_hem)
    lining_stop = complex(x_mm, m.hip_hem - LINING_SHORTER_MM)
    shown = stand_shown(half, m)
    return Drawn(
        outline={
            "neck-front": line(neck_front, waist_front),
            "waist-front": line(waist_front, hem_front),
            "hem-front": line(hem_front, hem_inner),
            "hem-inner": line(hem_inner, lining_stop),
            "lining-stop": line(lining_stop, waist_inner),
            "waist-inner": inner,
            "shoulder-inner": line(inner[-1].end, half.neck_shoulder),
            "neck-shoulder": backwards(half.neck),
            "neck-centre": line(half.neck_centre, neck_front),
        },
        points={
            "collar-foot": half.neck_centre + 1j * stand_height_mm(m),
            "collar-shown": half.neck[0].at(0.5) + complex(-4, 4),
        },
        lines={
            "grain": straight_grain(-6, half.neck_centre.imag + GRAIN_END_MM, m.hip_hem - GRAIN_END_MM),
            "waist": line(waist_front, waist_inner),
            "collar": joined(shown, line(shown[-1].end, half.neck_centre)),
        },
        areas={"closure-strip": closure_strip(half, m)},
    )


def draw_back_neck_facing(m: Measures) -> Drawn:
    """Draw the back neck facing: one half, fold at centre back."""
    half = half_of(m, front=False)
    outer = back_facing_curve(half, m)
    return Drawn(
        outline={
            "neck-centre": half.neck,
            "neck-shoulder": line(half.neck_shoulder, outer[-1].end),
            "shoulder-outer": backwards(outer),
            "outer-centre": line(outer[0].start, half.neck_centre),
        },
        points={
            "collar-foot": half.neck_centre + SHOWN_POINT + 1j * stand_height_mm(m),
            "collar-shown": half.neck[0].at(0.5) + complex(4, 4),
        },
        lines={"grain": straight_grain(8, 4, m.facing_centre_back - 4), "collar": stand_shown(half, m)},
    )


def draw_back_lining(m: Measures) -> Drawn:
    """Draw the back lining: below the back neck facing, an ease pleat at the fold, shorter at the hem."""
    half = half_of(m, front=False)
    upper, lower, _ = notched_armhole(half)
    top = back_facing_curve(half, m)
    waist = half.level(m.waist_seam + BAND_LINING_PLUS_MM, 0)
    hem = half.level(m.hip_hem - LINING_SHORTER_MM, 0)
    top_fold, waist_fold, hem_fold = (
        complex(-PLEAT_MM, chain[0].start.imag) for chain in (top, waist, hem)
    )
    return Drawn(
        outline={
            "top-fold": line(top_fold, top[0].start),
            "top-centre": top,
            "shoulder-inner": line(top[-1].end, half.shoulder_tip),
            "shoulder-tip": upper,
            "notch": lower,
            "underarm": line(half.underarm, waist[-1].end),
            "waist-side": line(waist[-1].end, hem[-1].end),
            "hem-side": backwards(hem),
            "hem-centre": line(hem[0].start, hem_fold),
            "hem-fold": line(hem_fold, waist_fold),
            "waist-fold": line(waist_fold, top_fold),
        },
        lines={
            "grain": straight_grain(25, m.facing_centre_back + GRAIN_END_MM, m.hip_hem - GRAIN_END_MM),
            "waist": joined(line(waist_fold, waist[0].start), waist),
            "pleat": line(top[0].start, hem[0].start),
        },
    )


def draw_front_lining(m: Measures) -> Drawn:
    """Draw the front lining: the front behind the facing, shorter at the hem."""
    half = half_of(m, front=True)
    upper, lower, _ = notched_armhole(half)
    waist_mm, hem_mm = m.waist_seam + BAND_LINING_PLUS_MM, m.hip_hem - LINING_SHORTER_MM
    (_, waist), (_, hem) = front_level(half, waist_mm), front_level(half, hem_mm)
    to_waist = facing_inner_edge(half, m, waist_mm)
    return Drawn(
        outline={
            "shoulder-inner": to_waist,
            "waist-inner": line(waist[0].start, hem[0].start),
            "hem-inner": hem,
            "hem-side": line(hem[-1].end, waist[-1].end),
            "waist-side": line(waist[-1].end, half.underarm),
            "underarm": backwards(lower),
            "notch": backwards(upper),
            "shoulder-tip": line(half.shoulder_tip, facing_shoulder_point(half, m)),
        },
        lines={
            "grain": straight_grain(
                (half.shoulder_tip.real + half.neck_shoulder.real) / 2, GRAIN_END_MM * 2, m.hip_hem - GRAIN_END_MM
            ),
            "waist": waist,
        },
    )


def waist_seam_parts_mm(m: Measures) -> tuple[float, float]:
    """Return the lengths of the waist seam of the back half and of one front, overlap included (mm)."""
    facing, side = front_level(half_of(m, front=True), m.waist_seam)
    back = half_of(m, front=False).level(m.waist_seam, 0)
    return chain_length_mm(back), chain_length_mm(facing) + chain_length_mm(side)
