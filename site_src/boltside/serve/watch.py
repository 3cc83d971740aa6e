"""Which files of the shop changed since the last look? By time and size, because that works on every system."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

LOOK_EVERY_S = 0.2
"""A page has to be shown anew within a second of its being saved; a look takes a few milliseconds."""
PASSED_OVER = (".", "__pycache__")
"""Names that begin like this are no data: what editors and tools leave behind."""
WRITTEN_BY_US = ("lays.journal", "lays.json.new")
"""Grow while lays are being solved; `lays.json`, into which they are taken over, is looked at."""

Stamp = tuple[int, int]


class Watch:
    """Files and folders, and how they were at the last look. A folder is looked through to its bottom."""

    def __init__(self, places: Iterable[Path]) -> None:
        self.places = tuple(places)
        self._known = dict(stamps(self.places))

    def changed(self) -> frozenset[Path]:
        """The files that appeared, changed or went away since the last look."""
        now = dict(stamps(self.places))
        before, self._known = self._known, now
        return frozenset(path for path in before.keys() | now.keys() if before.get(path) != now.get(path))


def stamps(places: Iterable[Path]) -> Iterator[tuple[Path, Stamp]]:
    """Each file with its time (ns) and size (bytes); a file that goes away meanwhile is left out."""
    for place in places:
        if place.is_file():
            yield from stamp(place)
        for folder, folders, names in os.walk(place):
            folders[:] = [name for name in folders if not name.startswith(PASSED_OVER)]
            for name in names:
                if not name.startswith(PASSED_OVER) and not name.endswith("~") and name not in WRITTEN_BY_US:
                    yield from stamp(Path(folder) / name)


def stamp(path: Path) -> Iterator[tuple[Path, Stamp]]:
    """The file with its stamp, or nothing when it went away."""
    try:
        seen = path.stat()
    except OSError:
        return
    yield path, (seen.st_mtime_ns, seen.st_size)
