"""The door: opening, and answers to requests that make no sense."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.door import CALCULATORS, answer

Ask = Callable[..., dict[str, dict[str, Any]]]


@pytest.mark.parametrize(
    ("name", "text", "code"),
    [
        ("panel", "", "not-json"),
        ("panel", "[1]", "not-json"),
        ("panel", "{" * 100_000, "not-json"),
        ("open", "7", "not-json"),
        ("open", '{"format": 2, "pattern": "x"}', "not-a-sheet"),
        ("open", '{"format": 3}', "not-a-sheet"),
        ("open-lays", "7", "not-json"),
        ("open-lays", '{"format": 1, "pattern": "x"}', "not-a-lay-file"),
        ("horoscope", "{}", "unknown-calculator"),
        ("panel", '{"pattern": "nowhere"}', "not-open"),
        ("panel", '{"pattern": ["example-jacket"]}', "not-open"),
    ],
)
def test_requests_that_make_no_sense(ask: Ask, name: str, text: str, code: str) -> None:
    said = json.loads(answer(name, text))
    (fragment,) = said["fragments"]
    assert said["calculator"] == name
    assert (fragment["kind"], fragment["data"]["code"]) == ("problem", code)
    assert fragment["text"]


def test_answers_are_sorted_compact_json(ask: Ask) -> None:
    for name in CALCULATORS:
        text = answer(name, '{"pattern": "example-jacket", "height": "92"}')
        again = json.dumps(json.loads(text), sort_keys=True, ensure_ascii=False, separators=(",", ":"))
        assert text == again
        text.encode("utf-8")


def test_a_sheet_may_be_opened_again(ask: Ask, sheet: dict[str, Any]) -> None:
    renamed = {**sheet, "name": "Another name"}
    answer("open", json.dumps(renamed))
    said = json.loads(answer("panel", '{"pattern": "example-jacket"}'))["fragments"][0]
    assert said["text"].startswith("Another name, front and back.")


JUNK = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)
KEYS = st.sampled_from(["size", "choices", "cloths", "unit", "height", "chest", "cloth", "choice"])


@given(st.sampled_from(sorted(CALCULATORS)), st.dictionaries(KEYS, JUNK))
def test_law_any_request_is_answered(sheet: dict[str, Any], name: str, request: dict[str, Any]) -> None:
    answer("open", json.dumps(sheet))
    said = json.loads(answer(name, json.dumps({**request, "pattern": "example-jacket"})))
    assert said["fragments"]
    for fragment in said["fragments"]:
        assert set(fragment) == {"id", "kind", "text", "text_inch", "html", "data", "depends_on"}
