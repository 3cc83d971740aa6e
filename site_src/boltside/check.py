"""`boltside check`: is everything that the pattern folders say readable, measurable and sewable? Changes nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from boltside.chosen import check_named
from boltside.errors import Problem, ProblemsFound, in_order
from boltside.measure.finding import Finding
from boltside.measure.findings import find_faults
from boltside.measure.guide_faults import GuideFault, guide_faults
from boltside.pattern import Pattern, Shop
from boltside.read.collect import EnoughProblems, Problems, listed, meant, quoted
from boltside.read.folder import CHARTS_FOLDER, STEPS_FILE, YAML_FILE, examine_folder, pattern_folders
from boltside.read.lay_file import check_lay_file
from boltside.read.shop import examine_shop
from boltside.read.techniques import TECHNIQUES_FOLDER
from boltside.read.text_file import shown
from boltside.read.yaml_tree import Tree


@dataclass(frozen=True, kw_only=True)
class Examined:
    """What a check found: the patterns that could be read, all problems, and a line on each pattern without errors."""

    patterns: tuple[Pattern, ...]
    problems: tuple[Problem, ...]
    lines: tuple[str, ...]


def check_patterns(data_dir: Path, *, only: Sequence[str] = ()) -> Iterator[str]:
    """Warnings and advice, then a line for each pattern that is in order.

    Raises: ProblemsFound with all problems, warnings and advice too, when one of them is an error; NoSuchPattern.
    """
    found = examine(data_dir, only=only)
    if any(problem.severity == "error" for problem in found.problems):
        raise ProblemsFound(found.problems)
    for problem in found.problems:
        yield problem.told
    yield from found.lines


def examine(data_dir: Path, *, only: Sequence[str] = ()) -> Examined:
    """Read the shop's file and the pattern folders (all, or those named), measure what can be read. Writes nothing.

    Raises: NoSuchPattern.
    """
    reading = Problems()
    folders = pattern_folders(data_dir, reading)
    check_named([folder.name for folder in folders], only)
    shop, of_shop = examine_shop(data_dir)
    found = [*reading.found, *of_shop]
    patterns: list[Pattern] = []
    lines: list[str] = []
    for folder in folders:
        if only and folder.name not in only:
            continue
        pattern, problems, tree = examine_folder(folder, data_dir / CHARTS_FOLDER)
        found += problems
        of_lays = Problems()
        with suppress(EnoughProblems):
            check_lay_file(folder, of_lays)
        found += of_lays.found
        if pattern is None:
            continue
        patterns.append(pattern)
        if shop is not None:
            found += _unknown_techniques(pattern, shop, folder / STEPS_FILE)
        assert tree is not None, "a pattern that could be read has a tree"
        measured, garments = measure_all(pattern, folder / YAML_FILE, tree)
        found += measured
        if not any(problem.severity == "error" for problem in measured):
            lines.append(
                f"{pattern.folder}: {len(pattern.sizes)} sizes, {len(pattern.pieces)} pieces, "
                f"{len(pattern.seams)} seams in {garments} forms: every seam fits"
            )
    return Examined(patterns=tuple(patterns), problems=in_order(found), lines=tuple(lines))


def _unknown_techniques(pattern: Pattern, shop: Shop, file: Path) -> list[Problem]:
    known = [one.name for one in shop.techniques]
    return [
        Problem(
            code="unknown-technique",
            path=shown(file),
            line=step.place[0],
            column=step.place[1],
            seen=f"the technique {quoted(name)}",
            expected=f"one of {listed(known)}" if known else "no technique, for the shop has none",
            mend=meant(name, known, f"write `{TECHNIQUES_FOLDER}/{name}.md`, or delete it here"),
        )
        for step in pattern.steps
        for name in step.techniques
        if name not in known
    ]


def measure_all(pattern: Pattern, file: Path, tree: Tree) -> tuple[list[Problem], int]:
    """What measuring says of a pattern, and how many forms of its seams were measured over all sizes and choices.

    Arguments: the pattern, its pattern.yaml, and the tree of that file, which knows the places.
    """
    findings, forms = find_faults(pattern)
    found = [_problem(finding, file, tree) for finding in findings]
    if not any(one.severity == "error" for one in found):
        found += [_of_guide(fault, file.with_name(STEPS_FILE)) for fault in guide_faults(pattern)]
    return found, forms


def _of_guide(fault: GuideFault, file: Path) -> Problem:
    line, column = fault.step.place if fault.step is not None else (1, 1)
    return Problem(
        code=fault.code,
        path=shown(file),
        line=line,
        column=column,
        seen=fault.seen,
        expected=fault.expected,
        mend=fault.mend,
        severity=fault.severity,
    )


def _problem(finding: Finding, file: Path, tree: Tree) -> Problem:
    line, column = tree.key_place(finding.path)
    also = [size for size in finding.sizes if size != finding.sizes[0]]
    return Problem(
        code=finding.code,
        path=shown(file),
        line=line,
        column=column,
        seen=finding.seen + (f" (also in {', '.join(also)})" if also else ""),
        expected=finding.expected,
        mend=finding.mend,
        severity=finding.severity,
    )
