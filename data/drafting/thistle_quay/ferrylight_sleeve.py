"""Draws Ferrylight's sleeves and their lining. Outlines are stitching lines.

The wearer's right sleeve, right side up: crown at the origin, front to the right. The head is fitted to the armhole:
its height is set, then each half's width is found so that the head is longer than the armhole by the stated ease.
"""

from __future__ import annotations

import cmath
from collections.abc import Callable
from dataclasses import dataclass

from .curves import Chain, backwards, bow, chain_length_mm, curve, joined, line, solve, split_at, split_at_length
from .drawing import Drawn, straight_grain
from .ferrylight_lines import half_of, notched_armhole
from .ferrylight_measures import LINING_SHORTER_MM, SHOULDER_PLUS_MM, Measures
from .ferrylight_small_pieces import SLEEVE_BAND_MM, sleeve_band_ring_mm

HEAD_EASE = 0.025
"""The sleeve head is this part longer than the armhole; woven children's wear takes 0 to 5 % (from memory)."""
HEAD_HEIGHT_PART = 0.27
"""Height of the sleeve head as part of the whole armhole."""
BEND_ACROSS_FRONT, BEND_DOWN_FRONT = 0.575, 0.56
BEND_ACROSS_BACK, BEND_DOWN_BACK = 0.60, 0.57
"""Where the head turns from round to hollow: parts of the width and of the height, from the crown."""
BEND_STEEPER = 1.75
"""How much steeper the head is at the bend than the straight line from underarm to crown."""
CROWN_PART, BEND_UPPER_PART, BEND_LOWER_PART, UNDERARM_PART = 0.92, 0.50, 0.55, 0.80
"""Lengths of the head's handles as parts of the way to the meeting of their tangents."""
SLEEVE_PLUS_MM = 16.0
"""Sleeve from shoulder tip to hem beyond the arm's length."""
HEM_PART = 0.80
"""Width of the hemmed sleeve's end as part of its width at the underarm."""
SEAM_LEAN = 1.25
"""How much more the underarm seam leans at its upper end than on average; at the hem it stands square."""
GATHER_RATIO = 1.5
BLOUSE_MM = 15.0
"""The gathered sleeve is this much longer than needed, so that it falls over its band."""
LINING_BLOUSE_MM = 8.0
GRAIN_END_MM = 20.0
EndWidth = Callable[[float], float]


@dataclass(frozen=True, kw_only=True)
class HeadHalf:
    """Half of the sleeve head from crown to underarm, split at the notch, and the half width of the sleeve's end."""

    outward: int
    to_notch: Chain
    from_notch: Chain
    end_width_mm: float

    @property
    def underarm(self) -> complex:
        """Return the point where the head meets the underarm seam."""
        return self.from_notch[-1].end


def sleeve_length_mm(m: Measures) -> float:
    """Return the length from crown to finished hem (mm): the extended shoulder already covers a part of the arm."""
    return m.arm_length + SLEEVE_PLUS_MM - SHOULDER_PLUS_MM


def seam_direction(outward: int, width_mm: float, end_width_mm: float, seam_height_mm: float) -> complex:
    """Return the unit vector in which the underarm seam leaves the underarm."""
    lean = SEAM_LEAN * outward * (end_width_mm - width_mm) / seam_height_mm
    return cmath.rect(1, cmath.phase(complex(lean, 1)))


def head_curve(outward: int, width_mm: float, height_mm: float, seam: complex) -> Chain:
    """Return one half of the head from crown to underarm: round at the crown, hollow at the underarm.

    It leaves the crown level and arrives square to the underarm seam (a unit vector), so both halves meet smoothly
    at both ends.
    """
    across, down = (
        (BEND_ACROSS_FRONT, BEND_DOWN_FRONT) if outward > 0 else (BEND_ACROSS_BACK, BEND_DOWN_BACK)
    )
    bend = complex(outward * width_mm * across, height_mm * down)
    underarm = complex(outward * width_mm, height_mm)
    steep = complex(outward * width_mm, height_mm * BEND_STEEPER)
    along = steep / abs(steep)
    arriving = seam * (-1j if outward > 0 else 1j)
    return joined(
        bow(0j, complex(outward, 0), CROWN_PART, bend, along, BEND_UPPER_PART),
        bow(bend, along, BEND_LOWER_PART, underarm, arriving, UNDERARM_PART),
    )


def head_half(m: Measures, length_mm: float, end_width: EndWidth, *, front: bool) -> HeadHalf:
    """Fit one half of the sleeve head to its half of the armhole.

    Args:
        m: lengths of the size.
        length_mm: from crown to the sleeve's end.
        end_width: half width of the sleeve's end from its half width at the underarm (mm).
        front: the front half, else the back half.
    """
    armholes = {side: half_of(m, front=side).armhole for side in (True, False)}
    armhole_mm = chain_length_mm(armholes[front])
    height_mm = HEAD_HEIGHT_PART * sum(chain_length_mm(chain) for chain in armholes.values())
    outward = 1 if front else -1

    def head_of(width_mm: float) -> Chain:
        """Return the head's half for a width at the underarm."""
        seam = seam_direction(outward, width_mm, end_width(width_mm), length_mm - height_mm)
        return head_curve(outward, width_mm, height_mm, seam)

    width_mm = solve(
        lambda width: chain_length_mm(head_of(width)) - armhole_mm * (1 + HEAD_EASE), armhole_mm * 0.4, armhole_mm * 1.2
    )
    head = head_of(width_mm)
    below_mm = notched_armhole(half_of(m, front=front))[2]
    to_notch, from_notch = split_at_length(head, chain_length_mm(head) - below_mm)
    return HeadHalf(outward=outward, to_notch=to_notch, from_notch=from_notch, end_width_mm=end_width(width_mm))


def underarm_seam(half: HeadHalf, end: complex) -> Chain:
    """Return the underarm seam from the head down to the sleeve's end, square to both."""
    height_mm = end.imag - half.underarm.imag
    leaving = seam_direction(half.outward, abs(half.underarm.real), half.end_width_mm, height_mm)
    return curve(half.underarm, leaving * height_mm / 3, complex(0, -height_mm / 3), end)


def draw_sleeve_to(m: Measures, *, length_mm: float, end_width: EndWidth, cut_mm: float) -> Drawn:
    """Draw a sleeve down to a straight end.

    Args:
        m: lengths of the size.
        length_mm: from crown to the end.
        end_width: half width of the end from the half width at the underarm (mm).
        cut_mm: depth of the line on which a shorter version is cut off; 0 for none.
    """
    front, back = (head_half(m, length_mm, end_width, front=side) for side in (True, False))
    end_front, end_middle, end_back = (
        complex(x, length_mm) for x in (front.end_width_mm, 0, -back.end_width_mm)
    )
    front_seam = underarm_seam(front, end_front)
    back_seam = backwards(underarm_seam(back, end_back))
    outline: dict[str, Chain] = {
        "crown": front.to_notch,
        "notch-front": front.from_notch,
        "underarm-front": front_seam,
        "end-front": line(end_front, end_middle),
        "end-middle": line(end_middle, end_back),
        "end-back": back_seam,
        "underarm-back": backwards(back.from_notch),
        "notch-back": backwards(back.to_notch),
    }
    lines = {
        "grain": straight_grain(12, GRAIN_END_MM, length_mm - GRAIN_END_MM),
        "middle": line(0j, end_middle),
        "lengthen": across_at(front_seam, back_seam, (front.underarm.imag + length_mm) / 2),
    }
    points = {"end-quarter-front": end_front / 2 + end_middle / 2, "end-quarter-back": end_back / 2 + end_middle / 2}
    if cut_mm:
        upper, lower = split_at(front_seam, lambda p: p.imag - cut_mm)
        lower_back, upper_back = split_at(back_seam, lambda p: p.imag - cut_mm)
        outline |= {"underarm-front": upper, "end-back": lower_back}
        outline = _with(outline, "underarm-front", "band-front", lower)
        outline = _with(outline, "end-back", "band-back", upper_back)
        lines["band"] = line(lower[0].start, upper_back[0].start)
    return Drawn(outline=outline, lines=lines, points=points)


def across_at(front_seam: Chain, back_seam: Chain, level_mm: float) -> Chain:
    """Return the line across the sleeve at a depth, from seam to seam: where it is made longer or shorter."""
    ends = (split_at(seam, lambda point: point.imag - level_mm)[1][0].start for seam in (front_seam, back_seam))
    return line(*ends)


def _with(outline: dict[str, Chain], after: str, name: str, stretch: Chain) -> dict[str, Chain]:
    """Return the outline with a stretch put in behind another one."""
    result: dict[str, Chain] = {}
    for key, value in outline.items():
        result[key] = value
        if key == after:
            result[name] = stretch
    return result


def draw_sleeve(m: Measures) -> Drawn:
    """Draw the hemmed sleeve; its end is the finished hem."""
    return draw_sleeve_to(m, length_mm=sleeve_length_mm(m), end_width=lambda width: width * HEM_PART, cut_mm=0)


def draw_sleeve_gathered(m: Measures) -> Drawn:
    """Draw the sleeve that is gathered into a band; its end is the seam with the band."""
    half_mm = sleeve_band_ring_mm(m) * GATHER_RATIO / 2
    length_mm = sleeve_length_mm(m) - SLEEVE_BAND_MM + BLOUSE_MM
    return draw_sleeve_to(m, length_mm=length_mm, end_width=lambda _: half_mm, cut_mm=0)


def draw_sleeve_lining(m: Measures) -> Drawn:
    """Draw the sleeve lining: shorter than the hemmed sleeve; cut off on the line `band` for the gathered one."""
    return draw_sleeve_to(
        m,
        length_mm=sleeve_length_mm(m) - LINING_SHORTER_MM,
        end_width=lambda width: width * HEM_PART,
        cut_mm=sleeve_length_mm(m) - SLEEVE_BAND_MM + LINING_BLOUSE_MM,
    )
