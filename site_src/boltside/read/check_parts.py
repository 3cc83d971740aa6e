"""Does each part of pattern.yaml make sense by itself: keys that exclude or need each other, ranges, doubled names?"""

from __future__ import annotations

from collections.abc import Sequence

from boltside.read import document as doc
from boltside.read.book import AS, Book
from boltside.read.check_remnant_widths import check_remnant_widths
from boltside.read.collect import listed, quoted
from boltside.read.yaml_tree import Path

ROLE_KEYS = ("edges", "cut_offs", "cut", "copies", "interfacing")
"""What a role may add to the piece that plays it."""


def check_parts(book: Book) -> None:
    """Note parts that contradict themselves."""
    it = book.document
    for at, rule in enumerate(it.rules):
        _rule(book, ("rules", at), rule)
    for name, cloth in it.cloths.items():
        _cloth(book, ("cloths", name), cloth)
    for name, piece in it.pieces.items():
        path: Path = ("pieces", name)
        if name.startswith(AS):
            _role_part(book, path, piece)
        else:
            _piece(book, path, name, piece)
        for place, entry in enumerate(piece.cut):
            _cut(book, (*path, "cut", place), entry)
        _named_once(book, path, "edge", [((*path, "edges", one), edge.name) for one, edge in enumerate(piece.edges)])
    for at, seam in enumerate(it.seams):
        path = ("seams", at)
        _one_of(book, path, seam, ("ease_mm", "ease_percent", "gather_ratio"), need=False)
        for key in ("ease_mm", "ease_percent", "gather_ratio"):
            _range(book, (*path, key), getattr(seam, key))
    for at, measurement in enumerate(it.measurements):
        for kind, pair in measurement.ease_mm.items():
            _range(book, ("measurements", at, "ease_mm", kind), pair)
        for kind, pair in measurement.wearing_mm.items():
            _range(book, ("measurements", at, "wearing_mm", kind), pair)
        if measurement.wearing_mm and measurement.body is None:
            _too_much(book, ("measurements", at), "wearing_mm", "with `body`")
        for place, part in enumerate(measurement.sum):
            _sum_part(book, ("measurements", at, "sum", place), part)
    for at, ring in enumerate(it.pull_on):
        for key, measured in (("sum", ring.sum), ("slit", ring.slit)):
            for place, part in enumerate(measured):
                _sum_part(book, ("pull_on", at, key, place), part)
    for at, notion in enumerate(it.notions):
        _notion(book, ("notions", at), notion)
        for place, part in enumerate(notion.channel.sum if notion.channel is not None else ()):
            _sum_part(book, ("notions", at, "channel", "sum", place), part)
    for view, parts in (("front", it.drawing.front), ("back", it.drawing.back)):
        for at, one in enumerate(parts):
            if one.on is None and one.turn_deg:
                _too_much(book, ("drawing", view, at), "turn_deg", "with `on`")
    _named_once(book, ("seams",), "seam", [(("seams", at, "name"), one.name) for at, one in enumerate(it.seams)])
    _named_once(
        book,
        ("measurements",),
        "measurement",
        [(("measurements", at, "name"), one.name) for at, one in enumerate(it.measurements)],
    )
    _named_once(book, ("pull_on",), "ring", [(("pull_on", at, "name"), one.name) for at, one in enumerate(it.pull_on)])
    _named_once(
        book, ("notions",), "notion", [(("notions", at, "name"), one.name) for at, one in enumerate(it.notions)]
    )


def _missing(book: Book, path: Path, key: str, why: str, mend: str) -> None:
    if book.checked.whole(*path, key):
        book.note(
            "missing-key", path, seen=f"no {quoted(key)}", expected=f"the key {quoted(key)}, {why}", mend=mend, key=True
        )


def _too_much(book: Book, path: Path, key: str, why: str) -> None:
    book.note(
        "unknown-key",
        (*path, key),
        seen=f"the key {quoted(key)}",
        expected=f"it only {why}",
        mend="delete it",
        key=True,
    )


def _one_of(book: Book, path: Path, part: object, keys: Sequence[str], *, need: bool) -> None:
    given = [key for key in keys if getattr(part, key) is not None]
    if len(given) > 1 or (need and not given and all(book.checked.whole(*path, key) for key in keys)):
        book.note(
            "wrong-value",
            path,
            seen=listed(given) if given else f"none of {listed(keys)}",
            expected=f"{'exactly' if need else 'at most'} one of {listed(keys)}",
            mend="delete all but one" if given else "add one of them",
        )


def _range(book: Book, path: Path, pair: Sequence[float] | None) -> None:
    if pair is not None and pair[0] > pair[1]:
        book.note(
            "wrong-value",
            path,
            seen=f"`[{pair[0]:g}, {pair[1]:g}]`",
            expected="the smaller number first",
            mend=f"write `[{pair[1]:g}, {pair[0]:g}]`",
        )


def _named_once(book: Book, path: Path, what: str, names: Sequence[tuple[Path, str]]) -> None:
    seen: set[str] = set()
    for here, name in names:
        if name in seen:
            book.note(
                "wrong-value",
                here,
                seen=f"the {what} {quoted(name)} a second time",
                expected="each name once",
                mend="rename one of the two",
            )
        seen.add(name)


def _rule(book: Book, path: Path, rule: doc.RuleDoc) -> None:
    _one_of(book, path, rule, ("needs", "excludes", "only_sizes", "advice"), need=True)
    if rule.advice is None and rule.because is None:
        _missing(book, path, "because", "which the buyer is told", "add `because:` and a sentence")


def _cloth(book: Book, path: Path, cloth: doc.ClothDoc) -> None:
    if len(set(cloth.widths_mm)) != len(cloth.widths_mm):
        book.note(
            "wrong-value",
            (*path, "widths_mm"),
            seen="a width twice",
            expected="each width once",
            mend="delete one of them",
        )
    if len(set(cloth.ways)) != len(cloth.ways):
        book.note(
            "wrong-value", (*path, "ways"), seen="a way twice", expected="each way once", mend="delete one of them"
        )
    if cloth.usual_width_mm < min(cloth.widths_mm) and book.checked.whole(*path, "widths_mm"):
        book.note(
            "wrong-value",
            (*path, "usual_width_mm"),
            seen=f"a usual width of {cloth.usual_width_mm:g}",
            expected=f"one of `widths_mm`, or more than the least of them ({min(cloth.widths_mm):g})",
            mend="add it to `widths_mm`",
        )


    check_remnant_widths(book, (*path, "remnant_widths_mm"), cloth)


def _role_part(book: Book, path: Path, part: doc.PieceDoc) -> None:
    for key in ("title", "when", "drawn", "grain", "stretch", "in_step"):
        if getattr(part, key) is not None:
            _too_much(book, path, key, f"under the piece itself; under `{AS}…` only {listed(ROLE_KEYS)}")
    for at, edge in enumerate(part.edges):
        here: Path = (*path, "edges", at)
        for key, value in (("from", edge.start), ("via", edge.via)):
            if value is not None:
                _too_much(book, here, key, f"under the piece itself; under `{AS}…` an edge has its allowance only")
        if edge.allowance_mm is None:
            _missing(book, here, "allowance_mm", "which is all a role can say of an edge", "add `allowance_mm: …`")


def _piece(book: Book, path: Path, name: str, piece: doc.PieceDoc) -> None:
    if piece.title is None:
        _missing(book, path, "title", "as printed in the cutting list", "add `title: …`")
    if not piece.edges:
        _missing(book, path, "edges", "in order round the piece", "add `edges:`")
    for at, edge in enumerate(piece.edges):
        if edge.start is None:
            _missing(book, (*path, "edges", at), "from", "the point where the edge begins", "add `from: …`")
    two = len(piece.edges) == 2 and book.checked.whole(*path, "edges")
    if two and all(edge.via is None for edge in piece.edges):
        _missing(
            book,
            (*path, "edges", 0),
            "via",
            "because two edges alone do not say which way round they run",
            "add `via:` and a point that lies on this edge",
        )
    every = [entry for _, part in book.sources(name) for entry in part.cut]
    whole = all(book.checked.whole("pieces", source, "cut") for source, _ in book.sources(name))
    if not every and whole:
        _missing(book, path, "cut", "because nobody says from which cloth it is cut", "add `cut:`")
    for source, part in book.sources(name):
        if part.copies and whole and all(entry.mode != "pair" for entry in every):
            book.note(
                "wrong-value",
                ("pieces", source, "copies"),
                seen=f"copies of {quoted(name)}, which is never a pair",
                expected="copies of a mirrored pair",
                mend="cut it as a `pair`, or delete `copies`",
                key=True,
            )


def _cut(book: Book, path: Path, entry: doc.CutDoc) -> None:
    if entry.mode == "fold" and entry.fold_edge is None:
        _missing(book, path, "fold_edge", "because the piece is cut on the fold", "add `fold_edge:` and the edge")
    if entry.mode != "fold" and entry.fold_edge is not None:
        _too_much(book, path, "fold_edge", "with `mode: fold`")
    if entry.mode != "single" and entry.face == "down":
        _too_much(book, path, "face", "with `mode: single`")
    if entry.mode == "pair" and entry.count % 2:
        book.note(
            "odd-pair",
            (*path, "count"),
            seen=f"a mirrored pair with a count of {entry.count}",
            expected="an even count, half of it mirrored",
            mend=f"write {entry.count + 1}, or `mode: single`",
        )


def _sum_part(book: Book, path: Path, part: doc.SumPartDoc) -> None:
    _one_of(book, path, part, ("edge", "between", "line"), need=True)
    if part.edge is None:
        for key, value in (("from", part.start), ("to", part.stop)):
            if value is not None:
                _too_much(book, path, key, "with `edge`")
    if part.between is None and part.along is not None:
        _too_much(book, path, "along", "with `between`")
    if part.between is not None:
        pieces = [one.partition(".")[0] for one in part.between]
        if pieces[0] != pieces[1]:
            book.note(
                "wrong-value",
                (*path, "between", 1),
                seen=f"points of {listed(pieces)}",
                expected="two points of one piece",
                mend="measure on one piece and add up",
            )


def _notion(book: Book, path: Path, notion: doc.NotionDoc) -> None:
    sizes = book.document.sizes
    if notion.count is not None and notion.tabled_count:
        _too_much(book, path, "count", "without `tabled_count`")
    for key, table, instead in (
        ("tabled_mm", notion.tabled_mm, notion.rule),
        ("tabled_count", notion.tabled_count, notion.count),
    ):
        left = [size for size in sizes if size not in table]
        if table and left and instead is None and book.checked.whole(*path, key) and book.checked.whole("sizes"):
            book.note(
                "size-missing",
                (*path, key),
                seen=f"nothing for {listed(left)}",
                expected="a figure for each size" + (", or a `rule`" if key == "tabled_mm" else ""),
                mend="add the missing sizes",
                key=True,
            )
    rule = notion.rule
    if rule is None:
        return
    here: Path = (*path, "rule")
    if rule.take == "ring":
        if rule.body is None:
            _missing(book, here, "body", "the measurement the ring goes round", "add `body: …`")
        for key in ("times", "plus_mm"):
            if getattr(rule, key) is not None:
                _too_much(book, here, key, "with `take: edge`")
        if rule.tail_mm is not None and rule.overlap_mm is not None:
            _too_much(book, here, "overlap_mm", "without `tail_mm`: ends caught in a seam do not lie on each other")
    else:
        if notion.edge is None:
            _missing(book, path, "edge", "because the rule takes its length", "add `edge: …`")
        for key in ("body", "minus_mm", "overlap_mm", "tail_mm"):
            if getattr(rule, key) is not None:
                _too_much(book, here, key, "with `take: ring`")
