"""Which solver makes a lay, and under which key is the result kept?"""

from . import flat, folded
from .codec import Json, digest, request_to_json
from .model import Lay, LayRequest, Quality

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
