"""The verifier of lays on spread cloth finds every kind of fault that is put into a right lay."""

from dataclasses import replace

import pytest

from boltside.lay.model import LayItem, LayRequest
from boltside.lay.spread_model import SpreadLay, ZonedPlacement, folded_over, to_the_middle
from boltside.lay.spread_verify import spread_faults

HALF = LayItem(item_id="half", outline_mm=((0, 0), (300, 0), (300, 200), (0, 200)), mode="fold", count=1)
WEDGE = LayItem(item_id="wedge", outline_mm=((0, 0), (200, 0), (100, 100), (0, 100)), mode="pair", count=2)
TAB = LayItem(item_id="tab", outline_mm=((0, 0), (50, 0), (40, 60), (0, 60)), mode="single", count=1)
BAR = LayItem(item_id="bar", outline_mm=((0, 0), (80, 0), (80, 40), (0, 40)), mode="single", count=2)


def at(item_id, zone, x_mm, y_mm, *, copy=0, turned=False, mirrored=False):
    return ZonedPlacement(item_id=item_id, copy=copy, x_mm=x_mm, y_mm=y_mm, turned=turned, mirrored=mirrored, zone=zone)


def wanted(*items, one_way=True):
    return LayRequest(items=items, bolt_width_mm=900.0, way="folded", one_way=one_way)


MIDDLE_REQUEST = wanted(HALF, WEDGE, TAB, BAR)
# Zones 0 to 210 and 240 to 450. On the far fold the half is turned over; so is nothing else, right side up below.
MIDDLE = SpreadLay(
    length_mm=300.0,
    placements=(
        at("half", "right", 0, 450, mirrored=True),
        at("wedge", "left", 0, 0),
        at("tab", "left", 200, 0),
        at("bar", "left", 0, 120),
    ),
    spread=to_the_middle(900.0),
    one_way=True,
)
PART_REQUEST = wanted(HALF, WEDGE, TAB, BAR)
# Folded over 21.5 cm: double 0 to 200, single 215 to 670. The pair and the two bars are cut apart.
PART = SpreadLay(
    length_mm=300.0,
    placements=(
        at("half", "double", 0, 0),
        at("wedge", "single", 0, 215),
        at("wedge", "single", 0, 515, copy=1, mirrored=True),
        at("tab", "single", 200, 300),
        at("bar", "single", 0, 520),
        at("bar", "single", 100, 520, copy=1),
    ),
    spread=folded_over(900.0, 215.0),
    one_way=True,
)


def changed(lay, item_id, copy=0, **values):
    return replace(
        lay,
        placements=tuple(
            replace(one, **values) if (one.item_id, one.copy) == (item_id, copy) else one for one in lay.placements
        ),
    )


def without(lay, item_id, copy=0):
    return replace(lay, placements=tuple(one for one in lay.placements if (one.item_id, one.copy) != (item_id, copy)))


def test_both_lays_are_right():
    assert spread_faults(MIDDLE_REQUEST, MIDDLE) == []
    assert spread_faults(PART_REQUEST, PART) == []


CASES = {
    "one is missing": (without(MIDDLE, "wedge"), "'wedge' gives the copies []"),
    "the second of two is missing": (without(PART, "wedge", 1), "'wedge' gives the copies [0]"),
    "one is there twice": (
        replace(MIDDLE, placements=(*MIDDLE.placements, at("tab", "right", 0, 240))),
        "'tab' gives the copies [0, 0]",
    ),
    "a pair both cut double and apart": (
        changed(PART, "wedge", zone="double", x_mm=0.0, y_mm=100.0),
        "'wedge' gives the copies [0, 1, 1]",
    ),
    "turned round on one-way cloth": (
        changed(MIDDLE, "tab", turned=True, x_mm=250.0, y_mm=60.0),
        "'tab' copy 0 is turned round on one-way cloth",
    ),
    "a single piece face down": (changed(MIDDLE, "tab", mirrored=True, y_mm=60.0), "its face must be up"),
    "two that are not mirrored": (
        changed(PART, "wedge", 1, mirrored=False, y_mm=415.0),
        "'wedge' has 0 mirrored copies, expected 1",
    ),
    "a half off the fold": (changed(MIDDLE, "half", y_mm=449.9), "'half' copy 0 does not lie on the fold"),
    "a half across the fold": (changed(MIDDLE, "half", mirrored=False), "'half' copy 0 reaches beyond its zone"),
    "a half in single cloth": (changed(PART, "half", zone="single", y_mm=300.0), "is a half and lies in single cloth"),
    "beyond the length": (replace(MIDDLE, length_mm=299.9), "'half' copy 0 reaches beyond a cut end"),
    "on a flap's selvedge": (changed(MIDDLE, "bar", y_mm=171.0), "'bar' copy 0 reaches beyond its zone 'left'"),
    "across the meeting line": (
        changed(MIDDLE, "bar", y_mm=200.0),
        "'bar' copy 0 reaches across the line where the selvedges meet",
    ),
    "on the cloth's selvedge": (
        changed(PART, "bar", y_mm=631.0),
        "'bar' copy 0 lies outside the usable cloth once it is unfolded",
    ),
    "over each other": (changed(MIDDLE, "bar", y_mm=99.0), "'wedge' copy 0 and 'bar' copy 0 overlap by 80.00 mm²"),
    "a waste layer over another piece": (
        replace(MIDDLE, placements=(*MIDDLE.placements[:3], at("bar", "left", 220, 30))),
        "'tab' copy 0 and 'bar' copy 0 overlap",
    ),
    "a zone that is not there": (changed(MIDDLE, "tab", zone="single"), "a zone 'single' that is not there"),
    "another cloth": (replace(MIDDLE, one_way=False), "the lay was made for another cloth"),
    "a piece that nobody wanted": (
        replace(MIDDLE, placements=(*MIDDLE.placements, at("cuff", "right", 0, 240))),
        "'cuff' is laid but not asked for",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_fault_is_found(name):
    lay, sentence = CASES[name]
    found = spread_faults(MIDDLE_REQUEST, lay)
    assert any(sentence in fault for fault in found), found


def test_cloth_that_cannot_lie_so():
    """Folded at 225 of 900, the flap's selvedge ends at 225: a zone of 220 reaches onto it; folds at 225 and 655 have
    flaps of 225 and 245, but only 430 between them."""
    left, right = to_the_middle(900.0).zones
    too_deep = replace(MIDDLE, spread=replace(MIDDLE.spread, zones=(replace(left, to_mm=220.0), right)))
    assert "zone 'left' reaches beyond its flap's usable cloth" in spread_faults(MIDDLE_REQUEST, too_deep)
    nearer = replace(right, from_mm=220.0, to_mm=430.0)
    crossing = replace(MIDDLE, spread=replace(MIDDLE.spread, zones=(left, nearer)))
    assert "the flaps of zones 'left' and 'right' lie over each other" in spread_faults(MIDDLE_REQUEST, crossing)
    double, single = PART.spread.zones
    under = replace(PART, spread=replace(PART.spread, zones=(double, replace(single, from_mm=205.0))))
    assert "zone 'single' lies under the flap of zone 'double'" in spread_faults(PART_REQUEST, under)
    beyond = replace(PART, spread=replace(PART.spread, zones=(double, replace(single, to_mm=672.0))))
    assert "zone 'single' reaches onto a selvedge" in spread_faults(PART_REQUEST, beyond)
