"""Do the sewing steps say the figures that the pieces have? Each is read out of the text and looked up."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from drawn_pieces import FERRYLIGHT_SIZES, MILLRACE_SIZES, drawn, edge_mm, polygon
from written_steps import steps_text

PATTERNS = Path(__file__).parents[1] / "data" / "patterns"
NEAR_MM = 0.1


@cache
def raw(name: str) -> dict[str, Any]:
    """The pattern as written."""
    found: dict[str, Any] = yaml.safe_load((PATTERNS / name / "pattern.yaml").read_text(encoding="utf-8"))
    return found


def figures(name: str, words: str) -> list[float]:
    """The numbers at the places marked # in the one place of the steps where these words stand."""
    text = steps_text(name)
    found = re.findall(re.escape(words).replace(r"\#", r"(\d+(?:\.\d+)?)"), text)
    assert len(found) == 1, f"{words!r} stands {len(found)} times in the steps of {name}"
    return [float(one) for one in (found[0] if isinstance(found[0], tuple) else [found[0]])]


def allowance_mm(name: str, edge: str) -> float:
    """The allowance of an edge, by the pattern's file."""
    piece, wanted = edge.split(".")
    (found,) = [one for one in raw(name)["pieces"][piece]["edges"] if one["name"] == wanted]
    return float(found.get("allowance_mm", raw(name)["allowance_mm"]))


def test_allowances_of_the_jacket() -> None:
    seams, edges = figures("ferrylight", "Seams are # mm, the front edges, the neck and the collars # mm.")
    (hems,) = figures("ferrylight", "Press the hem on its line, # mm up; catch")
    for piece, one in raw("ferrylight")["pieces"].items():
        fold = {cut.get("fold_edge") for cut in one["cut"]}
        for edge in one["edges"]:
            name = edge["name"]
            if name in fold or (piece, name) == ("pocket", "top"):
                continue
            if name == "inner" and piece.endswith("armhole-facing"):
                assert allowance_mm("ferrylight", f"{piece}.{name}") == 0, "they have no allowance"
                continue
            neck = name in ("neck", "front-edge") or "collar" in piece
            hem = f"{piece}.{name}" in ("back.hem", "front.hem", "sleeve.end")
            assert allowance_mm("ferrylight", f"{piece}.{name}") == (edges if neck else hems if hem else seams), name
        for cut_off in one.get("cut_offs", []):
            assert cut_off["allowance_mm"] == seams


def test_interfacing_ends_at_the_stitching_line_as_the_steps_say() -> None:
    fused = {
        f"{name}.{one['area']}": one["to"]
        for name, piece in raw("ferrylight")["pieces"].items()
        for one in piece.get("interfacing", [])
    }
    named = {
        "front.front-edge",
        "back-neck-facing.whole",
        "waist-band.outer-half",
        "sleeve-band.outer-half",
        "front-facing.closure-strip",
        "front-armhole-facing.whole",
        "back-armhole-facing.whole",
        "flat-collar.whole",
        "stand-collar.whole",
    }
    assert fused == dict.fromkeys(named, "stitching")


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_pocket_folds_over_by_what_is_left_of_its_top(size: str) -> None:
    (over,) = figures("ferrylight", "the top of the pocket folds over by # mm")
    assert allowance_mm("ferrylight", "pocket.top") - allowance_mm("ferrylight", "pocket-lining.top") == over
    (_, top, _, bottom), (_, lining_top, _, lining_bottom) = (
        polygon(drawn("ferrylight")[name, size].segments).bounds for name in ("pocket", "pocket-lining")
    )
    assert lining_bottom - lining_top == pytest.approx(bottom - top - over, abs=NEAR_MM)


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_lining_is_as_much_longer_as_the_steps_say(size: str) -> None:
    (longer,) = figures("ferrylight", "The lining is # mm longer than it needs to be")
    (turned_up,) = figures("ferrylight", "Press the hem on its line, # mm up; catch")
    assert allowance_mm("ferrylight", "back.hem") == turned_up
    back, lining = drawn("ferrylight")["back", size].points, drawn("ferrylight")["back-lining", size].points
    below_underarm = [one["hem-centre"].imag - one["underarm"].imag for one in (back, lining)]
    shorter = below_underarm[0] - below_underarm[1]
    # The lining's seam line meets the cloth's edge less a seam, above the fold of the hem.
    met_above = turned_up - allowance_mm("ferrylight", "back-lining.hem")
    assert met_above - shorter == pytest.approx(longer, abs=NEAR_MM)
    (above_hem,) = figures("ferrylight", "ends at the mark # mm above the hem line of the facing")
    facing = drawn("ferrylight")["front-facing", size].points
    assert facing["hem-inner"].imag - facing["lining-stop"].imag == pytest.approx(above_hem, abs=NEAR_MM)
    (at_band,) = figures("ferrylight", "the lining is # mm longer, its fullness stays above the edge")
    (low, high) = next(seam["ease_mm"] for seam in raw("ferrylight")["seams"] if seam["name"] == "lining-front-waist")
    assert low <= at_band <= high


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_sleeve_head_is_as_much_longer_as_the_steps_say(size: str) -> None:
    (percent,) = figures("ferrylight", "the sleeve head is a little longer (# %)")
    head = edge_mm("ferrylight", "sleeve.head-front", size) + edge_mm("ferrylight", "sleeve.head-back", size)
    armhole = edge_mm("ferrylight", "front.armhole", size) + edge_mm("ferrylight", "back.armhole", size)
    assert 100 * (head / armhole - 1) == pytest.approx(percent, abs=0.2)


def test_sleeve_is_gathered_to_the_ratio_that_the_steps_name() -> None:
    assert figures("ferrylight", "sew # mm and press the allowance into the band") == [10]
    assert "fits the band: it is 1.5 times as long" in steps_text("ferrylight")
    for size in FERRYLIGHT_SIZES:
        ratio = edge_mm("ferrylight", "sleeve-gathered.end", size) / edge_mm("ferrylight", "sleeve-band.outer", size)
        assert ratio == pytest.approx(1.5, abs=0.02)


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
@pytest.mark.parametrize("length", ["hip", "waist"])
def test_buttons_have_room(size: str, length: str) -> None:
    """Holes from the first to the last as the steps place them: at least two diameters apart (common practice)."""
    for closure in raw("ferrylight")["notions"]:
        if closure["kind"] in ("button", "snap"):
            assert _apart_mm(closure, size, length) >= 2 * closure["diameter_mm"]
            assert _apart_mm(closure, size, length) <= 90


def _apart_mm(closure: dict[str, Any], size: str, length: str) -> float:
    """How far apart they sit when they are spread evenly from the first place to the last."""
    first, above_hem = closure["placed"]["first_mm"], closure["placed"]["last_mm"][-1]["mm"]
    front = drawn("ferrylight")["front", size].points
    band = drawn("ferrylight")["waist-band", size].points
    half_band = abs(band["outer-front"] - band["inner-front"]) / 4
    end = front["hem-centre"].imag - above_hem if length == "hip" else front["waist-centre"].imag + half_band
    return float((end - front["neck-centre"].imag - first) / (closure["tabled_count"][size] - 1))


@pytest.mark.outside
def test_buttonhole_is_as_long_as_diameter_and_thickness() -> None:
    """Diameter + thickness: Extension Bulletin 57, 1965."""
    text = steps_text("ferrylight")
    said = re.findall(r"diameter and thickness together, (\d+) mm", text)
    (button,) = [one for one in raw("ferrylight")["notions"] if one["kind"] == "button"]
    assert said == [str(button["diameter_mm"] + button["thickness_mm"])]


@pytest.mark.parametrize("size", FERRYLIGHT_SIZES)
def test_collars_are_as_the_steps_say(size: str) -> None:
    narrower = figures("ferrylight", "the under collar is # mm narrower")
    upper, under = (drawn("ferrylight")[name, size].points for name in ("flat-collar", "flat-under-collar"))
    widths = [abs(one["outer-shoulder"] - one["neck-shoulder"]) for one in (upper, under)]
    assert widths[0] - widths[1] == pytest.approx(narrower[0], abs=NEAR_MM)
    text = steps_text("ferrylight")
    free = re.findall(r"(\d+) mm of the neck edge stay free", text)
    front = drawn("ferrylight")["front", size].points
    overlap_mm = abs(front["neck-front"] - front["neck-centre"])
    assert [float(one) for one in free] == pytest.approx([overlap_mm] * 2, abs=NEAR_MM)


def test_plain_pocket_hem_takes_the_allowance_of_the_lined_one() -> None:
    turned_in, over = figures("ferrylight", "Press the top edge of each pocket # mm to the wrong side") + figures(
        "ferrylight", "It is now a hem of # mm on the wrong side"
    )
    assert turned_in + over == allowance_mm("ferrylight", "pocket.top")


def test_allowances_of_the_skirt() -> None:
    sides, band, hem = figures(
        "millrace", "Seams are # mm at the sides and # mm at the waist and the band; the hem is # mm."
    )
    for panel in ("panel-half", "panel-full"):
        found = [allowance_mm("millrace", f"{panel}.{edge}") for edge in ("side", "waist", "hem")]
        assert found == [sides, band, hem]
    assert {allowance_mm("millrace", f"band.{edge}") for edge in ("inner", "end", "outer")} == {band}
    first, then = figures("millrace", "Stitch round, # mm from the edge.") + figures("millrace", "once more by # mm")
    assert first + then == hem
    (staystitch,) = figures("millrace", "Stitch round the waist edge of each panel # mm from the edge")
    assert staystitch < band


@pytest.mark.parametrize("size", MILLRACE_SIZES)
def test_casing_takes_the_elastic_and_the_gap_lies_within_it(size: str) -> None:
    (channel,) = figures("millrace", "The channel for the elastic is now # mm high.")
    gap, below_fold = figures("millrace", "leave the seam open for # mm, beginning # mm from the middle of the band")
    (lap,) = figures("millrace", "Lap its ends by # mm")
    (elastic,) = [one for one in raw("millrace")["notions"] if one["kind"] == "elastic"]
    points = drawn("millrace")["band", size].points
    height = abs(points["inner-fold"] - points["outer-fold"])
    assert channel == pytest.approx((height - 2 * allowance_mm("millrace", "band.inner")) / 2, abs=NEAR_MM)
    assert elastic["width_mm"] < gap and below_fold + gap < channel
    assert lap == elastic["rule"]["overlap_mm"]
