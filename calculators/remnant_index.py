"""What does the shop's index of remnants hold? One small file that tells what every pattern takes of every cloth.

The build writes it (`boltside.pages.remnant_index`); here it is read. Lengths are whole centimetres, rounded up, in one
text for each cloth. A sign of the text is one length: for each way of laying, with nap and without, each set of pieces,
each width, each size, in this order. It says by how much the length differs from the one before it in size, of what
is left when the same is taken of the way or nap before: nearly always by little, so that the file packs well.

Lengths on cloth narrower than any bolt stand apart, as `narrow`: they are of cloth laid flat, and of no use to whoever
asks about wider cloth. A sign counts steps of 5 cm there, rounded up, for these lays may take 10 cm too much anyway.

Additions are done for all signs at once, eight bits to a sign in one large whole number, so that a phone reads forty
patterns in no time.

>>> cloth = {"ways": ["flat"], "naps": ["without"], "widths": [900, 1400], "rows": 1, "lengths": "", "high": ""}
>>> cloth["lengths"] = written([60, 66, 40, 44], sizes=2, planes=1)
>>> lengths = Lengths(cloth, sizes=2)
>>> lengths.at("flat", "without", width_mm=1390, size=1), lengths.at("flat", "without", width_mm=1400, size=0)
([66], [40])
>>> lengths.at("flat", "without", width_mm=890, size=1)
[None]
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

ClothJson = Mapping[str, Any]

REMNANT_FORMAT = 2
"""The format of the index that these calculators read."""

FIRST_SIGN = 64
"""The sign of *no difference*; nothing near it has to be written in a longer way in JSON."""
BASE = 255
"""Lengths from here on need a second text, which counts how often this goes into them."""
NONE = 255
"""Stands for *no lay*."""
_BYTE = 256

NARROW_WAY = "flat"
"""How cloth narrower than any bolt is laid."""
NARROW_UP_TO_CM = 120
"""Nothing much longer is laid on it: no remnant is."""
NARROW_STEP_CM = 5
NARROW_MOST_CM = 250
"""What would take more is left out; the next step would be the sign of no lay."""
_STEPS = bytes(one * NARROW_STEP_CM if one * NARROW_STEP_CM <= NARROW_MOST_CM else NONE for one in range(_BYTE))
"""From steps to centimetres."""

NOT_TAKEN = "-"
"""In a variant: the choice is not asked. As the set of pieces of a variant: none are cut, or it is not offered."""
FIRST_DIGIT = 48
"""The sign for the number 0 where each of a few numbers is one sign."""


def digit(number: int) -> str:
    """A small number as one sign.

    >>> digit(0), digit(9), number_of(digit(200))
    ('0', '9', 200)
    """
    return chr(FIRST_DIGIT + number)


def number_of(sign: str) -> int:
    """The number that a sign stands for."""
    return ord(sign) - FIRST_DIGIT


def is_remnant_index(file: Mapping[str, Any]) -> bool:
    """Whether this is an index of the format that is read here."""
    return file.get("format") == REMNANT_FORMAT and isinstance(file.get("patterns"), list)


def written(values: Sequence[int | None], *, sizes: int, planes: int, high: bool = False) -> str:
    """The text that stands for lengths.

    Arguments: lengths in cm in the order of the text, None for no lay; how many sizes there are; how many planes (ways
    times naps); ``high``: how often :data:`BASE` goes into each length, instead of what remains.
    """
    rest = bytes(NONE if one is None else one // BASE if high else one % BASE for one in values)
    plane = len(rest) // planes if planes else 0
    for step, of in ((plane, len(rest)), (1, sizes)):
        before = bytes(0 if at % of < step else rest[at - step] for at in range(len(rest)))
        rest = bytes((one - less) % _BYTE for one, less in zip(rest, before, strict=True))
    return bytes((one + FIRST_SIGN) % _BYTE for one in rest).decode("latin-1")


_UNSHIFTED = bytes((one - FIRST_SIGN) % _BYTE for one in range(_BYTE))


def read(text: str, *, sizes: int, planes: int) -> bytes:
    """The numbers that a text of :func:`written` stands for; the arguments are those.

    >>> read(written([3, 1, None, 7], sizes=2, planes=2), sizes=2, planes=2) == bytes([3, 1, NONE, 7])
    True
    """
    length = len(text)
    if not length:
        return b""
    total = int.from_bytes(text.encode("latin-1").translate(_UNSHIFTED), "little")
    low = int.from_bytes(b"\x7f" * length, "little")
    step = 1
    while step < sizes:
        # Sums over 1, 2, 4… sizes; what would come from another row is left out.
        keep = int.from_bytes((b"\0" * step + b"\xff" * (sizes - step)) * (length // sizes), "little")
        total = _added(total, (total << 8 * step) & keep, low)
        step *= 2
    plane = length // planes
    step = plane
    whole = (1 << 8 * length) - 1
    while step < length:
        total = _added(total, (total << 8 * step) & whole, low)
        step *= 2
    return total.to_bytes(length, "little")


def _added(one: int, other: int, low: int) -> int:
    """Sums byte by byte, each for itself: the highest bits are added apart, so that nothing is carried over."""
    return ((one & low) + (other & low)) ^ ((one ^ other) & ~low)


NO_WIDTHS: Mapping[str, Any] = {"widths": (), "lengths": ""}
"""Of a cloth that was laid on nothing narrower than a bolt."""


class Lengths:
    """The lengths of one cloth, read when first asked for."""

    def __init__(self, cloth: ClothJson, sizes: int) -> None:
        """Arguments: the cloth as the index holds it; how many sizes its pattern has."""
        self.cloth, self.sizes = cloth, sizes
        self._read: dict[bool, tuple[bytes, bytes]] = {}

    @property
    def narrowest_mm(self) -> int | None:
        """The narrowest width that was laid, in mm; None where none was."""
        widths = [*self._part(narrow=True)["widths"], *self.cloth["widths"]]
        return int(widths[0]) if widths else None

    def coarse(self, width_mm: float) -> bool:
        """Whether lengths on cloth of this width are told in steps of 5 cm only."""
        return not self.cloth["widths"] or width_mm < int(self.cloth["widths"][0])

    def _part(self, *, narrow: bool) -> Mapping[str, Any]:
        """Widths and texts of bolts, or of what is narrower."""
        return self.cloth.get("narrow", NO_WIDTHS) if narrow else self.cloth

    def column(self, way: str, nap: str, width_mm: float, size: int) -> tuple[bytes, bytes]:
        """What each set of pieces takes: :data:`NONE` or the rest by :data:`BASE`; and how often it goes into it.

        Arguments: a way and a nap of the cloth; the width of the remnant; the number of the size. The lays of the
        widest width that is no wider than the remnant answer. The second is empty where it would hold noughts only,
        both are where the remnant is narrower than any lay.
        """
        narrow = self.coarse(width_mm)
        part = self._part(narrow=narrow)
        widths = part["widths"]
        at = -1
        for one in widths:
            if one > width_mm:
                break
            at += 1
        if at < 0 or (narrow and way != NARROW_WAY):
            return b"", b""
        ways, naps = [NARROW_WAY] if narrow else self.cloth["ways"], self.cloth["naps"]
        if narrow not in self._read:
            planes = len(ways) * len(naps)
            low = read(part["lengths"], sizes=self.sizes, planes=planes)
            high = b"" if narrow else read(part["high"], sizes=self.sizes, planes=planes)
            self._read[narrow] = low.translate(_STEPS) if narrow else low, high
        low, high = self._read[narrow]
        plane = ways.index(way) * len(naps) + naps.index(nap)
        of_row, of_plane = len(widths) * self.sizes, self.cloth["rows"] * len(widths) * self.sizes
        cut = slice(plane * of_plane + at * self.sizes + size, (plane + 1) * of_plane, of_row)
        return low[cut], high[cut]

    def at(self, way: str, nap: str, width_mm: float, size: int) -> list[int | None]:
        """What each set of pieces takes, in cm; None where there is no lay. Arguments as for :meth:`column`."""
        low, high = self.column(way, nap, width_mm, size)
        if not low:
            return [None] * int(self.cloth["rows"])
        return [
            None if rest == NONE else rest + BASE * (high[row] if high else 0) for row, rest in enumerate(low)
        ]


def fitting(low: bytes, high: bytes, length_cm: int) -> bytes:
    """For each set of pieces of a column `1` where the length suffices, else `0`, as signs.

    >>> fitting(bytes([70, 71, NONE]), b"", 70), fitting(bytes([70, 4]), bytes([0, 1]), 259)
    (b'100', b'11')
    """
    times, rest = divmod(max(0, length_cm), BASE)
    if not high:
        return low.translate(_upto(BASE - 1 if times else rest))
    less, same = high.translate(_upto(times - 1)), high.translate(_upto(times))
    enough, any_lay = low.translate(_upto(rest)), low.translate(_upto(BASE - 1))
    return bytes(
        48 + ((a & 1) & (any_lay[at] & 1) | (same[at] & 1) & (enough[at] & 1)) for at, a in enumerate(less)
    )


def _upto(most: int) -> bytes:
    """A table that turns numbers up to `most` into the sign 1, all others into 0."""
    return b"1" * (most + 1) + b"0" * (_BYTE - most - 1)
