"""Lengths of edges and chains, and whether seams are as the designer means them."""

from __future__ import annotations

from typing import Any

import pytest

from boltside.measure.garment import make_garment
from boltside.measure.model import Garment, MeasureError
from boltside.measure.seams import check_seams, edge_length_mm
from boltside.pattern import EdgePart, RolePart, RolePlay, Seam

from .handmade import choice, four_edges, pattern, piece, rectangle, when


def garment(*seams: Seam, **chosen: str) -> Garment:
    """Two rectangles: a of 200 by 400 mm, b of 300 by 410 mm, cut lines drawn on b."""
    return make_garment(
        pattern(
            piece("a", four_edges(), rectangle(200, 400, points={"third": (50.0, 0.0), "inside": (9.0, 9.0)})),
            piece("b", four_edges(), rectangle(320, 430, points={"stop": (110.0, 430.0)}), drawn="cutting"),
            piece("c", four_edges(), rectangle(10, 10), when=when(extra="yes")),
            seams=seams,
            choices=(choice("extra", "no", "yes"),),
            roles=(RolePart(role="long", plays=(RolePlay(piece="b"),)),),
        ),
        "92",
        {"extra": "no", **chosen},
    )


def part(where: str, **more: Any) -> EdgePart:
    name, edge = where.split(".")
    return EdgePart(piece=name, edge=edge, **more)


@pytest.mark.parametrize(
    ("where", "expected"),
    [
        (part("a.bottom"), 200),
        (part("b.bottom"), 300),
        (part("as:long.right"), 410),
        (part("a.bottom", stop="third"), 50),
        (part("a.bottom", start="third"), 150),
        (part("a.bottom", start="third", stop="b"), 150),
        (part("a.bottom", start="b", stop="third"), 150),
        (part("b.top", start="stop"), 100),
        (part("a.left", times=2), 800),
        (part("a.left", times=-0.5), -200),
    ],
)
def test_lengths_are_taken_on_the_stitching_line(where: EdgePart, expected: float) -> None:
    assert edge_length_mm(garment(), where) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("where", "message"),
    [
        (part("x.bottom"), "there is no piece 'x'"),
        (part("c.bottom"), "there is no piece 'c'"),
        (part("a.hem"), "piece 'a' has no edge 'hem' here; it has bottom, right, top, left"),
        (part("a.bottom", stop="nowhere"), "piece 'a' has no point 'nowhere' here"),
        (part("a.bottom", stop="inside"), "the point 'inside' of piece 'a' is not on its edge 'bottom'"),
    ],
)
def test_what_is_not_there_is_said(where: EdgePart, message: str) -> None:
    with pytest.raises(MeasureError, match=message):
        edge_length_mm(garment(), where)


@pytest.mark.parametrize(
    ("told", "problem"),
    [
        ({"ease_mm": (90, 110)}, None),
        ({"ease_mm": (0, 99)}, "300.0 mm is sewn to 200.0 mm, that is 100.00 mm; meant is 0 to 99 mm"),
        ({"ease_percent": (50, 50)}, None),
        ({"ease_percent": (0, 5)}, "300.0 mm is sewn to 200.0 mm, that is 50.00 %; meant is 0 to 5 %"),
        ({"gather_ratio": (1.5, 2)}, None),
        ({"gather_ratio": (1.6, 2)}, "300.0 mm is sewn to 200.0 mm, that is 1.50 times; meant is 1.6 to 2 times"),
        ({}, "300.0 mm is sewn to 200.0 mm, that is 100.00 mm; meant is equal within 1 mm"),
    ],
)
def test_a_seam_is_held_against_what_is_meant(told: dict[str, Any], problem: str | None) -> None:
    (result,) = check_seams(garment(Seam(name="s", join=(part("b.bottom"),), to=(part("a.bottom"),), **told)))
    assert (result.join_mm, result.to_mm, result.ease_mm) == pytest.approx((300, 200, 100))
    assert (result.ease_percent, result.ratio) == pytest.approx((50, 1.5))
    assert result.problem == problem
    assert result.holds == (problem is None)


def test_chains_are_added_up() -> None:
    chain = Seam(
        name="chain",
        join=(part("b.right"), part("a.bottom", start="third")),
        to=(part("a.left"), part("a.top", times=0.8)),
    )
    (result,) = check_seams(garment(chain))
    assert (result.join_mm, result.to_mm) == pytest.approx((560, 560))
    assert result.holds


def test_equal_means_within_a_millimetre() -> None:
    short = Seam(name="s", join=(part("a.bottom"),), to=(part("b.bottom", times=(200 - 0.99) / 300),))
    long = Seam(name="s", join=(part("a.bottom"),), to=(part("b.bottom", times=(200 - 1.01) / 300),))
    assert [result.holds for result in check_seams(garment(short, long))] == [True, False]


def test_only_seams_whose_condition_holds_are_checked() -> None:
    seam = Seam(name="s", join=(part("c.top"),), to=(part("c.bottom"),), when=when(extra="yes"))
    assert check_seams(garment(seam)) == []
    assert [result.holds for result in check_seams(garment(seam, extra="yes"))] == [True]


def test_a_seam_to_a_piece_that_is_not_there_is_a_problem() -> None:
    (result,) = check_seams(garment(Seam(name="s", join=(part("c.top"),), to=(part("a.top"),))))
    assert result.problem == "there is no piece 'c' in size 92 with {'extra': 'no'}"


@pytest.mark.outside
@pytest.mark.parametrize(("ratio", "holds"), [((2.5, 2.5), True), ((2.6, 3.0), False), ((2.0, 2.4), False)])
def test_gathers_as_in_the_worked_example(ratio: tuple[float, float], holds: bool) -> None:
    """15 in gathered at a ratio of 2.5 are cut 37.5 in long. Source: a published worked example."""
    inch_mm = 25.4
    made = make_garment(
        pattern(
            piece("skirt", four_edges(), rectangle(37.5 * inch_mm, 400)),
            piece("yoke", four_edges(), rectangle(15 * inch_mm, 100)),
            seams=(Seam(name="s", join=(part("skirt.bottom"),), to=(part("yoke.bottom"),), gather_ratio=ratio),),
        ),
        "92",
        {},
    )
    (seam,) = check_seams(made)
    assert seam.holds is holds
