"""What must be said beside a line of the cutting list, in words?"""

from __future__ import annotations

from boltside.measure.model import CutLine
from boltside.pattern import Copy, Grain, Pattern

COPY_WORDS = {"wearers-left": "wearer's left", "wearers-right": "wearer's right"}
"""Left and right are always the wearer's."""

GRAIN_NOTES: dict[Grain, str | None] = {
    "lengthwise": None,
    "crosswise": "grain line across the cloth",
    "bias": "grain line on the bias",
}

STRETCH_RUNS: dict[Grain, str] = {"lengthwise": "across", "crosswise": "along", "bias": "slanting"}
"""Which way of the drawn piece a knit's greatest stretch runs, as seen from the grain line: it runs across the cloth,
between the selvedges. Source: the words' meaning."""


def words(name: str) -> str:
    """A name of the format as a reader says it."""
    return COPY_WORDS.get(name, name.replace("-", " "))


def title_of(line: CutLine) -> str:
    """The piece's title, with the area where only an area of it is cut."""
    return line.title if line.area is None else f"{line.title}, {words(line.area)}"


def notes_of(line: CutLine, grain: Grain) -> list[str]:
    """Plain sentences without a full stop: how far interfacing goes, which copies get it, grain and fold.

    What copies carry depends on choices and stands apart (see :func:`carriers_of`).
    """
    notes = []
    if line.kind == "interfacing":
        under = "whole piece" if line.area is None else f"{words(line.area)} only"
        notes.append(f"under the {under}, up to the {line.to} line")
    if line.kind == "interfacing" and line.carried_by:
        notes.append(f"for the {_listed(line.carried_by)} only")
    grain_note = GRAIN_NOTES[grain]
    if grain_note is not None:
        notes.append(grain_note)
    if line.unfolded:
        notes.append("cut whole: its fold does not run with the grain")
    return notes


def carriers_of(pattern: Pattern, line: CutLine) -> tuple[Copy, ...]:
    """The copies of this line that differ: those of the piece itself, not of its lining or interfacing."""
    return line.copies if line.kind == "cut" and line.cloth == _main_cloth(pattern, line.piece) else ()


def _main_cloth(pattern: Pattern, piece_name: str) -> str:
    """The first of the pattern's cloths that the piece is cut from: it carries the buttons, not its lining."""
    owners = [piece.cut for piece in pattern.pieces if piece.name == piece_name]
    owners += [role.cut for role in pattern.roles if any(play.piece == piece_name for play in role.plays)]
    cloths = {entry.cloth for cut in owners for entry in cut}
    return next(cloth.name for cloth in pattern.cloths if cloth.name in cloths)


def _listed(names: tuple[str, ...]) -> str:
    return " and ".join(words(name) for name in names)
