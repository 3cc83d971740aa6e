"""How do the words in braces of a guide stand in the spec sheet?

What is the same in every size and combination is written into the text at once; the rest stands there as `{number}`,
the place of the word in the sheet's list `words`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from boltside.calculators.closures import buttonhole_mm
from boltside.calculators.fragments import Said, say
from boltside.calculators.guide import said_as
from boltside.measure.word_cases import BOUGHT, word_cases
from boltside.pattern import MARKED, WORD_MARKS, Notion, Pattern, RingRule, StepWord
from boltside.spec.json_form import Json, condition_json, tidy

MARK = re.compile(f"[{chr(WORD_MARKS)}-\uf8ff]")
SHOWS = {
    "cut": "cm",
    "closed": "cm",
    "length": "cm",
    "measure": "cm",
    "allowance": "mm",
    "overlap": "mm",
    "tail": "mm",
    "width": "mm",
    "hole": "mm",
    "ease": "mm",
    "mm": "mm",
    "ratio": "times",
    "count": "count",
}
"""How a kind is shown; all others are words."""
DIGITS = {"ratio": 2, "ease": 0}
"""So many digits are kept of a value; of others a tenth."""


class GuideWords:
    """The words of one pattern's guide: `listed` for the sheet, and their texts."""

    def __init__(self, pattern: Pattern) -> None:
        """Argument: the pattern. Raises: :class:`boltside.measure.model.MeasureError`."""
        self.listed: list[Json] = []
        self._said: list[Said] = []
        for word in pattern.words:
            self._said.append(self._settled(pattern, word))

    def html(self, text: str) -> str:
        """HTML with the words' signs, as HTML with words and numbers in braces."""
        return MARK.sub(self._filled(lambda said: said.html), text)

    def plain(self, text: str) -> str:
        """A plain text (a title) with the words' signs: as plain text in metric units, with numbers in braces."""
        return MARK.sub(self._filled(lambda said: said.text), text)

    def _filled(self, form: Callable[[Said], str]) -> Callable[[re.Match[str]], str]:
        return lambda found: form(self._said[ord(found[0]) - WORD_MARKS])

    def _settled(self, pattern: Pattern, word: StepWord) -> Said:
        """The word's text if it is always the same, else its number in braces."""
        show = SHOWS.get(word.kind, "Text" if word.capital else "text")
        if word.kind == "mm":
            return said_as(show, tidy(float(word.of[0])))
        if word.kind in BOUGHT:
            notion = next(one for one in pattern.notions if one.name == word.of[0])
            if word.kind in ("cut", "closed", "count", "places", "quarters"):
                return self._listed({"show": show, "take": word.kind, "notion": notion.name})
            mm = _of_notion(notion, word.kind)
            return say("") if mm is None else said_as(show, tidy(mm))
        if word.kind in MARKED:
            side = "join_mm" if word.kind == "marks" else "to_mm"
            return self._listed({"show": show, "take": side, "gather": word.of[0]})
        cases: list[dict[str, Any]] = []
        for when, by_size in word_cases(pattern, word):
            values = {
                size: value if isinstance(value, str) else tidy(value, DIGITS.get(word.kind, 1))
                for size, value in by_size.items()
            }
            same = len(set(values.values())) == 1
            cases.append(
                {"when": condition_json(when), "all": next(iter(values.values()))} if same
                 else {"when": condition_json(when), "of": values}
            )  # fmt: skip
        first = cases[0] if cases else {}
        if "all" in first and all(case.get("all") == first["all"] for case in cases):
            return said_as(show, first["all"])
        return self._listed({"show": show, "cases": cases})

    def _listed(self, word: Json) -> Said:
        self.listed.append(word)
        return say(f"{{{len(self.listed) - 1}}}")


def _of_notion(notion: Notion, kind: str) -> float | None:
    """What is the same for a notion in every size, in mm: its overlap, tail or width, or the hole that it needs."""
    if kind == "width":
        return notion.width_mm if notion.width_mm is not None else notion.diameter_mm
    if kind in ("overlap", "tail"):
        rule = notion.rule if isinstance(notion.rule, RingRule) else None
        return None if rule is None else rule.overlap_mm if kind == "overlap" else rule.tail_mm
    if notion.diameter_mm is None or notion.thickness_mm is None:
        return None
    return buttonhole_mm(notion.diameter_mm, notion.thickness_mm)
