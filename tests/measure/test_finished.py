"""Finished measurements as sums of parts, and their values over all choices."""

from __future__ import annotations

import pytest

from boltside.measure.finished import finished_cases, finished_mm, notion_edge_cases, notion_edge_length_mm
from boltside.measure.garment import make_garment
from boltside.measure.model import MeasureError
from boltside.pattern import (
    Between,
    Case,
    CutOff,
    EdgePart,
    EdgeRule,
    LinePart,
    Measurement,
    Notion,
    Pattern,
    RolePart,
    RolePlay,
)

from .handmade import choice, four_edges, pattern, piece, rectangle, when


def garment_pattern() -> Pattern:
    """A front of 220 by 430 mm on the cutting line, in two sizes, that may be cut off at the waist."""
    shapes = {
        size: rectangle(
            220 + more,
            430,
            points={"middle": (110.0, 430.0)},
            lines={"chest": ((0.0, 300.0), (220.0 + more, 300.0)), "waist": ((0.0, 150.0), (220.0 + more, 150.0))},
        )
        for size, more in (("92", 0), ("98", 20))
    }
    short = CutOff(line="waist", keep="c", edge="waist", allowance_mm=(Case(mm=12),), when=when(length="waist"))
    return pattern(
        piece("front", four_edges(bottom=20), shapes, drawn="cutting", cut_offs=(short,)),
        piece("frill", four_edges(), {"92": rectangle(300, 90), "98": rectangle(320, 90)}, when=when(length="waist")),
        sizes=("92", "98"),
        choices=(choice("length", "hip", "waist"), choice("colour", "red", "blue")),
        roles=(RolePart(role="whole", plays=(RolePlay(piece="front"),)),),
    )


def measure(*parts: EdgePart | Between | LinePart, size: str = "92", length: str = "hip") -> float:
    made = make_garment(garment_pattern(), size, {"length": length, "colour": "red"})
    return finished_mm(made, Measurement(name="m", title="m", parts=parts))


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        (EdgePart(piece="front", edge="top"), 200),
        (EdgePart(piece="as:whole", edge="right", times=2), 800),
        (Between(piece="front", start="a", stop="c"), (200**2 + 400**2) ** 0.5),
        (Between(piece="front", start="a", stop="c", along="x"), 200),
        (Between(piece="front", start="c", stop="a", along="y", times=-1), -400),
        (Between(piece="front", start="d", stop="middle"), 100),
        # A line drawn to the cutting line counts to the stitching line.
        (LinePart(piece="front", line="chest"), 200),
        (LinePart(piece="front", line="chest", times=0.5), 100),
    ],
)
def test_each_part_is_measured_on_the_stitching_line(part: EdgePart | Between | LinePart, expected: float) -> None:
    assert measure(part) == pytest.approx(expected)


def test_parts_are_added_up() -> None:
    assert measure(
        EdgePart(piece="front", edge="top", times=2), LinePart(piece="front", line="chest", times=-1)
    ) == pytest.approx(200)


@pytest.mark.parametrize(
    ("part", "message"),
    [
        (Between(piece="front", start="a", stop="nowhere"), "piece 'front' has no point 'nowhere' here"),
        (LinePart(piece="front", line="nowhere"), "piece 'front' has no line 'nowhere' here"),
        (EdgePart(piece="frill", edge="top"), "there is no piece 'frill'"),
        (EdgePart(piece="front", edge="waist"), "piece 'front' has no edge 'waist' here"),
    ],
)
def test_what_is_not_there_is_said(part: EdgePart | Between | LinePart, message: str) -> None:
    with pytest.raises(MeasureError, match=message):
        measure(part)


def test_values_over_all_choices_come_with_short_conditions() -> None:
    made = garment_pattern()
    side = Measurement(name="side", title="Side", parts=(EdgePart(piece="front", edge="right"),))
    hip, waist = finished_cases(made, side)
    assert (hip.when, hip.mm) == (when(length="hip"), {"92": 400, "98": 400})
    assert (waist.when, waist.mm) == (when(length="waist"), {"92": 258, "98": 258})
    top = Measurement(name="top", title="Top", parts=(EdgePart(piece="as:whole", edge="top"),))
    (case,) = finished_cases(made, top)
    assert (case.when, case.mm) == ((), {"92": 200, "98": 220})


def test_a_measurement_is_taken_only_where_its_condition_holds() -> None:
    frill = Measurement(
        name="frill", title="Frill", parts=(EdgePart(piece="frill", edge="top"),), when=when(length="waist")
    )
    (case,) = finished_cases(garment_pattern(), frill)
    assert (case.when, case.mm) == (when(length="waist"), {"92": 300, "98": 320})


def test_notions_are_tied_to_edges() -> None:
    made = garment_pattern()
    ribbon = Notion(
        name="ribbon",
        title="Ribbon",
        kinds=("ribbon",),
        edge=EdgePart(piece="front", edge="top"),
        rule=EdgeRule(times=2, plus_mm=30),
    )
    # The edge itself: the rule is applied where the answer is made.
    assert notion_edge_length_mm(make_garment(made, "98", {"length": "hip"}), ribbon) == pytest.approx(220)
    (case,) = notion_edge_cases(made, ribbon)
    assert (case.when, case.mm) == ((), {"92": 200, "98": 220})
    loose = Notion(name="thread", title="Thread", kinds=("thread",))
    assert notion_edge_cases(made, loose) == ()
    with pytest.raises(MeasureError, match="the notion 'thread' is tied to no edge"):
        notion_edge_length_mm(make_garment(made, "92", {"length": "hip"}), loose)
