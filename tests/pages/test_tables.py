"""The tables: figures of the sheet and of the calculators, readable by a screen reader and without a script."""

from __future__ import annotations

import json
from typing import Any

import pytest

from boltside.calculators.door import answer
from boltside.pages import tables
from boltside.pages.lengths import amount_to_buy, column_of_figures
from boltside.pages.table_html import table
from boltside.shop_build import PatternFiles

from .reading import Element, read


def rows_of(part: Element) -> dict[str, list[str]]:
    """Row heading to the texts of its cells."""
    return {row.all("th")[0].text: [cell.text for cell in row.all("td")] for row in part.all("tbody")[0].all("tr")}


def headings(part: Element) -> list[str]:
    return [cell.text for cell in part.all("thead")[0].all("tr")[-1].all("th")]


def test_size_chart_has_body_finished_and_ease(pattern: PatternFiles) -> None:
    chart = read(tables.size_chart(pattern.sheet))
    assert [cell.text for cell in chart.all("thead")[0].all("tr")[0].all("th")] == ["Size", "Body", "Finished", "Ease"]
    assert headings(chart) == [
        "Height", "Chest", "Waist", "Hip", "About", "Chest", "Back length", "Sleeve length", "Chest",
    ]  # fmt: skip
    # By hand from the sheet: chest 503, finished 4 × (503 // 4) + 92.4 = 592.4, so 89.4 of ease, shown to the mm.
    # Back length 4 × 92 − 38 = 330, sleeve 3 × 92 + 40 = 316.
    assert rows_of(chart)["92"] == ["92", "50.3", "47.5", "51.0", "2 years", "59.2", "33.0", "31.6", "8.9"]
    assert list(rows_of(chart)) == pattern.sheet["sizes"]


def test_every_column_and_row_is_headed(pattern: PatternFiles) -> None:
    whole = tables.size_chart(pattern.sheet) + tables.cloth_tables(pattern.sheet) + tables.cutting_lists(pattern.sheet)
    for one in read(whole).all("table"):
        assert one.all("caption")[0].text
        first, *others = one.all("thead")[0].all("tr")
        width = sum(int(cell.attributes.get("colspan") or 1) for cell in first.all("th"))
        for row in others:
            assert len(row.all("th")) == width - 1
        for cell in one.all("th"):
            assert cell.attributes["scope"] in {"col", "colgroup", "row"}
        for row in one.all("tbody")[0].all("tr"):
            assert len(row.all("th")) == 1 and len(row.all("td")) == width - 1


def test_cloth_table_says_what_the_calculator_says(pattern: PatternFiles) -> None:
    sheet = pattern.sheet
    seen = 0
    for cloth in sheet["cloths"]:
        part = read(tables.cloth_table(sheet, cloth))
        for size, cells in rows_of(part).items():
            asked = [(way, width) for way in cloth["ways"] for width in cloth["widths_mm"]]
            for (way, width), cell in zip(asked, cells, strict=True):
                request = {"pattern": sheet["pattern"], "size": size, "choices": {}, "unit": "cm",
                           "cloths": {cloth["name"]: {"width": f"{width} mm", "way": way}}}  # fmt: skip
                fragments = json.loads(answer("panel", json.dumps(request)))["fragments"]
                said = next(one for one in fragments if one["id"] == f"cloth.{cloth['name']}")
                assert said["text"].endswith(f": {cell} m"), (size, way, width, cell, said["text"])
                seen += 1
    assert seen == 9 * (2 * 4 + 2 * 4 + 2 * 1)


def test_a_width_that_does_not_work_is_a_dash(sheet: dict[str, Any], pattern: PatternFiles) -> None:
    assert pattern.sheet["pattern"] == sheet["pattern"]
    narrow = {**sheet["cloths"][0], "widths_mm": [300]}
    assert set(rows_of(read(tables.cloth_table(sheet, narrow)))["116"]) == {"–"}


def test_cutting_lists_hold_every_line_once(pattern: PatternFiles) -> None:
    parts = read(tables.cutting_lists(pattern.sheet)).all("table")
    assert [part.all("caption")[0].text for part in parts] == ["Outer cloth", "Lining", "Fusible interfacing"]
    assert sum(len(part.all("tbody")[0].all("tr")) for part in parts) == len(pattern.sheet["items"])
    first = parts[0].all("tbody")[0].all("tr")[0]
    assert [cell.text for cell in first.all("td")][:2] == ["1 mirrored pair", "Length: to the hip"]


@pytest.mark.parametrize(
    ("lay_mm", "metres", "yards"),
    [
        (1020.0, "1.05", "1 1/4"),  # 1050 mm with the ends squared: on the step exactly; 9.19 eighths of a yard
        (1020.1, "1.10", "1 1/4"),
        (1113.1, "1.15", "1 3/8"),  # 1143.1 mm are a tenth more than 10 eighths of 114.3 mm
        (1113.0, "1.15", "1 1/4"),
    ],
)
def test_amounts_are_rounded_upwards_only(lay_mm: float, metres: str, yards: str) -> None:
    both = read(amount_to_buy(lay_mm)).all("span")
    assert [["".join(str(child) for child in one.children)] for one in both] == [[metres], [yards]]


def test_a_column_has_decimals_throughout_or_not_at_all() -> None:
    def shown(*mm: float) -> list[str]:
        return [read(cell).text for cell in column_of_figures(mm)]

    assert shown(860, 920) == ["86", "92"]
    assert shown(480, 503) == ["48.0", "50.3"]


def test_headings_of_groups_span_their_columns() -> None:
    made = read(table([("A", "1"), ("A", "2"), ("B", "1")], [("x", ["1", "2", "3"])],
                      caption="c", label="l", corner="k"))  # fmt: skip
    spans = [(cell.text, cell.attributes.get("colspan")) for cell in made.all("thead")[0].all("tr")[0].all("th")]
    assert spans == [("k", None), ("A", "2"), ("B", None)]
