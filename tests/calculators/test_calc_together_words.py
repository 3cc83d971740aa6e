"""What is said of cloth for two garments, held against lays that are right on paper."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

Ask = Callable[..., dict[str, dict[str, Any]]]


@pytest.mark.outside  # geometry, on paper
@pytest.mark.parametrize(
    ("second", "width", "words"),
    # Four rectangles each, 45 cm across. On 100 cm two lie beside each other: two rows a garment, four for both,
    # however they are mixed: 4 x 70 = 280 cm. On 140 cm three do: eight make three rows, 210 cm, where two garments
    # one behind the other (3 + 1 and 3 + 1) make four. In 92 and 98: 2 x 70 and 2 x 72.
    [
        ("92", "100", "No layout of both together was shorter than one behind the other: each takes 1.40 m, "
                      "together 2.80 m"),
        ("92", "140", "their pieces take 2.10 m, where the two alone take 2.80 m one behind the other"),
        ("98", "100", "size 92 takes 1.40 m, size 98 1.44 m, together 2.84 m"),
    ],
)  # fmt: skip
def test_lengths_of_two_garments_are_those_on_paper(on_paper: Ask, second: str, width: str, words: str) -> None:
    said = on_paper("cloth", size="92", second=second, cloths={"outer": {"width": width}})["cloth.outer.how"]
    assert words in said["text"]
