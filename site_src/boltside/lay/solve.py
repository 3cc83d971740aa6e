"""Which solver makes a lay, and under which key is the result kept?"""

from . import flat, folded
from .codec import Json, digest, from_grid, on_grid, request_to_json
from .model import Lay, LayRequest, Quality
from .outlines import signed_area

KEY_FORMAT = 1
"""Counts up when the meaning of a key changes."""


def solver_stamp(request: LayRequest, quality: Quality) -> Json:
    """Solver, version, seed and stop rule that make this lay."""
    if quality == "draft":
        return {
            "solver": folded.SOLVER,
            "version": folded.SOLVER_VERSION,
            "stop": folded.stop_rule(folded.DRAFT_TRIALS),
        }
    if request.way == "folded":
        return {"solver": folded.SOLVER, "version": folded.SOLVER_VERSION, "stop": folded.stop_rule()}
    return {"solver": flat.SOLVER, "version": flat.SOLVER_VERSION, "stop": flat.stop_rule()}


def lay_key(request: LayRequest, quality: Quality) -> str:
    """The key of a lay: a hash of the outlines, how they may lie, the cloth, and how the lay is made.

    Any change to one of these gives another key, so a stored lay that no longer fits is never found.
    """
    return digest({"format": KEY_FORMAT, "request": request_to_json(request), "made": solver_stamp(request, quality)})


def likeness(request: LayRequest, quality: Quality) -> Json:
    """What a request is like, for finding a lay whose key differs by a hair.

    Outlines are computed; on another system the last digit of a coordinate may fall to the other side of a step
    of the grid, and the key with it. So a stored lay also carries its maker's stamp and for each item length,
    width and area, which can be compared with a tolerance (:func:`alike`).
    """
    shapes = {}
    for item in request.items:
        xs, ys = zip(*item.outline_mm, strict=True)
        box = (max(xs) - min(xs), max(ys) - min(ys))
        shapes[item.item_id] = [*(on_grid(side) for side in box), round(abs(signed_area(item.outline_mm)))]
    return {"made": digest(solver_stamp(request, quality)), "shapes": shapes}


LIKE_STEPS = 3
"""Two lengths of the same thing may differ by so many steps of 0.01 mm."""

LIKE_EDGE_MM = 0.01
"""Two areas of the same thing may differ by this much along half of its outline."""


def alike(one: Json, other: Json) -> bool:
    """Whether two likenesses are of the same pieces made by the same solver, but for rounding."""
    if one["made"] != other["made"] or one["shapes"].keys() != other["shapes"].keys():
        return False
    for item_id, (length, width, area) in one["shapes"].items():
        other_length, other_width, other_area = other["shapes"][item_id]
        if max(abs(length - other_length), abs(width - other_width)) > LIKE_STEPS:
            return False
        if abs(area - other_area) > from_grid(length + width) * LIKE_EDGE_MM:
            return False
    return True


def solve(request: LayRequest, quality: Quality) -> Lay:
    """Make a lay. On flat cloth of full quality call this only in a process that ends afterwards.

    Raises: :class:`.model.TooWide`, :class:`.model.SolveFailed`.
    """
    if quality == "draft":
        return folded.solve_by_filling(request, trials=folded.DRAFT_TRIALS, quality="draft")
    if request.way == "folded":
        return folded.solve_by_filling(request)
    return flat.solve_flat(request)


def leaves_thread_behind(request: LayRequest, quality: Quality) -> bool:
    """Whether the process is spent after :func:`solve`, because a solver's thread goes on in it."""
    return quality == "full" and request.way == "flat"
