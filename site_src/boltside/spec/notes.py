"""What must be said beside a line of the cutting list, in words?"""

from __future__ import annotations

from boltside.measure.model import CutLine
from boltside.pattern import Grain, Pattern

COPY_WORDS = {"wearers-left": "wearer's left", "wearers-right": "wearer's right"}
"""Left and right are always the wearer's."""

GRAIN_NOTES: dict[Grain, str | None] = {
    "lengthwise": None,
    "crosswise": "grain line across the cloth",
    "bias": "grain line on the bias",
}


def words(name: str) -> str:
    """A name of the format as a reader says it."""
    return COPY_WORDS.get(name, name.replace("-", " "))


def title_of(line: CutLine) -> str:
    """The piece's title, with the area where only an area of it is cut."""
    return line.title if line.area is None else f"{line.title}, {words(line.area)}"


def notes_of(pattern: Pattern, line: CutLine) -> list[str]:
    """Plain sentences without a full stop: what copies carry, which copies get it, grain and fold."""
    notes = []
    if line.kind == "cut":
        notes += [f"{words(copy.name)} carries the {_listed(copy.carries)}" for copy in line.copies if copy.carries]
    elif line.carried_by:
        notes.append(f"for the {_listed(line.carried_by)} only")
    grain = next(piece.grain for piece in pattern.pieces if piece.name == line.piece)
    grain_note = GRAIN_NOTES[grain]
    if grain_note is not None:
        notes.append(grain_note)
    if line.unfolded:
        notes.append("cut whole: its fold does not run with the grain")
    return notes


def _listed(names: tuple[str, ...]) -> str:
    return " and ".join(words(name) for name in names)
