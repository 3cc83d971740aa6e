"""How few of many sets together contain everything? With a number that is proven to be needed.

Sets are whole numbers, a bit for each thing. Knows nothing of garments. The search is exact as far as its allowance
reaches; what it has not proven by then it does not claim. The same arguments give the same answer.

>>> fewest([0b011, 0b110, 0b101, 0b001])
Cover(chosen=(0, 1), at_least=2)
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_
from random import Random
from typing import Final

LOOKS: Final = 4_000_000
"""How many times a search that can prove something may look at a set: a second or two."""
_MOVES: Final = 5
"""So many times that allowance for the search by moves, which looks faster and finds what the other only rules out."""
_MANY: Final = 3_000
"""Of more sets than this only equal ones are left out beforehand, not those that lie within another."""
_SEED: Final = 7
_WAITS: Final = (2, 5)
"""For so many moves a set that was taken out does not come back (tabu search; our choice)."""


@dataclass(frozen=True)
class Cover:
    """Places of the chosen sets, rising; and how many are needed at least, which is proven."""

    chosen: tuple[int, ...]
    at_least: int


def fewest(sets: Sequence[int], parts: Sequence[int] = (), *, at_least: int = 1, looks: int = LOOKS) -> Cover:
    """A smallest choice of sets that together contain all that any of them contains, as far as the allowance reaches.

    Arguments: the sets; parts of the whole, as sets, whose own needs are bounds from below (a part has fewer different
    sets, so the search gets to its end); a number that is known to be needed; the allowance of each search.
    """
    everything = reduce(or_, sets, 0)
    if not everything:
        return Cover(chosen=(), at_least=0)
    needed = max(at_least, apart(sets))
    for part in parts:
        inside = list(dict.fromkeys(one & part for one in sets if one & part))
        if inside:
            needed = max(needed, _search(inside, looks, needed).at_least)
    return _search(sets, looks, needed)


def apart(sets: Sequence[int]) -> int:
    """How many things there are of which no set contains two, as far as found one after the other, the rarest first."""
    everything = reduce(or_, sets, 0)
    meets: dict[int, int] = {}
    counts: dict[int, int] = {}
    for place in _bits(everything):
        holding = [one for one in sets if one >> place & 1]
        counts[place], meets[place] = len(holding), reduce(or_, holding, 0)
    found, left = 0, everything
    for place in sorted(counts, key=lambda one: (counts[one], one)):
        if left >> place & 1:
            found, left = found + 1, left & ~meets[place]
    return found


def _search(sets: Sequence[int], looks: int, needed: int) -> Cover:
    """The search on one list of sets, given that `needed` are needed."""
    kept = _without_needless(sets)
    masks = [sets[at] for at in kept]
    best = _greedy(masks)
    needed = min(needed, len(best))
    # From below: either so many do, or one more is needed.
    while needed < len(best):
        found, ended = _exactly(masks, needed, looks)
        if found is not None:
            best = found
        elif ended:
            needed += 1
            continue
        break
    # From above, where the search from below did not get to its end.
    while needed < len(best):
        found = _by_moves(masks, len(best) - 1, _MOVES * looks)
        if found is None:
            break
        best = found
    return Cover(chosen=tuple(sorted(kept[at] for at in best)), at_least=needed)


def _without_needless(sets: Sequence[int]) -> list[int]:
    """Places of the sets that lie within no other one; of equal ones the first."""
    order = sorted(range(len(sets)), key=lambda at: (-sets[at].bit_count(), at))
    kept: list[int] = []
    seen: set[int] = set()
    for at in order:
        mask = sets[at]
        if mask in seen or not mask:
            continue
        seen.add(mask)
        if len(sets) > _MANY or not any(mask | sets[other] == sets[other] for other in kept):
            kept.append(at)
    return sorted(kept)


def _greedy(masks: Sequence[int]) -> list[int]:
    """Always the set that adds most; then without those that have become needless."""
    left, chosen = reduce(or_, masks, 0), []
    while left:
        at = max(range(len(masks)), key=lambda one: ((masks[one] & left).bit_count(), -one))
        chosen.append(at)
        left &= ~masks[at]
    for at in list(chosen):
        others = reduce(or_, (masks[one] for one in chosen if one != at), 0)
        if others | masks[at] == others:
            chosen.remove(at)
    return chosen


def _exactly(masks: Sequence[int], most: int, looks: int) -> tuple[list[int] | None, bool]:
    """Sets of which `most` do, or None; and whether the search got to its end, so that None is a proof."""
    everything = reduce(or_, masks, 0)
    holding: dict[int, int] = dict.fromkeys(_bits(everything), 0)
    for at, mask in enumerate(masks):
        for place in _bits(mask):
            holding[place] |= 1 << at
    looked = 0

    def grow(left: int, free: int, more: int) -> list[int] | None:
        nonlocal looked
        if not left:
            return []
        gains = sorted(((masks[at] & left).bit_count() for at in _bits(free)), reverse=True)
        looked += len(gains)
        if looked > looks:
            raise _Enough
        if sum(gains[:more]) < left.bit_count():
            return None
        place = min(_bits(left), key=lambda one: ((holding[one] & free).bit_count(), one))
        for at in sorted(_bits(holding[place] & free), key=lambda one: (-(masks[one] & left).bit_count(), one)):
            # Whatever contains this set has been looked through once it is back.
            free &= ~(1 << at)
            found = grow(left & ~masks[at], free, more - 1) if more else None
            if found is not None:
                return [at, *found]
        return None

    try:
        return grow(everything, (1 << len(masks)) - 1, most), True
    except _Enough:
        return None, False


class _Enough(Exception):
    """The allowance is used up."""


def _by_moves(masks: Sequence[int], count: int, looks: int) -> list[int] | None:
    """So many sets that do, found by exchanging one at a time; None where none were found, which proves nothing."""
    everything = reduce(or_, masks, 0)
    chance = Random(_SEED)
    chosen = sorted(chance.sample(range(len(masks)), min(count, len(masks))))
    waiting: dict[int, int] = {}
    for move in range(max(1, looks // (count * len(masks)))):
        best: tuple[int, int, int] | None = None
        ties = 0
        for place, out in enumerate(chosen):
            others = reduce(or_, (masks[one] for one in chosen if one != out), 0)
            missing = everything & ~others
            for at, mask in enumerate(masks):
                if at == out or waiting.get(at, -1) >= move:
                    continue
                left = (missing & ~mask).bit_count()
                ties = ties + 1 if best is not None and left == best[0] else 0
                # Of equally good moves any may be made.
                if best is None or left < best[0] or (left == best[0] and chance.random() * (ties + 1) < 1):
                    best = (left, place, at)
        if best is None:
            return None
        left, place, at = best
        waiting[chosen[place]] = move + chance.randint(*_WAITS)
        chosen[place] = at
        if not left:
            return chosen
    return None


def _bits(mask: int) -> list[int]:
    """The places of the bits that are set, rising."""
    found = []
    while mask:
        low = mask & -mask
        found.append(low.bit_length() - 1)
        mask ^= low
    return found
