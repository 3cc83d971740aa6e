"""The spec sheets while a designer works: only what changed is made anew, and missing lays stop nothing.

A pattern whose outlines changed has no lays for them yet. Its page is then made from the new outlines with the cloth
lengths from before, and says so, until drafts are there.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from boltside.errors import BoltsideError
from boltside.lay.brackets import CoverPlan
from boltside.pattern import Pattern
from boltside.plan import LAYS_NAME, LaysMissing, PlanKey, cache_of, drafts_used, published_lays, run_pattern
from boltside.read.folder import read_patterns
from boltside.serve.drafts import PATTERNS, drafts_folder
from boltside.serve.watch import Stamp, stamps
from boltside.spec.sheet import make_sheet


@dataclass(frozen=True, kw_only=True)
class Made:
    """A pattern's sheet with what it was made from; `lays` are the published lengths in it."""

    pattern: Pattern
    lays_stamp: tuple[tuple[Path, Stamp], ...]
    sheet: dict[str, Any]
    lays: dict[str, Any]
    drafts: int


@dataclass
class Sheets:
    """The sheets of all patterns, as far as they could be made; `lacking` names those whose lays are missing."""

    data_dir: Path
    made: dict[str, Made] = field(default_factory=dict)
    lacking: tuple[str, ...] = ()
    not_shown: tuple[str, ...] = ()

    def renew(self) -> list[dict[str, Any]]:
        """Read all patterns and make the sheets of those that changed; returns all sheets.

        Raises: ProblemsFound with the problems of all files; another BoltsideError where a pattern can't be measured.
        """
        sheets: list[dict[str, Any]] = []
        lacking: list[str] = []
        not_shown: list[str] = []
        patterns = read_patterns(self.data_dir)
        self.made = {name: made for name, made in self.made.items() if name in {one.folder for one in patterns}}
        for pattern in patterns:
            try:
                made = self.made[pattern.folder] = self.of(pattern)
                sheets.append(made.sheet)
            except LaysMissing:
                lacking.append(pattern.folder)
                stale = self.with_lays_from_before(pattern)
                if stale is None:
                    not_shown.append(pattern.folder)
                else:
                    sheets.append(stale)
        self.lacking, self.not_shown = tuple(lacking), tuple(not_shown)
        return sheets

    def of(self, pattern: Pattern) -> Made:
        """The pattern's sheet from stored lays, else drafts; the one from before where nothing changed.

        Raises: LaysMissing.
        """
        folders = [self.data_dir / PATTERNS / pattern.folder, drafts_folder(self.data_dir, pattern.folder)]
        lays_stamp = tuple(stamps([folder / LAYS_NAME for folder in folders]))
        before = self.made.get(pattern.folder)
        if before is not None and before.pattern == pattern and before.lays_stamp == lays_stamp:
            return before
        results = self.stored_lays(pattern, folders)
        lays = published_lays(pattern, results)
        drafts = drafts_used(results)
        sheet = {**make_sheet(pattern, lays), "draft_lays": drafts}
        return Made(pattern=pattern, lays_stamp=lays_stamp, sheet=sheet, lays=lays, drafts=drafts)

    def stored_lays(self, pattern: Pattern, folders: list[Path]) -> dict[PlanKey, CoverPlan]:
        """All lays of the pattern from the first of the folders that has them all. Raises: LaysMissing."""
        for place, folder in enumerate(folders):
            try:
                return run_pattern(
                    pattern, folder, cache_dir=cache_of(self.data_dir), quality="draft", only_stored=True
                )
            except LaysMissing:
                if place == len(folders) - 1:
                    raise
        raise AssertionError("unreachable: the last folder had the lays or raised")

    def with_lays_from_before(self, pattern: Pattern) -> dict[str, Any] | None:
        """A sheet of the new outlines with the old lengths; the old sheet where these don't go together; None where
        there never was one."""
        before = self.made.get(pattern.folder)
        if before is None:
            return None
        try:
            return {**make_sheet(pattern, before.lays), "draft_lays": before.drafts}
        except (BoltsideError, LookupError, ValueError):
            return before.sheet  # other pieces than before: no old length belongs to them

    def notes(self) -> tuple[str, ...]:
        """What every page has to say about its figures; empty when all lays are there and none is a draft."""
        notes = [
            f"{name}: figures are being worked out anew: drafts. The amounts of cloth are those from before."
            for name in self.lacking
            if name not in self.not_shown
        ]
        notes += [
            f"{name}: the first figures are being worked out: drafts. The pattern is shown as soon as they are there."
            for name in self.not_shown
        ]
        drafts = [name for name, made in self.made.items() if made.drafts and name not in self.lacking]
        if drafts:
            names = " ".join(drafts)
            notes.append(
                f"{', '.join(drafts)}: some amounts of cloth are drafts, a little on the long side. "
                f"Before you publish, run: boltside lay {names}"
            )
        return tuple(notes)
