"""How the shop cuts: the steps, and that amounts are rounded up last and only upwards."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.shop_cuts import CUTS, FINER, cuts_of, step_words
from boltside.calculators.units import COARSE, FINE, Shown, buy_mm, eighth_yards

Ask = Callable[..., dict[str, dict[str, Any]]]


@pytest.mark.outside  # source: the pint library's unit tables; the steps are common practice
def test_the_steps_are_those_of_the_trade() -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    for cuts, metric, yards in ((FINE, "5 cm", 0.125), (COARSE, "10 cm", 0.25)):
        assert registry(metric).to("mm").magnitude == pytest.approx(cuts.step_mm)
        assert cuts.eighths / 8 == yards
    quarter_mm = float((registry("yard") / 4).to("mm").magnitude)
    assert eighth_yards(quarter_mm, COARSE) == 2 and eighth_yards(quarter_mm + 0.1, COARSE) == 4


@given(st.integers(0, 60_000))
def test_law_coarser_steps_never_give_less(tenths: int) -> None:
    mm = tenths / 10
    assert mm <= buy_mm(mm) <= buy_mm(mm, COARSE) < mm + 100
    assert eighth_yards(mm) <= eighth_yards(mm, COARSE) <= eighth_yards(mm) + 1


def test_the_usual_comes_first_and_other_words_mean_it() -> None:
    assert next(iter(CUTS)) == FINER and cuts_of("odd") == cuts_of("") == FINE
    assert [step_words(cuts) for cuts in CUTS.values()] == [Shown("5 cm", "1/8 yd"), Shown("10 cm", "1/4 yd")]


def test_the_answer_is_rounded_as_the_shop_cuts(ask: Ask) -> None:
    # 706 + 30 = 736 mm on 110 cm: 75 cm, or 80 where only full 10 cm are cut; 6.4 eighths of a yard: 7/8, or 1 yd.
    cloths = {"outer": {"width": "110", "way": "flat"}}
    fine, coarse = (ask("panel", size="92", cloths=cloths, cut=cut) for cut in ("fine", "coarse"))
    said = [one["cloth.outer"] for one in (fine, coarse)]
    assert [one["text"] for one in said] == ["Outer cloth, 110 cm wide: 0.75 m", "Outer cloth, 110 cm wide: 0.80 m"]
    assert [one["data"]["buy_eighth_yards"] for one in said] == [7, 8]
    assert "Rounded up to full 10 cm: 0.80 m (common practice)." in coarse["why.cloth.outer"]["text"]
    assert fine == ask("panel", size="92", cloths=cloths)
    assert coarse["notion.hem-tape"] == fine["notion.hem-tape"]
