"""The tables: figures of the sheet and of the calculators, readable by a screen reader and without a script."""

from __future__ import annotations

import json
from typing import Any

import pytest

from boltside.calculators.door import answer
from boltside.pages import cloth_amounts, table_sections, tables
from boltside.pages.lengths import amount_to_buy, column_of_figures
from boltside.pages.slots import Slots
from boltside.pages.table_html import table
from boltside.shop_build import PatternFiles

from .reading import Element, read

SILENT = Slots({"fragments": []})


def rows_of(part: Element) -> dict[str, list[str]]:
    """Row heading to the texts of its cells."""
    return {row.all("th")[0].text: [cell.text for cell in row.all("td")] for row in part.all("tbody")[0].all("tr")}


def headings(part: Element) -> list[str]:
    return [cell.text for cell in part.all("thead")[0].all("tr")[-1].all("th")]


def test_size_chart_has_body_finished_and_ease(pattern: PatternFiles) -> None:
    body, finished = read(table_sections.size_chart(pattern.sheet, SILENT)).all("table")
    assert headings(body) == ["Size", "Height", "Chest", "Waist", "Hip", "About"]
    assert rows_of(body)["92"] == ["92", "50.3", "47.5", "51.0", "2 years"]
    groups = [cell.text for cell in finished.all("thead")[0].all("tr")[0].all("th")]
    assert groups == ["Size", "Finished", "Ease"]
    assert headings(finished) == ["Chest", "Back length", "Sleeve length", "Chest"]
    # By hand from the sheet: chest 503, finished 4 × (503 // 4) + 92.4 = 592.4, so 89.4 of ease, shown to the mm.
    # Back length 4 × 92 − 38 = 330, sleeve 3 × 92 + 40 = 316.
    assert rows_of(finished)["92"] == ["59.2", "33.0", "31.6", "8.9"]
    assert list(rows_of(body)) == list(rows_of(finished)) == pattern.sheet["sizes"]


def test_every_column_and_row_is_headed(pattern: PatternFiles) -> None:
    sheet = pattern.sheet
    whole = "".join(part(sheet, SILENT) for part in (
        table_sections.size_chart, table_sections.cloth_tables, table_sections.notions_table
    )) + table_sections.cutting_lists(sheet)  # fmt: skip
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


def test_cloth_tables_say_what_the_calculator_says(pattern: PatternFiles) -> None:
    sheet = pattern.sheet
    seen = 0
    for cloth in sheet["cloths"]:
        amounts = cloth_amounts.amounts_frame(sheet, cloth)
        for nap in cloth_amounts.naps(sheet, cloth):
            part = read(table_sections.cloth_table(sheet, cloth, amounts, nap, cloth["widths_mm"]))
            for size, cells in rows_of(part).items():
                asked = [(way, width) for way in cloth["ways"] for width in cloth["widths_mm"]]
                for (way, width), cell in zip(asked, cells, strict=True):
                    request = {"pattern": sheet["pattern"], "size": size, "choices": {}, "unit": "cm",
                               "cloths": {cloth["name"]: {"width": f"{width} mm", "way": way, "nap": nap}}}  # fmt: skip
                    fragments = json.loads(answer("panel", json.dumps(request)))["fragments"]
                    said = next(one for one in fragments if one["id"] == f"cloth.{cloth['name']}")
                    assert said["text"].endswith(f": {cell} m"), (size, way, nap, width, cell, said["text"])
                    seen += 1
    assert seen == 9 * (2 * 2 * 4 + 2 * 2 * 4 + 2 * 1)  # sizes; naps, ways, widths of outer cloth and lining; fusible


def test_a_width_that_does_not_work_is_a_dash(sheet: dict[str, Any], pattern: PatternFiles) -> None:
    assert pattern.sheet["pattern"] == sheet["pattern"]
    narrow = {**sheet["cloths"][0], "widths_mm": [300]}
    amounts = cloth_amounts.amounts_frame(sheet, narrow)
    part = read(table_sections.cloth_table(sheet, narrow, amounts, "without", [300]))
    assert set(rows_of(part)["116"]) == {"–"}


def test_many_widths_show_the_usual_ones_first(sheet: dict[str, Any], pattern: PatternFiles) -> None:
    widths = [*range(900, 1601, 50), 1850]
    cloth = {**sheet["cloths"][0], "widths_mm": widths}
    usual = cloth_amounts.usual_widths(cloth)
    assert usual == [900, 1100, 1150, 1350, 1400, 1500, 1600]
    part = read(table_sections.cloth_part(pattern.sheet, cloth, SILENT))
    first, *others = part.all("table")
    assert headings(first) == [f"{one // 10} cm" for one in usual] * 2
    hidden = [each for detail in part.all("details") for each in detail.all("table")]
    assert first not in hidden and hidden == others  # with nap; the other widths without and with
    assert [headings(each) for each in others[1:]] == [
        [f"{one // 10} cm" for one in widths if one not in usual] * 2
    ] * 2


def test_a_cloth_always_with_nap_has_no_other_table(sheet: dict[str, Any], pattern: PatternFiles) -> None:
    cloth = {**sheet["cloths"][0], "nap": [{"nap": "always", "when": []}]}
    captions = [one.text for one in read(table_sections.cloth_part(pattern.sheet, cloth, SILENT)).all("caption")]
    assert captions == ["Outer cloth, with nap, in metres"]


def test_every_table_is_there_for_files_with_all_widths(pattern: PatternFiles) -> None:
    named = {table.name: table for table in tables.all_tables(pattern.sheet)}
    assert list(named) == [
        "size-chart", "size-chart-inches", "cloth-outer", "cloth-outer-yards", "cloth-lining", "cloth-lining-yards",
        "cloth-interfacing", "cloth-interfacing-yards", "notions", "cutting-list",
    ]  # fmt: skip
    outer = named["cloth-outer"].frame
    assert list(outer.columns) == [f"{width} cm wide (m)" for width in (110, 135, 140, 150)]
    assert len(outer) == 9 * 2 * 2
    said = {part["id"]: part["text"] for part in pattern.default_answer["fragments"]}
    assert said["cloth.outer"].endswith(f": {outer.loc[('Folded once', 'Without nap', '92'), '140 cm wide (m)']:.2f} m")
    chart = named["size-chart"].frame
    # By hand from the sheet, as in the size chart of the page.
    assert chart.loc["92", ["Body: Chest (cm)", "Finished: Chest (cm)", "Ease: Chest (cm)"]].tolist() == [
        50.3,
        59.2,
        8.9,
    ]
    assert len(named["cutting-list"].frame) == len(pattern.sheet["items"])


def test_notions_are_in_the_units_they_are_sold_in(pattern: PatternFiles) -> None:
    part = read(table_sections.notions_table(pattern.sheet, SILENT))
    titles, row = [title.replace("\xa0", " ") for title in headings(part)[1:]], rows_of(part)["92"]
    said = {part["id"]: part["text"] for part in pattern.default_answer["fragments"]}
    assert said["notion.closure"].endswith(f": {row[titles.index('Buttons, 13 mm, or snaps, pieces')]}")
    assert said["notion.hem-tape"].endswith(f": {row[titles.index('Hem tape, 12 mm, metres')]} m")
    assert not any(title.startswith("Elastic") for title in titles), "the usual choices take none"


def test_cutting_lists_hold_every_line_once(pattern: PatternFiles) -> None:
    parts = read(table_sections.cutting_lists(pattern.sheet)).all("table")
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
