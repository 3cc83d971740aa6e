"""Everything that was read of one pattern folder, for the checks to look at and for the models to be made from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path as FolderPath
from typing import Final

from boltside.errors import Severity
from boltside.pattern import BodyChart, Outline
from boltside.read.collect import Place, Problems, listed, meant, quoted
from boltside.read.combinations import Combinations
from boltside.read.document import CutDoc, PatternDoc, PieceDoc
from boltside.read.drawn import Drawing
from boltside.read.schema import Checked
from boltside.read.step_words import WordList
from boltside.read.steps import StepText
from boltside.read.yaml_tree import Path

AS: Final = "as:"
"""What stands before a role where a piece can be named."""


@dataclass
class Book:
    """One pattern folder. `outlines` and `drawing` hold as much as could be read."""

    folder: FolderPath
    document: PatternDoc
    checked: Checked
    combinations: Combinations
    problems: Problems
    yaml_name: str
    svg_name: str
    steps_name: str
    drawing: Drawing | None
    chart: BodyChart | None
    outlines: dict[str, dict[str, Outline]] = field(default_factory=dict)
    introduction: str = ""
    steps: tuple[StepText, ...] = ()
    words: WordList = field(default_factory=WordList)

    def note(
        self,
        code: str,
        path: Path,
        *,
        seen: str,
        expected: str,
        mend: str,
        key: bool = False,
        severity: Severity = "error",
    ) -> None:
        """Note a problem at a path of pattern.yaml: at the value there, or at its key."""
        tree = self.checked.tree
        place: Place = tree.key_place(path) if key else tree.value_place(path)
        self.problems.add(
            code,
            self.yaml_name,
            place,
            seen=seen,
            expected=expected,
            mend=mend,
            severity=severity,
        )

    def note_unknown(
        self,
        code: str,
        path: Path,
        name: str,
        known: Iterable[str],
        what: str,
        of: str = "",
        *,
        key: bool = False,
        mend: str | None = None,
    ) -> None:
        """Note a name that leads nowhere, with the nearest known one.

        Arguments: `what` says what such a thing is called, `of` to what it belongs; `mend` takes the
        place of the nearest name.
        """
        known = list(dict.fromkeys(known))
        self.note(
            code,
            path,
            seen=f"the {what} {quoted(name)}" + (f" of {of if ' ' in of else quoted(of)}" if of else ""),
            expected=f"one of {listed(known)}" if known else f"no {what}, for there are none",
            mend=mend or meant(name, known, "correct the name" if known else "delete it"),
            key=key,
        )

    @property
    def pieces(self) -> dict[str, PieceDoc]:
        """The pieces themselves, without the parts of roles."""
        return {name: piece for name, piece in self.document.pieces.items() if not name.startswith(AS)}

    def role_part(self, role: str) -> PieceDoc | None:
        """What stands under `as:<role>`."""
        return self.document.pieces.get(AS + role)

    def players(self, name: str) -> list[str]:
        """The pieces that this piece or `as:<role>` can stand for; empty when there is none."""
        if not name.startswith(AS):
            return [name] if name in self.pieces else []
        plays = self.document.roles.get(name.removeprefix(AS), [])
        return list(dict.fromkeys(play.piece for play in plays if play.piece in self.pieces))

    def roles_of(self, piece: str) -> list[str]:
        """The roles that this piece can play."""
        return [role for role, plays in self.document.roles.items() if any(play.piece == piece for play in plays)]

    def sources(self, piece: str) -> Iterator[tuple[str, PieceDoc]]:
        """Where the piece's parts are written: under its own name, and under each `as:<role>` it can play."""
        yield piece, self.pieces[piece]
        for role in self.roles_of(piece):
            part = self.role_part(role)
            if part is not None:
                yield AS + role, part

    def usual_allowance_mm(self, piece: str, edge_name: str) -> float | None:
        """The allowance of an edge that says nothing: 0 where the piece is always cut with it on the fold.

        None where the pattern does not say any either.
        """
        entries = [entry for _, part in self.sources(piece) for entry in part.cut]
        on_fold = bool(entries) and all(entry.mode == "fold" and entry.fold_edge == edge_name for entry in entries)
        return 0.0 if on_fold else self.document.allowance_mm

    def edge_names(self, piece: str) -> list[str]:
        """All edges the piece can have: drawn ones and those of cut-offs."""
        cut = [one.edge for _, part in self.sources(piece) for one in part.cut_offs]
        return [one.name for one in self.pieces[piece].edges] + cut

    def edges_are_known(self, piece: str) -> bool:
        """False when a part of the document that names edges of this piece could not be read."""
        return all(
            self.checked.whole("pieces", name, key) for name, _ in self.sources(piece) for key in ("edges", "cut_offs")
        )

    def drawn_sizes(self, piece: str) -> list[str]:
        """The sizes in which all of the piece's shapes could be read."""
        if self.drawing is None:
            return []
        return [
            size
            for size in self.document.sizes
            if (piece, size) in self.drawing.pieces and (piece, size) not in self.drawing.damaged
        ]

    def cut_entries(self) -> Iterator[tuple[str, Path, CutDoc]]:
        """Every cut entry: where it is written, its path, the entry."""
        for name, part in self.document.pieces.items():
            for at, entry in enumerate(part.cut):
                yield name, ("pieces", name, "cut", at), entry
