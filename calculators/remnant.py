"""What fits this remnant? Every pattern of the shop that can be cut from a piece of cloth, in which sizes and options.

The cloth lies as it is: its length is measured along the selvedge, and no piece is turned across. Nothing is added for
squaring the ends, as nothing is bought: the piece is to be cut square at both ends first. What the first wash takes is
taken off, unless it is washed already.

>>> index = {"format": 1, "patterns": [], "order": []}
>>> asked = {"width": "140", "length": "90", "kind": "woven", "wash": "washed"}
>>> [fragment.said.text for fragment in remnant_fragments(index, asked)][0]
'No pattern in this shop takes woven cloth.'
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .fragments import NOTHING, Fragment, Said, escaped, joined, quoted, say
from .nap import NAP_WORDS, WITH, WITHOUT
from .problems import problem
from .remnant_fits import Piece, Shelf
from .remnant_index import NARROW_UP_TO_CM, ClothJson
from .remnant_words import PatternJson, Run, Typed, length_words, run_data, run_words, runs_of
from .request import unit_of, word
from .typed import WIDEST_USUAL_MM, Asked, read_length
from .units import MM_PER_CM, Shown, width, width_up
from .wash import USUAL, USUAL_WORDS, WASHED, WHOLE_TENTHS, Wash, percent, read_wash, washed_width_mm

INDEX = Mapping[str, Any]
NAME = "remnant"
ASKED = ("width", "length", "kind", "nap", "wash", "size")
DEPENDS_ON = tuple(f"{NAME}.{name}" for name in ASKED)
"""Whatever is said depends on all that is asked."""

REMNANT_WIDTH = Asked(
    thing="width",
    refusal="is not a width that can be looked through: 30 cm (12 in) to 5 m",
    code="not-a-width",
    lowest_mm=300,
    highest_mm=5000,
    example_cm="140",
    example_in="55",
    usual_mm=WIDEST_USUAL_MM,
)
REMNANT_LENGTH = Asked(
    thing="length",
    refusal="is not a length that can be looked through: 5 cm (2 in) to 20 m",
    code="not-a-length",
    lowest_mm=50,
    highest_mm=20_000,
    example_cm="85",
    example_in="33",
)
"""Bounds between which a remnant makes sense; our choice."""

SQUARE = "Cut it square at both ends, then measure: the length along the selvedge, the width across."
GRAIN = "Every piece lies with its grain along the selvedge, so the cloth can't be turned."
PLAIN_CLOTH = "Reckoned as plain cloth: stripes or checks that are to meet take more; a pattern's page reckons that."
NAP_WHERE_ASKED = "with nap only where the pattern always lays it so"
SWAP = "If the selvedge runs along the other edge, swap the two numbers."

_shelves: dict[int, tuple[INDEX, list[list[Shelf]]]] = {}
"""The opened index with its cloths, so that what was read once is not read again."""


def shelves_of(index: INDEX) -> list[list[Shelf]]:
    """The cloths of each pattern of the index."""
    known = _shelves.get(id(index))
    if known is None or known[0] is not index:
        _shelves.clear()
        made = [
            [Shelf(cloth, pattern["choices"], len(pattern["sizes"])) for cloth in pattern["cloths"]]
            for pattern in index["patterns"]
        ]
        known = _shelves[id(index)] = (index, made)
    return known[1]


def remnant_fragments(index: INDEX, asked: Mapping[str, Any]) -> list[Fragment]:
    """Fragments `remnant` (what it comes to), `remnant.how` (how it was reckoned), then `remnant.whole.<pattern>` for
    patterns whose first cloth it can be, `remnant.part.<pattern>` for those of which it can be another cloth.

    Arguments: the opened index; the request: `width`, `length`, `kind`, `nap` (`with` or `without`), `wash` (`usual`:
    not washed yet, or `washed`), `size` (empty: all), `unit`. Where nothing fits, `remnant` says why.
    """
    unit = unit_of(asked)
    kind, nap = word(asked.get("kind")), word(asked.get("nap")) or WITHOUT
    wash = read_wash(word(asked.get("wash")) or USUAL, "", "", [kind])
    texts = word(asked.get("width")).strip(), word(asked.get("length")).strip()
    if not all(texts):
        return [_refuse("nothing-typed", say("Type how wide your piece of cloth is, and how long."))]
    wide, long = read_length(texts[0], unit, REMNANT_WIDTH), read_length(texts[1], unit, REMNANT_LENGTH)
    for typed in (wide, long):
        if typed.code is not None:
            return [_refuse(typed.code, typed.said)]
    if nap not in (WITH, WITHOUT):
        return [_refuse("unknown-nap", say(f"{quoted(nap)} can't be read. The cloth is with nap or without nap."))]
    if wash.code or wash.how not in (USUAL, WASHED):
        return [_refuse("unknown-wash", say("The cloth is washed already, or not yet."))]
    width_mm, length_mm = wide.mm or 0.0, long.mm or 0.0
    piece = Piece(
        width_mm=washed_width_mm(width_mm, wash), length_cm=washed_length_cm(length_mm, wash), kind=kind, nap=nap
    )
    said = Typed(width=texts[0], unit=unit, wash=wash.how, loss=percent(wash.along_tenths).removesuffix("\u00a0%")
                 if wash.counts else "")  # fmt: skip
    return _answer(index, piece, said, wash, length_mm, word(asked.get("size")))


def washed_length_cm(length_mm: float, wash: Wash) -> int:
    """What the first wash leaves of a length, in whole centimetres, rounded down.

    >>> washed_length_cm(1000, read_wash("usual", "", "", ["woven"])), washed_length_cm(999.9, Wash())
    (95, 99)
    """
    hundredths = int(length_mm * 100 + 0.5) * (WHOLE_TENTHS - wash.along_tenths)
    return hundredths // (WHOLE_TENTHS * 100 * MM_PER_CM)


def _answer(index: INDEX, piece: Piece, typed: Typed, wash: Wash, length_mm: float, size: str) -> list[Fragment]:
    whole: list[tuple[bool, Fragment]] = []
    part: list[Fragment] = []
    shelves = shelves_of(index)
    wanted = cloths_short_enough(index, piece.length_cm)
    for at, pattern in enumerate(index["patterns"]):
        if at not in wanted or (size and size not in pattern["sizes"]):
            continue
        only_size = pattern["sizes"].index(size) if size else None
        smaller: list[tuple[ClothJson, list[Run], Shelf]] = []
        for number, shelf in enumerate(shelves[at]):
            runs = runs_of(shelf, piece, only_size) if number in wanted[at] and shelf.of_kind(piece.kind) else []
            if runs and not number:
                every = any(run.fit.every for run in runs)
                cloths = [(shelf.cloth, runs, shelf)]
                whole.append((not every, _pattern_fragment("whole", pattern, cloths, typed, piece)))
            elif runs:
                smaller.append((shelf.cloth, runs, shelf))
        if smaller:
            part.append(_pattern_fragment("part", pattern, smaller, typed, piece))
    whole.sort(key=lambda one: one[0])  # those first of which some size fits whatever is chosen
    first = [_head(index, piece, typed, length_mm, len(whole), len(part), size), _how(index, piece, wash)]
    return [*first, *(fragment for _, fragment in whole), *part]


def cloths_short_enough(index: INDEX, length_cm: int) -> dict[int, set[int]]:
    """For each pattern the cloths of which something may fit a length: the index lists the shortest first.

    >>> cloths_short_enough({"order": [[20, 4, 0], [30, 2, 1], [31, 4, 1]]}, 30)
    {4: {0}, 2: {1}}
    """
    found: dict[int, set[int]] = {}
    for least_cm, pattern, cloth in index["order"]:
        if least_cm > length_cm:
            break
        found.setdefault(pattern, set()).add(cloth)
    return found


def _pattern_fragment(
    role: str,
    pattern: PatternJson,
    cloths: Sequence[tuple[ClothJson, list[Run], Shelf]],
    typed: Typed,
    piece: Piece,
) -> Fragment:
    """What fits of one pattern, its name first."""
    texts, inches, parts = [pattern["name"]], [pattern["name"]], []
    data = []
    for cloth, runs, shelf in cloths:
        told = [run_words(pattern, shelf, run, typed, piece) for run in runs]
        title = f"As {_lower(cloth['title'])}" if role == "part" else ""
        texts += [f"{title}:" if title else "", *(one.text for one in told)]
        inches += [f"{title}:" if title else "", *(one.text_inch for one in told)]
        parts.append((f"<h4>{escaped(title)}</h4>" if title else "") + "".join(one.html for one in told))
        data.append({"cloth": cloth["name"], "runs": [run_data(pattern, run) for run in runs]})
    name = f'<h3><a href="{escaped(pattern["address"])}">{escaped(pattern["name"])}</a></h3>'
    said = Said(
        text=f"{texts[0]}: {' '.join(one for one in texts[1:] if one)}",
        text_inch=f"{inches[0]}: {' '.join(one for one in inches[1:] if one)}",
        html=name + "".join(parts),
    )
    return Fragment(
        name=f"{NAME}.{role}.{pattern['pattern']}",
        kind="list",
        said=said,
        data={"pattern": pattern["pattern"], "cloths": data},
        depends_on=DEPENDS_ON,
    )


def _lower(words: str) -> str:
    return words[:1].lower() + words[1:]


def _head(
    index: INDEX, piece: Piece, typed: Typed, length_mm: float, whole: int, part: int, size: str
) -> Fragment:
    """Fragment `remnant`: for how many patterns the cloth is enough, or why for none."""
    if not whole and not part:
        return _nothing(index, piece, length_mm, size)
    of_all = f"{len(index['patterns'])} patterns{f' in size {size}' if size else ''}"
    garments = any(row[0].of_kind(piece.kind) for row in shelves_of(index) if row)
    told = [f"for the garment itself in {whole or 'none'} of {of_all}"] if garments else []
    if part:
        told.append(f"for a lining, a patch or the like in {part}" if garments else f"in {part} of {of_all}")
    data = {"width_mm": piece.width_mm, "length_cm": piece.length_cm, "kind": piece.kind, "nap": piece.nap,
            "whole": whole, "part": part, "of": len(index["patterns"])}  # fmt: skip
    return Fragment(name=NAME, kind="figure", said=say(f"Enough {', '.join(told)}."), data=data, depends_on=DEPENDS_ON)


def _how(index: INDEX, piece: Piece, wash: Wash) -> Fragment:
    """Fragment `remnant.how`: what was reckoned with, and what is to be done first."""
    reckoned = say(
        f"Reckoned for {kind_words(piece.kind)}, ", width(int(piece.width_mm * 10) / 10), " wide and ",
        _down(piece.length_cm), f" long, {NAP_WORDS[WITH] if piece.nap == WITH else NAP_WHERE_ASKED}.",
    )  # fmt: skip
    washed = NOTHING
    if wash.counts:
        words, between = USUAL_WORDS.get(piece.kind, ("this kind of cloth", ""))
        washed = say(
            f"That is what the first wash may leave of it: {percent(wash.along_tenths)} are taken off each way. "
            f"Usual for {words} is {between}, a custom and no promise: wash it, then measure again."
        )
    long = _long_and_narrow(index, piece)
    said = joined([say(SQUARE), say(GRAIN), reckoned, long, say(PLAIN_CLOTH), washed])
    return Fragment(name=f"{NAME}.how", kind="sentence", said=said, depends_on=DEPENDS_ON)


def _long_and_narrow(index: INDEX, piece: Piece) -> Said:
    """That of a long narrow piece more may be cut than is said here; nothing for any other piece."""
    narrow = any(
        piece.width_mm < shelf.cloth["widths"][0]
        for row in shelves_of(index)
        for shelf in row
        if shelf.of_kind(piece.kind) and "narrow" in shelf.cloth and shelf.cloth["widths"]
    )
    if not narrow or piece.length_cm <= NARROW_UP_TO_CM:
        return NOTHING
    return say("On cloth this narrow only what takes up to about ", length_words(NARROW_UP_TO_CM),
               " was laid out, so more may fit than is said here.")  # fmt: skip


def kind_words(kind: str) -> str:
    """A kind of cloth inside a sentence.

    >>> kind_words("woven"), kind_words("interfacing")
    ('woven cloth', 'interfacing')
    """
    return kind if kind == "interfacing" else f"{kind if kind.isalpha() and len(kind) < 24 else quoted(kind)} cloth"


def _down(length_cm: int) -> Said:
    """A length that is there: in metres, and in inches rounded down to a quarter."""
    quarters = length_cm * MM_PER_CM * 40 // 254
    ones, rest = divmod(quarters, 4)
    inch = f"{ones} {('', '1/4', '1/2', '3/4')[rest]}".strip()
    return say(Shown(f"{length_cm / 100:.2f} m", f"{inch} in"))


def _nothing(index: INDEX, piece: Piece, length_mm: float, size: str) -> Fragment:
    """Why nothing fits, and what would."""
    shelves = [
        (pattern, shelf)
        for pattern, row in zip(index["patterns"], shelves_of(index), strict=True)
        for shelf in row
        if shelf.of_kind(piece.kind) and shelf.lengths.narrowest_mm is not None
    ]
    kind = kind_words(piece.kind)
    if not shelves:
        return _refuse("not-reckoned", say(f"No pattern in this shop takes {kind}."))
    narrowest_mm = min(shelf.lengths.narrowest_mm or 0 for _, shelf in shelves)
    turned = say(SWAP) if length_mm >= narrowest_mm and piece.width_mm < length_mm else NOTHING
    if piece.width_mm < narrowest_mm:
        said = say(
            f"Nothing in this shop is laid on {kind} as narrow as this. Its lays begin at ", width_up(narrowest_mm),
            " of width; a narrower piece may still do, but nobody has laid it out.",
        )  # fmt: skip
        return _refuse("narrower-than-laid", joined([said, turned]), reckoned_from_mm=narrowest_mm)
    if size and not any(size in pattern["sizes"] for pattern, _ in shelves):
        return _refuse("unknown-size", say(f"No pattern of this shop that takes {kind} is cut in size {quoted(size)}."))
    found = [
        (least[0], at, pattern, pattern["sizes"][least[1]])
        for at, (pattern, shelf) in enumerate(shelves)
        for least in [shelf.least_cm(piece, pattern["sizes"].index(size) if size in pattern["sizes"] else None)]
        if least is not None and (not size or size in pattern["sizes"])
    ]
    if not found:
        said = say(f"No pattern of this shop is laid on {kind} of this width.")
        return _refuse("narrower-than-laid", joined([said, turned]), reckoned_from_mm=narrowest_mm)
    least_cm, at, pattern, least_size = min(found, key=lambda one: one[:2])
    what = f"{pattern['name']}, size {least_size}, {_lower(shelves[at][1].cloth['title'])}"
    least = length_words(least_cm)
    about = "up to " if shelves[at][1].lengths.coarse(piece.width_mm) else ""
    said = say(f"Nothing fits. The least that anything takes of cloth this wide is {about}", least, f": {what}.")
    return _refuse("not-reckoned", joined([said, turned]), least_cm=least_cm)


def _refuse(code: str, said: Said, **data: Any) -> Fragment:
    return problem(NAME, code, said, DEPENDS_ON, **data)
