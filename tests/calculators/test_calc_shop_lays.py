"""The shop's own sheets with their stored lays: every combination that is offered gets an amount of cloth."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from boltside.calculators.choices import allowed, completed
from boltside.calculators.door import answer
from boltside.shop_lays import shop_sheets

DATA = Path(__file__).parents[2] / "data"
SEED = 20261125
EACH = 60
"""So many combinations of each pattern, size by size, are asked; going through all takes hours with many options."""


@pytest.fixture(scope="module")
def shop() -> list[dict[str, Any]]:
    """The sheets as they are published."""
    sheets = [one.sheet for one in shop_sheets(DATA)]
    for sheet in sheets:
        answer("open", json.dumps(sheet))
    return sheets


def steps_of(sheet: dict[str, Any]) -> Iterator[tuple[str, str, str, str, int, list[list[int]]]]:
    """Cloth, way, nap, size, set and its steps."""
    for cloth, ways in sheet["lays"].items():
        for way, naps in ways.items():
            for nap, sizes in naps.items():
                for size, rows in ((one, sizes[one]) for one in sheet["sizes"] if one in sizes):
                    assert len(rows) == len(sheet["sets"][cloth])
                    for at, steps in enumerate(rows):
                        yield cloth, way, nap, size, at, steps


def some_chosen(sheet: dict[str, Any]) -> list[dict[str, str]]:
    """Allowed sets of choices, drawn from the seed."""
    draw = random.Random(SEED)
    found: list[dict[str, str]] = []
    for _ in range(40 * EACH):
        picked = {one["name"]: draw.choice(one["alternatives"])["name"] for one in sheet["choices"]}
        chosen = completed(sheet["choices"], {**picked, "size": draw.choice(sheet["sizes"])})
        if len(found) < EACH and allowed(sheet["choices"], sheet["rules"], chosen):
            found.append(chosen)
    return found


def test_law_wider_cloth_and_no_nap_never_need_more(shop: list[dict[str, Any]]) -> None:
    for sheet in shop:
        with_nap = {}
        for cloth, way, nap, size, at, steps in steps_of(sheet):
            widths, lengths = [step[0] for step in steps], [step[1] for step in steps]
            assert widths == sorted(set(widths)) and lengths == sorted(set(lengths), reverse=True)
            if nap == "with":
                with_nap[cloth, way, size, at] = steps
        for cloth, way, nap, size, at, steps in steps_of(sheet):
            for width, length, *_ in with_nap.get((cloth, way, size, at), []) if nap == "without" else []:
                assert any(step[0] <= width and step[1] <= length for step in steps), (cloth, way, size, at)


def test_law_larger_sizes_never_need_less(shop: list[dict[str, Any]]) -> None:
    compared = 0
    for sheet in shop:
        before: dict[tuple[str, str, str, int], list[list[int]]] = {}
        for cloth, way, nap, _size, at, steps in steps_of(sheet):
            for width, smaller, *_ in before.get((cloth, way, nap, at), []):
                larger = [step[1] for step in steps if step[0] <= width]
                assert not larger or min(larger) >= smaller, (cloth, way, nap, at, width)
                compared += bool(larger)
            before[cloth, way, nap, at] = steps
    assert compared >= 20


def test_law_every_offered_combination_has_an_amount(shop: list[dict[str, Any]]) -> None:
    for sheet in shop:
        for chosen in some_chosen(sheet):
            for width_mm in (1100, 1500, 4000):
                cloths = {one["name"]: {"width": f"{width_mm} mm", "way": "flat"} for one in sheet["cloths"]}
                asked = {"pattern": sheet["pattern"], "size": chosen["size"], "choices": chosen, "cloths": cloths}
                for fragment in json.loads(answer("cloth", json.dumps(asked)))["fragments"]:
                    codes = (None, "too-narrow", "narrower-than-laid") if width_mm < 4000 else (None,)
                    assert fragment["data"].get("code") in codes, (chosen, fragment["text"])
