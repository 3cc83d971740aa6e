"""What hand-written pages of the demo shop say of its size chart is what the chart says."""

from __future__ import annotations

import csv
from pathlib import Path

ROOT = Path(__file__).parents[1]
COLUMNS = {
    "Height to": "height_mm", "Chest": "chest_mm", "Waist": "waist_mm", "Hip": "hip_mm", "Head": "head_mm",
    "Arm": "arm_length_mm", "Inside leg": "inside_leg_mm",
}  # fmt: skip


def chart_rows() -> list[dict[str, str]]:
    text = (ROOT / "data/body_charts/thistle-quay.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))


def page_rows() -> list[dict[str, str]]:
    text = (ROOT / "site_src/pages/sizes.md").read_text(encoding="utf-8")
    lines = [line.strip("| ").split(" | ") for line in text.splitlines() if line.startswith("| ")]
    return [dict(zip(lines[0], line, strict=True)) for line in lines[1:]]


def test_the_page_about_our_sizes_shows_the_chart() -> None:
    page, chart = page_rows(), chart_rows()
    assert [row["Size"] for row in page] == [row["size"] for row in chart]
    for said, meant in zip(page, chart, strict=True):
        assert said["Age, about"] == meant["age"]
        assert {title: round(float(said[title]) * 10) for title in COLUMNS} == {
            title: int(meant[column]) for title, column in COLUMNS.items()
        }
