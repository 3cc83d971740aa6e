"""Reads steps.md: an introduction and steps, each with the line that says when it applies."""

from __future__ import annotations

import re
from dataclasses import dataclass

from pydantic import BaseModel, ConfigDict, ValidationError

from boltside.read.collect import START, Place, Problems, quoted
from boltside.read.document import AnyOf
from boltside.read.yaml_tree import Tree, read_tree

FENCE = re.compile(r" {0,3}(```+|~~~+)")
HEADING = re.compile(r"(#{1,2})(?:\s(.*))?")

STEPS_MAX = 400
STEP_LETTERS_MAX = 10_000
BRACKETS_MAX = 300
"""More steps, longer ones, or more `[` in one are no sewing guide, and turning them into HTML takes ever longer. Our
choice."""


class _StepWhen(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)
    when: AnyOf


@dataclass(frozen=True)
class StepText:
    """One step as written; the tree holds `when` with its places, if the step says when."""

    title: str
    text: str
    place: Place
    when: AnyOf | None = None
    tree: Tree | None = None


def read_steps(text: str, name: str, problems: Problems) -> tuple[str, tuple[StepText, ...]]:
    """Introduction and steps; problems are noted under the file's `name`."""
    introduction: list[str] = []
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
            introduction.append(line)
    if not parts:
        problems.add(
            "bad-step",
            name,
            START,
            seen="no line that begins with `##`",
            expected="at least one step",
            mend="begin each step with `## ` and its title",
        )
    if not _is_short(introduction, parts, name, problems):
        return "", ()
    return "\n".join(introduction).strip(), tuple(
        _step(title, line, body, name, problems) for title, line, body in parts
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


def _step(title: str, line: int, body: list[str], name: str, problems: Problems) -> StepText:
    if not title:
        problems.add(
            "bad-step",
            name,
            (line, 1),
            seen="a step without a title",
            expected="`## ` and a title",
            mend="write what the step does behind `##`",
        )
    if not body or not re.match(r"when\s*:", body[0]):
        return StepText(title, "\n".join(body).strip(), (line, 1))
    rest = "\n".join(body[1:]).strip()
    tree = read_tree(body[0], name, problems, first=(line + 1, 1))
    if tree is None:
        return StepText(title, rest, (line, 1))
    try:
        when = _StepWhen.model_validate(tree.data).when
    except ValidationError:
        problems.add(
            "wrong-value",
            name,
            tree.value_place(("when",)),
            seen=quoted(body[0]),
            expected="choices and their alternatives, like `when: {sleeves: long}`",
            mend="write names between braces; put numbers in quotes",
        )
        return StepText(title, rest, (line, 1))
    return StepText(title, rest, (line, 1), when, tree)
