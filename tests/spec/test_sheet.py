"""The spec sheet: complete, the same each time, and never the pattern that is sold."""

from __future__ import annotations

import gzip
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from shapely import LinearRing, Polygon

from boltside.calculators.cautions import caution_names
from boltside.calculators.choices import all_allowed
from boltside.calculators.conditions import holds
from boltside.calculators.door import answer
from boltside.calculators.finished import case_mm
from boltside.measure.cutting_list import cut_lines
from boltside.measure.finished import finished_mm, notion_edge_length_mm
from boltside.measure.garment import make_garment
from boltside.measure.lay_items import cutting_outline_mm
from boltside.pattern import Pattern
from boltside.spec.sheet import make_sheet, sheet_text
from boltside.spec.simplify import COARSE_MM, GRID_MM, coarse
from spec.conftest import DATA, LAYS

LARGEST_GZIPPED = 60_000
"""Bytes a sheet may take on the way to a phone."""

KEYS = {
    "format", "pattern", "name", "summary", "garment", "edition", "difficulty", "minutes", "sizes", "size_by", "body",
    "choices", "rules", "cloths", "items", "sets", "lays", "finished", "notions", "drawing", "steps",
    "introduction_html", "cautions", "label", "currency", "sale", "photographs", "cloth_plans", "together", "lengthen",
    "pressed", "words", "techniques", "gathers", "pull_on", "sewn",
}  # fmt: skip


def test_it_has_all_its_parts(sheet: dict[str, Any]) -> None:
    assert set(sheet) == KEYS
    assert sheet["sets"] == {"outer": LAYS["outer"]["sets"]}
    assert sheet["lays"] == {"outer": LAYS["outer"]["lengths"]}
    assert sheet["cloth_plans"] == [
        {"name": "unlined", "title": "All from one cloth", "choices": {"lined": ["none"]}},
        {"name": "lined", "title": "With a lining", "choices": {"lined": ["full"]}},
    ]
    assert sheet["together"] == [["80", "92"], ["92", "92"]]
    assert sheet["body"]["rows"].keys() == set(sheet["sizes"])


def test_the_example_sheet_has_the_same_form(sheet: dict[str, Any]) -> None:
    path = Path(__file__).parents[1] / "cases" / "sheet_example.json"
    example = json.loads(path.read_text(encoding="utf-8"))
    assert set(example) == set(sheet)
    for part in ("choices", "rules", "cloths", "items", "finished", "notions", "steps"):
        assert set(example[part][0]) == set(sheet[part][0]), part
    assert set(example["body"]) == set(sheet["body"])
    assert set(example["drawing"]["front"][0]) == set(sheet["drawing"]["front"][0])


def test_the_same_pattern_gives_the_same_bytes(oblong: Pattern, sheet: dict[str, Any]) -> None:
    text = sheet_text(make_sheet(oblong, LAYS))
    assert text == sheet_text(sheet) and text.endswith("\n")
    program = (
        "import sys; from pathlib import Path; from boltside.read.folder import read_pattern;"
        "from boltside.spec.sheet import make_sheet, sheet_text; data = Path(sys.argv[1]);"
        "pattern = read_pattern(data / 'patterns' / 'oblong', data / 'body_charts');"
        f"sys.stdout.write(sheet_text(make_sheet(pattern, {LAYS!r})))"
    )
    for seed in ("1", "2"):
        run = subprocess.run(
            [sys.executable, "-c", program, str(DATA)],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONIOENCODING": "utf-8"},
            capture_output=True,
            encoding="utf-8",
            check=True,
        )
        assert run.stdout == text


def test_lengths_agree_with_measuring_in_every_combination(oblong: Pattern, sheet: dict[str, Any]) -> None:
    """Finished measurements and notions' edges, enumerated in full, against the garment made outright."""
    checked = 0
    for size in oblong.sizes:
        for chosen in all_allowed(sheet["choices"], sheet["rules"], size, steps_too=False):
            picked = {name: word for name, word in chosen.items() if name != "size"}
            garment = make_garment(oblong, size, picked)
            for measurement, said in zip(oblong.measurements, sheet["finished"], strict=True):
                mm = case_mm(said["cases"], chosen, size)
                if holds(measurement.when, chosen):
                    assert mm == pytest.approx(finished_mm(garment, measurement), abs=0.051)
                    checked += 1
                else:
                    assert mm is None
            for notion, told in zip(oblong.notions, sheet["notions"], strict=True):
                if notion.edge is not None and holds(notion.when, chosen):
                    edge_mm = case_mm(told["edge_cases"], chosen, size)
                    assert edge_mm == pytest.approx(notion_edge_length_mm(garment, notion), abs=0.051)
    assert checked > 500


def test_conditions_ask_only_about_what_matters(sheet: dict[str, Any]) -> None:
    by_id = {item["id"]: item for item in sheet["items"]}
    assert by_id["cuff.outer"]["when"] == [{"sleeve-end": ["gathered"]}]
    assert by_id["collar.outer"]["when"] == [{"collar": ["stand"]}]
    assert not any("hem-finish" in mapping for item in sheet["items"] for mapping in item["when"])


def test_narrowest_widths_by_hand(sheet: dict[str, Any]) -> None:
    by_id = {item["id"]: item for item in sheet["items"]}
    # The front's hem: 159 + 20 at the centre + 10 at the side = 189; two selvedges of 15. Folded: twice.
    assert by_id["front.outer.front.hip"]["narrowest_mm"]["92"] == {"flat": 189 + 30, "folded": 2 * 189 + 30}
    # The back on the fold: 159 + 10 = 169; laid flat it is unfolded, which takes as much as on folded cloth.
    assert by_id["back.outer.front.hip"]["narrowest_mm"]["92"] == {"flat": 368, "folded": 368}


def test_notes_in_words(sheet: dict[str, Any]) -> None:
    notes = {item["id"]: item["notes"] for item in sheet["items"]}
    assert notes["front.outer.front.hip"] == []
    assert notes["front.lining.front.hip.full"] == []
    assert notes["front.interfacing.opening-strip.wearers-left.front.hip"] == [
        "under the opening strip only, up to the cutting line",
        "for the wearer's left only",
    ]
    assert "under the whole piece, up to the stitching line" in notes["collar.interfacing.whole"]
    assert notes["tab.outer"] == ["grain line on the bias"]
    titles = {item["id"]: item["title"] for item in sheet["items"]}
    assert titles["front.interfacing.opening-strip.wearers-left.front.hip"] == "Front, opening strip"


def test_each_line_says_which_way_a_knit_stretches(sheet: dict[str, Any]) -> None:
    # The greatest stretch runs across the cloth: across a lengthwise grain line, along a crosswise one.
    stretch = {item["id"]: item["stretch"] for item in sheet["items"]}
    assert stretch["front.outer.front.hip"] == "across"
    assert {stretch[name] for name in stretch if name.startswith("cuff.outer")} == {"along"}
    assert stretch["tab.outer"] == "none", "the tab says so itself"
    assert {item["stretch"] for item in sheet["items"] if item["kind"] == "interfacing"} == {"none"}


def test_the_designers_own_cautions_are_told_always_and_those_of_notions_with_these(sheet: dict[str, Any]) -> None:
    assert sheet["cautions"] == ["small-parts"]
    assert caution_names(sheet) == ["small-parts", "elastic"]
    bare = {**sheet, "notions": []}
    assert caution_names(bare) == ["small-parts"]


def test_copies_carry_what_the_choices_say(sheet: dict[str, Any]) -> None:
    copies = {item["id"]: item["copies"] for item in sheet["items"]}
    front = {"opening": "front"}
    carries = {
        copy["name"]: [one["what"] for one in copy["carries"] if holds(one["when"], front)]
        for copy in copies["front.outer.front.hip"]
    }
    assert carries == {"wearers-left": ["buttonholes"], "wearers-right": ["buttons"]}
    assert copies["front.lining.front.hip.full"] == []


def test_areas_by_hand(oblong: Pattern, sheet: dict[str, Any]) -> None:
    """All copies within their cutting lines; a half on the fold counts twice. Shapely's area of the outline."""
    items = {item["id"]: item for item in sheet["items"]}
    for line in cut_lines(oblong):
        half = 2 if line.mode == "fold" else 1
        for size, mm2 in items[line.line_id]["area_mm2"].items():
            one = Polygon(cutting_outline_mm(oblong, line, size)).area
            assert mm2 == pytest.approx(one * half * line.count, rel=0.001)


def test_a_length_says_its_parts(sheet: dict[str, Any]) -> None:
    """The parts of every case add up to its length, and are marked in a view of the drawing or in none."""
    marked = 0
    for told in (*sheet["finished"], *sheet["notions"]):
        for case in told.get("cases", told.get("edge_cases")):
            for size, mm in case["mm"].items():
                assert sum(part["mm"][size] * part["times"] for part in case["parts"]) == pytest.approx(mm, abs=0.3)
            for part in case["parts"]:
                assert part["words"][0].isupper() and "-" not in part["words"]
                if part["trace"] is not None:
                    marked += 1
                    assert part["trace"]["view"] in ("front", "back")
                    assert all(number % GRID_MM == 0 for point in part["trace"]["line"] for number in point)
    assert marked > 3


def test_the_calculators_take_it(sheet: dict[str, Any]) -> None:
    assert json.loads(answer("open", sheet_text(sheet))) == {"opened": "oblong"}
    said = json.loads(answer("panel", '{"pattern": "oblong", "cloths": {"outer": {"width": "112"}}}'))
    texts = {fragment["id"]: fragment["text"] for fragment in said["fragments"]}
    # 400 mm + 30 for the ends, up to 450.
    assert texts["cloth.outer"] == "Outer cloth, 112 cm wide, with nap: 0.45 m"
    assert texts["notion.closure"] == "Buttons or snaps, 13 mm: 5"


def test_it_holds_no_stitching_line_notch_or_point(sheet: dict[str, Any]) -> None:
    """Only the parts of the drawing, coarse; nothing in them is named."""
    for view in ("front", "back"):
        for part in sheet["drawing"][view]:
            assert set(part) == {"piece", "when", "both_sides", "outline"}
            assert all([type(x), type(y)] == [int, int] for x, y in part["outline"])
    told = {"id", "piece", "title", "cloth", "mode", "count", "face", "kind", "when", "notes", "narrowest_mm"}
    told |= {"copies", "grain", "stretch", "area_mm2"}
    assert all(set(item) == told for item in sheet["items"])


def off_mm(pattern: Pattern) -> dict[str, tuple[float, float]]:
    """For each line in the middle size: mean and greatest distance of the true cutting line from what is shown, mm."""
    size = pattern.sizes[len(pattern.sizes) // 2]
    found = {}
    for line in cut_lines(pattern):
        if size in line.sizes:
            true = LinearRing(cutting_outline_mm(pattern, line, size))
            shown = LinearRing(coarse(cutting_outline_mm(pattern, line, size), GRID_MM))
            off = [shown.distance(true.interpolate(at / 400, normalized=True)) for at in range(400)]
            found[line.line_id] = (sum(off) / len(off), max(off))
    return found


def test_published_outlines_are_not_the_sold_pattern(oblong: Pattern) -> None:
    for line in cut_lines(oblong):
        for size in line.sizes:
            ring = coarse(cutting_outline_mm(oblong, line, size), GRID_MM)
            assert all(number % GRID_MM == 0 for point in ring for number in point)
    assert all(greatest <= COARSE_MM + GRID_MM for _, greatest in off_mm(oblong).values())


def real_names() -> list[str]:
    from cases.real_sheets import pattern_names

    return pattern_names()


@pytest.mark.parametrize("name", real_names())
def test_no_curved_piece_of_the_shop_can_be_sewn_from_what_is_shown(name: str) -> None:
    from cases.real_sheets import pattern

    made = pattern(name)
    curved = {
        line.line_id
        for line in cut_lines(made)
        if any(len(cutting_outline_mm(made, line, size)) > 20 for size in line.sizes)
    }
    off = off_mm(made)
    assert curved
    for line_id in curved & set(off):
        mean, greatest = off[line_id]
        assert mean > 0.8 and greatest > 3, f"{line_id}: mean {mean:.2f}, greatest {greatest:.2f} mm off"


@pytest.mark.parametrize("name", real_names())
def test_the_shops_sheets_are_small(name: str) -> None:
    from cases.real_sheets import real_sheet

    size = len(gzip.compress(sheet_text(real_sheet(name)).encode(), mtime=0))
    print(f"{name}: {size} bytes gzipped, with stand-in lays")
    assert size <= LARGEST_GZIPPED
