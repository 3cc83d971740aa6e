"""Cloth spread on the table so that it lies double in some strips and single in others: the *zones*.

The table's axes are those of :mod:`.model`: x along the selvedge, y across. The under layer is whole and lies right
side up; flaps are folded over it, right sides together. Flat cloth is one single zone, cloth folded in half one double
zone with its fold at y = 0; the two ways that are added here are

* ``middle``: both selvedges folded to the middle, where they meet: two double zones, with a fold at either edge of the
  table. Each selvedge lies between its zone and the middle, so nothing reaches across the meeting line;
* ``part-folded``: folded over only as far as needed, with the fold at y = 0, and single beside the flap. The single
  zone begins where the flap's selvedge ends, so nothing lies under it.
"""

from dataclasses import dataclass
from math import ceil, floor
from typing import Final, Literal

from .model import GRID_PER_MM, SELVEDGE_MM, LayError, Placement, PlainWay, Quality, TooWide, Way

SpreadWay = Literal["middle", "part-folded"]
"""The ways of laying that need zones."""

FOLD_STEP_MM: Final = 5.0
"""Cloth is folded over by whole half centimetres, which a tape shows. Our choice."""

_HAIR: Final = 1e-6
"""Steps of the grid by which a length computed from others may be off."""


@dataclass(frozen=True, kw_only=True)
class Zone:
    """A strip of the spread cloth, from one distance across the table to another, in millimetres.

    ``fold`` says at which of its edges the cloth is folded: ``low`` is ``from_mm``, ``high`` is ``to_mm``; single
    zones have none. *Local* places in a zone are measured from its fold (without one: from ``from_mm``), so that a
    zone with its fold at the high edge is the mirror image of one with it at the low edge.
    """

    name: str
    from_mm: float
    to_mm: float
    fold: Literal["low", "high"] | None

    @property
    def layers(self) -> int:
        """Layers of cloth that lie over each other."""
        return 1 if self.fold is None else 2

    @property
    def depth_mm(self) -> float:
        """Width across the table, in millimetres."""
        return self.to_mm - self.from_mm

    @property
    def fold_mm(self) -> float:
        """Where the fold lies across the table, in millimetres. Raises: ValueError for a single zone."""
        if self.fold is None:
            raise ValueError(f"zone {self.name!r} has no fold")
        return self.from_mm if self.fold == "low" else self.to_mm

    def to_table(self, local: Placement) -> "ZonedPlacement":
        """A place in the zone's own measure as a place on the table."""
        over = self.fold == "high"
        y_mm = self.to_mm - local.y_mm if over else self.from_mm + local.y_mm
        return ZonedPlacement(
            item_id=local.item_id,
            copy=local.copy,
            x_mm=local.x_mm,
            y_mm=round(y_mm * GRID_PER_MM) / GRID_PER_MM,
            turned=local.turned,
            mirrored=local.mirrored != over,
            zone=self.name,
        )


@dataclass(frozen=True, kw_only=True)
class Spread:
    """How a bolt lies on the table. ``under_mm`` is added to a distance across the table to get the distance from the
    usable edge of the flat cloth at which that spot of the under layer lies. ``fold_over_mm`` is what the buyer is told
    to fold over, selvedge included; only part-folded cloth has it."""

    way: Way
    bolt_width_mm: float
    zones: tuple[Zone, ...]
    under_mm: float
    fold_over_mm: float | None = None

    def zone(self, name: str) -> Zone:
        """The zone of a name. Raises: ValueError."""
        for one in self.zones:
            if one.name == name:
                return one
        raise ValueError(f"{self.way} cloth has no zone {name!r}")

    @property
    def folds(self) -> int:
        """How many folds there are."""
        return sum(zone.fold is not None for zone in self.zones)

    @property
    def cloth_mm(self) -> float:
        """Width of all layers of all zones together, in millimetres."""
        return sum(zone.layers * zone.depth_mm for zone in self.zones)


@dataclass(frozen=True, kw_only=True)
class ZonedPlacement(Placement):
    """A placement on the table that also says in which zone it lies.

    ``copy`` is the first garment piece that comes out of it, counted from 0: a pair in a double zone at copy 2 gives
    copies 2 and 3. Single copies of a pair are 2k as drawn and 2k + 1 turned over.
    """

    zone: str


@dataclass(frozen=True, kw_only=True)
class SpreadLay:
    """A finished lay on spread cloth: the length of cloth it needs in millimetres, and where each outline lies."""

    length_mm: float
    placements: tuple[ZonedPlacement, ...]
    spread: Spread
    one_way: bool
    quality: Quality = "full"


class TooWideInZone(TooWide):
    """A piece does not fit into any zone in which it may lie; attributes as of :class:`.model.TooWide`."""

    def __init__(
        self, *, item_id: str, width_mm: float, usable_mm: float, narrowest_bolt_mm: float, way: SpreadWay
    ) -> None:
        super().__init__(
            item_id=item_id, width_mm=width_mm, usable_mm=usable_mm, narrowest_bolt_mm=narrowest_bolt_mm, way=way
        )
        how = "with both selvedges folded to the middle" if way == "middle" else "folded over in part"
        self.args = (
            f"piece {item_id!r} is {width_mm:.0f} mm wide, {how} the cloth offers {usable_mm:.0f} mm; "
            f"the narrowest cloth that works is {narrowest_bolt_mm:.0f} mm wide",
        )


def plain(bolt_width_mm: float, way: PlainWay) -> Spread:
    """Flat cloth or cloth folded in half, as zones."""
    if way == "flat":
        whole = Zone(name="single", from_mm=0.0, to_mm=bolt_width_mm - 2 * SELVEDGE_MM, fold=None)
        return Spread(way="flat", bolt_width_mm=bolt_width_mm, zones=(whole,), under_mm=0.0)
    depth_mm = _down(bolt_width_mm / 2 - SELVEDGE_MM)
    half = Zone(name="double", from_mm=0.0, to_mm=depth_mm, fold="low")
    return Spread(way="folded", bolt_width_mm=bolt_width_mm, zones=(half,), under_mm=depth_mm)


def to_the_middle(bolt_width_mm: float) -> Spread:
    """Cloth with both selvedges folded to its middle.

    Each flap is a quarter of the width, less the selvedge. Raises: LayError when nothing is left between them.
    """
    depth_mm = _down(bolt_width_mm / 4 - SELVEDGE_MM)
    if depth_mm <= 0:
        raise LayError(f"cloth {bolt_width_mm:.0f} mm wide is too narrow to fold its selvedges to the middle")
    table_mm = 2 * (depth_mm + SELVEDGE_MM)
    zones = (
        Zone(name="left", from_mm=0.0, to_mm=depth_mm, fold="low"),
        Zone(name="right", from_mm=table_mm - depth_mm, to_mm=table_mm, fold="high"),
    )
    return Spread(way="middle", bolt_width_mm=bolt_width_mm, zones=zones, under_mm=depth_mm)


def folded_over(bolt_width_mm: float, fold_over_mm: float) -> Spread:
    """Cloth of which so much is folded over, selvedge included; from half the width on it is folded in half.

    Raises: LayError when nothing but selvedge would be folded over.
    """
    half_mm = _down(bolt_width_mm / 2)
    over_mm = min(fold_over_mm, half_mm)
    depth_mm = _down(over_mm - SELVEDGE_MM)
    if depth_mm <= 0:
        raise LayError(f"folding over {fold_over_mm:.0f} mm leaves no double cloth beyond the selvedge")
    zones = [Zone(name="double", from_mm=0.0, to_mm=depth_mm, fold="low")]
    end_mm = _down(bolt_width_mm - over_mm - SELVEDGE_MM)
    if end_mm > over_mm:
        zones.append(Zone(name="single", from_mm=over_mm, to_mm=end_mm, fold=None))
    return Spread(
        way="part-folded",
        bolt_width_mm=bolt_width_mm,
        zones=tuple(zones),
        under_mm=depth_mm,
        fold_over_mm=over_mm,
    )


def fold_over_for(depth_mm: float, bolt_width_mm: float) -> float:
    """How much to fold over so that the double zone is at least so deep, in whole half centimetres.

    At most half the width, which may be too little: the caller looks at the zone.
    """
    steps = ceil((depth_mm + SELVEDGE_MM) / FOLD_STEP_MM - _HAIR)
    return min(steps * FOLD_STEP_MM, _down(bolt_width_mm / 2))


def _down(length_mm: float) -> float:
    """Down to the grid, so that no zone is wider than the cloth."""
    return floor(length_mm * GRID_PER_MM + _HAIR) / GRID_PER_MM
