"""What is to be laid, and how it lies: the types that every other file of the lay engine shares.

Axes of the cloth: x runs along the selvedge (the lengthwise grain), from the first cut end at 0 to the
length; y runs across the usable cloth, from 0 to :func:`usable_width_mm`. On folded cloth the fold is y = 0.
Cloth that lies double in some strips only is described in :mod:`.spread_model`.

Which face lies up: flat cloth lies right side up. Folded cloth is folded right sides together, so its *under*
layer lies right side up; a single piece is cut from that layer. Thus a piece with face ``"up"`` is laid as
its outline is drawn in both ways of laying, and one with face ``"down"`` is laid mirrored in both.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, get_args

LayMode = Literal["single", "pair", "fold"]
"""How a piece is cut: so many single copies, mirrored pairs, or halves whose edge lies on a fold."""

Way = Literal["flat", "folded", "middle", "part-folded"]
"""How the cloth lies on the table: in one layer; folded in half along its length; with both selvedges folded to the
middle; folded over along one side only as far as needed, the rest single."""

PlainWay = Literal["flat", "folded"]
"""The ways in which all of the cloth has the same number of layers; the others have zones (:mod:`.spread_model`)."""

Face = Literal["up", "down"]
Quality = Literal["full", "everyday", "draft"]
"""How thoroughly a lay was looked for, the best first: an everyday lay in a third to half of the time, mostly
less than 1 % longer; a draft at once, for a look only, and pages say so. Each is a true lay: the pieces fit on it."""

Point = tuple[float, float]
Outline = tuple[Point, ...]

QUALITIES: Final[tuple[Quality, ...]] = get_args(Quality)
"""All of them, the best first."""

SELVEDGE_MM: Final = 15.0
"""Lost at each selvedge of a bolt, millimetres. Common practice."""

MAX_OVERLAP_MM2: Final = 1.0
"""Two pieces may share this much area, square millimetres: far less than a chalk line covers. Our choice."""

GRID_PER_MM: Final = 100
"""Outlines and placements are kept on a grid of 0.01 mm, so that stored lays are whole numbers."""

LAYERS: Final[dict[Way, int]] = {"flat": 1, "folded": 2, "middle": 2, "part-folded": 2}
"""Layers of cloth that lie over each other, at most."""

_QUARTERS: Final = 4
"""Cloth with both selvedges to the middle has a fold at a quarter of its width from either."""


def _on_grid(outline_mm: Outline) -> Outline:
    """The outline with every coordinate on the grid and no point repeated in a row."""
    points = [(round(x * GRID_PER_MM) / GRID_PER_MM, round(y * GRID_PER_MM) / GRID_PER_MM) for x, y in outline_mm]
    return tuple(point for index, point in enumerate(points) if point != points[index - 1])


@dataclass(frozen=True, kw_only=True)
class LayItem:
    """One paper piece of one size that is cut from this cloth.

    Arguments: ``outline_mm`` is the cutting line, closed without repeating its first point, x along the grain
    and y across the cloth; it is rounded to the grid of 0.01 mm here. For mode ``"fold"`` it is the half: its
    fold edge lies on y = 0, all else in y > 0. ``count`` is the number of garment pieces that come out: for
    ``"pair"`` an even number, half of them mirrored; for ``"fold"`` the number of whole pieces. ``face``
    matters for ``"single"`` only.

    Raises: ValueError when the outline or the count can't be right.
    """

    item_id: str
    outline_mm: Outline
    mode: LayMode
    count: int
    face: Face = "up"

    def __post_init__(self) -> None:
        object.__setattr__(self, "outline_mm", _on_grid(self.outline_mm))
        if len(self.outline_mm) < 3:
            raise ValueError(f"piece {self.item_id!r}: an outline needs at least three points")
        if self.count < 1:
            raise ValueError(f"piece {self.item_id!r}: count is {self.count}, expected 1 or more")
        if self.mode == "pair" and self.count % 2:
            raise ValueError(f"piece {self.item_id!r}: a mirrored pair needs an even count, not {self.count}")
        if self.mode == "fold" and min(y for _, y in self.outline_mm) != 0.0:
            raise ValueError(f"piece {self.item_id!r}: the fold edge of a half must lie on y = 0")


@dataclass(frozen=True, kw_only=True)
class Repeat:
    """The cloth's pattern, as it is when the cloth is cut (washed or not).

    Arguments: the repeat along the cloth and across it in millimetres (None: the pattern runs through); the mark of
    each piece that has to be in step, as a point of its outline's drawing. All are rounded to the grid of 0.01 mm.
    Raises: ValueError for a repeat that is none.
    """

    marks: Mapping[str, Point]
    along_mm: float | None = None
    across_mm: float | None = None

    def __post_init__(self) -> None:
        for name in ("along_mm", "across_mm"):
            value = getattr(self, name)
            if value is not None:
                if value < 1.0:
                    raise ValueError(f"a repeat of {value} mm is too small to keep to")
                object.__setattr__(self, name, round(value * GRID_PER_MM) / GRID_PER_MM)
        on_grid = {
            item_id: (round(x * GRID_PER_MM) / GRID_PER_MM, round(y * GRID_PER_MM) / GRID_PER_MM)
            for item_id, (x, y) in sorted(self.marks.items())
        }
        object.__setattr__(self, "marks", on_grid)

    @property
    def lengths_mm(self) -> tuple[float | None, float | None]:
        """The repeat along the cloth and across it."""
        return self.along_mm, self.across_mm


@dataclass(frozen=True, kw_only=True)
class LayRequest:
    """Pieces to be laid on one cloth, kept in the order of their names so that equal requests are equal.

    ``one_way`` (nap, one-way prints) bans turning a piece by 180 degrees. ``repeat``: the pieces' marks have to be in
    step with the cloth's pattern; such cloth is always laid one way.
    """

    items: tuple[LayItem, ...]
    bolt_width_mm: float
    way: Way
    one_way: bool
    repeat: Repeat | None = None

    def __post_init__(self) -> None:
        if self.repeat is not None and not self.one_way:
            raise ValueError("pieces in step with a repeat are laid one way")
        ids = [item.item_id for item in self.items]
        if len(set(ids)) != len(ids):
            raise ValueError(f"a piece is listed twice in one lay: {sorted(ids)}")
        if not ids:
            raise ValueError("a lay needs at least one piece")
        object.__setattr__(self, "items", tuple(sorted(self.items, key=lambda item: item.item_id)))


@dataclass(frozen=True, kw_only=True)
class Placement:
    """Where one outline lies. Applied in this order to each point (x, y) of the outline:

    1. ``mirrored``: y becomes -y (the paper is turned over, its grain still pointing the same way);
    2. ``turned``: (x, y) becomes (-x, -y);
    3. x_mm and y_mm are added.

    So ``mirrored`` and ``turned`` together flip a piece along its length, which is how a half on the fold is
    laid the other way round. On flat cloth the outline of a fold piece is the unfolded whole, about y = 0.
    ``copy`` counts the placements of one item from 0.
    """

    item_id: str
    copy: int
    x_mm: float
    y_mm: float
    turned: bool
    mirrored: bool


@dataclass(frozen=True, kw_only=True)
class Lay:
    """A finished lay: the length of cloth it needs, in millimetres, and where each outline lies.

    ``fold_over_mm``, on part-folded cloth only: how much is folded over, selvedge included. ``repeat_mm``: the repeat
    along and across the cloth with which the pieces' marks are in step, where they are meant to be.
    """

    length_mm: float
    placements: tuple[Placement, ...]
    way: Way
    bolt_width_mm: float
    one_way: bool
    quality: Quality = "full"
    fold_over_mm: float | None = None
    repeat_mm: tuple[float | None, float | None] | None = None


class LayError(Exception):
    """A lay that can't be made. The text is a sentence for the designer."""


class TooWide(LayError):
    """A piece does not fit between the selvedges.

    Attributes: ``item_id``; ``width_mm`` of the piece as it would lie; ``usable_mm`` that the cloth offers;
    ``narrowest_bolt_mm``, the narrowest bolt on which every piece of the request fits in this way of laying.
    """

    def __init__(self, *, item_id: str, width_mm: float, usable_mm: float, narrowest_bolt_mm: float, way: Way) -> None:
        self.item_id = item_id
        self.width_mm = width_mm
        self.usable_mm = usable_mm
        self.narrowest_bolt_mm = narrowest_bolt_mm
        self.way = way
        super().__init__(
            f"piece {item_id!r} is {width_mm:.0f} mm wide, {way} cloth offers {usable_mm:.0f} mm; "
            f"the narrowest cloth that works is {narrowest_bolt_mm:.0f} mm wide"
        )


class SolveFailed(LayError):
    """A solver hung, died or gave a lay that did not pass; the text names the lay."""


def usable_width_mm(bolt_width_mm: float, way: Way) -> float:
    """Width between the selvedges, or from a fold to the selvedges, in millimetres; on part-folded cloth that of the
    widest strip that can lie double.

    Arguments: the bolt's width in millimetres and the way of laying. Source: :data:`SELVEDGE_MM`.
    """
    if way == "middle":
        return bolt_width_mm / _QUARTERS - SELVEDGE_MM
    return (bolt_width_mm - 2 * SELVEDGE_MM) / LAYERS[way]


def narrowest_bolt_mm(usable_mm: float, way: Way) -> float:
    """The bolt's width in millimetres that offers ``usable_mm`` in this way of laying; see :func:`usable_width_mm`."""
    if way == "middle":
        return _QUARTERS * (usable_mm + SELVEDGE_MM)
    return usable_mm * LAYERS[way] + 2 * SELVEDGE_MM


def width_on_cloth_mm(item: LayItem, way: Way) -> float:
    """How wide the item lies across the cloth, in millimetres; turning by 180 degrees does not change it."""
    ys = [y for _, y in item.outline_mm]
    if item.mode == "fold":
        return 2 * max(ys) if way == "flat" else max(ys)
    return max(ys) - min(ys)


def check_widths(request: LayRequest) -> None:
    """Refuse pieces wider than the cloth, before any solver sees them. Part-folded cloth, where a piece may also lie
    beside the flap, has a check of its own in :mod:`.spread_part`.

    Raises: :class:`TooWide` for the widest piece that does not fit.
    """
    usable_mm = usable_width_mm(request.bolt_width_mm, request.way)
    widest = max(request.items, key=lambda item: (width_on_cloth_mm(item, request.way), item.item_id))
    width_mm = width_on_cloth_mm(widest, request.way)
    if width_mm > usable_mm:
        raise TooWide(
            item_id=widest.item_id,
            width_mm=width_mm,
            usable_mm=usable_mm,
            narrowest_bolt_mm=narrowest_bolt_mm(width_mm, request.way),
            way=request.way,
        )
