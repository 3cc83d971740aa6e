"""Draws Ferrylight's sleeves and their lining. Outlines are stitching lines.

The wearer's right sleeve, right side up: crown at the origin, front to the right. The head is fitted to the armhole:
its height is set, then each half's width is found so that the head is longer than the armhole by the stated ease.
"""

from __future__ import annotations

import cmath
from dataclasses import dataclass

from .curves import Chain, backwards, chain_length_mm, curve, joined, line, solve, split_at, split_at_length
from .drawing import Drawn, straight_grain
from .ferrylight_lines import half_of, notched_armhole
from .ferrylight_measures import LINING_SHORTER_MM, SHOULDER_PLUS_MM, Measures
from .ferrylight_small_pieces import SLEEVE_BAND_MM, sleeve_band_ring_mm

HEAD_EASE = 0.025
"""The sleeve head is this part longer than the armhole; woven children's wear takes 0 to 5 % (from memory)."""
HEAD_HEIGHT_PART = 0.27
"""Height of the sleeve head as part of the whole armhole."""
BEND_ACROSS_FRONT, BEND_UP_FRONT = 0.60, 0.47
BEND_ACROSS_BACK, BEND_UP_BACK = 0.62, 0.50
"""Where the head's curve turns from hollow to round: part of the width from the crown, part of the height from below."""
BEND_STEEPER = 1.38
"""How much steeper the head is at the bend than the straight line from underarm to crown."""
CROWN_HANDLE, BEND_UPPER_HANDLE, BEND_LOWER_HANDLE, UNDERARM_HANDLE = 0.52, 0.36, 0.40, 0.62
SLEEVE_PLUS_MM = 16.0
"""Sleeve from shoulder tip to hem beyond the arm's length."""
HEM_PART = 0.78
"""Width of the hemmed sleeve's end as part of its width at the underarm."""
SEAM_LEAN = 1.3
"""How much more the underarm seam leans at its upper end than on average; at the hem it stands square."""
GATHER_RATIO = 1.5
BLOUSE_MM = 15.0
"""The gathered sleeve is this much longer than needed, so that it falls over its band."""
LINING_BLOUSE_MM = 8.0
GRAIN_END_MM = 20.0


@dataclass(frozen=True, kw_only=True)
class HeadHalf:
    """Front or back half of the sleeve head: its curve from crown to underarm in two parts, split at the notch."""

    outward: int
    to_notch: Chain
    from_notch: Chain

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


def head_curve(outward: int, width_mm: float, height_mm: float, seam_height_mm: float) -> Chain:
    """Return one half of the head from crown to underarm: round at the crown, hollow at the underarm.

    It leaves the crown level and arrives square to the underarm seam, so both halves meet smoothly at both ends.
    """
    across, up = (BEND_ACROSS_FRONT, BEND_UP_FRONT) if outward > 0 else (BEND_ACROSS_BACK, BEND_UP_BACK)
    bend = complex(outward * width_mm * across, height_mm * (1 - up))
    underarm = complex(outward * width_mm, height_mm)
    steep = complex(outward * width_mm, height_mm * BEND_STEEPER)
    along = steep / abs(steep)
    seam = seam_direction(outward, width_mm, width_mm * HEM_PART, seam_height_mm)
    arriving = seam * (-1j if outward > 0 else 1j)
    upper, lower = abs(bend), abs(underarm - bend)
    return joined(
        curve(0j, complex(outward * width_mm * across * CROWN_HANDLE, 0), -along * upper * BEND_UPPER_HANDLE, bend),
        curve(bend, along * lower * BEND_LOWER_HANDLE, -arriving * lower * UNDERARM_HANDLE, underarm),
    )


def head_half(m: Measures, *, front: bool) -> HeadHalf:
    """Fit one half of the sleeve head to its half of the armhole."""
    armholes = {side: half_of(m, front=side).armhole for side in (True, False)}
    armhole_mm = chain_length_mm(armholes[front])
    height_mm = HEAD_HEIGHT_PART * sum(chain_length_mm(chain) for chain in armholes.values())
    seam_height_mm = sleeve_length_mm(m) - height_mm
    outward = 1 if front else -1

    def excess_mm(width_mm: float) -> float:
        """Return how much longer the head is than wanted."""
        return chain_length_mm(head_curve(outward, width_mm, height_mm, seam_height_mm)) - armhole_mm * (1 + HEAD_EASE)

    width_mm = solve(excess_mm, armhole_mm * 0.4, armhole_mm * 1.2)
    head = head_curve(outward, width_mm, height_mm, seam_height_mm)
    below_mm = notched_armhole(half_of(m, front=front))[2]
    to_notch, from_notch = split_at_length(head, chain_length_mm(head) - below_mm)
    return HeadHalf(outward=outward, to_notch=to_notch, from_notch=from_notch)


def underarm_seam(half: HeadHalf, end: complex, seam_height_mm: float) -> Chain:
    """Return the underarm seam from the head down to the sleeve's end, square to both."""
    width_mm = abs(half.underarm.real)
    leaving = seam_direction(half.outward, width_mm, width_mm * HEM_PART, seam_height_mm)
    third = (end.imag - half.underarm.imag) / 3
    return curve(half.underarm, leaving * third, complex(0, -third), end)


def draw_sleeve_to(m: Measures, *, length_mm: float, front_end_mm: float, back_end_mm: float, cut_mm: float) -> Drawn:
    """Draw a sleeve down to a straight end.

    Args:
        m: lengths of the size.
        length_mm: from crown to the end.
        front_end_mm, back_end_mm: width of the end in front of and behind the middle.
        cut_mm: depth of the line on which a shorter version is cut off; 0 for none.
    """
    front, back = head_half(m, front=True), head_half(m, front=False)
    seam_height_mm = sleeve_length_mm(m) - front.underarm.imag
    end_front, end_middle, end_back = (complex(x, length_mm) for x in (front_end_mm, 0, -back_end_mm))
    front_seam = underarm_seam(front, end_front, seam_height_mm)
    back_seam = backwards(underarm_seam(back, end_back, seam_height_mm))
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
    front, back = (abs(head_half(m, front=side).underarm.real) * HEM_PART for side in (True, False))
    return draw_sleeve_to(m, length_mm=sleeve_length_mm(m), front_end_mm=front, back_end_mm=back, cut_mm=0)


def draw_sleeve_gathered(m: Measures) -> Drawn:
    """Draw the sleeve that is gathered into a band; its end is the seam with the band."""
    half_mm = sleeve_band_ring_mm(m) * GATHER_RATIO / 2
    length_mm = sleeve_length_mm(m) - SLEEVE_BAND_MM + BLOUSE_MM
    return draw_sleeve_to(m, length_mm=length_mm, front_end_mm=half_mm, back_end_mm=half_mm, cut_mm=0)


def draw_sleeve_lining(m: Measures) -> Drawn:
    """Draw the sleeve lining: shorter than the hemmed sleeve; cut off on the line `band` for the gathered one."""
    front, back = (abs(head_half(m, front=side).underarm.real) * HEM_PART for side in (True, False))
    return draw_sleeve_to(
        m,
        length_mm=sleeve_length_mm(m) - LINING_SHORTER_MM,
        front_end_mm=front,
        back_end_mm=back,
        cut_mm=sleeve_length_mm(m) - SLEEVE_BAND_MM + LINING_BLOUSE_MM,
    )
