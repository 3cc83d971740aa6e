"""Drafts Breakwater: roomy pull-on trousers. Outlines are *stitching lines*."""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from dataclasses import dataclass

from .bodies import Body, bodies_between
from .breakwater_legs import DOWN, Leg, back_leg, front_leg
from .breakwater_measures import SHORT_INSEAM_PART, TURN_UP_MM, Measures, measures_of
from .breakwater_small_pieces import (
    PATCH_HEIGHT_PER_WIDTH,
    draw_band,
    draw_cuff,
    draw_patch,
    draw_snap_strip,
    patch_path,
)
from .curves import Chain, backwards, chain_length_mm, curve, line, split_at, split_at_length
from .drawing import Drawn, straight_grain

SMALLEST, LARGEST = 62, 128
KNEE_PART = 0.56
"""Knee notches above the hem, measured up both seams, as part of the inseam."""
PATCH_MIDDLE_PART = 0.54
"""Middle of the knee patch above the hem, as part of the way to the crotch line; on a child's knee when it crawls."""
PATCH_WIDTH_PART = 0.56
"""Width of the patch as part of the front leg there."""
SQUARE_HANDLE_PART = 0.33
GRAIN_END_MM = 40.0
SHOWN_GAP_MM = 10.0
"""In the line drawing a leg stays this far from the centre line from the short hem down."""
SHOWN_FORK_MM = 2.0
"""In the line drawing the legs part this far below the crotch line, where the inseams hang."""
SHOWN_CURVE_PART = 0.2
"""The front's shown part leaves the crotch curve after this part of it."""
BACK_TURN_RAD = math.radians(3.0)
"""In the line drawing the back is turned by this much, so that its leaning centre hangs nearly straight."""


@dataclass(frozen=True, kw_only=True)
class Short:
    """Where the short version is cut: along the side from the waist and along the inseam from the crotch (mm)."""

    side_mm: float
    inseam_mm: float


def short_of(front: Leg) -> Short:
    """Return where to cut the short version, level on the front; the back is cut at the same lengths of its seams."""
    inseam_mm = chain_length_mm(front.inseam) * SHORT_INSEAM_PART
    level_mm = split_at_length(front.inseam, inseam_mm)[1][0].start.imag
    above, _ = split_at(front.side, lambda point: point.imag - level_mm)
    return Short(side_mm=chain_length_mm(above), inseam_mm=inseam_mm)


def square_line(leg: Leg, side_mm: float, inseam_mm: float) -> Chain:
    """Return a line across the leg, square to both seams; its ends lie so far down the seams."""
    at_side = split_at_length(leg.side, side_mm)[1][0]
    at_inseam = split_at_length(leg.inseam, inseam_mm)[1][0]
    handle_mm = abs(at_inseam.start - at_side.start) * SQUARE_HANDLE_PART
    down_side, down_inseam = (segment.slope_at(0) for segment in (at_side, at_inseam))
    return curve(
        at_side.start,
        down_side / abs(down_side) * -1j * handle_mm,
        down_inseam / abs(down_inseam) * 1j * handle_mm,
        at_inseam.start,
    )


def cuff_line(leg: Leg, m: Measures) -> Chain:
    """Return the line where the leg ends when it has a cuff: as far up both seams from the hem."""
    side_mm, inseam_mm = (chain_length_mm(seam) - m.cuff_cut for seam in (leg.side, leg.inseam))
    return square_line(leg, side_mm, inseam_mm)


def at_level(seam: Chain, level_mm: float) -> complex:
    """Return the point of a seam, run down, at a depth."""
    return split_at(seam, lambda point: point.imag - level_mm)[1][0].start


def patch_place(front: Leg, m: Measures) -> tuple[complex, float]:
    """Return centre and width (mm) of the knee patch on the front."""
    level_mm = m.hem - (m.hem - m.crotch_line) * PATCH_MIDDLE_PART
    side, inner = at_level(front.side, level_mm), at_level(front.inseam, level_mm)
    return (side + inner) / 2, abs(inner - side) * PATCH_WIDTH_PART


def knee_line(leg: Leg) -> Chain:
    """Return the line across the leg from knee point to knee point: where it is made longer or shorter."""
    points = leg_outline(leg)
    return line(points["knee-side"][0].start, points["knee-inner"][0].start)


def leg_outline(leg: Leg) -> dict[str, Chain]:
    """Return the outline by its points: down the centre and the inseam, back along hem, side and waist."""
    up_mm = chain_length_mm(leg.inseam) * KNEE_PART
    inner_above, inner_below = split_at_length(leg.inseam, chain_length_mm(leg.inseam) - up_mm)
    side_above, side_below = split_at_length(leg.side, chain_length_mm(leg.side) - up_mm)
    side_hip, side_thigh = split_at(side_above[1:], lambda point: point.imag - leg.crotch.imag)
    return {
        "waist-centre": leg.centre[:1],
        "hip-centre": leg.centre[1:],
        "crotch": inner_above,
        "knee-inner": inner_below,
        "hem-inner": line(leg.hem_inner, leg.hem_side),
        "hem-side": backwards(side_below),
        "knee-side": backwards(side_thigh),
        "thigh-side": backwards(side_hip),
        "hip-side": backwards(side_above[:1]),
        "waist-side": leg.waist,
    }


def leg_lines(leg: Leg, m: Measures, shown: Chain) -> dict[str, Chain]:
    """Return the interior lines that front and back have in common."""
    short, cuff = short_of(front_leg(m)), cuff_line(leg, m)
    inner = shown[-1].end
    turn_up_mm = m.hem - TURN_UP_MM
    middle = (leg.hem_side + leg.hem_inner).real / 2
    return {
        "grain": straight_grain(middle, m.hip_line, m.hem - GRAIN_END_MM),
        "short": square_line(leg, short.side_mm, short.inseam_mm),
        "lengthen": knee_line(leg),
        "cuff": cuff,
        "shown": shown,
        "turn-up": line(at_level(leg.side, turn_up_mm), complex(inner.real, turn_up_mm), inner),
    }


def cuff_middle(leg: Leg, m: Measures, shown: Chain) -> complex:
    """Return the middle of what is shown of the edge that a cuff is sewn to."""
    cuff = cuff_line(leg, m)
    inner_x = min(shown[-1].end.real, cuff[-1].end.real)
    return split_at(cuff, lambda point: point.real - (cuff[0].start.real + inner_x) / 2)[1][0].start


def shown_line(leg: Leg, m: Measures, start: complex, centre: complex, down: complex) -> Chain:
    """Return the line up to which the line drawing shows a leg: what turns inwards between the legs is not seen.

    Args:
        leg: the front or back.
        start: where the line begins, at the centre seam.
        centre, down: a point of the drawing's centre line, and its direction on the piece.
    """
    levels_mm = (m.crotch_line + SHOWN_FORK_MM, at_level_of_short(m), m.hem)
    from_centre_mm = (0.0, SHOWN_GAP_MM, SHOWN_GAP_MM)
    points = []
    for level_mm, gap_mm in zip(levels_mm, from_centre_mm, strict=True):
        beside = centre + down * 1j * gap_mm
        points.append(beside + down * ((level_mm - beside.imag) / down.imag))
    points[-1] = complex(min(points[-1].real, leg.hem_inner.real), m.hem)
    return line(start, *points)


def at_level_of_short(m: Measures) -> float:
    """Return the depth of the short hem at the front's inseam (mm)."""
    leg = front_leg(m)
    return split_at_length(leg.inseam, short_of(leg).inseam_mm)[1][0].start.imag


def draw_front(m: Measures) -> Drawn:
    """Draw the wearer's right front."""
    leg = front_leg(m)
    leaves = leg.centre[1].at(SHOWN_CURVE_PART)
    shown = shown_line(leg, m, leaves, 0j, DOWN)
    patch_centre, patch_mm = patch_place(leg, m)
    return Drawn(
        outline=leg_outline(leg),
        points={
            "cuff-middle": cuff_middle(leg, m, shown),
            "patch-top": patch_centre - 0.5j * patch_mm * PATCH_HEIGHT_PER_WIDTH,
        },
        lines=leg_lines(leg, m, shown) | {"knee-patch": patch_path(patch_centre, patch_mm)},
    )


def draw_back(m: Measures) -> Drawn:
    """Draw the wearer's left back."""
    leg = back_leg(m)
    top = leg.centre[0].start
    down = cmath.rect(1.0, math.pi / 2 - BACK_TURN_RAD)
    shown = shown_line(leg, m, top, top, down)
    return Drawn(
        outline=leg_outline(leg),
        points={"cuff-middle": cuff_middle(leg, m, shown)},
        lines=leg_lines(leg, m, shown),
    )


def draw_waist_band(m: Measures) -> Drawn:
    """Draw half of the waist band for the waist lines of front and back."""
    return draw_band(*(chain_length_mm(leg.waist) for leg in (front_leg(m), back_leg(m))))


def draw_rib_cuff(m: Measures) -> Drawn:
    """Draw the rib cuff for the leg's edge above it."""
    return draw_cuff(sum(chain_length_mm(cuff_line(leg, m)) for leg in (front_leg(m), back_leg(m))), m.cuff)


DRAFTS: dict[str, Callable[[Measures], Drawn]] = {
    "front": draw_front,
    "back": draw_back,
    "band": draw_waist_band,
    "cuff": draw_rib_cuff,
    "knee-patch": lambda m: draw_patch(patch_place(front_leg(m), m)[1]),
    "snap-strip": lambda m: draw_snap_strip(chain_length_mm(front_leg(m).inseam)),
    "snap-strip-short": lambda m: draw_snap_strip(short_of(front_leg(m)).inseam_mm),
}


def draw_breakwater() -> dict[str, dict[str, Drawn]]:
    """Draw all pieces in all sizes: piece to size to drawing."""
    bodies: dict[str, Body] = bodies_between(SMALLEST, LARGEST)
    return {piece: {size: draw(measures_of(body)) for size, body in bodies.items()} for piece, draw in DRAFTS.items()}
