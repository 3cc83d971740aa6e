"""What does the garment look like? Front and back as a small line drawing that follows the choices.

The parts come from the spec sheet, already placed: x = 0 is the garment's centre line, y up, millimetres. The frame is
that of all parts of all choices, so the drawing does not jump when a choice changes. Lines take the colour of the
text; a style sheet may fill `bs-part` with the colour of the paper, so that later parts hide what lies under them.

>>> path([[0, 0], [10, 0], [10, 10]])
'M0 0L10 0L10 10Z'
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .conditions import SIZE, holds
from .fragments import Fragment, Said, escaped
from .request import Request, Sheet

GENTLE_TAN = (84, 100)
"""A corner that turns by less than the angle with this tangent (40°) belongs to a curve and is rounded. Our choice."""
GAP_MM = 40
"""Between the two views, in mm of the drawing. Our choice."""
MARGIN_MM = 8
"""Round the drawing, so that thick lines are not cut off. Our choice."""

VIEWS = ("front", "back")
Points = Sequence[Sequence[int]]


def drawing_fragment(request: Request) -> Fragment:
    """Fragment `drawing`: both views side by side as inline SVG, its title saying the choices in words."""
    sheet = request.sheet
    conditions = [part["when"] for view in VIEWS for part in sheet["drawing"][view]]
    depends_on = request.depends(*conditions, size=False)
    chosen = request.chosen if SIZE in depends_on else {n: w for n, w in request.chosen.items() if n != SIZE}
    title = _title(sheet, chosen, depends_on)
    return Fragment(
        name="drawing",
        kind="drawing",
        said=Said(text=title, text_inch=title, html=svg(sheet, chosen, title)),
        data={"size_drawn": sheet["drawing"]["size"]},
        depends_on=depends_on,
    )


def svg(sheet: Sheet, chosen: Mapping[str, str], title: str) -> str:
    """The drawing for a completed set of choices, as an SVG element; empty for a sheet without drawing parts."""
    half, low, high = frame(sheet)
    if not half:
        return ""
    width, height = 4 * half + GAP_MM + 2 * MARGIN_MM, high - low + 2 * MARGIN_MM
    groups = []
    for view, centre in zip(VIEWS, (half, 3 * half + GAP_MM), strict=True):
        groups.append(f'<g class="bs-view bs-{view}">{_parts(sheet, chosen, view, centre, high)}</g>')
    return (
        f'<svg class="bs-drawing" role="img" viewBox="0 0 {width} {height}" xmlns="http://www.w3.org/2000/svg"'
        ' fill="none" stroke="currentColor" stroke-width="2" stroke-linejoin="round">'
        f"<title>{escaped(title)}</title>{''.join(groups)}</svg>"
    )


def traced(
    sheet: Sheet,
    chosen: Mapping[str, str],
    view: str,
    lines: Sequence[tuple[Points, bool]],
    title: str,
) -> str:
    """One view of the garment with lines marked on it, as an SVG element; empty for a sheet without drawing parts.

    Arguments: the sheet; a completed set of choices; the view; each line in the drawing's own coordinates, and
    whether it is there on both sides; what the marks are, in words.
    """
    half, low, high = frame(sheet)
    if not half:
        return ""
    width, height = 2 * half + 2 * MARGIN_MM, high - low + 2 * MARGIN_MM
    marks = []
    for line, both_sides in lines:
        for side in (1, -1) if both_sides else (1,):
            at = [f"{MARGIN_MM + half + side * x} {MARGIN_MM + high - y}" for x, y in line]
            marks.append(f'<path class="bs-trace" d="M{"L".join(at)}"/>')
    return (
        f'<svg class="bs-drawing bs-traced" role="img" viewBox="0 0 {width} {height}"'
        ' xmlns="http://www.w3.org/2000/svg" fill="none" stroke="currentColor" stroke-width="2"'
        f' stroke-linejoin="round"><title>{escaped(title)}</title><g class="bs-view bs-{view}">'
        f"{_parts(sheet, chosen, view, half, high)}</g>{''.join(marks)}</svg>"
    )


def _parts(sheet: Sheet, chosen: Mapping[str, str], view: str, centre: int, high: int) -> str:
    paths = []
    for part in sheet["drawing"][view]:
        if holds(part["when"], chosen):
            for side in (1, -1) if part["both_sides"] else (1,):
                at = [(MARGIN_MM + centre + side * x, MARGIN_MM + high - y) for x, y in part["outline"]]
                paths.append(f'<path class="bs-part bs-line" d="{path(at)}"/>')
    return "".join(paths)


def frame(sheet: Sheet) -> tuple[int, int, int]:
    """Half the breadth of a view, and the lowest and highest y, over all parts of all choices, in mm."""
    points = [point for view in VIEWS for part in sheet["drawing"][view] for point in part["outline"]]
    if not points:
        return 0, 0, 0
    ys = [y for _, y in points]
    return max(abs(x) for x, _ in points), min(ys), max(ys)


def path(points: Points | Sequence[tuple[int, int]]) -> str:
    """SVG path data of a closed outline: gentle corners become curves through the middles of their sides.

    Arguments: whole millimetres, closed without repeating the first point.
    """
    n = len(points)
    gentle = [_gentle(points[at - 1], points[at], points[(at + 1) % n]) for at in range(n)]
    start = points[0] if not gentle[0] else _middle(points[-1], points[0])
    parts = [f"M{start[0]} {start[1]}"]
    for at in range(n):
        here, after = points[at], points[(at + 1) % n]
        if gentle[at]:
            end = _middle(here, after)
            parts.append(f"Q{here[0]} {here[1]} {end[0]} {end[1]}")
        elif at:
            parts.append(f"L{here[0]} {here[1]}")
        if not gentle[at] and at + 1 < n and gentle[at + 1]:
            end = _middle(here, after)
            parts.append(f"L{end[0]} {end[1]}")
    if not gentle[-1] and gentle[0]:
        parts.append(f"L{start[0]} {start[1]}")
    return "".join(parts) + "Z"


def _gentle(before: Sequence[int], here: Sequence[int], after: Sequence[int]) -> bool:
    # Whole numbers throughout: an angle from a mathematics library might differ in its last digit on a phone.
    ax, ay = here[0] - before[0], here[1] - before[1]
    bx, by = after[0] - here[0], after[1] - here[1]
    along, across = ax * bx + ay * by, abs(ax * by - ay * bx)
    return along > 0 and across * GENTLE_TAN[1] < along * GENTLE_TAN[0]


def _middle(one: Sequence[int], other: Sequence[int]) -> tuple[int, int]:
    return (one[0] + other[0]) // 2, (one[1] + other[1]) // 2


def _title(sheet: Sheet, chosen: Mapping[str, str], names: Sequence[str]) -> str:
    said: list[str] = []
    for choice in sheet["choices"]:
        word: Any = chosen.get(choice["name"])
        if choice["name"] in names and word is not None:
            title = next(one["title"] for one in choice["alternatives"] if one["name"] == word)
            said.append(f"{choice['title']}: {title}")
    if SIZE in names and SIZE in chosen:
        said.append(f"Size {chosen[SIZE]}")
    return ". ".join([f"{sheet['name']}, front and back", *said]) + "."
