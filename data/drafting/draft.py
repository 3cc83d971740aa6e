"""Redraws every `pieces.svg` of the demo from the body chart, and the drawings of steps and techniques:
`python data/drafting/draft.py`.

The same drawings come out each time; standard library only. A free pattern's archive is packed anew as well.
"""

from __future__ import annotations

import re
import zipfile
from pathlib import Path

from thistle_quay import steps_breakwater, steps_ferrylight, steps_millrace, steps_windlass, steps_wrackline, techniques
from thistle_quay.breakwater import draw_breakwater
from thistle_quay.drawing import sheet_text
from thistle_quay.ferrylight import draw_ferrylight
from thistle_quay.millrace import draw_millrace
from thistle_quay.windlass import draw_windlass
from thistle_quay.wrackline import draw_wrackline

DATA = Path(__file__).resolve().parents[1]
PATTERNS = DATA / "patterns"
ROW_WIDTH_MM = 1400
"""A row of nests on the sheet is at most about this wide."""
GIVEN_AWAY = {"millrace": {"pieces.svg": "millrace-pieces.svg", "steps.md": "how-to-sew.txt"}}
"""Free patterns: which files of the folder go into the archive that is given away, and under which names."""

WORDS = {
    "Cut {cut waist-elastic} of the elastic.": "Cut the elastic to the length that the page gives for your size.",
    ", to a ring of {closed waist-elastic},": ",",
    "{overlap waist-elastic}": "20 mm",
}
"""What depends on the size, as it stands in a text for all sizes."""


def draft_texts() -> dict[str, str]:
    """Return the text of each `pieces.svg`, by the pattern folder's name."""
    return {
        "breakwater": sheet_text(draw_breakwater(), "Breakwater, all pieces and sizes: stitching lines", ROW_WIDTH_MM),
        "ferrylight": sheet_text(draw_ferrylight(), "Ferrylight, all pieces and sizes: stitching lines", ROW_WIDTH_MM),
        "millrace": sheet_text(draw_millrace(), "Millrace, all pieces and sizes: cutting lines", ROW_WIDTH_MM),
        "windlass": sheet_text(draw_windlass(), "Windlass, all pieces and sizes: stitching lines", ROW_WIDTH_MM),
        "wrackline": sheet_text(draw_wrackline(), "Wrackline, all pieces and sizes: stitching lines", ROW_WIDTH_MM),
    }


def line_drawings() -> dict[str, str]:
    """Return the text of each drawing of a step or technique, by its path from the folder `data`."""
    folders = {
        "patterns/breakwater/drawings": steps_breakwater.STEPS,
        "patterns/ferrylight/drawings": steps_ferrylight.STEPS,
        "patterns/millrace/drawings": steps_millrace.STEPS,
        "patterns/windlass/drawings": steps_windlass.STEPS,
        "patterns/wrackline/drawings": steps_wrackline.STEPS,
        "techniques": techniques.STEPS,
    }
    return {f"{folder}/{name}.svg": draw().svg() for folder, drawn in folders.items() for name, draw in drawn.items()}


def given_bytes(file: Path) -> bytes:
    """What is given away of a file: steps in plain words, everything else as it is."""
    if file.name != "steps.md":
        return file.read_bytes()
    text = file.read_text(encoding="utf-8")
    for word, plain in WORDS.items():
        text = text.replace(word, plain)
    text = re.sub(r"\{mm ([0-9.]+)\}", r"\1 mm", text)
    text = re.sub(r"(?m)^In the drawings .*\n\n", "", text)
    text = re.sub(r"(?m)^(?:sews|uses|drawing|film|technique|minutes): .*\n", "", text)
    if "{" in text:
        raise ValueError(f"{file}: a word in braces is left: {text[text.index('{'):][:40]}")
    return re.sub(r"(?m)^up: (.*)$", r"Up: \1.", text).encode("utf-8")


def write_archive(folder: str) -> Path:
    """Write the archive of a free pattern and return its path. Its entries carry no time of writing."""
    target = PATTERNS / folder / "files" / f"{folder}-pieces.zip"
    target.parent.mkdir(exist_ok=True)
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, given_name in GIVEN_AWAY[folder].items():
            entry = zipfile.ZipInfo(given_name)
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, given_bytes(PATTERNS / folder / name))
    return target


def main() -> None:
    """Write the files."""
    for folder, text in draft_texts().items():
        target = PATTERNS / folder / "pieces.svg"
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8", newline="\n")
        print(f"{target.name} of {folder}: {len(text) // 1000} kB")
    drawings = line_drawings()
    for path, text in drawings.items():
        (DATA / path).parent.mkdir(parents=True, exist_ok=True)
        (DATA / path).write_text(text, encoding="utf-8", newline="\n")
    print(f"{len(drawings)} drawings of steps and techniques")
    for folder in GIVEN_AWAY:
        print(f"{write_archive(folder).name}")


if __name__ == "__main__":
    main()
