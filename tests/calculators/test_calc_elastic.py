"""Elastic: the rule, the designer's own figure, and what to buy."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.elastic import Cut, cut_length

Ask = Callable[..., dict[str, dict[str, Any]]]
WAIST = {"length": "waist"}


@pytest.mark.outside
# source: from memory, "closed ring: body × factor + overlap 13-25 mm; child waist body − 25 mm to equal"
@pytest.mark.parametrize(("waist", "minus", "overlap", "total"), [(473, 25, 20, 468), (473, 0, 13, 486)])
def test_ring_at_the_waist(waist: int, minus: int, overlap: int, total: int) -> None:
    rule = {"take": "ring", "body": "waist", "factor": 1, "minus_mm": minus, "overlap_mm": overlap}
    cut = cut_length({"rule": rule, "tabled_mm": {}, "edge_cases": []}, {"waist": waist}, "92", {})
    assert cut == Cut(total, overlap, total)
    assert cut.closed_mm == waist - minus


def test_the_designers_figure_wins_and_the_difference_is_in_the_data(ask: Ask) -> None:
    said = ask("elastic", size="92", choices=WAIST)
    # Waist 475 − 20 + 20 = 475 by the rule; the sheet's table says 480.
    assert said["notion.waist-elastic"]["text"] == "Elastic, 20 mm wide: 0.50 m"
    assert said["notion.waist-elastic.cut"]["text"] == "Cut 48 cm: 46 cm closed and 2 cm overlap."
    data = said["notion.waist-elastic.cut"]["data"]
    assert (data["tabled"], data["tabled_less_rule_mm"]) == (True, 5)


def test_by_the_rule_where_nothing_is_tabled(ask: Ask) -> None:
    said = ask("elastic", size="98", choices=WAIST)
    # Waist 492 (491.7 rounded) − 20 + 20.
    assert said["notion.waist-elastic.cut"]["text"] == "Cut 49.2 cm: 47.2 cm closed and 2 cm overlap."
    assert said["notion.waist-elastic.cut"]["data"]["tabled_less_rule_mm"] == 0
    assert said["notion.waist-elastic"]["data"]["buy_mm"] == 500


def test_without_elastic_nothing_is_said(ask: Ask) -> None:
    assert {one["text"] for one in ask("elastic", size="92", choices={"length": "hip"}).values()} == {""}


def test_elastic_brings_its_caution_once(ask: Ask) -> None:
    said = ask("panel", size="92", choices=WAIST)
    assert said["caution.elastic"]["text"] == "Elastic must not mark the skin; check as the child grows."


def test_along_an_edge() -> None:
    rule = {"take": "edge", "times": 2, "factor": 0.8, "plus_mm": 30}
    cases = [{"when": [{"length": ["hip"]}], "mm": {"92": 400}}, {"when": [], "mm": {"92": 300}}]
    notion = {"rule": rule, "tabled_mm": {}, "edge_cases": cases}
    assert cut_length(notion, {}, "92", {"length": "hip"}) == Cut(670, 0, 670)
    assert cut_length(notion, {}, "92", {"length": "waist"}) == Cut(510, 0, 510)
    assert cut_length(notion, {}, "68", {}) is None


def test_several_pieces_are_bought_together(ask: Ask, sheet: dict[str, Any]) -> None:
    from boltside.calculators.notions import notion_fragments
    from boltside.calculators.request import read_request

    two = next(one for one in sheet["notions"] if one["name"] == "waist-elastic") | {"count": 2}
    request = read_request({**sheet, "notions": [two]}, {"size": "98", "choices": WAIST})
    said = {one.name: one for one in notion_fragments(request)}
    assert said["notion.waist-elastic"].data["total_mm"] == 984
    assert said["notion.waist-elastic"].said.text == "Elastic, 20 mm wide: 1.00 m"
    assert said["notion.waist-elastic.cut"].said.text.startswith("Cut 2 pieces, each 49.2 cm: ")


@given(st.integers(300, 900), st.integers(0, 40), st.integers(13, 25))
def test_law_closed_and_overlap_make_the_total(waist: int, minus: int, overlap: int) -> None:
    rule = {"take": "ring", "body": "waist", "factor": 1, "minus_mm": minus, "overlap_mm": overlap}
    cut = cut_length({"rule": rule, "tabled_mm": {}, "edge_cases": []}, {"waist": waist}, "92", {})
    assert cut is not None and cut.closed_mm + cut.overlap_mm == cut.total_mm == waist - minus + overlap
