"""What does every pattern take of every cloth? The index that the page about remnants fetches, made from the sheets.

For each cloth of each pattern it lists the *variants*: what the choices that decide about this cloth can be, together,
in some size. Each names the set of pieces that is cut then; the sets' lengths follow as one text
(:mod:`boltside.calculators.remnant_index`). Nothing in it is worked out anew: every length is the one that the
pattern's own page would give, in whole centimetres rounded up, as that page says it too.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from boltside.calculators.choices import all_allowed, allowed, completed, decisive
from boltside.calculators.conditions import SIZE
from boltside.calculators.laid import answering, cut_in, demanded, lay_rows, shortest
from boltside.calculators.nap import ASK, FORCED, WITH, WITHOUT, kinds_of, nap_said
from boltside.calculators.remnant_index import (
    BASE,
    NARROW_MOST_CM,
    NARROW_STEP_CM,
    NARROW_WAY,
    NOT_TAKEN,
    REMNANT_FORMAT,
    digit,
    written,
)
from boltside.calculators.units import MM_PER_CM

Sheet = Mapping[str, Any]
Chosen = tuple[str | None, ...]
"""What is chosen for each of some choices, in order; None where one is not asked."""

NAP_SIGNS = {"always": "a", "never": "n", ASK: "k"}
"""How the index writes whether a variant is laid with nap."""


def remnant_index(patterns: Sequence[tuple[Sheet, str]]) -> dict[str, Any]:
    """The index, as plain JSON. Argument: for each pattern its sheet and its address from the site's root."""
    return joined_index([pattern_entry(sheet, address) for sheet, address in patterns])


def joined_index(made: Sequence[tuple[Mapping[str, Any], Sequence[int | None]]]) -> dict[str, Any]:
    """The index, from what :func:`pattern_entry` made of each pattern.

    `order` lists for each cloth the least length in cm that it takes anywhere, the numbers of pattern and cloth, the
    shortest first: whoever has less cloth need look no further.
    """
    order = [
        [least, at, number]
        for at, (_, lengths) in enumerate(made)
        for number, least in enumerate(lengths)
        if least is not None
    ]
    return {"format": REMNANT_FORMAT, "patterns": [entry for entry, _ in made], "order": sorted(order)}


def index_text(index: Mapping[str, Any]) -> str:
    """The index as it is published, the same text each time."""
    return json.dumps(index, sort_keys=True, ensure_ascii=False, separators=(",", ":"))


def kinds_in(sheets: Iterable[Sheet]) -> list[str]:
    """Every kind of cloth that any pattern takes: that of the most patterns first, of equals as they list them.

    >>> kinds_in([{"cloths": [{"kinds": ["knit", "woven"]}]}, {"cloths": [{"kinds": ["woven"]}]}])
    ['woven', 'knit']
    """
    taken = [kind for sheet in sheets for kind in {kind: 0 for cloth in sheet["cloths"] for kind in cloth["kinds"]}]
    return sorted(dict.fromkeys(taken), key=lambda kind: -taken.count(kind))


def pattern_entry(sheet: Sheet, address: str) -> tuple[dict[str, Any], tuple[int | None, ...]]:
    """What the index says of a pattern, and the least length in cm that each of its cloths takes."""
    combined = {
        size: list(all_allowed(sheet["choices"], sheet["rules"], size, steps_too=False)) for size in sheet["sizes"]
    }
    cloths = [cloth_entry(sheet, cloth, combined) for cloth in sheet["cloths"]]
    entry = {
        "pattern": sheet["pattern"],
        "name": sheet["name"],
        "address": address,
        "sizes": list(sheet["sizes"]),
        "choices": [
            {
                "name": choice["name"],
                "title": choice["title"],
                "usual": [one["name"] for one in choice["alternatives"]].index(choice["default"]),
                "words": [[one["name"], one["title"]] for one in choice["alternatives"]],
            }
            for choice in sheet["choices"]
        ],
        "cloths": [made for made, _ in cloths],
    }
    return entry, tuple(least for _, least in cloths)


def cloth_entry(
    sheet: Sheet, cloth: Mapping[str, Any], combined: Mapping[str, Sequence[Mapping[str, str]]]
) -> tuple[dict[str, Any], int | None]:
    """What the index says of a cloth, and the least length in cm that it takes.

    Arguments: the sheet; one of its cloths; for each size all sets of choices that are allowed.
    """
    names = deciding(sheet, cloth)
    sizes = list(sheet["sizes"])
    variants: dict[Chosen, int] = {}
    rows: dict[tuple[str, ...], int] = {}
    naps: list[str] = []
    kinds: list[tuple[str, ...]] = []
    row_of: dict[tuple[str, int], int] = {}
    also: dict[tuple[str, int], dict[str, str]] = {}
    for size in sizes:
        seen: set[Chosen] = set()
        for combination in combined[size]:
            picked = tuple(combination.get(name) for name in names)
            if picked in seen:
                continue
            seen.add(picked)
            # A kind or a nap that depends on the size makes two variants of one set of choices.
            said = nap_said(cloth["nap"], combination), tuple(kinds_of(cloth, combination))
            number = variants.setdefault((*picked, *map(str, said)), len(variants))
            if number == len(naps):
                naps.append(said[0])
                kinds.append(said[1])
            demand = tuple(demanded(sheet, cloth["name"], combination))
            if demand and cut_in(sheet, demand, size):
                row_of[size, number] = rows.setdefault(demand, len(rows))
                more = besides(sheet, names, combination, combined[size])
                if more:
                    also[size, number] = more
    lengths = _lengths(sheet, cloth, list(rows), _naps(naps))
    of_kinds = list(dict.fromkeys(kinds))
    groups, group_of = _grouped(sizes, len(variants), row_of)
    entry = {
        "name": cloth["name"],
        "title": cloth["title"],
        "ways": list(cloth["ways"]),
        "naps": _naps(naps),
        "rows": len(rows),
        "names": [_number(sheet, name) for name in names],
        "variants": "".join(_signs(sheet, names, picked) for picked in variants),
        "nap": _once("".join(NAP_SIGNS[one] for one in naps)),
        "kinds": [list(one) for one in of_kinds],
        "kind": _once("".join(digit(of_kinds.index(one)) for one in kinds)),
        "groups": groups,
        "group": group_of,
        "also": {
            f"{size} {number}": more for (size, number), more in sorted(also.items(), key=lambda one: one[0])
        },
        **lengths,
    }
    values = entry.pop("values")
    return entry, min((one for one in values if one is not None), default=None)


def deciding(sheet: Sheet, cloth: Mapping[str, Any]) -> list[str]:
    """The choices on which it depends what is cut from a cloth, of which kind it is and how it is laid; in order."""
    conditions = [item["when"] for item in sheet["items"] if item["cloth"] == cloth["name"]]
    conditions += [case["when"] for key in ("nap", "kind_cases") for case in cloth[key]]
    wanted = decisive(sheet["choices"], conditions)
    return [choice["name"] for choice in sheet["choices"] if choice["name"] in wanted and not choice["steps_only"]]


def besides(
    sheet: Sheet, names: Sequence[str], combination: Mapping[str, str], all_of_size: Sequence[Mapping[str, str]]
) -> dict[str, str]:
    """What else has to be chosen, apart from `names`, where the usual choices would not go together with these."""
    choices, rules = sheet["choices"], sheet["rules"]
    picked = {name: combination[name] for name in (SIZE, *names) if name in combination}
    if _same(completed(choices, picked), combination, names) and allowed(choices, rules, picked):
        return {}
    found = next(
        (
            one
            for one in all_of_size
            if _same(one, combination, names)
            and _same(completed(choices, one), combination, names)
            and allowed(choices, rules, one)
        ),
        None,
    )
    if found is None:
        # Even choices that only change steps have to differ from what is usual.
        every = all_allowed(choices, rules, combination[SIZE])
        found = next(one for one in every if _same(one, combination, names))
    usual = {choice["name"]: choice["default"] for choice in choices}
    return {name: word for name, word in found.items() if name in usual and name not in names and word != usual[name]}


def _same(one: Mapping[str, str], other: Mapping[str, str], names: Sequence[str]) -> bool:
    return all(one.get(name) == other.get(name) for name in names)


def _naps(said: Iterable[str]) -> list[str]:
    """With nap, without, or both: whatever some variant can be laid with."""
    known = {FORCED.get(one, ASK) for one in said}
    return [nap for nap in (WITH, WITHOUT) if known & {nap, ASK}]


def _lengths(
    sheet: Sheet, cloth: Mapping[str, Any], rows: Sequence[Sequence[str]], naps: Sequence[str]
) -> dict[str, Any]:
    """Widths, the text of the lengths, and the lengths themselves, in cm; under `narrow` widths and text of what is
    narrower than any bolt, where there is such."""
    published = sheet["lays"].get(cloth["name"], {})
    known = {
        int(step[0])
        for way in published.values() for nap in way.values() for size in nap.values() for steps in size
        for step in steps
    }  # fmt: skip
    least_mm = min(cloth["widths_mm"])
    narrow = sorted(width_mm for width_mm in known if width_mm < least_mm)
    # A length that is the same on the narrowest bolt has no step of its own there.
    wide = sorted({width_mm for width_mm in known if width_mm >= least_mm} | ({least_mm} if narrow else set()))
    made = _at_widths(sheet, cloth, rows, wide, cloth["ways"], naps)
    if narrow:
        values = _at_widths(sheet, cloth, rows, narrow, [NARROW_WAY], naps)["values"]
        made["values"] += values
        steps = [None if one is None or one > NARROW_MOST_CM else -(-one // NARROW_STEP_CM) for one in values]
        made["narrow"] = {"widths": narrow, "lengths": written(steps, sizes=len(sheet["sizes"]), planes=len(naps))}
    return made


def _at_widths(
    sheet: Sheet,
    cloth: Mapping[str, Any],
    rows: Sequence[Sequence[str]],
    widths: Sequence[int],
    ways: Sequence[str],
    naps: Sequence[str],
) -> dict[str, Any]:
    """These widths, the text of the lengths on them, and the lengths themselves, in cm."""
    sizes, name = sheet["sizes"], cloth["name"]
    sets = sheet["sets"].get(name, [])
    values: list[int | None] = []
    answers = [answering(sets, demand) for demand in rows]
    cut = [[cut_in(sheet, demand, size) for size in sizes] for demand in rows]
    for way in ways:
        for nap in naps:
            published_rows = [lay_rows(sheet, name, way, nap, size) for size in sizes]
            for at, demand in enumerate(rows):
                able = [sets[one] for one in answers[at]]
                steps = [[of[one] for one in answers[at] if one < len(of)] for of in published_rows]
                for width_mm in widths:
                    for number in range(len(sizes)):
                        laid = shortest(able, steps[number], demand, width_mm) if cut[at][number] else None
                        values.append(None if laid is None else -(-laid.length_mm // MM_PER_CM))
    planes = len(ways) * len(naps)
    far = any(one is not None and one >= BASE for one in values)
    return {
        "widths": list(widths),
        "lengths": written(values, sizes=len(sizes), planes=planes),
        "high": written(values, sizes=len(sizes), planes=planes, high=True) if far else "",
        "values": values,
    }


def _grouped(sizes: Sequence[str], count: int, row_of: Mapping[tuple[str, int], int]) -> tuple[list[str], str]:
    """Which set of pieces each variant takes: a text for each group of sizes that agree, and each size's group."""
    groups: dict[str, int] = {}
    of_size = []
    for size in sizes:
        signs = "".join(digit(row_of[size, at]) if (size, at) in row_of else NOT_TAKEN for at in range(count))
        of_size.append(groups.setdefault(signs, len(groups)))
    return list(groups), "".join(map(digit, of_size))


def _number(sheet: Sheet, name: str) -> int:
    return [choice["name"] for choice in sheet["choices"]].index(name)


def _signs(sheet: Sheet, names: Sequence[str], picked: Chosen) -> str:
    """One sign for each choice: the number of its alternative, or that it is not asked."""
    signs = ""
    for name, word in zip(names, picked, strict=False):
        words = [one["name"] for one in sheet["choices"][_number(sheet, name)]["alternatives"]]
        signs += NOT_TAKEN if word is None else digit(words.index(word))
    return signs


def _once(signs: str) -> str:
    """A text of which all signs are the same, as that sign alone."""
    return signs[:1] if len(set(signs)) == 1 else signs
