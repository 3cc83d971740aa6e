"""Is a lay right? Looked at with shapely, in every way of laying, by code that shares nothing with the lay engine.

Outlines have x along the grain; of a piece on the fold its half lies above y = 0. A place is applied to an outline in
this order: mirrored (y becomes -y), turned (both change their sign), moved.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from shapely import Polygon, STRtree
from shapely.affinity import scale, translate
from shapely.geometry.base import BaseGeometry

SELVEDGE_MM = 15
"""Lost at each selvedge. Common practice."""
HAIR_MM = 0.02
"""Placements are stored to 0.01 mm."""
SHARED_MM2 = 1.0
SAME_SHAPE = 1e-6
"""Share of its area by which a piece may differ from its mirror image and still be its own."""

Pieces = Mapping[str, tuple[str, int]]
"""Name in the lays to mode and count."""
Outlines = Mapping[tuple[str, str], Polygon]
"""By name in the lays and size."""


class Laid(NamedTuple):
    """A lay: what it holds, how it lies, how long it says it is; for cloth folded over in part how far."""

    ids: frozenset[str]
    way: str
    with_nap: bool
    width_mm: float
    length_mm: float
    at: Sequence[tuple[str, float, float, bool, bool]]
    over_mm: float | None = None


class Strip(NamedTuple):
    """A strip of the cloth on the table, from and to where it can be cut; where its fold is (None: single cloth)."""

    low_mm: float
    high_mm: float
    fold_mm: float | None = None


def strips(way: str, width_mm: float, over_mm: float | None = None) -> list[Strip]:
    """The strips into which folding divides a bolt, in mm across the table from its first edge.

    Source: geometry. Flat cloth is measured from where the selvedge ends, all other from the first fold. A flap ends
    in its selvedge, which is not cut from, nor is what lies under it. Folded to the middle, each flap is a quarter of
    the bolt and the other fold is half a bolt away. Folded over by so much, the rest lies single behind the flap, up
    to its own selvedge; from half the bolt on nothing is single.
    """
    half_mm = width_mm / 2
    if way == "flat":
        return [Strip(0, width_mm - 2 * SELVEDGE_MM)]
    if way == "middle":
        flap_mm = width_mm / 4 - SELVEDGE_MM
        return [Strip(0, flap_mm, 0), Strip(half_mm - flap_mm, half_mm, half_mm)]
    if way == "folded":
        return [Strip(0, half_mm - SELVEDGE_MM, 0)]
    assert way == "part-folded" and over_mm is not None and SELVEDGE_MM < over_mm <= half_mm
    single = Strip(over_mm, width_mm - over_mm - SELVEDGE_MM)
    return [Strip(0, over_mm - SELVEDGE_MM, 0), *([single] if single.high_mm > single.low_mm else [])]


def posed(shape: BaseGeometry, x_mm: float, y_mm: float, *, turned: bool, mirrored: bool) -> BaseGeometry:
    """A shape as it is put on the table."""
    across = -1 if mirrored else 1
    along = -1 if turned else 1
    return translate(scale(shape, xfact=along, yfact=along * across, origin=(0, 0)), x_mm, y_mm)


def papers(outlines: Outlines, size: str, lay: Laid, pieces: Pieces) -> list[BaseGeometry]:
    """What lies on the table, in the order of the places: halves as halves, but on flat cloth whole."""
    found = []
    for name, x_mm, y_mm, turned, mirrored in lay.at:
        shape: BaseGeometry = outlines[name, size]
        if pieces[name][0] == "fold" and lay.way == "flat":
            shape = shape.union(scale(shape, yfact=-1, origin=(0, 0)).buffer(1e-6))
        found.append(posed(shape, x_mm, y_mm, turned=turned, mirrored=mirrored))
    return found


def look_at(
    outlines: Outlines, size: str, lay: Laid, pieces: Pieces, hair_mm: float = HAIR_MM, apart_mm: float = 0.0
) -> float:
    """The length that a lay truly takes, in mm, after all that makes a lay right was looked at.

    Each paper lies within a strip; halves lie with their edge on a fold; from a double strip a pair comes once each
    way, a single piece once (two of a kind, where it is its own mirror image); all pieces come out, half of a pair
    mirrored, a single one never; nothing head to foot on cloth with nap; nothing over one another.

    Arguments: `hair_mm`: so much may a piece stand out, for places are rounded; `apart_mm`: by so much each piece is
    made smaller before overlaps are looked for.
    """
    cloth = strips(lay.way, lay.width_mm, lay.over_mm)
    laid = papers(outlines, size, lay, pieces)
    least, most = dict.fromkeys(pieces, 0), dict.fromkeys(pieces, 0)
    over: dict[str, int] = dict.fromkeys(pieces, 0)
    for (name, _, _, turned, mirrored), shape in zip(lay.at, laid, strict=True):
        mode, count = pieces[name]
        assert not (turned and lay.with_nap), f"{name}: head to foot"
        x0, y0, x1, y1 = shape.bounds
        assert x0 >= -hair_mm and x1 <= lay.length_mm + hair_mm, name
        inside = [one for one in cloth if y0 >= one.low_mm - hair_mm and y1 <= one.high_mm + hair_mm]
        assert len(inside) == 1, f"{name}: not within a strip of the cloth"
        fold_mm = inside[0].fold_mm
        given = [1, 1]
        if mode == "fold" and lay.way != "flat":
            assert fold_mm is not None, f"{name}: a half in single cloth"
            at_low = fold_mm == inside[0].low_mm
            assert abs((y0 if at_low else y1) - fold_mm) <= hair_mm, f"{name}: not on the fold"
            assert (mirrored == turned) == at_low, f"{name}: its outer edge is on the fold"
        elif mode == "pair" and fold_mm is not None:
            given, over[name] = [2, 2], over[name] + 1
        elif mode == "pair":
            over[name] += mirrored
        else:
            assert not mirrored, f"{name}: wrong side up"
            if fold_mm is not None and count > 1 and own_mirror_image(outlines[name, size]):
                given = [1, 2]
        least[name], most[name] = least[name] + given[0], most[name] + given[1]
    for name, (mode, count) in pieces.items():
        assert least[name] <= count <= most[name], f"{name}: {least[name]} to {most[name]} come out"
        assert mode != "pair" or over[name] == count / 2, f"{name}: half of them mirrored"
    length_mm = max(shape.bounds[2] for shape in laid)
    twice = overlaps([shape.buffer(-apart_mm, join_style="mitre") for shape in laid] if apart_mm else laid)
    assert not twice, f"cut twice: {[(lay.at[one], lay.at[other]) for one, other in twice]}"
    return float(length_mm)


def overlaps(shapes: Sequence[BaseGeometry]) -> list[tuple[int, int]]:
    """The numbers of those that lie over one another."""
    near = STRtree(shapes).query(shapes, predicate="intersects").T.tolist()
    return [
        (one, other)
        for one, other in near
        if one < other and shapes[one].intersection(shapes[other]).area > SHARED_MM2
    ]


def own_mirror_image(shape: Polygon) -> bool:
    """Whether a piece turned over is the same piece."""
    over = scale(shape, yfact=-1, origin="center")
    return bool(shape.symmetric_difference(over).area <= SAME_SHAPE * shape.area)
