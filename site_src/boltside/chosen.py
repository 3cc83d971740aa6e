"""Which patterns of the shop does a command mean?"""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches
from pathlib import Path

from boltside.errors import BoltsideError
from boltside.pattern import Pattern
from boltside.read.folder import read_patterns


class NoSuchPattern(BoltsideError):
    """A pattern was named that is not in the shop."""


def chosen_patterns(data_dir: Path, only: Sequence[str]) -> list[Pattern]:
    """The patterns named, or all. Raises: ProblemsFound, NoSuchPattern."""
    patterns = read_patterns(data_dir)
    check_named([pattern.folder for pattern in patterns], only)
    return [pattern for pattern in patterns if not only or pattern.folder in only]


def check_named(known: Sequence[str], only: Sequence[str]) -> None:
    """Raises: NoSuchPattern when one of the names in `only` is not among the known ones."""
    for name in only:
        if name not in known:
            near = get_close_matches(name, known, n=1)
            meant = f"; did you mean {near[0]!r}?" if near else ""
            raise NoSuchPattern(f"there is no pattern {name!r}; there are {', '.join(known)}{meant}")
