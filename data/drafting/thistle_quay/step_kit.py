"""A kit for the line drawings of sewing steps, so that all of them speak the same language.

White is the right side of a cloth, tinted and hatched the wrong side; lining is bluish, its wrong side hatched the
other way; what is of a second cloth or of ribbing is reddish; dots are interfacing. Black is what is there; red is what
is done now: dashes to sew, a line to cut, arrows to move. Thin black dashes were sewn before. Where layers are seen cut
through, each is a ribbon.

Shapes are put down by hand with few points, not to scale: nothing of a sold outline is in them. Paths are those of SVG
with `M L H V Q C Z` and absolute coordinates; y points down. Words stay within the drawing and off each other:
:meth:`Picture.svg` refuses others, by the widest face that phones have.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from html import escape
from itertools import pairwise

WIDTH, HEIGHT = 360, 240
INK, NOW, HATCH = "#26211d", "#a8322a", "#9a8f83"
LETTER = 15
LETTER_WIDTH = 0.6
"""How wide letters of DejaVu Sans are on average, in their own height: wider than all other common faces."""
HATCH_STEP = 15
DOT_STEP = 11
FLAT_STEPS = 12
"""Into how many straight pieces a curve is taken apart, to hatch what it encloses or to draw a line beside it."""

FACES = {
    "right": ("#fff", 0, ""),
    "wrong": ("#efe8dd", 1, HATCH),
    "lining": ("#dbe7ec", 0, ""),
    "lining-wrong": ("#dbe7ec", -1, "#7d949e"),
    "rib": ("#f6e3d3", 0, ""),
    "elastic": ("#d9d4ce", 0, ""),
}
"""Of each face: its tint; whether it is hatched upwards (1), downwards (-1) or not (0), and in which colour."""

Run = list[tuple[complex, ...]]
"""A part of a path: its first point, then of each stretch the handles and the end."""


def runs(path: str) -> list[Run]:
    """The parts of a path; one that is closed ends where it began.

    >>> runs("M0 0H4V3Z")
    [[(0j,), ((4+0j),), ((4+3j),), (0j,)]]
    """
    found: list[Run] = []
    for word, said in re.findall(r"([MLHVQTCZ])([^MLHVQTCZ]*)", path):
        numbers = [float(one) for one in re.findall(r"-?[0-9.]+", said)]
        if word == "Z":
            found[-1].append(found[-1][0])
        elif word in "HV":
            last = found[-1][-1][-1]
            found[-1] += [(complex(one, last.imag) if word == "H" else complex(last.real, one),) for one in numbers]
        elif word == "T":
            x, y = numbers
            last = found[-1][-1]
            found[-1].append((2 * last[-1] - last[-2], complex(x, y)))
        else:
            points = [complex(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
            each = {"Q": 2, "C": 3}.get(word, 1)
            if word == "M":
                found.append([])
            found[-1] += [tuple(points[at : at + each]) for at in range(0, len(points), each)]
    return found


def path_of(run: Run) -> str:
    """The path of a part, with whole numbers where they are whole."""
    words = {1: "L", 2: "Q", 3: "C"}
    rows = [f"M{_at(run[0][0])}"]
    rows += [words[len(stretch)] + " ".join(map(_at, stretch)) for stretch in run[1:]]
    closed = len(run) > 1 and run[-1] == run[0]
    return "".join(rows[:-1] if closed else rows) + ("Z" if closed else "")


def mirrored(path: str, axis: float = WIDTH / 2) -> str:
    """The path on the other side of an upright line."""
    return "".join(
        path_of([tuple(complex(2 * axis - p.real, p.imag) for p in stretch) for stretch in run]) for run in runs(path)
    )


def both(half: str, axis: float = WIDTH / 2) -> str:
    """A closed path from its half, which begins and ends on an upright line.

    >>> both("M180 20H100V90H180")
    'M180 20L100 20L100 90L180 90L260 90L260 20Z'
    """
    (run,) = runs(half)
    (other,) = runs(mirrored(half, axis))
    return path_of(run + backwards(other)[1:])


def backwards(run: Run) -> Run:
    """The same part, begun at its end."""
    turned: Run = [(run[-1][-1],)]
    for at in range(len(run) - 1, 0, -1):
        turned.append((*reversed(run[at][:-1]), run[at - 1][-1]))
    return turned


def moved(path: str, x: float, y: float) -> str:
    """The path elsewhere."""
    by = complex(x, y)
    return "".join(path_of([tuple(p + by for p in stretch) for stretch in run]) for run in runs(path))


def part(curve: str, begin: float, end: float) -> str:
    """A part of one curve (a path with a single stretch), from one share of it to another."""
    ((start,), handles), *_ = runs(curve)
    all_of = (start, *handles)
    blended = []
    for at in range(len(all_of)):
        shares = [end] * at + [begin] * (len(all_of) - 1 - at)
        level = list(all_of)
        for share in shares:
            level = [a + (b - a) * share for a, b in pairwise(level)]
        blended.append(level[0])
    return path_of([(blended[0],), tuple(blended[1:])])


def joined(*paths: str, closed: bool = True) -> str:
    """One path out of several that follow one another; gaps are bridged straight."""
    whole: Run = []
    for path in paths:
        (run,) = runs(path)
        whole += [(run[0][0],), *run[1:]] if not whole or abs(whole[-1][-1] - run[0][0]) > 0.5 else run[1:]
    return path_of([*whole, (whole[0][-1],)] if closed else whole)


def turned(path: str) -> str:
    """The path begun at its end."""
    return "".join(path_of(backwards(run)) for run in runs(path))


def beside(path: str, distance: float) -> str:
    """A line at an even distance from an open path, to the right of the way along it (to the left: negative)."""
    (run,) = runs(path)
    points = _corners(run)
    corners = [point for at, point in enumerate(points) if not at or abs(point - points[at - 1]) > 0.1]
    sides = [(b - a) / abs(b - a) * 1j for a, b in pairwise(corners)]
    found = [corners[0] + sides[0] * distance]
    for at, (before, after) in enumerate(pairwise(sides), 1):
        middle = before + after
        found.append(corners[at] + middle * (2 * distance / abs(middle) ** 2 if abs(middle) > 0.5 else distance))
    found.append(corners[-1] + sides[-1] * distance)
    return "M" + "L".join(_at(point) for point in found)


class Picture:
    """One drawing, put together from below upwards: what comes later lies on what came before."""

    def __init__(self, seen: str, height: int = HEIGHT) -> None:
        """Begin a drawing; `seen` says in words what is seen, for those who do not see it."""
        self.seen, self.height = seen, height
        self._rows: list[str] = []
        self._leads: list[str] = []
        self._ends: list[str] = []
        self._plates: list[str] = []
        self._lines: list[str] = []
        self._words: list[tuple[float, float, float, float, str]] = []

    def cloth(self, path: str, face: str = "right", *, edge: str = INK) -> None:
        """A piece of cloth that lies with this face up."""
        tint, way, colour = FACES[face]
        if way:
            self._put(path, fill=tint, stroke="none")
            self._put(_hatching(path, way), stroke=colour, stroke_width=1)
            self._put(path, stroke=edge)
        else:
            self._put(path, fill=tint, stroke=edge)

    def dots(self, path: str) -> None:
        """Interfacing on an area."""
        self._put(_dotting(path), stroke="#4d463f", stroke_width=3, stroke_dasharray=f"0.1 {DOT_STEP - 0.1}")

    def layer(self, path: str, face: str = "right") -> None:
        """A layer seen cut through, as a ribbon along a line; hatched faces are told by their tint alone."""
        self._put(path, stroke_width=10, stroke_linecap="butt")
        self._put(path, stroke=FACES[face][0], stroke_width=6.2, stroke_linecap="butt")

    def stitch(self, path: str) -> None:
        """A line that is sewn now."""
        self._put(path, stroke=NOW, stroke_width=2.6, stroke_dasharray="8 5", stroke_linecap="butt")

    def sewn(self, path: str) -> None:
        """A line that was sewn before."""
        self._put(path, stroke_width=1.2, stroke_dasharray="5 3.5", stroke_linecap="butt")

    def line(self, path: str, width: float = 1.2) -> None:
        """A line of the cloth: a seam, an edge seen through, a crease."""
        self._put(path, stroke_width=width)

    def fold(self, path: str) -> None:
        """A line along which cloth is or will be folded."""
        self._put(path, stroke_width=1.4, stroke_dasharray="12 4 2 4", stroke_linecap="butt")

    def chalk(self, path: str) -> None:
        """A line drawn with chalk."""
        self._put(path, stroke="#5d7f8c", stroke_width=2, stroke_dasharray="3 4")

    def red(self, path: str, width: float = 2.2) -> None:
        """Something that is done now and is neither sewn nor moved: a snip, a cut."""
        self._put(path, stroke=NOW, stroke_width=width)

    def cut(self, path: str, *, scissors: bool = True) -> None:
        """A line along which cloth is cut; a pair of scissors stands before its beginning."""
        self.red(path)
        if scissors:
            run = runs(path)[0]
            at = run[0][0]
            way = (run[1][0] - at) / abs(run[1][0] - at)
            tip, cross = at + way * 4, at - way * 9
            for side in (1j, -1j):
                ring = cross - way * 10 + way * side * 6
                self._put(f"M{_at(tip + way * side * 5)}L{_at(ring)}", stroke=NOW, stroke_width=1.6)
                self._circle(ring - way * 3, 4, stroke=NOW, stroke_width=1.6, fill="#fff")

    def arrow(self, path: str) -> None:
        """A movement; it ends in a head."""
        run = runs(path)[-1]
        end, before = run[-1][-1], run[-1][-2] if len(run[-1]) > 1 else run[-2][-1]
        way = (end - before) / abs(end - before)
        self._put(path, stroke=NOW, stroke_width=2)
        self._put(
            f"M{_at(end - way * 10 + way * 5j)}L{_at(end)}L{_at(end - way * 10 - way * 5j)}", stroke=NOW, stroke_width=2
        )

    def notch(self, x: float, y: float, towards: float, length: float = 9) -> None:
        """A snip in an edge; `towards` is the way into the cloth in degrees, 0 to the right, 90 down."""
        way = complex(math.cos(math.radians(towards)), math.sin(math.radians(towards)))
        self._put(f"M{_at(complex(x, y))}L{_at(complex(x, y) + way * length)}", stroke_width=2.6)

    def button(self, x: float, y: float, radius: float = 9) -> None:
        """A button with four holes."""
        at = complex(x, y)
        self._circle(at, radius, fill="#fff")
        dots = "".join(f"M{_at(at + hole * radius * 0.3)}h.01" for hole in (1 + 1j, 1 - 1j, -1 + 1j, -1 - 1j))
        self._put(dots, stroke_width=2.2)

    def snap(self, x: float, y: float, radius: float = 8) -> None:
        """A snap: a ring in a ring."""
        self._circle(complex(x, y), radius, fill="#fff")
        self._circle(complex(x, y), radius * 0.45)

    def ring(self, x: float, y: float, radius: float) -> None:
        """A red ring round something to be looked at."""
        self._circle(complex(x, y), radius, stroke=NOW, stroke_width=1.6)

    def pin(self, x: float, y: float, towards: float, length: float = 22) -> None:
        """A pin, from its head on."""
        way = complex(math.cos(math.radians(towards)), math.sin(math.radians(towards)))
        self._put(f"M{_at(complex(x, y))}L{_at(complex(x, y) + way * length)}", stroke_width=1.4)
        self._circle(complex(x, y), 3, fill=INK, stroke="none")

    def word(
        self,
        x: float,
        y: float,
        said: str,
        anchor: str = "middle",
        *,
        to: Sequence[float] = (),
        plate: bool = False,
    ) -> None:
        """A few words, their base line at y; `to`: a thin line leads from them to this point. `plate`: on cloth.

        A further line after a line break.
        """
        lines = said.split("\n")
        wide = max(map(len, lines)) * LETTER * LETTER_WIDTH
        left = x - wide * {"start": 0, "middle": 0.5, "end": 1}[anchor]
        top, bottom = y - LETTER * 0.85, y + LETTER * (1.15 * (len(lines) - 1) + 0.25)
        if to:
            near = complex(to[0], min(max(to[1], top), bottom))
            if not left < to[0] < left + wide:
                near = complex(left - 3 if to[0] < left else left + wide + 3, (top + bottom) / 2)
            self._leads.append(f"M{_at(near)}L{_at(complex(*to))}")
            self._ends.append(f"M{_at(complex(*to))}h.01")
        if plate:
            self._plates.append(f"M{left - 2:.0f} {top:.0f}h{wide + 4:.0f}V{bottom:.0f}h{-wide - 4:.0f}Z")
        side = {} if anchor == "middle" else {"text_anchor": anchor}
        for at, line in enumerate(lines):
            self._lines.append(_element("text", escape(line), x=x, y=round(y + at * LETTER * 1.15, 1), **side))
        self._words.append((left, top, left + wide, bottom, said))

    def svg(self) -> str:
        """The file's text. Raises: ValueError where words leave the drawing or lie on each other."""
        for at, (left, top, right, bottom, said) in enumerate(self._words):
            if left < 2 or top < 2 or right > WIDTH - 2 or bottom > self.height - 2:
                raise ValueError(f"{said!r} leaves the drawing: {left:.0f} to {right:.0f}, {top:.0f} to {bottom:.0f}")
            for other in self._words[:at]:
                if left < other[2] and other[0] < right and top < other[3] and other[1] < bottom:
                    raise ValueError(f"{said!r} lies on {other[4]!r}")
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {self.height}" width="{WIDTH}" '
            f'height="{self.height}" role="img" aria-label="{escape(self.seen)}">'
        )
        group = '<g fill="none" stroke-width="2" stroke-linejoin="round" stroke-linecap="round"'
        # On paper the guide's own face, wherever it is printed; in a page the reader's.
        texts = f'<g fill="{INK}" font-family="Guide Text,sans-serif" font-size="{LETTER}" text-anchor="middle">'
        paper = f'<rect width="{WIDTH}" height="{self.height}" fill="#fff"/>'
        rows = [*self._rows]
        for paths, how in (
            (self._plates, {"fill": "#fff", "stroke": "none"}),
            (self._leads, {"stroke_width": 1}),
            (self._ends, {"stroke_width": 4.8}),
        ):
            if paths:
                rows.append(_element("path", d="".join(paths), **how))
        return "\n".join(
            [head, paper, f'{group} stroke="{INK}">', *rows, "</g>", texts, *self._lines, "</g>", "</svg>\n"]
        )

    def _put(self, path: str, **how: object) -> None:
        if path:
            self._rows.append(_element("path", d=path, **how))

    def _circle(self, at: complex, radius: float, **how: object) -> None:
        self._rows.append(_element("circle", cx=round(at.real, 1), cy=round(at.imag, 1), r=round(radius, 1), **how))


def _element(tag: str, said: str = "", **how: object) -> str:
    attributes = "".join(f' {name.replace("_", "-")}="{_plain(value)}"' for name, value in how.items())
    return f"<{tag}{attributes}>{said}</{tag}>" if said else f"<{tag}{attributes}/>"


def _plain(value: object) -> str:
    return f"{round(value, 1):g}" if isinstance(value, float) else str(value)


def _at(point: complex) -> str:
    return f"{round(point.real, 1):g} {round(point.imag, 1):g}"


def _corners(run: Run) -> list[complex]:
    """The part as straight pieces."""
    corners = [run[0][0]]
    for stretch in run[1:]:
        handles = (corners[-1], *stretch)
        count = FLAT_STEPS if len(stretch) > 1 else 1
        corners += [_on_curve(handles, step / count) for step in range(1, count + 1)]
    return corners


def _on_curve(handles: Sequence[complex], share: float) -> complex:
    """A point of a Bézier curve, found by halving between handles (de Casteljau)."""
    while len(handles) > 1:
        handles = [a + (b - a) * share for a, b in pairwise(handles)]
    return handles[0]


def _crossings(path: str, turn: complex, step: float) -> Iterator[tuple[float, float, float]]:
    """Of level lines through the path, turned by `turn`: height, and from where to where they lie within."""
    sides: list[tuple[complex, complex]] = []
    for run in runs(path):
        corners = [corner * turn for corner in _corners(run)]
        sides += zip(corners, corners[1:] + corners[:1], strict=True)
    heights = [end.imag for side in sides for end in side]
    for row in range(math.ceil(min(heights) / step), math.floor(max(heights) / step) + 1):
        level = row * step + 0.01
        cuts = sorted(
            a.real + (b.real - a.real) * (level - a.imag) / (b.imag - a.imag)
            for a, b in sides
            if (a.imag <= level) != (b.imag <= level)
        )
        yield from ((level, first, last) for first, last in zip(cuts[::2], cuts[1::2], strict=True))


def _hatching(path: str, way: int) -> str:
    turn = complex(1, way) / math.sqrt(2)
    back = turn.conjugate()
    rows = []
    for level, first, last in _crossings(path, turn, HATCH_STEP / math.sqrt(2)):
        begin, end = complex(first, level) * back, complex(last, level) * back
        if abs(end - begin) > 4:
            x, y = round(begin.real), round(begin.imag)
            across = round(end.real) - x
            rows.append(f"M{x} {y}l{across}{-way * across:+d}")
    return "".join(rows)


def _dotting(path: str) -> str:
    rows = []
    for level, first, last in _crossings(path, 1, DOT_STEP * 0.8):
        shift = DOT_STEP / 2 if round(level / (DOT_STEP * 0.8)) % 2 else 0
        begin = math.ceil((first + 3 - shift) / DOT_STEP) * DOT_STEP + shift
        if begin <= last - 3:
            rows.append(f"M{begin:g} {level:.0f}H{last - 3:.0f}")
    return "".join(rows)
