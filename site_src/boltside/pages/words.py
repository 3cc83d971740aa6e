"""How is a condition, a span of time or a list said in words a buyer reads?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

Sheet = Mapping[str, Any]
Condition = Sequence[Mapping[str, Sequence[str]]]

SIZE = "size"
DIFFICULTY_WORDS = {1: "easy", 2: "for a calm weekend", 3: "takes some practice", 4: "demanding", 5: "very demanding"}
"""Steps of difficulty as the pattern format counts them, 1 easy to 5 demanding; wording ours."""
MINUTES_PER_HOUR = 60
ROUNDED_TO_MIN = 15
"""Sewing times are rough: said in quarter hours, upwards."""


def listed(words: Sequence[str], last: str = "and") -> str:
    """The words as a list in a sentence.

    >>> listed(["outer", "lining", "interfacing"]), listed(["68", "74"], "or"), listed(["68"])
    ('outer, lining and interfacing', '68 or 74', '68')
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def condition_in_words(sheet: Sheet, condition: Condition) -> str:
    """When something applies, by the titles that the buyer sees; empty for *always*.

    >>> sheet = {"choices": [{"name": "end", "title": "Sleeve end", "alternatives": [
    ...     {"name": "band", "title": "Gathered into a band"}, {"name": "hem", "title": "Hemmed"}]}]}
    >>> condition_in_words(sheet, [{"end": ["band"], "size": ["68", "74"]}])
    'Sleeve end: gathered into a band, sizes 68 or 74'
    """
    choices = {choice["name"]: choice for choice in sheet["choices"]}
    ways = []
    for mapping in condition:
        parts = []
        for name, names in mapping.items():
            if name == SIZE:
                parts.append(f"size{'s' if len(names) > 1 else ''} {listed(list(names), 'or')}")
                continue
            choice = choices[name]
            titles = {alternative["name"]: alternative["title"] for alternative in choice["alternatives"]}
            chosen = listed([lower_first(titles[word]) for word in names], "or")
            parts.append(f"{choice['title']}: {chosen}")
        ways.append(", ".join(parts))
    return "; or ".join(ways)


def lower_first(words: str) -> str:
    """The words for the middle of a sentence; names in capitals stay.

    >>> lower_first("To the hip"), lower_first("A4")
    ('to the hip', 'A4')
    """
    return words if len(words) > 1 and not words[1].islower() and words[1] != " " else words[:1].lower() + words[1:]


def duration(minutes: int) -> str:
    """A sewing time.

    >>> duration(240), duration(310), duration(40)
    ('4 h', '5 h 15 min', '45 min')
    """
    rounded = -(-minutes // ROUNDED_TO_MIN) * ROUNDED_TO_MIN
    hours, rest = divmod(rounded, MINUTES_PER_HOUR)
    return " ".join([*([f"{hours} h"] if hours else []), *([f"{rest} min"] if rest or not hours else [])])


def size_span(sizes: Sequence[str]) -> str:
    """Which sizes there are.

    >>> size_span(["68", "74", "80"]), size_span(["92"])
    ('sizes 68–80', 'size 92')
    """
    return f"sizes {sizes[0]}–{sizes[-1]}" if len(sizes) > 1 else f"size {sizes[0]}"
