"""Where buttons and snaps sit, as it is said: places, spaces, what gave way, and the paper strip."""

from __future__ import annotations

from typing import Any

import pytest
from cases.real_sheets import real_sheet

from boltside.calculators.closures import closure_fragments
from boltside.calculators.fragments import Fragment
from boltside.calculators.places import in_a_row
from boltside.calculators.request import read_request


def places(name: str, notion: str, size: str, second: str = "", **chosen: str) -> Fragment:
    """The fragment about the places of a notion."""
    asked: dict[str, Any] = {"size": size, "second": second, "choices": chosen}
    found = closure_fragments(read_request(real_sheet(name), asked))
    return next(one for one in found if one.name == f"closure.{notion}.places")


def test_places_are_said_from_the_upper_end() -> None:
    # Worked out from the outline in tests/measure/test_closure_lines.py: the line is 302.4 mm long, so four spaces of
    # (302.4 - 12 - 40) / 4 = 62.6 mm.
    said = places("ferrylight", "buttons", "92", length="hip").said
    assert said.text.startswith("5 places: 12, 75, 137, 200 and 262 mm below the neck seam, to the middle of each.")
    assert "The spaces between them are equal: 62.6 mm." in said.text
    assert said.text_inch.startswith("5 places: 1/2, 2 15/16, 5 3/8, 7 7/8 and 10 5/16 in below the neck seam")


@pytest.mark.outside
def test_the_edge_is_told_beside_both_handbooks() -> None:
    # 13 / 2 + 6 = 12.5 and 13 / 2 + 13 = 19.5, rounded up (Extension Bulletin 57, 1965: half of the diameter and 1/4 to
    # 1/2 in more); three quarters, 9.75, stand in the list below (sewing textbook).
    found = closure_fragments(read_request(real_sheet("ferrylight"), {"size": "92"}))
    said = next(one for one in found if one.name == "closure.buttons.how").said.text
    assert "at least 10 mm beyond the centre line: three quarters of the diameter" in said
    assert "half of it and 6 mm to 13 mm more, 13 mm to 20 mm" in said and "Here it laps 15 mm." in said
    # In an opening along a seam there is no centre line to lap over.
    chosen = {"inseam": "snaps"}
    found = closure_fragments(read_request(real_sheet("breakwater"), {"size": "92", "choices": chosen}))
    assert "laps" not in next(one for one in found if one.name == "closure.snaps-long.how").said.text


@pytest.mark.parametrize(
    ("overlap", "side"), [("left-over-right", "left"), ("right-over-left", "right")]
)
def test_the_strip_is_for_the_copy_that_has_the_holes(overlap: str, side: str) -> None:
    said = places("ferrylight", "buttons", "92", overlap=overlap, length="hip").said
    assert f"Paper strip, size 92: Front, wearer's {side}, true to scale." in said.text
    assert f'href="strips/buttons-92-2-{side}.svg"' in said.html
    said = places("ferrylight", "snaps", "92", overlap=overlap, length="hip", closure="snaps").said
    assert f'href="strips/snaps-92-2-{side}.svg"' in said.html


def test_rows_are_said_one_by_one() -> None:
    found = places("breakwater", "snaps-long", "92", inseam="snaps")
    assert found.said.text.startswith("In each of the 2 rows 6 places: 15, 72, 128, 185, 242 and 299 mm")
    assert found.data["rows"] == 2 and len(found.data["mm"]) == 6


def test_two_garments_have_their_own_places() -> None:
    said = places("ferrylight", "buttons", "92", "98", length="hip").said
    assert "Size 92: 5 places: 12, 75" in said.text and "Size 98: 5 places: 12, 79" in said.text
    twice = places("ferrylight", "buttons", "92", "92", length="hip").said
    assert twice.text.count("5 places") == 1


def test_what_gave_way_is_said() -> None:
    from boltside.calculators.places import case_of, places_said

    row = {"mm": [21.5, 160], "line_mm": 180, "seams_mm": [10], "edge_mm": None, "gave": ["first", "equal"]}
    placed = {"from": "below the top", "each": "", "holes": "along", "rows": 1, "spacing_mm": None, "clear_mm": 5,
              "cases": [{"when": [], "piece": "Front", "right": {}, "sizes": {"92": row}}]}  # fmt: skip
    notion = {"name": "buttons", "placed": placed, "diameter_mm": 13}
    case = case_of(notion, {}, "92")
    assert case is not None
    said = " ".join(one.text for one in places_said(notion, case, "92", None))
    assert "further in than usual" in said and "spaces differ a little" in said
    assert "each hole begins 3 mm above" in said
    assert "are equal" not in said and case_of(notion, {}, "98") is None


def test_one_place_is_said_alone() -> None:
    assert in_a_row([15]).text == "15 mm" and in_a_row([15, 40.4]).text == "15 and 40 mm"
    assert in_a_row([25.4, 50.8]).text_inch == "1 and 2 in"
