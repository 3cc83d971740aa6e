"""How is it said what a remnant is enough for? Runs of sizes, options in words, and addresses with all of it filled in.

>>> choice = {"name": "end", "title": "Sleeve end", "words": [["hem", "Hemmed"], ["band", "Gathered into a band"]]}
>>> term_words({"end": ["hem", None]}, [choice], {"end": {"hem", "band", None}})
'Sleeve end: not gathered into a band'
>>> term_words({"end": ["hem"]}, [choice], {"end": {"hem", "band", None}})
'Sleeve end: hemmed'
>>> span(["62", "68", "74"], ["62", "68"]), span(["62", "68", "74"], ["62", "74"]), span(["62"], ["62"])
('62 and 68', '62 and 74', '62')
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .fragments import Said, escaped, say
from .remnant_fits import Piece, Shelf, Statement
from .remnant_terms import Fit, Term, Word
from .units import MM_PER_CM, Shown, needed
from .ways import way_words

ALL_OPTIONS = "All options fit"
ONLY, ONLY_ONE_OF = "Only with ", "Only with one of these"
WITHOUT, WITHOUT_TOGETHER, WITHOUT_ANY_OF = "All but ", "All but these together: ", "All but any of these"

PatternJson = Mapping[str, Any]

_PLAIN = re.compile("[A-Za-z0-9._-]*")


@dataclass(frozen=True, kw_only=True)
class Typed:
    """What the buyer said of the remnant, as the panel of a pattern takes it: the width as typed, unit, wash; and by
    how many per cent it shrinks, empty where nothing is counted."""

    width: str
    unit: str
    wash: str
    loss: str


@dataclass(frozen=True, kw_only=True)
class Run:
    """Sizes about which the same is said: a way of laying, what fits, and the most that it takes, in cm.

    ``statements`` holds one for each size.
    """

    way: str
    fit: Fit
    statements: Sequence[Statement]

    @property
    def most_cm(self) -> int:
        """The most that any of the sizes takes, in cm."""
        return max(one.most_cm for one in self.statements)


def runs_of(shelf: Shelf, piece: Piece, only_size: int | None) -> list[Run]:
    """What fits, with neighbouring sizes about which the same is said put together."""
    runs: list[Run] = []
    open_runs: dict[str, int] = {}
    for one in shelf.fits(piece):
        if only_size is not None and one.size != only_size:
            continue
        fit = shelf.table.said(one.offered, one.fit)
        at = open_runs.get(one.way)
        if at is not None and runs[at].statements[-1].size == one.size - 1 and _alike(runs[at].fit, fit):
            runs[at] = Run(way=one.way, fit=runs[at].fit, statements=[*runs[at].statements, one])
        else:
            open_runs[one.way] = len(runs)
            runs.append(Run(way=one.way, fit=fit, statements=[one]))
    return runs


def _alike(one: Fit, other: Fit) -> bool:
    """Whether the words are the same."""

    def terms(fit: Fit) -> tuple[list[Term], list[Term]]:
        return [term for term, _ in fit.only], [term for term, _ in fit.without]

    return one.every == other.every and terms(one) == terms(other)


def run_data(pattern: PatternJson, run: Run) -> dict[str, Any]:
    """A run as plain JSON; a choice that is not asked is null in a term."""
    return {
        "sizes": [pattern["sizes"][one.size] for one in run.statements],
        "way": run.way,
        "every": run.fit.every,
        "only": [term for term, _ in run.fit.only],
        "without": [term for term, _ in run.fit.without],
        "most_cm": run.most_cm,
    }


def run_words(pattern: PatternJson, shelf: Shelf, run: Run, typed: Typed, piece: Piece) -> Said:
    """A run in words; each size is the address of the pattern's page with what fits filled in."""
    met = {name: set(masks) for name, masks in zip(shelf.table.names, shelf.table.masks, strict=True)}

    def words(term: Term) -> str:
        return term_words(term, shelf.choices, met)

    kinds = shelf.cloth["kinds"][0] if shelf.cloth["kinds"] else []
    takes = say(f"{_upper(way_words(kinds, run.way))}; takes ", _up_to(run, shelf.lengths.coarse(piece.width_mm)), ".")
    sizes = [pattern["sizes"][one.size] for one in run.statements]
    head = f"{'Sizes' if len(sizes) > 1 else 'Size'} {span(pattern['sizes'], sizes)}"
    fit = run.fit
    listed: list[tuple[str, Said]] = []
    if fit.every:
        sentence = f"{ALL_OPTIONS}."
    elif len(fit.only) == 1:
        sentence = f"{ONLY}{words(fit.only[0][0])}."
    elif fit.only:
        sentence = f"{ONLY_ONE_OF}:"
        listed = [(words(term), _links(pattern, shelf, run, typed, piece, mask)) for term, mask in fit.only]
    elif len(fit.without) == 1:
        term = fit.without[0][0]
        sentence = f"{WITHOUT_TOGETHER if len(term) > 1 else WITHOUT}{words(term)}."
    else:
        sentence = f"{WITHOUT_ANY_OF}:"
        listed = [(words(term), say()) for term, _ in fit.without]
    links = say() if fit.only and listed else _links(pattern, shelf, run, typed, piece, shelf.table.all)
    items = "".join(f"<li><span>{escaped(text)}</span>{link.html}</li>" for text, link in listed)
    way = f'<span class="bs-fit-way">{takes.html}</span>'
    html = (
        f'<p class="bs-fit"><b>{escaped(head)}.</b> {escaped(sentence)} {way}</p>'
        + (f'<ul class="bs-fit-terms">{items}</ul>' if items else "")
        + links.html
    )
    told = f"{head}. {sentence}{','.join(f' ({text})' for text, _ in listed)}{'.' if listed else ''}"
    return Said(text=f"{told} {takes.text}", text_inch=f"{told} {takes.text_inch}", html=html)


def _up_to(run: Run, coarse: bool) -> Said:
    many = coarse or len(run.statements) > 1 or run.statements[0].fit.bit_count() > 1
    return say("up to " if many else "", needed(run.most_cm * MM_PER_CM))


def _links(
    pattern: PatternJson, shelf: Shelf, run: Run, typed: Typed, piece: Piece, mask: int
) -> Said:
    """The sizes of a run, each as the address of the pattern's page for variants of the mask."""
    links = []
    page, name = escaped(pattern["address"]), escaped(pattern["name"])
    for one in run.statements:
        size = escaped(pattern["sizes"][one.size])
        number = shelf.usual_example(one.fit & mask)
        filled = filled_in(pattern, shelf, one, number, typed, piece).replace("&", "&amp;")
        links.append(f'<a href="{page}?{filled}" aria-label="{name}, size {size}">{size}</a>')
    return Said(text="", text_inch="", html=f'<span class="bs-fit-sizes">{"".join(links)}</span>')


def filled_in(
    pattern: PatternJson, shelf: Shelf, statement: Statement, number: int, typed: Typed, piece: Piece
) -> str:
    """What stands behind the address of the pattern's page, so that size, options and cloth are filled in.

    Arguments: the pattern; its cloth; a size with a way of laying; a variant that fits; what was typed; the remnant.
    """
    cloth, name = shelf.cloth, shelf.cloth["name"]
    fields = [("size", pattern["sizes"][statement.size])]
    for choice, word in zip(shelf.choices, shelf.table.variants[number], strict=True):
        if word is not None and word != choice["words"][choice["usual"]][0]:
            fields.append((f"choice.{choice['name']}", word))
    also = cloth["also"].get(f"{pattern['sizes'][statement.size]} {number}", {})
    fields += [(f"choice.{choice}", word) for choice, word in also.items()]
    fields.append((f"width.{name}", typed.width))
    if statement.way != cloth["ways"][0]:
        fields.append((f"way.{name}", statement.way))
    if shelf.nap(number) == "ask" and piece.nap == "with":
        fields.append((f"nap.{name}", "with"))
    if typed.loss and len(shelf.kinds(number)) > 1:
        # Another kind that would do may lose more; what counts here is what was reckoned with.
        fields += [(f"wash.{name}", "own"), (f"along.{name}", typed.loss), (f"across.{name}", typed.loss)]
    else:
        fields.append((f"wash.{name}", typed.wash))
    if typed.unit == "in":
        fields.append(("unit", "in"))
    return "&".join(f"{_coded(key)}={_coded(value)}" for key, value in fields)


def _coded(text: str) -> str:
    """A word of an address: letters, digits and a few signs stay, all else becomes its bytes in per cent form."""
    if _PLAIN.fullmatch(text):
        return text
    return "".join(
        sign if _PLAIN.fullmatch(sign) else "".join(f"%{one:02X}" for one in sign.encode()) for sign in text
    )


def term_words(term: Term, choices: Sequence[Mapping[str, Any]], met: Mapping[str, set[Word]]) -> str:
    """A term in words.

    Arguments: the term; the choices; for each the words that it has in any variant. Where a choice that is not asked
    is meant too, the words that are *not* meant are named, for only these can be left out by whoever reads.
    """
    said = []
    for choice in choices:
        words = term.get(choice["name"])
        if words is None:
            continue
        titles = [_lower(title) for word, title in choice["words"] if (word in words) != (None in words)
                  and word in met[choice["name"]]]  # fmt: skip
        said.append(f"{choice['title']}: {'not ' if None in words else ''}{_listed(titles, 'or')}")
    return "; ".join(said)


def span(sizes: Sequence[str], found: Sequence[str]) -> str:
    """Sizes that follow each other, as a reader says it.

    >>> span(["62", "68", "74", "80"], ["68", "74", "80"])
    '68 to 80'
    """
    at = list(sizes).index(found[0])
    if len(found) > 2 and list(sizes[at : at + len(found)]) == list(found):
        return f"{found[0]} to {found[-1]}"
    return _listed(list(found), "and")


def _listed(words: Sequence[str], last: str) -> str:
    return "".join(words) if len(words) < 2 else f"{', '.join(words[:-1])} {last} {words[-1]}"


def _lower(words: str) -> str:
    """The words for the middle of a sentence; names in capitals stay."""
    return words if len(words) > 1 and not words[1].islower() and words[1] != " " else words[:1].lower() + words[1:]


def _upper(words: str) -> str:
    return words[:1].upper() + words[1:]


def length_words(length_cm: int) -> Shown:
    """A length of whole centimetres, in metres and in inches."""
    return needed(length_cm * MM_PER_CM)
