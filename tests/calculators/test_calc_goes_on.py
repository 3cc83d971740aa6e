"""Whether it goes on and holds: rings over head and hip, elastic, as they are said."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from cases.real_sheets import real_sheet

from boltside.calculators.elastic import STRETCHED, Cut, cut_length
from boltside.calculators.fragments import Fragment
from boltside.calculators.goes_on import elastic_warning, missing_mm, one_elastic, one_ring, ring_warning
from boltside.calculators.notions import one_notion
from boltside.calculators.request import read_request


def ring(
    mm: float, body: float, over: str = "head", second: str = "", make: Callable[..., Fragment] = one_ring
) -> Fragment:
    """The fragment about a ring that opens to so much, for a head or another part of the body."""
    room = 10 if over == "head" else 20
    told = {"name": "neck", "title": "The neck", "over": over, "room_mm": room, "body_mm": {"92": body, "98": body + 5},
            "cases": [{"when": [], "mm": {"92": mm, "98": mm}}]}  # fmt: skip
    return make(read_request(real_sheet("windlass"), {"size": "92", "second": second}), told)


@pytest.mark.outside
def test_a_neck_that_passes_the_head_and_one_that_does_not() -> None:
    """Neck line + 2 × slit ≥ head + 10 mm (common practice)."""
    assert missing_mm(527, 517, 10) == 0 and missing_mm(512, 517, 10) == 15
    fine = ring(527, 517)
    assert fine.kind == "sentence" and fine.said.text == (
        "The neck: 52.7 cm round. Needed are 52.7 cm: 51.7 cm for a head as large as 97 of 100 children have at most, "
        "and 1 cm more (common practice)."
    )
    tight = ring(512, 517)
    assert tight.kind == "warning" and tight.data["missing_mm"] == 15
    assert tight.said.text.endswith("That is 15 mm too little: try on before you finish the edge.")


def test_the_note_at_the_top_says_what_is_missing_and_nothing_else() -> None:
    tight = ring(512, 517, make=ring_warning)
    assert (tight.name, tight.kind) == ("advice.on.neck", "warning")
    assert tight.said.text == "The neck: 15 mm too little to pull it on."
    assert '<a href="#made-with">' in tight.said.html and "15 mm" in tight.said.html
    assert ring(527, 517, make=ring_warning).said.html == ""
    # Only size 98, whose head is 5 mm more, does not pass.
    both = ring(527, 517, second="98", make=ring_warning).said.text
    assert both == "Size 98: The neck: 5 mm too little to pull it on."


def test_the_note_at_the_top_says_so_of_elastic_too() -> None:
    sheet = real_sheet("millrace")
    notion: dict[str, Any] = next(one for one in sheet["notions"] if "elastic" in one["kinds"])
    request = read_request(sheet, {"size": "92"})
    assert elastic_warning(request, notion).said.html == ""
    # 280 mm closed stretch to 504, the hip is 508 mm.
    tight = elastic_warning(request, {**notion, "tabled_mm": {"92": 300}}).said.text
    assert tight == "Elastic, 20 mm wide: 4 mm too little to pull it on."
    rare = {**notion, "when": [{"waist": ["none"]}]}
    assert elastic_warning(request, rare).said.html == ""


@pytest.mark.outside
def test_a_waist_has_to_pass_the_hip_by_twenty() -> None:
    """Pull-on woven waist ≥ hip + 20 mm (common practice)."""
    assert ring(528, 508, "hip").kind == "sentence" and ring(527, 508, "hip").data["missing_mm"] == 1
    assert "50.8 cm for the hip, and 2 cm more" in ring(528, 508, "hip").said.text


def test_of_two_garments_each_is_told_and_the_worse_warns() -> None:
    both = ring(530, 517, second="98")
    assert both.kind == "warning" and both.data["missing_mm"] == 2
    assert both.said.text.startswith("Size 92: The neck: 53 cm") and "Size 98: The neck: 53 cm round." in both.said.text


@pytest.mark.outside
def test_elastic_is_stretched_by_what_the_trade_says() -> None:
    """Elastic stretches to about 1.8 times its length (from memory): 454 × 1.8 is 817."""
    assert STRETCHED == 1.8
    sheet = real_sheet("millrace")
    notion = next(one for one in sheet["notions"] if "elastic" in one["kinds"])
    said = one_elastic(read_request(sheet, {"size": "92"}), notion)
    assert said.data == {"closed_mm": 454, "stretched_mm": 817}
    assert said.said.text == (
        "Elastic, 20 mm wide: Stretched to about 81.7 cm, 1.8 times its length, it passes the hip, 50.8 cm. Closed it "
        "is 45.4 cm round, the waist 47.4 cm: so it holds. Its channel is 26 mm high."
    )


def test_elastic_that_neither_passes_nor_holds() -> None:
    sheet = real_sheet("millrace")
    notion: dict[str, Any] = next(one for one in sheet["notions"] if "elastic" in one["kinds"])
    tight = {**notion, "tabled_mm": {"92": 300}}
    assert "it does not pass the hip" in one_elastic(read_request(sheet, {"size": "92"}), tight).said.text
    loose = {**notion, "tabled_mm": {"92": 600}}
    said = one_elastic(read_request(sheet, {"size": "92"}), loose).said.text
    assert "longer than the waist, 47.4 cm: take it in" in said


def test_ends_caught_in_seams_have_a_mark_and_a_tail() -> None:
    rule = {"take": "ring", "body": "waist", "factor": 1, "minus_mm": 20, "overlap_mm": 0, "tail_mm": 10}
    notion = {"rule": rule, "tabled_mm": {}, "edge_cases": []}
    # 474 - 20 closed, and 10 at either end.
    assert cut_length(notion, {"waist": 474}, "92", {}) == Cut(474, 0, 474, 10)
    sheet = real_sheet("millrace")
    own = next(one for one in sheet["notions"] if "elastic" in one["kinds"])
    buy, cut = one_notion(read_request(sheet, {"size": "92"}), {**own, "rule": rule})
    assert cut.said.text == (
        "Cut 47.4 cm: mark 45.4 cm on it, and leave 10 mm at either end, to be caught in the seams."
    )
    assert buy.data["total_mm"] == 474
