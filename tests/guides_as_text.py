"""Guides of seven garments as plain text, kept to be read.

Run as a program (`python tests/guides_as_text.py`, with the environment's Python) it writes them anew; the test only
compares. Whoever changes a guide reads the changed text against this list before it is committed:

* order: nothing is sewn before it is marked, interfaced or overcast; nothing is closed that has to be turned;
* sides: left and right are the wearer's, and with the overlap the holes lie on the front that is on top;
* faces: what lies up is said at each step, and fits what the text does;
* figures: each length is that of this size (compare with the size's table), each number of buttons that of the list;
* nothing superfluous: no step, sentence or alternative that this garment does not have; no word twice;
* nothing missing: every piece of the cutting list is taken up, every notion of the list used.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

TESTS = Path(__file__).parent
sys.path.insert(0, str(TESTS))

from boltside.calculators.conditions import holds  # noqa: E402
from boltside.pages.guide import guide_of, plain_text  # noqa: E402

FOLDER = TESTS / "golden_guides"

GARMENTS: tuple[tuple[str, str, dict[str, str]], ...] = (
    ("ferrylight", "92", {}),
    ("ferrylight", "80", {"length": "waist", "sleeve-end": "gathered", "lining": "facings", "closure": "snaps",
                          "collar": "stand", "overlap": "right-over-left"}),
    ("breakwater", "86", {"cloth": "knit", "hem": "rib-cuff"}),
    ("breakwater", "68", {"length": "short", "inseam": "snaps"}),
    ("millrace", "104", {"fullness": "full"}),
    ("wrackline", "98", {"inside": "faced", "pouch": "contrast"}),
    ("windlass", "92", {"opening": "back", "overlap": "right-over-left", "ends": "ribbed"}),
)  # fmt: skip


def file_of(name: str, size: str, chosen: Mapping[str, str]) -> Path:
    """Where the text of a garment lies."""
    return FOLDER / ("-".join([name, size, *chosen.values()]) + ".txt")


def text_of(sheet: Mapping[str, Any], size: str, chosen: Mapping[str, str]) -> str:
    """The guide as plain text, with the pieces that it has to take up at its head."""
    guide = guide_of(sheet, size, chosen)
    asked = {**guide.chosen, "size": size}
    cut = [one["title"] for one in sheet["items"] if one["kind"] == "cut" and holds(one["when"], asked)]
    parts = [
        f"{guide.title}, size {size}",
        "\n".join(f"{name}: {word}" for name, word in guide.chosen.items()),
        f"Cut: {', '.join(dict.fromkeys(cut))}",
        plain_text(guide.introduction_html),
    ]
    for step in guide.steps:
        parts.append(f"{step.number}. {step.title}\nUp: {step.up}\n{plain_text(step.html)}")
    return "\n\n".join(parts) + "\n"


def main() -> None:
    """Write all of them anew."""
    from cases.real_sheets import real_sheet

    FOLDER.mkdir(exist_ok=True)
    for name, size, chosen in GARMENTS:
        file_of(name, size, chosen).write_text(text_of(real_sheet(name), size, chosen), encoding="utf-8")


if __name__ == "__main__":
    main()
