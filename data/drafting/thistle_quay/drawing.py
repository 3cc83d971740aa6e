"""What a drafted piece is, and how it is written into `pieces.svg`.

The file is a plain SVG drawing: one user unit is one millimetre, y down. Each piece in each size is a group
`PIECE.SIZE` with one closed outline, named points as little circles, interior lines and areas. The sizes of a
piece lie nested in one another. `site_src/handbook/pattern-format.md` describes the same file for its reader.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise

from .curves import Chain, line, moved

SIZE_COLOURS = (
    *("#2f3e8f", "#7a3b8f", "#a3324f", "#a85a1c", "#7d7413", "#3c7a36", "#1f7a78", "#3467a8", "#5c5c5c"),
    *("#8f2f7a", "#7f4a2a", "#1f5f3f"),
)
"""One stroke colour a size, in the order of the sizes; dark enough on white paper."""
MARGIN_MM = 20.0
"""Free space between the nests of pieces and round the sheet."""
POINT_RADIUS_MM = 1
JOIN_TOLERANCE_MM = 1e-6


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """One piece in one size: outline as named stretches, further points, interior lines and areas (mm, y down).

    `outline` maps the name of the point at which a stretch begins to the stretch; together they close.
    """

    outline: Mapping[str, Chain]
    points: Mapping[str, complex] = field(default_factory=dict)
    lines: Mapping[str, Chain] = field(default_factory=dict)
    areas: Mapping[str, Chain] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse an outline or area that does not close, which would be a slip in the draft."""
        for name, chain in (("outline", self.whole_outline()), *self.areas.items()):
            for before, after in pairwise((*chain, chain[0])):
                if abs(before.end - after.start) > JOIN_TOLERANCE_MM:
                    raise ValueError(f"{name} has a gap between {before.end} and {after.start}")

    def whole_outline(self) -> Chain:
        """Return the closed outline as one chain."""
        return tuple(segment for stretch in self.outline.values() for segment in stretch)

    def named_points(self) -> dict[str, complex]:
        """Return all named points, those on the outline first."""
        return {name: stretch[0].start for name, stretch in self.outline.items()} | dict(self.points)

    def bounds(self) -> tuple[float, float, float, float]:
        """Return left, top, right and bottom of the outline's control points (mm); never smaller than the piece."""
        points = [
            point
            for segment in self.whole_outline()
            for point in (segment.start, segment.first_handle, segment.second_handle, segment.end)
        ]
        return (
            min(p.real for p in points),
            min(p.imag for p in points),
            max(p.real for p in points),
            max(p.imag for p in points),
        )


def straight_grain(at_x_mm: float, top_mm: float, bottom_mm: float) -> Chain:
    """Return a grain line that runs down the drawing."""
    return line(complex(at_x_mm, top_mm), complex(at_x_mm, bottom_mm))


def number_text(value_mm: float) -> str:
    """Return a coordinate with two decimals at most, the same text on every machine."""
    text = f"{value_mm:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def point_text(point: complex) -> str:
    """Return a point as SVG writes it in paths."""
    return f"{number_text(point.real)},{number_text(point.imag)}"


def path_text(chain: Chain, closed: bool) -> str:
    """Return SVG path data of a chain."""
    words = [f"M{point_text(chain[0].start)}"]
    for index, segment in enumerate(chain):
        if segment.is_straight():
            if not (closed and index == len(chain) - 1):
                words.append(f"L{point_text(segment.end)}")
        else:
            handles = f"{point_text(segment.first_handle)} {point_text(segment.second_handle)}"
            words.append(f"C{handles} {point_text(segment.end)}")
    return " ".join(words) + (" Z" if closed else "")


def group_text(piece: str, size: str, drawn: Drawn, by: complex, colour: str) -> list[str]:
    """Return the lines of one group: piece and size, shifted by a vector (mm)."""
    name = f"{piece}.{size}"
    rows = [f'<g id="{name}" stroke="{colour}">']
    outline = moved(drawn.whole_outline(), by)
    rows.append(f'<path id="{name}.outline" d="{path_text(outline, closed=True)}"/>')
    for area, chain in drawn.areas.items():
        rows.append(f'<path id="{name}.area.{area}" class="a" d="{path_text(moved(chain, by), closed=True)}"/>')
    for label, chain in drawn.lines.items():
        rows.append(f'<path id="{name}.line.{label}" class="l" d="{path_text(moved(chain, by), closed=False)}"/>')
    for label, point in drawn.named_points().items():
        x, y = number_text((point + by).real), number_text((point + by).imag)
        rows.append(f'<circle id="{name}.point.{label}" cx="{x}" cy="{y}" r="{POINT_RADIUS_MM}"/>')
    rows.append("</g>")
    return rows


def sheet_text(pieces: Mapping[str, Mapping[str, Drawn]], title: str, row_width_mm: float) -> str:
    """Return a whole `pieces.svg`: the nests of all pieces in rows.

    Args:
        pieces: piece name to size to drawing; all pieces have the same sizes in the same order.
        title: what a vector editor shows as the drawing's title.
        row_width_mm: a row of nests is ended before it grows wider than this.
    """
    rows: list[str] = []
    x_mm, y_mm, row_height_mm, sheet_width_mm = MARGIN_MM, MARGIN_MM, 0.0, 0.0
    for piece, sizes in pieces.items():
        boxes = [drawn.bounds() for drawn in sizes.values()]
        left, top = min(b[0] for b in boxes), min(b[1] for b in boxes)
        width_mm, height_mm = max(b[2] for b in boxes) - left, max(b[3] for b in boxes) - top
        if x_mm > MARGIN_MM and x_mm + width_mm > row_width_mm:
            x_mm, y_mm, row_height_mm = MARGIN_MM, y_mm + row_height_mm + MARGIN_MM, 0.0
        by = complex(round(x_mm - left), round(y_mm - top))
        for colour, (size, drawn) in zip(SIZE_COLOURS[: len(sizes)], sizes.items(), strict=True):
            rows += group_text(piece, size, drawn, by, colour)
        x_mm += width_mm + MARGIN_MM
        row_height_mm = max(row_height_mm, height_mm)
        sheet_width_mm = max(sheet_width_mm, x_mm)
    width, height = number_text(round(sheet_width_mm) + 1), number_text(round(y_mm + row_height_mm + MARGIN_MM) + 1)
    head = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" fill="none" stroke-width="0.5">',
        f"<title>{title}</title>",
        "<style>.l{stroke-dasharray:6 2}.a{stroke-dasharray:1 2}</style>",
    ]
    return "\n".join([*head, *rows, "</svg>"]) + "\n"
