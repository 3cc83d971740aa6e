"""The steps of a pattern as a reader finds them, for tests that compare their figures with the outlines.

Words in braces that are the same in every size stand there as the engine says them, in millimetres; those that depend
on size and choices stay in braces.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from boltside.pattern import WORD_MARKS
from boltside.read.folder import read_pattern
from boltside.spec.guide_words import GuideWords

DATA = Path(__file__).parents[1] / "data"


@cache
def steps_text(name: str) -> str:
    """Introduction, titles and texts in one line; of two spaces one."""
    pattern = read_pattern(DATA / "patterns" / name, DATA / "body_charts")
    words = GuideWords(pattern)
    whole = [pattern.introduction, *(f"## {step.title} {step.text}" for step in pattern.steps)]
    text = " ".join(" ".join(whole).split())
    for at, word in enumerate(pattern.words):
        said = words.plain(chr(WORD_MARKS + at))
        text = text.replace(chr(WORD_MARKS + at), str(word) if said.startswith("{") else said)
    return text
