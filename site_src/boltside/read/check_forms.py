"""Can everything that depends on choices be measured in all its forms, or are there far too many of them?"""

from __future__ import annotations

from collections.abc import Iterator
from math import prod
from typing import Final

from boltside.calculators.conditions import SIZE
from boltside.read.book import Book
from boltside.read.check_conditions import conditions_of
from boltside.read.check_placed import lines_of
from boltside.read.document import SumPartDoc
from boltside.read.yaml_tree import Path

FORMS_MAX: Final = 20_000
"""One piece, seam or length depends on at most this many combinations. Our choice: the demo shop stays below 200."""

ALL_FORMS_MAX: Final = 200_000
"""All of them together. Our choice; measuring so many takes a minute."""


def check_forms(book: Book) -> None:
    """Note the first part that depends on so many choices that its forms can't all be measured."""
    asked = {
        name: {other for mapping in choice.asked_when or () for other in mapping}
        for name, choice in book.document.choices.items()
    }
    of_piece = {piece: _names_of_piece(book, piece) for piece in book.pieces}
    together = 0
    for path, names in _parts(book, of_piece):
        wanted: set[str] = set()
        todo = set(names)
        while todo:
            name = todo.pop()
            if name in asked and name not in wanted:
                wanted.add(name)
                todo |= asked[name]
        forms = prod(len(book.document.choices[name].alternatives) for name in wanted)
        if SIZE in names:
            forms *= max(1, len(book.document.sizes))
        together += forms
        if forms > FORMS_MAX or together > ALL_FORMS_MAX:
            one = forms > FORMS_MAX
            book.note(
                "too-many-combinations",
                path,
                seen=f"{len(wanted)} choices on which it depends"
                if one
                else f"{together} forms of all parts up to this one",
                expected=f"at most {FORMS_MAX} forms of one part, and {ALL_FORMS_MAX} of all together",
                mend="let it depend on fewer choices, or part the piece in two",
                key=True,
            )
            return


def _names_of_piece(book: Book, piece: str) -> set[str]:
    """The choices that decide what the piece is like, roles included."""
    names: set[str] = set()
    for _, part in book.sources(piece):
        names |= {name for _, any_of in conditions_of(part, ()) for mapping in any_of for name in mapping}
    for role in book.roles_of(piece):
        for play in book.document.roles[role]:
            names |= {name for mapping in play.when or () for name in mapping}
    return names


def _parts(book: Book, of_piece: dict[str, set[str]]) -> Iterator[tuple[Path, set[str]]]:
    """Every part that is measured, with the choices it depends on."""
    it = book.document
    for piece, names in of_piece.items():
        yield ("pieces", piece), names
    named: list[tuple[Path, object, list[str]]] = []
    named += [(("seams", at), one, [part.edge for part in (*one.join, *one.to)]) for at, one in enumerate(it.seams)]
    for at, measurement in enumerate(it.measurements):
        named.append((("measurements", at), measurement, _dotted(measurement.sum)))
    for at, ring in enumerate(it.pull_on):
        named.append((("pull_on", at), ring, _dotted([*ring.sum, *ring.slit])))
    for at, notion in enumerate(it.notions):
        if notion.channel is not None:
            hem = [notion.channel.hem] if notion.channel.hem is not None else []
            named.append((("notions", at, "channel"), notion, [*_dotted(notion.channel.sum), *hem]))
    named += [(("notions", at), one, [one.edge.edge]) for at, one in enumerate(it.notions) if one.edge is not None]
    for at, notion in enumerate(it.notions):
        if notion.placed is not None:
            lines = [part.line or part.edge or "" for _, _, part in lines_of(notion.placed)]
            named.append((("notions", at, "placed"), notion, lines))
    for path, one, dotted in named:
        names = {name for _, any_of in conditions_of(one, ()) for mapping in any_of for name in mapping}
        for name in dotted:
            for piece in book.players(name.partition(".")[0]):
                names |= of_piece[piece]
        yield path, names


def _dotted(parts: list[SumPartDoc]) -> list[str]:
    """The pieces' edges, lines and points that a sum names."""
    return [name for part in parts for name in (part.edge, part.line, *(part.between or ())) if name is not None]
