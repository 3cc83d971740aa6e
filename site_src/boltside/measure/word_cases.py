"""What do the words in braces of a guide stand for, over all choices and sizes? Lengths on the stitching line."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final, TypeVar

from boltside.measure.cases import ValueCase, value_cases
from boltside.measure.conditions import holds
from boltside.measure.finished import SAME_LENGTH_DIGITS, finished_mm
from boltside.measure.model import Garment, MeasureError
from boltside.measure.seams import check_seam, edge_length_mm
from boltside.pattern import ALWAYS, MARKED, Condition, EdgePart, Pattern, Seam, StepWord

Value = TypeVar("Value", float, str)

Cases = list[tuple[Condition, dict[str, float]]] | list[tuple[Condition, dict[str, str]]]
"""Values by size, each under its condition."""

BOUGHT: Final = ("cut", "closed", "count", "places", "quarters", "overlap", "tail", "width", "hole")
"""Words about a notion: the calculators know what they stand for."""

SIDES: Final = {"wearers-left": "wearer's left", "wearers-right": "wearer's right"}
OTHER: Final = {"wearers-left": "wearers-right", "wearers-right": "wearers-left"}
SEEN_IN_FRONT: Final = {
    "wearers-left": "on your right as it faces you",
    "wearers-right": "on your left as it faces you",
}
SEEN_BEHIND: Final = {
    "wearers-left": "on your left as its back faces you",
    "wearers-right": "on your right as its back faces you",
}
"""Where a copy named by the wearer is seen. Source: the words' meaning; a garment that faces one is seen mirrored."""


def word_cases(pattern: Pattern, word: StepWord) -> Cases:
    """What a word stands for, in mm, as a ratio or as words, by condition and size; not for those about notions.

    Where no case holds the word stands for nothing.
    """
    of = word.of
    if word.kind == "length":
        return _lengths(pattern, ALWAYS, [of[0].partition(".")[0]], lambda garment: _edge_mm(garment, of[0]))
    if word.kind == "allowance":
        return _lengths(pattern, ALWAYS, [of[0].partition(".")[0]], lambda garment: _allowance_mm(garment, of[0]))
    if word.kind == "measure":
        one = next(one for one in pattern.measurements if one.name == of[0])
        return _lengths(
            pattern, one.when, [part.piece for part in one.parts], lambda garment: finished_mm(garment, one)
        )
    if word.kind in ("ratio", "ease", *MARKED):
        return _seam(pattern, word)
    if word.kind == "chosen":
        choice = next(one for one in pattern.choices if one.name == of[0])
        texts: list[tuple[Condition, dict[str, str]]] = []
        for alternative in choice.alternatives:
            texts.append(
                (({choice.name: (alternative.name,)},), dict.fromkeys(pattern.sizes, lowered(alternative.title)))
            )
        return texts
    if word.kind == "name":
        return _texts(pattern, [of[0]], lambda garment: lowered(garment.piece(of[0]).title), ())
    return _sides(pattern, word)


def lowered(title: str) -> str:
    """A title as it stands within a sentence.

    >>> lowered("Front"), lowered("A0 sheet"), lowered("V neck")
    ('front', 'A0 sheet', 'V neck')
    """
    return title[:1].lower() + title[1:] if title[1:2].islower() else title


def _seam(pattern: Pattern, word: StepWord) -> Cases:
    """A seam of this name may be written down several times, for different choices: whichever is sewn.

    Words about marks stand for the length of their edge.
    """
    found: list[tuple[Condition, dict[str, float]]] = []
    for seam in pattern.seams:
        if seam.name != word.of[0] or (word.kind in MARKED and seam.gather_ratio is None):
            continue

        def value(garment: Garment, seam: Seam = seam) -> float:
            if word.kind in MARKED:
                side = seam.join if word.kind == "marks" else seam.to
                return sum(edge_length_mm(garment, part) for part in side)
            result = check_seam(garment, seam)
            return result.ratio if word.kind == "ratio" else result.ease_mm

        pieces = [part.piece for part in (*seam.join, *seam.to)]
        found += _lengths(pattern, seam.when, pieces, value)
    return found


def _lengths(
    pattern: Pattern, when: Condition, pieces: Iterable[str], value: Callable[[Garment], float]
) -> list[tuple[Condition, dict[str, float]]]:
    def found(garment: Garment) -> float | None:
        try:
            return round(value(garment), SAME_LENGTH_DIGITS)
        except MeasureError:
            return None

    return _where_any(value_cases(pattern, when, pieces, found))


def _texts(
    pattern: Pattern, pieces: Iterable[str], value: Callable[[Garment], str | None], asks: Iterable[Condition]
) -> list[tuple[Condition, dict[str, str]]]:
    def found(garment: Garment) -> str | None:
        try:
            return value(garment)
        except MeasureError:
            return None

    return _where_any(value_cases(pattern, ALWAYS, pieces, found, asked=list(asks)))


def _where_any(cases: Iterable[ValueCase[Value | None]]) -> list[tuple[Condition, dict[str, Value]]]:
    """The cases without sizes in which there is nothing."""
    found = []
    for one in cases:
        there = {size: value for size, value in one.by_size.items() if value is not None}
        if there:
            found.append((one.when, there))
    return found


def _edge_mm(garment: Garment, dotted: str) -> float:
    piece, _, edge = dotted.partition(".")
    return edge_length_mm(garment, EdgePart(piece=piece, edge=edge))


def _allowance_mm(garment: Garment, dotted: str) -> float:
    piece, _, edge = dotted.partition(".")
    return garment.piece(piece).edge(edge).allowance_mm


def is_seen_behind(pattern: Pattern, piece: str) -> bool:
    """Whether a piece belongs to the garment's back: the back view is built on it, or it is drawn there alone."""
    front, back = ([(name, part.on is None) for part in view for name in _drawn_as(pattern, part.piece)]
                   for view in (pattern.drawing_front, pattern.drawing_back))  # fmt: skip
    if (piece, True) in front:
        return False
    return (piece, True) in back or (piece in dict(back) and piece not in dict(front))


def _drawn_as(pattern: Pattern, name: str) -> list[str]:
    role = next((one for one in pattern.roles if f"as:{one.role}" == name), None)
    return [name] if role is None else [play.piece for play in role.plays]


def _sides(pattern: Pattern, word: StepWord) -> Cases:
    """Which copy carries the thing (or the other one), as the wearer's side, or where it is seen."""
    piece_name, thing, *seen_on = word.of
    copies = [copy for piece in pattern.pieces for copy in piece.copies]
    copies += [copy for role in pattern.roles for copy in role.copies]
    asks = [one.when for copy in copies for one in copy.carries]

    def value(garment: Garment) -> str | None:
        # Each combination has all choices that the copies ask about, so a condition holds or it does not.
        piece = garment.piece(piece_name)
        chosen = {**garment.chosen, "size": garment.size}
        for copy in piece.copies:
            if any(one.what == thing and holds(one.when, chosen) for one in copy.carries) and copy.name in SIDES:
                if word.kind == "side":
                    return SIDES[copy.name]
                if word.kind == "other":
                    return SIDES[OTHER[copy.name]]
                place = garment.piece(seen_on[0]) if seen_on else piece
                return (SEEN_BEHIND if is_seen_behind(pattern, place.name) else SEEN_IN_FRONT)[copy.name]
        return None

    return _texts(pattern, [piece_name, *seen_on], value, asks)
