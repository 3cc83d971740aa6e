"""Is what lies on the fold without allowance, and does no allowance vary on a piece drawn with its cutting line?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from boltside.calculators.conditions import holds, names_in_all
from boltside.pattern import Condition
from boltside.read.book import AS, Book
from boltside.read.collect import quoted
from boltside.read.combinations import condition, told
from boltside.read.document import CaseDoc, CutDoc
from boltside.read.yaml_tree import Path

EDGES_TOLD_MAX: Final = 3
"""Where more edges than this lack an allowance, the pattern's own is missing. Our choice."""


def check_cutting(book: Book) -> None:
    """Note folds with an allowance and allowances that vary where they may not."""
    without: list[_Without] = []
    for piece, part in book.pieces.items():
        sources = [name for name, _ in book.sources(piece)]
        if not all(book.checked.whole("pieces", name) for name in sources) or not book.checked.whole("roles"):
            continue
        if (part.drawn or book.document.drawn) == "cutting":
            _constant_allowances(book, piece)
        _folds_without_allowance(book, piece)
        if book.document.allowance_mm is None and book.checked.whole("allowance_mm"):
            without += _without_allowance(book, piece)
    _note_without(book, without)


_Without = tuple[Path, str, str, str]
"""An edge without allowance: its path, piece and name, and with which choices."""


def _note_without(book: Book, without: list[_Without]) -> None:
    if len(without) > EDGES_TOLD_MAX:
        _, piece, name, _ = without[0]
        book.note(
            "no-allowance",
            (),
            seen=f"no `allowance_mm` of the pattern, and {len(without)} edges that say nothing, like `{piece}.{name}`",
            expected="one at each edge, or the pattern's for every edge that says nothing",
            mend="add a line `allowance_mm: 10`, or what most edges have",
        )
        return
    for path, piece, name, chosen in without:
        book.note(
            "no-allowance",
            path,
            seen=f"no allowance for `{piece}.{name}` with {chosen}",
            expected="one at the edge, or the pattern's `allowance_mm` for every edge that says nothing",
            mend=f"add `allowance_mm:` to {quoted(name)} (0 where nothing is turned in), or at the top of the file",
            key=True,
        )


def _without_allowance(book: Book, piece: str) -> Iterator[_Without]:
    """Each edge that in some allowed combination nobody gives an allowance."""
    edges: list[tuple[Path, str, Condition]] = [
        (("pieces", piece, "edges", at), edge.name, ()) for at, edge in enumerate(book.pieces[piece].edges)
    ]
    for source, part in book.sources(piece):
        plays = _plays(book, source.removeprefix(AS), piece) if source.startswith(AS) else ()
        edges += [
            (("pieces", source, "cut_offs", at), one.edge, _both(plays, condition(one.when)))
            for at, one in enumerate(part.cut_offs)
        ]
    exists = condition(book.pieces[piece].when)
    for path, name, there in edges:
        layers = list(_layers(book, piece, name))
        if path[2] == "cut_offs":
            cut_off = book.document.pieces[str(path[1])].cut_offs[int(path[3])]
            layers.append((path, (), cut_off.allowance_mm))
        if book.usual_allowance_mm(piece, name) is not None or any(
            plays == () and any(case.when is None for case in cases or ()) for _, plays, cases in layers
        ):
            continue
        whens = [condition(case.when) for _, _, cases in layers for case in cases or ()]
        names = names_in_all([exists, there, *whens, *(plays for _, plays, _ in layers)])
        without = next(
            (
                chosen
                for size in book.document.sizes
                for chosen in book.combinations.over(names, size)
                if holds(exists, chosen) and holds(there, chosen) and _allowance_mm(layers, chosen, None) is None
            ),
            None,
        )
        if without is not None:
            yield path, piece, name, told(without)


def _both(one: Condition, other: Condition) -> Condition:
    """The condition that holds where both hold."""
    if not one or not other:
        return one or other
    return tuple(
        {
            **{name: words for name, words in a.items() if name not in b},
            **{name: tuple(word for word in words if word in a.get(name, words)) for name, words in b.items()},
        }
        for a in one
        for b in other
    )


def _layers(book: Book, piece: str, edge_name: str) -> Iterator[tuple[Path, Condition, list[CaseDoc] | None]]:
    """The cases of an edge, what overrides comes first: path, the role's condition (or always), the cases."""
    for role in book.roles_of(piece):
        part = book.role_part(role)
        for at, edge in enumerate(part.edges if part is not None else ()):
            if edge.name == edge_name:
                yield ("pieces", AS + role, "edges", at, "allowance_mm"), _plays(book, role, piece), edge.allowance_mm
    for at, edge in enumerate(book.pieces[piece].edges):
        if edge.name == edge_name:
            yield ("pieces", piece, "edges", at, "allowance_mm"), (), edge.allowance_mm


def _plays(book: Book, role: str, piece: str) -> Condition:
    """When the piece plays the role."""
    found: list[Condition] = [condition(play.when) for play in book.document.roles[role] if play.piece == piece]
    return () if () in found else tuple(mapping for one in found for mapping in one)


def _constant_allowances(book: Book, piece: str) -> None:
    for edge in book.pieces[piece].edges:
        for path, _, cases in _layers(book, piece, edge.name):
            own = path[1] == piece
            values = {case.mm for case in cases or ()}
            usual_mm = book.usual_allowance_mm(piece, edge.name)
            usual = set() if usual_mm is None else {usual_mm}
            if own and cases and all(case.when is not None for case in cases):
                values |= usual
            if not own:
                # A role that overrides what the piece says of itself makes the same edge vary with the role.
                values |= {case.mm for case in edge.allowance_mm or ()} or usual
            if len(values) > 1:
                book.note(
                    "varying-allowance",
                    path,
                    seen=f"allowances of {' and '.join(f'{one:g}' for one in sorted(values))} mm on "
                    f"`{piece}.{edge.name}`, whose cutting line is drawn",
                    expected="one allowance, for the cutting line can't move",
                    mend="draw the piece with its stitching line, or leave one allowance",
                    key=True,
                )


def _folds_without_allowance(book: Book, piece: str) -> None:
    entries: list[tuple[Path, Condition, CutDoc]] = []
    for source, part in book.sources(piece):
        plays = _plays(book, source.removeprefix(AS), piece) if source.startswith(AS) else ()
        entries += [(("pieces", source, "cut", at), plays, entry) for at, entry in enumerate(part.cut)]
    folds = {entry.fold_edge for _, _, entry in entries if entry.mode == "fold" and entry.fold_edge is not None}
    if not folds:
        return
    layers = {edge: list(_layers(book, piece, edge)) for edge in folds}
    exists = condition(book.pieces[piece].when)
    asked: list[Condition] = [exists]
    for _, plays, entry in entries:
        asked += [plays, condition(entry.when)]
    for of_edge in layers.values():
        for _, plays, cases in of_edge:
            asked += [plays, *(condition(case.when) for case in cases or ())]
    names = names_in_all(asked)
    told_of: set[Path] = set()
    for size in book.document.sizes:
        for chosen in book.combinations.over(names, size):
            if not holds(exists, chosen):
                continue
            cloths: set[str] = set()
            for path, plays, entry in entries:
                if entry.cloth in cloths or not holds(plays, chosen) or not holds(condition(entry.when), chosen):
                    continue
                cloths.add(entry.cloth)
                if entry.mode != "fold" or entry.fold_edge is None or path in told_of:
                    continue
                allowance_mm = _allowance_mm(
                    layers[entry.fold_edge], chosen, book.usual_allowance_mm(piece, entry.fold_edge)
                )
                if allowance_mm:
                    told_of.add(path)
                    book.note(
                        "fold-with-allowance",
                        (*path, "fold_edge"),
                        seen=f"`{piece}.{entry.fold_edge}` on the fold with an allowance of {allowance_mm:g} mm "
                        f"({told(chosen)})",
                        expected="no allowance on the fold",
                        mend=f"write `allowance_mm: 0` for {quoted(entry.fold_edge)}",
                    )


def _allowance_mm(
    layers: list[tuple[Path, Condition, list[CaseDoc] | None]], chosen: dict[str, str], usual_mm: float | None
) -> float | None:
    """The allowance in this combination. An edge that only a cut-off makes is not among the layers: none is known."""
    for _, plays, cases in layers:
        if holds(plays, chosen):
            for case in cases or ():
                if holds(condition(case.when), chosen):
                    return case.mm
    return usual_mm if layers else 0.0
