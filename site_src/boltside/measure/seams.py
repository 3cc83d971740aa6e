"""Do the edges that are sewn together fit, and do they fit as the designer means it?"""

from __future__ import annotations

from collections.abc import Sequence

from boltside.measure.conditions import holds, with_size
from boltside.measure.model import Garment, MeasureError, SeamResult
from boltside.measure.polyline import nearest_on
from boltside.pattern import EdgePart, Seam

EQUAL_WITHIN_MM = 1.0
"""Edges without stated ease agree within this. Source: the pattern format."""

ON_EDGE_MM = 0.5
"""A point that begins or ends a stretch of an edge lies this near to it. Our choice."""

ROUNDING = 1e-6
"""What computing may add to a length (mm), percentage or ratio before a limit counts as missed."""


def edge_length_mm(garment: Garment, part: EdgePart) -> float:
    """Length of an edge, or of its stretch between two points, on the stitching line, times ``part.times``; mm.

    Raises: :class:`MeasureError` where the piece, the edge or a point is not there with these choices.
    """
    piece = garment.piece(part.piece)
    edge = piece.edge(part.edge)
    ends = [0.0, edge.length_mm]
    for which, name in enumerate((part.start, part.stop)):
        if name is None:
            continue
        place = piece.points_mm.get(name)
        if place is None:
            raise MeasureError(f"piece {piece.name!r} has no point {name!r} here")
        at_mm, _, away_mm = nearest_on(edge.stitching_mm, place)
        if away_mm > ON_EDGE_MM:
            raise MeasureError(f"the point {name!r} of piece {piece.name!r} is not on its edge {edge.name!r}")
        ends[which] = at_mm
    return abs(ends[1] - ends[0]) * part.times


def check_seams(garment: Garment) -> list[SeamResult]:
    """Every seam that is sewn with these choices, measured on the stitching line, with the problem if there is one."""
    asked = with_size(garment.chosen, garment.size)
    results = []
    for seam in garment.pattern.seams:
        if holds(seam.when, asked):
            try:
                results.append(check_seam(garment, seam))
            except MeasureError as error:
                results.append(_unmeasured(seam, str(error)))
    return results


def _unmeasured(seam: Seam, why: str) -> SeamResult:
    meant, limits = _meant(seam)
    return SeamResult(
        name=seam.name,
        join_mm=0.0,
        to_mm=0.0,
        ease_mm=0.0,
        ease_percent=0.0,
        ratio=0.0,
        meant=meant,
        meant_range=limits,
        problem=why,
    )


def check_seam(garment: Garment, seam: Seam) -> SeamResult:
    """One seam measured on the stitching line, with the problem if there is one.

    Raises: :class:`MeasureError` where a piece, an edge or a point of it is not there with these choices.
    """
    meant, limits = _meant(seam)
    join_mm = _chain_mm(garment, seam.join)
    to_mm = _chain_mm(garment, seam.to)
    ease_mm = join_mm - to_mm
    percent = 100.0 * ease_mm / to_mm if to_mm else 0.0
    ratio = join_mm / to_mm if to_mm else 0.0
    measured, unit = {
        "equal": (ease_mm, " mm"),
        "ease_mm": (ease_mm, " mm"),
        "ease_percent": (percent, " %"),
        "gather_ratio": (ratio, " times"),
    }[meant]
    problem = None
    if to_mm <= 0.0:
        problem = "the edges it is sewn to have no length"
    elif not limits[0] - ROUNDING <= measured <= limits[1] + ROUNDING:
        expected = (
            f"equal within {EQUAL_WITHIN_MM:g} mm" if meant == "equal" else f"{limits[0]:g} to {limits[1]:g}{unit}"
        )
        problem = f"{join_mm:.1f} mm is sewn to {to_mm:.1f} mm, that is {measured:.2f}{unit}; meant is {expected}"
    return SeamResult(
        name=seam.name,
        join_mm=join_mm,
        to_mm=to_mm,
        ease_mm=ease_mm,
        ease_percent=percent,
        ratio=ratio,
        meant=meant,
        meant_range=limits,
        problem=problem,
    )


def _meant(seam: Seam) -> tuple[str, tuple[float, float]]:
    if seam.ease_mm is not None:
        return "ease_mm", seam.ease_mm
    if seam.ease_percent is not None:
        return "ease_percent", seam.ease_percent
    if seam.gather_ratio is not None:
        return "gather_ratio", seam.gather_ratio
    return "equal", (-EQUAL_WITHIN_MM, EQUAL_WITHIN_MM)


def _chain_mm(garment: Garment, parts: Sequence[EdgePart]) -> float:
    return sum(edge_length_mm(garment, part) for part in parts)
