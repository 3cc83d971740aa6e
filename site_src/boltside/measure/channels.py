"""How high is the channel for an elastic, from fold to stitching, in mm?

It has to be 2 mm higher than the elastic, or that does not go in (geometry); 6 mm more lets it run well (a sewing
guideline, 12.150: casing = elastic + 1/4 in).
"""

from __future__ import annotations

from boltside.measure.cases import ValueCase, value_cases
from boltside.measure.finished import part_mm
from boltside.measure.model import Garment
from boltside.pattern import Channel, Notion, Pattern

LEAST_MORE_MM = 2.0
"""Narrower than the elastic and this: refused."""
USUAL_MORE_MM = 6.0
"""Narrower than the elastic and this: advised against. Source: sewing guideline 12.150, 1/4 in."""
DIGITS = 1


def channel_mm(garment: Garment, channel: Channel) -> float:
    """The height of the channel in mm. Raises: :class:`boltside.measure.model.MeasureError`."""
    if channel.hem is not None:
        piece, edge = channel.hem
        high = garment.piece(piece).edge(edge).allowance_mm
    else:
        high = sum(part_mm(garment, part) for part in channel.parts)
    return high - channel.less_mm


def channel_cases(pattern: Pattern, notion: Notion) -> tuple[ValueCase[float], ...]:
    """The heights over all choices in which the notion is needed, in mm by size. Raises: MeasureError."""
    channel = notion.channel
    if channel is None:
        return ()

    def value(garment: Garment) -> float:
        return round(channel_mm(garment, channel), DIGITS)

    pieces = [channel.hem[0]] if channel.hem is not None else [part.piece for part in channel.parts]
    return value_cases(pattern, notion.when, pieces, value)
