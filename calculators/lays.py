"""How do the pieces lie on the cloth? The layout as a drawing and in words.

>>> how_many({"mode": "pair", "count": 2}, "folded"), how_many({"mode": "pair", "count": 2}, "flat")
('2, mirrored pair', '1 of 2')
>>> how_many({"mode": "single", "count": 1}, "folded"), how_many({"mode": "fold", "count": 1}, "flat")
('1, lower layer', '1, whole')
>>> [how_many({"mode": "pair", "count": 2}, "part-folded", layers=layers) for layers in (2, 1)]
['2, mirrored pair', '1 of 2']
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from .cutting_list import how_cut
from .fragments import NOTHING, Fragment, Said, escaped, joined, quoted, say
from .garments import sizes_said
from .lay_file import LayFile, Lying
from .lay_named import lay_of
from .lay_parts import Part, parts_of, whose
from .lay_svg import Marked, lay_svg
from .nap import WITH
from .problems import problem
from .request import Request
from .spread import SQUARING_MM, Spread, spread_out
from .stretch import CLOTH_STRETCH, stretches
from .stripe_svg import Repeat
from .stripe_words import laid_words
from .strips import Table, on_table
from .units import Shown, measured, needed, width
from .ways import way_words

ItemJson = Mapping[str, Any]

TOUCHING_MM = 2
"""Published outlines and places are whole millimetres; what is this near to an edge lies at it."""


def how_many(item: ItemJson, way: str, *, layers: int = 2) -> str:
    """What one outline of this line gives, in the fewest words. `layers`: of cloth where it lies, if not flat."""
    count = item["count"]
    double = way != "flat" and layers == 2
    if item["mode"] == "pair":
        return "2, mirrored pair" if double else f"1 of {count}"
    if item["mode"] == "fold":
        return "1, on the fold" if double else "1, whole"
    each = "1" if count == 1 else f"1 of {count}"
    return f"{each}, lower layer" if double else each


def _listed(item: ItemJson, way: str) -> str:
    """How the line is cut, in words; halves are laid whole on flat cloth."""
    return f"{item['count']}, cut whole" if item["mode"] == "fold" and way == "flat" else how_cut(item)


def lay_fragments(request: Request, cloth_name: str, opened: Mapping[str, LayFile]) -> list[Fragment]:
    """Fragments `lay.<cloth>` (the drawing) and `lay.<cloth>.words` (what lies there).

    Arguments: a request whose size is known; the cloth; the pattern's lay files that are open, by key. Where the file
    is not open, `lay.<cloth>` is of kind `needs` and its data name the file.
    """
    sheet = request.sheet
    cloth = next((one for one in sheet["cloths"] if one["name"] == cloth_name), None)
    if cloth is None:
        said = say(f"There is no cloth {quoted(cloth_name)} in this pattern.")
        return [problem("lay", "unknown-cloth", said, ())]
    spread = spread_out(request, cloth)
    name, depends_on = f"lay.{cloth_name}", spread.depends_on
    silent = Fragment(name=f"{name}.words", kind="sentence", depends_on=depends_on)
    answer = spread.answer
    if answer is None:
        # Why there is no layout is said where the amount would stand.
        return [Fragment(name=name, kind="sentence", depends_on=depends_on), silent]
    found = lay_of(spread, cloth_name, answer)
    each = [(one["key"], one["number"]) for one in (found, found.get("behind")) if one]
    for key, number in each:
        if key not in opened:
            said = say("The layout is being loaded.")
            return [Fragment(name=name, kind="needs", said=said, data={"needs": key}, depends_on=depends_on), silent]
        if str(number) not in opened[key]["lays"]:
            said = say("This layout is of another edition of the pattern. Load the page again.")
            return [problem(name, "no-such-lay", said, depends_on, key=key), silent]
    parts = parts_of(spread, answer, found, opened)
    drawn = [_drawn(request, cloth, part, at) for at, part in enumerate(parts)]
    title = drawn[0].title
    if len(parts) > 1:
        both = sizes_said(spread.sizes)
        title = f"{request.sheet['name']}, {cloth['title']}: two layouts, one behind the other, for {both}"
    scales = {one.scale for one in drawn}
    data: dict[str, Any] = {
        "width_mm": answer.width_mm, "length_mm": sum(one.length_mm for one in drawn), "needed_mm": answer.length_mm,
        "key": found["key"], "scale": scales.pop() if len(scales) == 1 else None, "nap_used": spread.nap_used,
        "pieces": sum(len(one.pieces) for one in drawn),
    }  # fmt: skip
    if len(drawn) > 1:
        data["behind_mm"] = [one.length_mm for one in drawn]
    headed = [f'<p class="bs-lay-of">{escaped(one.part.heading)}</p>' if one.part.heading else "" for one in drawn]
    html = "".join(heading + one.html for heading, one in zip(headed, drawn, strict=True))
    words = joined([_words(one) for one in drawn])
    numbers = {
        (line["id"] if whose == "" else f"{line['id']} {whose}"): number
        for one in drawn[:1]
        for number, (whose, line) in enumerate(one.lines, start=1)
    }
    return [
        Fragment(
            name=name,
            kind="drawing",
            said=Said(text=f"{title}.", text_inch=f"{title}.", html=html),
            data=data,
            depends_on=depends_on,
        ),
        Fragment(
            name=f"{name}.words",
            kind="list",
            said=words,
            data={"key": found["key"], "numbers": numbers},
            depends_on=depends_on,
        ),
    ]


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """One drawing: what it is of, the element and its scale, how long the lay is, its lines with whose they are, and
    where its pieces lie on the table."""

    part: Part
    title: str
    html: str
    scale: int
    length_mm: int
    sizes: Sequence[str]
    lines: Sequence[tuple[str, ItemJson]]
    pieces: Sequence[Lying]
    table: Table
    about: Said

    def of_line(self, at: int) -> list[Lying]:
        """The pieces of the line that stands there."""
        return [one for one in self.pieces if self.number(one) == at + 1]

    def number(self, piece: Lying) -> int:
        """The number of a piece: that of its line, for its garment."""
        wanted = (whose(piece.garment, self.sizes), piece.line_id)
        return next(at for at, (told, item) in enumerate(self.lines, start=1) if (told, item["id"]) == wanted)


def _drawn(request: Request, cloth: Mapping[str, Any], part: Part, at: int) -> Drawn:
    """One lay of an answer as a drawing; ``at`` is its place among them."""
    spread, lay = part.spread, part.lay
    sizes = spread.sizes if len(spread.alone) > 1 else ()
    pieces = part.pieces()
    table = on_table(spread.way, part.width_mm, lay.get("fold_over_mm"))
    length_mm = max([lay["length_mm"], *(x for one in pieces for x, _ in one.points)])
    of_size = sizes_said(spread.sizes)
    title = f"{request.sheet['name']}, {cloth['title']}: layout for {of_size}"
    lines = [(whose(garment, sizes), item) for garment, item in part.lines(request.sheet["items"])]
    about = joined([_about(part, length_mm, table), two_said(sizes)])
    drawn = Drawn(part=part, title=title, html="", scale=0, length_mm=length_mm, sizes=sizes, lines=lines,
                  pieces=pieces, table=table, about=about)  # fmt: skip
    marked = []
    for one in pieces:
        number = drawn.number(one)
        told, item = lines[number - 1]
        layers = layers_below(one, table)
        how = how_many(item, spread.way, layers=layers)
        marked.append(
            Marked(number=number, name=item["title"], how=how, lying=one, whose=told, grain=item["grain"])
        )
    html, scale = lay_svg(
        marked, table=table, length_mm=length_mm, nap=spread.nap_used == WITH, stretch=stretches(spread.kinds),
        name=f"bs-lay-{cloth['name']}{f'-{at + 1}' if at else ''}", title=title, about=about.text,
        repeat=_repeat(spread),
    )  # fmt: skip
    return replace(drawn, html=html, scale=scale)


def two_said(sizes: Sequence[str]) -> Said:
    """How the pieces of two garments in one lay are told from each other."""
    if not sizes:
        return NOTHING
    first, second = (whose(garment, sizes) for garment in (0, 1))
    return say(f"Plain outlines: {first}. Shaded, with a broken outline: {second}.")


def _about(part: Part, length_mm: int, table: Table) -> Said:
    """What the drawing shows as a whole."""
    spread, width_mm = part.spread, part.width_mm
    nap = laid_words(spread)
    way: str | Said = way_words(spread.kinds, "folded" if spread.way == "part-folded" else spread.way)
    if spread.way == "flat":
        way, edges = f"{way}, right side up", "selvedges on both sides"
    elif spread.way == "middle":
        edges = "a fold on either side, the selvedges in the middle"
    elif table.single_from_mm is not None:
        faces = "" if "interfacing" in spread.kinds else ", right sides together"
        way = say("folded over ", measured(table.single_from_mm), f", the rest single{faces}")
        edges = "fold on the left, one selvedge where the cloth turns single, the other on the right"
    else:
        edges = "fold on the left, selvedges on the right"
    parts = [
        say("Cloth ", width(width_mm), " wide, ", way, nap, f"; {edges}."),
        say("The pieces take ", needed(length_mm), "; with ", measured(SQUARING_MM), " to square the ends.")
        if not part.heading
        else say("The pieces take ", needed(length_mm), "."),
    ]
    stripes = spread.stripes
    if stripes.listed:
        parts.append(say("Each line is a repeat, each diamond the notch of a piece: all lie at the same place of it."))
    elif stripes.each_row_mm:
        parts.append(say("Drawn without the repeat that the rule of thumb adds: move the pieces on until they match."))
    if stretches(spread.kinds):
        parts.append(say(CLOTH_STRETCH))
    if spread.wash.counts:
        parts.append(say("Drawn as it lies after the wash."))
    if width_mm < spread.lay_width_mm:
        parts.append(say("Drawn on narrower cloth than yours, as no wider layout is shorter; the rest stays free."))
    return joined(parts)


def _repeat(spread: Spread) -> Repeat | None:
    """The repeat with which the pieces lie in step; none is drawn where the rule of thumb was used."""
    stripes = spread.stripes
    return Repeat(along_mm=stripes.along_mm, across_mm=stripes.across_mm) if stripes.listed else None


def _words(drawn: Drawn) -> Said:
    """The numbered list of what lies there and where, which is also the key to the drawing's numbers."""
    rows, spread, table = [], drawn.part.spread, drawn.table
    for at, (told, item) in enumerate(drawn.lines):
        of = f", {told}" if told else ""
        parts: list[str | Shown | Said] = [f"{item['title']}{of}: {_listed(item, spread.way)}"]
        for one in drawn.of_line(at):
            xs = [x for x, _ in one.points]
            edge, off_mm = _from_edge(one, spread.way, table)
            face = "face down" if one.mirrored else "face up"
            turned = ", turned head to foot" if one.turned else ""
            alone = ", in single cloth" if table.folds_mm and layers_below(one, table) == 1 else ""
            parts += [f"; {face}{turned}{alone}, ", _away(min(xs), "the cut end", "at"), ", ",
                      _away(off_mm, edge, "on"), ", ", measured(max(xs) - min(xs)),
                      " long"]  # fmt: skip
            if one.mark is not None:
                parts += [", its notch ", _away(one.mark[0], "the cut end", "at")]
        rows.append(say(*parts, "."))
    faces = say("Face up: the printed side of the pattern piece lies up.")
    heading, about = drawn.part.heading, drawn.about
    head = say(f"{heading}." if heading else "")
    text = " ".join([*([head.text] if heading else []), about.text, faces.text, *(row.text for row in rows)])
    inch = " ".join([*([head.text] if heading else []), about.text_inch, faces.text, *(row.text_inch for row in rows)])
    listed = "".join(f"<li>{row.html}</li>" for row in rows)
    headed = f'<p class="bs-lay-of">{head.html}</p>' if heading else ""
    html = f'{headed}<p>{about.html} {escaped(faces.text)}</p><ol class="bs-lay-key">{listed}</ol>'
    return Said(text=text, text_inch=inch, html=html)


def across(one: Lying) -> tuple[int, int]:
    """From where to where a piece lies across the cloth, in the lay's measure."""
    ys = [y for _, y in one.points]
    return min(ys), max(ys)


def layers_below(one: Lying, table: Table) -> int:
    """How many layers a piece lies on. Its middle tells: simplified outlines may stand over the edge of the layers."""
    return table.layers(max(0, sum(across(one)) // 2))


def _from_edge(one: Lying, way: str, table: Table) -> tuple[str, int]:
    """The edge of the table from which a piece's distance is told, and how far it is, in mm."""
    low_mm, high_mm = across(one)
    if way == "middle":
        if low_mm + high_mm > table.cloth_mm:
            return "the right fold", max(0, table.cloth_mm - high_mm)
        return "the left fold", max(0, low_mm)
    return "the left selvedge" if way == "flat" else "the fold", max(0, low_mm) + table.from_mm


def _away(mm: float, edge: str, touching: str) -> Said:
    """How far a piece lies from an edge of the cloth; what lies within a hair of it lies at it."""
    return say(measured(mm), f" from {edge}") if mm > TOUCHING_MM else say(f"{touching} {edge}")
