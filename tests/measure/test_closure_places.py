"""Places along a line: which wish gives way to which, worked out on paper, and laws over many lines."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltside.measure.closure_places import NoRoom, Places, Reach, Wish, free, place, reach_of, spaces_mm

ACROSS = Reach(up_mm=2.5, down_mm=2.5)
WISH = Wish(length_mm=300, first_mm=12, last_mm=40, count=5, reach=ACROSS, apart_mm=18)


def test_equal_spaces_between_the_two_ends() -> None:
    # 300 - 12 - 40 = 248 in four spaces of 62.
    assert place(WISH) == Places(mm=(12, 74, 136, 198, 260))


def test_the_number_follows_from_the_wished_space() -> None:
    # 248 / 60 is 4.13: four spaces of 62 come nearer to 60 than five of 49.6 or three of 82.7.
    assert place(replace(WISH, count=None, spacing_mm=60)) == Places(mm=(12, 74, 136, 198, 260))


def test_another_number_makes_way_for_a_seam_where_the_space_was_only_wished() -> None:
    # A seam at 136 bars 128.5 to 143.5: four spaces of 62 have one at 136; five of 49.6 have 111.2 and 160.8.
    found = place(replace(WISH, count=None, spacing_mm=60, crossings_mm=(136,)))
    assert found.mm == pytest.approx((12, 61.6, 111.2, 160.8, 210.4, 260)) and found.other_number and found.equal


def test_spaces_differ_where_the_number_stands() -> None:
    # The third of five has to leave 128.5 to 143.5. From 62 each the spaces become 58.25, 58.25, 65.75, 65.75 with it
    # at 128.5: the least sum of squares, each half shared evenly. The other way, 143.5, is as good; the upper is taken.
    found = place(replace(WISH, crossings_mm=(136,)))
    assert not found.equal and not found.other_number and found.mm[2] == pytest.approx(128.5)
    assert found.mm[1] == pytest.approx((12 + 128.5) / 2, abs=0.5)
    assert found.mm[3] == pytest.approx((128.5 + 260) / 2, abs=0.5)


def test_the_first_and_the_last_make_way_for_a_seam() -> None:
    found = place(replace(WISH, crossings_mm=(10, 262)))
    assert found.mm[0] == 17.5 and found.mm[-1] == 254.5
    assert found.first_moved and found.last_moved and found.equal


def test_both_ends_are_seams() -> None:
    # 2.5 mm of hole and 5 mm of clearance.
    found = place(replace(WISH, first_mm=3, last_mm=0))
    assert found.mm[0] == 7.5 and found.mm[-1] == 292.5


def test_no_room_says_what_is_in_the_way() -> None:
    with pytest.raises(NoRoom, match="60 mm, of which 8 mm lie between the first and the last place"):
        place(replace(WISH, length_mm=60))
    barred = tuple(float(at) for at in range(20, 260, 10))
    with pytest.raises(NoRoom, match="no place that is clear of the cross seams for the one that would sit 74 mm"):
        place(replace(WISH, crossings_mm=barred))


def test_one_alone_sits_at_the_first_place() -> None:
    assert place(replace(WISH, count=1)).mm == (12,)


@pytest.mark.outside
def test_reach_of_a_hole_and_of_a_snap() -> None:
    # Length: diameter and thickness together, 16 mm (Extension Bulletin 57, 1965). 3 mm as for holes across (sewing
    # textbook) and bars of 2 mm are from memory.
    assert reach_of(["button"], 13, 3, "along") == Reach(up_mm=3 + 2, down_mm=16 - 3 + 2)
    assert reach_of(["button"], 13, 3, "across") == Reach(up_mm=2.5, down_mm=2.5)
    assert reach_of(["snap"], 11, 0, None) == Reach(up_mm=5.5, down_mm=5.5)
    # Either may be used: the further reach counts.
    assert reach_of(["button", "snap"], 13, 3, "along") == Reach(up_mm=6.5, down_mm=15)


@st.composite
def wishes(draw: st.DrawFn) -> Wish:
    """Lines with a few seams, as they come."""
    length = draw(st.integers(60, 600))
    counted = draw(st.booleans())
    reach = Reach(up_mm=draw(st.sampled_from([2.5, 5.0, 6.5])), down_mm=draw(st.sampled_from([2.5, 6.5, 15.0])))
    return Wish(
        length_mm=length,
        first_mm=draw(st.integers(0, 40)),
        last_mm=draw(st.integers(0, 60)),
        reach=reach,
        apart_mm=reach.up_mm + reach.down_mm + 5,
        count=draw(st.integers(1, 9)) if counted else None,
        spacing_mm=None if counted else draw(st.integers(30, 90)),
        crossings_mm=tuple(sorted(draw(st.lists(st.integers(1, length - 1), max_size=4)))),
    )


@settings(max_examples=400, deadline=None)
@given(wishes())
def test_laws_of_every_row(wish: Wish) -> None:
    try:
        found = place(wish)
    except NoRoom:
        return
    # Never on a seam, bars included, by 5 mm; in order and apart; the number as said; equal where said so.
    for at in found.mm:
        for seam in (0.0, wish.length_mm, *wish.crossings_mm):
            assert not seam - wish.reach.down_mm - 5 + 0.02 < at < seam + wish.reach.up_mm + 5 - 0.02
        assert free(wish, at)
    spaces = spaces_mm(found)
    assert all(space >= wish.apart_mm - 0.02 for space in spaces)
    if wish.count is not None:
        assert len(found.mm) == wish.count and not found.other_number
    if found.equal and spaces:
        assert max(spaces) - min(spaces) < 1e-6
    if not found.first_moved:
        assert found.mm[0] == wish.first_mm
    if len(found.mm) > 1 and not found.last_moved:
        assert found.mm[-1] == wish.length_mm - wish.last_mm
    assert all(a < b for a, b in pairwise(found.mm))


@settings(max_examples=200, deadline=None)
@given(wishes())
def test_nothing_gives_way_without_a_seam_in_the_way(wish: Wish) -> None:
    low = max(wish.reach.up_mm, wish.reach.down_mm) + 5
    plain = replace(wish, crossings_mm=(), first_mm=max(wish.first_mm, low), last_mm=max(wish.last_mm, low))
    try:
        found = place(plain)
    except NoRoom:
        room = plain.length_mm - plain.first_mm - plain.last_mm
        assert room < ((plain.count or 2) - 1) * plain.apart_mm + 0.02 or room < 0
        return
    assert found.equal and not found.first_moved and not found.last_moved and not found.other_number
