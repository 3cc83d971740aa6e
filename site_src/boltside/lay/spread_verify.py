"""Is this lay on spread cloth right? Checked with shapely alone, on the unfolded cloth, layer by layer.

Nothing is shared with the search or with the unfolding but the model. The folds are taken from the lay, everything else
is worked out anew from the width of the bolt: which flaps they make, where these end, and where each layer of each
piece lies on the flat bolt, measured from its edge, selvedge included.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

from shapely import Polygon, affinity, box
from shapely.geometry.base import BaseGeometry

from .model import MAX_OVERLAP_MM2, SELVEDGE_MM, LayItem, LayRequest
from .spread_model import Spread, SpreadLay, Zone, ZonedPlacement

_OUTSIDE_MM: Final = 0.011
"""Coordinates are on a grid of 0.01 mm: a piece may stand out by one step, no more."""

_SAME_SHAPE: Final = 1e-6
"""Share of its area by which a piece may differ from its mirror image and still count as symmetric."""


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """One layer of cloth under one placed paper: its shape on the flat bolt, and what it is.

    ``over`` tells whether this sheet is the outline turned over; ``copies`` which garment pieces it gives (none:
    waste); ``whole`` whether it is a piece that was on the fold.
    """

    placement: ZonedPlacement
    shape: BaseGeometry
    over: bool
    copies: tuple[int, ...]


def spread_faults(request: LayRequest, lay: SpreadLay) -> list[str]:
    """All that is wrong with a lay, as plain sentences; an empty list means that it is right.

    Checks: the lay is for this cloth, and cloth of this width can lie so; every garment piece is there once, the right
    way up; nothing is turned round on one-way cloth; halves lie on a fold; all lies within its zone and the length;
    and on the unfolded cloth no two sheets, waste included, overlap, lie on a selvedge or across the meeting line.
    The request's own way is not looked at.
    """
    found = []
    if (lay.spread.bolt_width_mm, lay.one_way) != (request.bolt_width_mm, request.one_way):
        found.append("the lay was made for another cloth")
    found += _spread_faults(lay.spread)
    items = {item.item_id: item for item in request.items}
    names = {zone.name for zone in lay.spread.zones}
    known = []
    for placement in lay.placements:
        if placement.item_id not in items:
            found.append(f"{placement.item_id!r} is laid but not asked for")
        elif placement.zone not in names:
            found.append(f"{_name(placement)} lies in a zone {placement.zone!r} that is not there")
        else:
            known.append(placement)
    sheets: list[Sheet] = []
    for placement in known:
        item, zone = items[placement.item_id], lay.spread.zone(placement.zone)
        table = _on_table(item, placement, zone)
        found += _place_faults(item, placement, table, zone, lay)
        sheets += _sheets(item, placement, table, zone, lay.spread)
    for item in request.items:
        found += _copy_faults(item, [sheet for sheet in sheets if sheet.placement.item_id == item.item_id])
    return found + _cloth_faults(sheets, lay)


def _name(placement: ZonedPlacement) -> str:
    return f"{placement.item_id!r} copy {placement.copy}"


def _bolt_mm(spread: Spread, table_mm: float) -> float:
    """Distance from the bolt's edge, selvedge included, of a spot of the under layer."""
    return table_mm + spread.under_mm + SELVEDGE_MM


def _spread_faults(spread: Spread) -> list[str]:
    """Whether a bolt of this width lies so when it is folded at these folds."""
    found = []
    last = _bolt_mm(spread, 0.0), spread.bolt_width_mm
    flaps: dict[str, tuple[float, float]] = {}
    for zone in spread.zones:
        if zone.fold == "low":
            flap_mm = _bolt_mm(spread, zone.from_mm)
            flaps[zone.name] = (zone.from_mm, zone.from_mm + flap_mm)
        elif zone.fold == "high":
            flap_mm = last[1] - _bolt_mm(spread, zone.to_mm)
            flaps[zone.name] = (zone.to_mm - flap_mm, zone.to_mm)
    for zone in spread.zones:
        if zone.from_mm < -_OUTSIDE_MM or not zone.from_mm < zone.to_mm:
            found.append(f"zone {zone.name!r} is no strip of the cloth")
        if zone.name in flaps:
            low_mm, high_mm = flaps[zone.name]
            usable = (low_mm, high_mm - SELVEDGE_MM) if zone.fold == "low" else (low_mm + SELVEDGE_MM, high_mm)
            if zone.from_mm < usable[0] - _OUTSIDE_MM or zone.to_mm > usable[1] + _OUTSIDE_MM:
                found.append(f"zone {zone.name!r} reaches beyond its flap's usable cloth")
        ends_mm = _bolt_mm(spread, zone.from_mm), _bolt_mm(spread, zone.to_mm)
        if ends_mm[0] < SELVEDGE_MM - _OUTSIDE_MM or ends_mm[1] > last[1] - SELVEDGE_MM + _OUTSIDE_MM:
            found.append(f"zone {zone.name!r} reaches onto a selvedge")
        for other, (low_mm, high_mm) in flaps.items():
            if other != zone.name and zone.from_mm < high_mm - _OUTSIDE_MM and zone.to_mm > low_mm + _OUTSIDE_MM:
                found.append(f"zone {zone.name!r} lies under the flap of zone {other!r}")
    for (one, a), (other, b) in combinations(flaps.items(), 2):
        if min(a[1], b[1]) - max(a[0], b[0]) > 2 * _OUTSIDE_MM:
            found.append(f"the flaps of zones {one!r} and {other!r} lie over each other")
    return found


def _on_table(item: LayItem, placement: ZonedPlacement, zone: Zone) -> Polygon:
    """The paper as it lies on the table: whole where there is no fold to lay a half on."""
    shape = Polygon(item.outline_mm)
    if item.mode == "fold" and zone.fold is None:
        whole = shape.union(affinity.scale(shape, xfact=1.0, yfact=-1.0, origin=(0, 0)))
        shape = whole if isinstance(whole, Polygon) else shape
    if placement.mirrored:
        shape = affinity.scale(shape, xfact=1.0, yfact=-1.0, origin=(0, 0))
    if placement.turned:
        shape = affinity.rotate(shape, 180, origin=(0, 0))
    moved: Polygon = affinity.translate(shape, placement.x_mm, placement.y_mm)
    return moved


def _own_mirror_image(item: LayItem) -> bool:
    shape = Polygon(item.outline_mm)
    middle = (0.0, (shape.bounds[1] + shape.bounds[3]) / 2)
    over = affinity.scale(shape, xfact=1.0, yfact=-1.0, origin=middle)
    return bool(shape.symmetric_difference(over).area <= _SAME_SHAPE * shape.area)


def _sheets(item: LayItem, placement: ZonedPlacement, table: Polygon, zone: Zone, spread: Spread) -> list[Sheet]:
    """The layers of cloth under one paper, on the flat bolt."""
    copy, over = placement.copy, placement.mirrored
    under = affinity.translate(table, 0.0, _bolt_mm(spread, 0.0))
    if zone.fold is None:
        return [Sheet(placement=placement, shape=under, over=over, copies=(copy,))]
    fold_mm = _bolt_mm(spread, zone.from_mm if zone.fold == "low" else zone.to_mm)
    upper = affinity.scale(under, xfact=1.0, yfact=-1.0, origin=(0, fold_mm))
    if item.mode == "fold":
        return [Sheet(placement=placement, shape=under.union(upper), over=False, copies=(copy,))]
    if item.mode == "pair":
        return [
            Sheet(placement=placement, shape=under, over=over, copies=(copy + int(over),)),
            Sheet(placement=placement, shape=upper, over=not over, copies=(copy + int(not over),)),
        ]
    second = (copy + 1,) if copy % 2 == 0 and copy + 1 < item.count and _own_mirror_image(item) else ()
    return [
        Sheet(placement=placement, shape=under, over=over, copies=(copy,)),
        Sheet(placement=placement, shape=upper, over=over if second else not over, copies=second),
    ]


def _place_faults(item: LayItem, placement: ZonedPlacement, table: Polygon, zone: Zone, lay: SpreadLay) -> list[str]:
    """Whether a paper lies in its zone, in a pose that the cloth allows, and if it is a half, on the fold."""
    found = []
    low_x, low_y, high_x, high_y = table.bounds
    if not table.is_valid:
        found.append(f"{_name(placement)} has an outline that crosses itself")
    if low_x < -_OUTSIDE_MM or high_x > lay.length_mm + _OUTSIDE_MM:
        found.append(f"{_name(placement)} reaches beyond a cut end: {low_x:.2f} to {high_x:.2f} mm")
    if low_y < zone.from_mm - _OUTSIDE_MM or high_y > zone.to_mm + _OUTSIDE_MM:
        found.append(f"{_name(placement)} reaches beyond its zone {zone.name!r}: {low_y:.2f} to {high_y:.2f} mm")
    if lay.one_way and placement.turned:
        found.append(f"{_name(placement)} is turned round on one-way cloth")
    if item.mode == "fold" and zone.fold is not None:
        if placement.y_mm != (zone.from_mm if zone.fold == "low" else zone.to_mm):
            found.append(f"{_name(placement)} does not lie on the fold")
    elif item.mode == "fold" and any(other.fold is not None for other in lay.spread.zones):
        found.append(f"{_name(placement)} is a half and lies in single cloth")
    return found


def _copy_faults(item: LayItem, sheets: Sequence[Sheet]) -> list[str]:
    """Garment pieces that come out against those asked for, and whether each is the right way up."""
    found = []
    given = sorted(copy for sheet in sheets for copy in sheet.copies)
    if given != list(range(item.count)):
        found.append(f"{item.item_id!r} gives the copies {given}, expected {item.count} of them")
    useful = [sheet for sheet in sheets if sheet.copies]
    if item.mode == "pair":
        over = sum(sheet.over for sheet in useful)
        if over != item.count // 2:
            found.append(f"{item.item_id!r} has {over} mirrored copies, expected {item.count // 2}")
    elif item.mode == "single":
        found += [
            f"{_name(sheet.placement)} is turned over, its face must be {item.face}"
            for sheet in useful
            if sheet.over != (item.face == "down")
        ]
    return found


def _cloth_faults(sheets: Sequence[Sheet], lay: SpreadLay) -> list[str]:
    """What lies wrong on the unfolded bolt."""
    found = []
    spread = lay.spread
    cloth = box(
        -_OUTSIDE_MM,
        SELVEDGE_MM - _OUTSIDE_MM,
        lay.length_mm + _OUTSIDE_MM,
        spread.bolt_width_mm - SELVEDGE_MM + _OUTSIDE_MM,
    )
    for sheet in sheets:
        if not cloth.covers(sheet.shape):
            found.append(f"{_name(sheet.placement)} lies outside the usable cloth once it is unfolded")
        low_y, high_y = sheet.shape.bounds[1], sheet.shape.bounds[3]
        if spread.way == "middle" and low_y < spread.bolt_width_mm / 2 < high_y:
            found.append(f"{_name(sheet.placement)} reaches across the line where the selvedges meet")
    for one, other in combinations(sheets, 2):
        if one.shape.intersects(other.shape):
            shared_mm2 = one.shape.intersection(other.shape).area
            if shared_mm2 > MAX_OVERLAP_MM2:
                found.append(f"{_name(one.placement)} and {_name(other.placement)} overlap by {shared_mm2:.2f} mm²")
    return found
