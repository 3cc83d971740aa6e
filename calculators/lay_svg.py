"""What does a lay look like? A drawing in pencil lines, true to scale, that can be read on a small phone.

The length of cloth runs down the page and its width across, so a lay of 140 cm cloth is as wide as the phone and no
wider. One unit of the drawing is a millimetre of cloth. Type is set so large that it comes out at 11 pixels where the
drawing is 320 pixels wide; a name that has no room in its piece stands in the list below, under the piece's number.
Colours and faces of type are left to style sheets; nothing here needs one to be legible.

>>> type_size(700, nap=False), type_size(1500, nap=True)
(27, 62)
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .drawing import path
from .fragments import escaped
from .grain_arrow import off_grain_arrow
from .labels import Points, arrow_run, room, rooms, text_width, ways_to_wrap
from .lay_file import Lying
from .stripe_svg import Repeat, mark_notch, stripe_lines
from .strips import SELVEDGE_MM, Table

TYPE_PX, PHONE_PX = 11, 320
"""Type of 11 px can be read; a phone of 360 px leaves 320 for the drawing. Our choice."""
LEADING = (12, 10)
"""Lines of a label lie this far apart, as part of the type size. Our choice."""
FREE_LINES, FREE_SIDES = 1, (8, 10)
"""Free above and below a label in quarters of a line, and beside it, both sides together, as part of the type size."""
RULER = (26, 10)
NAP_COLUMN = (22, 10)
EDGE = (4, 10)
"""Columns beside the cloth as parts of the type size: the ruler, the nap arrow, nothing. Our choice."""

SECOND_TINT = "0.12"
"""How much of the ink shades a second garment's pieces: seen on paper and in the dark, and names stay legible on it."""

NO_BREAK = "\u00a0"

SCALES = (5, 10, 20, 25, 50)
PAPER_MM = (180, 250)
"""A drawing is printed at the first of these scales (1 to so many) at which it fits on this much of a sheet of A4."""

CM_RULER = (100, 5, 10, 20)
INCH_RULER = (254, 2, 10, 10)
"""Tenths of a millimetre in one unit; units between short ticks, between long ones, between figures. Our choice."""


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """Measures of one drawing in mm: type size, the cloth's left edge, top, width and length, and the whole."""

    size: int
    left: int
    top: int
    cloth: int
    length: int
    width: int
    height: int


@dataclass(frozen=True, kw_only=True)
class Marked:
    """A piece to be drawn: its number in the list, its name, how many it gives, which face is up; ``whose`` it is in a
    lay of two garments."""

    number: int
    name: str
    how: str
    lying: Lying
    grain: str = "lengthwise"
    whose: str = ""

    @property
    def face(self) -> str:
        """The printed side of the paper piece, up or down."""
        return "face down" if self.lying.mirrored else "face up"


def type_size(cloth_mm: int, *, nap: bool) -> int:
    """The type size in mm of cloth for a drawing of cloth so wide."""
    beside = RULER[0] + (NAP_COLUMN[0] if nap else EDGE[0])
    return -(-TYPE_PX * cloth_mm * 10 // (10 * PHONE_PX - TYPE_PX * beside))


def lay_svg(
    pieces: Sequence[Marked],
    *,
    table: Table,
    length_mm: int,
    nap: bool,
    stretch: bool = False,
    name: str,
    title: str,
    about: str,
    repeat: Repeat | None = None,
) -> tuple[str, int]:
    """The lay as an SVG element, and the scale (1 to so many) at which its size on paper is stated.

    Arguments: the pieces; how the cloth lies on the table; the lay's length in mm; whether the cloth has a nap; whether
    it stretches across, as a knit; a name that no other drawing of the page has; its title and what it shows, for
    those who can't see it; the repeat with which the marks of the pieces are in step, if any.
    """
    sheet = _sheet(table.cloth_mm, length_mm, nap, stretch)
    striped = "" if repeat is None else " bs-striped"
    scale = next((one for one in SCALES if _fits(sheet, one)), SCALES[-1])
    inner = [
        f'<rect class="bs-cloth" x="{sheet.left}" y="{sheet.top}" width="{sheet.cloth}" height="{sheet.length}"/>',
        _edges(sheet, table),
        _ruler(sheet, "in-cm", CM_RULER),
        _ruler(sheet, "in-inch", INCH_RULER),
        _repeats(sheet, table, repeat, pieces) if repeat is not None else "",
        *(_piece(sheet, one, table, nap) for one in pieces),
        _nap(sheet) if nap else "",
        _stretch(sheet) if stretch else "",
    ]
    return (
        f'<svg class="bs-lay{striped}" role="img" aria-labelledby="{name}-title {name}-about" data-scale="{scale}"'
        f' width="{_tenths(sheet.width * 10 // scale)}mm" height="{_tenths(sheet.height * 10 // scale)}mm"'
        f' viewBox="0 0 {sheet.width} {sheet.height}" xmlns="http://www.w3.org/2000/svg" fill="none"'
        f' stroke="currentColor" stroke-width="{_tenths(sheet.size)}" stroke-linejoin="round"'
        f' font-size="{sheet.size}"><title id="{name}-title">{escaped(title)}</title>'
        f'<desc id="{name}-about">{escaped(about)}</desc>{"".join(inner)}</svg>'
    ), scale


def _sheet(cloth: int, length_mm: int, nap: bool, stretch: bool) -> Sheet:
    size = type_size(cloth, nap=nap)
    left = size * RULER[0] // RULER[1]
    right = size * (NAP_COLUMN[0] if nap else EDGE[0]) // 10
    top = 2 * size
    return Sheet(
        size=size, left=left, top=top, cloth=cloth, length=length_mm, width=left + cloth + right,
        height=length_mm + 2 * top + (2 * size if stretch else 0),
    )  # fmt: skip


def _fits(sheet: Sheet, scale: int) -> bool:
    return sheet.width <= PAPER_MM[0] * scale and sheet.height <= PAPER_MM[1] * scale


def _edges(sheet: Sheet, table: Table) -> str:
    """Cut ends, selvedges and folds, drawn and named; beside a flap, which cloth is double and which single."""
    right, bottom = sheet.left + sheet.cloth, sheet.top + sheet.length
    thin = _tenths(sheet.size // 2)
    lines = [f'<path class="bs-cut-end" d="M{sheet.left} {y}H{right}"/>' for y in (sheet.top, bottom)]
    meet = len(table.folds_mm) > 1
    for at in table.selvedges_mm:
        x = sheet.left + at
        lines.append(f'<path class="bs-selvedge" d="M{x} {sheet.top}V{bottom}"/>')
        for side in (-1, 1) if meet else (1,) if at == 0 else (-1,):
            inside = x + side * SELVEDGE_MM
            lines.append(f'<path class="bs-selvedge" stroke-width="{thin}" d="M{inside} {sheet.top}V{bottom}"/>')
    dash = f"{sheet.size} {sheet.size // 2}"
    for at in table.folds_mm:
        lines.append(f'<path class="bs-fold" stroke-dasharray="{dash}" d="M{sheet.left + at} {sheet.top}V{bottom}"/>')
    left_word = "fold" if table.folds_mm else "selvedge"
    right_word = "fold" if meet else "selvedge"
    above = (left_word, "selvedges" if meet else "cut end", right_word)
    below = ("double", "cut end", "single") if table.folds_mm and table.single_from_mm is not None else above
    words = []
    for y, (left, middle, end) in (
        (sheet.top - sheet.size // 2, above),
        (bottom + sheet.size * 5 // 4, below),
    ):
        for x, anchor, word in (
            (sheet.left, "start", left),
            (sheet.left + sheet.cloth // 2, "middle", middle),
            (right, "end", end),
        ):
            words.append(_text("bs-edge-word", x, y, anchor, word))
    return _single(sheet, table) + "".join(lines + words)


def _single(sheet: Sheet, table: Table) -> str:
    """The strip beside a flap, where the cloth lies single, in a tone of its own."""
    if not table.folds_mm or table.single_from_mm is None:
        return ""
    x, wide = sheet.left + table.single_from_mm, sheet.cloth - table.single_from_mm
    return (
        f'<rect class="bs-single" x="{x}" y="{sheet.top}" width="{wide}" height="{sheet.length}" stroke="none"'
        ' fill="currentColor" fill-opacity="0.06"/>'
    )


def _repeats(sheet: Sheet, table: Table, repeat: Repeat, pieces: Sequence[Marked]) -> str:
    """The repeats of the cloth, under the pieces."""
    marks = [one.lying.mark for one in pieces if one.lying.mark is not None]
    return stripe_lines(
        repeat, marks, left=sheet.left, top=sheet.top, wide=sheet.cloth, long=sheet.length, from_mm=table.from_mm,
        thin=_tenths(sheet.size // 2),
    )  # fmt: skip


def _ruler(sheet: Sheet, system: str, ruler: tuple[int, int, int, int]) -> str:
    """A ruler along the cloth's left edge, in one system of measures."""
    unit, short, long, figure = ruler
    ticks, figures = [], []
    for at in range(0, sheet.length * 10 // unit + 1, short):
        reach = sheet.size // 2 if at % long == 0 else sheet.size // 4
        y = _tenths(sheet.top * 10 + at * unit)
        ticks.append(f"M{sheet.left} {y}h-{reach}")
        if at % figure == 0:
            below = _tenths(sheet.top * 10 + at * unit + sheet.size * 35 // 10)
            figures.append(_text("bs-ruler-text", sheet.left - sheet.size * 6 // 10, below, "end", f"{at}"))
    unit_word = "cm" if system == "in-cm" else "in"
    figures.append(_text("bs-ruler-text", sheet.left - sheet.size * 6 // 10, sheet.size * 9 // 10, "end", unit_word))
    thin = _tenths(sheet.size // 2)
    return (
        f'<g class="{system}"><path class="bs-ruler" stroke-width="{thin}" d="{"".join(ticks)}"/>{"".join(figures)}</g>'
    )


def _piece(sheet: Sheet, piece: Marked, table: Table, nap: bool) -> str:
    """One piece: outline, label, grain arrow; the lay's x runs down the drawing, its y across."""
    across = sheet.left + table.from_mm
    points = [[across + y, sheet.top + x] for x, y in piece.lying.points]
    second = piece.lying.garment == 1 and piece.whose != ""
    classes = ["bs-laid", *(["bs-face-down"] if piece.lying.mirrored else []), *(["bs-second"] if second else [])]
    outline = f' fill="currentColor" fill-opacity="{SECOND_TINT}" stroke-dasharray="{_broken(sheet)}"' if second else ""
    label, taken = _label(sheet, points, piece)
    if piece.grain == "lengthwise":
        run = arrow_run(points, sheet.size, taken)
        arrow = _arrow(sheet, run, nap, piece.lying.turned) if run else ""
    else:
        arrow = off_grain_arrow(points, piece.grain, piece.lying, sheet.size, taken, nap=nap)
    mark = piece.lying.mark
    notch = "" if mark is None else mark_notch(mark, left=across, top=sheet.top, size=sheet.size)
    return f'<g class="{" ".join(classes)}"><path d="{path(points)}"{outline}/>{arrow}{notch}{label}</g>'


def _broken(sheet: Sheet) -> str:
    """The broken outline of a second garment: strokes longer than those of a fold, with short gaps."""
    return f"{2 * sheet.size} {sheet.size // 2}"


def _label(sheet: Sheet, points: Points, piece: Marked) -> tuple[str, tuple[int, int, int, int]]:
    """The fullest label that fits, upright whichever way the piece lies; and the rectangle it takes."""
    leading = sheet.size * LEADING[0] // LEADING[1]
    # A number stays with the word behind it.
    names = ways_to_wrap(f"{piece.number}{NO_BREAK}{piece.name}")
    hows = ways_to_wrap(piece.how.replace(", ", f",{NO_BREAK}"))
    # Of two garments the one it belongs to stands right under the name.
    of = [piece.whose.replace(" ", NO_BREAK)] if piece.whose else []
    tried = [(name, [*of, *how, piece.face]) for name in names for how in hows]
    tried += [(name, [*of, piece.face]) for name in names] + [(name, of) for name in names]
    counts = {len(name) + len(small) for name, small in tried}
    places = {count: rooms(points, leading, count, free=FREE_LINES) for count in counts}
    beside = sheet.size * FREE_SIDES[0] // FREE_SIDES[1]
    for name, small in tried:
        width = max(text_width(line, sheet.size) for line in name + small) + beside
        place = room(places[len(name) + len(small)], width)
        if place is not None:
            return _lines(sheet, name, small, place.middle, place.top)
    widest = max(rooms(points, leading, 1), key=lambda place: place.width, default=None)
    middle, top = (widest.middle, widest.top) if widest is not None else _centre(points, leading)
    return _lines(sheet, [f"{piece.number}"], [], middle, top)


def _lines(
    sheet: Sheet, name: Sequence[str], small: Sequence[str], middle: int, top: int
) -> tuple[str, tuple[int, int, int, int]]:
    leading = sheet.size * LEADING[0] // LEADING[1]
    lines = [*name, *small]
    said = []
    for at, line in enumerate(lines):
        kind = "bs-name" if at < len(name) else "bs-small"
        said.append(_text(kind, middle, top + at * leading + sheet.size * 9 // 10, "middle", line))
    half = max(text_width(line, sheet.size) for line in lines) // 2
    return "".join(said), (middle - half, top, middle + half, top + len(lines) * leading)


def _centre(points: Points, leading: int) -> tuple[int, int]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs) + max(xs)) // 2, (min(ys) + max(ys) - leading) // 2


def _arrow(sheet: Sheet, run: tuple[int, int, int], nap: bool, turned: bool) -> str:
    """The grain line: an arrow at both ends, with nap at one end, which shows whether the piece was turned."""
    x, low, high = run
    spare = (high - low) // 8
    low, high = low + spare, high - spare
    if high - low > 6 * sheet.size:
        middle = (low + high) // 2
        low, high = middle - 3 * sheet.size, middle + 3 * sheet.size
    head = sheet.size // 4
    ends = []
    if not nap or not turned:
        ends.append(f"M{x - head} {high - 2 * head}L{x} {high}L{x + head} {high - 2 * head}")
    if not nap or turned:
        ends.append(f"M{x - head} {low + 2 * head}L{x} {low}L{x + head} {low + 2 * head}")
    thin = _tenths(sheet.size * 6 // 10)
    return f'<path class="bs-grain" stroke-width="{thin}" d="M{x} {low}V{high}{"".join(ends)}"/>'


def _nap(sheet: Sheet) -> str:
    """The direction of the nap beside the cloth: the same for every piece."""
    x = sheet.left + sheet.cloth + sheet.size * 11 // 10
    start, end, head = sheet.top, min(sheet.top + 5 * sheet.size, sheet.top + sheet.length), sheet.size // 3
    arrow = f"M{x} {start}V{end}M{x - head} {end - 2 * head}L{x} {end}L{x + head} {end - 2 * head}"
    word = _text("bs-edge-word", x, end + sheet.size * 12 // 10, "middle", "nap")
    return f'<path class="bs-nap" d="{arrow}"/>{word}'


def _stretch(sheet: Sheet) -> str:
    """Below the cloth, from selvedge to selvedge: which way a knit stretches most."""
    y, half, head = sheet.top + sheet.length + sheet.size * 29 // 10, text_width("stretch", sheet.size), sheet.size // 3
    left, right = sheet.left, sheet.left + sheet.cloth
    middle = (left + right) // 2
    arrow = f"M{middle - half} {y}H{left}M{left + 2 * head} {y - head}L{left} {y}L{left + 2 * head} {y + head}"
    arrow += f"M{middle + half} {y}H{right}M{right - 2 * head} {y - head}L{right} {y}L{right - 2 * head} {y + head}"
    word = _text("bs-edge-word", middle, y + sheet.size * 4 // 10, "middle", "stretch")
    return f'<path class="bs-nap" d="{arrow}"/>{word}'


def _text(kind: str, x: int, y: int | str, anchor: str, words: str) -> str:
    return (
        f'<text class="{kind}" x="{x}" y="{y}" text-anchor="{anchor}" fill="currentColor" stroke="none">'
        f"{escaped(words)}</text>"
    )


def _tenths(count: int) -> str:
    """A number of tenths as a decimal number, the same on every Python."""
    ones, rest = divmod(count, 10)
    return f"{ones}.{rest}" if rest else f"{ones}"
