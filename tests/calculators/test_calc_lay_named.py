"""Which lay is drawn for an answer, held against what fits beside each other on paper."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from cases.paper_sheet import NUMBERS

Ask = Callable[..., dict[str, dict[str, Any]]]


@pytest.mark.outside  # geometry, on paper
@pytest.mark.parametrize(
    ("width", "made_for", "number"),
    # Rectangles of 45 cm; 1.5 cm beside each selvedge stay free. Three need 3 x 45 + 3 = 138 cm, two 93, four 183. So
    # bolts of 100 and 137 cm take the layout of two beside each other, which was made for 100, and bolts of 140 and
    # 180 that of three, which was made for 140.
    [("100", 1000, "all 1000"), ("137", 1000, "all 1000"), ("140", 1400, "all 1400"), ("180", 1400, "all 1400")],
)
def test_the_layout_is_that_of_as_many_as_fit_beside_each_other(
    on_paper: Ask, width: str, made_for: int, number: str
) -> None:
    said = on_paper("cloth", choices={"sleeves": "long"}, cloths={"outer": {"width": width}})["cloth.outer"]["data"]
    assert said["lay"] == {"key": "outer.flat.92", "number": NUMBERS[number], "width_mm": made_for}


@pytest.mark.outside  # geometry, on paper
def test_of_two_garments_the_one_behind_is_named_too(on_paper: Ask) -> None:
    # Nothing on paper brings 92 and 98 below 2 x 70 + 2 x 72 = 284 cm on 100 cm, so each keeps a layout of its own,
    # the second behind the first; 92 twice makes three rows of three on 140 cm, which is one layout.
    each = on_paper("cloth", size="98", second="92")["cloth.outer"]["data"]
    assert each["needed_mm"] == 2840
    assert each["lay"] == {
        "key": "outer.flat.92", "number": NUMBERS["panels 1000"], "width_mm": 1000,
        "behind": {"key": "outer.flat.98", "number": NUMBERS["panels 1000"], "width_mm": 1000},
    }  # fmt: skip
    joint = on_paper("cloth", size="92", second="92", cloths={"outer": {"width": "140"}})["cloth.outer"]["data"]
    assert joint["lay"] == {"key": "outer.flat.92+92", "number": NUMBERS["two 1400"], "width_mm": 1400}
