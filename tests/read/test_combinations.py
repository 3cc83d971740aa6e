"""Combinations asked for by a check are those of the whole, seen through the choices asked about."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltside.calculators.choices import all_allowed
from boltside.read.collect import Problems
from boltside.read.combinations import Combinations
from boltside.read.schema import check_document
from boltside.read.yaml_tree import read_tree

OBLONG = Path(__file__).parents[1] / "garment" / "data" / "patterns" / "oblong" / "pattern.yaml"


@pytest.fixture(scope="module")
def combinations() -> Combinations:
    problems = Problems()
    tree = read_tree(OBLONG.read_text(encoding="utf-8"), "pattern.yaml", problems)
    assert tree is not None
    document = check_document(tree, "pattern.yaml", problems).document
    assert document is not None
    return Combinations(document)


@pytest.mark.parametrize("size", ["80", "92"])
@pytest.mark.parametrize(
    "names", [(), ("sleeves",), ("centre-seam",), ("lined", "sleeve-end"), ("pockets", "length", "collar")]
)
def test_law_same_as_looking_at_all_combinations(combinations: Combinations, names: tuple[str, ...], size: str) -> None:
    asked = {"centre-seam": ("length",), "sleeve-end": ("sleeves",)}
    kept = {"size", *names, *(one for name in names for one in asked.get(name, ()))}
    every = {
        tuple(sorted((name, word) for name, word in chosen.items() if name in kept))
        for chosen in all_allowed(combinations.choices, combinations.rules, size)
    }
    some = [tuple(sorted(chosen.items())) for chosen in combinations.over(names, size)]
    assert set(some) == every
    assert len(some) == len(every)


def test_forbidden_alternatives_are_left_out(combinations: Combinations) -> None:
    found = [(one["lined"], one["sleeves"]) for one in combinations.over(("lined", "sleeves"), "92")]
    assert sorted(found) == [("full", "long"), ("none", "long"), ("none", "none")]
    assert [one.get("centre-seam") for one in combinations.over(("centre-seam",), "80")] == ["none", None]
