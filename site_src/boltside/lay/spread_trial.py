"""One trial of the search on spread cloth: what was wished, and where each piece came to lie."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from .fill import Variant, variants_of
from .nofit import FINE_PER_MM
from .slots import Pose
from .spread_slots import SpreadSlot

_SAME_LENGTH: Final = FINE_PER_MM // 20
"""Two places whose far ends differ by less than this count as equally far: 0.05 mm."""

Rows = Sequence[Sequence[tuple[int, Pose]]]
"""For each zone with a fold, number and pose of the slots that lie in a row along it."""


@dataclass(frozen=True, kw_only=True)
class Choice:
    """A slot's outline in one pose in one zone; ``apart`` if its partner then needs a place of its own."""

    zone: int
    variant: Variant
    on_fold: bool
    apart: bool


@dataclass(frozen=True, kw_only=True)
class Laid:
    """One piece laid in a trial: which slot, how, where in its zone (fine steps)."""

    slot: int
    choice: Choice
    x: int
    y: int

    @property
    def end(self) -> int:
        """Its far end along the cloth."""
        return self.x + self.choice.variant.length


@dataclass(frozen=True, kw_only=True)
class Wish:
    """What a trial asks of one slot: a choice (None: the best), whether it is cut apart from its partner, and which
    free place it takes (``first`` and ``high`` as in :mod:`.fill`)."""

    choice: int | None = None
    apart: bool = False
    first: int = 0
    high: bool = False


@dataclass(frozen=True, kw_only=True)
class Trial:
    """An order of slots, a wish for each slot, and what came of it; None for a slot whose partner gives its piece."""

    order: tuple[int, ...]
    wishes: tuple[Wish, ...]
    laid: tuple[Laid | None, ...]

    @property
    def length(self) -> int:
        """The length of cloth it takes, in fine steps."""
        return max(piece.end for piece in self.laid if piece)

    @property
    def rank(self) -> tuple[int, int]:
        """Shorter is better; among equals, the one whose pieces lie nearer the first cut end."""
        return self.length, sum(piece.end * piece.choice.variant.width for piece in self.laid if piece) // FINE_PER_MM


def choices_of(slot: SpreadSlot) -> list[Choice]:
    """All ways in which a slot may lie, zone by zone; poses that give the same shape are listed once."""
    return [
        Choice(zone=zone, variant=variant, on_fold=one.on_fold, apart=zone in slot.apart_in)
        for zone, one in enumerate(slot.in_zones)
        if one is not None
        for variant in variants_of(one)
    ]


def preferred(places: Sequence[Laid], wish: Wish) -> Laid:
    """The place to take among those of the choices."""
    if wish.first == 1:
        return min(places, key=lambda one: (-one.y if wish.high else one.y + one.choice.variant.width, one.end))
    nearest = min(place.end for place in places)
    return min(
        (place for place in places if place.end <= nearest + _SAME_LENGTH),
        key=lambda one: (one.y + one.choice.variant.width, one.end),
    )
