"""Draws the three pieces of `base/`, rectangles of 160 by 300 and 200 by 60 mm; run it after changing the base."""

from __future__ import annotations

from pathlib import Path

TARGET = Path(__file__).parent / "base" / "patterns" / "plain" / "pieces.svg"
BODY_POINTS = {"top-centre": (0, 0), "top-side": (160, 0), "hem-side": (160, 300), "hem-centre": (0, 300)}
BAND_POINTS = {"left": (0, 0), "right": (200, 0), "low": (100, 60), "mark": (150, 0)}


def main() -> None:
    """Writes the drawing."""
    rows = ['<svg xmlns="http://www.w3.org/2000/svg" width="800mm" height="800mm" viewBox="0 0 800 800">']
    for down, size in ((10, "80"), (410, "92")):
        for across, piece in ((10, "front"), (210, "back")):
            rows.append(f'<g id="{piece}.{size}" transform="translate({across},{down})">')
            rows.append(f'<path id="{piece}.{size}.outline" d="M 0,0 H 160 V 300 H 0 Z"/>')
            rows += [
                f'<circle id="{piece}.{size}.point.{name}" cx="{x}" cy="{y}" r="1"/>'
                for name, (x, y) in BODY_POINTS.items()
            ]
            rows.append(f'<path id="{piece}.{size}.line.waist" d="M 0,200 H 160"/>')
            rows.append(f'<path id="{piece}.{size}.area.strip" d="M -50,-50 H 30 V 350 H -50 Z"/>')
            rows.append("</g>")
        rows.append(f'<g id="band.{size}" transform="translate(450,{down})">')
        rows.append(f'<path id="band.{size}.outline" d="M 0,0 H 200 V 60 H 0 Z"/>')
        rows += [
            f'<circle id="band.{size}.point.{name}" cx="{x}" cy="{y}" r="1"/>' for name, (x, y) in BAND_POINTS.items()
        ]
        rows.append("</g>")
    rows += ["</svg>", ""]
    TARGET.write_text("\n".join(rows), encoding="utf-8")


if __name__ == "__main__":
    main()
