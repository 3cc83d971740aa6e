"""What does each part of a panel's answer say for every listed choice?

Goes through the choices of each part by itself, as its fragments declare them. Listed are the choices that have a
value for each button in the page's form: options, ways of laying, nap. The size is one size at a time. Whatever
is typed, and what would multiply the answers too much, is left as the page comes: :data:`ASKED_LATER`.
"""

from __future__ import annotations

import json
from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import Any

from boltside.calculators.choices import asked_order
from boltside.calculators.conditions import SIZE, holds
from boltside.calculators.fragments import Fragment
from boltside.calculators.nap import ASK, WITH
from boltside.calculators.panel import panel_parts
from boltside.calculators.parts import Part
from boltside.calculators.request import SECOND, Request, read_request
from boltside.calculators.shop_cuts import CUT

Sheet = Mapping[str, Any]
Case = tuple[str, ...]
"""A value for each of the names of a part's choices, in the order of those names."""

ASKED_LATER = ("width", "wash", "along", "across", "pattern", "every", "uneven", "price")
"""What is said of a cloth besides its way and nap: such a question is answered once Python has come."""


WAY, NAP = "way.", "nap."


class NotClosed(AssertionError):
    """A fragment depends on a choice that is neither listed nor left as the page comes: a mistake of the engine."""


@dataclass(frozen=True, kw_only=True)
class PartCases:
    """All that one part says in one size.

    ``ids`` are its fragments; ``names`` the listed choices that they depend on, ``waits`` what else they depend on,
    which must be as the page comes; ``cases`` what was chosen and the fragments' texts, as the calculators' door writes
    them. A choice that is not asked for what else is
    chosen has "" in a case, and its value makes no difference.
    """

    ids: tuple[str, ...]
    names: tuple[str, ...]
    waits: tuple[str, ...]
    cases: Mapping[Case, tuple[str, ...]]


def listed_words(sheet: Sheet) -> dict[str, list[str]]:
    """The values of every listed choice, the usual one first; of a way and a nap the usual one is the empty text,
    as the page leaves it out of what it asks."""
    in_order = asked_order(sheet["choices"])
    words = {choice["name"]: [one["name"] for one in choice["alternatives"]] for choice in in_order}
    for cloth in sheet["cloths"]:
        words[f"{WAY}{cloth['name']}"] = ["", *cloth["ways"][1:]]
        words[f"{NAP}{cloth['name']}"] = ["", WITH] if any(case["nap"] == ASK for case in cloth["nap"]) else [""]
    return words


def all_cases(sheet: Sheet, sizes: Sequence[str | None]) -> Iterator[tuple[Case, dict[str | None, PartCases]]]:
    """Every part of the panel, in the panel's order: the ids of its fragments, and what it says by size.

    Arguments: the sheet; the sizes that are wanted, None among them for what does not depend on the size.
    """
    words, parts, shared = listed_words(sheet), panel_parts(sheet), dict[Any, Any]()
    firsts = [part.make(read_request(sheet, {}, shared)) for part in parts]
    alike: dict[Case, list[int]] = {}
    for at, first in enumerate(firsts):
        alike.setdefault(tuple(dict.fromkeys(name for one in first for name in one.depends_on)), []).append(at)
    made: dict[int, dict[str | None, PartCases]] = {at: {} for at in range(len(parts))}
    for declared, group in alike.items():  # parts that depend on the same share each request, and what it has found
        names, waits = _sorted(sheet, words, declared)
        for size in (size for size in sizes if (SIZE in declared) is (size is not None)):
            found = _through(sheet, size, words, names, [parts[at] for at in group], shared)
            for at, cases in zip(group, found, strict=True):
                ids = tuple(one.name for one in firsts[at])
                made[at][size] = PartCases(ids=ids, names=names, waits=waits, cases=cases)
    yield from ((tuple(one.name for one in firsts[at]), made[at]) for at in range(len(parts)) if firsts[at])


def _sorted(sheet: Sheet, words: Mapping[str, Sequence[str]], names: Sequence[str]) -> tuple[Case, Case]:
    later = {f"{part}.{cloth['name']}" for part in ASKED_LATER for cloth in sheet["cloths"]} | {SECOND, CUT}
    unknown = set(names) - set(words) - later - {SIZE}
    if unknown:
        raise NotClosed(f"{sorted(unknown)}")
    return tuple(name for name in words if name in names), tuple(sorted(later & set(names)))


def _through(
    sheet: Sheet,
    size: str | None,
    words: Mapping[str, Sequence[str]],
    names: Case,
    parts: Sequence[Part],
    shared: dict[Any, Any],
) -> list[dict[Case, tuple[str, ...]]]:
    """What each of the parts says, for every value of the names."""
    asked_when = {choice["name"]: choice["asked_when"] for choice in sheet["choices"]}
    found: list[dict[Case, tuple[str, ...]]] = [{} for _ in parts]
    said: list[dict[Hashable, tuple[str, ...]]] = [{} for _ in parts]
    options = [name for name in names if name in asked_when]
    of_cloths = [name for name in names if name not in asked_when]
    sized = {} if size is None else {SIZE: size}

    def choose(at: int, chosen: dict[str, str]) -> None:
        if at == len(options):
            request = read_request(sheet, {**sized, "choices": chosen}, shared)
            for more in product(*(words[name] for name in of_cloths)):
                ask({**chosen, **dict(zip(of_cloths, more, strict=True))}, request)
        elif not holds(asked_when[options[at]], {**chosen, **sized}):
            choose(at + 1, chosen)
        else:
            for word in words[options[at]]:
                choose(at + 1, {**chosen, options[at]: word})

    def ask(chosen: Mapping[str, str], request: Request) -> None:
        if of_cloths:
            ways = {name[len(WAY) :]: chosen[name] for name in of_cloths if name.startswith(WAY)}
            naps = {name[len(NAP) :]: chosen[name] for name in of_cloths if name.startswith(NAP)}
            request = replace(request, ways=ways, naps=naps)
        case = tuple(chosen.get(name, "") for name in names)
        for part, cases, known in zip(parts, found, said, strict=True):
            key = part.alike(request) if part.alike else case
            if key not in known:
                known[key] = tuple(fragment_text(one) for one in part.make(request))
            cases[case] = known[key]

    choose(0, {})
    return found


def fragment_text(fragment: Fragment) -> str:
    """A fragment as the calculators' door writes it."""
    return json.dumps(fragment.as_json(), sort_keys=True, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
