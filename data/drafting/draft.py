"""Redraws every `pieces.svg` of the demo from the body chart: `python data/drafting/draft.py`.

The same bytes come out each time; standard library only.
"""

from __future__ import annotations

from pathlib import Path

from thistle_quay.breakwater import draw_breakwater
from thistle_quay.drawing import sheet_text
from thistle_quay.ferrylight import draw_ferrylight
from thistle_quay.millrace import draw_millrace

PATTERNS = Path(__file__).resolve().parents[1] / "patterns"
ROW_WIDTH_MM = 1400
"""A row of nests on the sheet is at most about this wide."""


def draft_texts() -> dict[str, str]:
    """Return the text of each `pieces.svg`, by the pattern folder's name."""
    return {
        "breakwater": sheet_text(draw_breakwater(), "Breakwater, all pieces and sizes: stitching lines", ROW_WIDTH_MM),
        "ferrylight": sheet_text(draw_ferrylight(), "Ferrylight, all pieces and sizes: stitching lines", ROW_WIDTH_MM),
        "millrace": sheet_text(draw_millrace(), "Millrace, all pieces and sizes: cutting lines", ROW_WIDTH_MM),
    }


def main() -> None:
    """Write the files."""
    for folder, text in draft_texts().items():
        target = PATTERNS / folder / "pieces.svg"
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8", newline="\n")
        print(f"{target.name} of {folder}: {len(text) // 1000} kB")


if __name__ == "__main__":
    main()
