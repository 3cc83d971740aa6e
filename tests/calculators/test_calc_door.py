"""The door: opening, and answers to requests that make no sense."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pydantic_core
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


IMAGE = """{ "Image": { "Width": 800, "Height": 600, "Title": "View from 15th Floor", "Thumbnail": {
  "Url": "http://www.example.com/image/481989943", "Height": 125, "Width": 100 }, "Animated" : false,
  "IDs": [116, 943, 234, 38793] } }"""
"""The object of RFC 8259, section 13."""


@pytest.mark.outside  # RFC 8259 (JSON), its examples and its grammar; read with pydantic-core too
@pytest.mark.parametrize(
    ("text", "code"),
    # Section 13: an object is a request, if a strange one; an array and three texts of a value alone are JSON, but no
    # request. Sections 2 to 7: none of the others is JSON.
    [
        (IMAGE, "not-open"), ("{}", "not-open"), ('\r\n\t { }\n', "not-open"),
        ('[{"precision": "zip"}, {"precision": "zip"}]', "not-json"), ('"Hello world!"', "not-json"),
        ("42", "not-json"), ("true", "not-json"), ("", "not-json"), ("{'pattern': 1}", "not-json"),
        ("{pattern: 1}", "not-json"), ('{"pattern": 1,}', "not-json"), ('{"pattern": 013}', "not-json"),
        ('{"pattern": +1}', "not-json"), ('{"pattern": .5}', "not-json"), ('{"pattern": "\n"}', "not-json"),
        ('{"pattern": "\\x41"}', "not-json"), ('{"pattern": 1} {}', "not-json"), ('{"pattern": True}', "not-json"),
    ],
)  # fmt: skip
def test_what_is_no_json_object_is_no_request(text: str, code: str) -> None:
    try:
        is_object = isinstance(pydantic_core.from_json(text, allow_inf_nan=False), dict)
    except ValueError:
        is_object = False
    assert is_object == (code == "not-open")
    said = answer("cloth", text)
    (fragment,) = pydantic_core.from_json(said, allow_inf_nan=False)["fragments"]
    assert fragment["data"]["code"] == code
    # Section 8.1: UTF-8, and no byte order mark before it.
    assert said.encode()[:1] == b"{"
