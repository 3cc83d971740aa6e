"""Stripes in the answer: what they add, by which of two ways, and what is said of it."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.door import answer

Ask = Callable[..., dict[str, dict[str, Any]]]
TYPED_MM = st.integers(5, 1000)


def outer(ask: Ask, calculator: str = "cloth", unit: str = "cm", size: str = "92", **asked: str) -> dict[str, Any]:
    return ask(calculator, unit=unit, size=size, cloths={"outer": asked})


def two_rows(ask: Ask, unit: str, **asked: str) -> dict[str, Any]:
    """The example on cloth of 110 cm, flat, where its pieces lie in two rows."""
    return outer(ask, "panel", unit, width="110 cm", way="flat", **asked)


@pytest.mark.outside
def test_two_rows_of_a_repeat_of_4_and_a_quarter_inches_take_8_and_a_half_more(ask: Ask) -> None:
    # Source: the worked example in trade.md: 4 1/4 in x 2 rows = 8 1/2 in.
    plain = two_rows(ask, "in")
    said = two_rows(ask, "in", pattern="own", every="4 1/4")
    assert said["cloth.outer"]["data"]["repeat"] == {"how": "rule", "along_mm": 107.95, "rows": 2, "extra_mm": 215.9}
    assert said["cloth.outer"]["data"]["needed_mm"] == plain["cloth.outer"]["data"]["needed_mm"], "the lay is the same"
    assert "the repeat 8 1/2 in more (rule of thumb, 2 rows ×\u00a04 1/4 in)" in said["cloth.outer.how"]["text_inch"]
    assert "2 rows ×\u00a04 1/4 in, 8 1/2 in (a rule of thumb, by a worked" in said["why.cloth.outer"]["text_inch"]
    assert said["cloth.outer.repeat"]["text_inch"] == "By the rule of thumb: 2 rows ×\u00a04 1/4 in."
    # 29 1/4 in of pieces, squared ends and 8 1/2 in are 39 1/8 in: 8.7 eighths of a yard, so 9 are bought.
    length_mm = plain["cloth.outer"]["data"]["needed_mm"] + 30 + 215.9
    assert said["cloth.outer"]["data"]["buy_eighth_yards"] == -(-length_mm // 114.3)


def test_the_note_by_the_rule_of_thumb(ask: Ask) -> None:
    said = outer(ask, pattern="own", every="12")
    assert said["cloth.outer"]["text"] == "Outer cloth, 140 cm wide, repeat of 12 cm: 0.55 m"
    assert said["cloth.outer.repeat"]["text"] == "By the rule of thumb: 1 row ×\u00a012 cm."
    assert said["cloth.outer.repeat.how"]["text"] == (
        "A rule of thumb, not a layout: one repeat more for each row of pieces along the cloth, here 1 row ×\u00a0"
        "12 cm. Meant is the repeat as you measure it on the bolt."
    )
    silent = outer(ask)
    assert silent["cloth.outer.repeat"]["text"] == silent["cloth.outer.repeat.how"]["text"] == ""
    assert "repeat" not in silent["cloth.outer"]["data"]


def test_a_repeat_that_is_not_typed_yet_is_said_to_be_missing(ask: Ask) -> None:
    said = outer(ask, pattern="own")
    assert said["cloth.outer"]["text"] == outer(ask)["cloth.outer"]["text"]
    assert said["cloth.outer.repeat"]["text"] == "Stripes or checks are not counted yet."


def test_what_can_not_be_is_said_where_the_amount_would_stand(ask: Ask) -> None:
    said = outer(ask, pattern="own", every="-3")
    assert said["cloth.outer"]["kind"] == "problem" and said["cloth.outer"]["data"]["code"] == "negative"
    assert said["cloth.outer"]["text"].startswith("Outer cloth: A repeat can't be less than nothing: “-3”. Type ")
    assert said["cloth.lining"]["kind"] == "figure", "the rest is answered"


def test_uneven_ones_are_laid_flat_and_all_one_way_and_it_is_said(ask: Ask) -> None:
    said = outer(ask, "panel", pattern="own", every="12", uneven="yes", way="folded")
    assert said["cloth.outer"]["data"]["way"] == "flat" and said["cloth.outer"]["data"]["nap_used"] == "with"
    assert "laid in one layer, all one way" in said["cloth.outer.repeat.how"]["text"]
    assert "So it is reckoned laid flat, whatever is chosen above." in said["cloth.outer.repeat.how"]["text"]
    assert "(a textbook)" in said["why.cloth.outer"]["text"]
    flat = outer(ask, pattern="own", every="12", uneven="yes", way="flat")
    assert flat["cloth.outer"] == said["cloth.outer"]
    assert "whatever is chosen" not in flat["cloth.outer.repeat.how"]["text"]
    napped = outer(ask, way="flat", nap="with")["cloth.outer"]["data"]
    assert said["cloth.outer"]["data"]["needed_mm"] == napped["needed_mm"]


def test_uneven_stripes_on_cloth_that_was_never_laid_so(sheet: dict[str, Any], ask: Ask) -> None:
    lays = {name: {way: naps for way, naps in ways.items() if way != "flat"} for name, ways in sheet["lays"].items()}
    folded = {**sheet, "pattern": "folded-jacket", "lays": lays}
    folded["cloths"] = [{**cloth, "ways": ["folded"]} for cloth in sheet["cloths"]]
    answer("open", json.dumps(folded))
    asked = {"pattern": "folded-jacket", "cloths": {"outer": {"pattern": "own", "every": "12", "uneven": "yes"}}}
    (note, *_) = json.loads(answer("cloth", json.dumps(asked)))["fragments"]
    assert note["data"]["code"] == "not-in-one-layer" and "in one layer" in note["text"]


def test_a_listed_repeat_is_answered_by_its_own_lays(ask: Ask, sheet: dict[str, Any]) -> None:
    said = outer(ask, "panel", pattern="repeat:stripes-40", width="110")
    lays = sheet["lays"]["outer"]["folded"]["repeat:stripes-40"]["92"]
    data = said["cloth.outer"]["data"]
    assert data["needed_mm"] == lays[data["set"]][0][1] and data["lay"]["number"] == lays[data["set"]][0][2]
    assert data["repeat"] == {"how": "in-step", "along_mm": 40, "rows": lays[data["set"]][0][3], "extra_mm": 0}
    assert "repeat of 4 cm in step" in said["cloth.outer"]["text"]
    assert "with its notches in step every 4 cm" in said["cloth.outer.how"]["text"]
    assert said["cloth.outer.repeat"]["text"] == "Laid with its notches in step: “Stripes across, every 4 cm”."
    assert "its notches in step every 4 cm: these pieces take" in said["why.cloth.outer"]["text"]
    assert "rule of thumb" not in said["why.cloth.outer"]["text"]


def test_where_a_way_has_no_lay_in_step_the_one_that_has_is_named(ask: Ask) -> None:
    said = outer(ask, pattern="repeat:checks-60", way="flat")["cloth.outer"]
    assert said["data"]["code"] == "not-in-step"
    assert said["text"] == ("Outer cloth: no layout keeps “Checks of 6 cm” in step, laid flat, in one layer. "
                            "Folded once there is one.")  # fmt: skip
    assert outer(ask, pattern="repeat:checks-60", way="folded")["cloth.outer"]["kind"] == "figure"


def test_a_listed_repeat_is_meant_as_the_cloth_is_cut(ask: Ask) -> None:
    unwashed = outer(ask, pattern="repeat:checks-60")["cloth.outer.repeat.how"]["text"]
    kept = "Meant is the repeat as it is when you cut; if yours is another, choose “Another” and type it."
    assert unwashed.endswith(kept)
    # 60 mm are what is left of 60 / 0.95 = 63.2 mm; a knit or an own figure may lose more along than across.
    washed = outer(ask, pattern="repeat:checks-60", wash="usual")["cloth.outer.repeat.how"]["text"]
    assert "On the bolt that is every 6.3 cm along it and 6.3 cm across" in washed
    own = {"wash": "own", "along": "10", "across": "0"}
    along = outer(ask, pattern="repeat:stripes-40", **own)["cloth.outer.repeat.how"]["text"]
    assert "On the bolt that is every 4.4 cm along it; if" in along


def test_folded_cloth_is_pinned_in_step_and_checks_are_folded_on_a_middle(ask: Ask) -> None:
    """A fold mirrors what is on it: the layers only meet where it lies on a line about which the checks are alike."""
    checks = outer(ask, pattern="repeat:checks-60", way="folded")["cloth.outer.repeat.how"]["text"]
    assert checks.startswith(
        "Fold it so that the fold runs along the middle of a check. Pin the two layers together check on check before"
    )
    stripes = {way: outer(ask, pattern="repeat:stripes-40", way=way)["cloth.outer.repeat.how"]["text"]
               for way in ("flat", "folded")}  # fmt: skip
    assert stripes["folded"].startswith("Pin the two layers together stripe on stripe before you cut.")
    assert "Pin" not in stripes["flat"]


def test_lays_in_step_answer_on_cloth_with_nap_too(ask: Ask) -> None:
    """Cloth with a repeat is always laid one way (pattern-format.md), so nothing in them lies head to foot."""
    without, napped = (outer(ask, pattern="repeat:stripes-40", nap=nap) for nap in ("without", "with"))
    for key in ("needed_mm", "buy_mm", "lay", "repeat"):
        assert napped["cloth.outer"]["data"][key] == without["cloth.outer"]["data"][key]
    assert napped["cloth.outer"]["data"]["repeat"]["how"] == "in-step"
    assert "wide, with nap, repeat of 4 cm in step: " in napped["cloth.outer"]["text"]
    knit = ask("cloth", choices={"cloth": "knit"}, cloths={"outer": {"pattern": "repeat:stripes-40"}})["cloth.outer"]
    assert knit["data"]["nap_used"] == "with" and knit["data"]["repeat"]["how"] == "in-step"


def test_a_typed_repeat_that_is_listed_points_to_its_lays(ask: Ask) -> None:
    assert "choose “Stripes across, every 4 cm” instead" in outer(ask, pattern="own", every="40 mm")[
        "cloth.outer.repeat.how"]["text"]  # fmt: skip
    uneven = outer(ask, pattern="own", every="40 mm", uneven="yes")["cloth.outer.repeat.how"]["text"]
    assert "instead" not in uneven, "the listed one is even"


def test_cost_wider_cloth_and_other_ways_count_the_repeat(ask: Ask) -> None:
    plain = outer(ask, "panel", width="110", price="10", way="folded")
    said = outer(ask, "panel", width="110", price="10", way="folded", pattern="own", every="30")
    extra_mm = said["cloth.outer"]["data"]["repeat"]["extra_mm"]
    assert extra_mm > 0
    bought = [one["cloth.outer"]["data"]["buy_mm"] for one in (plain, said)]
    assert [one["cost.outer"]["data"]["coins"] for one in (plain, said)] == bought, "10.00 a metre: a coin a mm"
    wider = said["cloth.outer.wider"]["data"]
    assert wider["saves_mm"] == bought[1] - wider["buy_mm"]
    again = outer(ask, width=f"{wider['width_mm']} mm", way="folded", pattern="own", every="30")["cloth.outer"]
    assert again["data"]["buy_mm"] == wider["buy_mm"], "whoever takes the wider cloth is told the same"
    flat = outer(ask, width="110", way="flat", pattern="own", every="30")["cloth.outer"]["data"]
    assert said["cloth.outer"]["data"]["flat_saves_mm"] in (0, bought[1] - flat["buy_mm"])


@given(TYPED_MM, TYPED_MM, st.sampled_from(["folded", "flat"]), st.sampled_from(["110", "137", "140", "150"]),
       st.sampled_from(["", "usual"]), st.sampled_from(["68", "92", "116"]))  # fmt: skip
def test_law_a_repeat_never_makes_it_less_and_a_larger_one_never_less_than_a_smaller(
    one: int, other: int, way: str, width: str, wash: str, size: str
) -> None:
    def said(**asked: str) -> dict[str, Any] | None:
        cloths = {"outer": {"width": width, "way": way, "wash": wash, **asked}}
        text = json.dumps({"pattern": "example-jacket", "size": size, "cloths": cloths})
        note = json.loads(answer("cloth", text))["fragments"][0]
        return note["data"] if note["kind"] == "figure" else None

    small, large = sorted((one, other))
    plain, less, more = said(), said(pattern="own", every=f"{small} mm"), said(pattern="own", every=f"{large} mm")
    assert (plain is None) == (less is None) == (more is None)
    if plain is None or less is None or more is None:
        return
    assert plain["buy_mm"] <= less["buy_mm"] <= more["buy_mm"]
    rows = less["repeat"]["rows"]
    assert less["repeat"]["extra_mm"] == rows * small
    assert less["buy_mm"] - plain["buy_mm"] >= rows * small - 50, "all rows are bought, but for the rounding before"


@pytest.fixture(autouse=True)
def _opened(ask: Ask) -> None:
    """The example is open for the law too, which takes no fixture of a single test."""
