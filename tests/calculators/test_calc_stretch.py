"""Which way a knit stretches, held against angles on paper and the custom of the trade."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Any

import pytest

from boltside.calculators.cutting_list import cutting_list_fragment
from boltside.calculators.grain_arrow import forwards
from boltside.calculators.request import read_request
from boltside.calculators.stretch import STRETCH_NOTES, stretches

Ask = Callable[..., dict[str, dict[str, Any]]]


@pytest.mark.outside  # geometry, on paper
@pytest.mark.parametrize(
    ("grain", "degrees", "runs"),
    # The greatest stretch lies across the cloth. Crosswise pieces have their grain line there too: 0 degrees. On the
    # bias it is 45 degrees off, lengthwise 90, which nobody needs to be told.
    [("crosswise", 0, "along"), ("bias", 45, "slanting"), ("lengthwise", 90, "across")],
)
def test_how_the_stretch_lies_to_the_grain_line(
    sheet: dict[str, Any], grain: str, degrees: int, runs: str
) -> None:
    across, along = (0, 1) if grain == "lengthwise" else forwards(grain, mirrored=False, turned=False)
    assert math.degrees(math.atan2(abs(along), abs(across))) == pytest.approx(degrees)
    items = [one | {"grain": grain, "stretch": runs} if one["id"] == "facing.outer" else one for one in sheet["items"]]
    rows = cutting_list_fragment(read_request({**sheet, "items": items}, {"choices": {"cloth": "knit"}})).data["rows"]
    (notes,) = [row["notes"] for row in rows if row["id"] == "facing.outer"]
    told = {0: ["the greatest stretch runs along its grain line"],
            45: ["the greatest stretch runs slanting to its grain line"], 90: []}[degrees]  # fmt: skip
    assert notes == told and set(STRETCH_NOTES) == {"along", "slanting"}


@pytest.mark.outside  # common practice: a knit gives most across, from selvedge to selvedge; woven cloth hardly at all
def test_knits_stretch_and_what_may_be_woven_does_not(ask: Ask, on_paper: Ask) -> None:
    assert [stretches(kinds) for kinds in (["knit"], ["woven"], ["interfacing"], ["woven", "knit"])] == [
        True, False, False, False,
    ]  # fmt: skip
    assert "runs across, between the selvedges" in ask("panel", choices={"cloth": "knit"})["cutting-list"]["text"]
    woven = on_paper("lay", cloth="outer")
    assert "stretch" not in woven["lay.outer"]["html"] and "stretch" not in woven["lay.outer.words"]["text"]


@pytest.mark.outside  # geometry, on paper: the arrow is as long as the cloth is wide
def test_the_arrow_is_as_long_as_the_cloth_is_wide() -> None:
    from boltside.calculators.lay_svg import lay_svg
    from boltside.calculators.strips import on_table

    drawn, _ = lay_svg([], table=on_table("flat", 1500), length_mm=900, nap=False, stretch=True, name="a", title="b",
                       about="c")  # fmt: skip
    (arrow,) = re.findall(r'class="bs-nap" d="([^"]+)"', drawn)
    ends = [int(x) for x in re.findall(r"H(\d+)", arrow)]
    assert max(ends) - min(ends) == 1500
