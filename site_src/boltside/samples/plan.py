"""Which garments are sewn and filmed, in which order, and what does each show that none before it did?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from boltside.samples.cover import LOOKS, fewest
from boltside.samples.shown import Guide, Option, Pair, Sewable, Step, Thing, never_shown, sewables

_PARTS = (2, 3, 4, 5, 6)
"""Bounds from below are looked for among so many of the richest choices. Our choice."""


@dataclass(frozen=True, kw_only=True)
class Sample:
    """A garment to sew, and what it is the first to show: `takes` are the steps to film while it is sewn."""

    garment: Sewable
    takes: tuple[Step, ...]
    options: tuple[Option, ...]
    pairs: tuple[Pair, ...]


@dataclass(frozen=True, kw_only=True)
class SamplePlan:
    """The garments in order; how many are needed at least, which is proven; steps that no garment has; whether every
    set of choices was looked at."""

    guide: Guide
    samples: tuple[Sample, ...]
    at_least: int
    never: tuple[Step, ...]
    whole: bool


def sample_plan(guide: Guide, *, looks: int = LOOKS) -> SamplePlan:
    """The fewest garments, as far as found, that together show every step and every pair of alternatives that meet.

    Arguments: the guide; the allowance of each search (see :mod:`boltside.samples.cover`).
    """
    garments, whole = sewables(guide)
    places: dict[Thing, int] = {}
    masks = [sum(1 << places.setdefault(thing, len(places)) for thing in garment.shows) for garment in garments]
    found = fewest(masks, _parts(guide, places) if whole else (), at_least=_most_pairs(places), looks=looks)
    # Of sets that were not looked at nothing is proven but that each garment has one alternative of each choice.
    at_least = found.at_least if whole else _most_pairs(places)
    return SamplePlan(
        guide=guide,
        samples=tuple(_in_order([garments[at] for at in found.chosen])),
        at_least=min(at_least, len(found.chosen)),
        never=tuple(never_shown(guide, garments)),
        whole=whole,
    )


def _in_order(garments: Sequence[Sewable]) -> list[Sample]:
    """Always the garment next that shows most new things; each thing is shown by the first that has it."""
    left, seen, samples = list(garments), set[Thing](), []
    while left:
        garment = max(left, key=lambda one: (len(set(one.shows) - seen), -left.index(one)))
        left.remove(garment)
        new = [thing for thing in garment.shows if thing not in seen]
        seen.update(new)
        samples.append(
            Sample(
                garment=garment,
                takes=tuple(thing for thing in new if isinstance(thing, Step)),
                options=tuple(thing for thing in new if isinstance(thing, Option)),
                pairs=tuple(thing for thing in new if isinstance(thing, Pair)),
            )
        )
    return samples


def _most_pairs(places: dict[Thing, int]) -> int:
    """The most pairs that two choices have: a garment shows one of them, so as many garments are needed."""
    counts: dict[tuple[str, ...], int] = {}
    for thing in places:
        if isinstance(thing, Pair):
            names: tuple[str, ...] = (thing.first[0], thing.second[0])
        elif isinstance(thing, Option):
            names = (thing.word[0],)
        else:
            continue
        counts[names] = counts.get(names, 0) + 1
    return max(counts.values(), default=1)


def _parts(guide: Guide, places: dict[Thing, int]) -> list[int]:
    """The pairs among the choices that have most alternatives, as sets of things."""
    richest = sorted(guide.choices, key=lambda choice: -len(choice["alternatives"]))
    parts = []
    for count in _PARTS:
        names = {choice["name"] for choice in richest[:count]}
        inside = [
            place
            for thing, place in places.items()
            if isinstance(thing, Pair) and {thing.first[0], thing.second[0]} <= names
        ]
        if inside and count <= len(guide.choices):
            parts.append(sum(1 << place for place in inside))
    return parts
