"""Which solver makes a lay, and under which key is the result kept?"""

import hashlib
from collections.abc import Sequence
from functools import cache
from typing import Final, get_args

from . import flat, folded, spread_middle, spread_part, step_solve
from .codec import Json, digest, from_grid, item_to_json, on_grid, one_line, repeat_to_json, request_to_json
from .model import QUALITIES, Lay, LayItem, LayRequest, Quality, Way
from .outlines import signed_area
from .spread_search import SPREAD_TRIALS_OF
from .spread_stored import stored_lay

WAYS: Final[tuple[Way, ...]] = get_args(Way)

KEY_FORMAT = 1
"""Counts up when the meaning of a key changes."""


def kept_as(way: Way, quality: Quality, *, in_step: bool = False) -> Json:
    """Solver and stop rule in the key of a lay: what a lay of this quality is at least worth.

    A better way to make it leaves the key as it was, so that the lays that are there stay of use; who made a lay, its
    likeness says (:func:`solver_stamp`). Flat lays and those folded in half have seen that.
    """
    stamp = solver_stamp(way, quality, in_step=in_step)
    kept = {flat.SOLVER: flat.KEPT_STOP, folded.SOLVER: folded.KEPT_STOP}.get(stamp["solver"])
    return stamp if kept is None else {**stamp, "stop": kept[quality]}


def solver_stamp(way: Way, quality: Quality, *, in_step: bool = False) -> Json:
    """Solver, version, seed and stop rule that make this lay today; `in_step` with a repeat."""
    if in_step:
        stop = step_solve.step_stop_rule(quality)
        return {"solver": step_solve.STEP_SOLVER, "version": step_solve.STEP_SOLVER_VERSION, "stop": stop}
    if way == "middle":
        stop = spread_middle.middle_stop_rule(SPREAD_TRIALS_OF[quality])
        return {"solver": spread_middle.MIDDLE_SOLVER, "version": spread_middle.MIDDLE_SOLVER_VERSION, "stop": stop}
    if way == "part-folded":
        stop = spread_part.part_stop_rule(SPREAD_TRIALS_OF[quality], spread_part.SHORT_TRIALS_OF[quality])
        return {"solver": spread_part.PART_SOLVER, "version": spread_part.PART_SOLVER_VERSION, "stop": stop}
    if way == "folded" or quality == "draft":
        stop = folded.stop_rule(quality)
        return {"solver": folded.SOLVER, "version": folded.SOLVER_VERSION, "stop": stop}
    return {"solver": flat.SOLVER, "version": flat.SOLVER_VERSION, "stop": flat.RULES[quality].text}


def lay_key(request: LayRequest, quality: Quality) -> str:
    """The key of a lay: a hash of the outlines, how they may lie, the cloth, and how the lay is made (:func:`kept_as`).

    Any change to one of these gives another key, so a stored lay that no longer fits is never found.
    """
    made = kept_as(request.way, quality, in_step=request.repeat is not None)
    return digest({"format": KEY_FORMAT, "request": request_to_json(request), "made": made})


class KeyMaker:
    """Makes the keys of many requests for the same pieces: each piece is written down once.

    Equal to :func:`lay_key`, which a test holds it to.
    """

    def __init__(self) -> None:
        self._items: dict[int, tuple[LayItem, str]] = {}
        self._made: dict[tuple[Way, Quality, bool], str] = {}

    def key(self, request: LayRequest, quality: Quality) -> str:
        """The key of a lay."""
        by = (request.way, quality, request.repeat is not None)
        made = self._made.get(by)
        if made is None:
            made = self._made[by] = one_line(kept_as(request.way, quality, in_step=by[2]))
        repeat = "" if request.repeat is None else f'"repeat":{one_line(repeat_to_json(request.repeat))},'
        items = ",".join(self._item(item) for item in request.items)
        text = (
            f'{{"format":{KEY_FORMAT},"made":{made},"request":{{"items":[{items}],'
            f'"one_way":{"true" if request.one_way else "false"},{repeat}"way":"{request.way}",'
            f'"width":{on_grid(request.bolt_width_mm)}}}}}'
        )
        return hashlib.sha256(text.encode()).hexdigest()[:32]

    def _item(self, item: LayItem) -> str:
        # By identity: to hash an outline takes as long as to write it down. The piece is kept, so its id stays its own.
        known = self._items.get(id(item))
        if known is None:
            known = self._items[id(item)] = (item, one_line(item_to_json(item)))
        return known[1]


def makers() -> dict[str, Json]:
    """What the stamps of today's solvers mean, and of those before whose lays are kept, for the header of a file."""
    stamps = [stamp(way, quality) for stamp in (kept_as, solver_stamp) for way in WAYS for quality in QUALITIES]
    stamps += [solver_stamp("flat", quality, in_step=True) for quality in QUALITIES]
    return {digest(stamp): stamp for stamp in stamps}


def likeness(request: LayRequest, quality: Quality) -> Json:
    """What a request is like, for finding a lay whose key differs by a hair.

    Outlines are computed; on another system the last digit of a coordinate may fall to the other side of a step
    of the grid, and the key with it. So a stored lay also carries its maker's stamp and for each item length,
    width and area, and where it has one its mark, which can be compared with a tolerance (:func:`alike`).
    """
    shapes = {}
    marks = {} if request.repeat is None else request.repeat.marks
    for item in request.items:
        xs, ys = zip(*item.outline_mm, strict=True)
        box = (max(xs) - min(xs), max(ys) - min(ys))
        shapes[item.item_id] = [*(on_grid(side) for side in box), round(abs(signed_area(item.outline_mm)))]
        shapes[item.item_id] += [on_grid(at) for at in marks.get(item.item_id, ())]
    made = solver_stamp(request.way, quality, in_step=request.repeat is not None)
    return {"made": digest(made), "shapes": shapes}


LIKE_STEPS = 3
"""Two lengths of the same thing may differ by so many steps of 0.01 mm."""

LIKE_EDGE_MM = 0.01
"""Two areas of the same thing may differ by this much along half of its outline."""


def alike(one: Json, other: Json) -> bool:
    """Whether two likenesses are of the same pieces made by the same solver, but for rounding."""
    if not _as_good(one["made"], other["made"]) or one["shapes"].keys() != other["shapes"].keys():
        return False
    for item_id, (length, width, area, *mark) in one["shapes"].items():
        other_length, other_width, other_area, *other_mark = other["shapes"][item_id]
        if max(abs(length - other_length), abs(width - other_width)) > LIKE_STEPS or len(mark) != len(other_mark):
            return False
        if any(abs(at - other_at) > LIKE_STEPS for at, other_at in zip(mark, other_mark, strict=True)):
            return False
        if abs(area - other_area) > from_grid(length + width) * LIKE_EDGE_MM:
            return False
    return True


@cache
def _kept_for(made: str) -> str:
    """The digest of what lays of this maker are kept as; its own, if they are kept as what they are."""
    for way in WAYS:
        for quality in QUALITIES:
            if digest(solver_stamp(way, quality)) == made:
                return digest(kept_as(way, quality))
    return made


def _as_good(one: str, other: str) -> bool:
    """Whether lays of two makers are kept under the same keys."""
    return one == other or _kept_for(one) == _kept_for(other)


def solve(request: LayRequest, quality: Quality, *, enough_mm: float = 0.0, like: Sequence[Lay] = ()) -> Lay:
    """Make a lay. On flat cloth, but for a draft, call this only in a process's main thread.

    ``enough_mm``: a lay as short as this need not get shorter. It is the length of a finished lay that a shorter one
    would have served too, so nothing is lost. ``like``: finished folded lays of nearly the same pieces, to start from;
    part-folded cloth is folded in half where the one of the very same pieces and cloth is not beaten. Neither is a part
    of the key: they follow from the lays before, which a run from nothing makes in the same order.
    Raises: :class:`.model.TooWide`, :class:`.model.SolveFailed`.
    """
    if request.repeat is not None:
        return step_solve.solve_in_step_with(request, request.repeat, quality, enough_mm=enough_mm)
    if request.way == "middle" or request.way == "part-folded":
        return _solve_spread(request, quality, enough_mm, like)
    if quality == "draft":
        return folded.solve_by_filling(request, quality=quality)
    if request.way == "folded":
        return folded.solve_by_filling(request, quality=quality, enough_mm=enough_mm, like=like)
    return flat.solve_flat(request, quality=quality, enough_mm=enough_mm)


def _solve_spread(request: LayRequest, quality: Quality, enough_mm: float, like: Sequence[Lay]) -> Lay:
    """Make a lay on cloth that lies double in some strips only."""
    trials = SPREAD_TRIALS_OF[quality]
    if request.way == "middle":
        return stored_lay(spread_middle.solve_middle(request, trials=trials, quality=quality, enough_mm=enough_mm))
    of_request = {item.item_id for item in request.items}
    same = (
        lay
        for lay in like
        if (lay.way, lay.bolt_width_mm, lay.one_way) == ("folded", request.bolt_width_mm, request.one_way)
        and {placement.item_id for placement in lay.placements} == of_request
    )
    return stored_lay(
        spread_part.solve_part_folded(
            request,
            folded=next(same, None),
            trials=trials,
            short_trials=spread_part.SHORT_TRIALS_OF[quality],
            quality=quality,
            enough_mm=enough_mm,
        )
    )
