"""The patterns of the shop while a designer works: only what changed is made anew, and missing lays stop nothing.

A pattern whose outlines changed has no lays for them yet. Its page is then made from the new outlines with the cloth
lengths from before, and says so, until drafts are there.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from boltside.errors import BoltsideError
from boltside.pattern import Pattern, Shop
from boltside.plan import LAYS_NAME, LaysMissing, cache_of
from boltside.read.folder import read_patterns
from boltside.read.shop import read_shop
from boltside.serve.drafts import PATTERNS, drafts_folder
from boltside.serve.watch import Stamp, stamps
from boltside.shop_build import PatternFiles, files_of
from boltside.shop_lays import ShopPattern, shop_pattern
from boltside.spec.sheet import make_sheet

Stamps = tuple[tuple[Path, Stamp], ...]


@dataclass(frozen=True, kw_only=True)
class Made:
    """What was made of a pattern, and of what: the pattern as read, the shop, its lays and all files in its folder."""

    pattern: Pattern
    shop: Shop
    stamps: Stamps
    made: ShopPattern
    files: PatternFiles

    @property
    def drafts(self) -> int:
        """How many of its lays are drafts."""
        return int(self.made.sheet.get("draft_lays", 0))


@dataclass
class Sheets:
    """All patterns, as far as they could be made; `lacking` names those whose lays are missing, `not_shown` those of
    them that were never made before."""

    data_dir: Path
    shop: Shop = field(default_factory=Shop)
    made: dict[str, Made] = field(default_factory=dict)
    lacking: tuple[str, ...] = ()
    not_shown: tuple[str, ...] = ()

    def renew(self) -> list[PatternFiles]:
        """Read all patterns and make those anew that changed; returns all that can be shown.

        Raises: ProblemsFound with the problems of all files; another BoltsideError where a pattern can't be measured.
        """
        shown: list[PatternFiles] = []
        lacking: list[str] = []
        not_shown: list[str] = []
        self.shop = read_shop(self.data_dir)
        patterns = read_patterns(self.data_dir)
        self.made = {name: made for name, made in self.made.items() if name in {one.folder for one in patterns}}
        for pattern in patterns:
            try:
                made = self.made[pattern.folder] = self.of(pattern)
                shown.append(made.files)
            except LaysMissing:
                lacking.append(pattern.folder)
                stale = self.with_lays_from_before(pattern)
                if stale is None:
                    not_shown.append(pattern.folder)
                else:
                    shown.append(stale)
        self.lacking, self.not_shown = tuple(lacking), tuple(not_shown)
        return shown

    def of(self, pattern: Pattern) -> Made:
        """The pattern with its stored lays, else with drafts; the one from before where nothing changed.

        Raises: LaysMissing.
        """
        own, drafts = self.data_dir / PATTERNS / pattern.folder, drafts_folder(self.data_dir, pattern.folder)
        now = tuple(stamps([own, drafts / LAYS_NAME]))
        before = self.made.get(pattern.folder)
        if before is not None and (before.pattern, before.shop, before.stamps) == (pattern, self.shop, now):
            return before
        cache_dir = cache_of(self.data_dir)
        try:
            made = shop_pattern(pattern, own, cache_dir=cache_dir, shop=self.shop)
        except LaysMissing:
            if not drafts.is_dir():
                raise
            made = shop_pattern(pattern, drafts, cache_dir=cache_dir, shop=self.shop)
        return Made(pattern=pattern, shop=self.shop, stamps=now, made=made, files=files_of(made, self.data_dir))

    def with_lays_from_before(self, pattern: Pattern) -> PatternFiles | None:
        """The new outlines with the old lengths; all as before where these don't go together; None where there never
        was anything."""
        before = self.made.get(pattern.folder)
        if before is None:
            return None
        try:
            sheet = {**make_sheet(pattern, lays_in(before.made.sheet), self.shop), "draft_lays": before.drafts}
            # Drawings of lays show outlines, and these are new.
            return files_of(ShopPattern(sheet=sheet, lay_files={}), self.data_dir)
        except (BoltsideError, LookupError, ValueError):
            return before.files  # other pieces than before: no old length belongs to them

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
            notes.append(
                f"{', '.join(drafts)}: some amounts of cloth are drafts, a little on the long side. "
                f"Before you publish, run: boltside lay {' '.join(drafts)}"
            )
        return tuple(notes)


def lays_in(sheet: dict[str, Any]) -> dict[str, Any]:
    """The published lengths that a sheet carries, cloth by cloth, as `make_sheet` takes them."""
    return {cloth: {"sets": sheet["sets"][cloth], "lengths": lengths} for cloth, lengths in sheet["lays"].items()}
