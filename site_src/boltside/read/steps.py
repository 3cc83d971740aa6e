"""Reads steps.md: an introduction and steps, each with the lines under its heading that say when it applies and more.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, Final

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from boltside.read.collect import START, Place, Problems, quoted
from boltside.read.document import AnyOf, FileName, Minutes, Names, NameSets, PieceSets
from boltside.read.step_words import WordList
from boltside.read.yaml_tree import Path, Tree, read_tree

FENCE = re.compile(r" {0,3}(```+|~~~+)")
HEADING = re.compile(r"(#{1,2})(?:\s(.*))?")

STEPS_MAX = 400
STEP_LETTERS_MAX = 10_000
BRACKETS_MAX = 300
"""More steps, longer ones, or more `[` in one are no sewing guide, and turning them into HTML takes ever longer. Our
choice."""

UP_LETTERS_MAX: Final = 80
"""The face that is up is said in a few words. Our choice."""

FILM_S_MAX: Final = 36_000
"""Ten hours. Our choice, against minutes and seconds written as one number."""

HEAD: Final = re.compile(r"(when|up|sews|uses|drawing|film|technique|minutes)\s*:")
EXPECTED: Final[Mapping[str, str]] = {
    "when": "choices and their alternatives, like `when: {sleeves: long}`",
    "up": f"the face that is up, in at most {UP_LETTERS_MAX} letters, like `up: right side`",
    "sews": "pieces, like `sews: [front, back]`, or `sews: [front, [sleeve, cuff]]` for whichever is there",
    "uses": "notions, like `uses: waist-elastic`",
    "drawing": "a file of the pattern's folder, like `drawing: drawings/collar.svg`",
    "film": "`{file: films/collar.mp4, from: 95, to: 140}`, or `address` instead of `file`; from and to in seconds",
    "technique": "names of techniques, like `technique: gathering`",
    "minutes": "whole minutes, like `minutes: 15`",
}
"""The lines that may stand under a step's heading, and what each holds."""


class FilmDoc(BaseModel):
    """Where a step is shown."""

    model_config = ConfigDict(extra="forbid", strict=True)
    file: FileName | None = None
    address: FileName | None = None
    from_s: int = Field(default=0, ge=0, le=FILM_S_MAX, alias="from")
    to_s: int | None = Field(default=None, ge=1, le=FILM_S_MAX, alias="to")


class StepHead(BaseModel):
    """What stands under a step's heading."""

    model_config = ConfigDict(extra="forbid", strict=True)
    when: AnyOf | None = None
    up: Annotated[str, Field(min_length=1, max_length=UP_LETTERS_MAX)] = ""
    sews: PieceSets = []
    uses: NameSets = []
    drawing: FileName | None = None
    film: FilmDoc | None = None
    technique: Names = []
    minutes: Minutes | None = None


@dataclass(frozen=True)
class StepText:
    """One step as written, with a sign for each word in braces; the tree holds the head's lines with their places."""

    title: str
    text: str
    place: Place
    head: StepHead = field(default_factory=StepHead)
    tree: Tree | None = None

    @property
    def when(self) -> AnyOf | None:
        """When it applies; None: always."""
        return self.head.when

    def place_of(self, path: Path) -> Place:
        """Where a line of the head, or a part of it, stands."""
        return self.tree.value_place(path) if self.tree is not None else self.place


@dataclass
class StepsText:
    """A whole guide as written: introduction, steps, and the words in braces."""

    introduction: str = ""
    steps: tuple[StepText, ...] = ()
    words: WordList = field(default_factory=WordList)


def read_steps(text: str, name: str, problems: Problems) -> StepsText:
    """Introduction, steps and words; problems are noted under the file's `name`."""
    introduction: list[tuple[int, str]] = []
    parts: list[tuple[str, int, list[str]]] = []
    fence: str | None = None
    for at, line in enumerate(text.split("\n"), start=1):
        mark = FENCE.match(line)
        if mark and fence is None:
            fence = mark[1]
        elif mark and fence is not None and mark[1].startswith(fence):
            fence = None
        heading = HEADING.fullmatch(line) if fence is None and not mark else None
        if heading and heading[1] == "##":
            # The hashes that may close a heading are no part of its title.
            parts.append(((heading[2] or "").strip().rstrip("#").strip(), at, []))
        elif parts:
            parts[-1][2].append(line)
        elif not heading:
            introduction.append((at, line))
    if not parts:
        problems.add(
            "bad-step",
            name,
            START,
            seen="no line that begins with `##`",
            expected="at least one step",
            mend="begin each step with `## ` and its title",
        )
    if not parts or not _is_short([line for _, line in introduction], parts, name, problems):
        return StepsText()
    words = WordList()
    return StepsText(
        "\n".join(words.take(line, (at, 1), name, problems) for at, line in introduction).strip(),
        tuple(_step(title, line, body, words, name, problems) for title, line, body in parts),
        words,
    )


def _is_short(introduction: list[str], parts: list[tuple[str, int, list[str]]], name: str, problems: Problems) -> bool:
    """Note what is too much for a sewing guide; True when nothing is."""
    before = problems.errors
    if len(parts) > STEPS_MAX:
        problems.add(
            "too-large",
            name,
            (parts[STEPS_MAX][1], 1),
            seen=f"{len(parts)} steps",
            expected=f"at most {STEPS_MAX}",
            mend="put steps together",
        )
    for line, text in [(1, introduction), *((line, [title, *body]) for title, line, body in parts)]:
        letters, brackets = sum(len(one) + 1 for one in text), sum(one.count("[") for one in text)
        if letters > STEP_LETTERS_MAX or brackets > BRACKETS_MAX:
            problems.add(
                "too-large",
                name,
                (line, 1),
                seen=f"a text of {letters} letters with {brackets} `[`",
                expected=f"at most {STEP_LETTERS_MAX} letters and {BRACKETS_MAX} `[` in a step or the introduction",
                mend="part it in two, or delete what does not belong there",
            )
    return problems.errors == before


def _step(title: str, line: int, body: list[str], words: WordList, name: str, problems: Problems) -> StepText:
    if not title:
        problems.add(
            "bad-step",
            name,
            (line, 1),
            seen="a step without a title",
            expected="`## ` and a title",
            mend="write what the step does behind `##`",
        )
    count = 0
    while count < len(body) and HEAD.match(body[count]):
        count += 1
    text = "\n".join(words.take(one, (line + 1 + count + at, 1), name, problems) for at, one in enumerate(body[count:]))
    title = words.take(title, (line, 4), name, problems)
    tree = read_tree("\n".join(body[:count]), name, problems, first=(line + 1, 1)) if count else None
    head = _head(tree, body[:count], line + 1, name, problems) if tree is not None else StepHead()
    if head.up and tree is not None:
        head.up = words.take(head.up, tree.value_place(("up",)), name, problems)
    return StepText(title, text.strip(), (line, 1), head, tree)


def _head(tree: Tree, lines: list[str], first: int, name: str, problems: Problems) -> StepHead:
    """What the lines under a heading say; what does not fit is noted, each line once."""
    try:
        return StepHead.model_validate(tree.data)
    except ValidationError as error:
        noted: set[str] = set()
        for detail in error.errors(include_url=False):
            key = str(detail["loc"][0]) if detail["loc"] else ""
            if key in noted or key not in EXPECTED:
                continue
            noted.add(key)
            place = tree.value_place((key,))
            problems.add(
                "wrong-value",
                name,
                place,
                seen=quoted(lines[place[0] - first]),
                expected=EXPECTED[key],
                mend="write names between braces; put numbers in quotes" if key == "when" else "write it like this",
            )
        return StepHead()
