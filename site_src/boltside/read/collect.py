"""Collects problems while reading goes on, and finds the name that was probably meant."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, field

from boltside.errors import BoltsideError, Problem, Severity

Place = tuple[int, int]
"""Line and column, both counted from 1."""

START: Place = (1, 1)

LISTED_NAMES_MAX = 12
"""So many known names are listed in a message before the rest is only counted. Our choice."""

SHOWN_TEXT_MAX = 60
"""Longer texts are cut when a message quotes them. Our choice."""


PROBLEMS_MAX = 300
"""So many problems of one folder are listed. Our choice: nobody mends more in one go; a garbled file has no end."""

NEAREST_AMONG_MAX = 400
NEAREST_LETTERS_MAX = 120
"""Longer lists and names are not searched for the name that was meant. Our choice, so that nobody has to wait."""


class EnoughProblems(BoltsideError):
    """The list of problems is full; reading stops."""


@dataclass
class Problems:
    """A growing list of problems. Raises `EnoughProblems` from `add` when there are too many."""

    found: list[Problem] = field(default_factory=list)

    def add(
        self, code: str, path: str, place: Place, *, seen: str, expected: str, mend: str, severity: Severity = "error"
    ) -> None:
        """Note one problem."""
        line, column = place
        full = len(self.found) >= PROBLEMS_MAX
        if full:
            code, severity = "too-many-problems", "error"
            seen, expected, mend = (
                f"more than {PROBLEMS_MAX} problems",
                "a file as the handbook shows it",
                "begin above",
            )
        self.found.append(
            Problem(
                code=code,
                path=path,
                line=line,
                column=column,
                seen=seen,
                expected=expected,
                mend=mend,
                severity=severity,
            )
        )
        if full:
            raise EnoughProblems

    @property
    def errors(self) -> int:
        """How many of them are errors."""
        return sum(problem.severity == "error" for problem in self.found)


def quoted(text: object) -> str:
    """The text as messages show it: between backquotes, on one line, cut when long."""
    shown = " ".join(str(text).split())
    shown = "".join(letter if letter.isprintable() else "?" for letter in shown)
    if len(shown) > SHOWN_TEXT_MAX:
        shown = shown[: SHOWN_TEXT_MAX - 1] + "…"
    return f"`{shown}`"


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name most like this one, or None when none is."""
    known = list(dict.fromkeys(known))
    if len(name) > NEAREST_LETTERS_MAX or len(known) > NEAREST_AMONG_MAX:
        return None
    matches = difflib.get_close_matches(name, sorted(known), n=1, cutoff=0.6)
    return matches[0] if matches else None


def listed(names: Iterable[str]) -> str:
    """Names as a message lists them."""
    every = list(dict.fromkeys(names))
    if not every:
        return "none"
    shown = ", ".join(f"`{name}`" for name in every[:LISTED_NAMES_MAX])
    return shown + (f" and {len(every) - LISTED_NAMES_MAX} more" if len(every) > LISTED_NAMES_MAX else "")


def meant(name: str, known: Iterable[str], otherwise: str) -> str:
    """The mend for an unknown name: the nearest one, or else what to do otherwise."""
    near = nearest(name, known)
    return f"did you mean `{near}`?" if near else otherwise
