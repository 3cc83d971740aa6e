"""Shapes of pieces.svg in millimetres, y up. The only file that knows `svgelements`.

Every element whose id reads `<piece>.<size>.outline`, `.point.<name>`, `.line.<name>` or `.area.<name>` is read; all
others are ignored. Transforms are followed, curves become short straight lines. Longer than 400 lines because
whatever touches that library stands here.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from typing import Final

import svgelements as svg  # type: ignore[import-untyped]

from boltside.pattern import Point
from boltside.read.collect import Place, Problems, quoted
from boltside.read.drawn import Drawing, DrawnPiece, Shape, Stroke
from boltside.read.svg_tree import Element, read_elements

FLATTEN_MM: Final = 0.02
"""A flattened curve leaves the true one by no more than this. The format promises 0.1 mm; a waist of 600 mm drawn as
one arc then comes out less than 0.05 mm short."""

SAME_PLACE_MM: Final = 0.001
"""Neighbouring vertices nearer than this are one: rounding of drawing programs, not geometry."""

SCALE_TOLERANCE: Final = 0.001
"""So far the scales across and down may differ, as a ratio: 1 mm on a metre."""

PATH_LETTERS_MAX: Final = 500_000
"""So long may the text of one path or transform be. Our choice, for taking it apart takes a second."""

CURVE_PARTS_MAX: Final = 5_000
SHAPE_VERTICES_MAX: Final = 2_000
"""The most curved outline of the demo shop has 302 once it is flattened. Our choice: some thousands more keep the
measuring of allowances busy for minutes."""

DRAWING_VERTICES_MAX: Final = 300_000
"""The demo shop's largest drawing has 25,000. Our choice, for the same reason."""

POINTS_BY_VERTICES_MAX: Final = 10_000_000
"""So often may named points of a drawing be compared with vertices of their outline. Our choice: some seconds; the
demo shop needs a hundredth."""

DRAWING_MM_MAX: Final = 100_000
"""Nothing is drawn farther than 100 m from the corner of the drawing; a number beyond is a slip."""

UNITS_MM: Final = {"mm": 1.0, "cm": 10.0, "in": 25.4}
"""Millimetres in a unit. The international inch is 25.4 mm exactly (1959 agreement)."""

OUR_ID: Final = re.compile(
    r"([a-z0-9]+(?:-[a-z0-9]+)*)\.([A-Za-z0-9]+(?:-[A-Za-z0-9]+)*)\."
    r"(?:(outline)|(?:(point|line|area)\.([a-z0-9]+(?:-[a-z0-9]+)*)))"
)
LENGTH: Final = re.compile(r"\s*([0-9]+(?:\.[0-9]*)?|\.[0-9]+)\s*([A-Za-z%]*)\s*")
NUMBER: Final = re.compile(r"[-+]?(?:[0-9]++\.?[0-9]*+|\.[0-9]++)(?:[eE][-+]?[0-9]++)?+")
PATH_DATA: Final = re.compile(r"[MmLlHhVvCcSsQqTtAaZz0-9eE+\-.,\s]+")
POINTS: Final = re.compile(rf"(?:\s*+{NUMBER.pattern}\s*+,?)++\s*+")
TRANSFORM: Final = re.compile(
    r"(?:\s*+(?:matrix|translate|scale|rotate|skewX|skewY)\s*+\(\s*+"
    rf"(?:{NUMBER.pattern}\s*+,?\s*+){{1,6}}+\)\s*+,?)*+\s*+"
)
OUTLINE_TAGS: Final = ("path", "polygon", "polyline", "rect", "circle", "ellipse")
LINE_TAGS: Final = ("path", "polyline", "line")
POINT_TAGS: Final = ("circle", "ellipse")
PLAIN_ATTRIBUTES: Final = ("x", "y", "width", "height", "rx", "ry", "cx", "cy", "r", "x1", "y1", "x2", "y2")


def read_drawing(text: str, name: str, problems: Problems) -> Drawing | None:
    """The shapes of the drawing, or None with problems noted.

    Arguments: `name` is the file as problems name it.
    """
    elements = read_elements(text, name, problems)
    if not elements:
        return None
    to_mm = _to_mm(elements[0], name, problems)
    if to_mm is None:
        return None
    pieces: dict[tuple[str, str], DrawnPiece] = {}
    first_places: dict[str, Place] = {}
    damaged: set[tuple[str, str]] = set()
    vertices = 0
    around: dict[int, svg.Matrix | None] = {}
    for element in elements:
        match = OUR_ID.fullmatch(element.element_id)
        if match is None:
            continue
        piece, size, outline, kind, part = match.groups()
        key = (piece, size)
        drawn = pieces.setdefault(key, DrawnPiece(element.place))
        twice = first_places.setdefault(element.element_id, element.place)
        if twice != element.place and not outline:
            problems.add(
                "duplicate-id",
                name,
                element.place,
                seen=f"{quoted(element.element_id)} a second time",
                expected=f"it once (it stands in line {twice[0]} already)",
                mend="rename or delete one of the two",
            )
            continue
        shape = _shape(element, outline or kind, to_mm, around, name, problems)
        if shape is not None:
            vertices += sum(len(stroke.vertices) for stroke in shape.strokes)
        if vertices > DRAWING_VERTICES_MAX:
            _bad_numbers(element, f"the {DRAWING_VERTICES_MAX + 1}th vertex of the drawing", name, problems)
            return None
        if shape is None:
            damaged.add(key)
        elif outline:
            drawn.outlines.append(shape)
        else:
            {"point": drawn.points, "line": drawn.lines, "area": drawn.areas}[kind][part] = shape
    work = 0
    for (piece, size), drawn in pieces.items():
        on = sum(len(stroke.vertices) for outline in drawn.outlines for stroke in outline.strokes)
        work += len(drawn.points) * on
        if work > POINTS_BY_VERTICES_MAX:
            problems.add(
                "too-large",
                name,
                drawn.place,
                seen=f"{len(drawn.points)} named points of `{piece}.{size}` and {on} vertices of its outline",
                expected="outlines of some hundred vertices, and points for edges and marks only",
                mend="simplify the outlines in the drawing program",
            )
            return None
    ids = {element.element_id: element.place for element in elements if element.element_id}
    return Drawing(elements[0].place, pieces, ids, frozenset(damaged))


def _to_mm(root: Element, name: str, problems: Problems) -> svg.Matrix | None:
    """The matrix from the drawing's own units to millimetres with y up, the upper left corner at 0, 0."""
    sizes_mm: list[float] = []
    for key in ("width", "height"):
        said = root.attributes.get(key, "")
        match = LENGTH.fullmatch(said)
        factor = UNITS_MM.get(match[2].lower()) if match else None
        if match is None or factor is None or float(match[1]) <= 0:
            problems.add(
                "no-units",
                name,
                root.place,
                seen=f"{key}={quoted(said)}" if said else f"no {key} of the drawing",
                expected=f'{key} in mm, cm or in, like `{key}="600mm"`',
                mend="set the document's unit in the drawing program and check one length with a ruler",
            )
            continue
        sizes_mm.append(float(match[1]) * factor)
    said = root.attributes.get("viewBox", "")
    numbers = [float(one) for one in NUMBER.findall(said)] if POINTS.fullmatch(said) else []
    if len(numbers) != 4 or min(numbers[2:]) <= 0 or not all(math.isfinite(one) for one in numbers):
        problems.add(
            "no-units",
            name,
            root.place,
            seen=f"viewBox={quoted(said)}" if said else "no viewBox",
            expected="a viewBox of four numbers that goes with width and height",
            mend="save the drawing with a viewBox, so that its own units have a length",
        )
        return None
    if len(sizes_mm) != 2:
        return None
    across, down = sizes_mm[0] / numbers[2], sizes_mm[1] / numbers[3]
    if abs(across / down - 1) > SCALE_TOLERANCE:
        problems.add(
            "not-to-scale",
            name,
            root.place,
            seen=f"one unit of the viewBox is {across:.4g} mm across but {down:.4g} mm down",
            expected="the same length both ways",
            mend=f"make the viewBox as wide and high as the drawing, like `0 0 {sizes_mm[0]:g} {sizes_mm[1]:g}`",
        )
        return None
    return svg.Matrix(across, 0, 0, -down, -numbers[0] * across, numbers[1] * down)


def _shape(
    element: Element,
    kind: str,
    to_mm: svg.Matrix,
    around: dict[int, svg.Matrix | None],
    name: str,
    problems: Problems,
) -> Shape | None:
    allowed = {"outline": OUTLINE_TAGS, "area": OUTLINE_TAGS, "line": LINE_TAGS, "point": POINT_TAGS}[kind]
    shown = quoted(element.element_id)
    if element.tag not in allowed:
        problems.add(
            "bad-shape",
            name,
            element.place,
            seen=f"the element `{element.tag}` as {shown}",
            expected=f"`{'`, `'.join(allowed)}`",
            mend="turn the object into a path" if kind != "point" else "draw a circle",
        )
        return None
    if any(len(said) > PATH_LETTERS_MAX for said in element.attributes.values()):
        _bad_numbers(element, f"more than {PATH_LETTERS_MAX} letters", name, problems)
        return None
    matrix = _matrix(element, to_mm, around, name, problems)
    if matrix is None:
        return None
    if any(not NUMBER.fullmatch(element.attributes.get(key, "0").strip()) for key in PLAIN_ATTRIBUTES):
        _bad_numbers(element, "a number that is none, or has a unit", name, problems)
        return None
    try:
        if kind == "point":
            at = matrix.point_in_matrix_space(
                (float(element.attributes.get("cx", "0")), float(element.attributes.get("cy", "0")))
            )
            strokes: tuple[Stroke, ...] = (Stroke(((at.x, at.y),), frozenset({0}), False),)
        else:
            path = _path(element)
            if path is None:
                _bad_numbers(element, "path data that can't be read", name, problems)
                return None
            strokes = tuple(_strokes(path, matrix))
    except _TooManyVertices:
        _bad_numbers(element, f"more than {SHAPE_VERTICES_MAX} vertices", name, problems)
        return None
    except (ValueError, TypeError, IndexError, KeyError, AttributeError, ArithmeticError):
        _bad_numbers(element, "numbers that can't be read", name, problems)
        return None
    if not strokes:
        _bad_numbers(element, "nothing drawn", name, problems)
        return None
    if any(not (abs(x) < DRAWING_MM_MAX and abs(y) < DRAWING_MM_MAX) for one in strokes for x, y in one.vertices):
        _bad_numbers(element, "a number that is not within 100 m", name, problems)
        return None
    return Shape(kind, element.element_id, element.place, strokes)


def _bad_numbers(element: Element, seen: str, name: str, problems: Problems) -> None:
    problems.add(
        "bad-shape",
        name,
        element.place,
        seen=f"{seen} in {quoted(element.element_id)}",
        expected="plain numbers, as a drawing program writes them",
        mend="draw this shape anew",
    )


def _matrix(
    element: Element, to_mm: svg.Matrix, around: dict[int, svg.Matrix | None], name: str, problems: Problems
) -> svg.Matrix | None:
    """From the element's own coordinates to mm. `around` keeps what was worked out for groups, by their identity."""
    inner = _own_matrix(element, name, problems)
    outer = _around(element.around, to_mm, around, name, problems)
    return None if inner is None or outer is None else inner * outer


def _around(
    groups: tuple[Element, ...],
    to_mm: svg.Matrix,
    known: dict[int, svg.Matrix | None],
    name: str,
    problems: Problems,
) -> svg.Matrix | None:
    """From the coordinates inside of the innermost group to mm; the outermost element is the drawing itself."""
    if len(groups) <= 1:
        return to_mm
    key = id(groups[-1])
    if key not in known:
        outer = _around(groups[:-1], to_mm, known, name, problems)
        inner = _own_matrix(groups[-1], name, problems) if outer is not None else None
        known[key] = None if inner is None or outer is None else inner * outer
    return known[key]


def _own_matrix(one: Element, name: str, problems: Problems) -> svg.Matrix | None:
    style = one.attributes.get("style", "")
    if one.tag == "svg" or re.search(r"(^|;)\s*(transform|translate|rotate|scale|zoom)\s*:", style):
        what = "pieces in a drawing in the drawing (an inner `svg`)" if one.tag == "svg" else "a transform in `style`"
        problems.add(
            "not-followed",
            name,
            one.place,
            seen=what,
            expected="groups with the attribute `transform`",
            mend="ungroup it in the drawing program",
        )
        return None
    said = one.attributes.get("transform", "")
    if len(said) > PATH_LETTERS_MAX or not TRANSFORM.fullmatch(said):
        problems.add(
            "not-followed",
            name,
            one.place,
            seen=f"transform={quoted(said)}",
            expected="matrix, translate, scale, rotate, skewX or skewY with plain numbers",
            mend="ungroup it in the drawing program",
        )
        return None
    return svg.Matrix(said) if said else svg.Matrix()


def _path(element: Element) -> svg.Path | None:
    """The element's geometry in its own units; None when its text can't be path data."""
    get = element.attributes.get
    if element.tag == "path":
        data = get("d", "")
        return svg.Path(data) if PATH_DATA.fullmatch(data) else None
    if element.tag in ("polygon", "polyline"):
        points = get("points", "")
        if not POINTS.fullmatch(points):
            return None
        numbers = [float(one) for one in NUMBER.findall(points)]
        if len(numbers) % 2 or len(numbers) < 4:
            return None
        pairs = " L ".join(f"{x!r},{y!r}" for x, y in zip(numbers[::2], numbers[1::2], strict=True))
        return svg.Path(f"M {pairs}" + (" Z" if element.tag == "polygon" else ""))
    numbers_of = {key: float(get(key, "0")) for key in PLAIN_ATTRIBUTES}
    if element.tag == "line":
        return svg.Path(svg.Line((numbers_of["x1"], numbers_of["y1"]), (numbers_of["x2"], numbers_of["y2"])))
    if element.tag == "rect":
        keys = [key for key in ("x", "y", "width", "height", "rx", "ry") if key in element.attributes]
        return svg.Path(svg.Rect(**{key: numbers_of[key] for key in keys}))
    rx, ry = (numbers_of["r"],) * 2 if element.tag == "circle" else (numbers_of["rx"], numbers_of["ry"])
    return svg.Path(svg.Ellipse(cx=numbers_of["cx"], cy=numbers_of["cy"], rx=rx, ry=ry))


class _TooManyVertices(Exception):
    """Stops flattening; the caller notes the problem."""


def _strokes(path: svg.Path, matrix: svg.Matrix) -> Iterable[Stroke]:
    """The path's strokes in mm, flattened, with neighbouring vertices in the same place merged."""
    # Curves are flattened in their own units: an arc that is stretched one way would no longer be one.
    stretch = max(math.hypot(matrix.a, matrix.b) + math.hypot(matrix.c, matrix.d), 1e-9)
    tolerance = FLATTEN_MM / stretch
    vertices: list[Point] = []
    nodes: set[int] = set()

    reached = 0

    def reach(own: Point, node: bool) -> None:
        nonlocal reached
        reached += 1
        if reached > SHAPE_VERTICES_MAX:
            raise _TooManyVertices
        at = _xy(matrix.point_in_matrix_space(own))
        if not vertices or math.dist(vertices[-1], at) > SAME_PLACE_MM:
            vertices.append(at)
        if node:
            nodes.add(len(vertices) - 1)

    def stroke(closed: bool) -> Stroke:
        while closed and len(vertices) > 1 and math.dist(vertices[-1], vertices[0]) <= SAME_PLACE_MM:
            vertices.pop()
        kept = frozenset(one for one in nodes if one < len(vertices))
        return Stroke(tuple(vertices), kept, closed)

    drawn = False
    start: Point | None = None
    for segment in path:
        if isinstance(segment, svg.Move):
            if drawn:
                yield stroke(closed=False)
            vertices.clear()
            nodes.clear()
            drawn = False
            start = _xy(segment.end)
            reach(start, True)
        elif isinstance(segment, svg.Close):
            if drawn:
                yield stroke(closed=True)
            vertices.clear()
            nodes.clear()
            drawn = False
            if start is not None:
                reach(start, True)
        else:
            if not vertices:
                reach(_xy(segment.start), True)
            drawn = True
            for at in _inner_points(segment, tolerance):
                reach(at, False)
            reach(_xy(segment.end), True)
    if drawn:
        yield stroke(closed=False)


def _xy(point: svg.Point) -> Point:
    return float(point.x), float(point.y)


def _inner_points(segment: svg.PathSegment, tolerance: float) -> Iterable[Point]:
    """Points on a curve, ends left out, so close that straight lines between them stay within `tolerance`.

    Both in the drawing's own units.

    Source of the bound for Bézier curves of degree n in m equal parts: n(n−1)/8 · M/m², where M is the largest second
    difference of the control points (Wang's formula). For an arc: the sagitta r(1 − cos(θ/2)) of a part of θ.
    """
    if isinstance(segment, svg.CubicBezier):
        control = [_xy(one) for one in (segment.start, segment.control1, segment.control2, segment.end)]
        parts = _parts(0.75 * _second_difference(control) / tolerance)
    elif isinstance(segment, svg.QuadraticBezier):
        control = [_xy(one) for one in (segment.start, segment.control, segment.end)]
        parts = _parts(0.25 * _second_difference(control) / tolerance)
    elif isinstance(segment, svg.Arc):
        radius = max(float(segment.rx), float(segment.ry))
        if radius <= tolerance:
            return
        step = 2 * math.acos(1 - tolerance / radius)
        parts = min(max(math.ceil(abs(float(segment.sweep)) / step), 1), CURVE_PARTS_MAX)
    else:
        return
    for part in range(1, parts):
        yield _xy(segment.point(part / parts))


def _second_difference(control: list[Point]) -> float:
    triples = zip(control, control[1:], control[2:], strict=False)
    return max(math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]) for a, b, c in triples)


def _parts(deviations: float) -> int:
    """In how many parts a curve is cut whose chord leaves it by so many tolerances."""
    return min(max(math.ceil(math.sqrt(deviations)), 1), CURVE_PARTS_MAX)
