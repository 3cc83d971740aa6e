"""A shopping list, held against sums on paper: each purchase is rounded once, and only what is alike is one purchase.

The lengths of the single lays are read from the sheet by a line of this file; all sums after that are exact fractions.
"""

from __future__ import annotations

import copy
import json
import random
from fractions import Fraction
from math import ceil
from typing import Any

import pytest

from boltside.calculators.door import answer

SQUARING = 30
"""Ends of a cut are squared by 3 cm. Common practice."""
EIGHTH_YARD = Fraction("914.4") / 8
"""1 yd = 0.9144 m. Source: international yard and pound agreement, 1959."""

Sheet = dict[str, Any]
Fragments = dict[str, dict[str, Any]]


@pytest.fixture(autouse=True)
def _opened(sheet: Sheet) -> None:
    # A second pattern with other notions and a knit lining, under a name of its own.
    other = copy.deepcopy(sheet)
    other |= {"pattern": "example-cap", "name": "Example cap"}
    for one in (sheet, other):
        answer("open", json.dumps(one))
    answer("open-shop", json.dumps({"format": 1, "currency": "EUR", "patterns": {
        "example-jacket": {"name": "Example jacket"}, "far": {"name": "Far away"}}}))  # fmt: skip


def listed(*items: dict[str, Any], cut: str = "") -> Fragments:
    said = json.loads(answer("shopping", json.dumps({"items": list(items), "cut": cut})))
    assert said["calculator"] == "shopping"
    return {fragment["id"]: fragment for fragment in said["fragments"]}


def jacket(name: str, size: str = "92", **more: Any) -> dict[str, Any]:
    return {"id": name, "pattern": "example-jacket", "edition": "1", "size": size, "choices": {}, "cloths": {}, **more}


def from_one(bolt: str = "b", **more: str) -> dict[str, Any]:
    return {"outer": {"bolt": bolt, **more}}


def lay_mm(sheet: Sheet, size: str, width_mm: int = 1400, nap: str = "without") -> int:
    """The lay of the usual jacket's outer pieces, folded, as published."""
    wanted = {"back.outer.hip", "facing.outer", "front.outer.hip", "sleeve.outer"}
    at = next(at for at, members in enumerate(sheet["sets"]["outer"]) if set(members) == wanted)
    steps = sheet["lays"]["outer"]["folded"][nap][size][at]
    return int(min(length for wide, length, *_ in steps if wide <= width_mm))


def bought(length: Fraction | int, step: int = 50) -> int:
    return ceil(Fraction(length) / step) * step


@pytest.mark.outside  # exact arithmetic with fractions
def test_lays_of_one_cloth_lie_one_behind_the_other_and_are_rounded_once(sheet: Sheet) -> None:
    one, other = lay_mm(sheet, "92"), lay_mm(sheet, "104")
    said = listed(jacket("a", cloths=from_one()), jacket("b", "104", cloths=from_one()))
    line = said["buy.cloth.b"]
    assert line["data"]["buy_mm"] == bought(one + other + SQUARING)
    assert line["data"]["buy_eighth_yards"] == ceil((one + other + SQUARING) / EIGHTH_YARD)
    assert line["data"]["needs"] == [["a", "outer"], ["b", "outer"]]
    assert "one behind the other" in said["buy.cloth.b.how"]["text"] and said["buy.safe"]["text"]
    apart = listed(jacket("a"), jacket("b", "104"))
    alone = [apart[f"buy.cloth.{name}.outer"]["data"]["buy_mm"] for name in "ab"]
    assert alone == [bought(one + SQUARING), bought(other + SQUARING)]
    assert max(alone) < line["data"]["buy_mm"] <= sum(alone)
    assert apart["buy.safe"]["text"] == ""


def test_rounding_once_saves_what_rounding_twice_would_cost(sheet: Sheet) -> None:
    sizes = [(a, b) for a in sheet["sizes"] for b in sheet["sizes"]]
    saved = {bought(lay_mm(sheet, a) + 30) + bought(lay_mm(sheet, b) + 30) - bought(lay_mm(sheet, a)
             + lay_mm(sheet, b) + 30) for a, b in sizes}  # fmt: skip
    assert max(saved) >= 50, "some pair shows the difference"
    for a, b in sizes[::7]:
        said = listed(jacket("a", a, cloths=from_one()), jacket("b", b, cloths=from_one()))
        assert said["buy.cloth.b"]["data"]["buy_mm"] == bought(lay_mm(sheet, a) + lay_mm(sheet, b) + SQUARING)


@pytest.mark.outside  # exact arithmetic with fractions
def test_the_first_wash_is_counted_once_for_the_whole_length(sheet: Sheet) -> None:
    cloths = from_one(wash="own", along="5", across="0")
    said = listed(jacket("a", cloths=cloths), jacket("b", "104", cloths=cloths))
    length = Fraction(lay_mm(sheet, "92") + lay_mm(sheet, "104") + SQUARING) / Fraction(95, 100)
    assert said["buy.cloth.b"]["data"]["buy_mm"] == bought(length)


def test_a_shop_that_cuts_coarsely_does_so_for_the_whole_list(sheet: Sheet) -> None:
    total = lay_mm(sheet, "92") + lay_mm(sheet, "104") + SQUARING
    said = listed(jacket("a", cloths=from_one()), jacket("b", "104", cloths=from_one(), cut="fine"), cut="coarse")
    assert said["buy.cloth.b"]["data"]["buy_mm"] == bought(total, 100)
    assert said["buy.cloth.b"]["data"]["buy_eighth_yards"] == 2 * ceil(total / (2 * EIGHTH_YARD))


@pytest.mark.parametrize(
    "unlike",
    [{"width": "150"}, {"nap": "with"}, {"wash": "usual"}, {"pattern": "own", "every": "12"}],
    ids=lambda one: next(iter(one)),
)
def test_what_is_not_alike_stays_apart_whatever_was_said(unlike: dict[str, str]) -> None:
    said = listed(jacket("a", cloths=from_one()), jacket("b", cloths=from_one(**unlike)))
    assert said["buy.cloth.b"]["data"]["needs"] == [["a", "outer"]]
    assert said["buy.cloth.b.outer"]["data"]["needs"] == [["b", "outer"]]
    assert "Not cut from one cloth" in said["buy.cloth.b.outer.join"]["text"]
    assert "b.outer" not in [one["key"] for one in said["buy.cloth.b.join"]["data"]["join"]]


def test_woven_and_knit_and_interfacing_are_never_one_cloth() -> None:
    knit = jacket("b", choices={"cloth": "knit"}, cloths=from_one(nap="with"))
    said = listed(jacket("a", cloths=from_one(nap="with")), knit)
    assert said["buy.cloth.b"]["data"]["needs"] == [["a", "outer"]]
    wide = {"interfacing": {"bolt": "c", "width": "140"}, "lining": {"bolt": "c", "width": "140"}}
    both = listed(jacket("a", cloths=wide))
    assert len([name for name in both if name.startswith("buy.cloth.") and name.endswith(".how")]) == 3


def test_outer_cloth_and_lining_can_be_one_cloth_of_one_garment(sheet: Sheet) -> None:
    said = listed(jacket("a", cloths={"outer": {"bolt": "c"}, "lining": {"bolt": "c"}}))
    assert said["buy.cloth.c"]["data"]["needs"] == [["a", "outer"], ["a", "lining"]]
    assert said["buy.cloth.c"]["text"].startswith("Outer cloth and Lining, 140 cm wide: ")


def test_each_line_says_with_which_others_it_can_be_one_cloth() -> None:
    said = listed(jacket("a"), jacket("b", cloths={"outer": {"width": "150"}}))
    keys = [one["key"] for one in said["buy.cloth.a.outer.join"]["data"]["join"]]
    assert keys == ["a.lining", "b.lining"], "the other outer cloth is wider, interfacing is another kind"


def test_two_at_once_are_one_entry(sheet: Sheet) -> None:
    both = json.loads(answer("panel", json.dumps({"pattern": "example-jacket", "size": "92", "second": "104"})))
    alone = next(one for one in both["fragments"] if one["id"] == "cloth.outer")["data"]
    said = listed(jacket("a", second="104"), jacket("b", cloths=from_one("a.outer")))
    total = alone["needed_mm"] + lay_mm(sheet, "92") + SQUARING
    assert said["buy.cloth.a.outer"]["data"]["buy_mm"] == bought(total)


def test_one_garment_alone_is_bought_as_its_page_says(sheet: Sheet) -> None:
    asked = {"size": "98", "choices": {"length": "waist"}, "cloths": {"outer": {"width": "160", "wash": "usual"}}}
    page = json.loads(answer("panel", json.dumps({"pattern": "example-jacket", **asked})))["fragments"]
    said = listed({"id": "a", "pattern": "example-jacket", **asked})
    by_id = {one["id"]: one for one in page}
    for cloth in ("outer", "lining", "interfacing"):
        theirs, ours = by_id[f"cloth.{cloth}"], said[f"buy.cloth.a.{cloth}"]
        assert [ours["data"][key] for key in ("buy_mm", "buy_eighth_yards")] == [
            theirs["data"][key] for key in ("buy_mm", "buy_eighth_yards")]  # fmt: skip
        assert ours["text"] == theirs["text"] and ours["text_inch"] == theirs["text_inch"]
    assert said["buy.notion.elastic-w20"]["data"]["buy_mm"] == by_id["notion.waist-elastic"]["data"]["buy_mm"]


# ---- notions ----


@pytest.mark.outside  # exact arithmetic with fractions
def test_buttons_are_counted_and_elastic_is_added_before_it_is_rounded(sheet: Sheet) -> None:
    waist = {"length": "waist"}
    said = listed(jacket("a", "68", choices=waist), jacket("b", "86", choices=waist), jacket("c", "92", choices=waist))
    assert said["buy.notion.button-snap-d13-counted"]["data"]["count"] == 4 + 5 + 5
    # The chart's waist at 68 is 408 mm, by the rule less 20 and 20 of overlap; 86 and 92 are tabled.
    total = 408 + 470 + 480
    assert said["buy.notion.elastic-w20"]["data"]["buy_mm"] == bought(total)
    assert said["buy.notion.elastic-w20"]["data"]["buy_eighth_yards"] == ceil(total / EIGHTH_YARD)
    assert sum(bought(one) for one in (408, 470, 480)) > bought(total)
    assert "20 ligne" in said["buy.notion.button-snap-d13-counted.whose"]["text"]


def test_notions_of_another_kind_or_size_are_bought_apart(sheet: Sheet) -> None:
    other = copy.deepcopy(sheet) | {"pattern": "example-cap", "name": "Example cap"}
    for notion in other["notions"]:
        if notion["name"] == "closure":
            notion |= {"diameter_mm": 11.5, "title": "Buttons, 11.5 mm"}
        if notion["name"] == "waist-elastic":
            notion |= {"width_mm": 25, "title": "Elastic, 25 mm wide"}
    answer("open", json.dumps(other))
    waist = {"length": "waist"}
    said = listed(jacket("a", choices=waist), {**jacket("b", choices=waist), "pattern": "example-cap"})
    counts = {name: one["data"].get("count") for name, one in said.items() if name.endswith("-counted")}
    assert counts["buy.notion.button-snap-d13-counted"] == counts["buy.notion.button-snap-d11.5-counted"] == 5
    assert {"buy.notion.elastic-w20", "buy.notion.elastic-w25"} <= set(said)
    threads = [one for name, one in counts.items() if "thread" in name]
    assert threads == [2], "what has no size is one purchase by its name"


# ---- prices ----


def test_each_line_costs_what_its_rounded_length_costs(sheet: Sheet) -> None:
    total = lay_mm(sheet, "92") + lay_mm(sheet, "104") + SQUARING
    said = listed(jacket("a", cloths=from_one(price="12.90 per m")), jacket("b", "104", cloths=from_one()))
    assert said["buy.cloth.b.cost"]["data"]["coins"] == round(Fraction(1290 * bought(total), 1000) + Fraction(1, 1000))
    assert said["buy.total"]["data"]["coins"] == said["buy.cloth.b.cost"]["data"]["coins"]
    assert "still without a price: Lining, Fusible interfacing)" in said["buy.total"]["text"]
    by_yard = listed(jacket("a", cloths=from_one(price="8 per yd")), jacket("b", "104", cloths=from_one()))
    assert by_yard["buy.cloth.b.cost"]["data"]["coins"] == 100 * ceil(total / EIGHTH_YARD)
    unread = listed(jacket("a", cloths=from_one(price="dear")))
    assert unread["buy.cloth.b.cost"]["data"]["code"] == "not-a-price"
    assert listed(jacket("a"))["buy.total"]["text"] == ""


# ---- what can't be counted, and what has changed ----


def test_what_is_not_there_is_said_and_the_rest_is_counted(sheet: Sheet) -> None:
    forbidden = jacket("d", choices={"length": "waist", "pockets": "two"})
    said = listed(
        {"id": "a", "pattern": "far", "size": "92"}, {"id": "b", "pattern": "nowhere"}, jacket("c", "62"), forbidden,
        jacket("e"), jacket("f", cloths={"outer": {"width": "20"}}),
    )  # fmt: skip
    codes = {name: said[f"item.{name}"]["data"].get("code") for name in "abcdef"}
    assert codes == {"a": "not-open", "b": "unknown-pattern", "c": "unknown-size", "d": "forbidden-choices", "e": None,
                     "f": None}  # fmt: skip
    assert said["item.a"]["text"].startswith("Far away, size 92: ")
    assert said["buy.cloth.f.outer"]["data"]["code"] == "not-a-width"
    owners = {need[0] for one in said.values() for need in one["data"].get("needs", [])}
    assert owners == {"e", "f"}


def test_what_changed_since_then_is_said_amount_by_amount(sheet: Sheet) -> None:
    told = json.loads(answer("panel", json.dumps({"pattern": "example-jacket", "size": "92"})))["fragments"]
    was = {"cloths": {}, "notions": {}}
    for one in told:
        part, _, name = one["id"].partition(".")
        if one["kind"] == "figure" and "." not in name and part in ("cloth", "notion"):
            data = one["data"]
            length = [data["buy_mm"], data["buy_eighth_yards"]] if "buy_mm" in data else [data["count"]]
            was[f"{part}s"][name] = length
    choices = {one["name"]: one["default"] for one in sheet["choices"]}
    item = jacket("a", was=was, choices=choices)
    same = listed(item)["item.a.changes"]
    assert same["text"] == "" and same["data"]["now"] == was
    assert listed({**item, "choices": {}})["item.a.changes"]["text"] == "", "usual words may be left out"
    newer = copy.deepcopy(sheet) | {"edition": "2"}
    for steps in newer["lays"]["outer"]["folded"]["without"]["92"]:
        for step in steps:
            step[1] += 100
    newer["notions"][0]["count"] = 6
    newer["choices"] = [one for one in newer["choices"] if one["name"] != "overlap"]
    answer("open", json.dumps(newer))
    text = listed(item)["item.a.changes"]["text"]
    then, now = was["cloths"]["outer"][0], was["cloths"]["outer"][0] + 100
    assert text == (
        "This was told for edition “1”; the shop now has edition “2”. The option “overlap” is no longer there. "
        f"Outer cloth: {then / 1000:.2f} m then, {now / 1000:.2f} m now. Buttons, 13 mm, or snaps: 5 then, 6 now."
    )
    gone = copy.deepcopy(newer)
    gone["sizes"] = [one for one in gone["sizes"] if one != "92"]
    answer("open", json.dumps(gone))
    assert "“92” is not a size of this pattern." in listed(item)["item.a"]["text"]
    assert "edition “1”" in listed(item)["item.a"]["text"]


def test_amounts_then_were_rounded_as_the_shop_cut_then(sheet: Sheet) -> None:
    coarse = bought(lay_mm(sheet, "92") + SQUARING, 100)
    eighths = 2 * ceil((lay_mm(sheet, "92") + SQUARING) / (2 * EIGHTH_YARD))
    choices = {one["name"]: one["default"] for one in sheet["choices"]}
    item = jacket("a", cut="coarse", choices=choices, was={"cloths": {"outer": [coarse, eighths]}})
    assert "Outer cloth" not in listed(item)["item.a.changes"]["text"]


# ---- laws ----


def test_whatever_is_joined_takes_at_least_the_longest_and_at_most_the_sum(sheet: Sheet) -> None:
    draw = random.Random(20261126)
    for _ in range(40):
        each = [jacket(f"g{at}", draw.choice(sheet["sizes"]), cloths=from_one("b", wash=draw.choice(["", "usual"])))
                for at in range(draw.randint(2, 6))]  # fmt: skip
        for one in each:
            one["cloths"]["outer"]["wash"] = each[0]["cloths"]["outer"]["wash"]
        joined = listed(*each)["buy.cloth.b"]["data"]["buy_mm"]
        alone = [listed(one)["buy.cloth.b"]["data"]["buy_mm"] for one in each]
        assert max(alone) <= joined <= sum(alone)


def test_an_entry_depends_on_itself_alone_and_order_changes_no_amount() -> None:
    one, other = jacket("a", cloths=from_one()), jacket("b", "104", cloths=from_one())
    alone, both, turned = listed(one), listed(one, other), listed(other, one)
    for name, fragment in alone.items():
        if name.startswith("item."):
            assert fragment["depends_on"] == ["item.a"] and both[name] == fragment == turned[name]
        else:
            assert set(fragment["depends_on"]) <= {"items", "cut"}
    for name in ("buy.cloth.b", "buy.notion.button-snap-d13-counted"):
        amounts = [[each[name]["data"].get(key) for key in ("buy_mm", "count")] for each in (both, turned)]
        assert amounts[0] == amounts[1]


def test_no_list_makes_the_door_fall(sheet: Sheet) -> None:
    from cases.shopping_cases import shopping_cases

    for name, text in shopping_cases([sheet], random.Random(1)):
        said = answer(name, text)
        assert "Traceback" not in said
        assert all("<b" not in fragment["html"] for fragment in json.loads(said).get("fragments", ()))
    many = [jacket(f"g{at}") for at in range(100)]
    assert len([name for name in listed(*many) if name.count(".") == 1 and name.startswith("item.")]) == 60


def test_cautions_of_all_garments_are_told_once_and_promise_nothing(sheet: Sheet) -> None:
    from boltside.calculators.cautions import DEFER, TEXTS, caution_names

    hip = listed(jacket("a"), jacket("b"))["buy.cautions"]
    assert hip["data"]["of"] == ["small-parts"], "no elastic at the hip"
    said = listed(jacket("a"), jacket("b", choices={"length": "waist"}))["buy.cautions"]
    assert said["data"]["of"] == sorted(caution_names(sheet)) == ["elastic", "small-parts"]
    assert said["kind"] == "warning"
    for name in caution_names(sheet):
        assert said["text"].count(TEXTS[name][1]) == 1
    assert said["text"].endswith(DEFER)
    assert listed()["buy.cautions"]["text"] == ""
