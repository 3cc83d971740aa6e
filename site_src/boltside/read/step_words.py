"""The words in braces of steps.md: found, numbered, and replaced by a sign each.

`{cut waist-elastic}` is a kind and names; a capital (`{Name as:opened}`) begins a sentence. `\\{` is a brace that is no
word. Whether the names lead somewhere is looked at in `check_steps`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from boltside.pattern import WORD_MARKS, WORDS_MAX, StepWord
from boltside.read.collect import Place, Problems, meant, quoted

KINDS: Final[Mapping[str, tuple[str, ...]]] = {
    "cut": ("notion",),
    "closed": ("notion",),
    "overlap": ("notion",),
    "width": ("notion",),
    "count": ("notion",),
    "places": ("notion",),
    "hole": ("notion",),
    "quarters": ("notion",),
    "tail": ("notion",),
    "length": ("edge",),
    "allowance": ("edge",),
    "measure": ("measurement",),
    "ratio": ("seam",),
    "ease": ("seam",),
    "marks": ("seam",),
    "meets": ("seam",),
    "name": ("piece",),
    "side": ("piece", "thing"),
    "other": ("piece", "thing"),
    "seen": ("piece", "thing"),
    "chosen": ("choice",),
    "mm": ("number",),
}
"""The kinds of words, and what each is about."""

FURTHER: Final[Mapping[str, tuple[str, ...]]] = {"seen": ("piece",)}
"""What some kinds may be about besides: the piece on which it is seen, where it is another one."""

BRACES: Final = re.compile(r"(?<!\\)\{([^{}]*)\}")
PRIVATE_USE: Final = re.compile("[\ue000-\uf8ff]")
MM: Final = re.compile(r"[0-9]{1,4}(?:\.[0-9])?")


@dataclass
class WordList:
    """The words of one guide, each once, with where they stand first."""

    places: dict[StepWord, Place] = field(default_factory=dict)
    numbers: dict[StepWord, int] = field(default_factory=dict)

    def take(self, line: str, place: Place, name: str, problems: Problems) -> str:
        """The line with a sign for each word. Arguments: where the line begins, the file's name."""
        line = PRIVATE_USE.sub("\N{REPLACEMENT CHARACTER}", line)

        def marked(found: re.Match[str]) -> str:
            word = self._word(found[1], (place[0], place[1] + found.start()), name, problems)
            return "" if word is None else chr(WORD_MARKS + self.numbers[word])

        return BRACES.sub(marked, line)

    def _word(self, said: str, place: Place, name: str, problems: Problems) -> StepWord | None:
        parts = said.split(" ")
        kind = parts[0][:1].lower() + parts[0][1:]
        about = KINDS.get(kind)
        further = FURTHER.get(kind, ())
        if about is None or not len(about) <= len(parts) - 1 <= len(about) + len(further) or "" in parts:
            problems.add(
                "unknown-word",
                name,
                place,
                seen=f"the word {quoted('{' + said + '}')}",
                expected=f"one like {quoted('{' + ' '.join([kind, *(one.upper() for one in about)]) + '}')}"
                if about
                else "a kind of word and what it is about, like `{cut waist-elastic}`",
                mend="write one space between its parts, and no other"
                if about
                else meant(kind, KINDS, "write `\\{` for a brace that is no word"),
            )
            return None
        if kind == "mm" and not MM.fullmatch(parts[1]):
            problems.add(
                "unknown-word",
                name,
                place,
                seen=f"the word {quoted('{' + said + '}')}",
                expected="a length in millimetres, like `{mm 15}`",
                mend="write a number without a unit, with at most one decimal",
            )
            return None
        word = StepWord(kind, tuple(parts[1:]), capital=parts[0] != kind)
        if word not in self.places and len(self.places) == WORDS_MAX:
            problems.add(
                "too-large",
                name,
                place,
                seen=f"more than {WORDS_MAX} different words in braces",
                expected=f"at most {WORDS_MAX}",
                mend="write what never changes without braces",
            )
            return None
        self.places.setdefault(word, place)
        self.numbers.setdefault(word, len(self.numbers))
        return word
