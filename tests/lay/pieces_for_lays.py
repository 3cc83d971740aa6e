"""Requests for the tests of the lay engine: made-up outlines in the proportions of a small child's jacket."""

import math

from boltside.lay.model import LayItem, LayRequest, Point, Way


def arc(centre: Point, radius: float, start_deg: float, end_deg: float, steps: int = 12) -> list[Point]:
    """Points of an arc, both ends included."""
    return [
        (
            centre[0] + radius * math.cos(math.radians(start_deg + (end_deg - start_deg) * step / steps)),
            centre[1] + radius * math.sin(math.radians(start_deg + (end_deg - start_deg) * step / steps)),
        )
        for step in range(steps + 1)
    ]


def half_back() -> tuple[Point, ...]:
    """Half a back, 300 long and 150 wide, with a round neck and a hollow armhole; the fold edge on y = 0."""
    return (
        (0.0, 0.0),
        (280.0, 0.0),
        *arc((340.0, 0.0), 60.0, 180.0, 120.0)[1:],
        (290.0, 110.0),
        *arc((240.0, 140.0), 50.0, -20.0, -90.0)[:-1],
        *arc((190.0, 140.0), 50.0, 0.0, 60.0)[1:],
        (0.0, 150.0),
    )


def sleeve() -> tuple[Point, ...]:
    """A sleeve that is not its own mirror image."""
    return ((0.0, -60.0), (180.0, -90.0), *arc((190.0, 0.0), 80.0, -70.0, 70.0), (185.0, 95.0), (0.0, 60.0))


def jacket() -> tuple[LayItem, ...]:
    """A back on the fold, a pair of sleeves, two single bands, one single piece laid face down."""
    return (
        LayItem(item_id="back", outline_mm=half_back(), mode="fold", count=1),
        LayItem(item_id="sleeve", outline_mm=sleeve(), mode="pair", count=2),
        LayItem(item_id="band", outline_mm=((0, 0), (60, 0), (60, 140), (0, 140)), mode="single", count=2),
        LayItem(item_id="flap", outline_mm=((0, 0), (90, 0), (120, 70), (10, 50)), mode="single", count=1, face="down"),
    )


def jacket_request(way: Way, *, one_way: bool = False, bolt_width_mm: float = 730.0) -> LayRequest:
    """The jacket on one cloth."""
    return LayRequest(items=jacket(), bolt_width_mm=bolt_width_mm, way=way, one_way=one_way)
