"""The one door for whoever asks: a calculator's name and JSON text in, JSON text out.

A sheet is opened once and kept; everything after that names the pattern. The answer is the same text, byte for byte,
on every Python.

>>> answer("size", '{"pattern": "nowhere"}').split('"code":')[1][:10]
'"not-open"'
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import Any

from .closures import closure_fragments
from .cloth import cloth_fragments
from .effects import effect_fragments
from .fragments import Fragment, quoted, say
from .lay_file import LayFile, is_lay_file, key_of
from .lays import lay_fragments
from .notions import notion_fragments
from .panel import panel_fragments, wrong_size
from .plans import plan_fragments
from .price import cost_fragments
from .problems import problem
from .remnant import remnant_fragments
from .remnant_index import is_remnant_index
from .request import Request, Sheet, read_request, word
from .shopping import is_shop, shopping_fragments
from .size import size_fragments
from .wider import wider_fragments

FORMAT = 3
"""The format of the spec sheet that these calculators read."""

_opened: dict[str, Sheet] = {}
_opened_lays: dict[str, dict[str, LayFile]] = {}
"""Lay files by pattern, then by key."""
_opened_remnants: list[Mapping[str, Any]] = []
"""The shop's index of remnants, once it is open."""
_opened_shop: list[Mapping[str, Any]] = []
"""The list of the shop's patterns, once it is open."""


def answer(name: str, text: str) -> str:
    """What the calculator says.

    Arguments: ``name`` is `open`, `open-lays`, `open-remnants`, `open-shop`, `remnants`, `shopping` or one of
    :data:`CALCULATORS`; ``text`` the request as JSON, for `open` the spec sheet itself, for `open-lays` a lay file, for
    `open-remnants` the shop's index of remnants, for `open-shop` the list of its patterns.
    Returns: `{"opened": pattern}`, or `{"calculator": name, "fragments": […]}`. Never raises for what is asked:
    a request that makes no sense is answered with a fragment of kind `problem`.
    """
    try:
        asked = json.loads(text)
    except (ValueError, RecursionError):
        asked = None
    if not isinstance(asked, dict):
        return _said(name, [_refuse("not-json", "This request can't be read. Load the page again.")])
    if name == "open":
        return _open(asked)
    if name == "open-lays":
        return _open_lays(asked)
    if name == "open-remnants":
        return _open_remnants(asked)
    if name == "open-shop":
        return _open_shop(asked)
    if name == "shopping":
        # About all patterns that are opened, and those that are not.
        return _said(name, shopping_fragments(_opened, _opened_shop[0] if _opened_shop else {}, asked))
    if name == "remnants":
        # About the whole shop, not about an opened pattern.
        unopened = [_refuse("not-open", "The list of patterns is not loaded yet. Load the page again.")]
        return _said(name, remnant_fragments(_opened_remnants[0], asked) if _opened_remnants else unopened)
    if name not in CALCULATORS:
        return _said(name, [_refuse("unknown-calculator", f"There is no calculator {quoted(name)}.")])
    sheet = _opened.get(word(asked.get("pattern")))
    if sheet is None:
        return _said(name, [_refuse("not-open", "The pattern is not loaded yet. Load the page again.")])
    return _said(name, CALCULATORS[name](sheet, asked))


def _open(sheet: Mapping[str, Any]) -> str:
    pattern = word(sheet.get("pattern"))
    if sheet.get("format") != FORMAT or not pattern:
        return _said(
            "open", [_refuse("not-a-sheet", "These pattern data are of another edition. Load the page again.")]
        )
    _opened[pattern] = sheet
    # Layouts belong to an edition of the pattern; those of the sheet before would be the wrong ones.
    _opened_lays.pop(pattern, None)
    return _text({"opened": pattern})


def _open_lays(file: Mapping[str, Any]) -> str:
    if not is_lay_file(file):
        refused = say("This layout can't be read. Load the page again.")
        return _said("open-lays", [problem("request", "not-a-lay-file", refused, ())])
    _opened_lays.setdefault(file["pattern"], {})[key_of(file)] = file
    return _text({"opened": f"{file['pattern']}/{key_of(file)}"})


def _open_remnants(index: Mapping[str, Any]) -> str:
    if not is_remnant_index(index):
        refused = "This list of patterns is of another edition. Load the page again."
        return _said("open-remnants", [_refuse("not-a-sheet", refused)])
    _opened_remnants[:] = [index]
    return _text({"opened": "remnants"})


def _open_shop(listed: Mapping[str, Any]) -> str:
    if not is_shop(listed):
        refused = "This list of patterns is of another edition. Load the page again."
        return _said("open-shop", [_refuse("not-a-sheet", refused)])
    _opened_shop[:] = [listed]
    return _text({"opened": "shop"})


def _panel(sheet: Sheet, asked: Mapping[str, Any]) -> list[Fragment]:
    return panel_fragments(read_request(sheet, asked))


def _cloth(sheet: Sheet, asked: Mapping[str, Any]) -> list[Fragment]:
    return _sized(read_request(sheet, asked), cloth_fragments)


def _wider(sheet: Sheet, asked: Mapping[str, Any]) -> list[Fragment]:
    return _sized(read_request(sheet, asked), wider_fragments)


def _cost(sheet: Sheet, asked: Mapping[str, Any]) -> list[Fragment]:
    return _sized(read_request(sheet, asked), cost_fragments)


def _plans(sheet: Sheet, asked: Mapping[str, Any]) -> list[Fragment]:
    return _sized(read_request(sheet, asked), plan_fragments)


def _elastic(sheet: Sheet, asked: Mapping[str, Any]) -> list[Fragment]:
    return _sized(read_request(sheet, asked), lambda request: notion_fragments(request, only_kind="elastic"))


def _closures(sheet: Sheet, asked: Mapping[str, Any]) -> list[Fragment]:
    return _sized(read_request(sheet, asked), closure_fragments)


def _effects(sheet: Sheet, asked: Mapping[str, Any]) -> list[Fragment]:
    return _sized(read_request(sheet, asked), lambda request: effect_fragments(request, word(asked.get("choice"))))


def _lay(sheet: Sheet, asked: Mapping[str, Any]) -> list[Fragment]:
    files = _opened_lays.get(word(sheet.get("pattern")), {})
    return _sized(read_request(sheet, asked), lambda request: lay_fragments(request, word(asked.get("cloth")), files))


def _sized(request: Request, reckon: Callable[[Request], list[Fragment]]) -> list[Fragment]:
    wrong = wrong_size(request)
    return [wrong] if wrong is not None else reckon(request)


CALCULATORS: Mapping[str, Callable[[Sheet, Mapping[str, Any]], list[Fragment]]] = {
    "panel": _panel,
    "size": size_fragments,
    "cloth": _cloth,
    "wider": _wider,
    "plans": _plans,
    "cost": _cost,
    "elastic": _elastic,
    "closures": _closures,
    "effects": _effects,
    "lay": _lay,
}


def _refuse(code: str, sentence: str) -> Fragment:
    return problem("request", code, say(sentence), ())


def _said(name: str, fragments: list[Fragment]) -> str:
    return _text({"calculator": name, "fragments": [fragment.as_json() for fragment in fragments]})


def _text(value: Mapping[str, Any]) -> str:
    return json.dumps(value, sort_keys=True, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
