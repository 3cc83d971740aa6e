"""What does the garment look like with each choice? The parts of the front and back drawing, placed and coarse.

The drawing is put together from the finished pieces (their stitching lines, where they meet) in one size, so it
follows the choices by itself. What is kept of them is as coarse as every published outline, corners on the grid too
(see :mod:`boltside.spec.simplify`): a picture, not a pattern.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from shapely import Polygon, get_coordinates
from shapely.affinity import scale
from shapely.ops import unary_union

from boltside.calculators.choices import completed
from boltside.calculators.conditions import SIZE, holds, names_in_all
from boltside.measure.combinations import combinations, condition_for
from boltside.measure.cutting_list import choices_of_piece
from boltside.pattern import DrawingPart, Pattern
from boltside.spec.json_form import Json, choice_json, condition_json
from boltside.spec.placing import Placed, hangs_on, place, players
from boltside.spec.simplify import GRID_MM, coarse

ON_CENTRE_MM = 1.0
"""An edge on the fold that lies this near to the centre line lies on it. Our choice."""

Shape = tuple[bool, tuple[tuple[int, int], ...]]
"""Whether a part is drawn on both sides, and its outline in whole mm."""


def drawn_size(pattern: Pattern) -> str:
    """The size that is drawn: the middle one."""
    return pattern.sizes[len(pattern.sizes) // 2]


def drawing_json(pattern: Pattern) -> Json:
    """The drawing of the spec sheet: the parts of both views over all choices.

    Raises: :class:`boltside.measure.model.MeasureError` as :func:`boltside.spec.placing.place` does.
    """
    return drawing_and_depths(pattern)[0]


def drawing_and_depths(pattern: Pattern) -> tuple[Json, dict[str, int]]:
    """The drawing, and for each view how far it was moved (mm): its lowest y as the parts were placed."""
    views = _views(pattern)
    low = {name: _lowest(pattern, drawn) for name, drawn in views.items()}
    for name, drawn in views.items():
        for one in drawn:
            one["outline"] = [[x, y - low[name]] for x, y in one["outline"]]
    return {"size": drawn_size(pattern)} | views, low


def _views(pattern: Pattern) -> dict[str, list[Json]]:
    return {
        name: _view(pattern, parts)
        for name, parts in (("front", pattern.drawing_front), ("back", pattern.drawing_back))
    }


def _view(pattern: Pattern, parts: Sequence[DrawingPart]) -> list[Json]:
    drawn: list[Json] = []
    for at, part in enumerate(parts):
        shapes = _shapes(pattern, parts, at)
        universe = [combination for found in shapes.values() for combination in found]
        for shape, found in shapes.items():
            if shape is not None:
                both_sides, points = shape
                drawn.append(
                    {
                        "piece": part.piece,
                        "when": condition_json(condition_for(pattern, universe, found)),
                        "both_sides": both_sides,
                        "outline": [list(point) for point in points],
                    }
                )
    return drawn


def _shapes(pattern: Pattern, parts: Sequence[DrawingPart], at: int) -> dict[Shape | None, list[Mapping[str, str]]]:
    """The different shapes of one part with the combinations in which each is seen; None: not there."""
    chain = hangs_on(pattern, parts, at)
    names = set(names_in_all(parts[one].when for one in chain))
    for one in chain:
        for piece in players(pattern, parts[one].piece):
            names |= set(choices_of_piece(pattern, piece))
    wanted = sorted(names - {SIZE})
    found: dict[Shape | None, list[Mapping[str, str]]] = {}
    # Every combination is drawn in the same size, also one that is only offered in others.
    occurring = [one for size in pattern.sizes for one in combinations(pattern, wanted, size)]
    for combination in {tuple(one.items()): one for one in occurring}.values():
        placed = place(pattern, drawn_size(pattern), parts, combination, only=chain).get(at)
        found.setdefault(None if placed is None else _shape(parts[at], placed), []).append(combination)
    return found


def _shape(part: DrawingPart, placed: Placed) -> Shape:
    """The part as it is drawn. What is cut on the fold becomes whole: no seam runs down its middle."""
    outline, both_sides = placed.outline_mm, part.both_sides
    if both_sides and placed.fold_mm and all(abs(x) <= ON_CENTRE_MM for x, _ in placed.fold_mm):
        if mirrored := _with_mirror_image(coarse(outline, GRID_MM)):
            return False, mirrored
        half = Polygon(outline).buffer(ON_CENTRE_MM, join_style="mitre")
        whole = unary_union([half, scale(half, xfact=-1.0, origin=(0.0, 0.0))])
        whole = whole.buffer(-ON_CENTRE_MM, join_style="mitre")
        if isinstance(whole, Polygon):
            outline, both_sides = tuple((x, y) for x, y in get_coordinates(whole.exterior).tolist()[:-1]), False
    return both_sides, tuple((x, y) for x, y in coarse(outline, GRID_MM))


def _with_mirror_image(half: Sequence[Sequence[int]]) -> tuple[tuple[int, int], ...]:
    """A coarse half and its mirror image, so that both sides are drawn alike; nothing where it has no one straight
    edge on the centre line."""
    at_fold = [at for at, (x, _) in enumerate(half) if x == 0]
    count = len(half)
    if len(at_fold) != 2 or (at_fold[1] - at_fold[0]) % count not in (1, count - 1):
        return ()
    first = at_fold[1] if at_fold[1] - at_fold[0] == 1 else at_fold[0]
    way = [(x, y) for x, y in (*half[first:], *half[:first])]
    # A corner on the centre line that the mirror image makes straight is none.
    ends = [end for end, beside in ((way[0], way[1]), (way[-1], way[-2])) if end[1] != beside[1]]
    inner = way[1:-1]
    head, tail = (way[0],) if way[0] in ends else (), (way[-1],) if way[-1] in ends else ()
    return (*head, *inner, *tail, *((-x, y) for x, y in reversed(inner)))


def _lowest(pattern: Pattern, drawn: Sequence[Mapping[str, Any]]) -> int:
    """The lowest y of the view with the usual choices: front and back stand on one line."""
    usual = completed([choice_json(choice) for choice in pattern.choices], {SIZE: drawn_size(pattern)})
    seen = [part for part in drawn if holds(part["when"], usual)] or drawn
    return min((y for part in seen for _, y in part["outline"]), default=0)
