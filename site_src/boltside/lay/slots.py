"""Which outlines must be placed, and in which poses may each lie? One slot is one place on the cloth."""

from dataclasses import dataclass

from .model import LayItem, LayRequest, Outline, Way
from .outlines import laid_outline, symmetric_across


@dataclass(frozen=True, kw_only=True)
class Pose:
    """Turned round by 180 degrees, turned over, or both: see :class:`.model.Placement` for the order."""

    turned: bool
    mirrored: bool


@dataclass(frozen=True, kw_only=True)
class Slot:
    """One outline that must be placed, in one of its poses; ``on_fold`` pins its y = 0 to the fold."""

    item_id: str
    copy: int
    outline_mm: Outline
    on_fold: bool
    poses: tuple[Pose, ...]


def slots_of(request: LayRequest) -> tuple[Slot, ...]:
    """The slots of a request, in the order of its items.

    Rules (common practice, see the data notes on nap and folded cloth): a piece is turned over only where a
    mirrored copy is asked for; a pair on doubled cloth comes from one place and may lie either way round;
    a half on the fold may be flipped along its length, since the whole is symmetric; one-way cloth bans
    every pose that turns the grain round. Single pieces that are their own mirror image come two from one
    place on doubled cloth.
    """
    return tuple(
        Slot(
            item_id=item.item_id,
            copy=copy,
            outline_mm=laid_outline(item, request.way),
            on_fold=item.mode == "fold" and request.way == "folded",
            poses=_poses(item, copy, request.way, request.one_way),
        )
        for item in request.items
        for copy in range(places(item, request.way))
    )


def places(item: LayItem, way: Way) -> int:
    """How many places on the cloth the item takes."""
    if way == "folded":
        if item.mode == "pair":
            return item.count // 2
        if item.mode == "single" and symmetric_across(item.outline_mm):
            return (item.count + 1) // 2
    return item.count


def _poses(item: LayItem, copy: int, way: Way, one_way: bool) -> tuple[Pose, ...]:
    turns = (False,) if one_way else (False, True)
    if item.mode == "single":
        return tuple(Pose(turned=turned, mirrored=item.face == "down") for turned in turns)
    if item.mode == "pair":
        overs = (False, True) if way == "folded" else (copy % 2 == 1,)
        return tuple(Pose(turned=turned, mirrored=over) for over in overs for turned in turns)
    if way == "folded":
        return tuple(Pose(turned=turned, mirrored=turned) for turned in turns)
    return tuple(Pose(turned=turned, mirrored=False) for turned in turns)
