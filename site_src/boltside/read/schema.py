"""Checks plain data against the document's types and says where each mismatch stands, all at once.

A part that does not fit is reported and taken out, and the rest is read on, so that one slip does not hide the others.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from boltside.read.collect import Problems, listed, meant, nearest, quoted
from boltside.read.document import (
    COLOUR_PATTERN,
    CURRENCY_PATTERN,
    DOTTED_PATTERN,
    LANGUAGE_PATTERN,
    NAME_LENGTH_MAX,
    NAME_PATTERN,
    PIECE_PATTERN,
    PRICE_PATTERN,
    SIZE_PATTERN,
    PatternDoc,
    ShopDoc,
)
from boltside.read.document_path import annotation_at, bounds_at, field_at, keys_at, model_of
from boltside.read.meant_number import mend_of_number, mend_of_text
from boltside.read.yaml_tree import Path, Tree, has

Document = TypeVar("Document", bound=BaseModel)

ROUNDS_MAX = 50
"""Each round takes out at least one part that does not fit; a file with more layers of slips is given up."""

ERRORS_MAX = 200
"""A file with more mismatches at once is given up: it is something else than a pattern."""

STAND_INS: Mapping[str, Any] = {
    "boltside": 1,
    "name": "?",
    "summary": "?",
    "garment": "?",
    "edition": "?",
    "difficulty": 1,
    "minutes": 0,
    "drawn": "stitching",
    "allowance_mm": 0,
}
"""What stands for a required top-level value that is missing or wrong (already reported), so that reading goes on."""

EXPECTED_SHAPES = {
    NAME_PATTERN: "lower-case words joined by hyphens, like `neck-shoulder`",
    SIZE_PATTERN: "one word of letters and digits, like `92`",
    PIECE_PATTERN: "a piece's name like `front`, or `as:` and a role",
    DOTTED_PATTERN: "a piece and a name with a dot between, like `front.neck`",
    PRICE_PATTERN: "an amount with two decimals and without the currency, like `8.50`",
    LANGUAGE_PATTERN: "the short word of a language, like `en` or `pt-BR`",
    CURRENCY_PATTERN: "the three letters of a currency, like `EUR`",
    COLOUR_PATTERN: "a colour as `#` and six digits from 0 to f, like `#2f5d62`",
}

VALUES: Final = (PRICE_PATTERN, LANGUAGE_PATTERN, CURRENCY_PATTERN, COLOUR_PATTERN)
"""Patterns of values; the others are patterns of names."""

EXPECTED_TYPES = {
    "string_type": "text",
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "float_type": "a number",
    "bool_type": "true or false",
    "list_type": "a list",
    "dict_type": "a mapping",
    "model_type": "a mapping",
    "model_attributes_type": "a mapping",
}


OUT_OF_BOUNDS: Final = ("greater_than", "greater_than_equal", "less_than_equal")
"""Pydantic's names for a number that is too small or too large."""

EXTRA: Final = "extra_forbidden"
"""Pydantic's name for a key that the document does not have."""

CONDITIONS = ("when", "needs", "excludes", "asked_when")
"""A condition that is half wrong is taken out whole, for half of it would say something else."""


@dataclass
class Checked:
    """The document as far as it fits, the parts that did not fit (taken out), and the tree without them."""

    document: PatternDoc | None
    tree: Tree
    broken: set[Path]

    def names_whole(self, collection: str) -> bool:
        """True when every entry of this top-level mapping could be read, so that a name not in it is unknown."""
        return not any(one[:1] == (collection,) and len(one) <= 2 for one in self.broken)

    def whole(self, *path: str | int) -> bool:
        """True when nothing around, at or below this path was taken out, so that conclusions about it are safe."""
        return not any(one[: len(path)] == path or path[: len(one)] == one for one in self.broken)


def check_document(tree: Tree, name: str, problems: Problems) -> Checked:
    """The tree as a document; every mismatch is noted.

    Arguments: `name` is the file as problems name it. The tree is used up: the one in the answer takes its place.
    """
    checked = Checked(None, tree, set())
    checked.document = _fitted(PatternDoc, checked, name, problems)
    return checked


def check_shop_document(tree: Tree, name: str, problems: Problems) -> ShopDoc | None:
    """The tree as shop.yaml, or None; every mismatch is noted. Arguments as for `check_document`."""
    return _fitted(ShopDoc, Checked(None, tree, set()), name, problems)


def _fitted(whole: type[Document], checked: Checked, name: str, problems: Problems) -> Document | None:
    """What of the tree fits the document's type; the parts that do not are noted in `checked` and taken out."""
    tree = checked.tree
    for _ in range(ROUNDS_MAX):
        try:
            return whole.model_validate(tree.data)
        except ValidationError as error:
            doomed: set[Path] = set()
            details = error.errors(include_url=False)[:ERRORS_MAX]
            misspelt = {
                (*path[:-1], near)
                for path, _ in (_resolve(tree.data, tuple(one["loc"])) for one in details if one["type"] == EXTRA)
                if (near := nearest(str(path[-1]), keys_at(path[:-1], whole))) is not None
                and tree.real((*path[:-1], near)) == path[:-1]
            }
            checked.broken |= misspelt
            hopeless = len(details) == ERRORS_MAX
            for detail in details:
                path, missing = _resolve(tree.data, tuple(detail["loc"]))
                # A list that became too short because a part of it was taken out is no news.
                shortened = detail["type"] == "too_short" and not checked.whole(*path)
                # A missing key that is there, only misspelt, is no news either.
                missing_is_news = missing is None or (*path, missing) not in misspelt
                if missing_is_news and not shortened:
                    _report(detail, path, missing, tree, name, problems, whole)
                part = _removable(tree.data, path if missing is None else (*path, missing), whole)
                if part is None:
                    hopeless = True
                else:
                    doomed.add(part)
            if hopeless:
                return None
            # Last first, so that positions in lists stay true while parts are taken out.
            for part in sorted(
                doomed, key=lambda one: [(isinstance(step, int), str(step).zfill(9)) for step in one], reverse=True
            ):
                _take_out(tree, part, checked.broken)
    return None


def _resolve(data: Any, loc: tuple[str | int, ...]) -> tuple[Path, str | None]:
    """Pydantic's location as a path in the file, and the key that does not exist there, if one is missing.

    Locations hold steps that the file does not have (an opened shorthand, `[key]`); these are skipped.
    """
    path: list[str | int] = []
    missing: str | None = None
    for step in loc:
        if has(data, step):
            path.append(step)
            data = data[step]
            missing = None
        elif isinstance(step, str) and isinstance(data, dict) and step != "[key]":
            missing = step
    return tuple(path), missing


def _report(
    detail: ErrorDetails,
    path: Path,
    missing: str | None,
    tree: Tree,
    name: str,
    problems: Problems,
    whole: type[BaseModel],
) -> None:
    kind = detail["type"]
    context: dict[str, Any] = detail.get("ctx") or {}
    place = tree.value_place(path)
    is_key = "[key]" in detail["loc"]
    if is_key:
        place = tree.key_place(path)
    seen = quoted(path[-1]) if is_key else _said(detail["input"])
    if kind == EXTRA:
        known = keys_at(path[:-1], whole)
        key = str(path[-1])
        problems.add(
            "unknown-key",
            name,
            tree.key_place(path),
            seen=f"the key {quoted(key)}",
            expected=f"one of {listed(known)}",
            mend=_split_number(path, tree, whole) or meant(key, known, "delete it"),
        )
    elif kind == "missing":
        key = missing or "?"
        problems.add(
            "missing-key",
            name,
            tree.key_place(path),
            seen=f"no {quoted(key)}{_inside(path)}",
            expected=f"the key {quoted(key)}",
            mend=f"add a line `{key}: …`",
        )
    elif kind in EXPECTED_TYPES:
        wanted = EXPECTED_TYPES[kind]
        mend = f"write {wanted}{_after(path)}"
        number = isinstance(detail["input"], int | float)
        if kind == "string_type" and number and path[-1] == "price":
            mend = f'put it in quotes, with two decimals: "{float(detail["input"]):.2f}"'
        elif kind == "string_type" and number and not isinstance(detail["input"], bool):
            mend = f'put it in quotes: "{detail["input"]}"'
        elif kind == "string_type" and isinstance(detail["input"], bool):
            mend = f'put it in quotes: "{str(detail["input"]).lower()}"'
        elif kind in ("float_type", "int_type") and _is_number(detail["input"]):
            mend = "take the quotes away"
        elif isinstance(detail["input"], str) and (bounds := bounds_at(detail["loc"], whole)) is not None:
            mend = mend_of_text(detail["input"], bounds) or mend
        problems.add("wrong-type", name, place, seen=seen, expected=wanted, mend=mend)
    elif kind == "string_pattern_mismatch" and context["pattern"] in VALUES:
        wanted = EXPECTED_SHAPES[context["pattern"]]
        mend = f"write {wanted}"
        if context["pattern"] == PRICE_PATTERN and re.fullmatch(r"[0-9]{1,6},[0-9]{2}", str(detail["input"])):
            mend = f"write `{str(detail['input']).replace(',', '.')}` with a point"
        problems.add("wrong-value", name, place, seen=seen, expected=wanted, mend=mend)
    elif kind == "string_pattern_mismatch":
        shape = EXPECTED_SHAPES[context["pattern"]]
        problems.add(
            "bad-name",
            name,
            place,
            seen=seen,
            expected=shape,
            mend=_better_name(str(detail["input"]), context["pattern"]),
        )
    elif kind == "literal_error":
        words = [one.strip("'") for one in str(context["expected"]).replace(" or ", ", ").split(", ")]
        near = nearest(str(detail["input"]), words)
        problems.add(
            "wrong-value",
            name,
            place,
            seen=seen,
            expected=("one of " if len(words) > 1 else "") + listed(words),
            mend=f"did you mean `{near}`?" if near else "write one of these" if len(words) > 1 else "write that",
        )
    elif kind in OUT_OF_BOUNDS and (bounds := bounds_at(detail["loc"], whole)) is not None:
        mend = mend_of_number(float(detail["input"]), bounds, str(next(one for one in path[::-1] if _is_word(one))))
        problems.add("wrong-value", name, place, seen=seen, expected=str(bounds), mend=mend)
    else:
        problems.add(
            "wrong-value", name, place, seen=seen, expected=_counted(kind, context), mend=f"change it{_after(path)}"
        )


def _is_word(step: str | int) -> bool:
    return isinstance(step, str)


def _split_number(path: Path, tree: Tree, whole_document: type[BaseModel]) -> str | None:
    """The mend for `{allowance_mm: 10,5}`, where YAML takes the 5 for a key; None when it is something else."""
    holder = tree.data
    for step in path[:-1]:
        holder = holder[step]
    keys = list(holder)
    at = keys.index(path[-1])
    if at == 0 or holder[path[-1]] is not None or not str(path[-1]).isdecimal():
        return None
    before, whole = str(keys[at - 1]), holder[keys[at - 1]]
    bounds = bounds_at((*path[:-1], before), whole_document) or bounds_at((*path[:-1], before, 0, "mm"), whole_document)
    if isinstance(whole, bool) or not isinstance(whole, int) or bounds is None:
        return None
    mend = mend_of_text(f"{whole},{path[-1]}", bounds)
    return f"is it the rest of `{before}`? {mend}" if mend else None


def _is_number(value: object) -> bool:
    try:
        float(str(value))
    except ValueError:
        return False
    return isinstance(value, str)


def _said(value: object) -> str:
    """A value as a message names it."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return f"`{str(value).lower()}`"
    if isinstance(value, dict):
        return "a mapping" if value else "an empty mapping"
    if isinstance(value, list):
        return f"a list of {len(value)}" if value else "an empty list"
    if isinstance(value, str):
        return f"the text {quoted(value)}" if value else "an empty text"
    return f"the number {quoted(value)}"


def _inside(path: Path) -> str:
    return f" in {quoted(_dotted(path))}" if path else ""


def _after(path: Path) -> str:
    words = [str(step) for step in path if isinstance(step, str)]
    return f" for {quoted(words[-1])}" if words else ""


def _dotted(path: Path) -> str:
    """A path as messages show it; list positions count from 1."""
    return " / ".join(step if isinstance(step, str) else f"no. {step + 1}" for step in path)


def _better_name(name: str, pattern: str) -> str:
    joined = re.sub(r"[^A-Za-z0-9]+", "-", name.strip()).strip("-")
    better = joined if pattern == SIZE_PATTERN else joined.lower()
    if pattern in (NAME_PATTERN, SIZE_PATTERN) and better and len(better) <= NAME_LENGTH_MAX:
        return f"call it `{better}`"
    return "rename it"


def _counted(kind: str, context: Mapping[str, Any]) -> str:
    """What a list or text of the wrong length, or a value that is none, should have been."""
    if kind == "too_short":
        return f"at least {context['min_length']} of them"
    if kind == "too_long":
        return f"at most {context['max_length']} of them"
    if kind == "string_too_short":
        return "a text that is not empty"
    if kind == "string_too_long":
        return f"a text of at most {context['max_length']} letters"
    if kind == "finite_number":
        return "a finite number"
    return "another value"


def _removable(data: Any, path: Path, whole: type[BaseModel]) -> Path | None:
    """The smallest part around this path that can be taken out, or None when the whole document hangs on it."""
    for at, step in enumerate(path):
        if step in CONDITIONS and isinstance(step, str) and field_at(path[: at + 1], whole) is not None:
            path = path[: at + 1]
            break
    for length in range(len(path), 0, -1):
        here = path[:length]
        if length == 1 and here[0] in STAND_INS:
            return here
        holder_is_model = model_of(annotation_at(here[:-1], whole)) is not None
        field = field_at(here, whole)
        if not holder_is_model or field is None or not field.is_required():
            # An item of a list, an entry of a mapping, a key that the format does not have or does not demand.
            return here
    return None


def _take_out(tree: Tree, part: Path, broken: set[Path]) -> None:
    """Take one part out of the tree, and keep the places of what follows it in a list true."""
    holder = tree.data
    for step in part[:-1]:
        if not has(holder, step):
            return
        holder = holder[step]
    last = part[-1]
    if len(part) == 1 and last in STAND_INS:
        broken.add(part)
        tree.data[last] = STAND_INS[str(last)]
        return
    if not has(holder, last):
        return
    del holder[last]
    if isinstance(last, str):
        broken.add(part)
        return
    around = part[:-1]

    def moved(path: Path) -> Path | None:
        """The path after the removal; None when it is gone."""
        at = path[len(around)] if path[: len(around)] == around and len(path) > len(around) else None
        if not isinstance(at, int) or at < last:
            return path
        return None if at == last else (*around, at - 1, *path[len(around) + 1 :])

    tree.values = {new: place for old, place in tree.values.items() if (new := moved(old)) is not None}
    tree.keys = {new: place for old, place in tree.keys.items() if (new := moved(old)) is not None}
    kept = {new for old in broken if (new := moved(old)) is not None}
    broken.clear()
    broken.update(kept | {around})
