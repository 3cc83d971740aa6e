"""How is a lay on spread cloth written down? As plain placements on the table, and how far the cloth is folded over.

Zones do not overlap, so the one in which a piece lies follows from where it lies; nothing more has to be stored than
for any other lay, but for the depth of a flap that is not half the cloth.
"""

from collections.abc import Iterable, Mapping

from .model import Lay, LayError, LayItem, Placement, Quality
from .outlines import unfold
from .spread_model import Spread, SpreadLay, SpreadWay, ZonedPlacement, folded_over, to_the_middle
from .spread_slots import gives_two


def spread_of(way: SpreadWay, bolt_width_mm: float, fold_over_mm: float | None) -> Spread:
    """The spread of a stored lay. ``fold_over_mm`` is not looked at to the middle.

    Raises: LayError when cloth of this width can't lie so, or when a part-folded lay says nothing about its flap.
    """
    if way == "middle":
        return to_the_middle(bolt_width_mm)
    if fold_over_mm is None:
        raise LayError("a lay on cloth folded over in part does not say how far it is folded over")
    return folded_over(bolt_width_mm, fold_over_mm)


def in_half(folded: Lay, items: Mapping[str, LayItem]) -> SpreadLay:
    """A lay on cloth folded in half as one on cloth that is folded over by half its width. Arguments: the lay; its
    pieces by name."""
    placements = tuple(
        ZonedPlacement(
            item_id=one.item_id,
            copy=2 * one.copy if gives_two(items[one.item_id], 0) else one.copy,
            x_mm=one.x_mm,
            y_mm=one.y_mm,
            turned=one.turned,
            mirrored=one.mirrored,
            zone="double",
        )
        for one in folded.placements
    )
    return SpreadLay(
        length_mm=folded.length_mm,
        placements=placements,
        spread=folded_over(folded.bolt_width_mm, folded.bolt_width_mm / 2),
        one_way=folded.one_way,
        quality=folded.quality,
    )


def stored_lay(lay: SpreadLay) -> Lay:
    """The lay as it is stored: with plain placements."""
    return Lay(
        length_mm=lay.length_mm,
        placements=plain_placements(lay),
        way=lay.spread.way,
        bolt_width_mm=lay.spread.bolt_width_mm,
        one_way=lay.one_way,
        quality=lay.quality,
        fold_over_mm=lay.spread.fold_over_mm,
    )


def spread_lay(lay: Lay, items: Mapping[str, LayItem]) -> SpreadLay:
    """The lay of :func:`stored_lay`. Raises: LayError, also for a lay in a way without zones."""
    if lay.way != "middle" and lay.way != "part-folded":
        raise LayError(f"a {lay.way} lay has no zones")
    spread = spread_of(lay.way, lay.bolt_width_mm, lay.fold_over_mm)
    return with_zones(lay.placements, items, spread, length_mm=lay.length_mm, one_way=lay.one_way, quality=lay.quality)


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
