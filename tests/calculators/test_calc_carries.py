"""Which copy carries what, held against a turn on paper and the custom of the trade."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from boltside.calculators.carries import SIDES, copy_words

Ask = Callable[..., dict[str, dict[str, Any]]]


@pytest.mark.outside  # geometry, on paper
def test_the_wearers_left_is_on_the_right_of_who_stands_before() -> None:
    # Seen from above, the wearer looks north (0, 1); a quarter turn to the left of (x, y) is (-y, x), to the right
    # (y, -x). So her left hand is in the west. Who faces her looks south (0, -1), with the west on her right.
    looks, faces = (0, 1), (0, -1)
    left_of_wearer, right_of_wearer = (-looks[1], looks[0]), (looks[1], -looks[0])
    left_of_other, right_of_other = (-faces[1], faces[0]), (faces[1], -faces[0])
    seen = {left_of_other: "left", right_of_other: "right"}
    for name, hand in (("wearers-left", left_of_wearer), ("wearers-right", right_of_wearer)):
        assert SIDES[name][1] == f"on your {seen[hand]} as you look at the wearer"
        assert copy_words(name, seen=True).startswith(f"wearer's {name.removeprefix('wearers-')} (on your {seen[hand]}")


@pytest.mark.outside  # common practice: what lies on top has the holes, what lies below the buttons
@pytest.mark.parametrize(("overlap", "on_top", "below"), [("left-over-right", "left", "right"),
                                                          ("right-over-left", "right", "left")])  # fmt: skip
def test_the_side_on_top_carries_the_holes(ask: Ask, overlap: str, on_top: str, below: str) -> None:
    text = ask("panel", choices={"overlap": overlap})["cutting-list"]["text"]
    carries = {word: text.split(f"wearer's {word} (")[1].split(";")[0] for word in ("left", "right")}
    assert carries[on_top].endswith("carries the buttonholes")
    assert carries[below].endswith("carries the buttons")
