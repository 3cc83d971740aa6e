"""Why a figure for two garments is what it is, held against sums on paper."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from boltside.calculators.why_together import counted_up, summed

Ask = Callable[..., dict[str, dict[str, Any]]]


@pytest.mark.outside  # geometry, on paper
def test_two_lays_one_behind_the_other_are_as_long_as_both(on_paper: Ask) -> None:
    # Four rectangles, two beside each other: 2 x 70 = 140 cm in size 92, 2 x 72 = 144 in 98; 284 and 3 for the two
    # ends of one cut: 287, up to 5 cm 2.90 m. Squared twice it would be 2.90 as well, so the text has to say it.
    said = on_paper("panel", size="98", second="92")["why.cloth.outer"]
    assert "Size 92, laid out beforehand on cloth 100 cm wide: 1.40 m. Size 98, laid" in said["text"]
    assert "100 cm wide: 1.44 m." in said["text"] and said["text"].count("3 cm more") == 1
    assert said["data"] == {"lay_mm": 2840, "squaring_mm": 30, "buy_mm": 2900}


@pytest.mark.outside  # arithmetic on paper: 18 1/2 + 19 1/4 = 37 3/4 in; 46.99 + 48.895 = 95.885 cm
def test_inches_of_two_garments_are_added_as_on_paper() -> None:
    (both,) = summed([18.5 * 25.4, 19.25 * 25.4])
    assert both.said.text_inch == "Both together: 18 1/2 in + 19 1/4 in: 37 3/4 in"
    assert summed([470.0]) == []


@pytest.mark.outside  # arithmetic on paper
def test_buttons_of_two_garments_are_added_as_on_paper() -> None:
    assert [one.said.text for one in counted_up([5, 6])] == ["Both together: 5 + 6: 11"]
    assert counted_up([5, None]) == []
