"""Do all conditions ask about choices, alternatives and sizes that exist, and only about those they may ask about?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from pydantic import BaseModel

from boltside.calculators.conditions import SIZE
from boltside.read.book import Book
from boltside.read.collect import Place, listed, meant, quoted
from boltside.read.document import AnyOf
from boltside.read.schema import CONDITIONS
from boltside.read.yaml_tree import Path, Tree

MAY_ASK_ABOUT_STEPS: Final = ("rules",)
"""Parts of the document whose conditions may ask about a choice that only changes steps."""


def check_conditions(book: Book) -> bool:
    """Note conditions that lead nowhere. True when none was found, in the choices and elsewhere."""
    before = book.problems.errors
    choices_known = book.checked.whole("choices")
    if SIZE in book.document.choices:
        book.note(
            "wrong-value",
            ("choices", SIZE),
            seen=f"a choice called {quoted(SIZE)}",
            expected="another name",
            mend="rename it; this word stands for the size in conditions",
            key=True,
        )
    for name, choice in book.document.choices.items():
        if choice.default not in choice.alternatives and book.checked.whole("choices", name):
            book.note_unknown(
                "unknown-alternative",
                ("choices", name, "default"),
                choice.default,
                choice.alternatives,
                "alternative",
                name,
            )
    for path, any_of in conditions_of(book.document, ()):
        _check(book, any_of, book.checked.tree, path, book.yaml_name, steps_may=_may_ask_about_steps(book, path))
    for step in book.steps:
        if step.when is not None and step.tree is not None:
            _check(book, step.when, step.tree, ("when",), book.steps_name, steps_may=True)
    _check_circles(book)
    return choices_known and book.checked.whole("rules") and book.problems.errors == before


def conditions_of(part: object, path: Path) -> Iterator[tuple[Path, AnyOf]]:
    """Every condition in this part of the document, with its path."""
    if isinstance(part, BaseModel):
        for name, field in type(part).model_fields.items():
            value = getattr(part, name)
            if name in CONDITIONS and isinstance(value, list):
                yield (*path, name), value
            else:
                yield from conditions_of(value, (*path, field.alias or name))
    elif isinstance(part, dict):
        for key, value in part.items():
            yield from conditions_of(value, (*path, key))
    elif isinstance(part, list):
        for at, value in enumerate(part):
            yield from conditions_of(value, (*path, at))


def _may_ask_about_steps(book: Book, path: Path) -> bool:
    if path[0] == "choices":
        return book.document.choices[str(path[1])].steps_only
    return path[0] in MAY_ASK_ABOUT_STEPS


def _check(book: Book, any_of: AnyOf, tree: Tree, path: Path, file: str, *, steps_may: bool) -> None:
    choices = book.document.choices

    def note(code: str, place: Place, seen: str, expected: str, mend: str) -> None:
        book.problems.add(code, file, place, seen=seen, expected=expected, mend=mend)

    for at, mapping in enumerate(any_of):
        for name, words in mapping.items():
            here = (*path, at, name)
            if name == SIZE:
                known, code, what, of = list(book.document.sizes), "unknown-size", "size", ""
                if not book.checked.whole("sizes"):
                    continue
            elif name in choices:
                known, code, what = list(choices[name].alternatives), "unknown-alternative", "alternative"
                of = f" of {quoted(name)}"
                if choices[name].steps_only and not steps_may:
                    note(
                        "steps-only-used",
                        tree.key_place(here),
                        f"a condition on {quoted(name)}, which only changes steps",
                        "a choice that may change more",
                        f"delete `steps_only` of {quoted(name)}, or this condition",
                    )
                if not book.checked.whole("choices", name, "alternatives"):
                    continue
            else:
                if book.checked.names_whole("choices"):
                    note(
                        "unknown-choice",
                        tree.key_place(here),
                        f"the choice {quoted(name)}",
                        f"one of {listed([*choices, SIZE])}",
                        meant(name, [*choices, SIZE], "correct the name"),
                    )
                continue
            for place, word in enumerate(words):
                if word not in known:
                    note(
                        code,
                        tree.value_place((*here, place)),
                        f"the {what} {quoted(word)}{of}",
                        f"one of {listed(known)}",
                        meant(word, known, "correct the word"),
                    )


def _check_circles(book: Book) -> None:
    asks = {
        name: {other for mapping in choice.asked_when or () for other in mapping if other in book.document.choices}
        for name, choice in book.document.choices.items()
    }
    for name in asks:
        reached: set[str] = set()
        ahead = set(asks[name])
        while ahead:
            other = ahead.pop()
            if other not in reached:
                reached.add(other)
                ahead |= asks[other]
        if name in reached:
            book.note(
                "circular-question",
                ("choices", name, "asked_when"),
                seen=f"{quoted(name)} asked only after its own answer is known",
                expected="questions one after the other",
                mend="take one of the conditions in this circle away",
                key=True,
            )
