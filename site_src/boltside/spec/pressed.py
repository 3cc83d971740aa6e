"""Where does interfacing lie on a piece? A picture for each line of interfacing, as coarse as every published outline.

A piece on the fold is shown whole. All others are shown with the wrong side up, because that is where interfacing is
pressed on; where only one copy gets it, in the hand of that copy. As the outline is drawn a piece lies right side up,
so its wrong side is the mirror image.
"""

from __future__ import annotations

from math import hypot

from shapely import Polygon, get_coordinates, get_parts, union

from boltside.measure.garment import make_piece
from boltside.measure.model import CutLine, InterfacedArea, MadePiece, Point, Polyline
from boltside.pattern import Pattern
from boltside.spec.drawing import drawn_size
from boltside.spec.json_form import Json
from boltside.spec.simplify import GRID_MM, coarse

HAIR_MM = 3.0
"""Corners near a fold may be moved off it by half of the grid's step; the halves are joined over so much."""


def pressed_json(pattern: Pattern, line: CutLine) -> Json:
    """The picture of a line of interfacing.

    Arguments: the pattern; a line of its cutting list whose kind is `interfacing`. Returns: the size that is shown;
    outlines in whole mm, y up and from 0: `piece` of the whole piece to its cutting line, `area` of what is interfaced;
    `to`, the line up to which it goes; `shown`, the copy that is seen (None: whichever).
    Raises: :class:`boltside.measure.model.MeasureError`.
    """
    size = drawn_size(pattern) if drawn_size(pattern) in line.sizes else line.sizes[len(line.sizes) // 2]
    piece = next(one for one in pattern.pieces if one.name == line.piece)
    made = make_piece(pattern, piece, size, line.made_with[size])
    assert made is not None, "a line of the cutting list is of a piece that is there"
    area = _area(made, line)
    outline, pressed = made.by_cloth[made.cut[0].cloth].cutting_mm, area.outline_mm
    if area.mode == "fold" and area.fold_mm is not None:
        seen, under = (_whole(one, area.fold_mm) for one in (outline, pressed))
    else:
        turn = 1 if _as_drawn(made, area) else -1
        seen, under = (coarse([(turn * x, y) for x, y in one], GRID_MM) for one in (outline, pressed))
    left, low = min(x for x, _ in seen), min(y for _, y in seen)
    return {
        "size": size,
        "piece": [[x - left, y - low] for x, y in seen],
        "area": [[x - left, y - low] for x, y in under],
        "to": area.to,
        "shown": area.carried_by[0] if len(area.carried_by) == 1 else None,
    }


def _area(made: MadePiece, line: CutLine) -> InterfacedArea:
    """The made piece's area that this line cuts; of several alike the one with the line's number."""
    name = (line.cloth, line.area, line.to, line.carried_by)
    alike = [one for one in made.interfaced if (one.cloth, one.area, one.to, one.carried_by) == name]
    return alike[line.part]


def _as_drawn(made: MadePiece, area: InterfacedArea) -> bool:
    """Whether what is seen with the wrong side up has the drawn hand: the wrong side of the copy that is not drawn."""
    if area.mode == "single":
        return area.face == "down"
    drawn = next((copy.name for copy in made.copies if copy.drawn), None)
    return len(area.carried_by) == 1 and drawn is not None and area.carried_by[0] != drawn


def _whole(half: Polyline, fold: tuple[Point, Point]) -> list[list[int]]:
    """Both halves of a piece whose fold runs through these points, coarse and alike; the fold upright or level."""
    (ax, ay), (bx, by) = fold
    upright = abs(by - ay) >= abs(bx - ax)
    length = hypot(bx - ax, by - ay)
    ux, uy = (bx - ax) / length, (by - ay) / length
    # How far from the fold, and how far along it: halves meet on the line 0, which is on the grid.
    turned = [((x - ax) * uy - (y - ay) * ux, (x - ax) * ux + (y - ay) * uy) for x, y in half]
    one = [(float(across), float(along)) for across, along in coarse(turned, GRID_MM)]
    # A hair wider, so that halves are joined whose corner on the fold was moved off it.
    both = union(_near_fold(one, 1), _near_fold(one, -1)).buffer(-HAIR_MM, join_style="mitre")
    outer = max((part for part in get_parts(both) if isinstance(part, Polygon)), key=lambda part: part.area)
    grid_mm = 1 if any(across % GRID_MM or along % GRID_MM for across, along in one) else GRID_MM
    corners = get_coordinates(outer.simplify(1)).tolist()[:-1]
    ring = [(round(x / grid_mm) * grid_mm, round(y / grid_mm) * grid_mm) for x, y in corners]
    turn = 1 if (by if upright else bx) >= (ay if upright else ax) else -1
    return [[across, turn * along] if upright else [turn * along, across] for across, along in ring]


def _near_fold(half: list[tuple[float, float]], side: int) -> Polygon:
    return Polygon([(side * across, along) for across, along in half]).buffer(HAIR_MM, join_style="mitre")
