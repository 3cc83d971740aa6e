"""Does every alternative change something? Two that no condition tells apart are one garment under two names."""

from __future__ import annotations

from boltside.read.book import Book
from boltside.read.check_conditions import conditions_of
from boltside.read.collect import quoted
from boltside.read.document import AnyOf


def check_alternatives(book: Book) -> None:
    """Advise on each alternative that no condition of pattern.yaml and steps.md tells from one before it.

    What only changes steps is left out, and so is a pattern some of whose parts could not be read. Difficulty and
    minutes do not count: if nothing is sewn differently, nothing takes longer.
    """
    if book.checked.broken:
        return
    conditions: list[AnyOf] = [any_of for _, any_of in conditions_of(book.document, ())]
    conditions += [step.when for step in book.steps if step.when is not None]
    for name, choice in book.document.choices.items():
        if choice.steps_only:
            continue
        asked = [set(mapping[name]) for any_of in conditions for mapping in any_of if name in mapping]
        known: dict[tuple[bool, ...], str] = {}
        for word in choice.alternatives:
            seen = tuple(word in words for words in asked)
            same = known.setdefault(seen, word)
            if same == word:
                continue
            book.note(
                "changes-nothing",
                ("choices", name, "alternatives", word),
                seen=f"{quoted(word)} of {quoted(name)}, which does the same as {quoted(same)}",
                expected="an alternative that changes a piece, seam, length, notion, step or rule",
                mend="add `when:` to what it changes, or delete it",
                key=True,
                severity="advice",
            )
