"""How are the texts of all cases of a fragment written down in few bytes, so that they can be looked up as they are?

A text is cut into pieces; the pieces of all texts are put in one row in which each text keeps its order; neighbours
that never stand together share a *slot*. So a text is, slot by slot, one piece of a few or nothing, and which one
that is follows from the choices by a *tree*: a choice's number and what follows from each of its values, alike
branches drawn together. Slots that follow the choices in the same way share their tree.

>>> [slot.pieces for slot in slots_of(["<p>One.<p>Two.<p>Four.", "<p>One.<p>Three.<p>Four."])]
[('<p>One.',), ('<p>Two.', '<p>Three.'), ('<p>Four.',)]
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

CUT = "\0"
"""Marks a cut; JSON writes it in another way, so that no text holds it."""
CUT_BEFORE = ("<li", "<dt", "<path", "<tr", "<th", "<td", "<p>", '{"')
CUT_BEHIND = (". ", '",')
"""Where a text may be cut: before a row, a path, a paragraph, an object; behind a sentence, and a text in a list."""


@dataclass(frozen=True, kw_only=True)
class Slot:
    """A place in a text: its pieces, in the order in which the cases first have them, and which of them each case has.
    """

    pieces: tuple[str, ...]
    which: tuple[int, ...]


def slots_of(texts: Sequence[str]) -> list[Slot]:
    """The slots of these texts, which all differ. Joined in order, the pieces that a text has are the text."""
    row = _in_one_row([_pieces(text) for text in texts])
    return [_slot(pieces) for pieces in _drawn_together(row, len(texts))]


def _pieces(text: str) -> list[str]:
    for mark in CUT_BEFORE:
        text = text.replace(mark, CUT + mark)
    for mark in CUT_BEHIND:
        text = text.replace(mark, mark + CUT)
    return [piece for piece in text.split(CUT) if piece]


def _in_one_row(texts: Sequence[Sequence[str]]) -> list[tuple[str, int]]:
    """The pieces of all texts in a row that keeps the order of each, with the texts that have them as bits of a number.

    Texts are taken in one by one: a piece is looked for in the row behind the one before, and put there if it is not.
    """
    row: list[str] = []
    has: list[int] = []
    places: dict[str, list[int]] = {}
    for number, pieces in enumerate(texts):
        bit, at = 1 << number, -1
        new: dict[int, list[str]] = {}  # by the place in the row behind which they come
        for piece in pieces:
            known = places.get(piece, ())
            found = bisect_right(known, at)
            if found < len(known):
                at = known[found]
                has[at] |= bit
            else:
                new.setdefault(at, []).append(piece)
        if new:
            row, has = _put_in(row, has, new, bit)
            places = {}
            for place, piece in enumerate(row):
                places.setdefault(piece, []).append(place)
    return list(zip(row, has, strict=True))


def _put_in(
    row: Sequence[str], has: Sequence[int], new: Mapping[int, Sequence[str]], bit: int
) -> tuple[list[str], list[int]]:
    made_row, made_has = list(new.get(-1, ())), [bit] * len(new.get(-1, ()))
    for place, (piece, bits) in enumerate(zip(row, has, strict=True)):
        more = new.get(place, ())
        made_row += [piece, *more]
        made_has += [bits, *[bit] * len(more)]
    return made_row, made_has


def _drawn_together(row: Sequence[tuple[str, int]], count: int) -> list[list[str]]:
    """For each slot the piece of each text, "" where it has none: neighbours of which no text has two share a slot,
    and slots between which the texts differ in the same way become one."""
    slots: list[list[str]] = []
    taken = 0
    for piece, has in row:
        if not slots or taken & has:
            slots.append([""] * count)
            taken = 0
        taken |= has
        for at in range(count):
            if has >> at & 1:
                slots[-1][at] = piece
    made: list[list[str]] = []
    for slot in slots:
        if made and _alike(made[-1], slot):
            made[-1] = [one + other for one, other in zip(made[-1], slot, strict=True)]
        else:
            made.append(slot)
    return made


def _alike(one: Sequence[str], other: Sequence[str]) -> bool:
    """Whether two slots differ between the same texts, so that as one they have no more pieces than each alone."""
    count = len(set(zip(one, other, strict=True)))
    return count == len(set(one)) == len(set(other))


def _slot(pieces: Sequence[str]) -> Slot:
    known: dict[str, int] = {}
    which = tuple(known.setdefault(piece, len(known)) for piece in pieces)
    return Slot(pieces=tuple(known), which=which)
