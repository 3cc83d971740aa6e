"""Draws Ferrylight's flat collar. Outlines are stitching lines.

The flat collar lies on the neck and shoulders. It is drafted on the body itself: the back and the front are laid
together at the shoulder, neck points on each other and the shoulder tips overlapping a little, and the neck line of
both is the collar's. The overlap shortens the collar's outer edge, so that the seam at the neck rolls under.

It ends at centre front. Centre back is at x = 0, the wearer's right half lies to the right, right side of the upper
collar up.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

from .curves import (
    Chain,
    Cubic,
    backwards,
    bow,
    chain_length_mm,
    joined,
    line,
    moved,
    split_at_length,
)
from .drawing import Drawn, straight_grain
from .ferrylight_lines import Half, half_of
from .ferrylight_measures import Measures

SHOULDER_OVERLAP_PART = 0.14
"""The shoulder tips of back and front overlap by this part of the shoulder seam, 9 to 14 mm (common practice: 1 to 2 cm
for a flat collar)."""
COLLAR_WIDTH_PART = 0.95
"""Width of the flat collar as part of half the neck's width: 44 to 52 mm."""
TURN_OF_CLOTH_MM = 1.5
"""The under collar is this much narrower, so that the seam round the edge rolls to the underside."""
CORNER_PART = 0.75
"""Size of the rounded corners as part of the collar's width."""
CORNER_HANDLE = 0.55
"""A quarter of an ellipse, as the necks have."""
GRAIN_END_MM = 6.0


@dataclass(frozen=True, kw_only=True)
class NeckEdge:
    """The flat collar's neck edge: centre back to shoulder, shoulder to centre front."""

    back: Chain
    front: Chain


def neck_lengths_mm(m: Measures) -> tuple[float, float]:
    """Return the lengths of the neck's stitching line of half the back and of one front up to centre front (mm)."""
    return chain_length_mm(half_of(m, front=False).neck), chain_length_mm(half_of(m, front=True).neck)


def overlap_angle_rad() -> float:
    """Return the angle between both shoulder seams when their tips overlap; the same in every size."""
    return 2 * math.asin(SHOULDER_OVERLAP_PART / 2)


def laid_on_back(back: Half, front: Half, point: complex) -> complex:
    """Return where a point of the front lies when the front is laid on the back for the collar."""
    turn = back.along_shoulder / front.along_shoulder * cmath.rect(1, overlap_angle_rad())
    return back.neck_shoulder + (point - front.neck_shoulder) * turn


def neck_edge(m: Measures) -> NeckEdge:
    """Return the flat collar's neck edge, as long as the neck, without the kink of the overlap at the shoulder.

    The kink is shared between both curves; that changes their lengths by a fraction of a millimetre, which is taken
    back by scaling each of them, so that shoulder meets shoulder.
    """
    back, front = half_of(m, front=False), half_of(m, front=True)
    (back_neck,) = back.neck
    (front_neck,) = backwards(front.neck)
    first, second, third, last = (
        laid_on_back(back, front, point)
        for point in (front_neck.start, front_neck.first_handle, front_neck.second_handle, front_neck.end)
    )
    arriving = back_neck.end - back_neck.second_handle
    leaving = second - first
    half_kink_rad = cmath.phase(leaving / arriving) / 2
    back_smooth = Cubic(
        start=back_neck.start,
        first_handle=back_neck.first_handle,
        second_handle=back_neck.end - arriving * cmath.rect(1, half_kink_rad),
        end=back_neck.end,
    )
    front_smooth = Cubic(
        start=first, first_handle=first + leaving * cmath.rect(1, -half_kink_rad), second_handle=third, end=last
    )
    back_mm, front_mm = neck_lengths_mm(m)
    back_scaled = scaled(back_smooth, back_neck.start, back_mm)
    front_scaled = scaled(front_smooth, first, front_mm)
    return NeckEdge(back=(back_scaled,), front=moved((front_scaled,), back_scaled.end - first))


def scaled(segment: Cubic, about: complex, length_mm: float) -> Cubic:
    """Return the segment scaled about a point until it has a length."""
    scale = length_mm / segment.length_mm()
    start, first_handle, second_handle, end = (
        about + (point - about) * scale
        for point in (segment.start, segment.first_handle, segment.second_handle, segment.end)
    )
    return Cubic(start=start, first_handle=first_handle, second_handle=second_handle, end=end)


def beside(chain: Chain, distance_mm: float) -> Chain:
    """Return a chain that runs beside another at a distance to its right (y down), a cubic for each cubic.

    At its ends and at the middle of each cubic it is exactly that far away, and at the ends it runs in the same
    direction; between, near enough on curves as even as a neck (the tests measure the width).
    """
    found = []
    for s in chain:
        ways = [s.slope_at(t) / abs(s.slope_at(t)) for t in (0.0, 0.5, 1.0)]
        start, middle, end = (s.at(t) + 1j * way * distance_mm for t, way in zip((0.0, 0.5, 1.0), ways, strict=True))
        # A cubic's middle is (start + 3 first handle + 3 second handle + end) / 8; with handles along the ends'
        # directions that is a pair of linear equations for their lengths.
        wanted = (8 * middle - 4 * start - 4 * end) / 3
        cross = (ways[0].conjugate() * ways[2]).imag
        first = (wanted.conjugate() * ways[2]).imag / cross * ways[0]
        second = (wanted.conjugate() * ways[0]).imag / cross * ways[2]
        found.append(Cubic(start=start, first_handle=start + first, second_handle=end - second, end=end))
    return tuple(found)


def flat_collar_width_mm(m: Measures) -> float:
    """Return the width of the flat collar at centre back (mm)."""
    return m.neck_width * COLLAR_WIDTH_PART


def corner(at: complex, before: complex, after: complex) -> Chain:
    """Return a rounded corner: from a point before the corner to one after it, tangents meeting in the corner."""
    arriving, leaving = at - before, after - at
    return bow(before, arriving / abs(arriving), CORNER_HANDLE, after, leaving / abs(leaving), CORNER_HANDLE)


def draw_flat(m: Measures, narrower_mm: float) -> Drawn:
    """Draw one half of the flat collar, centre back to centre front, both ends rounded.

    Args:
        m: lengths of the size.
        narrower_mm: how much narrower than the upper collar it is.
    """
    width_mm = flat_collar_width_mm(m) - narrower_mm
    radius_mm = flat_collar_width_mm(m) * CORNER_PART
    neck = neck_edge(m)
    back_outer, front_outer = beside(neck.back, width_mm), beside(neck.front, width_mm)
    _, back_outer = split_at_length(back_outer, radius_mm)
    front_outer, _ = split_at_length(front_outer, chain_length_mm(front_outer) - radius_mm)
    back_neck, front_neck = neck.back[0].start, neck.front[-1].end
    # At both ends the collar stands square to the neck; the corners between these ends and the outer edge are rounded.
    down, outward = 1j, neck.front[-1].slope_at(1) * 1j
    outward /= abs(outward)
    back_corner = meeting(back_neck, down, back_outer[0].start, back_outer[0].slope_at(0))
    front_corner = meeting(front_neck, outward, front_outer[-1].end, front_outer[-1].slope_at(1))
    back_round = back_corner - down * radius_mm
    front_round = front_corner - outward * radius_mm
    return Drawn(
        outline={
            "neck-centre": neck.back,
            "neck-shoulder": neck.front,
            "neck-front": joined(
                line(front_neck, front_round),
                corner(front_corner, front_round, front_outer[-1].end),
                backwards(front_outer),
            ),
            "outer-shoulder": joined(
                backwards(back_outer),
                corner(back_corner, back_outer[0].start, back_round),
                line(back_round, back_neck),
            ),
        },
        lines={
            "grain": straight_grain(width_mm / 2, GRAIN_END_MM, width_mm - GRAIN_END_MM),
            "shoulder": line(neck.front[0].start, front_outer[0].start),
        },
    )


def meeting(one: complex, way: complex, other: complex, other_way: complex) -> complex:
    """Return where two straight lines, each a point and a direction, meet."""
    cross = (way.conjugate() * other_way).imag
    along = ((other - one).conjugate() * other_way).imag / cross
    return one + way * along


def draw_flat_collar(m: Measures) -> Drawn:
    """Draw the upper collar."""
    return draw_flat(m, 0.0)


def draw_flat_under_collar(m: Measures) -> Drawn:
    """Draw the under collar: the same neck edge, a little narrower."""
    return draw_flat(m, TURN_OF_CLOTH_MM)
