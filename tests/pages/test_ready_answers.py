"""What is looked up before Python has come is, byte for byte, what the calculators' door says."""

from __future__ import annotations

import gzip
import json
import random
from typing import Any

import pytest
from cases.make_sheet_example import make
from cases.plan_sheet import make_plans
from cases.real_sheets import pattern_names, real_sheet
from ready_reader import Ready

from boltside.calculators.door import answer
from boltside.pages.ready_answers import ALL_SIZES, ready_answers
from boltside.pages.ready_cases import listed_words

SEED = 20261126
ASKED_EACH = 500
"""Listed choices that are drawn for each pattern."""
LARGEST_GZIPPED_BYTES = 25_000
TYPED = {"width": "137", "wash": "usual", "pattern": "own", "price": "12.90"}
MADE = {"example-jacket": make, "example-plans": make_plans}
Drawn = tuple[str, dict[str, str]]


def sheet_of(name: str) -> dict[str, Any]:
    return MADE[name]() if name in MADE else real_sheet(name)


@pytest.fixture(scope="module", params=["example-jacket", "example-plans", *pattern_names()])
def opened(request: pytest.FixtureRequest) -> tuple[dict[str, Any], dict[Any, str]]:
    """A sheet that the door knows, and its ready answers."""
    sheet = sheet_of(request.param)
    answer("open", json.dumps(sheet))
    return sheet, ready_answers(sheet, (ALL_SIZES, *sheet["sizes"]))


def drawn(sheet: dict[str, Any], chance: random.Random) -> Drawn:
    """A size and a value for each listed choice."""
    return chance.choice(sheet["sizes"]), {name: chance.choice(words) for name, words in listed_words(sheet).items()}


def asked(sheet: dict[str, Any], size: str, chosen: dict[str, str]) -> dict[str, Any]:
    """As the page asks: only what differs from the page as it comes."""
    usual = {choice["name"]: choice["default"] for choice in sheet["choices"]}
    request: dict[str, Any] = {"pattern": sheet["pattern"], "size": size, "choices": {}, "cloths": {}}
    for name, word in chosen.items():
        part, dot, cloth = name.partition(".")
        if word == usual.get(name, ""):
            continue
        if dot:
            request["cloths"].setdefault(cloth, {})[part] = word
        else:
            request["choices"][name] = word
    return request


def test_law_what_is_looked_up_is_what_the_door_says(opened: tuple[dict[str, Any], dict[Any, str]]) -> None:
    sheet, files = opened
    print(f"seed {SEED}, {ASKED_EACH} listed choices of {sheet['pattern']}")
    chance, ready = random.Random(SEED), Ready(files)
    kinds, answers = set(), set()
    for _ in range(ASKED_EACH):
        size, chosen = drawn(sheet, chance)
        said = answer("panel", json.dumps(asked(sheet, size, chosen)))
        found = ready.look_up(size, chosen)
        assert f'{{"calculator":"panel","fragments":[{",".join(found.values())}]}}' == said, (size, chosen)
        answers.add(said)
        kinds |= {(part["kind"], part["id"].partition(".")[0]) for part in json.loads(said)["fragments"]}
    assert len(answers) > min(ASKED_EACH, len(sheet["sizes"]) * 2) // 2, "the answers do differ among each other"
    assert {"drawing", "figure", "sentence", "list", "why"} <= {kind for kind, _ in kinds}
    assert {"drawing", "cloth", "why", "difficulty", "cutting-list", "choices"} <= {name for _, name in kinds}


def test_law_only_what_depends_on_something_typed_waits(opened: tuple[dict[str, Any], dict[Any, str]]) -> None:
    sheet, files = opened
    chance, ready = random.Random(SEED), Ready(files)
    for _ in range(50):
        size, chosen = drawn(sheet, chance)
        cloth, part = chance.choice(sheet["cloths"])["name"], chance.choice([*TYPED, "second"])
        request = asked(sheet, size, chosen)
        name = "second" if part == "second" else f"{part}.{cloth}"
        if part == "second":
            request["second"] = sheet["sizes"][0]
        else:
            request["cloths"].setdefault(cloth, {})[part] = TYPED[part]
        said = {one["id"]: one for one in json.loads(answer("panel", json.dumps(request)))["fragments"]}
        found = ready.look_up(size, chosen, {name})
        assert list(found) == list(said)
        waiting = {one for one, text in found.items() if not text}
        assert waiting, "something waits"
        assert all(json.loads(text) == said[one] for one, text in found.items() if text), (size, chosen, name)
        assert waiting <= {one for one in said if name in said[one]["depends_on"]}


def test_the_files_are_small_and_the_same_each_time(opened: tuple[dict[str, Any], dict[Any, str]]) -> None:
    sheet, files = opened
    sizes = {key: len(gzip.compress(text.encode())) for key, text in files.items()}
    assert max(sizes.values()) <= LARGEST_GZIPPED_BYTES, sizes
    size = sheet["sizes"][0]
    assert ready_answers(sheet, (size,)) == {(size, later): files[size, later] for later in (False, True)}
