"""What a longer garment takes of the cloth, held against lays that are right on paper."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from boltside.calculators.longer import whole_up

Ask = Callable[..., dict[str, dict[str, Any]]]


@pytest.mark.outside  # geometry, on paper
@pytest.mark.parametrize(
    ("sleeves", "width", "more", "buy"),
    # Each rectangle grows from 70 to 72 cm along the cloth, and lies end to end with those of its column. Four, two
    # beside each other: 2 x 72 = 144 cm instead of 140. Six, two beside each other: 3 x 72 = 216 instead of 210. Six,
    # three beside each other: 144 instead of 140. With 3 cm for the ends: 147, 219, 147; up to 5 cm.
    [("none", "100", "4 cm", "1.50 m"), ("long", "100", "6 cm", "2.20 m"), ("long", "140", "4 cm", "1.50 m")],
)
def test_rectangles_end_to_end_take_as_much_more_as_they_grow(
    on_paper: Ask, sleeves: str, width: str, more: str, buy: str
) -> None:
    # The chest of 92 (at most 50.3 cm), the height of 98.
    said = on_paper("size", height="98", chest="50", choices={"sleeves": sleeves}, cloths={"outer": {"width": width}})
    assert said["size.longer"]["text"] == (
        "Body: lengthen by 2 cm, at the line in the middle. "
        f"Outer cloth: at most {more} more, so buy {buy}."
    )


@pytest.mark.outside  # geometry, on paper: 7/8 in are 22.225 mm, two rows of it 44.45
def test_a_lay_grows_by_whole_millimetres_upwards() -> None:
    assert whole_up(2 * 22.225) == 45
