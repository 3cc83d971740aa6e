"""Gathers: ratio and quarter marks on both edges."""

from __future__ import annotations

from typing import Any

import pytest
from cases.real_sheets import real_sheet

from boltside.calculators.gathers import marks_mm, one_gather
from boltside.calculators.request import read_request


def gather(join: float, to: float, **more: Any) -> str:
    """What is said of gathers with these lengths."""
    told = {"name": "frill", "join": "Frill", "to": "Yoke", "from": None, "free_mm": 0,
            "cases": [{"when": [], "join_mm": {"92": join}, "to_mm": {"92": to}}], **more}  # fmt: skip
    return one_gather(read_request(real_sheet("ferrylight"), {"size": "92"}), told).said.text


@pytest.mark.outside
def test_marks_follow_the_trades_formula() -> None:
    """With a free zone z at one end: z + k/4 · (L − z) on each of the two edges (geometry; trade.md)."""
    assert marks_mm(400, 0) == [100, 200, 300]
    assert marks_mm(150, 30) == [30, 60, 90, 120] and marks_mm(270, 30) == [30, 90, 150, 210]


@pytest.mark.outside
def test_a_worked_example() -> None:
    """15 in × 2.5 = 37.5 in: 381 mm and 952.5 mm (worked example of a sewing guide)."""
    said = gather(15 * 2.5 * 25.4, 15 * 25.4)
    assert "gathered to 38.1 cm, 2.5 times as long." in said


def test_both_edges_are_marked_from_the_named_seam() -> None:
    assert gather(270, 150, free_mm=30, **{"from": "the side seam"}) == (
        "Frill, on Yoke: 27 cm gathered to 15 cm, 1.8 times as long. Leave the first 3 cm plain. Mark from the side "
        "seam, the longer edge at 3, 9, 15 and 21 cm, the shorter at 3, 6, 9 and 12 cm, and pin mark on mark. The "
        "other side alike."
    )


def test_a_band_that_is_a_little_shorter_is_stretched() -> None:
    said = gather(200, 176)
    assert said.startswith("Frill, on Yoke: 20 cm on 17.6 cm, 1.14 times as long. The shorter edge is stretched.")
    assert "Mark from one end" in said


def test_marks_of_the_shop_lie_in_equal_parts_of_both_edges() -> None:
    for name in ("ferrylight", "windlass", "breakwater"):
        sheet = real_sheet(name)
        assert sheet["gathers"]
        for told in sheet["gathers"]:
            for case in told["cases"]:
                for size in case["join_mm"]:
                    assert case["join_mm"][size] > case["to_mm"][size], (name, told["name"], size)
                    longer, shorter = (marks_mm(case[key][size], 0) for key in ("join_mm", "to_mm"))
                    shares = [a / b for a, b in zip(longer, shorter, strict=True)]
                    assert max(shares) - min(shares) < 1e-9
