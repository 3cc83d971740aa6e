"""A request made safe, held against the kinds of values that JSON has."""

from __future__ import annotations

import json
from typing import Any

import pytest

from boltside.calculators.request import read_request


@pytest.mark.outside  # RFC 8259, 3: the kinds of JSON values; 7: escaped signs, the clef of its example among them
@pytest.mark.parametrize(
    ("value", "typed"),
    [
        ("false", ""), ("null", ""), ("true", ""), ("{}", ""), ('{"size": "92"}', ""), ("[]", ""), ('["92"]', ""),
        ("92", "92"), ("-0", "0"), ('"92"', "92"), ('"\\u0039\\u0032"', "92"), ('"\\uD834\\uDD1E"', "\U0001d11e"),
        ('"a\\/b"', "a/b"), ('""', ""), ("1e400", ""),
    ],
)  # fmt: skip
def test_every_json_value_in_every_field_is_read_safely(sheet: dict[str, Any], value: str, typed: str) -> None:
    sized = read_request(sheet, json.loads(f'{{"size": {value}, "second": {value}, "cut": {value}, "unit": {value}}}'))
    assert (sized.size_typed, sized.second_typed) == (typed, typed)
    assert sized.size == ("92" if typed in ("", "92") else None)
    assert sized.second == ("92" if typed == "92" else None)
    fields = ("width", "way", "nap", "wash", "along", "across", "pattern", "every", "uneven", "price")
    cloth = ", ".join(f'"{field}": {value}' for field in fields)
    asked = read_request(sheet, json.loads(f'{{"choices": {{"length": {value}}}, "cloths": {{"outer": {{{cloth}}}}}}}'))
    read = [asked.widths, asked.ways, asked.naps, asked.washes, asked.alongs, asked.acrosses, asked.repeats,
            asked.everys, asked.unevens, asked.prices, {"outer": asked.words["length"]}]  # fmt: skip
    assert [one["outer"] for one in read] == [typed] * 11
    assert asked.chosen["length"] == "hip"
    whole = read_request(sheet, json.loads(f'{{"choices": {value}, "cloths": {value}}}'))
    assert whole.chosen == read_request(sheet, {}).chosen
