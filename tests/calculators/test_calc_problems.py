"""Saying no, held against what WCAG asks of messages about mistakes."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from boltside.calculators.fragments import say
from boltside.calculators.problems import PROBLEMS, problem

Ask = Callable[..., dict[str, dict[str, Any]]]


def of_cloth(**asked: str) -> dict[str, Any]:
    return {"cloths": {"outer": asked}}


TYPED: list[tuple[str, dict[str, Any], str, str, str]] = [
    ("cloth", of_cloth(width="abc"), "cloth.outer", "Outer cloth", "abc"),
    ("cloth", of_cloth(width="-5"), "cloth.outer", "Outer cloth", "-5"),
    ("cloth", of_cloth(width="9"), "cloth.outer", "Outer cloth", "9 cm"),
    ("cost", of_cloth(price="a lot"), "cost.outer", "Outer cloth", "a lot"),
    ("cloth", of_cloth(wash="own", along="95", across="0"), "cloth.outer", "Outer cloth", "95"),
    ("cloth", of_cloth(pattern="own", every="0.1"), "cloth.outer", "Outer cloth", "0.1 cm"),
    ("panel", {"size": "93"}, "chosen-size", "size", "93"),
    ("size", {"height": "1"}, "size", "Height", "1 cm"),
    ("size", {"age": "soon"}, "size", "age", "soon"),
]


@pytest.mark.outside  # WCAG 2.2, 3.3.1: the item in error is identified, and the error described in text
@pytest.mark.parametrize(("name", "asked", "where", "item", "typed"), TYPED)
def test_what_was_typed_and_where_is_said(
    ask: Ask, name: str, asked: dict[str, Any], where: str, item: str, typed: str
) -> None:
    said = ask(name, **asked)[where]
    assert said["kind"] == "problem" and said["data"]["code"] in PROBLEMS
    assert item in said["text"] and typed in said["text"], said["text"]


@pytest.mark.outside  # WCAG 2.2, 3.3.3: a suggestion is made where one is known; each of these does when it is followed
@pytest.mark.parametrize(
    ("name", "asked", "where", "suggested", "then"),
    [
        ("cloth", of_cloth(width="abc"), "cloth.outer", "140", of_cloth(width="140")),
        ("cloth", of_cloth(width="abc"), "cloth.outer", "55 in", of_cloth(width="55 in")),
        ("cloth", of_cloth(width="9"), "cloth.outer", "140", of_cloth(width="140")),
        ("cloth", of_cloth(width="-5"), "cloth.outer", "140 cm", of_cloth(width="140 cm")),
        ("size", {"height": "9"}, "size", "such as 92", {"height": "92"}),
        ("cost", of_cloth(price="a lot"), "cost.outer", "12.90", of_cloth(price="12.90")),
        ("cost", of_cloth(price="-3"), "cost.outer", "12.90", of_cloth(price="12.90")),
        ("cloth", of_cloth(pattern="own", every="0.1"), "cloth.outer", "0.1 m", of_cloth(pattern="own", every="0.1 m")),
        ("panel", {"size": "93"}, "chosen-size", "68", {"size": "68"}),
        ("size", {"height": "1"}, "size", "1 m", {"height": "1 m"}),
        ("size", {"age": "soon"}, "size", "2 1/2", {"age": "2 1/2"}),
        ("size", {"age": "30"}, "size", "30 months", {"age": "30 months"}),
    ],
)
def test_what_is_suggested_is_taken(
    ask: Ask, name: str, asked: dict[str, Any], where: str, suggested: str, then: dict[str, Any]
) -> None:
    said = ask(name, **asked)[where]
    assert said["kind"] == "problem" and suggested in said["text"], said["text"]
    assert ask(name, **then)[where]["kind"] != "problem"


def test_a_code_that_nobody_knows_is_not_said() -> None:
    with pytest.raises(KeyError):
        problem("cloth", "bad-mood", say("No."), ())
