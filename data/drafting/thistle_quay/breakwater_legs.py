"""Drafts front and back of Breakwater with their crotch curves: the long edges, on their stitching lines.

Both lie with the side seam to the left and the centre to the right, so that a front as drawn, right side up, is the
wearer's right one, and a back the wearer's left one. The front comes first and the back is fitted to it: its crotch
point moves down until the inseams are equally long, its waist up or down until the side seams are.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

from .breakwater_measures import CENTRE_BACK_TILT_RAD, SIDE_STEP_RAD, SIDE_TAPER_PART, STRAIGHT_MM, Measures
from .curves import Chain, bow, chain_length_mm, curve, joined, line, solve

CHORD_TO_TANGENT = 1.32
"""The inseam leaves the crotch point this much flatter than straight for the hem, which makes it slightly hollow."""
FRONT_CURVE_PARTS = (0.68, 0.66)
BACK_CURVE_PARTS = (0.62, 0.8)
"""Handles of the crotch curves as parts of the way to the corner of their tangents, at the hip line and at the crotch
point. The back keeps to its corner at the crotch point: the hook that makes room for the seat."""
INSEAM_PARTS = (0.7, 0.9)
SIDE_HANDLE_PART = 0.36
"""Handles of the side seam below the hip, upright at both ends, as part of its depth."""
SIDE_ABOVE_HIP_PART = 0.4
WAIST_HANDLE_PART = 0.36
FITTING_RANGE_MM = 60.0
"""The back is fitted to the front by moving a point at most this far."""
WAIST_ROUNDS = 12
"""Where the centre meets the waist hangs on the slope at the side and the other way round; this settles it."""
DOWN = 1j


@dataclass(frozen=True, kw_only=True)
class Leg:
    """One front or back. The waist runs from the side to the centre, all other edges run down (mm, y down)."""

    waist: Chain
    centre: Chain
    """From the waist to the crotch point: one straight segment, then the crotch curve."""
    inseam: Chain
    side: Chain

    @property
    def hip_side(self) -> complex:
        """Where the side seam crosses the hip line."""
        return self.side[0].end

    @property
    def hip_centre(self) -> complex:
        """Where the crotch curve begins, on the hip line."""
        return self.centre[0].end

    @property
    def crotch(self) -> complex:
        """The crotch point, where centre seam and inseam meet."""
        return self.inseam[0].start

    @property
    def hem_side(self) -> complex:
        """Where side seam and hem meet."""
        return self.side[-1].end

    @property
    def hem_inner(self) -> complex:
        """Where inseam and hem meet."""
        return self.inseam[-1].end


def inseam_from(crotch: complex, hem_inner: complex) -> Chain:
    """Return the inseam from the crotch point to the hem: slightly hollow, straight and upright above the hem."""
    low = hem_inner - DOWN * STRAIGHT_MM
    chord = low - crotch
    lean_rad = math.atan2(-chord.real, chord.imag) * CHORD_TO_TANGENT
    leaving = complex(-math.sin(lean_rad), math.cos(lean_rad))
    return joined(bow(crotch, leaving, INSEAM_PARTS[0], low, DOWN, INSEAM_PARTS[1]), line(low, hem_inner))


def centre_seam(top: complex, hip: complex, inseam: Chain, parts: tuple[float, float]) -> Chain:
    """Return the centre seam from the waist to the crotch point: straight to the hip line, then the crotch curve.

    The curve meets the inseam square. So front and back run smoothly into each other at the crotch point, and the
    inseams of the two legs do as well.
    """
    below = inseam[0].slope_at(0)
    arriving = below / abs(below) * -1j
    along = (hip - top) / abs(hip - top)
    return joined(line(top, hip), bow(hip, along, parts[0], inseam[0].start, arriving, parts[1]))


def side_from(waist: complex, hip: complex, hem_side: complex) -> Chain:
    """Return the side seam from the waist to the hem, upright at the hip line, straight and upright above the hem."""
    low = hem_side - DOWN * STRAIGHT_MM
    lean = (hip - waist) * SIDE_ABOVE_HIP_PART
    upright = 1j * (hip - waist).imag * SIDE_ABOVE_HIP_PART
    below = 1j * (low - hip).imag * SIDE_HANDLE_PART
    return joined(curve(waist, lean, -upright, hip), curve(hip, below, -below, low), line(low, hem_side))


def hem_ends(hip_mm: float, fork_mm: float, hem_mm: float, depth_mm: float) -> tuple[complex, complex]:
    """Return the ends of the hem, at the side and at the inseam, for a leg with centre front or back at x = 0."""
    side_x = -hip_mm + (hip_mm + fork_mm - hem_mm) * SIDE_TAPER_PART
    return complex(side_x, depth_mm), complex(side_x + hem_mm, depth_mm)


def upper_edges(
    *,
    hip_mm: float,
    hip_line_mm: float,
    waist_mm: float,
    waist_side_mm: float,
    tilt_rad: float,
    step_rad: float,
    hem_side: complex,
) -> tuple[Chain, Chain]:
    """Return the waist line and the side seam.

    The waist line is square to the centre seam; at the side it turns from square by `step_rad`, downwards towards the
    centre. A curve between two directions falls by about the mean of their slopes.

    Args:
        hip_mm, waist_mm: widths of this quarter.
        hip_line_mm, waist_side_mm: depths of the hip line and of the waist line at the side.
        tilt_rad: how far the centre seam leans back.
        hem_side: where the side seam ends.
    """
    down_centre = complex(math.sin(tilt_rad), math.cos(tilt_rad))
    top_mm = waist_side_mm
    for _ in range(WAIST_ROUNDS):
        centre_top = complex(-(hip_line_mm - top_mm) * math.tan(tilt_rad), top_mm)
        side = side_from(complex(centre_top.real - waist_mm, waist_side_mm), complex(-hip_mm, hip_line_mm), hem_side)
        down_side = side[0].slope_at(0)
        leaving = down_side / abs(down_side) * -1j * cmath.exp(1j * step_rad)
        top_mm = waist_side_mm + waist_mm * (leaving.imag / leaving.real - math.tan(tilt_rad)) / 2
    handle_mm = waist_mm * WAIST_HANDLE_PART
    return curve(side[0].start, leaving * handle_mm, down_centre * 1j * handle_mm, centre_top), side


def front_leg(m: Measures) -> Leg:
    """Return the front: centre front upright at x = 0."""
    hem_side, hem_inner = hem_ends(m.front_hip, m.front_fork, m.front_hem, m.hem)
    waist, side = upper_edges(
        hip_mm=m.front_hip,
        hip_line_mm=m.hip_line,
        waist_mm=m.quarter_waist,
        waist_side_mm=m.waist_seam,
        tilt_rad=0.0,
        step_rad=SIDE_STEP_RAD,
        hem_side=hem_side,
    )
    inseam = inseam_from(complex(m.front_fork, m.crotch_line), hem_inner)
    centre = centre_seam(waist[-1].end, complex(0, m.hip_line), inseam, FRONT_CURVE_PARTS)
    return Leg(waist=waist, centre=centre, inseam=inseam, side=side)


def back_leg(m: Measures) -> Leg:
    """Return the back: centre back crosses the hip line at x = 0 and leans back above it."""
    front = front_leg(m)
    inseam_mm, side_mm = chain_length_mm(front.inseam), chain_length_mm(front.side)
    hem_side, hem_inner = hem_ends(m.back_hip, m.back_fork, m.back_hem, m.hem)

    def inseam_at(lower_mm: float) -> Chain:
        return inseam_from(complex(m.back_fork, m.crotch_line + lower_mm), hem_inner)

    def edges_at(lower_mm: float) -> tuple[Chain, Chain]:
        return upper_edges(
            hip_mm=m.back_hip,
            hip_line_mm=m.hip_line,
            waist_mm=m.quarter_waist,
            waist_side_mm=m.waist_seam + lower_mm,
            tilt_rad=CENTRE_BACK_TILT_RAD,
            step_rad=-SIDE_STEP_RAD,
            hem_side=hem_side,
        )

    reach_mm = min(FITTING_RANGE_MM, m.waist_seam)
    inseam = inseam_at(
        solve(lambda mm: chain_length_mm(inseam_at(mm)) - inseam_mm, -FITTING_RANGE_MM, FITTING_RANGE_MM)
    )
    waist, side = edges_at(solve(lambda mm: chain_length_mm(edges_at(mm)[1]) - side_mm, -reach_mm, reach_mm))
    centre = centre_seam(waist[-1].end, complex(0, m.hip_line), inseam, BACK_CURVE_PARTS)
    return Leg(waist=waist, centre=centre, inseam=inseam, side=side)
