"""How do the pieces lie on the cloth? The layout as a drawing and in words.

>>> how_many({"mode": "pair", "count": 2}, "folded"), how_many({"mode": "pair", "count": 2}, "flat")
('2, mirrored pair', '1 of 2')
>>> how_many({"mode": "single", "count": 1}, "folded"), how_many({"mode": "fold", "count": 1}, "flat")
('1, lower layer', '1, whole')
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .cloth import SQUARING_MM, Laid, Spread, spread_out, way_words
from .cutting_list import how_cut
from .fragments import Fragment, Said, escaped, joined, quoted, say
from .lay_file import LayFile, Lying, lying
from .lay_svg import SELVEDGE_MM, Marked, lay_svg
from .nap import NAP_WORDS, WITH
from .problems import problem
from .request import Request
from .units import Shown, measured, needed, width

ItemJson = Mapping[str, Any]

TOUCHING_MM = 2
"""Published outlines and places are whole millimetres; what is this near to an edge lies at it."""


def how_many(item: ItemJson, way: str) -> str:
    """What one outline of this line gives, in the fewest words."""
    count = item["count"]
    if item["mode"] == "pair":
        return "2, mirrored pair" if way == "folded" else f"1 of {count}"
    if item["mode"] == "fold":
        return "1, on the fold" if way == "folded" else "1, whole"
    each = "1" if count == 1 else f"1 of {count}"
    return f"{each}, lower layer" if way == "folded" else each


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
    key = f"{cloth_name}.{spread.way}.{request.size}"
    file = opened.get(key)
    if file is None:
        said = say("The layout is being loaded.")
        return [Fragment(name=name, kind="needs", said=said, data={"needs": key}, depends_on=depends_on), silent]
    if str(answer.number) not in file["lays"]:
        said = say("This layout is of another edition of the pattern. Load the page again.")
        return [problem(name, "no-such-lay", said, depends_on, key=key), silent]
    return _drawn(request, cloth, spread, answer, file, key)


def _drawn(
    request: Request, cloth: Mapping[str, Any], spread: Spread, answer: Laid, file: LayFile, key: str
) -> list[Fragment]:
    lay = file["lays"][str(answer.number)]
    items = {item["id"]: item for item in request.sheet["items"] if item["id"] in spread.demand}
    pieces = lying(file, answer.number, items)
    numbers = {line: at + 1 for at, line in enumerate(items)}
    marked = [
        Marked(number=numbers[one.line_id], name=items[one.line_id]["title"],
               how=how_many(items[one.line_id], spread.way), lying=one)
        for one in pieces
    ]  # fmt: skip
    name = f"lay.{cloth['name']}"
    length_mm = max([lay["length_mm"], *(x for one in pieces for x, _ in one.points)])
    title = f"{request.sheet['name']}, {cloth['title']}: layout for size {request.size}"
    about = _about(spread, answer.width_mm, length_mm)
    html, scale = lay_svg(
        marked, way=spread.way, width_mm=answer.width_mm, length_mm=length_mm, nap=spread.nap_used == WITH,
        name=f"bs-lay-{cloth['name']}", title=title, about=about.text,
    )  # fmt: skip
    data = {"width_mm": answer.width_mm, "length_mm": length_mm, "needed_mm": answer.length_mm, "key": key,
            "scale": scale, "nap_used": spread.nap_used, "pieces": len(pieces)}  # fmt: skip
    return [
        Fragment(
            name=name,
            kind="drawing",
            said=Said(text=f"{title}.", text_inch=f"{title}.", html=html),
            data=data,
            depends_on=spread.depends_on,
        ),
        Fragment(
            name=f"{name}.words",
            kind="list",
            said=_words(items, pieces, spread, about),
            data={"key": key, "numbers": numbers},
            depends_on=spread.depends_on,
        ),
    ]


def _about(spread: Spread, width_mm: int, length_mm: int) -> Said:
    """What the drawing shows as a whole."""
    edges = "fold on the left, selvedges on the right" if spread.way == "folded" else "selvedges on both sides"
    nap = "" if spread.nap == "never" else f", {NAP_WORDS[spread.nap_used]}"
    side = "" if spread.way == "folded" else ", right side up"
    parts = [
        say("Cloth ", width(width_mm), f" wide, {way_words(spread.kinds, spread.way)}{side}{nap}; {edges}."),
        say("The pieces take ", needed(length_mm), "; with ", measured(SQUARING_MM), " to square the ends."),
    ]
    if spread.wash.counts:
        parts.append(say("Drawn as it lies after the wash."))
    if width_mm < spread.lay_width_mm:
        parts.append(say("Drawn on narrower cloth than yours, as no wider layout is shorter; the rest stays free."))
    return joined(parts)


def _words(items: Mapping[str, ItemJson], pieces: Sequence[Lying], spread: Spread, about: Said) -> Said:
    """The numbered list of what lies there and where, which is also the key to the drawing's numbers."""
    rows = []
    edge = "the fold" if spread.way == "folded" else "the left selvedge"
    off_mm = 0 if spread.way == "folded" else SELVEDGE_MM
    for line, item in items.items():
        parts: list[str | Shown | Said] = [f"{item['title']}: {_listed(item, spread.way)}"]
        for one in pieces:
            if one.line_id == line:
                xs, ys = [x for x, _ in one.points], [y for _, y in one.points]
                face = "face down" if one.mirrored else "face up"
                turned = ", turned head to foot" if one.turned else ""
                parts += [f"; {face}{turned}, ", _away(min(xs), "the cut end", "at"), ", ",
                          _away(max(0, min(ys)) + off_mm, edge, "on"), ", ", measured(max(xs) - min(xs)),
                          " long"]  # fmt: skip
        rows.append(say(*parts, "."))
    faces = say("Face up: the printed side of the pattern piece lies up.")
    text = " ".join([about.text, faces.text, *(row.text for row in rows)])
    inch = " ".join([about.text_inch, faces.text, *(row.text_inch for row in rows)])
    listed = "".join(f"<li>{row.html}</li>" for row in rows)
    html = f'<p>{about.html} {escaped(faces.text)}</p><ol class="bs-lay-key">{listed}</ol>'
    return Said(text=text, text_inch=inch, html=html)


def _away(mm: float, edge: str, touching: str) -> Said:
    """How far a piece lies from an edge of the cloth; what lies within a hair of it lies at it."""
    return say(measured(mm), f" from {edge}") if mm > TOUCHING_MM else say(f"{touching} {edge}")
