"""Draws `pieces.svg` of the pattern that a new shop begins with: a bib, few pieces, three sizes, stitching lines.

Run `python -m tests.new.draw_template`; the drawing is committed, and a test compares. Millimetres, y down as SVG has
it, the fold at x = 0. The figures are drafted for this project: the neck is a quarter of an ellipse, and the strap
makes it up to the chart's neck girth and 60 mm of ease.
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

TARGET = (
    Path(__file__).parents[2] / "site_src" / "boltside" / "new" / "template" / "data" / "patterns" / "spoondrift"
    / "pieces.svg"
)  # fmt: skip
CIRCLE = 0.5522847498
"""Handle length of a cubic curve that draws a quarter of a circle: 4/3 · (√2 − 1)."""
SHOULDER_MM = 30
SIDE_BEGINS_MM = 110
OVERLAP_MM = 30
COLOURS = {"74": "#2f3e8f", "86": "#a3324f", "98": "#3c7a36"}

Point = tuple[float, float]


class Size(NamedTuple):
    """Figures of one size, in mm."""

    neck_half: float
    neck_depth: float
    width_half: float
    height: float
    corner: float
    pocket: float
    strap: float


SIZES = {
    "74": Size(45, 50, 110, 250, 60, 80, 163),
    "86": Size(47, 52, 115, 270, 62, 85, 166),
    "98": Size(49, 54, 120, 290, 64, 90, 170),
}


class Drawing(NamedTuple):
    """One piece in one size: path data, named points, interior lines."""

    path: str
    points: dict[str, Point]
    lines: dict[str, tuple[Point, Point]]


def at(x: float, y: float) -> str:
    """A point as path data has it."""
    return f"{x:.2f}".rstrip("0").rstrip(".") + "," + f"{y:.2f}".rstrip("0").rstrip(".")


def lower_corner(size: Size, bottom: float) -> str:
    """From the side round the corner to the fold at the bottom."""
    width, corner = size.width_half, size.corner
    handle = corner * CIRCLE
    return (
        f"L{at(width, bottom - corner)} C{at(width, bottom - corner + handle)} "
        f"{at(width - corner + handle, bottom)} {at(width - corner, bottom)} L{at(0, bottom)} Z"
    )


def body(size: Size) -> Drawing:
    """Half of the bib."""
    neck, depth, width, height = size.neck_half, size.neck_depth, size.width_half, size.height
    tip = neck + SHOULDER_MM
    path = (
        f"M{at(0, depth)} C{at(neck * CIRCLE, depth)} {at(neck, depth * CIRCLE)} {at(neck, 0)} L{at(tip, 0)} "
        f"C{at(tip, SIDE_BEGINS_MM / 2)} {at(width, SIDE_BEGINS_MM / 2)} {at(width, SIDE_BEGINS_MM)} "
        f"{lower_corner(size, height)}"
    )
    points = {
        "neck-centre": (0, depth), "neck-corner": (neck, 0), "shoulder-tip": (tip, 0),
        "side-low": (width, height - size.corner), "bottom-fold": (0, height),
        "pocket-side": (width, height - size.pocket), "pocket-fold": (0, height - size.pocket),
    }  # fmt: skip
    return Drawing(path, points, {"grain": ((30, 90), (30, height - 40))})


def pocket(size: Size) -> Drawing:
    """Half of the pocket, as the lower end of the bib."""
    width, height = size.width_half, size.pocket
    points = {
        "top-fold": (0, 0), "top-side": (width, 0), "side-low": (width, height - size.corner),
        "bottom-fold": (0, height),
    }  # fmt: skip
    return Drawing(
        f"M{at(0, 0)} L{at(width, 0)} {lower_corner(size, height)}", points, {"grain": ((30, 15), (30, height - 15))}
    )


def strap(size: Size) -> Drawing:
    """The strap, upright, sewn on at its lower end; closed, the other shoulder's edge lies at `overlap`."""
    length = size.strap
    points = {
        "far-left": (0, 0), "far-right": (SHOULDER_MM, 0), "near-right": (SHOULDER_MM, length),
        "near-left": (0, length),
    }  # fmt: skip
    path = "M" + " L".join(at(*point) for point in points.values()) + " Z"
    return Drawing(path, {**points, "overlap": (0, OVERLAP_MM)}, {"grain": ((15, 30), (15, length - 30))})


def group(name: str, drawing: Drawing, colour: str, x: float, y: float) -> list[str]:
    """The lines of one piece in one size, shifted to its place on the sheet."""
    rows = [f'<g id="{name}" stroke="{colour}" transform="translate({x:g} {y:g})">']
    rows.append(f'  <path id="{name}.outline" d="{drawing.path}"/>')
    for label, (start, stop) in drawing.lines.items():
        rows.append(f'  <path id="{name}.line.{label}" d="M{at(*start)} L{at(*stop)}"/>')
    for label, (px, py) in drawing.points.items():
        rows.append(f'  <circle id="{name}.point.{label}" cx="{px:g}" cy="{py:g}" r="1"/>')
    return [*rows, "</g>"]


def sheet() -> str:
    """The whole drawing: the sizes of a piece beside one another."""
    rows = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<svg xmlns="http://www.w3.org/2000/svg" width="660mm" height="430mm" viewBox="0 0 660 430" fill="none" '
        'stroke-width="0.5">',
        "<title>Spoondrift, all pieces and sizes: stitching lines, true to scale</title>",
    ]
    for place, (label, size) in enumerate(SIZES.items()):
        colour = COLOURS[label]
        rows += group(f"body.{label}", body(size), colour, 20 + 150 * place, 20)
        rows += group(f"pocket.{label}", pocket(size), colour, 20 + 150 * place, 320)
        rows += group(f"strap.{label}", strap(size), colour, 480 + 60 * place, 20)
    return "\n".join([*rows, "</svg>", ""])


if __name__ == "__main__":
    TARGET.write_text(sheet(), encoding="utf-8")
