"""How does a line of the cutting list lie on the cloth? Its cutting outline, turned so that the grain runs along +x."""

from __future__ import annotations

from math import copysign

from shapely import Polygon, box, get_coordinates
from shapely.affinity import scale

from boltside.lay.model import LayItem
from boltside.measure.garment import make_piece
from boltside.measure.interfaced import fold_line
from boltside.measure.model import CutLine, InterfacedArea, MadePiece, MeasureError, PieceLines
from boltside.measure.polyline import angle_deg, turned
from boltside.pattern import Grain, Pattern, Point, Polyline

TURN_DEG: dict[Grain, float] = {"lengthwise": 0.0, "crosswise": 90.0, "bias": 45.0}
"""Angle between the drawn grain line and the lengthwise grain of the cloth. Source: the words' meaning."""

ALONG_GRAIN_DEG = 0.5
"""A fold edge this near to the lengthwise grain runs with it: 4 mm in half a metre. Our choice."""

SIMPLER_MM = 0.025
"""Outlines are simplified by this much and then grown by it, so that they cover the true outline and exceed it by
at most 0.05 mm along edges (a pointed corner a little more). Our choice: below what shears can do."""

STRAIGHT_MM = 1e-6
"""A point this near to the straight line between its neighbours is none."""

POINTED = 3.0
"""Mitre limit when an outline is grown."""

LAY_DIGITS = 3
"""Outlines for laying are given to a thousandth of a millimetre, so that every machine writes the same ones."""


def lay_item(pattern: Pattern, line: CutLine, size: str) -> LayItem:
    """One line of the cutting list in one size as the lay engine takes it.

    The outline covers the true cutting outline and is at most 0.05 mm larger. A half on the fold has its fold edge
    on y = 0; one whose fold edge does not run with the lengthwise grain is unfolded. Raises: :class:`MeasureError`
    where the size does not have the line.
    """
    shape = _lying(line, *_as_drawn(pattern, line, size))
    return _item(line, _on_axis(shape) if line.mode == "fold" else _at_origin(shape))


def lay_mark(pattern: Pattern, line: CutLine, size: str) -> Point | None:
    """Where the mark that has to be in step with stripes and checks lies in the outline of :func:`lay_item`.

    It is the named point of the piece's `in_step`, on the stitching line if it lies on the outline. None: the piece has
    none, it is cut off with these choices, or the line is interfacing. Raises: :class:`MeasureError`.
    """
    piece = next(piece for piece in pattern.pieces if piece.name == line.piece)
    if piece.in_step is None or line.kind == "interfacing":
        return None
    outline, fold, turn_deg = _as_drawn(pattern, line, size)
    made = make_piece(pattern, piece, size, line.made_with[size])
    place = None if made is None else made.by_cloth[line.cloth].points_mm.get(piece.in_step)
    if place is None:
        return None
    ((x, y),) = turned((place,), turn_deg)
    low_x, low_y, _, _ = _lying(line, outline, fold, turn_deg).bounds
    if line.mode != "fold" or fold is None:
        return round(x - low_x, LAY_DIGITS), round(y - low_y, LAY_DIGITS)
    level, side = _up(turned(outline, turn_deg), turned(fold, turn_deg))
    return round(x - low_x, LAY_DIGITS), round(max(0.0, side * (y - level)), LAY_DIGITS)


def _lying(line: CutLine, outline: Polyline, fold: Polyline | None, turn_deg: float) -> Polygon:
    """The outline turned to the grain, unfolded or half as it lies, simplified; not moved to the origin yet."""
    outline = turned(outline, turn_deg)
    if line.unfolded and fold is not None:
        outline = _unfolded(outline, turned(fold, turn_deg))
    elif line.mode == "fold" and fold is not None:
        outline = _half_up(outline, turned(fold, turn_deg))
    return _simpler_half(outline) if line.mode == "fold" else _simpler(Polygon(outline))


def cutting_outline_mm(pattern: Pattern, line: CutLine, size: str) -> Polyline:
    """The exact cutting outline of a line in one size, as drawn (a half, if it lies on the fold)."""
    return _as_drawn(pattern, line, size)[0]


def lies_on_fold(made: MadePiece, lines: PieceLines, fold_edge: str | None) -> bool:
    """Whether the fold edge runs with the lengthwise grain; otherwise the piece is unfolded."""
    off_deg = (angle_deg(fold_line(lines, fold_edge)) + _turn_deg(made)) % 180.0
    return min(off_deg, 180.0 - off_deg) <= ALONG_GRAIN_DEG


def _turn_deg(made: MadePiece) -> float:
    return TURN_DEG[made.grain] - made.grain_deg


def _as_drawn(pattern: Pattern, line: CutLine, size: str) -> tuple[Polyline, Polyline | None, float]:
    """Cutting outline, fold edge if any, and the angle by which it is turned to lie on the cloth."""
    if size not in line.made_with:
        raise MeasureError(f"size {size} has no {line.line_id!r}")
    piece = next(piece for piece in pattern.pieces if piece.name == line.piece)
    made = make_piece(pattern, piece, size, line.made_with[size])
    assert made is not None, "a line is made with choices in which its piece is there"
    turn_deg = _turn_deg(made)
    if line.kind == "interfacing":
        area = _area(made, line)
        outline, fold = area.outline_mm, area.fold_mm
    else:
        lines = made.by_cloth[line.cloth]
        outline = lines.cutting_mm
        fold = fold_line(lines, line.fold_edge) if line.fold_edge else None
    if fold is not None and line.mode == "fold":
        # Exactly along the fold, keeping the side to which the grain line points.
        off_deg = (angle_deg(fold) + turn_deg + 90.0) % 180.0 - 90.0
        turn_deg -= off_deg
    return outline, fold, turn_deg


def _area(made: MadePiece, line: CutLine) -> InterfacedArea:
    same = [
        area
        for area in made.interfaced
        if (area.cloth, area.area, area.to, area.carried_by) == (line.cloth, line.area, line.to, line.carried_by)
    ]
    return same[line.part]


def _half_up(outline: Polyline, fold: Polyline) -> Polyline:
    """The half with its fold on y = 0 and itself above. Turning it over in the fold changes nothing of the whole."""
    level, side = _up(outline, fold)
    return tuple((x, max(0.0, side * (y - level))) for x, y in outline)


def _up(outline: Polyline, fold: Polyline) -> tuple[float, float]:
    """The height of the fold, and 1 where the half lies above it, -1 below."""
    level = (fold[0][1] + fold[-1][1]) / 2
    return level, copysign(1.0, max((y - level for _, y in outline), key=abs))


def _unfolded(outline: Polyline, fold: Polyline) -> Polyline:
    """The whole piece of which the outline is one half."""
    (x0, y0), (x1, y1) = fold[0], fold[-1]
    dx, dy = x1 - x0, y1 - y0
    squared = dx * dx + dy * dy

    def mirrored(point: Point) -> Point:
        t = ((point[0] - x0) * dx + (point[1] - y0) * dy) / squared
        return 2 * (x0 + t * dx) - point[0], 2 * (y0 + t * dy) - point[1]

    # A hair of overlap on the fold makes the two halves one.
    whole = (
        Polygon(outline)
        .buffer(STRAIGHT_MM, join_style="mitre")
        .union(Polygon([mirrored(point) for point in outline]).buffer(STRAIGHT_MM, join_style="mitre"))
    )
    if not isinstance(whole, Polygon) or whole.interiors:
        raise MeasureError("its half can't be unfolded to one piece")
    return _ring(whole)


def _simpler(shape: Polygon) -> Polygon:
    """A shape with fewer corners that covers the given one."""
    shape = _plain(shape)
    simple = shape.simplify(SIMPLER_MM)
    if not isinstance(simple, Polygon) or len(simple.exterior.coords) == len(shape.exterior.coords):
        return shape
    grown = simple.buffer(SIMPLER_MM, join_style="mitre", mitre_limit=POINTED)
    return _plain(grown) if isinstance(grown, Polygon) and not grown.interiors else shape


def _plain(shape: Polygon) -> Polygon:
    """The same shape without points on straight stretches, also where the outline begins."""
    ring = _ring(shape)
    plain = Polygon(ring[1:] + ring[:1]).simplify(STRAIGHT_MM)
    if not isinstance(plain, Polygon):
        return shape
    plain = Polygon(_ring(plain)).simplify(STRAIGHT_MM)
    return plain if isinstance(plain, Polygon) else shape


def _simpler_half(outline: Polyline) -> Polygon:
    half = Polygon(outline)
    x0, _, x1, y1 = half.bounds
    # Simplified as the whole, so that corners on the fold stay there.
    whole = half.union(scale(half, yfact=-1.0, origin=(0.0, 0.0)))
    if not isinstance(whole, Polygon):
        whole = half
    upper = _simpler(whole).intersection(box(x0 - 1.0, 0.0, x1 + 1.0, y1 + 1.0))
    return upper if isinstance(upper, Polygon) else half


def _on_axis(half: Polygon) -> Polygon:
    x0 = half.bounds[0]
    return Polygon([(x - x0, max(0.0, y)) for x, y in _ring(half)])


def _at_origin(shape: Polygon) -> Polygon:
    x0, y0, _, _ = shape.bounds
    return Polygon([(x - x0, y - y0) for x, y in _ring(shape)])


def _ring(shape: Polygon) -> Polyline:
    """The outline, anticlockwise and from its lowest, then leftmost corner, so that equal shapes read the same."""
    ring = [(x, y) for x, y in get_coordinates(shape.exterior).tolist()[:-1]]
    if not shape.exterior.is_ccw:
        ring.reverse()
    first = min(range(len(ring)), key=lambda i: (round(ring[i][1], LAY_DIGITS), round(ring[i][0], LAY_DIGITS)))
    return tuple(ring[first:] + ring[:first])


def _item(line: CutLine, shape: Polygon) -> LayItem:
    outline = tuple((round(x, LAY_DIGITS), round(y, LAY_DIGITS)) for x, y in _ring(shape))
    return LayItem(item_id=line.line_id, outline_mm=outline, mode=line.mode, count=line.count, face=line.face)
