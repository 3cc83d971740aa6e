"""`boltside check`: is everything that the pattern folders say readable, measurable and sewable? Changes nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from boltside.calculators.conditions import SIZE, holds
from boltside.chosen import chosen_patterns
from boltside.errors import BoltsideError
from boltside.measure.combinations import combinations
from boltside.measure.cutting_list import cut_lines
from boltside.measure.finished import finished_mm
from boltside.measure.garment import make_garment
from boltside.measure.model import MeasureError
from boltside.measure.seams import check_seams
from boltside.pattern import Pattern

COMBINATIONS_CHECKED: Final = 400
"""Combinations of choices measured in each size; a pattern with more says how many were left out."""

MEND_SEAM: Final = "true the outlines, or say in the seam which ease or gather ratio is meant"
PATTERNS_FOLDER: Final = "patterns"
PATTERN_FILE: Final = "pattern.yaml"


class DoesNotSew(BoltsideError):
    """Edges that are sewn together do not fit, or something can't be measured; the text lists all of it."""


@dataclass
class Findings:
    """What measuring a pattern found: for each thing that is wrong, what is seen in which size."""

    seen: dict[str, dict[str, str]] = field(default_factory=dict)
    garments: int = 0
    left_out: bool = False

    def add(self, what: str, seen: str, size: str) -> None:
        """Note what is seen of one wrong thing in a size; the first combination that shows it is enough."""
        self.seen.setdefault(what, {}).setdefault(size, seen)

    def lines(self) -> list[str]:
        """One line for each wrong thing: the first size's figures, and the other sizes it is wrong in."""
        lines = []
        for what, by_size in self.seen.items():
            (first, seen), *others = by_size.items()
            more = f", also in {', '.join(size for size, _ in others)}" if others else ""
            lines.append(f"{what}: {seen} (size {first}{more})")
        return lines


def check_patterns(data_dir: Path, *, only: Sequence[str] = ()) -> Iterator[str]:
    """A line for each pattern that is in order.

    Raises: ProblemsFound with all problems of all files; NoSuchPattern; DoesNotSew with every seam that does not fit.
    """
    wrong: list[str] = []
    for pattern in chosen_patterns(data_dir, only):
        file = data_dir / PATTERNS_FOLDER / pattern.folder / PATTERN_FILE
        found = measure_all(pattern, file)
        wrong += found.lines()
        if not found.seen:
            more = f" (the first {COMBINATIONS_CHECKED} in each size)" if found.left_out else ""
            yield (
                f"{pattern.folder}: {len(pattern.sizes)} sizes, {len(pattern.pieces)} pieces, "
                f"{found.garments} garments measured{more}: every seam fits"
            )
    if wrong:
        raise DoesNotSew("\n".join(wrong))


def measure_all(pattern: Pattern, file: Path) -> Findings:
    """Make the pattern's garments in every size and allowed combination, and compare seams with what is meant.

    Arguments: the pattern, and its file, whose lines the sentences name.
    """
    found = Findings()
    try:
        cut_lines(pattern)
    except MeasureError as error:
        found.add(str(file), str(error), pattern.sizes[0])
    names = [choice.name for choice in pattern.choices if not choice.steps_only]
    for size in pattern.sizes:
        every = combinations(pattern, names, size)
        found.left_out = found.left_out or len(every) > COMBINATIONS_CHECKED
        for chosen in every[:COMBINATIONS_CHECKED]:
            found.garments += 1
            try:
                garment = make_garment(pattern, size, chosen)
                for seam in check_seams(garment):
                    if seam.problem:
                        found.add(f"{place(file, seam.name)}: seam `{seam.name}`", f"{seam.problem}; {MEND_SEAM}", size)
                for measurement in pattern.measurements:
                    if holds(measurement.when, {**chosen, SIZE: size}):
                        finished_mm(garment, measurement)
            except MeasureError as error:
                found.add(str(file), str(error), size)
    return found


def place(file: Path, seam: str) -> str:
    """`file:line:column` of the seam of that name; the file alone where the name is not written plainly."""
    in_seams = False
    for number, line in enumerate(file.read_text(encoding="utf-8").splitlines(), start=1):
        if line[:1] not in ("", " ", "#", "-"):
            in_seams = line.startswith("seams:")
        found = re.search(rf"\bname: ?['\"]?{re.escape(seam)}\b(?!-)", line) if in_seams else None
        if found:
            return f"{file}:{number}:{found.start() + 1}"
    return str(file)
