"""How is a lay on spread cloth written down? As plain placements on the table, and how far the cloth is folded over.

Zones do not overlap, so the one in which a piece lies follows from where it lies; nothing more has to be stored than
for any other lay, but for the depth of a flap that is not half the cloth.
"""

from collections.abc import Iterable, Mapping

from .model import LayError, LayItem, Placement, Quality
from .outlines import unfold
from .spread_model import Spread, SpreadLay, SpreadWay, ZonedPlacement, folded_over, to_the_middle


def spread_of(way: SpreadWay, bolt_width_mm: float, fold_over_mm: float | None) -> Spread:
    """The spread of a stored lay. ``fold_over_mm`` is not looked at to the middle.

    Raises: LayError when cloth of this width can't lie so, or when a part-folded lay says nothing about its flap.
    """
    if way == "middle":
        return to_the_middle(bolt_width_mm)
    if fold_over_mm is None:
        raise LayError("a lay on cloth folded over in part does not say how far it is folded over")
    return folded_over(bolt_width_mm, fold_over_mm)


def plain_placements(lay: SpreadLay) -> tuple[Placement, ...]:
    """The placements without their zones."""
    return tuple(
        Placement(
            item_id=one.item_id,
            copy=one.copy,
            x_mm=one.x_mm,
            y_mm=one.y_mm,
            turned=one.turned,
            mirrored=one.mirrored,
        )
        for one in lay.placements
    )


def with_zones(
    placements: Iterable[Placement],
    items: Mapping[str, LayItem],
    spread: Spread,
    *,
    length_mm: float,
    one_way: bool,
    quality: Quality = "full",
) -> SpreadLay:
    """A lay from plain placements: each lies in the zone that holds its middle.

    Arguments: placements on the table; the pieces by name; the spread; the lay's length and what else it says of
    itself. Raises: LayError for a piece that is not known or whose middle lies in no zone. Whether the lay is right is
    for the verifier to see.
    """
    zoned = []
    for one in placements:
        if one.item_id not in items:
            raise LayError(f"{one.item_id!r} is laid but not known")
        outline = items[one.item_id].outline_mm
        if items[one.item_id].mode == "fold" and not spread.folds:
            outline = unfold(outline)
        sign = -1 if one.turned != one.mirrored else 1
        ys = [one.y_mm + sign * y for _, y in outline]
        middle_mm = (min(ys) + max(ys)) / 2
        zone = next((zone.name for zone in spread.zones if zone.from_mm < middle_mm < zone.to_mm), None)
        if zone is None:
            raise LayError(
                f"{one.item_id!r} copy {one.copy} lies in no zone of the cloth, at {middle_mm:.1f} mm across"
            )
        zoned.append(
            ZonedPlacement(
                item_id=one.item_id,
                copy=one.copy,
                x_mm=one.x_mm,
                y_mm=one.y_mm,
                turned=one.turned,
                mirrored=one.mirrored,
                zone=zone,
            )
        )
    return SpreadLay(length_mm=length_mm, placements=tuple(zoned), spread=spread, one_way=one_way, quality=quality)
