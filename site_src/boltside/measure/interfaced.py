"""Which areas of a piece get interfacing, how large, and how many of them come out of the interfacing?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from shapely import LineString, Polygon

from boltside.measure.cut_off import clipped_area
from boltside.measure.drawn import ON_OUTLINE_MM
from boltside.measure.model import InterfacedArea, MeasureError, PieceLines
from boltside.measure.polyline import area_mm2
from boltside.pattern import Copy, CutEntry, Face, Interfacing, Mode, Point, Polyline

TOUCHES_FOLD_MM = 1.0
"""An area that shares at least this length with the fold edge lies on the fold. Our choice."""


def interfaced_areas(
    interfacing: Sequence[Interfacing],
    lines: PieceLines,
    areas_mm: Mapping[str, Polyline],
    entry: CutEntry,
    copies: Sequence[Copy],
) -> tuple[InterfacedArea, ...]:
    """The interfaced areas of one piece.

    Arguments: the interfacing entries that hold, both lines, the drawn areas, how the piece itself is cut (its
    first cloth) and the copies it has (:func:`boltside.measure.copies.merged_copies` says which are as drawn). An
    area ends at the line it goes to, also where a cut-off has moved that line; never is it larger than it is drawn.
    Of a piece on the fold, an area that touches the fold is cut on the fold too; any other is cut as a pair.
    """
    made = []
    for how in interfacing:
        edge_of = lines.stitching_mm if how.to == "stitching" else lines.cutting_mm
        if how.area is None:
            parts: tuple[Polyline, ...] = (edge_of,)
        else:
            parts = clipped_area(areas_mm[how.area], Polygon(edge_of)) if how.area in areas_mm else ()
        for part in parts:
            fold = fold_line(lines, entry.fold_edge) if entry.mode == "fold" else None
            on_fold = fold is not None and _touches(part, fold)
            mode, count, face = _copies(how, entry, copies, on_fold=on_fold)
            if count == 0:
                continue
            made.append(
                InterfacedArea(
                    cloth=how.cloth,
                    area=how.area,
                    to=how.to,
                    outline_mm=part,
                    area_mm2=area_mm2(part) * (2 if mode == "fold" else 1),
                    copies=count,
                    mode=mode,
                    face=face,
                    fold_mm=fold if on_fold else None,
                    carried_by=how.copies,
                )
            )
    return tuple(made)


def fold_line(lines: PieceLines, fold_edge: str | None) -> tuple[Point, Point]:
    """Both ends of the edge on the fold, cutting line. Raises :class:`MeasureError` if it is missing or curved."""
    edge = next((edge for edge in lines.edges if edge.name == fold_edge), None)
    if edge is None:
        raise MeasureError(f"the edge {fold_edge!r} that should lie on the fold is not there")
    ends = (edge.cutting_mm[0], edge.cutting_mm[-1])
    if LineString(ends).hausdorff_distance(LineString(edge.cutting_mm)) > 2 * ON_OUTLINE_MM:
        raise MeasureError(f"the edge {fold_edge!r} should lie on the fold but is not straight")
    return ends


def _touches(part: Polyline, fold: Polyline) -> bool:
    shared = Polygon(part).exterior.intersection(LineString(fold).buffer(ON_OUTLINE_MM))
    return bool(shared.length >= TOUCHES_FOLD_MM)


def _copies(how: Interfacing, entry: CutEntry, copies: Sequence[Copy], *, on_fold: bool) -> tuple[Mode, int, Face]:
    """Mode, number and face of one interfaced area.

    An area that only some copies get is cut in the hand of these copies: as drawn (face up) or mirrored (face down).
    """
    if entry.mode == "fold":
        return ("fold", entry.count, "up") if on_fold else ("pair", 2 * entry.count, "up")
    names = [copy.name for copy in copies]
    carried = [name in how.copies for name in names]
    if not how.copies or (names and all(carried)):
        return entry.mode, entry.count, entry.face
    if not any(carried):
        return entry.mode, 0, entry.face
    count = entry.count * sum(carried) // len(names)
    if entry.mode == "single":
        return "single", count, entry.face
    as_drawn = sum(one and copy.drawn for one, copy in zip(carried, copies, strict=True))
    mirrored = sum(carried) - as_drawn
    if as_drawn and mirrored:
        if as_drawn != mirrored:
            raise MeasureError(f"interfacing {how.area or 'whole'!r}: name as many copies of one hand as of the other")
        return "pair", count, "up"
    return "single", count, "up" if as_drawn else "down"
