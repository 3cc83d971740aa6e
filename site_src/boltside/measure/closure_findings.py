"""What has the designer to know of her closures: no room, something that gave way, an edge that laps too little?"""

from __future__ import annotations

from collections.abc import Iterator

from boltside.calculators.closures import overlap_mm
from boltside.measure.closure_cases import PlacedRow, Unplaced, placed_or_why
from boltside.measure.finding import Finding, Path, told
from boltside.measure.worn_findings import choices
from boltside.pattern import Notion, Pattern

WITHIN_MM = 0.05
"""What rounding may take from an overlap."""


def closure_findings(pattern: Pattern, at: int, notion: Notion) -> Iterator[tuple[Finding, str]]:
    """Everything to be said of the notion's places, each with the size in which it is seen.

    Arguments: the pattern; which of its notions it is, and the notion.
    """
    path: Path = ("notions", at, "placed")
    for case in placed_or_why(pattern, notion):
        for size, found in case.by_size.items():
            where = told(choices(case.when), size)
            if isinstance(found, Unplaced):
                yield _no_room(path, notion, found, where), size
                continue
            moved = _moved(path, notion, found, where)
            if moved is not None:
                yield moved, size
            narrow = _narrow(path, notion, found, where)
            if narrow is not None:
                yield narrow, size
            if "snap" in notion.kinds:
                for finding in _not_backed(path, notion, found, where):
                    yield finding, size


def _no_room(path: Path, notion: Notion, found: Unplaced, where: str) -> Finding:
    return Finding(
        code="no-room-for-closures" if found.measurable else "not-measurable",
        path=path,
        seen=f"`{notion.name}` on a line with {found.why} {where}" if found.measurable else f"{found.why}, {where}",
        expected="a place for each, clear of seams and of both ends"
        if found.measurable
        else "a line that can be measured in every size and combination where the notion is needed",
        mend=found.mend,
    )


def _moved(path: Path, notion: Notion, found: PlacedRow, where: str) -> Finding | None:
    places = found.places
    said = [words for gave, words in (
        (places.first_moved, f"the first moved to {places.mm[0]:g} mm"),
        (places.last_moved, f"the last moved to {found.length_mm - places.mm[-1]:.4g} mm from the lower end"),
        (places.other_number, f"{len(places.mm)} instead of the number that the wished space gives"),
        (not places.equal, "spaces that are not equal: " + _listed(places.mm)),
    ) if gave]  # fmt: skip
    if not said:
        return None
    seams = f", with seams at {_listed(found.crossings_mm)}" if found.crossings_mm else ""
    return Finding(
        code="closures-moved",
        path=path,
        seen=f"`{notion.name}` with {' and '.join(said)}{seams}, {where}",
        expected="places as wished, with equal spaces",
        mend="leave it, or choose other distances from the ends or another number",
        severity="advice",
    )


def _listed(mm: tuple[float, ...]) -> str:
    return ", ".join(f"{one:g}" for one in mm) + " mm"


def _not_backed(path: Path, notion: Notion, found: PlacedRow, where: str) -> Iterator[Finding]:
    """Snaps that go through cloth alone, on their own layer or on that of their other halves."""
    other = "onto" if notion.placed is not None and notion.placed.onto else "along"
    for place, bare_mm, under in (
        (path, found.bare_mm, "under them"),
        ((*path, other), found.other_bare_mm, f"under their other halves, on {found.other},"),
    ):
        if bare_mm:
            yield Finding(
                code="closure-not-backed",
                path=place,
                seen=f"`{notion.name}` at {_listed(bare_mm)} without interfacing {under} {where}",
                expected="interfacing under every snap, in both layers, so that none pulls out",
                mend="add `interfacing:` to the piece there, or leave it where the cloth is firm enough",
                severity="advice",
            )


def _narrow(path: Path, notion: Notion, found: PlacedRow, where: str) -> Finding | None:
    least_mm = overlap_mm(notion.diameter_mm or 0)
    if found.edge_mm is None or found.edge_mm >= least_mm - WITHIN_MM:
        return None
    return Finding(
        code="narrow-overlap",
        path=path,
        seen=f"`{notion.name}`, {notion.diameter_mm:g} mm, on a line {found.edge_mm:g} mm from the edge {where}",
        expected=f"at least {least_mm:g} mm, three quarters of the diameter",
        mend="move the line inwards, widen the overlap, or take a smaller size",
        severity="warning",
    )
