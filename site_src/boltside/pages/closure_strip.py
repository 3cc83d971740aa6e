"""Where to work buttonholes and set snaps, drawn true to scale on a strip of paper to print and lay along the line.

One SVG for each strip that differs, in millimetres. A strip longer than a sheet is drawn in columns, to be cut apart
and joined at the letters. Everything comes from the spec sheet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import ceil
from typing import Any

from boltside.calculators.carries import SIDES, copy_words
from boltside.calculators.closures import BEYOND_CENTRE_MM, buttonhole_mm
from boltside.calculators.fragments import escaped
from boltside.calculators.places import STRIPS, strip_name

Sheet = Mapping[str, Any]
Json = Mapping[str, Any]

COLUMN_MM = 46
"""A column is so wide: room for the widest usual overlap on one side, and a hole with its figure on the other."""
LONGEST_MM = 210
"""A column is at most so long, so that the whole fits on A4 and on US Letter with their margins."""
PAGE_WIDE_MM = 190
HEAD_MM, FOOT_MM = 34, 20
"""Above the columns: what this is. Below: the test length."""
TEST_MM = 100
"""Printed at 100 %, this is 100 mm long on paper."""
BAR_MM = 2.5
"""Half of what a bar at the end of a hole is wide, as drawn."""
AWAY_MM = 10
"""No column ends so near to a place or a seam."""
WIDEST_EDGE_MM = 20
"""An edge farther from the line than this is not drawn on the strip."""
JOINTS = "ABCDEFGH"


def strip_files(sheet: Sheet) -> Iterator[tuple[str, bytes]]:
    """Path, as seen from the pattern's page, and bytes of every paper strip of the pattern."""
    for notion in sheet["notions"]:
        for case in (notion.get("placed") or {"cases": ()})["cases"]:
            for size in case["sizes"]:
                for copy in _copies(sheet, notion):
                    text = strip_svg(sheet, notion, case, size, copy)
                    yield f"{STRIPS}/{strip_name(notion, case, size, copy)}.svg", text.encode("utf-8")


def strip_svg(sheet: Sheet, notion: Json, case: Json, size: str, copy: str | None) -> str:
    """One strip. Arguments: the sheet, the notion, the case and size, and the copy whose holes it shows (None: any)."""
    placed, row = notion["placed"], case["sizes"][size]
    columns = columns_of(row["line_mm"], [*row["mm"], *row["seams_mm"]])
    wide = max(TEST_MM + 12, len(columns) * COLUMN_MM + 4)
    high = HEAD_MM + max(stop - start for start, stop in columns) + FOOT_MM
    side = f", {copy_words(copy, seen=True)}" if copy in SIDES else ""
    each = f" {placed['each'][:1].upper()}{placed['each'][1:]}." if placed["each"] else ""
    right = case["right"].get(copy, case["right"].get(next(iter(case["right"]), "")))
    edge_mm = row["edge_mm"] if row["edge_mm"] is not None and row["edge_mm"] <= WIDEST_EDGE_MM else None
    heading = [f"{sheet['name']}, {notion['title']}", f"Size {size}. {case['piece']}{side}.{each}",
               f"Right side of the cloth up; the upper end at {_begins(notion)}.",
               "Print at 100 %. Check the 100 mm below."]  # fmt: skip
    drawn = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:g}mm" height="{high:g}mm" '
        f'viewBox="0 0 {wide:g} {high:g}" font-family="sans-serif" font-size="3.2" fill="#000" stroke="none">',
        f"<title>{escaped(f'{heading[0]}, size {size}{side}')}</title>",
        f'<rect width="{wide:g}" height="{high:g}" fill="#fff"/>',
    ]
    fit = wide - 8
    for number, line in enumerate(heading):
        squeeze = f' textLength="{fit:g}" lengthAdjust="spacingAndGlyphs"' if len(line) * 1.75 > fit else ""
        weight = ' font-weight="bold"' if not number else ""
        drawn.append(f'<text x="4" y="{6 + 5 * number}"{weight}{squeeze}>{escaped(line)}</text>')
    for number, (start, stop) in enumerate(columns):
        drawn += _column(notion, row, (start, stop), number, len(columns), edge_mm, right)
    drawn += [*_test_length(high - FOOT_MM + 12), "</svg>\n"]
    return "\n".join(drawn)


def columns_of(line_mm: float, marks_mm: Sequence[float]) -> list[tuple[float, float]]:
    """Where the strip is cut apart, in columns about as long as each other: from and to, in mm from the upper end.

    Argument: places and seams, to none of which a cut comes near.
    """
    count = ceil(line_mm / LONGEST_MM)
    columns, start = [], 0.0
    for number in range(1, count):
        stop = line_mm * number / count
        while any(abs(stop - at) < AWAY_MM for at in marks_mm) and stop > start + AWAY_MM:
            stop -= 1
        columns.append((start, stop))
        start = stop
    return [*columns, (start, line_mm)]


def _begins(notion: Json) -> str:
    """What the upper end of the line is: the words after "below" or "from"."""
    return str(notion["placed"]["from"].partition(" ")[2])


def _copies(sheet: Sheet, notion: Json) -> list[str | None]:
    """The copies that may carry the holes, None where no copy of its own does."""
    found: list[str | None] = [
        copy["name"]
        for item in sheet["items"]
        for copy in item["copies"]
        if any(one["what"] == notion["carried_by"] for one in copy["carries"])
    ]
    return list(dict.fromkeys(found)) or [None]


def _column(
    notion: Json,
    row: Json,
    span: tuple[float, float],
    number: int,
    count: int,
    edge_mm: float | None,
    right: bool | None,
) -> list[str]:
    """One column: its frame, the line, the edge, seams that cross, the joint marks, and every place."""
    start, stop = span
    left, middle = 2 + number * COLUMN_MM, 2 + number * COLUMN_MM + COLUMN_MM / 2
    top, bottom = float(HEAD_MM), HEAD_MM + stop - start
    towards = 1 if right in (True, None) else -1
    drawn = [
        f'<path d="M{left} {top:g}h{COLUMN_MM}V{bottom:g}h{-COLUMN_MM}z" fill="none" stroke="#000" stroke-width=".2" '
        'stroke-dasharray="3 1.5"/>',
        f'<path d="M{middle:g} {top:g}V{bottom:g}" stroke="#000" stroke-width=".25"/>',
    ]
    if edge_mm is not None:
        x = middle + towards * edge_mm
        drawn += [
            f'<path d="M{x:g} {top:g}V{bottom:g}" stroke="#000" stroke-width=".7"/>',
            _turned(x + (3.2 if towards > 0 else -1.1), (top + bottom) / 2, "finished edge"),
        ]
    if not number:
        drawn.append(f'<path d="M{left} {top:g}h{COLUMN_MM}" stroke="#000" stroke-width=".9"/>')
        # It may be longer than the column is wide.
        drawn.append(_words(left, top - 1.5, f"upper end: {_begins(notion)}", "start"))
    else:
        drawn += _joint(left, top, JOINTS[(number - 1) % len(JOINTS)], 1, towards)
    if number == count - 1:
        drawn.append(f'<path d="M{left} {bottom:g}h{COLUMN_MM}" stroke="#000" stroke-width=".9"/>')
        drawn.append(_words(middle, bottom + 4, "lower end"))
    else:
        drawn += _joint(left, bottom, JOINTS[number % len(JOINTS)], -1, towards)
    for at in row["seams_mm"]:
        if start < at < stop:
            y = top + at - start
            dashes = 'stroke="#000" stroke-width=".3" stroke-dasharray="1.5 1"'
            drawn.append(f'<path d="M{left} {y:g}h{COLUMN_MM}" {dashes}/>')
            drawn.append(_figure(left, y - 1, towards, "seam"))
    for at in row["mm"]:
        if start < at <= stop:
            drawn += _one(notion, middle, top + at - start, towards)
            drawn.append(_figure(left, top + at - start - 3, towards, f"{at:g}"))
    return drawn


def _one(notion: Json, x: float, y: float, towards: int) -> list[str]:
    """One button with its hole, or one snap, true to scale. Argument `towards`: 1 where the edge is to the right."""
    radius = notion["diameter_mm"] / 2
    drawn = [f'<path d="M{x - 1.5:g} {y:g}h3M{x:g} {y - 1.5:g}v3" stroke="#000" stroke-width=".2"/>']
    if "snap" in notion["kinds"]:
        drawn.append(f'<circle cx="{x:g}" cy="{y:g}" r="{radius:g}" fill="none" stroke="#000" stroke-width=".3"/>')
    if "button" in notion["kinds"]:
        long = buttonhole_mm(notion["diameter_mm"], notion["thickness_mm"])
        drawn.append(f'<circle cx="{x:g}" cy="{y:g}" r="{radius:g}" fill="none" stroke="#000" stroke-width=".15" '
                     'stroke-dasharray=".8 .8"/>')  # fmt: skip
        if notion["placed"]["holes"] == "along":
            low = y - BEYOND_CENTRE_MM
            bar = f"h{2 * BAR_MM}"
            path = f"M{x:g} {low:g}v{long:g}M{x - BAR_MM:g} {low:g}{bar}M{x - BAR_MM:g} {low + long:g}{bar}"
        else:
            begin = x + towards * BEYOND_CENTRE_MM
            end = begin - towards * long
            path = f"M{begin:g} {y:g}H{end:g}M{begin:g} {y - BAR_MM:g}v{2 * BAR_MM}M{end:g} {y - BAR_MM:g}v{2 * BAR_MM}"
        drawn.append(f'<path d="{path}" fill="none" stroke="#000" stroke-width=".6"/>')
    return drawn


def _joint(left: float, y: float, letter: str, down: int, towards: int) -> list[str]:
    """The mark at which two columns are joined: the letter between two arrows on the cut."""
    x = left + (4 if towards > 0 else COLUMN_MM / 2 + 4)
    return [
        f'<path d="M{left} {y:g}h{COLUMN_MM}" stroke="#000" stroke-width=".4"/>',
        f'<path d="M{x - 2:g} {y:g}l2 {3 * down}l2 {-3 * down}z" fill="#000"/>',
        f'<text x="{x + 3.5:g}" y="{y + (4 if down > 0 else -1.6):g}" font-weight="bold">{letter} to {letter}</text>',
    ]


def _figure(left: float, y: float, towards: int, words: str) -> str:
    """Words at the side of the column that is away from the edge."""
    x, anchor = (left + 1.5, "start") if towards > 0 else (left + COLUMN_MM - 1.5, "end")
    return f'<text x="{x:g}" y="{y:g}" text-anchor="{anchor}">{words}</text>'


def _words(x: float, y: float, words: str, anchor: str = "middle") -> str:
    return f'<text x="{x:g}" y="{y:g}" text-anchor="{anchor}">{escaped(words)}</text>'


def _turned(x: float, y: float, words: str) -> str:
    return f'<text transform="translate({x:g} {y:g}) rotate(-90)" text-anchor="middle" font-size="2.6">{words}</text>'


def _test_length(y: float) -> list[str]:
    """A line of 100 mm with a mark every 10 mm."""
    ticks = "".join(f"M{6 + at} {y - (2.5 if at % 50 == 0 else 1.5):g}V{y:g}" for at in range(0, TEST_MM + 1, 10))
    return [
        f'<path id="test-length" d="M6 {y:g}h{TEST_MM}" stroke="#000" stroke-width=".3"/>',
        f'<path d="{ticks}" stroke="#000" stroke-width=".3"/>',
        f'<text x="6" y="{y + 4.5:g}">this line is {TEST_MM} mm long</text>',
    ]
