"""How far can the pieces of a lay be pushed together, now with their true outlines?

Solvers work with slightly larger outlines. Here every piece slides back towards the first cut end until it
touches, which takes out that slack, and all positions end on the grid of 0.01 mm. Nothing is re-arranged.
"""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from .model import GRID_PER_MM, Outline, Placement
from .outlines import posed, signed_area
from .slide import Edges, edges_facing, slide_room
from .slots import Slot

_MOST_PASSES: Final = 20


class _Body:
    """A piece at a whole-number place on the grid, with the edges that look along either axis."""

    def __init__(self, slot: Slot, placement: Placement) -> None:
        outline = posed(slot.outline_mm, turned=placement.turned, mirrored=placement.mirrored)
        if signed_area(outline) < 0:
            outline = tuple(reversed(outline))
        self.x = round(placement.x_mm * GRID_PER_MM)
        self.y = round(placement.y_mm * GRID_PER_MM)
        points = np.rint(np.array(outline) * GRID_PER_MM)
        self.low = points.min(axis=0)
        self.high = points.max(axis=0)
        self.facing = {
            "left": edges_facing(points, axis=0, forward=False),
            "right": edges_facing(points, axis=0, forward=True),
            "down": edges_facing(points, axis=1, forward=False),
            "up": edges_facing(points, axis=1, forward=True),
        }


def _push_back(bodies: Sequence[_Body], *, axis: int, movable: Sequence[_Body]) -> bool:
    """Slide each body backwards along the axis as far as it goes, nearest first; whether any moved."""
    ahead, behind = ("left", "right") if axis == 0 else ("down", "up")
    moved = False

    def start(body: _Body) -> float:
        return float((body.x if axis == 0 else body.y) + body.low[axis])

    for body in sorted(movable, key=start):
        room = start(body)
        for other in bodies:
            if other is body:
                continue
            offset = (body.x - other.x, body.y - other.y)
            room = min(room, slide_room(body.facing[ahead], other.facing[behind], offset[axis], offset[1 - axis]))
        step = math.floor(room + 1e-6)
        if step != 0:
            moved = True
            if axis == 0:
                body.x -= step
            else:
                body.y -= step
    return moved


def _push_up(bodies: Sequence[_Body], movable: Sequence[_Body], limit: float) -> None:
    """Slide each body across the cloth towards the far selvedge as far as it goes, nearest first."""

    def room_to_selvedge(body: _Body) -> float:
        return limit - body.y - float(body.high[1])

    for body in sorted(movable, key=room_to_selvedge):
        room = room_to_selvedge(body)
        for other in bodies:
            if other is not body:
                # Seen in a mirror, up is backwards.
                up, down = _in_mirror(body.facing["up"]), _in_mirror(other.facing["down"])
                room = min(room, slide_room(up, down, other.y - body.y, body.x - other.x))
        body.y += max(0, math.floor(room + 1e-6))


def _in_mirror(edges: Edges) -> Edges:
    """Edges with their positions along the axis turned round."""
    return edges * np.array([-1.0, 1.0, -1.0, 1.0])


def _lift_apart(bodies: Sequence[_Body], *, movable: Sequence[_Body]) -> None:
    """Move pieces away from y = 0 where rounding to the grid pushed a straight edge into its neighbour's."""
    for body in sorted(movable, key=lambda body: body.y + float(body.low[1])):
        room = min(
            (
                slide_room(body.facing["down"], other.facing["up"], body.y - other.y, body.x - other.x)
                for other in bodies
                if other is not body
            ),
            default=0.0,
        )
        if room < -1e-6:
            body.y += math.ceil(-room - 1e-6)


def settled(
    slots: Sequence[Slot], placements: Sequence[Placement], usable_width_mm: float, *, rounds: int = 0
) -> tuple[float, tuple[Placement, ...]]:
    """Push the pieces together on the true outlines and put them on the grid.

    Arguments: the slots, one placement for each in the same order, the usable width in millimetres, and how often the
    pieces are also pushed to either side of the cloth: along a slanting edge that makes room, and no lay grows by it.
    Returns the length in millimetres and the new placements. Pieces that lie beyond the usable width by a
    hair are pushed towards y = 0 first; whether that was enough is for the caller and the verifier to see.
    """
    bodies = [_Body(slot, placement) for slot, placement in zip(slots, placements, strict=True)]
    free = [body for body, slot in zip(bodies, slots, strict=True) if not slot.on_fold]
    limit = usable_width_mm * GRID_PER_MM + 1
    _lift_apart(bodies, movable=free)
    if any(body.y + body.high[1] > limit or body.y + body.low[1] < 0 for body in bodies):
        _push_back(bodies, axis=1, movable=free)
    for _ in range(_MOST_PASSES):
        if not _push_back(bodies, axis=0, movable=bodies):
            break
    for number in range(2 * rounds):
        if number % 2:
            _push_up(bodies, free, usable_width_mm * GRID_PER_MM)
        else:
            _push_back(bodies, axis=1, movable=free)
        for _ in range(_MOST_PASSES):
            if not _push_back(bodies, axis=0, movable=bodies):
                break
    # Pieces that wedge each other creep by hairs; where the passes end before they are at the cut end, all go together.
    start = round(min(body.x + float(body.low[0]) for body in bodies))
    for body in bodies:
        body.x -= start
    length = max(body.x + float(body.high[0]) for body in bodies)
    moved = tuple(
        Placement(
            item_id=old.item_id,
            copy=old.copy,
            x_mm=body.x / GRID_PER_MM,
            y_mm=body.y / GRID_PER_MM,
            turned=old.turned,
            mirrored=old.mirrored,
        )
        for old, body in zip(placements, bodies, strict=True)
    )
    return length / GRID_PER_MM, moved


def fits_across(slots: Sequence[Slot], placements: Sequence[Placement], usable_width_mm: float) -> bool:
    """Whether every placed outline lies between y = 0 and the usable width, to one step of the grid."""
    for slot, placement in zip(slots, placements, strict=True):
        ys = [y for _, y in _posed_outline(slot, placement)]
        if placement.y_mm + min(ys) < -1e-6:
            return False
        if placement.y_mm + max(ys) > usable_width_mm + 1.0 / GRID_PER_MM + 1e-6:
            return False
    return True


def _posed_outline(slot: Slot, placement: Placement) -> Outline:
    return posed(slot.outline_mm, turned=placement.turned, mirrored=placement.mirrored)
