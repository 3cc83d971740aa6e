"""What do the words in braces of the guide say for this size and these choices?

>>> case = {"when": [{"opening": ["front"]}], "all": "front"}
>>> value_in({"show": "text", "cases": [case]}, {"opening": "front"}, "92")
'front'
>>> said_as("mm", 10).text, said_as("times", 1.52).text, said_as("Text", "front").text
('10 mm', '1.5 times', 'Front')
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .conditions import holds
from .elastic import cut_length
from .fragments import NOTHING, Fragment, Said, counted, joined, say
from .garments import garments
from .gathers import marks_in, marks_mm, row
from .notions import count_in
from .places import case_of, in_a_row, placed_count, places_conditions
from .request import Request
from .units import measured, millimetres

WORD = "guide."
"""Before a word's number: the ids of the fragments."""

WordJson = Mapping[str, Any]


def said_as(show: str, value: Any) -> Said:
    """A value as the guide shows it: `cm` and `mm` are lengths in mm, `times` a ratio, `count` a number of things."""
    if show == "cm":
        return say(measured(value))
    if show == "mm":
        return say(millimetres(value))
    if show == "times":
        return say(f"{round(value, 1):g} times")
    if show == "count":
        return counted(value)
    return say(value[:1].upper() + value[1:] if show == "Text" else value)


def value_in(word: WordJson, chosen: Mapping[str, str], size: str) -> Any:
    """What a word stands for without asking about notions; None where it stands for nothing."""
    for case in word["cases"]:
        if holds(case["when"], chosen):
            return case["all"] if "all" in case else case["of"].get(size)
    return None


def one_word(request: Request, at: int) -> Fragment:
    """Fragment `guide.<number>`: a word of the guide. Where these choices have nothing for it, it says nothing.

    Arguments: a request whose size is known; the word's place in the sheet.
    """
    word = request.sheet["words"][at]
    notion = next((one for one in request.sheet["notions"] if one["name"] == word.get("notion")), None)
    gathers = [one for one in request.sheet["gathers"] if one["name"] == word.get("gather")]
    if gathers:
        depends_on = request.depends(*(case["when"] for gather in gathers for case in gather["cases"]))
    elif notion is not None:
        conditions = [notion["when"], *(case["when"] for case in notion["edge_cases"]), *places_conditions(notion)]
        depends_on = request.depends(*conditions)
    else:
        cases = word["cases"]
        depends_on = request.depends(*(case["when"] for case in cases), size=any("of" in case for case in cases))
    each = [(one.size or "", said_in(one, word, notion)) for one in garments(request)]
    each = [(size, said) for size, said in each if said.html]
    said = each[0][1] if each else NOTHING
    if any(other != said for _, other in each):
        said = joined([say(one, f" (size {size})") for size, one in each], ", ")
    return Fragment(name=f"{WORD}{at}", kind="sentence", said=said, depends_on=depends_on)


def said_in(one: Request, word: WordJson, notion: Mapping[str, Any] | None) -> Said:
    """The word for one garment."""
    size = one.size or ""
    if "gather" in word:
        gathers = [gather for gather in one.sheet["gathers"] if gather["name"] == word["gather"]]
        return marks_in(gathers, word["take"], one.chosen, size)
    if notion is None:
        value = value_in(word, one.chosen, size)
    elif not holds(notion["when"], one.chosen):
        value = None
    elif word["take"] == "count":
        value = count_in(notion, size) or placed_count(notion, one.chosen, size)
    elif word["take"] == "places":
        case = case_of(notion, one.chosen, size)
        return NOTHING if case is None else say(in_a_row(case["sizes"][size]["mm"]), f" {notion['placed']['from']}")
    else:
        cut = cut_length(notion, one.sheet["body"]["rows"][size], size, one.chosen)
        if cut and word["take"] == "quarters":
            # From one end: a lap's middle, or the end of a tail, is where the ring begins.
            begin = cut.tail_mm or cut.overlap_mm / 2
            return row([begin + at for at in marks_mm(cut.closed_mm, 0)])
        value = cut and (cut.total_mm if word["take"] == "cut" else cut.closed_mm)
    return NOTHING if value is None else said_as(word["show"], value)
