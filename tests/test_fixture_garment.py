"""The fixture garment against values worked out by hand (tests/garment/by_hand.py, tests/garment/README.md)."""

from __future__ import annotations

import runpy
from pathlib import Path
from typing import Any

import pytest

from boltside.calculators.conditions import holds
from boltside.measure.cutting_list import cut_lines
from boltside.measure.finished import finished_cases, finished_mm, notion_edge_cases, notion_edge_length_mm
from boltside.measure.garment import make_garment
from boltside.measure.lay_items import lay_item
from boltside.measure.model import Garment
from boltside.measure.polyline import area_mm2
from boltside.measure.seams import check_seams
from boltside.pattern import EdgeRule, Pattern, RingRule
from boltside.read.folder import read_pattern

GARMENT = Path(__file__).parent / "garment"
SETS: dict[str, dict[str, Any]] = runpy.run_path(str(GARMENT / "by_hand.py"))["SETS"]

NEAR_MM = 0.01
NEAR_MM2 = 1.0


@pytest.fixture(scope="module")
def oblong() -> Pattern:
    return read_pattern(GARMENT / "data" / "patterns" / "oblong", GARMENT / "data" / "body_charts")


@pytest.fixture(params=sorted(SETS))
def by_hand(request: pytest.FixtureRequest) -> dict[str, Any]:
    found: dict[str, Any] = SETS[request.param]
    return found


@pytest.fixture
def garment(oblong: Pattern, by_hand: dict[str, Any]) -> Garment:
    return make_garment(oblong, by_hand["size"], by_hand["chosen"])


def test_pieces_and_roles(garment: Garment, by_hand: dict[str, Any]) -> None:
    assert set(garment.pieces) == set(by_hand["pieces"])
    assert garment.roles == by_hand["roles"]


def test_how_each_piece_is_cut(garment: Garment, by_hand: dict[str, Any]) -> None:
    for name, expected in by_hand["pieces"].items():
        assert [(e.cloth, e.mode, e.count, e.face) for e in garment.pieces[name].cut] == expected["cut"], name


def test_edge_lengths_on_both_lines(garment: Garment, by_hand: dict[str, Any]) -> None:
    for name, expected in by_hand["pieces"].items():
        found = {e.name: (e.length_mm, e.cutting_length_mm) for e in garment.pieces[name].edges}
        assert set(found) == set(expected["edges"]), name
        for edge, lengths in expected["edges"].items():
            assert found[edge] == pytest.approx(lengths, abs=NEAR_MM), f"{name}.{edge}"


def test_interfaced_areas(garment: Garment, by_hand: dict[str, Any]) -> None:
    for name, expected in by_hand["pieces"].items():
        found = garment.pieces[name].interfaced
        assert len(found) == len(expected["interfaced"]), name
        for area, (cloth, which, drawn_mm2, copy_mm2, copies) in zip(found, expected["interfaced"], strict=True):
            assert (area.cloth, area.area, area.copies) == (cloth, which, copies), name
            assert area_mm2(area.outline_mm) == pytest.approx(drawn_mm2, abs=NEAR_MM2), name
            assert area.area_mm2 == pytest.approx(copy_mm2, abs=NEAR_MM2), name


def test_interfacing_is_of_the_hand_of_its_copy(oblong: Pattern) -> None:
    """Both halves are drawn to the right of the centre line, face up: of the front that is the wearer's left half, of
    the back her right. The first strip is for her left, the second (with the collar) for her right."""
    faces = {
        opening: [
            (area.carried_by, area.face)
            for area in make_garment(
                oblong, "92", {"opening": opening, "length": "hip", "sleeves": "none", "collar": "stand"}
            )
            .pieces[opening]
            .interfaced
        ]
        for opening in ("front", "back")
    }
    assert faces == {
        "front": [(("wearers-left",), "up"), (("wearers-right",), "down")],
        "back": [(("wearers-left",), "down"), (("wearers-right",), "up")],
    }


def test_seams(garment: Garment, by_hand: dict[str, Any]) -> None:
    found = {seam.name: seam for seam in check_seams(garment)}
    assert set(found) == set(by_hand["seams"])
    for name, lengths in by_hand["seams"].items():
        assert (found[name].join_mm, found[name].to_mm) == pytest.approx(lengths, abs=NEAR_MM), name
        assert found[name].holds, found[name].problem


def test_finished_measurements(garment: Garment, by_hand: dict[str, Any], oblong: Pattern) -> None:
    by_name = {measurement.name: measurement for measurement in oblong.measurements}
    assert by_hand["finished"]
    for name, expected in by_hand["finished"].items():
        assert finished_mm(garment, by_name[name]) == pytest.approx(expected, abs=NEAR_MM), name


def test_notions_tied_to_edges(garment: Garment, by_hand: dict[str, Any], oblong: Pattern) -> None:
    """The rules are applied here by the format's words, to the measured edge or the body chart."""
    body = oblong.body_chart.rows[by_hand["size"]]
    by_name = {notion.name: notion for notion in oblong.notions}
    for name, expected in by_hand["notions_mm"].items():
        notion = by_name[name]
        if isinstance(notion.rule, EdgeRule):
            edge_mm = notion_edge_length_mm(garment, notion)
            found = edge_mm * notion.rule.times * notion.rule.factor + notion.rule.plus_mm
        else:
            assert isinstance(notion.rule, RingRule)
            rule = notion.rule
            found = body[rule.body] * rule.factor - rule.minus_mm + rule.overlap_mm
        assert found == pytest.approx(expected, abs=NEAR_MM), notion.name


def test_the_cutting_list_over_all_choices_agrees_with_each_garment(
    garment: Garment, by_hand: dict[str, Any], oblong: Pattern
) -> None:
    """The lines that apply to these choices are the pieces and areas of the garment, and their outlines its own."""
    asked = {**by_hand["chosen"], "size": by_hand["size"]}
    lines = [line for line in cut_lines(oblong) if holds(line.when, asked)]
    cut = sorted((line.piece, line.cloth, line.count) for line in lines if line.kind == "cut")
    assert cut == sorted(
        (name, cloth, count) for name, piece in by_hand["pieces"].items() for cloth, _, count, _ in piece["cut"]
    )
    interfaced = sorted((line.piece, line.area or "", line.count) for line in lines if line.kind == "interfacing")
    assert interfaced == sorted(
        (name, which or "", copies)
        for name, piece in by_hand["pieces"].items()
        for _, which, _, _, copies in piece["interfaced"]
    )
    for line in lines:
        item = lay_item(oblong, line, by_hand["size"])
        piece = garment.pieces[line.piece]
        if line.kind == "cut":
            assert area_mm2(item.outline_mm) == pytest.approx(area_mm2(piece.by_cloth[line.cloth].cutting_mm), abs=1)


def test_each_line_has_an_id_of_its_own(oblong: Pattern) -> None:
    ids = [line.line_id for line in cut_lines(oblong)]
    assert len(set(ids)) == len(ids)
    assert {"pocket.outer", "tab.outer", "cuff.outer", "cuff.interfacing.whole", "collar.outer"} <= set(ids)
    assert {"frill.outer.none", "frill.outer.sewn"} <= set(ids)


def test_finished_measurements_over_all_choices(oblong: Pattern) -> None:
    """The centre of the uncut half, with the frill: 60 mm off, 100/110/120 on (README.md's table)."""
    centre = next(measurement for measurement in oblong.measurements if measurement.name == "centre-length")
    opened_front, opened_back = finished_cases(oblong, centre)
    assert opened_front.when == ({"opening": ("front",), "length": ("waist",)},)
    assert opened_front.mm == pytest.approx({"80": 200 + 100, "92": 233 + 110, "104": 264 + 120})
    assert opened_back.when == ({"opening": ("back",), "length": ("waist",)},)
    assert opened_back.mm == pytest.approx({"80": 179 + 100, "92": 217 + 110, "104": 255 + 120})
    ribbon = next(notion for notion in oblong.notions if notion.name == "frill-ribbon")
    (case,) = notion_edge_cases(oblong, ribbon)
    assert case.mm == {"80": 370, "92": 477, "104": 467.5}
    assert case.when == ({"length": ("waist",)},)


def test_some_set_has_notions_tied_to_edges() -> None:
    assert any(by_hand["notions_mm"] for by_hand in SETS.values())
