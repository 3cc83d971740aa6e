"""Two garments at once, by hand, on the example sheet: 92 and 104 are laid together there, no other two sizes are."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from boltside.calculators.door import answer
from boltside.calculators.lay_file import LayFile

Ask = Callable[..., dict[str, dict[str, Any]]]
BOTH = {"size": "92", "second": "104"}
FLAT = {"outer": {"way": "flat"}}
SET = 4
"""Front, back, sleeve and facing: what the usual choices take of the outer cloth."""


def steps(sheet: dict[str, Any], way: str, size: str) -> list[list[int]]:
    """Width, length and number, without what stands behind them."""
    return [step[:3] for step in sheet["lays"]["outer"][way]["without"][size][SET]]


def test_a_listed_pair_has_the_length_of_its_joint_lay(ask: Ask, sheet: dict[str, Any]) -> None:
    assert steps(sheet, "flat", "92") == [[1100, 706, 33], [1350, 674, 35], [1400, 368, 37]]
    assert steps(sheet, "flat", "104") == [[1100, 790, 33], [1350, 770, 35], [1500, 416, 39]]
    assert steps(sheet, "flat", "92+104") == [[1100, 1144, 27], [1350, 1122, 28], [1400, 1090, 29], [1500, 784, 30]]
    said = ask("cloth", **BOTH, cloths=FLAT)
    note = said["cloth.outer"]
    # On 140 cm: 1090 and 30 to square the ends, rounded up to 5 cm; 1120 ÷ 114.3 is 9.8, so ten eighths of a yard.
    assert note["text"] == "Outer cloth, 140 cm wide, for both: 1.15 m"
    assert note["text_inch"] == "Outer cloth, 55 in wide, for both: 1 1/4 yd"
    data = note["data"]
    assert (data["needed_mm"], data["buy_mm"], data["together"], data["sizes"]) == (1090, 1150, "joint", ["92", "104"])
    assert data["lay"] == {"key": "outer.flat.92+104", "number": 29, "width_mm": 1400}
    # 368 and 770 alone.
    assert "take 1.09 m, where the two alone take 1.14 m one behind the other" in said["cloth.outer.how"]["text"]


def test_either_garment_may_be_the_first(ask: Ask) -> None:
    assert ask("panel", **BOTH, cloths=FLAT)["cloth.outer"] == ask("panel", size="104", second="92", cloths=FLAT)[
        "cloth.outer"]  # fmt: skip


def test_other_sizes_have_their_lengths_added_squared_once_and_rounded_once(ask: Ask, sheet: dict[str, Any]) -> None:
    assert steps(sheet, "flat", "98")[:2] == [[1100, 748, 33], [1350, 722, 35]]
    said = ask("cloth", size="98", second="92", cloths={"outer": {"way": "flat", "width": "135"}})
    data = said["cloth.outer"]["data"]
    # 674 and 722 are 1396; with 30, once, 1426: 1.45 m. Each alone would be 704 and 752: 0.75 and 0.80, 1.55 m.
    assert (data["needed_mm"], data["buy_mm"], data["together"]) == (1396, 1450, "added")
    assert said["cloth.outer"]["text"] == "Outer cloth, 135 cm wide, for both: 1.45 m"
    assert data["lay"] == {
        "key": "outer.flat.92", "number": 35, "width_mm": 1350,
        "behind": {"key": "outer.flat.98", "number": 35, "width_mm": 1350},
    }  # fmt: skip
    how = said["cloth.outer.how"]["text"]
    assert "These two were not laid out together, so their lengths are added, which is always enough" in how
    assert "size 92 takes 0.68 m, size 98 0.73 m, together 1.40 m" in how


def test_one_wash_is_counted_for_both(ask: Ask) -> None:
    own = {"outer": {"way": "flat", "width": "135", "wash": "own", "along": "4", "across": "0"}}
    data = ask("cloth", size="92", second="98", cloths=own)["cloth.outer"]["data"]
    # (1396 + 30) ÷ 0.96 = 1485.4, once.
    assert (data["before_wash_mm"], data["buy_mm"]) == (1485.5, 1500)


def test_where_no_joint_lay_is_shorter_that_is_said(ask: Ask, sheet: dict[str, Any]) -> None:
    assert steps(sheet, "folded", "92")[-1] == [1400, 368, 37] and steps(sheet, "folded", "104")[1] == [1350, 770, 35]
    assert steps(sheet, "folded", "92+104")[2] == [1400, 1138, 22]
    said = ask("cloth", **BOTH)
    assert said["cloth.outer"]["data"]["together"] == "no-shorter"
    assert "No layout of both together was shorter than one behind the other" in said["cloth.outer.how"]["text"]


def test_wider_cloth_and_other_ways_are_compared_for_both(ask: Ask) -> None:
    said = ask("panel", **BOTH)
    # Folded once 1138 on 140 cm, 784 and 30 on 150 cm: 1.20 and 0.85 m.
    assert said["cloth.outer.wider"]["text"] == "Of cloth 150 cm wide, 0.85 m would do for both, 0.35 m less."
    # Flat 1090: 48 mm less, less than a step of 50.
    assert said["cloth.outer"]["data"]["flat_saves_mm"] == 0


def test_nobody_buys_buttons_or_elastic_for_one(ask: Ask) -> None:
    waist = {"choices": {"length": "waist"}}
    said = ask("panel", size="68", second="92", **waist)
    # Four are tabled for 68, five are usual.
    assert said["notion.closure"]["text"] == "Buttons, 13 mm, or snaps, for both: 9"
    assert said["closure.closure"]["text"] == "Buttons, 13 mm, or snaps, for both: 9 (20 ligne)"
    assert said["notion.thread"]["text"] == "Thread, reels of 200 m, for both: 2"
    elastic = said["notion.waist-elastic"]
    # 408 by the rule (waist 408 less 20 and 20), 480 tabled for 92: 888 in one piece, rounded once.
    assert (elastic["data"]["total_mm"], elastic["data"]["buy_mm"]) == (888, 900)
    assert elastic["text"] == "Elastic, 20 mm wide, for both: 0.90 m"
    assert said["notion.waist-elastic.cut"]["text"] == (
        "Size 68: Cut 40.8 cm: 38.8 cm closed and 2 cm overlap. Size 92: Cut 48 cm: 46 cm closed and 2 cm overlap."
    )
    why = said["why.notion.closure"]["text"]
    assert why == (
        "Size 68: The designer's own count for size 68: 4. Size 92: The designer's own count for every size: 5. "
        "Both together: 4 + 5: 9."
    )


def test_every_line_of_the_note_is_for_both(ask: Ask) -> None:
    said = ask("panel", **BOTH)
    for name, fragment in said.items():
        if name.split(".")[0] in ("cloth", "notion") and name.count(".") == 1 and fragment["kind"] == "figure":
            assert ", for both: " in fragment["text"], name
    assert said["difficulty"]["text"].endswith("of sewing each.")
    assert said["cutting-list"]["text"].startswith("Cut everything twice, for two garments: sizes 92 and 104. ")
    assert said["chosen-size"]["text"] == (
        "Two garments with the same options, from one length of each cloth. Size 92, for a height of 86 cm to 92 cm, "
        "about 2 years. Size 104, for a height of 98 cm to 104 cm, about 4 years."
    )
    assert said["chosen-size"]["data"]["shown"] == "sizes 92 and 104"


def test_twins_are_told_once_and_bought_for_twice(ask: Ask) -> None:
    said = ask("panel", size="92", second="92", choices={"length": "waist"})
    assert said["chosen-size"]["data"]["shown"] == "size 92 twice"
    assert said["notion.waist-elastic"]["data"]["total_mm"] == 960
    assert said["notion.waist-elastic.cut"]["text"] == "For each garment: Cut 48 cm: 46 cm closed and 2 cm overlap."
    assert "each takes" in said["cloth.outer.how"]["text"]


def test_the_price_is_of_the_cloth_for_both(ask: Ask) -> None:
    said = ask("cost", **BOTH, cloths={"outer": {"way": "flat", "price": "10"}})
    assert said["cost.outer"]["text"] == "Outer cloth, 1.15 m, for both: 11.50 EUR"


def test_what_is_forbidden_in_one_of_the_sizes_is_said_for_it(ask: Ask, sheet: dict[str, Any]) -> None:
    """A rule of the example: some options only from a size on; the way out is another option or another second size."""
    rule = next(one for one in sheet["rules"] if one["only_sizes"])
    outside = next(size for size in sheet["sizes"] if size not in rule["only_sizes"])
    inside = rule["only_sizes"][-1]
    choices = {name: words[0] for name, words in rule["when"][0].items() if name != "size"}
    alone = ask("panel", size=inside, choices=choices)["choices"]
    assert alone["data"]["allowed"]
    problem = ask("panel", size=inside, second=outside, choices=choices)["choices"]
    assert problem["kind"] == "problem" and problem["text"].startswith(f"Size {outside}: ")
    for change in problem["data"]["changes"]:
        name, word = change["choice"], change["alternative"]
        mended = {"size": inside, "second": outside, "choices": {**choices}}
        if name in ("size", "second"):
            mended[name] = word
        else:
            mended["choices"] = {**choices, name: word}
        assert ask("panel", **mended)["choices"]["data"]["allowed"], change


@pytest.mark.parametrize("second", ["93", "<b>", "9" * 30])
def test_a_second_size_that_is_none_is_refused_and_nothing_is_told_for_one(ask: Ask, second: str) -> None:
    said = ask("panel", size="92", second=second)
    assert list(said) == ["chosen-size"]
    assert said["chosen-size"]["data"]["code"] == "unknown-size"


def test_too_narrow_names_the_garment(ask: Ask) -> None:
    note = ask("cloth", **BOTH, cloths={"outer": {"width": "100"}})["cloth.outer"]
    assert note["text"] == (
        "Outer cloth: size 104: the pieces fit on 100 cm, but amounts are reckoned from 110 cm on."
    )
    assert note["data"]["size"] == "104"


# ---- how they lie ----


@pytest.fixture
def lays(ask: Ask) -> dict[str, LayFile]:
    from cases.make_sheet_example import lays_beside

    files = lays_beside()
    for file in files.values():
        answer("open-lays", json.dumps(file))
    return files


def test_a_joint_lay_tells_the_garments_apart(ask: Ask, lays: dict[str, LayFile]) -> None:
    said = ask("lay", **BOTH, cloth="outer", cloths=FLAT)
    drawing, words = said["lay.outer"], said["lay.outer.words"]
    file = lays["outer.flat.92+104"]
    assert len(file["lays"]["29"]["at"]) == drawing["data"]["pieces"] == 14
    # Half of the outlines are the second garment's: shaded and broken; the others are plain.
    html = drawing["html"]
    assert html.count("bs-second") == html.count("stroke-dasharray") == 7
    assert html.count("fill-opacity") == 7
    assert "Plain outlines: size 92. Shaded, with a broken outline: size 104." in words["text"]
    assert "Front, size 92: " in words["text"] and "Front, size 104: " in words["text"]
    assert set(words["data"]["numbers"].values()) == set(range(1, 9))


def test_two_lays_one_behind_the_other_are_two_drawings(ask: Ask, lays: dict[str, LayFile]) -> None:
    for second, key in (("104", "outer.folded.92+104"), ("98", "outer.folded.92")):
        said = ask("lay", size="92", second=second, cloth="outer")
        drawing, words = said["lay.outer"], said["lay.outer.words"]
        assert drawing["data"]["key"] == key
        assert drawing["html"].count("<svg") == 2 and "bs-second" not in drawing["html"]
        assert "First: size 92" in drawing["html"] and f"Behind it: size {second}" in drawing["html"]
        assert drawing["html"].count('id="bs-lay-outer-title"') == 1
        assert sum(drawing["data"]["behind_mm"]) == drawing["data"]["length_mm"]
        assert words["text"].startswith("First: size 92. ") and f"Behind it: size {second}. " in words["text"]


def test_both_files_of_an_added_lay_are_asked_for(ask: Ask) -> None:
    from cases.make_sheet_example import lays_beside

    first = lays_beside()["outer.folded.92"]
    answer("open-lays", json.dumps(first))
    said = ask("lay", size="92", second="98", cloth="outer")["lay.outer"]
    assert (said["kind"], said["data"]) == ("needs", {"needs": "outer.folded.98"})


def test_a_cloth_that_only_one_of_them_takes_is_for_that_one(sheet: dict[str, Any]) -> None:
    """Such a pattern is derived: its lining is only asked for up to size 98."""
    made = json.loads(json.dumps(sheet)) | {"pattern": "example-half-lined"}
    small = ["68", "74", "80", "86", "92", "98"]
    for item in made["items"]:
        if item["cloth"] == "lining":
            item["when"] = [{**mapping, "size": small} for mapping in item["when"] or [{}]]
    assert json.loads(answer("open", json.dumps(made))) == {"opened": "example-half-lined"}
    asked = {"pattern": "example-half-lined", **BOTH}
    said = {one["id"]: one for one in json.loads(answer("panel", json.dumps(asked)))["fragments"]}
    assert ", for size 92 only: " in said["cloth.lining"]["text"]
    assert said["cloth.lining"]["data"]["together"] == "one-only"
    assert ", for both: " in said["cloth.outer"]["text"]
    assert "size 92 only" in said["cutting-list"]["text"]
