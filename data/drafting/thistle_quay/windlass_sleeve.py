"""Draws the raglan sleeve of Windlass, long, with the lines on which its shorter versions end. Stitching lines.

The sleeve's middle runs straight down from the crown, where neck and shoulder would meet. The sleeve is drawn as the
wearer's right one, right side up: its front half lies to the right.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

from .curves import Chain, Cubic, backwards, chain_length_mm, curve, line, solve, split_at
from .drawing import Drawn, straight_grain
from .windlass_lines import Half, half_of, marked, neck_width_mm
from .windlass_measures import SHORT_CUFF_MM, SHORT_PART, SHOULDER_SLOPE_RAD, Measures

SIDE_LEAN_RAD = math.radians(6)
"""At the underarm the seam leans towards the sleeve's middle by this much."""
RAGLAN_NECK_HANDLE, RAGLAN_UNDERARM_HANDLE = 0.40, 0.34
"""Handles of the sleeve's raglan edges as parts of the straight way; chosen by eye on the drawn pieces."""
GRAIN_END_MM = 30.0


@dataclass(frozen=True, kw_only=True)
class Side:
    """One half of the sleeve's top: `neck` from crown to raglan seam, `raglan` from there to the underarm.

    `outward` is +1 for the front half, which lies to the right, −1 for the back half.
    """

    outward: int
    neck: Chain
    raglan: Chain

    @property
    def underarm(self) -> complex:
        """The lower end of the raglan edge."""
        return self.raglan[-1].end


def turned(chain: Chain, about: complex, by: complex) -> Chain:
    """Return the chain with a point moved to the origin and turned there by a unit vector."""
    return tuple(
        Cubic(
            start=(s.start - about) * by,
            first_handle=(s.first_handle - about) * by,
            second_handle=(s.second_handle - about) * by,
            end=(s.end - about) * by,
        )
        for s in chain
    )


def side_at_depth(half: Half, depth_mm: float) -> Side:
    """Return one half of the sleeve's top whose underarm lies at a depth below the crown (mm).

    The piece that the body gave up between neck, raglan seam and shoulder is turned until the sleeve's middle runs
    down. So neck and raglan seam leave it as they arrive in the body. The underarm is so far out that both raglan
    edges are equally long.
    """
    by = 1j / half.axis
    neck = backwards(turned(half.sleeve_neck, half.neck_shoulder, by))
    at, leaving = neck[-1].end, half.raglan_leaving * by
    outward = -half.outward
    arriving = complex(outward * math.cos(SIDE_LEAN_RAD), math.sin(SIDE_LEAN_RAD))
    wanted_mm = chain_length_mm(half.raglan)

    def raglan_to(out_mm: float) -> Chain:
        """Return the raglan edge for a width from the middle to the underarm."""
        end = complex(outward * out_mm, depth_mm)
        way_mm = abs(end - at)
        return curve(at, leaving * way_mm * RAGLAN_NECK_HANDLE, -arriving * way_mm * RAGLAN_UNDERARM_HANDLE, end)

    least_mm = abs(at.real)
    if chain_length_mm(raglan_to(least_mm)) > wanted_mm:
        # Too deep: no width makes the edge short enough. Only met on the way to the right depth.
        return Side(outward=outward, neck=neck, raglan=raglan_to(least_mm))
    out_mm = solve(lambda out: chain_length_mm(raglan_to(out)) - wanted_mm, least_mm, least_mm + wanted_mm)
    return Side(outward=outward, neck=neck, raglan=raglan_to(out_mm))


@cache
def sides_of(m: Measures) -> tuple[Side, Side]:
    """Return front and back half of the sleeve's top; together as wide as the arm needs."""
    halves = [half_of(m, front=front) for front in (True, False)]

    def missing_mm(depth_mm: float) -> float:
        """Return how much the sleeve is too wide for a depth of the underarm."""
        front, back = (side_at_depth(half, depth_mm) for half in halves)
        return front.underarm.real - back.underarm.real - m.upper_sleeve

    depth_mm = solve(missing_mm, m.underarm * 0.55, m.underarm * 1.02)
    front, back = (side_at_depth(half, depth_mm) for half in halves)
    return front, back


def sleeve_length_mm(m: Measures) -> float:
    """Return the length of the long sleeve from the neck, over what is left of the shoulder, to the wrist (mm)."""
    shoulder_mm = m.shoulder - (neck_width_mm(m) - m.neck_width) / math.cos(SHOULDER_SLOPE_RAD)
    return shoulder_mm + m.arm_length


def draw_sleeve(m: Measures) -> Drawn:
    """Draw the long sleeve; its end is the finished hem."""
    front, back = sides_of(m)
    middle = (front.underarm.real + back.underarm.real) / 2
    depth_mm, length_mm = front.underarm.imag, sleeve_length_mm(m)
    leaving = (length_mm - depth_mm) / 3
    seams: dict[int, Chain] = {}
    for side in (front, back):
        end = complex(middle + side.outward * m.sleeve_end / 2, length_mm)
        lean = complex(-side.outward * math.sin(SIDE_LEAN_RAD), math.cos(SIDE_LEAN_RAD))
        seams[side.outward] = curve(side.underarm, lean * leaving, complex(0, -leaving), end)
    short_mm = depth_mm + m.arm_length * SHORT_PART
    depths = {"short-cuff": short_mm - SHORT_CUFF_MM, "short": short_mm, "cuff": length_mm - m.band}
    parts = {outward: split_at_depths(seam, list(depths.values())) for outward, seam in seams.items()}
    outline: dict[str, Chain] = {"crown": front.neck}
    outline |= {raglan_name(name, "front"): part for name, part in marked(front.raglan, half_of(m, front=True), m)}
    outline |= dict(zip(["underarm-front", *(f"{name}-front" for name in depths)], parts[1], strict=True))
    outline["end-front"] = line(seams[1][-1].end, seams[-1][-1].end)
    back_starts = ["end-back", *(f"{name}-back" for name in reversed(depths))]
    outline |= dict(zip(back_starts, [backwards(part) for part in reversed(parts[-1])], strict=True))
    marks = marked(back.raglan, half_of(m, front=False), m)
    starts = ["underarm-back", *(raglan_name(name, "back") for name, _ in reversed(marks) if name)]
    outline |= {start: backwards(part) for start, (_, part) in zip(starts, reversed(marks), strict=True)}
    outline["neck-back"] = backwards(back.neck)
    lines = {
        "grain": straight_grain(middle, GRAIN_END_MM, length_mm - 2 * GRAIN_END_MM),
        "middle": line(0j, complex(middle, length_mm)),
    }
    for at, name in enumerate(depths, start=1):
        lines[name] = across(parts[1][at][0], parts[-1][at][0])
        # The seams are mirror images about the sleeve's middle, so the line across is halved there.
        lines[f"{name}-middle"] = line(0j, lines[name][0].at(0.5))
    # Half-way to where the shortest version ends, so that every version can be made longer there.
    to_line = (depth_mm + depths["short-cuff"]) / 2
    lines["lengthen"] = across(*(split_at_depths(seams[side], [to_line])[1][0] for side in (1, -1)))
    points: dict[str, complex] = {}
    for name in ("short-cuff", "cuff"):
        points |= {f"{name}-quarter-{side}": lines[name][0].at(t) for side, t in (("back", 0.25), ("front", 0.75))}
    return Drawn(outline=outline, points=points, lines=lines)


def raglan_name(mark: str, side: str) -> str:
    """Return the name of a mark on the sleeve's raglan edge; the edge begins at the neck."""
    return f"{mark or 'neck'}-{side}"


def split_at_depths(chain: Chain, depths_mm: list[float]) -> list[Chain]:
    """Return the parts of a chain that runs down, split at these depths."""
    parts, rest = [], chain
    for depth_mm in depths_mm:
        before, rest = split_at(rest, lambda p: p.imag - depth_mm)  # noqa: B023
        parts.append(before)
    return [*parts, rest]


def across(front: Cubic, back: Cubic) -> Chain:
    """Return a line from the back seam to the front seam, square to both, where these parts of the seams begin."""
    third = abs(front.start - back.start) / 3
    down_front, down_back = (part.slope_at(0) / abs(part.slope_at(0)) for part in (front, back))
    return curve(back.start, down_back * -1j * third, -(down_front * -1j) * third, front.start)
