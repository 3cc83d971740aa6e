"""Plain data with places; nothing else of YAML."""

from __future__ import annotations

import pytest

from boltside.read.collect import Problems
from boltside.read.yaml_tree import read_tree


def tree_of(text: str) -> object:
    problems = Problems()
    tree = read_tree(text, "x.yaml", problems)
    assert problems.found == []
    assert tree is not None
    return tree.data


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1", 1),
        ("-2", -2),
        ("1.5", 1.5),
        (".5", 0.5),
        ("1e2", 100.0),
        ("true", True),
        ("false", False),
        ("null", None),
        ("", None),
        ("~", None),
        ('"1"', "1"),
        ("'true'", "true"),
        ("yes", "yes"),
        ("no", "no"),
        ("on", "on"),
        ("None", "None"),
        ("1:30", "1:30"),
        ("0x10", "0x10"),
        ("1_000", "1_000"),
        ("2026-01-01", "2026-01-01"),
        ("nan", "nan"),
        (".inf", ".inf"),
        ("9" * 30, "9" * 30),
    ],
)
def test_scalars(text: str, value: object) -> None:
    assert tree_of(f"a: {text}") == {"a": value}


def test_keys_are_always_words() -> None:
    assert tree_of("{on: 1, 80: 2, true: 3, '': 4}") == {"on": 1, "80": 2, "true": 3, "": 4}


def test_places_of_keys_and_values() -> None:
    problems = Problems()
    tree = read_tree("a:\n  - {b: 1, c: two}\n", "x.yaml", problems)
    assert tree is not None
    assert tree.key_place(("a",)) == (1, 1)
    assert tree.value_place(("a",)) == (2, 3)
    assert tree.key_place(("a", 0, "c")) == (2, 12)
    assert tree.value_place(("a", 0, "c")) == (2, 15)
    # Steps that the file does not have are skipped: an opened shorthand, or a key left out.
    assert tree.value_place(("a", 0, "c", 0)) == (2, 15)
    assert tree.value_place(("a", 0, "missing")) == (2, 5)


def test_places_go_on_from_where_a_part_of_a_file_began() -> None:
    problems = Problems()
    tree = read_tree("when: {a: b}", "steps.md", problems, first=(7, 1))
    assert tree is not None
    assert tree.key_place(("when", "a")) == (7, 8)


def test_empty_text_is_nothing() -> None:
    assert tree_of("# only a comment\n") is None
