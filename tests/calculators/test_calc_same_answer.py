"""The same cases, answered by CPython: twice alike, in other processes alike, and every problem is among them.

The browser tests answer the identical cases in the browser's Python and compare with what CPython says here.
"""

from __future__ import annotations

import hashlib
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from boltside.calculators.choices import completed
from boltside.calculators.door import answer
from boltside.calculators.problems import PROBLEMS

TESTS = Path(__file__).parents[1]

ANSWER_ALL = """
import hashlib, json, sys
from boltside.calculators.door import answer
said = [answer(name, text) for name, text in json.load(sys.stdin)]
print(hashlib.sha256("\\n".join(said).encode()).hexdigest())
"""


def all_cases() -> list[tuple[str, str]]:
    from cases.make_cases import SEED, cases
    from cases.make_sheet_example import make
    from cases.plan_sheet import make_plans
    from cases.real_sheets import real_sheets

    print(f"seed {SEED}")
    return cases([make(), make_plans(), *real_sheets()], SEED)


def test_there_are_enough_and_the_seed_makes_the_same_ones() -> None:
    from cases.make_cases import cases
    from cases.make_sheet_example import make

    assert len(cases([make()])) >= 200
    assert all_cases() == all_cases()
    assert cases([make()], 1) != cases([make()], 2)


def test_every_problem_is_answered_by_some_case() -> None:
    codes: set[str] = set()
    for name, text in all_cases():
        for fragment in json.loads(answer(name, text)).get("fragments", []):
            code = fragment["data"].get("code")
            assert (fragment["kind"] == "problem") <= (code is not None)
            codes |= {code} if code else set()
            assert "Traceback" not in fragment["text"]
    assert codes == set(PROBLEMS)


def test_every_pair_of_alternatives_that_can_meet_is_asked() -> None:
    from cases.make_cases import cases
    from cases.make_sheet_example import make
    from cases.real_sheets import real_sheets

    for sheet in [make(), *real_sheets()]:
        texts = [text for name, text in cases([sheet]) if name == "panel" and text.startswith("{") and len(text) > 1]
        asked = [json.loads(text).get("choices") for text in texts]
        met = [set(completed(sheet["choices"], one).items()) for one in asked if isinstance(one, dict)]
        for a, b in _possible_pairs(sheet):
            assert any({a, b} <= one for one in met), (sheet["pattern"], a, b)


def _possible_pairs(sheet: dict[str, Any]) -> set[tuple[tuple[str, str], tuple[str, str]]]:
    """Pairs that occur in some combination, found by going through all combinations of what they depend on."""
    from itertools import combinations, product

    from boltside.calculators.choices import decisive

    words = {choice["name"]: [one["name"] for one in choice["alternatives"]] for choice in sheet["choices"]}
    pairs = set()
    for two in combinations(words, 2):
        names = decisive(sheet["choices"], [[{name: []}] for name in two])
        for picked in product(*(words[name] for name in names)):
            met = completed(sheet["choices"], dict(zip(names, picked, strict=True)))
            if all(name in met for name in two):
                a, b = sorted((name, met[name]) for name in two)
                pairs.add((a, b))
    return pairs


@pytest.mark.parametrize("hash_seed", ["0", "4711"])
def test_other_processes_say_the_same(hash_seed: str) -> None:
    found = all_cases()
    here = hashlib.sha256("\n".join(answer(name, text) for name, text in found).encode()).hexdigest()
    run = subprocess.run(
        [sys.executable, "-c", ANSWER_ALL],
        input=json.dumps(found),
        env={**os.environ, "PYTHONHASHSEED": hash_seed},
        capture_output=True,
        text=True,
        check=True,
    )
    assert run.stdout.strip() == here


def test_the_example_sheet_is_what_its_script_makes() -> None:
    from cases.make_sheet_example import LAYS_PATH, PATH, lays_text, text

    assert PATH.read_text(encoding="utf-8") == text()
    assert LAYS_PATH.read_text(encoding="utf-8") == lays_text()
