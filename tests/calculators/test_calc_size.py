"""Size from measurements: borders, disagreement, out of range, impossible."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.size_by_body import Found, size_for

Ask = Callable[..., dict[str, dict[str, Any]]]
SIZES = ["86", "92", "98"]
HEIGHTS = [860, 920, 980]


@pytest.mark.outside  # source: EN 13402 practice in the trade handbook, "92 is for 87-92 cm"
@pytest.mark.parametrize(
    ("height_mm", "size"), [(870, "92"), (900, "92"), (920, "92"), (930, "98"), (860, "86"), (810, "86")]
)
def test_the_label_is_the_upper_height(height_mm: int, size: str) -> None:
    assert size_for(height_mm, SIZES, HEIGHTS).size == size


def test_within_a_centimetre_of_a_border_is_between_two() -> None:
    assert size_for(911, SIZES, HEIGHTS) == Found("92", "98", "upper")
    assert size_for(909, SIZES, HEIGHTS) == Found("92")
    assert size_for(870, SIZES, HEIGHTS) == Found("92", "86", "lower")
    assert size_for(871, SIZES, HEIGHTS) == Found("92")


def test_out_of_range() -> None:
    assert size_for(801, SIZES, HEIGHTS) == Found("86")
    assert size_for(800, SIZES, HEIGHTS) == Found("", side="lower")
    assert size_for(981, SIZES, HEIGHTS) == Found("", side="upper")


def test_a_pattern_of_one_size_serves_up_to_it() -> None:
    assert size_for(920, ["92"], [920]) == Found("92")
    assert size_for(870, ["92"], [920]) == Found("92")
    assert size_for(921, ["92"], [920]) == Found("", side="upper")
    assert size_for(800, ["92"], [920]) == Found("", side="lower")


@given(st.integers(300, 1500), st.integers(300, 1500))
def test_law_larger_bodies_never_get_smaller_sizes(one_mm: int, other_mm: int) -> None:
    order = ["small", *SIZES, "large"]

    def rank(mm: int) -> int:
        found = size_for(mm, SIZES, HEIGHTS)
        return order.index(found.size or ("small" if found.side == "lower" else "large"))

    low, high = sorted((one_mm, other_mm))
    assert rank(low) <= rank(high)


def test_it_says_the_size_and_why(ask: Ask) -> None:
    said = ask("size", height="90", chest="49.5")
    assert said["size"]["text"] == "Size 92. Between two sizes: 92 fits now, 98 leaves room to grow."
    assert (
        said["size.why"]["text"]
        == "Chest 49.5 cm: size 92, cut for up to 50.3 cm; Height 90 cm: size 92, cut for up to 92 cm."
    )
    assert said["size"]["data"] == {"size": "92", "between": "98", "decides": "chest", "length_of": "92"}
    assert said["size.again"]["text"] == ""


def test_between_two_sizes(ask: Ask) -> None:
    assert ask("size", height="91.5")["size"]["text"] == (
        "Size 92. Between two sizes: 92 fits now, 98 leaves room to grow."
    )
    assert ask("size", height="92.5")["size"]["text"] == (
        "Size 98. Between two sizes: 92 is just outgrown, 98 leaves room to grow."
    )


def test_width_and_length_that_disagree(ask: Ask) -> None:
    said = ask("size", chest="47.5", height="92")
    assert said["size"]["text"] == "Size 86. Width of 86, length of 92."


def test_a_measurement_that_does_not_decide_is_used_with_a_word(ask: Ask) -> None:
    said = ask("size", hip="50")["size"]["text"]
    assert said.startswith("Size 92. ") and said.endswith(" By hip alone; this pattern goes by chest, then height.")


def test_out_of_range_names_the_nearest_size(ask: Ask) -> None:
    assert ask("size", height="130")["size"]["text"] == (
        "Height 130 cm: too large for the largest size, 116, cut for up to 116 cm."
    )
    assert ask("size", height="55")["size"]["text"] == "Height 55 cm: too small for the smallest size, 68."


def test_inches_in_the_field_for_centimetres_and_the_other_way_round(ask: Ask) -> None:
    assert ask("size", height="40")["size"]["text"] == (
        "Height 40 cm: too small for the smallest size, 68. If you mean inches, type 40 in."
    )
    assert ask("size", unit="in", chest="50")["size"]["text"].endswith(" If you mean centimetres, type 50 cm.")
    # With its unit it is meant; and where no size would fit in the other unit either, nothing is offered.
    assert ask("size", height="40 cm")["size"]["text"].endswith("smallest size, 68.")
    assert ask("size", height="55")["size"]["text"].endswith("smallest size, 68.")


def test_a_height_that_no_size_has_is_said_beside_the_size(ask: Ask) -> None:
    assert ask("size", chest="49", height="125")["size"]["text"].endswith(" The height is larger than every size.")


def test_another_girth_that_matters_and_disagrees_is_said(sheet: dict[str, Any]) -> None:
    from boltside.calculators.size import size_fragments

    def said(**typed: str) -> str:
        return size_fragments({**sheet, "size_by": ["hip", "waist", "height"]}, typed)[0].said.text

    assert said(hip="52", waist="46").endswith(" By waist it would be 92.")
    assert "By waist" not in said(hip="52", waist="48.5")


def test_impossible_measurements_get_a_sentence(ask: Ask) -> None:
    assert ask("size", height="9")["size"]["text"] == (
        "Height: 9 cm can't be a child's height. Type a number such as 92, or with its unit: 92 cm, 36 in."
    )
    assert ask("size", height="36")["size"]["text"] == (
        "Height: 36 cm can't be a child's height. If you mean inches, type 36 in."
    )
    assert ask("size", height="92", chest="95")["size"]["text"] == (
        "A chest of 95 cm and a height of 92 cm can't both be right. Measure again, or look which field is which."
    )
    assert ask("size", height="92 kg")["size"]["text"] == (
        "Height: “92 kg” is not a height. Type a number such as 92, or with its unit: 92 cm, 36 in."
    )


def test_nothing_typed_asks_for_what_decides(ask: Ask) -> None:
    assert ask("size", waist="  ")["size"]["text"] == "Type the chest or the height."


def test_measurements_far_apart_are_worth_measuring_again(ask: Ask) -> None:
    said = ask("size", chest="41", height="110")["size.again"]
    assert said["kind"] == "warning"
    assert said["text"] == "These measurements lie 7 sizes apart. Measure once more before you cut."


def test_inches_are_read_and_answered(ask: Ask) -> None:
    said = ask("size", unit="in", height="35 1/2")
    assert said["size"]["data"]["size"] == "92"
    assert said["size.why"]["text_inch"] == "Height 35 1/2 in: size 92, cut for up to 36 1/4 in."


def test_every_row_of_the_chart_finds_its_own_size(ask: Ask, sheet: dict[str, Any]) -> None:
    for size, row in sheet["body"]["rows"].items():
        said = ask("size", **{name: f"{mm} mm" for name, mm in row.items()})
        assert said["size"]["data"]["size"] == size
        assert set(said["size.why"]["data"]["by"].values()) == {size}
