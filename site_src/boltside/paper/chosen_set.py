"""Which size and set of choices does a command mean? Words of the command line, checked against the pattern."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from boltside.calculators.choices import broken, completed
from boltside.calculators.conditions import SIZE
from boltside.errors import BoltsideError
from boltside.pages.words import condition_in_words, listed, rule_in_words

Sheet = Mapping[str, Any]


class NoSuchSet(BoltsideError):
    """A size or a set of choices was named that the pattern does not have; the text says which there are."""


def chosen_set(sheet: Sheet, size: str, choices: str) -> dict[str, str]:
    """What was chosen, with defaults filled in, the size among them.

    Arguments: the sheet; a size; `sleeves=long,collar=flat`, perhaps empty.
    Raises: NoSuchSet where the pattern has no such size, choice or alternative, or forbids the set.
    """
    if size not in sheet["sizes"]:
        raise NoSuchSet(f"{sheet['name']} has no size {size!r}; it has {listed(sheet['sizes'])}")
    asked = _read(sheet, choices)
    found = completed(sheet["choices"], {**asked, SIZE: size})
    for name in asked:
        if name not in found:
            choice = next(choice for choice in sheet["choices"] if choice["name"] == name)
            asks = condition_in_words(sheet, choice["asked_when"])
            raise NoSuchSet(f"{name} is not asked here; it is with: {asks}")
    rules = broken(sheet["rules"], found)
    if rules:
        told = "; ".join(f"{rule_in_words(sheet, rule)} ({rule['because']})" for rule in rules)
        raise NoSuchSet(f"these options do not go together: {told}")
    return found


def _read(sheet: Sheet, choices: str) -> dict[str, str]:
    """Choice and alternative of each pair. Raises: NoSuchSet."""
    found: dict[str, str] = {}
    by_name = {choice["name"]: choice for choice in sheet["choices"]}
    for pair in filter(None, (part.strip() for part in choices.split(","))):
        name, equals, word = (part.strip() for part in pair.partition("="))
        if not equals:
            raise NoSuchSet(f"{pair!r} is no choice; choices are written like {_example(sheet)}")
        if name not in by_name:
            raise NoSuchSet(f"{sheet['name']} has no choice {name!r}; {_there_are(name, list(by_name))}")
        words = [one["name"] for one in by_name[name]["alternatives"]]
        if word not in words:
            raise NoSuchSet(f"{name} has no {word!r}; {_there_are(word, words)}")
        if name in found:
            raise NoSuchSet(f"{name} is there twice")
        found[name] = word
    return found


def _example(sheet: Sheet) -> str:
    pairs = [f"{choice['name']}={choice['default']}" for choice in sheet["choices"][:2]]
    return ",".join(pairs) or "sleeves=long,collar=flat"


def _there_are(name: str, known: Sequence[str]) -> str:
    if not known:
        return "it has none at all"
    near = get_close_matches(name, known, n=1)
    return f"there are {', '.join(known)}" + (f"; did you mean {near[0]!r}?" if near else "")
