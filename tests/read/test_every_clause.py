"""The fixtures use every key of the format, so that none can be changed without a test that notices."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from pydantic import BaseModel

from boltside.read import document
from boltside.read.collect import Problems
from boltside.read.document import PatternDoc
from boltside.read.schema import check_document
from boltside.read.yaml_tree import read_tree

TESTS = Path(__file__).parents[1]
OBLONG = TESTS / "garment" / "data" / "patterns" / "oblong" / "pattern.yaml"
PLAIN = TESTS / "broken" / "base" / "patterns" / "plain" / "pattern.yaml"

CANNOT_BE_TOGETHER = {("SaleDoc", "free"), ("SaleDoc", "download")}
"""Keys that exclude one that oblong has; the base of the broken folders has these."""


def read(path: Path) -> PatternDoc:
    problems = Problems()
    tree = read_tree(path.read_text(encoding="utf-8"), path.name, problems)
    assert tree is not None
    found = check_document(tree, path.name, problems).document
    assert found is not None and not problems.found
    return found


def used(part: object) -> Iterator[tuple[str, str]]:
    """Each key that is written in this part of the document: its type and name."""
    if isinstance(part, BaseModel):
        for name in part.model_fields_set:
            yield type(part).__name__, name
            yield from used(getattr(part, name))
    elif isinstance(part, dict):
        for value in part.values():
            yield from used(value)
    elif isinstance(part, list):
        for value in part:
            yield from used(value)


def keys() -> set[tuple[str, str]]:
    """Every key of the format but those of shop.yaml."""
    models = [
        one
        for one in vars(document).values()
        if isinstance(one, type) and issubclass(one, document.Part) and one not in (document.Part, document.ShopDoc)
    ]
    return {(one.__name__, name) for one in models for name in one.model_fields}


@pytest.mark.parametrize("name", sorted({part for part, _ in keys()}))
def test_the_fixture_garment_uses_each_key(name: str) -> None:
    wanted = {key for key in keys() if key[0] == name}
    assert wanted
    assert wanted - set(used(read(OBLONG))) - CANNOT_BE_TOGETHER == set()


def test_what_it_can_not_use_the_broken_base_does() -> None:
    assert set(used(read(PLAIN))) >= CANNOT_BE_TOGETHER
