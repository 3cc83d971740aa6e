"""Tables of hand-written pages stand like our own, in both units."""

from __future__ import annotations

from markdown import markdown

from boltside.pages.hand_tables import hand_tables

from .reading import read

TABLE = markdown(
    "| Size | Age | Chest |\n|---|---|---:|\n| 92 | 2 years | 50.1 |\n",
    extensions=["tables"],
    extension_configs={"tables": {"use_align_attribute": True}},
)


def test_numbers_are_shown_in_both_units() -> None:
    page = read(hand_tables(TABLE, units=True))
    # 50.1 cm / 2.54 = 19.72 in, to the nearest eighth 19 3/4. From arithmetic.
    assert page.all("span", class_="in-cm")[0].text == "50.1"
    assert page.all("span", class_="in-inch")[0].children == ["19 3/4"]
    assert page.all("th", scope="row")[0].text == "92"
    assert [heading.text for heading in page.all("th", scope="col")] == ["Size", "Age", "Chest"]


def test_without_units_numbers_stay_as_written() -> None:
    made = hand_tables(TABLE, units=False)
    assert "50.1" in made and "in-inch" not in made and 'class="wide"' in made


def test_other_html_is_left_alone() -> None:
    assert hand_tables("<p>92 is a size.</p>", units=True) == "<p>92 is a size.</p>"
