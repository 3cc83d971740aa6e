"""The drawing of where to measure."""

from __future__ import annotations

from xml.etree import ElementTree

from boltside.pages.measuring import where_to_measure


def words(names: list[str]) -> list[str]:
    return [one.text or "" for one in ElementTree.fromstring(where_to_measure(names)).iter("text")]


def test_only_what_is_asked_for_is_drawn() -> None:
    assert words(["hip", "height"]) == ["Hip", "Height"]
    assert words(["chest", "waist", "hip", "height", "trunk"]) == ["Chest", "Waist", "Hip", "Height", "Trunk"]
    assert len(where_to_measure(["hip"])) < len(where_to_measure(["hip", "chest"]))


def test_it_is_read_out() -> None:
    svg = ElementTree.fromstring(where_to_measure(["hip"])).find("svg")
    assert svg is not None and svg.get("role") == "img" and svg.get("aria-label")
