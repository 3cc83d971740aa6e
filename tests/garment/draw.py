"""Draws `pieces.svg` of the fixture garment from the tables in README.md: rectangles and triangles only.

Run `python tests/garment/draw.py`; the drawing is committed. Coordinates are millimetres with y up; the transform of
the outermost group turns them over for SVG, which also makes the reader follow transforms.
"""

from __future__ import annotations

from pathlib import Path

Point = tuple[float, float]
Draft = tuple[list[Point], dict[str, Point], dict[str, list[Point]], dict[str, list[Point]]]
SIZES = ("80", "92", "104")
TARGET = Path(__file__).parent / "data" / "patterns" / "oblong" / "pieces.svg"

# Catheti of the right-angled triangles, per size: (across, down); the third side is a whole number.
FRONT_NECK = {"80": (40, 30), "92": (48, 36), "104": (56, 42)}
BACK_NECK = {"80": (40, 9), "92": (48, 20), "104": (56, 33)}
SHOULDER = (72, 21)
ARMHOLE = {"80": (36, 48), "92": (39, 52), "104": (42, 56)}
SIDE = {"80": 200, "92": 240, "104": 280}
SLEEVE_HEAD = {"80": (60, 11), "92": (60, 32), "104": (69.6, 20.3)}
SLEEVE_LENGTH = {"80": 150, "92": 180, "104": 210}
COLLAR_NECK = {"80": 81, "92": 100, "104": 121}
FRILL_ZONE = {"80": 222, "92": 318, "104": 297.5}
FRILL_HEIGHT = {"80": 100, "92": 110, "104": 120}
POCKET_SIDE = {"80": 100, "92": 110, "104": 120}
WAIST_ABOVE_HEM = 60
STRIP_TOP = {"80": 180, "92": 210, "104": 240}
BUTTON_LINE = {"80": 140, "92": 180, "104": 220}
GATHER_HALF = 30
CUFF_ZONE = 30
SEAM = 10


def body(size: str, neck: Point, stop_part: float) -> Draft:
    """Front or back half: centre at x = 0, hem at y = 0, clockwise from the neck at the centre."""
    across, down = ARMHOLE[size]
    width = neck[0] + SHOULDER[0] + across
    top = SIDE[size] + down + SHOULDER[1]
    points: dict[str, Point] = {
        "neck-centre": (0, top - neck[1]),
        "neck-shoulder": (neck[0], top),
        "shoulder-tip": (neck[0] + SHOULDER[0], top - SHOULDER[1]),
        "underarm": (width, SIDE[size]),
        "side-hem": (width, 0),
        "centre-hem": (0, 0),
    }
    outline = list(points.values())
    points["collar-stop"] = (neck[0] * stop_part, top - neck[1] * (1 - stop_part))
    points["chest-centre"] = (0, SIDE[size])
    lines: dict[str, list[Point]] = {
        "waist": [(0, WAIST_ABOVE_HEM), (width, WAIST_ABOVE_HEM)],
        "button-line": [(10, 70), (10, 70 + BUTTON_LINE[size])],
    }
    strip: list[Point] = [(-50, -50), (30, -50), (30, STRIP_TOP[size]), (-50, STRIP_TOP[size])]
    return outline, points, lines, {"opening-strip": strip}


def front(size: str) -> Draft:
    """Front half; the collar stops a fifth of the neck away from the centre."""
    return body(size, FRONT_NECK[size], 1 / 5)


def back(size: str) -> Draft:
    """Back half; the collar stops a quarter of the neck away from the centre."""
    return body(size, BACK_NECK[size], 1 / 4)


def frill(size: str) -> Draft:
    """Half of the frill: from the opening at x = 0 to the middle of the uncut half."""
    plain = FRONT_NECK[size][0] + SHOULDER[0] + ARMHOLE[size][0]
    length, height = plain + FRILL_ZONE[size], FRILL_HEIGHT[size]
    points: dict[str, Point] = {
        "top-open": (0, height), "top-middle": (length, height), "hem-middle": (length, 0), "hem-open": (0, 0)
    }
    outline = list(points.values())
    points["zone-start"] = (plain, height)
    zone: list[Point] = [(plain, height), (length, height), (length, height - 10), (plain, height - 10)]
    return outline, points, {"gather-line": zone[2:]}, {"gather-zone": zone}


def sleeve(size: str) -> Draft:
    """Sleeve with a triangle as head; the end at y = 0."""
    half, rise = SLEEVE_HEAD[size]
    length = SLEEVE_LENGTH[size]
    points: dict[str, Point] = {
        "under-back": (-half, length), "head-top": (0, length + rise), "under-front": (half, length),
        "end-front": (half, 0), "end-back": (-half, 0),
    }
    outline = list(points.values())
    points["gather-start"] = (GATHER_HALF, 0)
    points["gather-end"] = (-GATHER_HALF, 0)
    lines: dict[str, list[Point]] = {"middle": [(0, 0), (0, length + rise)], "grain": [(-20, 20), (-20, 120)]}
    return outline, points, lines, {}


def cuff(size: str) -> Draft:
    """Cuff as cut: rests of the sleeve end, the zone, and an allowance at each side."""
    rest = SLEEVE_HEAD[size][0] - GATHER_HALF
    width, height = 2 * rest + CUFF_ZONE + 2 * SEAM, 60
    points: dict[str, Point] = {
        "top-left": (0, height), "top-right": (width, height), "low-right": (width, 0), "low-left": (0, 0)
    }
    outline = list(points.values())
    points["mark-a"] = (SEAM + rest, height)
    points["mark-b"] = (SEAM + rest + CUFF_ZONE, height)
    return outline, points, {}, {}


def collar(size: str) -> Draft:
    """Half of the stand collar as cut: an allowance at the end, none in the middle."""
    width = COLLAR_NECK[size] + SEAM
    points: dict[str, Point] = {
        "top-end": (0, 60), "top-middle": (width, 60), "neck-middle": (width, 0), "neck-end": (0, 0)
    }
    return list(points.values()), points, {}, {}


def pocket(size: str) -> Draft:
    """Pocket as cut: a rectangle that ends in a triangle; 20 mm of it are folded over at the top."""
    half, drop = BACK_NECK[size]
    height = drop + POCKET_SIDE[size]
    points: dict[str, Point] = {
        "top-left": (0, height), "top-right": (2 * half, height), "low-right": (2 * half, drop), "tip": (half, 0),
        "low-left": (0, drop),
    }
    lines: dict[str, list[Point]] = {
        "hem-fold": [(0, height - 20), (2 * half, height - 20)],
        "grain": [(10, height - 40), (2 * half - 10, height - 40)],
    }
    return list(points.values()), points, lines, {}


def tab(size: str) -> Draft:
    """Tab: 60 mm wide, its two slanting sides 50 mm each."""
    points: dict[str, Point] = {"right": (60, 0), "left": (0, 0), "tip": (30, 40)}
    return list(points.values()), points, {}, {}


def path_data(polyline: list[Point], closed: bool) -> str:
    """SVG path data of straight lines."""
    words = " L ".join(f"{x:g},{y:g}" for x, y in polyline)
    return f"M {words}" + (" Z" if closed else "")


def main() -> None:
    """Writes the drawing."""
    drafts = {"front": front, "back": back, "frill": frill, "sleeve": sleeve, "cuff": cuff, "collar": collar,
              "pocket": pocket, "tab": tab}
    rows = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<svg xmlns="http://www.w3.org/2000/svg" width="250cm" height="150cm" viewBox="0 0 2500 1500">',
        "<!-- made by tests/garment/draw.py -->",
        '<g transform="matrix(1 0 0 -1 100 1400)">',
    ]
    for row, size in enumerate(SIZES):
        across = 0.0
        for name, draft in drafts.items():
            outline, points, lines, areas = draft(size)
            rows.append(f'<g id="{name}.{size}" transform="translate({across:g},{row * 450})">')
            rows.append(f'  <path id="{name}.{size}.outline" d="{path_data(outline, True)}"/>')
            for point, (x, y) in points.items():
                rows.append(f'  <circle id="{name}.{size}.point.{point}" cx="{x:g}" cy="{y:g}" r="2"/>')
            for line, polyline in lines.items():
                rows.append(f'  <path id="{name}.{size}.line.{line}" d="{path_data(polyline, False)}"/>')
            for area, polyline in areas.items():
                rows.append(f'  <path id="{name}.{size}.area.{area}" d="{path_data(polyline, True)}"/>')
            rows.append("</g>")
            across += 250 if name != "frill" else 600
    rows += ["</g>", "</svg>", ""]
    TARGET.write_text("\n".join(rows), encoding="utf-8")


if __name__ == "__main__":
    main()
