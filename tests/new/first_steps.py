"""Does what a new shop's README says, as a designer would: find these lines, write those instead."""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

STEP = re.compile(
    r"[Ii]n\s+`(?P<file>[^`]+)`\s+find\n\n```\n(?P<find>.*?)\n```\n\nand write instead\n\n```\n(?P<write>.*?)\n```",
    re.DOTALL,
)


class Step(NamedTuple):
    """One change: in this file, these words for those."""

    file: str
    find: str
    write: str


def steps(shop: Path) -> list[Step]:
    """The changes that the README asks for, in order."""
    text = (shop / "README.md").read_text(encoding="utf-8")
    return [Step(found["file"], found["find"], found["write"]) for found in STEP.finditer(text)]


def make(shop: Path, step: Step) -> None:
    """Make one change; the words have to be there exactly once, else nobody could find them."""
    path = shop / step.file
    text = path.read_text(encoding="utf-8")
    assert text.count(step.find) == 1, f"{step.find!r} stands {text.count(step.find)} times in {step.file}"
    path.write_text(text.replace(step.find, step.write), encoding="utf-8")


def follow(shop: Path) -> None:
    """Make all changes of the README."""
    for step in steps(shop):
        make(shop, step)
