"""What is wrong with the garment itself: seams that do not fit, chains that do not follow on, lengths that shrink?

Everything is looked at in every size, but only over the choices that it depends on: a seam of two pieces is measured
once for each form that these two can have, never for each of the garment's combinations.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import pairwise

from boltside.calculators.conditions import names_in_all
from boltside.measure.chains import broken_links
from boltside.measure.closure_findings import closure_findings
from boltside.measure.conditions import holds, with_size
from boltside.measure.cutting_list import choices_of_piece, cuts, occurring
from boltside.measure.ease import ease_off
from boltside.measure.finding import Finding, Path, told
from boltside.measure.finished import finished_mm, notion_edge_length_mm
from boltside.measure.garment import make_garment, make_piece
from boltside.measure.model import Garment, MeasureError, SeamResult
from boltside.measure.seams import EQUAL_WITHIN_MM, check_seam
from boltside.measure.worn_findings import elastic_findings, pull_on_findings
from boltside.pattern import ChoiceSet, Condition, EdgePart, Measurement, Notion, Pattern, Seam

SMALLER_MM = 1.0
"""A finished measurement that shrinks by less from one size to the next is a slip of drawing. Our choice."""

MEND_SEAM = "true the outlines, or say in the seam which ease or gather ratio is meant"
AS = "as:"

@dataclass
class _Findings:
    """Findings by code and place, in the order in which they were found."""

    by_place: dict[tuple[str, Path], Finding] = field(default_factory=dict)
    sizes: dict[tuple[str, Path], dict[str, None]] = field(default_factory=dict)

    def add(self, finding: Finding, size: str) -> None:
        """Note what is seen in a size; of each thing the first sight is kept, and every size."""
        key = (finding.code, finding.path)
        self.by_place.setdefault(key, finding)
        self.sizes.setdefault(key, {})[size] = None

    def all(self) -> list[Finding]:
        """Every finding with its sizes, the one that is told of first."""
        return [replace(one, sizes=tuple(self.sizes[key])) for key, one in self.by_place.items()]


def find_faults(pattern: Pattern) -> tuple[list[Finding], int]:
    """All that measuring finds wrong, and how many forms of seams were measured."""
    found = _Findings()
    unmade = _pieces(pattern, found)
    forms = 0
    for at, seam in enumerate(pattern.seams):
        forms += _seam(pattern, at, seam, found, unmade)
    for at, measurement in enumerate(pattern.measurements):
        pieces = [part.piece for part in measurement.parts]
        value = partial(_finished_mm, measurement)
        lengths = _lengths(pattern, ("measurements", at), measurement.when, pieces, value, found, unmade)
        _shrinking(pattern, ("measurements", at), measurement.name, lengths, found)
        _ease(pattern, ("measurements", at), measurement, players(pattern, pieces), found)
    for at, notion in enumerate(pattern.notions):
        if notion.edge is not None:
            value = partial(_edge_mm, notion)
            _lengths(pattern, ("notions", at), notion.when, [notion.edge.piece], value, found, unmade)
        lines = notion.placed.lines if notion.placed is not None else ()
        if lines and not unmade & set(players(pattern, [part.piece for part in lines])):
            for finding, size in closure_findings(pattern, at, notion):
                found.add(finding, size)
        if not unmade & set(players(pattern, _measured_on(notion))):
            _note(found, ("notions", at), pattern, partial(elastic_findings, pattern, at, notion))
    for at, ring in enumerate(pattern.pull_on):
        if not unmade & set(players(pattern, [part.piece for part in (*ring.parts, *ring.slit)])):
            _note(found, ("pull_on", at), pattern, partial(pull_on_findings, pattern, at, ring))
    return found.all(), forms


def _measured_on(notion: Notion) -> list[str]:
    """The pieces on which the channel of an elastic is measured."""
    channel = notion.channel
    if channel is None:
        return []
    return [channel.hem[0]] if channel.hem is not None else [part.piece for part in channel.parts]


def _note(
    found: _Findings, path: Path, pattern: Pattern, look: Callable[[], Iterator[tuple[Finding, str]]]
) -> None:
    """Note what is found; where something can't be measured, that."""
    try:
        for finding, size in look():
            found.add(finding, size)
    except MeasureError as error:
        found.add(_not_measurable(path, error, {}, pattern.sizes[0]), pattern.sizes[0])


def _finished_mm(measurement: Measurement, garment: Garment) -> float:
    return finished_mm(garment, measurement)


def _edge_mm(notion: Notion, garment: Garment) -> float:
    return notion_edge_length_mm(garment, notion)


def players(pattern: Pattern, names: Sequence[str]) -> list[str]:
    """The pieces that these names, some of them `as:<role>`, can stand for."""
    plays = {AS + role.role: [play.piece for play in role.plays] for role in pattern.roles}
    return list(dict.fromkeys(piece for name in names for piece in plays.get(name, [name])))


def forms_of(pattern: Pattern, when: Condition, names: Sequence[str]) -> Iterator[tuple[str, Garment, ChoiceSet]]:
    """Each different form that these pieces take where the condition holds: size, garment of these pieces, choices.

    Arguments: pieces, some of them perhaps named by their role. Raises: :class:`MeasureError` from the iterator where
    a piece can't be made; what can is best asked of :func:`find_faults` first.
    """
    pieces = players(pattern, names)
    by_role = any(name.startswith(AS) for name in names)
    asked = set(names_in_all([when, *(play.when for role in pattern.roles for play in role.plays if by_role)]))
    for piece in pattern.pieces:
        if piece.name in pieces:
            asked |= set(choices_of_piece(pattern, piece))
    for size, combinations in occurring(pattern, sorted(asked)).items():
        seen: set[tuple[object, ...]] = set()
        for chosen in combinations:
            if not holds(when, with_size(chosen, size)):
                continue
            garment = make_garment(pattern, size, chosen, only=pieces)
            # Made pieces are kept, so the same object is the same form.
            roles = tuple(garment.roles.items()) if by_role else ()
            form = (*(id(garment.pieces.get(name)) for name in pieces), *roles)
            if form not in seen:
                seen.add(form)
                yield size, garment, chosen


def _pieces(pattern: Pattern, found: _Findings) -> set[str]:
    """Note pieces that can't be made or cut; returns their names."""
    unmade: set[str] = set()
    for piece in pattern.pieces:
        for size, combinations in occurring(pattern, choices_of_piece(pattern, piece)).items():
            for chosen in combinations:
                try:
                    made = make_piece(pattern, piece, size, chosen)
                    if made is not None:
                        list(cuts(made))
                except MeasureError as error:
                    unmade.add(piece.name)
                    found.add(_not_measurable(("pieces", piece.name), error, chosen, size), size)
    return unmade


def _not_measurable(path: Path, error: MeasureError, chosen: ChoiceSet, size: str) -> Finding:
    return Finding(
        code="not-measurable",
        path=path,
        seen=f"{str(error).replace('; ', ', ')}, {told(chosen, size)}",
        expected="something that can be measured in every size and allowed combination where it is asked for",
        mend="say with `when:` where it applies, or correct the piece",
    )


def _seam(pattern: Pattern, at: int, seam: Seam, found: _Findings, unmade: set[str]) -> int:
    names = [part.piece for part in (*seam.join, *seam.to)]
    if unmade & set(players(pattern, names)):
        return 0
    forms = 0
    for size, garment, chosen in forms_of(pattern, seam.when, names):
        forms += 1
        try:
            result = check_seam(garment, seam)
            for key, parts in (("join", seam.join), ("to", seam.to)):
                for one, next_ in broken_links(garment, seam, parts):
                    found.add(_broken_chain(("seams", at, key), one, next_), size)
        except MeasureError as error:
            found.add(_not_measurable(("seams", at), error, chosen, size), size)
            continue
        if not result.holds:
            found.add(_seam_lengths(("seams", at), result, chosen, size), size)
    return forms


def _seam_lengths(path: Path, result: SeamResult, chosen: ChoiceSet, size: str) -> Finding:
    low, high = result.meant_range
    to_mm = result.to_mm
    meant = {
        "equal": (to_mm + low, to_mm + high, f"equal within {EQUAL_WITHIN_MM:g} mm"),
        "ease_mm": (to_mm + low, to_mm + high, f"an ease of {low:g} to {high:g} mm"),
        "ease_percent": (to_mm * (1 + low / 100), to_mm * (1 + high / 100), f"an ease of {low:g} to {high:g} %"),
        "gather_ratio": (to_mm * low, to_mm * high, f"{low:g} to {high:g} times as long"),
    }
    least_mm, most_mm, words = meant[result.meant]
    return Finding(
        code="seam-lengths",
        path=path,
        seen=f"seam `{result.name}`: {result.join_mm:.1f} mm joined to {to_mm:.1f} mm {told(chosen, size)}",
        expected=f"{least_mm:.1f} to {most_mm:.1f} mm joined to it, {words}",
        mend=MEND_SEAM,
    )


def _broken_chain(path: Path, one: EdgePart, next_: EdgePart) -> Finding:
    a, b = f"{one.piece}.{one.edge}", f"{next_.piece}.{next_.edge}"
    if one.piece == next_.piece:
        expected = "edges that are neighbours round the piece, or a seam that joins their ends"
    else:
        expected = f"a seam of its own that joins `{one.piece}` and `{next_.piece}` where the two edges meet"
    return Finding(
        code="broken-chain",
        path=path,
        seen=f"`{a}` and then `{b}`, which do not meet",
        expected=expected,
        mend="put the edges into the order in which they are sewn, or add the seam between them",
    )


def _ease(pattern: Pattern, path: Path, measurement: Measurement, pieces: list[str], found: _Findings) -> None:
    """Warn where the ease is not what is meant."""
    for off in ease_off(pattern, measurement, pieces):
        found.add(
            Finding(
                code="ease-off",
                path=path,
                seen=f"`{measurement.name}` {off.finished_mm:.1f} mm over a body of {off.body_mm:.0f} mm, that is "
                f"{off.ease_mm:.1f} mm of ease, {told(off.chosen, off.size)}",
                expected=f"{off.low_mm:g} to {off.high_mm:g} mm of ease in {off.kind} cloth",
                mend="look at the outlines and the body chart, or say in `ease_mm:` what is meant",
                severity="warning",
            ),
            off.size,
        )


def _lengths(
    pattern: Pattern,
    path: Path,
    when: Condition,
    pieces: Sequence[str],
    value: Callable[[Garment], float],
    found: _Findings,
    unmade: set[str],
) -> dict[tuple[tuple[str, str], ...], dict[str, float]]:
    """The length by choices and size; what can't be measured is noted."""
    lengths: dict[tuple[tuple[str, str], ...], dict[str, float]] = {}
    if unmade & set(players(pattern, pieces)):
        return lengths
    for size, garment, chosen in forms_of(pattern, when, pieces):
        try:
            lengths.setdefault(tuple(chosen.items()), {})[size] = value(garment)
        except MeasureError as error:
            found.add(_not_measurable(path, error, chosen, size), size)
    return lengths


def _shrinking(
    pattern: Pattern,
    path: Path,
    name: str,
    lengths: Mapping[tuple[tuple[str, str], ...], Mapping[str, float]],
    found: _Findings,
) -> None:
    """Warn of the first fall from a size to the next."""
    for items, by_size in lengths.items():
        sizes = [size for size in pattern.sizes if size in by_size]
        for smaller, larger in pairwise(sizes):
            if by_size[larger] < by_size[smaller] - SMALLER_MM:
                words = told(dict(items), larger).removeprefix(f"in size {larger}")
                found.add(
                    Finding(
                        code="shrinking-grading",
                        path=path,
                        seen=f"`{name}` {by_size[smaller]:.1f} mm in size {smaller} but {by_size[larger]:.1f} mm in "
                        f"size {larger}{words}",
                        expected="a larger size that is nowhere smaller",
                        mend="look at the outlines of both sizes; if it is meant, leave it",
                        severity="warning",
                    ),
                    larger,
                )
                return
