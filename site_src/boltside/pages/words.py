"""How is a condition, a span of time or a list said in words a buyer reads?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

Sheet = Mapping[str, Any]
Condition = Sequence[Mapping[str, Sequence[str]]]

SIZE = "size"


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
    'Sleeve end: gathered into a band; sizes 68 or 74'
    """
    return ", or ".join(
        "; ".join(asked_in_words(sheet, name, list(words)) for name, words in mapping.items()) for mapping in condition
    )


def asked_in_words(sheet: Sheet, name: str, words: Sequence[str]) -> str:
    """One choice, or the size, with the words that count."""
    if name == SIZE:
        return f"size{'s' if len(words) > 1 else ''} {listed(words, 'or')}"
    choice = next(choice for choice in sheet["choices"] if choice["name"] == name)
    titles = {alternative["name"]: alternative["title"] for alternative in choice["alternatives"]}
    return f"{choice['title']}: {listed([lower_first(titles[word]) for word in words], 'or')}"


def choices_in_words(sheet: Sheet, chosen: Mapping[str, str]) -> str:
    """What was chosen, leaving out the size and what only changes steps."""
    names = [choice["name"] for choice in sheet["choices"] if choice["name"] in chosen and not choice["steps_only"]]
    return "; ".join(asked_in_words(sheet, name, [chosen[name]]) for name in names)


def rule_in_words(sheet: Sheet, rule: Mapping[str, Any]) -> str:
    """What a rule forbids, as the head of its reason.

    >>> sheet = {"choices": [{"name": "length", "title": "Length", "alternatives": [
    ...     {"name": "hip", "title": "To the hip"}]}]}
    >>> rule_in_words(sheet, {"when": [{"length": ["hip"]}], "needs": None, "excludes": [{"size": ["62"]}]})
    'Length: to the hip, not with size 62'
    """
    about = condition_in_words(sheet, rule["when"])
    if rule.get("needs") is not None:
        return f"{about}, only with {condition_in_words(sheet, rule['needs'])}"
    if rule.get("excludes") is not None:
        return f"{about}, not with {condition_in_words(sheet, rule['excludes'])}"
    return f"{about}, only in {asked_in_words(sheet, SIZE, rule['only_sizes'])}"


def upper_first(words: str) -> str:
    """The words as the beginning of a sentence.

    >>> upper_first("back length: drafted by us")
    'Back length: drafted by us'
    """
    return words[:1].upper() + words[1:]


def lower_first(words: str) -> str:
    """The words for the middle of a sentence; names in capitals stay.

    >>> lower_first("To the hip"), lower_first("A4")
    ('to the hip', 'A4')
    """
    return words if len(words) > 1 and not words[1].islower() and words[1] != " " else words[:1].lower() + words[1:]


def size_span(sizes: Sequence[str]) -> str:
    """Which sizes there are.

    >>> size_span(["68", "74", "80"]), size_span(["92"])
    ('sizes 68–80', 'size 92')
    """
    return f"sizes {sizes[0]}–{sizes[-1]}" if len(sizes) > 1 else f"size {sizes[0]}"
