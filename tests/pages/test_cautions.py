"""Cautions: the pattern's own and those that its notions bring; never a promise."""

from __future__ import annotations

from typing import Any

import pytest

from boltside.calculators.cautions import DEFER, TEXTS, caution_names
from boltside.pages.cautions import cautions

from .reading import read


@pytest.mark.parametrize(
    ("kinds", "names"),
    [(["button", "snap"], ["small-parts"]), (["elastic"], ["elastic"]), (["ribbon"], []), (["snap"], ["small-parts"])],
)
def test_notions_bring_their_cautions(kinds: list[str], names: list[str]) -> None:
    assert caution_names({"cautions": [], "notions": [{"kinds": kinds}]}) == names


def test_own_and_brought_cautions_come_once_in_a_fixed_order() -> None:
    notions = [{"kinds": ["elastic"]}, {"kinds": ["button"]}]
    sheet: dict[str, Any] = {"cautions": ["elastic", "cords"], "notions": notions}
    assert caution_names(sheet) == ["small-parts", "cords", "elastic"]


def test_rules_of_the_place_come_first_and_nothing_is_promised() -> None:
    everything = read(cautions({"cautions": list(TEXTS), "notions": []})).text
    assert DEFER in everything
    for word in ("compliant", "certified", "complies", "conforms", "safe for", "approved"):
        assert word not in everything.lower()


def test_of_a_chosen_set_only_what_its_notions_bring() -> None:
    notions = [{"kinds": ["elastic"], "when": [{"waist": ["elastic"]}]}, {"kinds": ["button"], "when": []},
               {"kinds": ["snap"], "when": [{"opening": ["shoulder"]}]}]  # fmt: skip
    sheet: dict[str, Any] = {"cautions": ["cords"], "notions": [notions[0], notions[2]]}
    assert caution_names(sheet, [{"waist": "band", "opening": "none"}]) == ["cords"]
    assert caution_names(sheet, [{"waist": "band", "opening": "shoulder"}]) == ["small-parts", "cords"]
    # Of two garments either's are told.
    both = [{"waist": "band", "opening": "shoulder"}, {"waist": "elastic", "opening": "none"}]
    assert caution_names(sheet, both) == ["small-parts", "cords", "elastic"]
    assert caution_names({**sheet, "notions": notions}, [{}]) == ["small-parts", "cords"]
    assert TEXTS["small-parts"][0] not in read(cautions(sheet, [{"waist": "band", "opening": "none"}])).text


@pytest.mark.outside
def test_figures_are_those_of_the_published_guidance() -> None:
    """EN 14682 as a market surveillance authority explains it; 16 CFR 1120 as the US CPSC explains it."""
    cords = TEXTS["cords"][1]
    assert "7 years or 134 cm" in cords and "14 cm at most when the garment is open" in cords
    assert "2T to 12" in cords and "2T to 16" in cords and "at most 3 in outside the channel" in cords
    assert "16 CFR 1615 and 1616" in TEXTS["sleepwear"][1]
