"""Which straight lines does a page of a PDF draw, and how long are they on paper? Read with pypdf, which made none."""

from __future__ import annotations

from collections.abc import Iterator

from pypdf import PdfReader
from pypdf.generic import ContentStream

MM_PER_POINT = 25.4 / 72
"""PDF 32000-1:2008, 8.3.2.3: the unit of a page is 1/72 inch."""
A4_MM, LETTER_MM = (210, 297), (215.9, 279.4)
"""ISO 216; ANSI/ASME Y14.1, size A (8 1/2 in by 11 in)."""

Matrix = tuple[float, float, float, float, float, float]
Point = tuple[float, float]


def times(first: Matrix, then: Matrix) -> Matrix:
    """First one transformation, then the other, as a PDF multiplies them (8.3.4)."""
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m)


def strokes_mm(reader: PdfReader, page: int) -> Iterator[tuple[Point, Point]]:
    """Both ends of every straight line that a page draws, in mm on paper, from its drawing operators."""
    now: Matrix = (1, 0, 0, 1, 0, 0)
    kept: list[Matrix] = []
    at: Point = (0, 0)
    for given, operator in ContentStream(reader.pages[page].get_contents(), reader).operations:
        if operator == b"q":
            kept.append(now)
        elif operator == b"Q":
            now = kept.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = (float(number) for number in given)
            now = times((a, b, c, d, e, f), now)
        elif operator in (b"m", b"l"):
            x, y = float(given[0]), float(given[1])
            a, b, c, d, e, f = now
            there = ((a * x + c * y + e) * MM_PER_POINT, (b * x + d * y + f) * MM_PER_POINT)
            if operator == b"l":
                yield at, there
            at = there
