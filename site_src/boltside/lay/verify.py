"""Is this lay right? Checked with shapely alone; nothing is shared with the solvers but the model."""

from collections import Counter
from collections.abc import Sequence
from itertools import combinations
from typing import Final

from shapely import Polygon, affinity, box
from shapely.geometry.base import BaseGeometry

from .model import MAX_OVERLAP_MM2, Lay, LayError, LayItem, LayRequest, Placement, usable_width_mm
from .spread_stored import spread_lay
from .spread_verify import spread_faults
from .step_verify import step_faults

VERIFIER_VERSION: Final = 2
"""Counts up when a check changes; receipts of older versions don't count."""

_OUTSIDE_MM: Final = 0.011
"""Coordinates are on a grid of 0.01 mm: a piece may stand out by one step, no more."""

_SAME_SHAPE: Final = 1e-6
"""Share of its area by which a piece may differ from its mirror image and still count as symmetric."""


def faults(request: LayRequest, lay: Lay) -> list[str]:
    """All that is wrong with a lay, as plain sentences; an empty list means that it is right.

    Checks: the lay is for this cloth; every piece is there in the right number; each is turned over or round
    only where that is allowed; halves lie on the fold; all lie between the selvedges and within the length,
    which is no longer than they need; no two overlap by more than :data:`.model.MAX_OVERLAP_MM2`. Cloth that lies
    double in some strips only is checked on the unfolded bolt (:mod:`.spread_verify`). What is to be in step with a
    repeat is (:mod:`.step_verify`).
    """
    found = step_faults(request, lay)
    if request.way in ("middle", "part-folded"):
        return found + _faults_in_zones(request, lay)
    if (lay.bolt_width_mm, lay.way, lay.one_way) != (request.bolt_width_mm, request.way, request.one_way):
        found.append("the lay was made for another cloth or another way of laying")
    items = {item.item_id: item for item in request.items}
    known = [placement for placement in lay.placements if placement.item_id in items]
    found += [
        f"{placement.item_id!r} is laid but not asked for"
        for placement in lay.placements
        if placement.item_id not in items
    ]
    for item in request.items:
        own = [placement for placement in known if placement.item_id == item.item_id]
        found += _count_faults(item, own, request)
        found += _pose_faults(item, own, request)
    bases = {item.item_id: _base(item, request) for item in request.items}
    crossing = [item_id for item_id, base in bases.items() if not base.is_valid]
    found += [f"{item_id!r} has an outline that crosses itself" for item_id in crossing]
    found += [f"{name!r} does not unfold to one piece" for name, one in bases.items() if not isinstance(one, Polygon)]
    placed = [(placement, _placed(bases[placement.item_id], placement)) for placement in known]
    found += _outside_faults(placed, request, lay.length_mm)
    # What two pieces share can't be told where an outline crosses itself.
    whole = [(placement, shape) for placement, shape in placed if placement.item_id not in crossing]
    for (first, a), (second, b) in combinations(whole, 2):
        if a.intersects(b):
            shared_mm2 = a.intersection(b).area
            if shared_mm2 > MAX_OVERLAP_MM2:
                found.append(f"{_name(first)} and {_name(second)} overlap by {shared_mm2:.2f} mm²")
    return found


def _faults_in_zones(request: LayRequest, lay: Lay) -> list[str]:
    """What is wrong with a lay on cloth that lies double in some strips only."""
    found = []
    if (lay.bolt_width_mm, lay.way, lay.one_way) != (request.bolt_width_mm, request.way, request.one_way):
        return ["the lay was made for another cloth or another way of laying"]
    items = {item.item_id: item for item in request.items}
    found += [
        f"{item.item_id!r} has an outline that crosses itself"
        for item in request.items
        if not Polygon(item.outline_mm).is_valid
    ]
    if found:
        return found  # what lies where can't be told
    try:
        zoned = spread_lay(lay, items)
    except LayError as error:
        return [str(error)]
    shapes = [_placed(_base(items[placement.item_id], request), placement) for placement in lay.placements]
    return spread_faults(request, zoned) + _length_faults([shape.bounds for shape in shapes], lay.length_mm)


def _name(placement: Placement) -> str:
    return f"{placement.item_id!r} copy {placement.copy}"


def _base(item: LayItem, request: LayRequest) -> BaseGeometry:
    """The paper as it lies, before it is turned or moved."""
    half = Polygon(item.outline_mm)
    if item.mode == "fold" and request.way == "flat" and half.is_valid:
        whole: BaseGeometry = half.union(affinity.scale(half, xfact=1.0, yfact=-1.0, origin=(0, 0)))
        return whole
    return half


def _placed(base: BaseGeometry, placement: Placement) -> BaseGeometry:
    shape = base
    if placement.mirrored:
        shape = affinity.scale(shape, xfact=1.0, yfact=-1.0, origin=(0, 0))
    if placement.turned:
        shape = affinity.rotate(shape, 180, origin=(0, 0))
    return affinity.translate(shape, placement.x_mm, placement.y_mm)


def _own_mirror_image(item: LayItem) -> bool:
    shape = Polygon(item.outline_mm)
    if not shape.is_valid:
        return False
    middle = (0.0, (shape.bounds[1] + shape.bounds[3]) / 2)
    over = affinity.scale(shape, xfact=1.0, yfact=-1.0, origin=middle)
    return bool(shape.symmetric_difference(over).area <= _SAME_SHAPE * shape.area)


def _count_faults(item: LayItem, own: list[Placement], request: LayRequest) -> list[str]:
    """Garment pieces that come out of the placements against those asked for."""
    found = []
    doubled = Counter(placement.copy for placement in own)
    found += [f"{item.item_id!r} copy {copy} is laid {times} times" for copy, times in doubled.items() if times > 1]
    expected = {item.count}
    if request.way == "folded" and item.mode == "pair":
        expected = {item.count // 2}
    elif request.way == "folded" and item.mode == "single" and _own_mirror_image(item):
        expected = set(range((item.count + 1) // 2, item.count + 1))
    if len(own) not in expected:
        wanted = " or ".join(map(str, sorted(expected)))
        found.append(f"{item.item_id!r} is laid {len(own)} times, expected {wanted}")
    elif not doubled.keys() <= set(range(len(own))):
        found.append(f"the copies of {item.item_id!r} are not numbered from 0 to {len(own) - 1}")
    if request.way == "flat" and item.mode == "pair":
        mirrored = sum(placement.mirrored for placement in own)
        if mirrored != item.count // 2:
            found.append(f"{item.item_id!r} has {mirrored} mirrored copies, expected {item.count // 2}")
    return found


def _pose_faults(item: LayItem, own: list[Placement], request: LayRequest) -> list[str]:
    """Pieces turned over or turned round where the trade forbids it."""
    found = []
    for placement in own:
        flipped_on_fold = request.way == "folded" and item.mode == "fold"
        if request.one_way and placement.turned:
            found.append(f"{_name(placement)} is turned round on one-way cloth")
        if flipped_on_fold and placement.mirrored != placement.turned:
            found.append(f"{_name(placement)} lies across the fold")
        if flipped_on_fold and placement.y_mm != 0.0:
            found.append(f"{_name(placement)} lies {placement.y_mm:.2f} mm away from the fold")
        if item.mode == "single" and placement.mirrored != (item.face == "down"):
            found.append(f"{_name(placement)} is turned over, its face must be {item.face}")
        if item.mode == "fold" and request.way == "flat" and placement.mirrored:
            found.append(f"{_name(placement)} is turned over")
    return found


def _outside_faults(placed: list[tuple[Placement, BaseGeometry]], request: LayRequest, length_mm: float) -> list[str]:
    """Pieces beyond the selvedges, the fold or the cut ends; and a length longer than the pieces need."""
    found = []
    usable_mm = usable_width_mm(request.bolt_width_mm, request.way)
    cloth = box(-_OUTSIDE_MM, -_OUTSIDE_MM, length_mm + _OUTSIDE_MM, usable_mm + _OUTSIDE_MM)
    for placement, shape in placed:
        if not cloth.covers(shape):
            low_x, low_y, high_x, high_y = shape.bounds
            found.append(
                f"{_name(placement)} lies outside the cloth: x {low_x:.2f} to {high_x:.2f} of 0 to {length_mm:.2f}, "
                f"y {low_y:.2f} to {high_y:.2f} of 0 to {usable_mm:.2f} mm"
            )
    return found + _length_faults([shape.bounds for _, shape in placed], length_mm)


def _length_faults(bounds: Sequence[tuple[float, float, float, float]], length_mm: float) -> list[str]:
    """A length longer than the pieces need."""
    near_mm = min((low_x for low_x, _, _, _ in bounds), default=0.0)
    far_mm = max((high_x for _, _, high_x, _ in bounds), default=0.0)
    if near_mm <= _OUTSIDE_MM and length_mm - far_mm <= _OUTSIDE_MM:
        return []
    return [f"the lay is {length_mm:.2f} mm long, but its pieces lie from {near_mm:.2f} to {far_mm:.2f} mm only"]
