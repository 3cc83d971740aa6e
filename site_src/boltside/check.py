"""`boltside check`: is everything that the pattern folders say readable, measurable and sewable? Changes nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from boltside.calculators.conditions import SIZE, holds
from boltside.errors import BoltsideError
from boltside.measure.combinations import combinations
from boltside.measure.cutting_list import cut_lines
from boltside.measure.finished import finished_mm
from boltside.measure.garment import make_garment
from boltside.measure.model import MeasureError
from boltside.measure.seams import check_seams
from boltside.pattern import Pattern
from boltside.read.folder import read_patterns

COMBINATIONS_CHECKED: Final = 400
"""Combinations of choices measured in each size; a pattern with more says how many were left out."""


class DoesNotSew(BoltsideError):
    """Edges that are sewn together do not fit, or something can't be measured; the text lists all of it."""


@dataclass
class Findings:
    """What measuring a pattern found: sentences, each once however many combinations share it."""

    sentences: dict[str, None] = field(default_factory=dict)
    garments: int = 0
    left_out: bool = False


def check_patterns(data_dir: Path, *, only: Sequence[str] = ()) -> Iterator[str]:
    """A line for each pattern that is in order.

    Raises: ProblemsFound with all problems of all files; DoesNotSew with every seam that does not fit.
    """
    wrong: list[str] = []
    for pattern in read_patterns(data_dir):
        if only and pattern.folder not in only:
            continue
        found = measure_all(pattern)
        wrong += found.sentences
        if not found.sentences:
            more = f" (the first {COMBINATIONS_CHECKED} in each size)" if found.left_out else ""
            yield (
                f"{pattern.folder}: {len(pattern.sizes)} sizes, {len(pattern.pieces)} pieces, "
                f"{found.garments} garments measured{more}: every seam fits"
            )
    if wrong:
        raise DoesNotSew("\n".join(wrong))


def measure_all(pattern: Pattern) -> Findings:
    """Make the pattern's garments in every size and allowed combination, and compare seams with what is meant."""
    found = Findings()
    try:
        cut_lines(pattern)
    except MeasureError as error:
        found.sentences[f"{pattern.folder}: {error}"] = None
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
                        found.sentences[f"{pattern.folder}, size {size}: seam {seam.name}: {seam.problem}"] = None
                for measurement in pattern.measurements:
                    if holds(measurement.when, {**chosen, SIZE: size}):
                        finished_mm(garment, measurement)
            except MeasureError as error:
                found.sentences[f"{pattern.folder}, size {size}: {error}"] = None
    return found
