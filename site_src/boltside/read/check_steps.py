"""Does everything that steps.md names lead somewhere: the words in braces, what is sewn and used, drawings, films?"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Final

from boltside.pattern import MARKED, StepWord
from boltside.read.book import AS, Book
from boltside.read.check_sale import ADDRESS
from boltside.read.collect import Place, listed, meant, quoted
from boltside.read.document import NotionDoc
from boltside.read.folder_file import PICTURE_BYTES_MAX, check_file
from boltside.read.step_words import FURTHER, KINDS
from boltside.read.steps import StepText

DRAWINGS: Final = {
    "svg": (rb"<svg", rb"<\?xml", rb"<!--"),
    "jpg": (rb"\xff\xd8\xff",),
    "png": (rb"\x89PNG\r\n\x1a\n",),
    "webp": (rb"RIFF.{4}WEBP",),
}
"""How drawings and photographs of steps begin, by ending. Sources: as `folder_file.PICTURES`; SVG 1.1 for the first."""

FILMS: Final = {"mp4": (rb".{4}ftyp",), "webm": (rb"\x1a\x45\xdf\xa3",)}
"""Sources: ISO/IEC 14496-12; the Matroska specification (RFC 8794)."""

FILM_BYTES_MAX: Final = 90_000_000


def check_steps(book: Book) -> None:
    """Note every name in steps.md that leads nowhere."""
    names = _Names(book)
    for word, place in book.words.places.items():
        # Some have nothing further.
        for what, name in zip((*KINDS[word.kind], *FURTHER.get(word.kind, ())), word.of, strict=False):
            names.look(what, name, place, word)
    for step in book.steps:
        for key, what, sets in (("sews", "piece", step.head.sews), ("uses", "notion", step.head.uses)):
            for at, one in enumerate(sets):
                for of, name in enumerate(one):
                    names.look(what, name, step.place_of((key, at, of)))
        _files(book, step)


def _files(book: Book, step: StepText) -> None:
    drawing, film = step.head.drawing, step.head.film
    if drawing is not None:
        check_file(
            book, ("drawing",), drawing, DRAWINGS, PICTURE_BYTES_MAX, at=(book.steps_name, step.place_of(("drawing",)))
        )
    if film is None:
        return
    place = step.place_of(("film",))
    if (film.file is None) == (film.address is None):
        _note(book, "wrong-value", place, "a film with both a `file` and an `address`" if film.file else
              "a film without a `file` or an `address`", "exactly one of them",
              "name the file of the folder, or the address where it is shown")  # fmt: skip
    if film.to_s is not None and film.to_s <= film.from_s:
        _note(book, "wrong-value", place, f"a film from {film.from_s} to {film.to_s} s", "an end after the beginning",
              "write both in seconds from the start of the film")  # fmt: skip
    if film.address is not None and not ADDRESS.fullmatch(film.address):
        _note(book, "wrong-value", step.place_of(("film", "address")), f"the address {quoted(film.address)}",
              "an address that begins with `https://`", "copy the address from the browser")  # fmt: skip
    if film.file is not None:
        at = (book.steps_name, step.place_of(("film", "file")))
        check_file(book, ("film",), film.file, FILMS, FILM_BYTES_MAX, at=at)


def _note(book: Book, code: str, place: Place, seen: str, expected: str, mend: str) -> None:
    book.problems.add(code, book.steps_name, place, seen=seen, expected=expected, mend=mend)


class _Names:
    """Looks up what words and heads name; what could not be read of pattern.yaml is no reason to say a name is unknown.
    """

    def __init__(self, book: Book) -> None:
        self._book = book

    def look(self, what: str, name: str, place: Place, word: StepWord | None = None) -> None:
        """Note a name that leads nowhere. Arguments: what it names, and where it stands; the word that has it."""
        it, checked = self._book.document, self._book.checked
        if what == "notion":
            known = [one.name for one in it.notions]
            self._one_of("unknown-notion", name, known, what, place, checked.whole("notions"))
            notion = next((one for one in it.notions if one.name == name), None)
            if notion is not None and word is not None and (lacks := LACKS[word.kind](notion)):
                _note(self._book, "unknown-word", place, f"the word {quoted(str(word))}",
                      f"a notion that has {lacks}", "say it at the notion, or write it out here")  # fmt: skip
        elif what == "measurement":
            known = [one.name for one in it.measurements]
            self._one_of("unknown-measurement", name, known, what, place, checked.whole("measurements"))
        elif what == "seam":
            self._one_of("unknown-seam", name, [one.name for one in it.seams], what, place, checked.whole("seams"))
            plain = [one.gather_ratio is None for one in it.seams if one.name == name]
            if plain and all(plain) and word is not None and word.kind in MARKED:
                _note(self._book, "unknown-word", place, f"the word {quoted(str(word))}",
                      "a seam that has a `gather_ratio`", "say it at the seam, or write it out here")  # fmt: skip
        elif what == "choice":
            self._one_of("unknown-choice", name, list(it.choices), what, place, checked.names_whole("choices"))
        elif what == "piece":
            self._piece(name, place)
        elif what == "edge":
            self._edge(name, place)
        elif what == "thing" and checked.whole("pieces") and word is not None and self._book.players(word.of[0]):
            parts = [part for player in self._book.players(word.of[0]) for _, part in self._book.sources(player)]
            carried = {one.what for part in parts for copy in part.copies.values() for one in copy.carries}
            self._one_of("unknown-copy", name, sorted(carried), "thing that a copy carries", place, True,
                         f" of {quoted(word.of[0])}")  # fmt: skip

    def _piece(self, name: str, place: Place) -> bool:
        book = self._book
        if name.startswith(AS):
            role = name.removeprefix(AS)
            return self._one_of("unknown-role", role, list(book.document.roles), "role", place,
                                book.checked.names_whole("roles"))  # fmt: skip
        return self._one_of("unknown-piece", name, list(book.pieces), "piece", place,
                            book.checked.names_whole("pieces"))  # fmt: skip

    def _edge(self, dotted: str, place: Place) -> None:
        piece, _, edge = dotted.partition(".")
        if not self._piece(piece, place):
            return
        for player in self._book.players(piece):
            if self._book.edges_are_known(player):
                self._one_of("unknown-edge", edge, self._book.edge_names(player), "edge", place, True,
                             f" of {quoted(player)}")  # fmt: skip

    def _one_of(
        self, code: str, name: str, known: Iterable[str], what: str, place: Place, is_read: bool, of: str = ""
    ) -> bool:
        known = list(dict.fromkeys(known))
        if name in known:
            return True
        if is_read:
            _note(self._book, code, place, f"the {what} {quoted(name)}{of}",
                  f"one of {listed(known)}" if known else f"no {what}, for there are none",
                  meant(name, known, "correct the name" if known else "delete it"))  # fmt: skip
        return False


LACKS: Final[Mapping[str, Callable[[NotionDoc], str]]] = {
    "cut": lambda notion: "" if notion.rule or notion.tabled_mm else "a length",
    "closed": lambda notion: "" if notion.rule or notion.tabled_mm else "a length",
    "overlap": lambda notion: "" if notion.rule is not None and notion.rule.take == "ring" else "a rule for a ring",
    "quarters": lambda notion: "" if notion.rule or notion.tabled_mm else "a length",
    "tail": lambda notion: "" if notion.rule is not None and notion.rule.tail_mm else "a `tail_mm`",
    "width": lambda notion: "" if notion.width_mm or notion.diameter_mm else "a `width_mm` or a `diameter_mm`",
    "count": lambda notion: "" if notion.count or notion.tabled_count or notion.placed else "a `count`",
    "places": lambda notion: "" if notion.placed else "its `placed`",
    "hole": lambda notion: "" if notion.diameter_mm and notion.thickness_mm else "a `diameter_mm` and a `thickness_mm`",
}
"""What a notion has to have for a word, if it has not; the empty text if it has."""
