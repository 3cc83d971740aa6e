"""Does every name of a piece, edge, point, line, area, cloth, role or copy lead to something?"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from boltside.pattern import Outline
from boltside.read import document as doc
from boltside.read.book import AS, Book
from boltside.read.check_placed import lines_of
from boltside.read.collect import listed, quoted
from boltside.read.drawn import DrawnPiece, Shape
from boltside.read.near_id import near_id, rename
from boltside.read.yaml_tree import Path

PARTS: Mapping[str, Callable[[DrawnPiece], Mapping[str, Shape]]] = {
    "point": lambda drawn: drawn.points,
    "line": lambda drawn: drawn.lines,
    "area": lambda drawn: drawn.areas,
}


def check_names(book: Book) -> None:
    """Note every name that leads nowhere."""
    names = _Names(book)
    it = book.document
    for role, plays in it.roles.items():
        for at, play in enumerate(plays):
            names.piece(("roles", role, at, "piece"), play.piece)
    for name, part in it.pieces.items():
        names.piece(("pieces", name), name, key=True)
        _part(book, names, name, part)
    for at, seam in enumerate(it.seams):
        for place, one in enumerate(seam.join):
            names.edge_part(("seams", at, "join", place), one.edge, one.start, one.stop)
        for place, one in enumerate(seam.to):
            names.edge_part(("seams", at, "to", place), one.edge, one.start, one.stop)
    for at, measurement in enumerate(it.measurements):
        _sum(names, ("measurements", at, "sum"), measurement.sum)
    for at, one_ring in enumerate(it.pull_on):
        _sum(names, ("pull_on", at, "sum"), one_ring.sum)
        _sum(names, ("pull_on", at, "slit"), one_ring.slit)
    _lengthen(book, names)
    carried = {one.what for part in it.pieces.values() for copy in part.copies.values() for one in copy.carries}
    for at, notion in enumerate(it.notions):
        if notion.edge is not None:
            names.edge_part(("notions", at, "edge"), notion.edge.edge, notion.edge.start, notion.edge.stop)
        if notion.channel is not None:
            _sum(names, ("notions", at, "channel", "sum"), notion.channel.sum)
            if notion.channel.hem is not None:
                names.edge_part(("notions", at, "channel"), notion.channel.hem, None, None)
        if notion.placed is not None:
            _placed(names, ("notions", at, "placed"), notion.placed)
        if notion.carried_by is not None and notion.carried_by not in carried and book.checked.whole("pieces"):
            book.note_unknown(
                "unknown-copy",
                ("notions", at, "carried_by"),
                notion.carried_by,
                sorted(carried),
                "thing that a copy carries",
            )
    _view(book, names, "front", it.drawing.front)
    _view(book, names, "back", it.drawing.back)


def _part(book: Book, names: _Names, name: str, part: doc.PieceDoc) -> None:
    path: Path = ("pieces", name)
    players = book.players(name)
    cloths = book.document.cloths
    for at, edge in enumerate(part.edges):
        here: Path = (*path, "edges", at)
        if name.startswith(AS):
            names.edge((*here, "name"), players, edge.name)
        for key, point in (("from", edge.start), ("via", edge.via)):
            if point is not None:
                names.drawn((*here, key), players, point, "point")
    for at, cut_off in enumerate(part.cut_offs):
        here = (*path, "cut_offs", at)
        names.drawn((*here, "line"), players, cut_off.line, "line")
        names.drawn((*here, "keep"), players, cut_off.keep, "point")
    if part.in_step is not None:
        names.drawn((*path, "in_step"), players, part.in_step, "point")
    for at, entry in enumerate(part.cut):
        here = (*path, "cut", at)
        if entry.cloth not in cloths and book.checked.names_whole("cloths"):
            book.note_unknown("unknown-cloth", (*here, "cloth"), entry.cloth, cloths, "cloth")
        if entry.fold_edge is not None:
            names.edge((*here, "fold_edge"), players, entry.fold_edge)
    copies = {copy for player in players for _, source in book.sources(player) for copy in source.copies}
    for at, interfacing in enumerate(part.interfacing):
        here = (*path, "interfacing", at)
        if interfacing.cloth not in cloths and book.checked.names_whole("cloths"):
            book.note_unknown("unknown-cloth", (*here, "cloth"), interfacing.cloth, cloths, "cloth")
        if interfacing.area != "whole":
            names.drawn((*here, "area"), players, interfacing.area, "area")
        for place, copy in enumerate(interfacing.copies):
            if players and copy not in copies and book.checked.whole("pieces"):
                book.note_unknown("unknown-copy", (*here, "copies", place), copy, sorted(copies), "copy")


def _lengthen(book: Book, names: _Names) -> None:
    """Lines that are not drawn, and measurements that are not there."""
    known = [one.name for one in book.document.measurements]
    for at, one in enumerate(book.document.lengthen):
        for place, line in enumerate(one.lines):
            names.dotted(("lengthen", at, "lines", place), line, "line")
        if one.by not in known and book.checked.whole("measurements"):
            book.note_unknown("unknown-measurement", ("lengthen", at, "by"), one.by, known, "measurement")


def _sum(names: _Names, path: Path, parts: list[doc.SumPartDoc]) -> None:
    """Edges, points and lines whose lengths are added up."""
    for place, part in enumerate(parts):
        here: Path = (*path, place)
        if part.edge is not None:
            names.edge_part(here, part.edge, part.start, part.stop)
        for end, point in enumerate(part.between or ()):
            names.dotted((*here, "between", end), point, "point")
        if part.line is not None:
            names.dotted((*here, "line"), part.line, "line")


def _placed(names: _Names, path: Path, placed: doc.PlacedDoc) -> None:
    """Lines, edges and points along which closures are placed."""
    for key, at, part in lines_of(placed):
        here: Path = (*path, key, at)
        if part.line is not None:
            names.dotted((*here, "line"), part.line, "line")
        elif part.edge is not None:
            names.edge_part(here, part.edge, part.start, part.stop)
        if part.upper is not None:
            piece = (part.line or part.edge or "").partition(".")[0]
            names.drawn((*here, "upper"), names.book.players(piece), part.upper, "point")
    for at, point in enumerate(placed.clear_of):
        names.dotted((*path, "clear_of", at), point, "point")


def _view(book: Book, names: _Names, view: str, parts: list[doc.DrawingPartDoc]) -> None:
    stands_on: dict[str, str] = {}
    for at, part in enumerate(parts):
        path: Path = ("drawing", view, at)
        if names.piece((*path, "piece"), part.piece):
            players = book.players(part.piece)
            names.drawn((*path, "put"), players, part.put, "point")
            if part.keep is not None:
                names.drawn((*path, "keep", "line"), players, part.keep.line, "line")
                names.drawn((*path, "keep", "point"), players, part.keep.point, "point")
        if part.on is None:
            continue
        names.dotted((*path, "on"), part.on, "point")
        other = part.on.partition(".")[0]
        if other not in [one.piece for one in parts]:
            book.note(
                "wrong-value",
                (*path, "on"),
                seen=f"{quoted(other)}, which is not in this view",
                expected=f"one of {listed(one.piece for one in parts)}",
                mend=f"add a part for {quoted(other)}",
            )
        stands_on[part.piece] = other
    for at, part in enumerate(parts):
        below: str | None = stands_on.get(part.piece)
        for _ in parts:
            if below == part.piece:
                book.note(
                    "wrong-value",
                    ("drawing", view, at, "on"),
                    seen=f"{quoted(part.piece)} put on itself in a circle",
                    expected="one part that stands by itself",
                    mend="take `on` away from one of them",
                )
                break
            below = stands_on.get(below) if below is not None else None


@dataclass
class _Names:
    """Looks names up; a missing shape is noted where it is named first."""

    book: Book
    missing: set[tuple[str, str, str]] = field(default_factory=set)

    def piece(self, path: Path, name: str, *, key: bool = False) -> bool:
        """Note a piece or `as:<role>` that is not there; True when it is."""
        book = self.book
        if name.startswith(AS):
            role = name.removeprefix(AS)
            if role in book.document.roles:
                return True
            if book.checked.names_whole("roles"):
                book.note_unknown("unknown-role", path, role, book.document.roles, "role", key=key)
            return False
        if name in book.pieces:
            return True
        if book.checked.names_whole("pieces"):
            book.note_unknown("unknown-piece", path, name, book.pieces, "piece", key=key)
        return False

    def edge(self, path: Path, players: list[str], name: str) -> bool:
        """Note an edge that one of the pieces does not have; True when all have it."""
        for piece in players:
            known = self.book.edge_names(piece)
            if name not in known:
                if known and self.book.edges_are_known(piece):
                    self.book.note_unknown("unknown-edge", path, name, known, "edge", piece)
                return False
        return bool(players)

    def edge_part(self, path: Path, dotted: str, start: str | None, stop: str | None) -> None:
        """Note what is wrong with an edge, or with the points that begin and end a stretch of it."""
        piece, _, edge = dotted.partition(".")
        if not self.piece((*path, "edge"), piece):
            return
        players = self.book.players(piece)
        known = self.edge((*path, "edge"), players, edge)
        for key, point in (("from", start), ("to", stop)):
            if point is not None and self.drawn((*path, key), players, point, "point") and known:
                self._on_edge((*path, key), players, edge, point)

    def dotted(self, path: Path, dotted: str, kind: str) -> None:
        """Note what is wrong with a point or line of a piece."""
        piece, _, name = dotted.partition(".")
        if self.piece(path, piece):
            self.drawn(path, self.book.players(piece), name, kind)

    def drawn(self, path: Path, players: list[str], name: str, kind: str) -> bool:
        """Note a point, line or area that is not drawn in every size; True when it is."""
        fine = True
        drawing = self.book.drawing
        for piece in players:
            sizes = self.book.drawn_sizes(piece)
            if drawing is None or not sizes:
                fine = False
                continue
            shapes = {size: PARTS[kind](drawing.pieces[piece, size]) for size in sizes}
            without = [size for size in sizes if name not in shapes[size]]
            wanted = f"{piece}.{without[0]}.{kind}.{name}" if without else ""
            near = near_id(wanted, drawing, self.book.document) if without else None
            offer = rename(near, wanted) if near else None
            if without == sizes:
                every = sorted({one for size in sizes for one in shapes[size]})
                self.book.note_unknown(f"unknown-{kind}", path, name, every, kind, piece, mend=offer)
                return False
            elif without and (piece, kind, name) not in self.missing:
                self.missing.add((piece, kind, name))
                self.book.note(
                    "size-missing",
                    path,
                    seen=f"the {kind} {quoted(name)} of `{piece}` missing in {listed(without)}",
                    expected="it in each size",
                    mend=offer or f"draw it and give it the id `{wanted}`",
                )
            fine = fine and not without
        return fine

    def _on_edge(self, path: Path, players: list[str], edge: str, point: str) -> None:
        for piece in players:
            edges = self.book.pieces[piece].edges
            at = next((place for place, one in enumerate(edges) if one.name == edge), None)
            if at is None:
                continue  # The edge of a cut-off: it is drawn only when the garment is measured.
            after = edges[(at + 1) % len(edges)]
            off = [
                size
                for size, outline in self.book.outlines.get(piece, {}).items()
                if not _between(outline, edges[at].start, after.start, point)
            ]
            if off:
                self.book.note(
                    "point-off-edge",
                    path,
                    seen=f"`{point}` of `{piece}` beside the edge `{edge}` in {listed(off)}",
                    expected=f"a point between `{edges[at].start}` and `{after.start}`",
                    mend="move the circle onto this edge, or name another point",
                )
                return


def _between(outline: Outline, start: str | None, stop: str | None, point: str) -> bool:
    """True when the point lies on the outline from start to stop; also when that can't be said."""
    places = [outline.points_mm.get(name or "") for name in (start, stop, point)]
    on = {vertex: at for at, vertex in enumerate(outline.outline_mm)}
    if places[0] not in on or places[1] not in on:
        return True
    if places[2] not in on:
        return False
    begin, end, here = (on[place] for place in places if place is not None)
    count = len(outline.outline_mm)
    return (here - begin) % count <= ((end - begin) % count or count)
